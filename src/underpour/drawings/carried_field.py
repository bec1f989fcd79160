"""A slab's field seen from above: dots as dense as it presses, lines of equal value, the worst place ringed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from random import Random

import numpy as np
from numpy.typing import NDArray

from ..measure import say
from ..measure.table import System
from ..physics.plates.slab import Ring
from . import colours
from .contours import drawn_lines, lines_at
from .lettering import CAPITAL, LETTER, cut_to, width
from .levels import levels, written
from .paper import BOLD, HAIR, HEAVY, INK, LINE, Box, Frame, letters, mm, stroke
from .sheet_field import SheetField
from .values import best_place, set_value, with_gap

LINES = 7  # contours, about
DENSE = 0.92  # mm from dot to dot where the foam feels most
EVEN = 1.324717957244746  # root of x³ = x + 1: its powers give points that never crowd (Roberts 2018, from memory)
DOT = 0.34  # mm
SAMPLE = (0.25, 0.5, 1.0)  # of the largest pressure, in the key
KEY = (9.0, 4.6)  # mm, a sample of the dots


@dataclass(frozen=True, slots=True)
class Panel:
    """One of the two plans on the sheet."""

    frame: Frame
    field: SheetField  # in the reader's unit
    unit: str


def clip(name: str, frame: Frame) -> str:
    box = f'x="{mm(frame.left)}" y="{mm(frame.top)}" width="{mm(frame.width)}" height="{mm(frame.height)}"'
    return f'<clipPath id="{name}"><rect {box}/></clipPath>'


def titled(frame: Frame, words: str) -> str:
    return letters(frame.left, frame.top - 1.6, cut_to(words, frame.width, weight=600), weight=600)


def contours(panel: Panel, taken: list[Box], limit: float | None = None) -> Iterable[str]:
    """Lines of equal value with their values in gaps; what the foam bears as a heavy one."""
    all_levels = levels(float(np.nanmax(panel.field.degrees)), LINES)
    if limit is not None:
        yield _contour(panel, limit, f"bears {limit:.3g}", HEAVY, all_levels[0], taken)
    for n, level in enumerate(all_levels):
        pen = LINE if n % 5 == 4 else HAIR
        yield _contour(panel, level, written(level, all_levels), pen, all_levels[0], taken)


def _contour(panel: Panel, level: float, words: str, pen: float, step: float, taken: list[Box]) -> str:
    """The lines of one value, with it in a gap where that finds room."""
    lines = lines_at(panel.field, level)
    place = best_place(
        lines,
        words,
        spacing_at=lambda x, y: step / np.maximum(panel.field.steepness(x, y), 1e-12),
        body_at=lambda x, y: _within(panel.frame, x, y),
        taken=taken,
    )
    if place is None:
        return drawn_lines(lines, pen)
    taken.append(place.box)
    lines = [*lines[: place.line], *with_gap(lines[place.line], place.box), *lines[place.line + 1 :]]
    return drawn_lines(lines, pen) + clear(place.box) + set_value(place, words)


def _within(frame: Frame, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.intp]:
    inside = (x > frame.left) & (x < frame.right) & (y > frame.top) & (y < frame.bottom)
    return np.where(inside, 0, -1)


def clear(box: Box) -> str:
    """Paper's white behind a value, so that no dot runs into it."""
    leaf = colours.light()["leaf"]
    wide, high = box.right - box.left, box.bottom - box.top
    return f'<rect x="{mm(box.left)}" y="{mm(box.top)}" width="{mm(wide)}" height="{mm(high)}" fill="{leaf}"/>'


def stipple(panel: Panel) -> str:
    """Dots as dense as the pressure is large, strewn evenly and always alike."""
    frame, field = panel.frame, panel.field
    number = int(frame.width * frame.height / DENSE**2)
    first, second, third = _strewn(number)
    x, y = frame.left + first * frame.width, frame.top + second * frame.height
    share = np.nan_to_num(field.at(x, y)) / float(np.nanmax(field.degrees))
    kept = share > third
    return _dots(np.stack([x[kept], y[kept]], -1))


