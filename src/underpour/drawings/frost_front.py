"""Frost through the winter: how deep the 0 °C line lies day by day, and a bar for the deepest of each stage."""

from __future__ import annotations

from calendar import month_abbr
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..checks.frozen import Wintered
from ..measure import say
from ..measure.table import System
from . import colours
from .frost_words import OPEN_GROUND, STAGES, depth_words
from .lettering import CAPITAL, LETTER, cut_to
from .levels import levels, written
from .paper import BOLD, FINE, HAIR, HEAVY, LINE, dot, letters, line, mm, path, rectangle, stroke

Place = Callable[[float], float]  # from a day or a depth to the sheet
Days = NDArray[np.float64]
WORKS = ("poured", "roofed", "heated")
PENS = {  # breadth and dashes: told apart in grey and by whoever sees no colour
    OPEN_GROUND: (FINE, ' stroke-dasharray="1.6 0.9"'),
    "in use": (BOLD, ""),
    "open": (BOLD, ""),
    "poured": (HEAVY, ' stroke-dasharray="5 0.8"'),
    "roofed": (HEAVY, ' stroke-dasharray="5 0.8 0.8 0.8"'),
    "heated": (HEAVY, ' stroke-dasharray="2.6 0.8 0.8 0.8 0.8 0.8"'),
    "heat-out": (BOLD, ' stroke-dasharray="0.6 0.9"'),
    "vacant": (BOLD, ' stroke-dasharray="2.6 1.2"'),
}
HIGH = 30.0  # mm, the days
AXIS = 9.0  # mm, what is written at its left
SAMPLE = 11.0  # mm, a line in the key
NAME = 31.0  # mm, of a stage, behind the sample
BAR, PITCH = 2.6, 4.6  # mm
VALUE = 15.0  # mm, the number behind a bar


@dataclass(frozen=True, slots=True)
class Span:
    """What all alternatives of a picture share."""

    first: float  # day, as part of the year, counted through the new year
    last: float
    deepest: float  # m


def span_of(winters: Sequence[Wintered], place: str) -> Span:
    """From the first day of all to the last, and down to the deepest of all, what bears among them."""
    days = [_days(each, winters) for each in winters]
    reaches = [each.reaches[name] for each in winters for name in (place, OPEN_GROUND)]
    deep = max(max(r.deepest for r in reaches), max(r.stop for r in reaches if np.isfinite(r.stop)), 0.1)
    return Span(min(float(d[0]) for d in days), max(float(d[-1]) for d in days), 1.06 * deep)


def front_drawn(
    winters: Sequence[Wintered], place: str, span: Span, box: tuple[float, float, float], system: System
) -> tuple[str, float]:
    """Day by day, then the bars; left, top and breadth of it are given, and where it ends is told. [mm]"""
    left, top, wide = box
    right, head = left + wide, top
    start = left + AXIS
    theme = colours.light()

    def x(day: float) -> float:
        return start + (day - span.first) / (span.last - span.first) * (right - start)

    def y(depth: float) -> float:
        return head + depth / span.deepest * HIGH

    body = [*_axes(x, y, span, start, right, system)]
    stop = winters[0].reaches[place].stop
    if stop > 0.0:
        body.append(line(start, y(stop), right, y(stop), LINE, extra=' stroke-dasharray="7 1.4"'))
    usual = next((each for each in winters if each.stage not in WORKS), winters[0])
    body += _front(_days(usual, winters), usual.reaches[OPEN_GROUND].depths, OPEN_GROUND, x, y)
    for each in winters:
        days = _days(each, winters)
        body += _front(days, each.reaches[place].depths, each.stage, x, y)
        if each.stage in WORKS:
            at = x(float(days[0]))
            body.append(line(at, head - 1.2, at, head + HIGH, HAIR, colour=theme["note"]) + dot(at, head, 0.6))
    foot = head + HIGH + LETTER * CAPITAL + 1.2
    rows = [(OPEN_GROUND, usual.reaches[OPEN_GROUND].deepest), *((w.stage, w.reaches[place].deepest) for w in winters)]
    bars, end = _bars(rows, stop, span, (left, foot + 2.2, wide), system)
    return "".join([*body, *bars]), end


