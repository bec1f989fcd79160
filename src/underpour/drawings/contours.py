"""Bands of flat tint and the lines between them, from a field on the sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import hypot
from typing import Any

import numpy as np
from numpy.typing import NDArray

from .paper import path, rectangle, stroke
from .scale import Scale
from .sheet_field import SheetField, contouring

Line = NDArray[np.float64]  # (n, 2) mm
Places = NDArray[np.float64]
Holds = Callable[[NDArray[np.float64], NDArray[np.float64]], NDArray[np.bool_]]  # at points x, y
FEW = 60  # points that are looked at one by one rather than as an array
SMOOTH = 0.03  # mm by which a drawn line may leave the exact one


def bands(field: SheetField, scale: Scale) -> str:
    """Flat tints, each laid over the colder one, so that no seam shows between two."""
    left, right, top, bottom = field.x[0], field.x[-1], field.y[0], field.y[-1]
    drawn = [rectangle(left, top, right - left, bottom - top, scale.tint(float(np.nanmin(field.degrees))))]
    for level, tint in zip(scale.levels[1:-1], scale.tints[1:], strict=True):
        if np.nanmin(field.degrees) < level < np.nanmax(field.degrees):
            data = "".join(path(thinned(ring), closed=True) for ring in _warmer_than(field, level))
            drawn.append(f'<path d="{data}" fill="{tint}" fill-rule="evenodd"/>')
    return "".join(drawn)


def lines_at(field: SheetField, level: float) -> list[Line]:
    """The lines of one temperature (degC), each a run of points on the sheet. [mm]"""
    return _lines(field.contours, level)


def lines_through(x: Places, y: Places, values: Places, level: float) -> list[Line]:
    """The lines of one value, from values (ny, nx) at places x, y on the sheet. [mm]"""
    return _lines(contouring(x, y, values), level)


def _lines(generator: Any, level: float) -> list[Line]:
    return [thinned(np.asarray(line)) for line in generator.lines(level) if len(line) > 1]


def drawn_lines(lines: list[Line], pen: float) -> str:
    return stroke("".join(path(line, closed=False) for line in lines), pen) if lines else ""


def where(line: Line, holds: Holds) -> list[Line]:
    """The line's runs of points at which something holds; two points are the least of a run."""
    return where_each([line], holds)


def where_each(lines: Sequence[Line], holds: Holds) -> list[Line]:
    """The same of many lines, which are looked at together."""
    if not lines:
        return []
    fine = [_with_further(line, 0.3) for line in lines]
    points = np.concatenate([each for each, _ in fine])
    kept = np.split(holds(points[:, 0], points[:, 1]), np.cumsum([len(each) for each, _ in fine])[:-1])
    return [run for (each, own), keep in zip(fine, kept, strict=True) for run in _runs(each, own, keep)]


def _runs(fine: Line, own: NDArray[np.bool_], kept: NDArray[np.bool_]) -> Iterator[Line]:
    """Of a line with further points: what is kept, by its ends and by the points that it had before."""
    ends = [0, *(np.flatnonzero(kept[1:] != kept[:-1]) + 1).tolist(), len(kept)]
    for first, end in pairwise(ends):
        if kept[first] and end - first > 1:
            drawn = own[first:end].copy()
            drawn[[0, -1]] = True
            yield fine[first:end][drawn]


def _with_further(line: Line, step: float) -> tuple[Line, NDArray[np.bool_]]:
    """The line's own points with further ones between them, none farther than ``step`` from the next, and which are its
    own. [mm]"""
    apart = np.diff(line, axis=0)
    parts = np.maximum(np.ceil(np.hypot(apart[:, 0], apart[:, 1]) / step).astype(np.intp), 1)
    first = np.r_[0, np.cumsum(parts)]  # where each own point stands
    own = np.zeros(first[-1] + 1, dtype=bool)
    own[first] = True
    share = (np.arange(first[-1]) - np.repeat(first[:-1], parts)) / np.repeat(parts, parts)
    fine = np.empty((first[-1] + 1, 2))
    fine[:-1] = np.repeat(line[:-1], parts, axis=0) + share[:, None] * np.repeat(apart, parts, axis=0)
    fine[-1] = line[-1]
    return fine, own


def thinned(line: Line, within: float = SMOOTH) -> Line:
    """The line with the points left out that lie within that distance of what is drawn without them. [mm]"""
    keep = np.zeros(len(line), dtype=bool)
    keep[[0, -1]] = True
    spans = [(0, len(line) - 1)]
    x, y = line[:, 0].tolist(), line[:, 1].tolist()
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        far, away = _farthest(line, first, last) if last - first > FEW else _farthest_of_few(x, y, first, last)
        if away > within:
            keep[far] = True
            spans += [(first, far), (far, last)]
    return line[keep]


def _farthest(line: Line, first: int, last: int) -> tuple[int, float]:
    """The point between two that lies farthest from the straight way, and how far. [mm]"""
    start, along = line[first], line[last] - line[first]
    offset = line[first + 1 : last] - start
    length = float(np.hypot(*along))
    away = np.abs(along[0] * offset[:, 1] - along[1] * offset[:, 0]) / length if length else np.hypot(*offset.T)
    far = int(np.argmax(away))
    return first + 1 + far, float(away[far])


def _farthest_of_few(x: list[float], y: list[float], first: int, last: int) -> tuple[int, float]:
    """The same, quicker where few points lie between."""
    x0, y0 = x[first], y[first]
    along, up = x[last] - x0, y[last] - y0
    between = range(first + 1, last)
    if length := hypot(along, up):
        aways = [abs(along * (y[n] - y0) - up * (x[n] - x0)) / length for n in between]
    else:
        aways = [hypot(x[n] - x0, y[n] - y0) for n in between]
    away = max(aways)
    return first + 1 + aways.index(away), away


def _warmer_than(field: SheetField, level: float) -> list[Line]:
    points, offsets = field.contours.filled(level, np.inf)
    return [
        np.asarray(ring[start:end])
        for ring, offset in zip(points, offsets, strict=True)
        for start, end in pairwise(offset)
    ]
