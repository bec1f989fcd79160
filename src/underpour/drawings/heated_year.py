"""A heated floor month by month: what goes up into the room and what goes down, one row for each version."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..checks.warm.seen import Heated
from ..measure import say
from ..measure.digits import fixed
from ..measure.table import System
from . import colours
from .heated_words import year_in_words
from .lettering import CAPITAL, HEADING, LETTER, cut_to
from .one_section import paragraph
from .paper import FINE, HAIR, INK, letters, line, mm, picture, rectangle
from .ruled import CAP, ROW
from .when import MONTHS

TITLE = "What goes up and what goes down, month by month"
NAME = 40.0  # mm, what each row of numbers is
SHARES = 30.0  # mm at the right, the shares of the season
UP, DOWN = 20.0, 11.0  # mm, the most that a column reaches
BESIDE = 3.2 * ROW  # mm, what the shares at the right take above the line
BROAD = 0.55  # of a month


def heated_year(versions: Mapping[str, Heated], system: System, *, width: float) -> str:
    """Twelve columns up and down for each version, all on one scale, with what the water must be.

    Parameters
    ----------
    versions : mapping of str to Heated
        Heated floors by the names of their versions.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. Open columns go up into the room, filled ones down; months without heat
        have none.
    """
    drawn, high = year_drawn(versions, system, width=width)
    said = year_in_words(versions, system)
    return picture(wide=width, high=high, title=TITLE, description=said, defs=(), body=[drawn])


def year_drawn(versions: Mapping[str, Heated], system: System, *, width: float) -> tuple[str, float]:
    """What is drawn, and how high it is, for a page that has its own sheet. [mm]"""
    theme = colours.light()
    base = HEADING * CAPITAL + 1.0
    body = [letters(0.0, base, TITLE, size=HEADING, weight=600)]
    body.append(letters(width, base, f"in {say.name('W/m²', system)}", anchor="end", colour=theme["note"]))
    most_up = max(max(of.year.up) for of in versions.values())
    most_down = max(max(of.year.down) for of in versions.values())
    each = (width - NAME - SHARES) / 12.0
    scale = min(UP / most_up, DOWN / most_down if most_down > 0.0 else UP / most_up)  # one for both ways
    top = base + 3.0
    for name, of in versions.items():
        if len(versions) > 1:
            top += ROW
            body.append(line(0.0, top - ROW + 0.4, width, top - ROW + 0.4, HAIR, colour=theme["rule"]))
            body.append(letters(0.0, top, cut_to(f"{name[0].upper()}{name[1:]}", width, LETTER, 600), weight=600))
        drawn, top = _row(of, system, top, each, scale, width)
        body += drawn
    words = "Open: up into the room. Filled: down into the ground. Means of months, the settled year."
    words = f"{words} {year_in_words(versions, system)}" if len(versions) == 1 else words
    foot, high = paragraph(words, 0.0, top + ROW, width)
    return "".join([*body, foot]), high + 1.0


def _row(of: Heated, system: System, top: float, each: float, scale: float, width: float) -> tuple[list[str], float]:
    """One version: columns with their numbers, months, what the water must be, the shares; and where it ends."""
    theme, year = colours.light(), of.year
    up = [say.number(value, "W/m²", system) for value in year.up]
    down = [say.number(value, "W/m²", system) for value in year.down]
    places = 1 if max(up) < 9.95 else 0
    zero = top + max(ROW + max(year.up) * scale + 1.0, BESIDE)  # the shares have room above the line too
    low = zero + max(max(year.down), 0.0) * scale + CAP + 2.2
    drawn = [line(NAME, zero, NAME + 12.0 * each, zero, FINE)]
    drawn.append(letters(0.0, zero - 1.6, "up, into the room"))
    drawn.append(letters(0.0, zero + CAP + 1.6, "down"))
    months = low + ROW
    for n, name in enumerate(MONTHS):
        middle = NAME + (n + 0.5) * each
        drawn.append(letters(middle, months, name[0], anchor="middle", weight=600))
        if year.heated[n]:
            drawn += _column(middle, zero, each, (year.up[n] * scale, year.down[n] * scale))
            drawn.append(letters(middle, zero - year.up[n] * scale - 0.9, fixed(up[n], places), anchor="middle"))
            below = zero + max(year.down[n], 0.0) * scale + CAP + 0.9
            drawn.append(letters(middle, below, fixed(down[n], 1), anchor="middle"))
    drawn += _shares(of, zero, width)
    end = months
    for name, told in _below(of, system):
        end += ROW
        drawn.append(letters(0.0, end, name, colour=theme["note"]))
        drawn += [
            letters(NAME + (n + 0.5) * each, end, said, anchor="middle")
            for n, said in enumerate(told)
            if year.heated[n]
        ]
    return drawn, end + 2.0


def _below(of: Heated, system: System) -> Iterator[tuple[str, list[str]]]:
    """Rows of numbers below the months: what the water must be, and what a heat pump gives for its electricity."""
    year = of.year
    if year.supply is not None:
        unit = say.name("degC", system)
        yield f"water in, {unit}", [fixed(say.number(each, "degC", system), 0) for each in year.supply]
    if year.pump is not None:
        yield "heat pump, times", [fixed(each, 1) for each in year.pump]


def _column(middle: float, zero: float, each: float, high: tuple[float, float]) -> Iterator[str]:
    up, down = high
    left, wide = middle - BROAD * each / 2.0, BROAD * each
    if up > 0.0:
        yield (
            f'<rect x="{mm(left)}" y="{mm(zero - up)}" width="{mm(wide)}" height="{mm(up)}" '
            f'fill="{colours.light()["shade"]}" stroke="{INK}" stroke-width="{FINE:g}"/>'
        )
    if down > 0.0:
        yield rectangle(left, zero, wide, down, INK)


def _shares(of: Heated, zero: float, width: float) -> Iterator[str]:
    """Both definitions of what goes down, at the right."""
    note, left = colours.light()["note"], width - SHARES + 2.0
    rows = (("down / up", of.year.of_up), ("down / (up + down)", of.year.of_total))
    for n, (said, share) in enumerate(rows):
        y = zero - 2.2 * ROW + 2.4 * ROW * n
        yield letters(left, y, said, colour=note)
        yield letters(left, y + ROW, f"{fixed(100.0 * share, 0)} %", size=HEADING, weight=600)
