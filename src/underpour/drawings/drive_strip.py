"""Which way vapour goes at each interface of the floor, month by month: bars above and below a level line."""

from __future__ import annotations

from collections.abc import Iterator

from ..checks.damp_seen import Through
from ..measure.digits import fixed
from . import colours
from .damp_words import drive_in_words, passing, way, where_words
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .paper import BOLD, FINE, HAIR, INK, letters, line, mm, picture
from .water_lines import filled, lines
from .when import MONTHS

NAME = 62.0  # mm
MOST = 32.0  # mm, how much goes
HALF = 4.6  # mm, the highest bar
PITCH = 11.4  # mm, from row to row
LEAD = LETTER * 1.25
TITLE = "Which way vapour goes, month by month"
READ_AS = (
    "A bar above its line is vapour that goes up towards the room, one below it vapour that goes down; each row has "
    "its own scale. Filled with lines on both sides: water gathers there. Open and broken: it dries."
)


def drive_strip(of: Through, *, width: float) -> str:
    """Twelve bars at each interface, up or down, and where water gathers and dries.

    Parameters
    ----------
    of : Through
        Vapour at one place of the floor.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone.
    """
    theme = colours.light()
    each = (width - NAME - MOST) / 12.0
    base = HEADING * CAPITAL + 1.0
    body = [letters(0.0, base, TITLE, size=HEADING, weight=600)]
    body.append(letters(width, base, where_words(of), anchor="end", colour=theme["note"]))
    top = base + 2.0 + LEAD
    for n, month in enumerate(MONTHS):
        body.append(letters(NAME + (n + 0.5) * each, top, month[0], anchor="middle", weight=600))
    body.append(letters(width, top, "most in a month", anchor="end", colour=theme["note"]))
    top += 2.0
    for n in range(len(of.layers) + 1):
        middle = top + HALF
        body += _row(of, n, middle, each, width)
        top += PITCH
    for said in wrapped(READ_AS, width):
        top += LEAD
        body.append(letters(0.0, top, said))
    return picture(
        wide=width, high=top + 1.5, title=TITLE, description=f"{drive_in_words(of)} {READ_AS}", defs=(), body=body
    )


def _row(of: Through, n: int, middle: float, each: float, wide: float) -> Iterator[str]:
    """One interface."""
    theme = colours.light()
    told = [passing(of, n, m) for m in range(12)]
    most = max(max(abs(a), abs(b)) for a, b in told)
    said = wrapped(of.between(n), NAME - 3.0)
    said = [said[0], cut_to(" ".join(said[1:]), NAME - 3.0)] if len(said) > 1 else said
    for k, words in enumerate(said):
        yield letters(0.0, middle + LETTER * CAPITAL / 2.0 + (k - (len(said) - 1) / 2.0) * 0.92 * LEAD, words)
    yield line(NAME, middle, NAME + 12.0 * each, middle, FINE)
    water: list[str] = []
    for m, (above, below) in enumerate(told):
        left, right = NAME + m * each + 0.9, NAME + (m + 1) * each - 0.9
        here = way(of, n, m)
        high = max(abs(above), abs(below)) / most * HALF if most > 0.0 else 0.0
        if here == "still":
            continue
        up = high if here in ("up", "gathers", "dries") else 0.0
        down = high if here in ("down", "gathers", "dries") else 0.0
        if here == "gathers":
            water.append(filled((left + 0.2, middle - up + 0.2, right - 0.2, middle + down - 0.2), 4))
        broken = ' stroke-dasharray="1.1 0.8"' if here == "dries" else ""
        fill = theme["shade"] if here in ("up", "down") else "none"
        yield (
            f'<rect x="{mm(left)}" y="{mm(middle - up)}" width="{mm(right - left)}" height="{mm(up + down)}" '
            f'fill="{fill}" stroke="{INK}" stroke-width="{BOLD if here == "gathers" else HAIR + 0.07:g}"{broken}/>'
        )
    yield lines(water)
    amount = f"{fixed(most, 1)} g/m²" if most >= 0.05 else "next to nothing"
    yield letters(wide, middle + LETTER * CAPITAL / 2.0, amount, anchor="end")
