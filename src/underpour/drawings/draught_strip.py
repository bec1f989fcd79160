"""A pipe that draws by itself, month by month: its draught as bars, up or down, and what comes of it below."""

from __future__ import annotations

from collections.abc import Iterator

from ..checks.soil_gas.drawn_off import ByItself
from ..measure import say
from ..measure.digits import fixed
from ..measure.table import System
from . import colours
from .lettering import CAPITAL, HEADING, LETTER, wrapped
from .paper import BOLD, FINE, HAIR, INK, letters, line, mm, picture
from .when import MONTHS

TITLE = "What the pipe draws by itself, month by month"
NAME = 46.0  # mm
HALF = 11.0  # mm, the highest bar
LEAD = LETTER * 1.25
PRESSURE = {"SI": 1, "US": 3}  # places of a draught: 0.1 Pa, 0.001 in of water
CORNER = {"SI": 2, "US": 3}  # the same at the weakest corner
FLOW = {"SI": 2, "US": 1}  # of l/s, of cfm


def draught_strip(of: ByItself, system: System, *, width: float) -> str:
    """Twelve bars: above the line the pipe draws, below it blows outdoor air down below the slab.

    Parameters
    ----------
    of : ByItself
        January first.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. A bar of a month in which the pipe blows down is open and dotted.
    """
    body, high = draught_rows(of, system, width=width)
    words = months_in_words(of, system)
    return picture(wide=width, high=high, title=TITLE, description=words, defs=(), body=[body])


def draught_rows(of: ByItself, system: System, *, width: float) -> tuple[str, float]:
    """What is drawn in the picture, and how high it is, for a sheet that has more on it. [mm]"""
    theme = colours.light()
    each = (width - NAME) / 12.0
    base = HEADING * CAPITAL + 1.0
    body = [letters(0.0, base, TITLE, size=HEADING, weight=600)]
    top = base + 2.0 + LEAD
    for n, month in enumerate(MONTHS):
        body.append(letters(NAME + (n + 0.5) * each, top, month[0], anchor="middle", weight=600))
    up, down = max(0.0, *of.draught), max(0.0, *(-pull for pull in of.draught))
    per = HALF / max(up, down, 1e-9)
    middle = top + 2.0 + LEAD + up * per
    body += _bars(of, middle, per, each, system)
    body.append(letters(0.0, middle + CAPITAL * LETTER / 2.0, f"draught, {say.name('Pa', system)}"))
    top = middle + down * per + 2.0 * LEAD
    rows = (
        (f"up the pipe, {say.name('m³/s', system)}", of.flow, "m³/s", FLOW[system]),
        (f"weakest corner, {say.name('Pa', system)}", of.weakest, "Pa", CORNER[system]),
    )
    for name, values, unit, places in rows:
        body.append(line(0.0, top - LEAD + 0.5, width, top - LEAD + 0.5, HAIR, colour=theme["rule"]))
        body.append(letters(0.0, top, name))
        for n, value in enumerate(values):
            said = fixed(say.number(value, unit, system), places)
            colour = theme["short"] if unit == "Pa" and value < 0.0 else INK
            body.append(letters(NAME + (n + 0.5) * each, top, said, anchor="middle", colour=colour))
        top += LEAD + 1.0
    top += 1.0
    for said in wrapped(months_in_words(of, system), width):
        body.append(letters(0.0, top, said))
        top += LEAD
    return "".join(body), top - LEAD + 1.5


def months_in_words(of: ByItself, system: System) -> str:
    """What the picture shows, in words."""
    best = max(range(12), key=lambda n: of.draught[n])
    words = f"It draws most in {MONTHS[best]}, by {say.both(of.draught[best], 'Pa', system)}."
    back = [n for n, flow in enumerate(of.flow) if flow < 0.0]
    if back:
        when = "every month" if len(back) == 12 else _listed(back)
        words += f" It blows down below the slab in {when}: its bars are open there."
    return f"{words} Weakest corner: below the room at its worst that month; wind is not in it."


def _listed(months: list[int]) -> str:
    names = [MONTHS[n] for n in months]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _bars(of: ByItself, middle: float, per: float, each: float, system: System) -> Iterator[str]:
    theme = colours.light()
    yield line(NAME, middle, NAME + 12.0 * each, middle, FINE)
    for n, pull in enumerate(of.draught):
        left, right = NAME + n * each + 1.6, NAME + (n + 1) * each - 1.6
        high = abs(pull) * per
        blows = of.flow[n] < 0.0
        style = (
            f'fill="none" stroke="{INK}" stroke-width="{BOLD:g}" stroke-dasharray="0.8 0.8"'
            if blows
            else (f'fill="{theme["shade"]}" stroke="{INK}" stroke-width="{FINE:g}"')
        )
        y = middle - high if pull > 0.0 else middle
        yield f'<rect x="{mm(left)}" y="{mm(y)}" width="{mm(right - left)}" height="{mm(high)}" {style}/>'
        said = fixed(say.number(pull, "Pa", system), PRESSURE[system])
        at = middle - high - 1.0 if pull > 0.0 else middle + high + 1.0 + CAPITAL * LETTER
        yield letters((left + right) / 2.0, at, said, anchor="middle")
