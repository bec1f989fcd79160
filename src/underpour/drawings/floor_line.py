"""The floor line: surface temperature along the floor, under the section and on its horizontal scale."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..measure import say
from ..measure.table import System
from ..physics.conduction.field import Field
from . import colours
from .lettering import CAPITAL, LETTER, width, wrapped
from .paper import BOLD, FINE, HAIR, Frame, dot, letters, line, path, stroke
from .scale import celsius

STEPS = (1, 2, 5, 10, 20)  # degrees between two marks beside the floor line
ROWS = 4  # steps between the lowest mark and the highest, at most
MARKS = 11.0  # mm at the right end, for the marks
CAP = LETTER * CAPITAL  # mm, height of a capital


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit that the floor is held to, drawn as a dashed line."""

    temperature: float  # degC
    words: str


@dataclass(frozen=True, slots=True)
class Span:
    """The range of the floor line, in the reader's own degrees, the same for all that are compared."""

    system: System
    marks: tuple[int, ...]

    def height(self, temperature: float) -> float:
        """0 at the lowest mark, 1 at the highest. [degC in]"""
        shown = say.number(temperature, "degC", self.system)
        return (shown - self.marks[0]) / (self.marks[-1] - self.marks[0])


@dataclass(frozen=True, slots=True)
class Strip:
    """Where the floor line is drawn. [mm]"""

    frame: Frame  # of the section above it
    top: float
    high: float
    end: float  # where the floor ends on the sheet, or leaves the drawing


def shared_span(fields: Iterable[Field], year_fraction: float, system: System, limit: Limit | None) -> Span:
    """The range that holds every floor at that moment, and the limit where there is one."""
    return span_of_moments(fields, (year_fraction,), system, limit)


def span_of_moments(
    fields: Iterable[Field], year_fractions: Sequence[float], system: System, limit: Limit | None
) -> Span:
    """The range that holds every floor at several moments, and the limit where there is one."""
    floors = [field.floor_at(f) for field in fields for f in year_fractions]
    low = min(float(np.min(f)) for f in floors)
    high = max(float(np.max(f)) for f in floors)
    if limit:
        low, high = min(low, limit.temperature), max(high, limit.temperature)
    low, high = (say.number(t, "degC", system) for t in (low, high))
    for step in STEPS:
        first, last = math.floor(low / step), math.ceil(high / step)
        if last - first <= ROWS or step == STEPS[-1]:
            break
    return Span(system, tuple(k * step for k in range(first, max(last, first + 1) + 1)))


def floor_line(field: Field, year_fraction: float, span: Span, strip: Strip, limit: Limit | None, coldest: str) -> str:
    """The line with its marks, the limit, and its coldest point named ``coldest`` to the left of the floor."""
    x, degrees = _shown(field, year_fraction, strip)
    if x.size < 2:
        return ""

    def level(temperature: float) -> float:
        return strip.top + strip.high * (1.0 - span.height(temperature))

    start, end = float(x[0]), float(x[-1])
    rule, note = colours.light()["rule"], colours.light()["note"]
    drawn = []
    for mark in span.marks:
        y = level(celsius(mark, span.system))
        said = str(mark).replace("-", "\u2212") + f" {say.name('degC', span.system)}" * (mark == span.marks[-1])
        drawn.append(line(start, y, end, y, HAIR, colour=rule))
        drawn.append(letters(strip.frame.right, y + CAP / 2, said, anchor="end", colour=note))
    heights = np.array([level(float(t)) for t in degrees])
    if limit:
        drawn.append(_limit(limit, level(limit.temperature), x, heights))
    drawn.append(stroke(path(zip(x, heights, strict=True), closed=False), BOLD))
    k = int(np.argmin(degrees))
    return "".join(drawn) + _named(coldest, float(x[k]), float(heights[k]), strip, start)


def _shown(field: Field, year_fraction: float, strip: Strip) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Places on the sheet and temperatures, from the wall to the end of the floor or of the drawing."""
    x = strip.frame.x(field.floor_x.astype(float))
    degrees = field.floor_at(year_fraction)
    end = min(strip.end, strip.frame.right - MARKS)
    seen = (x >= strip.frame.left) & (x < end - 1e-6)
    return np.r_[x[seen], end], np.r_[degrees[seen], np.interp(end, x, degrees)]


def _limit(limit: Limit, y: float, x: NDArray[np.float64], heights: NDArray[np.float64]) -> str:
    """The dashed line with its words above it, or below where the floor line runs there."""
    end = float(x[-1])
    near = heights[x > end - width(limit.words) - 1.0]
    base = y + CAP + 0.9 if ((near < y + 0.3) & (near > y - CAP - 1.6)).any() else y - 0.9
    dashes = line(float(x[0]), y, end, y, FINE, extra=' stroke-dasharray="2.4 1.2"')
    return dashes + letters(end, base, limit.words, anchor="end")


def _named(coldest: str, x: float, y: float, strip: Strip, start: float) -> str:
    """The coldest point with its words before the floor's beginning, or under the point where there is no room."""
    room = start - strip.frame.left - 3.0
    lines = wrapped(coldest, room, weight=600) if room > 12.0 else []
    if lines and len(lines) < 4:
        first = min(max(y + CAP / 2 - (len(lines) - 1) * 0.6 * LETTER, strip.top + CAP), strip.top + strip.high)
        words = "".join(
            letters(start - 2.2, first + n * 1.2 * LETTER, said, anchor="end", weight=600)
            for n, said in enumerate(lines)
        )
    else:
        words = letters(x + 2.0, min(y + CAP + 1.6, strip.top + strip.high), coldest, weight=600)
    return words + dot(x, y, 0.8)
