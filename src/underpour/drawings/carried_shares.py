"""What each load uses of what concrete, foam and ground may bear: a bar for each, the limit as a notch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

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
HATCHES = {"concrete": "concrete", "foam": "foam-moulded", "ground": "gravel"}


def carried_shares(loads: Sequence[Borne], system: System, *, width: float, name: str = "What each load uses") -> str:
    """Every load that is told, each with a bar for the concrete, the foam and the ground.

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
    told = [each for each in loads if each.shares]
    reach = min(max([LEAST, *(share.used * 1.05 for each in told for share in each.shares)]), MOST)
    left, right = NAME, width - VALUES
    one = (right - left) / reach
    base, body = HEADING * CAPITAL + 1.0, []
    body.append(letters(0.0, base, name, size=HEADING, weight=600))
    top = base + 2.4
    defs = [hatch.pattern(HATCHES[part], f"uses-{part}", left, top, BAR) for part in HATCHES]
    for each in told:
        for said in _named(each, width):
            top += ROW
            body.append(letters(0.0, top, said, weight=600))
        top += 1.6
        for share in sorted(each.shares, key=lambda s: -s.used):
            body += _bar(share, left, right, one, top, system)
            top += PITCH
        body.append(line(left + one, top - PITCH * len(each.shares) - 0.8, left + one, top - PITCH + BAR + 0.8, BOLD))
        top += 1.2
    body.append(
        letters(left + one, top + LETTER * CAPITAL, "all of it", anchor="middle", colour=colours.light()["note"])
    )
    return picture(
        wide=width,
        high=top + LETTER * CAPITAL + 1.6,
        title=name,
        description=shares_in_words(told),
        defs=defs,
        body=body,
    )


def _named(borne: Borne, room: float) -> list[str]:
    where = f", {borne.where}" if borne.where else ""
    return wrapped(f"{borne.number}  {borne.words}{where}", room, weight=600)


def _bar(share: Share, left: float, right: float, one: float, top: float, system: System) -> Iterator[str]:
    """One bar, hatched up to the limit and dotted beyond it; a bar longer than the sheet ends in two strokes."""
    theme = colours.light()
    over = share.used > 1.0
    ink = theme["short" if over else "ink"]
    base = top + BAR / 2 + LETTER * CAPITAL / 2
    yield letters(0.0, base, share.part, colour=ink)
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
    felt, bears = (say.value(each / 1000.0, "kPa", system) for each in (share.felt, share.bears))
    yield letters(right + 3.0, base, used, weight=600, colour=ink)
    yield letters(
        right + 3.0 + max(width(used, weight=600), 11.0) + 2.0, base, f"{felt} of {bears}", colour=theme["note"]
    )


def _outline(x: float, y: float, wide: float, colour: str, extra: str) -> str:
    return (
        f'<rect x="{mm(x)}" y="{mm(y)}" width="{mm(wide)}" height="{BAR:g}" fill="none" stroke="{colour}" '
        f'stroke-width="{HAIR + 0.17:g}"{extra}/>'
    )
