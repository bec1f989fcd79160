"""Values set into gaps of their lines, upright, where lines stand wide enough apart."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .contours import Line, where
from .lettering import CAPITAL, LETTER, width
from .paper import Box, letters

APART = 2.6  # mm between two lines below which none bears a value
ROOM = 0.7  # mm of gap on either side of the value
EDGE = 1.2  # mm from the value to the border of its body

Points = NDArray[np.float64]  # mm, any shape
Bodies = Callable[[Points, Points], NDArray[np.intp]]  # which body shows at points x, y
Spacings = Callable[[Points, Points], NDArray[np.float64]]  # how far the next line is at points x, y, mm


@dataclass(frozen=True, slots=True)
class Place:
    """Where a value is set: the box of its letters, the line it interrupts and how good the place is."""

    box: Box
    line: int
    merit: float


def best_place(
    lines: list[Line], words: str, *, spacing_at: Spacings, body_at: Bodies, taken: list[Box], weight: int = 400
) -> Place | None:
    """The flattest stretch of the lines where the words stand in one body, in wide spacing and off all that is taken.

    ``spacing_at`` gives the distance to the next line (mm) and ``body_at`` the body at points of the sheet.
    None where no stretch is wide enough.
    """
    half = width(words, weight=weight) / 2 + ROOM
    high = LETTER * CAPITAL / 2
    best: Place | None = None
    for k, line in enumerate(lines):
        points, slope, length = _walked(line)
        if length < 6 * half or not len(points):
            continue
        spacing = spacing_at(points[:, 0], points[:, 1])
        wide = spacing > APART + high
        if not wide.any():
            continue
        points, slope, spacing = points[wide], slope[wide], spacing[wide]
        ring = _ring(half + EDGE, high + EDGE)
        x, y = points[:, :1] + ring[0], points[:, 1:] + ring[1]
        bodies = body_at(x, y)
        for n in np.flatnonzero((bodies == bodies[:, :1]).all(axis=1) & (bodies[:, 0] >= 0)):
            cx, cy = points[n]
            box = Box(cx - half, cy - high - 0.4, cx + half, cy + high + 0.4)
            merit = 2.0 * slope[n] + min(float(spacing[n]), 12.0) / 12.0
            if (best is None or merit > best.merit + 1e-9) and not any(box.meets(other) for other in taken):
                best = Place(box, k, merit)
    return best


def with_gap(line: Line, box: Box) -> list[Line]:
    """The line's runs outside the box."""
    (left, top), (right, bottom) = line.min(axis=0), line.max(axis=0)
    if right < box.left or left > box.right or bottom < box.top or top > box.bottom:
        return [line]
    return where(line, lambda x, y: (x < box.left) | (x > box.right) | (y < box.top) | (y > box.bottom))


def set_value(place: Place, words: str, weight: int = 400) -> str:
    box = place.box
    base = (box.top + box.bottom) / 2 + LETTER * CAPITAL / 2
    return letters((box.left + box.right) / 2, base, words, anchor="middle", weight=weight)


def _walked(line: Line) -> tuple[Line, NDArray[np.float64], float]:
    """Points a millimetre apart along the line, how level it runs at each (0 to 1), and its length (mm)."""
    step = np.hypot(*np.diff(line, axis=0).T)
    reach = np.r_[0.0, np.cumsum(step)]
    at = np.arange(2.0, reach[-1] - 2.0, 1.0)
    points, before, after = (
        np.column_stack([np.interp(at + d, reach, line[:, 0]), np.interp(at + d, reach, line[:, 1])])
        for d in (0.0, -2.0, 2.0)
    )
    run = after - before
    return points, np.abs(run[:, 0]) / np.maximum(np.hypot(*run.T), 1e-9), float(reach[-1])


def _ring(half: float, high: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The middle and points around a box, as offsets in rows of one."""
    x, y = np.meshgrid(np.linspace(-half, half, 5), np.linspace(-high, high, 3))
    return np.r_[0.0, x.ravel()][None, :], np.r_[0.0, y.ravel()][None, :]
