"""What each load uses of what concrete, foam and ground may bear, and of an inch: a bar for each, the limit a notch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..checks.bearing import Borne, Share
from ..measure import say
from ..measure.table import System
from . import colours, hatch
from .carried_words import percent_used, shares_in_words
from .lettering import CAPITAL, HEADING, LETTER, width, wrapped
from .paper import BOLD, FINE, HAIR, LINE, letters, line, mm, picture, rectangle

NAME = 19.0  # mm, names of the parts
VALUES = 62.0  # mm, what is felt and what may be, behind the bars
BAR, PITCH = 3.2, 5.2  # mm, a bar's height, and from bar to bar
ROW = LETTER * 1.25  # mm
LEAST, MOST = 1.25, 2.5  # shares that the bars reach at least and at most
HATCHES = {
    "concrete": "concrete",
    "shear": "concrete-old",
    "foam": "foam-moulded",
    "ground": "gravel",
    "settlement": "sand",
}


def carried_shares(loads: Sequence[Borne], system: System, *, width: float, name: str = "What each load uses") -> str:
    """Every load that is told, each with a bar for concrete, its shear, foam, ground and settlement.

    Parameters
    ----------
    loads : sequence of Borne
        In the order of the brief; those that cannot be told are left out.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]
    name : str
        Its heading.

    Returns
    -------
    str
        An SVG document that stands alone. A bar that reaches past the notch has used up more than there is: what is too
        much is open and dotted. Each part has its own hatch.
    """
    return _drawn({"": loads}, system, width, name, shares_in_words(loads))


def carried_shares_compared(
    alternatives: Mapping[str, Sequence[Borne]], system: System, *, width: float, name: str = "What each load uses"
) -> str:
    """The same for several alternatives below one another, on one scale.

    Parameters
    ----------
    alternatives : mapping of str to sequence of Borne
        The loads of each, by its name.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]
    name : str
        Its heading.

    Returns
    -------
    str
        An SVG document that stands alone.
    """
    words = " ".join(f"{one[0].upper()}{one[1:]}: {shares_in_words(loads)}" for one, loads in alternatives.items())
    return _drawn(alternatives, system, width, name, words)


def _drawn(
    alternatives: Mapping[str, Sequence[Borne]], system: System, width: float, name: str, description: str
) -> str:
    told = {one: [each for each in loads if each.shares] for one, loads in alternatives.items()}
    used = [share.used * 1.05 for loads in told.values() for each in loads for share in each.shares]
    left, right = NAME, width - VALUES
    one_whole = (right - left) / min(max([LEAST, *used]), MOST)
    top = HEADING * CAPITAL + 1.0
    body = [letters(0.0, top, name, size=HEADING, weight=600)]
    top += 2.4
    defs = hatches(left, top)
    for one, loads in told.items():
        if one:
            top += ROW + 2.0
            body.append(line(0.0, top - ROW - 0.6, width, top - ROW - 0.6, HAIR, colour=colours.light()["rule"]))
            body.append(letters(0.0, top, f"{one[0].upper()}{one[1:]}", size=HEADING))
            top += 1.0
        for each in loads:
            top = _load(each, body, top, (left, right, one_whole), width, system)
    at = left + one_whole
    body.append(letters(at, top + LETTER * CAPITAL, "all of it", anchor="middle", colour=colours.light()["note"]))
    high = top + LETTER * CAPITAL + 1.6
    return picture(wide=width, high=high, title=name, description=description, defs=defs, body=body)


def _load(
    each: Borne, body: list[str], top: float, across: tuple[float, float, float], width: float, system: System
) -> float:
    """One load's bars with the notch through them, added to what is drawn; where the next one begins. [mm]"""
    left, right, one = across
    for said in _named(each, width):
        top += ROW
        body.append(letters(0.0, top, said, weight=600))
    top += 1.6
    for share in sorted(each.shares, key=lambda s: -s.used):
        body += bar(share, share.part, (left, right, one), top, system)
        top += PITCH
    body.append(line(left + one, top - PITCH * len(each.shares) - 0.8, left + one, top - PITCH + BAR + 0.8, BOLD))
    return top + 1.2


def _named(borne: Borne, room: float) -> list[str]:
    where = f", {borne.where}" if borne.where else ""
    return wrapped(f"{borne.number}  {borne.words}{where}", room, weight=600)


def hatches(x: float, y: float) -> list[str]:
    """The patterns of the bars, for the defs."""
    return [hatch.pattern(HATCHES[part], f"uses-{part}", x, y, BAR) for part in HATCHES]


def bar(share: Share, name: str, across: tuple[float, float, float], top: float, system: System) -> Iterator[str]:
    """One bar, hatched up to the limit and dotted beyond it; a bar longer than the sheet ends in two strokes.

    ``across`` is where bars begin, where the longest ends, and how long one whole is. [mm]
    """
    left, right, one = across
    theme = colours.light()
    over = share.used > 1.0
    ink = theme["short" if over else "ink"]
    base = top + BAR / 2 + LETTER * CAPITAL / 2
    yield letters(0.0, base, name, colour=ink)
    end = min(left + share.used * one, right)
    full = min(end, left + one)
    yield rectangle(left, top, full - left, BAR, f"url(#uses-{share.part})")
    yield _outline(left, top, full - left, theme["ink"], "")
    if over:
        yield _outline(full, top, end - full, ink, ' stroke-dasharray="0.4 1.1" stroke-linecap="round"')
    if left + share.used * one > right:
        for x in (right - 2.4, right - 1.4):
            yield line(x, top + BAR + 0.7, x + 1.2, top - 0.7, LINE, colour=ink)
    yield line(left, top - 0.6, left, top + BAR + 0.6, FINE, colour=theme["frame"])
    used = percent_used(share)
    felt, bears = (say.value(each, share.unit, system) for each in share.told)
    yield letters(right + 3.0, base, used, weight=600, colour=ink)
    yield letters(
        right + 3.0 + max(width(used, weight=600), 11.0) + 2.0, base, f"{felt} of {bears}", colour=theme["note"]
    )


def _outline(x: float, y: float, wide: float, colour: str, extra: str) -> str:
    return (
        f'<rect x="{mm(x)}" y="{mm(y)}" width="{mm(wide)}" height="{BAR:g}" fill="none" stroke="{colour}" '
        f'stroke-width="{HAIR + 0.17:g}"{extra}/>'
    )
