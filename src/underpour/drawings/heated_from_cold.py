"""How a heated floor warms up: surface and water over the hours, when it is warm, and how soon it was to be."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..checks.warm.seen import FromCold, Heated
from ..measure import say
from ..measure.table import System
from . import colours
from .heated_words import cold_in_words
from .lettering import CAPITAL, HEADING, LETTER
from .lettering import width as breadth
from .one_section import paragraph
from .paper import BOLD, FINE, HAIR, INK, letters, line, mm, path, picture, rectangle, stroke
from .ruled import CAP, ROW, Ruled, beside, decade, marks_across, marks_up, titled

TITLE = "From cold, hour by hour"
HIGH = 40.0  # mm, the curves
NAMES = 54.0  # mm at the right
MARKS = 15.0  # mm of that for the marks
ABOVE = 8.0  # mm above the curves, for the hours that are named


def heated_from_cold(of: Heated, system: System, *, width: float) -> str:
    """The floor's surface over the hours, from ten degrees cooler until it gives nine tenths of its load.

    Parameters
    ----------
    of : Heated
        A heated floor that has been worked out.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. Bold is the floor's surface, fine the water; what is wanted is a dashed
        line, how soon it was asked for a dashed upright.
    """
    drawn, high = cold_drawn(of, system, width=width)
    return picture(wide=width, high=high, title=TITLE, description=cold_in_words(of, system), defs=(), body=[drawn])


def cold_drawn(of: Heated, system: System, *, width: float, name: str = "") -> tuple[str, float]:
    """What is drawn, and how high it is, for a page that has its own sheet [mm]; ``name`` is the version's."""
    cold = of.from_cold
    base = HEADING * CAPITAL + 1.0
    field = _field(of, system, base + 2.0 + ABOVE, width)
    hours = np.asarray(cold.hours, float)
    floor, water = (_in(system, each) for each in (cold.floor, cold.water))
    wanted = field.y(say.number(cold.wanted, "degC", system))
    foot, high = paragraph(cold_in_words(of, system), 0.0, field.bottom + 3.0 * ROW, width)
    body = [
        letters(0.0, base, titled(TITLE, name), size=HEADING, weight=600),
        *marks_up(field, decade(*field.up, 7), say.name("degC", system)),
        *marks_across(field, "hours", 8),
        line(field.left, wanted, field.right, wanted, FINE, extra=' stroke-dasharray="2.4 1.2"'),
        stroke(path(field.points(hours, water), closed=False), FINE),
        stroke(path(field.points(hours, floor), closed=False), BOLD),
        *_hours(cold, field, wanted),
        *_words(of, field, system, width),
        foot,
    ]
    return "".join(body), high + 1.0


def _in(system: System, degrees: object) -> np.ndarray:
    return np.array([say.number(float(each), "degC", system) for each in np.asarray(degrees, float)])


def _field(of: Heated, system: System, top: float, width: float) -> Ruled:
    cold = of.from_cold
    ends = cold.start, max(float(cold.water.max()), cold.wanted, of.room)
    low, high = (say.number(each, "degC", system) for each in ends)
    values = decade(low, high, 7)
    return Ruled(0.4, top, width - NAMES, HIGH, (0.0, float(cold.hours[-1])), (values[0], values[-1]))


def _hours(cold: FromCold, field: Ruled, wanted: float) -> Iterator[str]:
    """When the floor is warm, and how soon it was to be: uprights with their hours above the curves."""
    theme = colours.light()
    named = []
    if cold.reached is not None:
        x = field.x(cold.reached)
        yield line(x, field.top - 1.0, x, field.bottom, HAIR)
        yield f'<circle cx="{mm(x)}" cy="{mm(wanted)}" r="0.9" fill="{INK}"/>'
        named.append((x, f"warm after {_said(cold.reached)}"))
    if cold.within is not None:
        x = field.x(cold.within)
        yield line(x, field.top - 1.0, x, field.bottom, FINE, extra=' stroke-dasharray="2.4 1.2"')
        named.append((x, f"asked for {_said(cold.within)}"))
    taken = -np.inf
    for n, (x, said) in enumerate(sorted(named)):
        half = breadth(said, LETTER, 600) / 2.0
        at = min(max(x, field.left + half), field.right - half)
        base = field.top - 2.4 if at - half > taken + 1.0 else field.top - 2.4 - ROW
        if n and base < field.top - 3.0:
            yield line(x, field.top - 1.0, x, base + 0.6, HAIR, colour=theme["frame"])
        yield rectangle(at - half - 0.3, base - CAP - 0.2, 2.0 * half + 0.6, CAP + 0.6, theme["leaf"])
        yield letters(at, base, said, anchor="middle", weight=600)
        taken = at + half


def _said(hours: float) -> str:
    return say.value(hours, "h", "SI")


def _words(of: Heated, field: Ruled, system: System, width: float) -> Iterator[str]:
    """Right of the curves: which is which, and the two levels."""
    cold = of.from_cold
    left = field.right + MARKS

    def level(temperature: float) -> float:
        return field.y(say.number(temperature, "degC", system))

    def said(temperature: float) -> str:
        return say.value(temperature, "degC", system)

    rows = [
        (level(float(cold.water[-1])), "at the cable" if of.electric else "water, on its mean", 400),
        (level(cold.wanted), f"{said(cold.wanted)}, wanted of the floor", 600),
        (level(float(cold.floor[-1])), "floor's surface", 600),
        (level(of.room), f"{said(of.room)}, the room, kept", 400),
    ]
    span = (field.top - ROW, field.bottom + ROW)
    yield line(field.left, level(of.room), field.right, level(of.room), HAIR, colour=colours.light()["frame"])
    yield from beside(rows, left, width - left, span, field.right + MARKS - 2.0)