def _days(each: Wintered, winters: Sequence[Wintered]) -> Days:
    """Days on the count of the winter in use: works that begin after it ended belong to the autumn before."""
    usual = next((w for w in winters if w.stage not in WORKS), each)
    days = each.days.astype(float)
    return days - 1.0 if days[0] > float(usual.days[-1]) else days


def _axes(x: Place, y: Place, span: Span, start: float, right: float, system: System) -> Iterator[str]:
    theme = colours.light()
    largest = say.number(span.deepest, "m", system)
    marks = levels(largest, 4)
    yield line(start, y(0.0), right, y(0.0), LINE)
    yield letters(start - 1.2, y(0.0) + LETTER * CAPITAL / 2.0, "0", anchor="end", colour=theme["note"])
    for mark in marks:
        level = y(mark / largest * span.deepest)
        yield line(start, level, right, level, HAIR, colour=theme["rule"])
        yield letters(
            start - 1.2, level + LETTER * CAPITAL / 2.0, written(mark, marks), anchor="end", colour=theme["note"]
        )
    yield letters(start - 1.2, y(0.0) - 1.8, say.name("m", system), anchor="end", colour=theme["note"])
    base = y(span.deepest) + LETTER * CAPITAL + 1.2
    months = range(int(np.ceil(12.0 * span.first - 1e-6)), int(np.floor(12.0 * span.last)) + 1)
    for n in months:
        yield line(x(n / 12.0), y(span.deepest) - 0.8, x(n / 12.0), y(span.deepest), HAIR, colour=theme["frame"])
        middle = x((n + 0.5) / 12.0)
        if middle < right - 1.0:
            yield letters(middle, base, month_abbr[n % 12 + 1][0], anchor="middle", colour=theme["note"])
    yield line(start, y(span.deepest), right, y(span.deepest), HAIR, colour=theme["frame"])


def _front(days: Days, depths: NDArray[np.float32], name: str, x: Place, y: Place) -> Iterator[str]:
    """The line, where there is frost: from the day before it came to the day after it went."""
    here = np.asarray(depths) > 0.0
    kept = here | np.r_[here[1:], False] | np.r_[False, here[:-1]]
    pen, dashes = PENS[name]
    ends = np.flatnonzero(np.diff(np.r_[False, kept, False].astype(int)))
    for first, last in zip(ends[::2], ends[1::2], strict=True):
        points = [(x(float(days[n])), y(max(float(depths[n]), 0.0))) for n in range(first, last)]
        yield stroke(path(points, closed=False), pen, extra=dashes)


def _bars(
    rows: Sequence[tuple[str, float]], stop: float, span: Span, box: tuple[float, float, float], system: System
) -> tuple[list[str], float]:
    """A line of the key for each stage with a bar as long as it is deep; the notch is where frost does harm."""
    left, top, wide = box
    theme = colours.light()
    start, room = left + SAMPLE + NAME, wide - SAMPLE - NAME - VALUE
    drawn = []
    for n, (name, deepest) in enumerate(rows):
        at = top + n * PITCH
        base = at + BAR / 2.0 + LETTER * CAPITAL / 2.0
        pen, dashes = PENS[name]
        drawn.append(line(left, at + BAR / 2.0, left + SAMPLE - 2.0, at + BAR / 2.0, pen, extra=dashes))
        over = name != OPEN_GROUND and deepest > stop
        colour = theme["short" if over else "ink"]
        drawn.append(letters(left + SAMPLE, base, cut_to(STAGES.get(name, name), NAME - 1.0), colour=colour))
        long = deepest / span.deepest * room
        if deepest >= 1e-3:
            drawn.append(rectangle(start, at, long, BAR, theme["shade"]))
            drawn.append(
                f'<rect x="{mm(start)}" y="{mm(at)}" width="{mm(long)}" height="{BAR:g}" fill="none" '
                f'stroke="{theme["ink"]}" stroke-width="{LINE:g}"/>'
            )
        said = depth_words(deepest, system)
        drawn.append(letters(start + room + 1.5, base, said, weight=600 if over else 400, colour=colour))
    end = top + len(rows) * PITCH
    drawn.append(line(start, top - 0.8, start, end - PITCH + BAR + 0.8, FINE, colour=theme["frame"]))
    if stop > 0.0:
        notch = start + stop / span.deepest * room
        drawn.append(line(notch, top + PITCH - 0.9, notch, end - PITCH + BAR + 0.8, HEAVY))
    return drawn, end
