"""Joints of two layers of panels that lie over each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ..outlines.side import Point
from .assemble import Rows
from .ground_plan import SAME, turned
from .layout import Layout

Segments = NDArray[np.float64]  # (n, 3): how far across it lies, from where, to where; m


@dataclass(frozen=True, slots=True)
class Below:
    """The joints of the layer below, as they lie along the rows of the layer that comes over it. [m]"""

    angle: float  # of the rows over it, degrees
    along: Segments  # parallel to those rows
    across: Segments
    lines: tuple[float, ...]  # where its rows meet, along the rows over it
    near: float  # joints nearer than this lie over each other


def below(lower: Layout, angle: float, near: float) -> Below:
    """The joints of a laid layer, for one whose rows lie across it.

    Arguments
    ---------
    lower
        The layer that lies.
    angle
        Of the rows over it. [degrees]
    near
        How near two parallel joints may come. [m]
    """
    rows, butts = joints_of(lower)
    along = [_seen(lower, angle, (x, start), (x, end), 1) for x, start, end in butts]
    across = [_seen(lower, angle, (start, y), (end, y), 0) for y, start, end in rows]
    lines = tuple(sorted({round(at, 6) for at, _, _ in across}))
    return Below(angle, _segments(along), _segments(across), lines, near)


def _seen(lower: Layout, angle: float, one: Point, other: Point, axis: int) -> tuple[float, float, float]:
    """A joint along the rows over it: how far off an axis it lies, from where to where. [m]"""
    a, b = turned(lower.on_plan(one), angle), turned(lower.on_plan(other), angle)
    ends = sorted((a[1 - axis], b[1 - axis]))
    return a[axis], ends[0], ends[1]


def joints_of(layout: Layout) -> tuple[list[tuple[float, float, float]], list[tuple[float, float, float]]]:
    """Where rows meet and where pieces of a row meet: how far off the other axis, from where, to where. [m]"""
    rows: dict[int, list[tuple[float, float, float, float]]] = {}
    for piece in layout.pieces:
        rows.setdefault(piece.row, []).append((piece.x0, piece.x1, piece.y0, piece.y1))
    lines, butts = [], []
    for row, pieces in rows.items():
        pieces.sort()
        for one, other in pairwise(pieces):
            if abs(one[1] - other[0]) < 1e-7:
                butts.append((one[1], max(one[2], other[2]), min(one[3], other[3])))
        for one in pieces:
            for other in rows.get(row + 1, []):
                start, end = max(one[0], other[0]), min(one[1], other[1])
                if end - start > SAME and abs(one[3] - other[2]) < 1e-7:
                    lines.append((one[3], start, end))
    return _merged(lines), butts


def _merged(lines: list[tuple[float, float, float]]) -> list[tuple[float, float, float]]:
    """Stretches of one line that follow each other as one."""
    found: list[tuple[float, float, float]] = []
    for at, start, end in sorted((round(at, 9), start, end) for at, start, end in lines):
        if found and found[-1][0] == at and start <= found[-1][2] + 1e-7:
            found[-1] = at, found[-1][1], max(found[-1][2], end)
        else:
            found.append((at, start, end))
    return found


def over(rows: Rows, starts: Sequence[float], lies: Below) -> float:
    """Length over which joints of a plan lie nearer to a parallel one of the layer below than they should. [m]

    Arguments
    ---------
    rows
        Of the upper layer. [m]
    starts
        Length of the first piece of each of its strips. [m]
    lies
        The joints below.
    """
    lines = [(strip.low, *pair) for number, strip in enumerate(rows.strips) for pair in rows.beside[number][0]]
    butts = [
        (x, strip.low, strip.high)
        for number, strip in enumerate(rows.strips)
        for x in rows.joints(number, starts[number])
    ]
    return _shared(_segments(lines), lies.along, lies.near) + _shared(_segments(butts), lies.across, lies.near)


def over_each_other(lower: Layout, upper: Layout, near: float) -> float:
    """The same of two plans that are finished. [m]"""
    lies = below(lower, upper.angle, near)
    lines, butts = joints_of(upper)
    return _shared(_segments(lines), lies.along, near) + _shared(_segments(butts), lies.across, near)


def _segments(found: Sequence[tuple[float, float, float]]) -> Segments:
    return np.array(found, dtype=np.float64).reshape(-1, 3)


def _shared(one: Segments, other: Segments, near: float) -> float:
    if not len(one) or not len(other):
        return 0.0
    other = other[np.argsort(other[:, 0])]
    first = np.searchsorted(other[:, 0], one[:, 0] - near + SAME, "left")
    last = np.maximum(np.searchsorted(other[:, 0], one[:, 0] + near - SAME, "right"), first)
    count = last - first
    mine = np.repeat(np.arange(len(one)), count)
    theirs = np.arange(len(mine)) - np.repeat(np.cumsum(count) - count, count) + np.repeat(first, count)
    shared = np.minimum(one[mine, 2], other[theirs, 2]) - np.maximum(one[mine, 1], other[theirs, 1])
    return float(np.sum(np.maximum(shared, 0.0)))