def _strewn(number: int) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Points of a cube, strewn evenly and always alike: two places on the sheet, and from what share on each shows."""
    n, chance = np.arange(1, number + 1), Random(17)
    shows = np.array([chance.random() for _ in range(number)])
    return (0.5 + n / EVEN) % 1.0, (0.5 + n / EVEN**2) % 1.0, shows


def _dots(places: NDArray[np.float64]) -> str:
    """Dots as one path, each a line without a length, in tenths of a millimetre."""
    data = "".join(f"M{round(10 * x) / 10:g} {round(10 * y) / 10:g}h0" for x, y in places)
    return f'<path d="{data}" stroke="{INK}" stroke-width="{DOT:g}" stroke-linecap="round"/>' if data else ""


def free_edge(ring: Ring, frame: Frame) -> str:
    """The part of a free edge that lies within the window, drawn right up to its border."""
    x0, x1, y0, y1 = frame.window
    data, near = [], 1e-3
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        cut = _cut((ax, ay), (bx, by), (x0 - near, x1 + near, y0 - near, y1 + near))
        if cut is not None:
            data.append(frame.path(cut, closed=False))
    return stroke("".join(data), HEAVY) if data else ""


def _cut(
    start: tuple[float, float], end: tuple[float, float], box: tuple[float, float, float, float]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The part of a straight line within a box, by Liang and Barsky's way; None where there is none."""
    (ax, ay), (bx, by) = start, end
    first, last = 0.0, 1.0
    for begin, change, low, high in ((ax, bx - ax, box[0], box[1]), (ay, by - ay, box[2], box[3])):
        if change == 0.0:
            if not low <= begin <= high:
                return None
            continue
        one, two = sorted(((low - begin) / change, (high - begin) / change))
        first, last = max(first, one), min(last, two)
    if first >= last:
        return None
    return (ax + first * (bx - ax), ay + first * (by - ay)), (ax + last * (bx - ax), ay + last * (by - ay))


def corners_of(frame: Frame) -> Sequence[tuple[float, float]]:
    x0, x1, y0, y1 = frame.window
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def box_of(ring: Ring, frame: Frame) -> Box:
    xs = [float(frame.x(x)) for x, _ in ring]
    ys = [float(frame.y(y)) for _, y in ring]
    return Box(min(xs), min(ys), max(xs), max(ys))


def ringed(x: float, y: float, words: str, frame: Frame) -> tuple[str, Box]:
    """The worst place in a ring, its value beside it on whichever side has room."""
    reach, wide = 2.4, width(words, weight=600)
    right = x + reach + 1.0 + wide < frame.right
    left = x + reach + 1.0 if right else x - reach - 1.0 - wide
    base = min(max(y + LETTER * CAPITAL / 2, frame.top + LETTER), frame.bottom - 0.8)
    box = Box(left - 0.5, base - LETTER * CAPITAL - 0.5, left + wide + 0.5, base + 0.6)
    drawn = f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{reach:g}" fill="none" stroke="{INK}" stroke-width="{BOLD:g}"/>'
    return drawn + clear(box) + letters(left, base, words, weight=600), box


def samples(largest: float, system: System, top: float) -> Iterator[str]:
    """How dense the dots are for what pressure, the largest given in kPa."""
    left, base = 0.4, top + 3.6
    for share in SAMPLE:
        frame = Frame(left, top, (0.0, KEY[0], 0.0, KEY[1]), 1.0)
        first, second, third = _strewn(int(KEY[0] * KEY[1] / DENSE**2))
        kept = share > third
        yield _dots(np.stack([frame.left + first[kept] * KEY[0], frame.top + second[kept] * KEY[1]], -1))
        yield stroke(frame.path(corners_of(frame), closed=True), HAIR, colour=colours.light()["frame"])
        words = say.value(share * largest, "kPa", system)
        yield letters(frame.right + 1.2, base, words)
        left = frame.right + 1.2 + width(words) + 4.0
