"""The slab's rectangle of cells: which are whole, which the outline cuts, and at which places each is summed.

A cut cell keeps its bicubic shapes and is summed only over the part that is slab, which makes any outline a free edge
without a grid that follows it. Across the cell strips run from one bend of the outline to the next; on each strip's
lines the slab's stretches are found, so that every place lies in the slab and every weight is above zero. A whole cell
through which a thicker part or another bed begins aslant is summed at its places too, each with what holds there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from .hermite import POINTS, gauss
from .slab import Ring, Slab, inside

SAME = 1e-9  # m: lines nearer than this are one
ACROSS = 7  # points of Gauss where the outline slants: exact up to the 13th power


@dataclass(frozen=True)
class Cells:
    """Lines, and what lies between them."""

    x: NDArray[np.float64]  # (nx + 1,) m
    y: NDArray[np.float64]  # (ny + 1,) m
    whole: NDArray[np.bool_]  # (nx, ny)
    cut: dict[tuple[int, int], NDArray[np.float64]]  # (points, 3) of each cut cell: x, y [m] and weight [m²]

    @property
    def there(self) -> NDArray[np.bool_]:
        """Cells with any slab in them, (nx, ny)."""
        found = self.whole.copy()
        for cell in self.cut:
            found[cell] = True
        return found

    def summed(self) -> tuple[NDArray, NDArray, NDArray]:
        """Places x, y [m] and weights [m²] of the whole cells, (cells, 16), cells in the order of ``argwhere``."""
        at, weight = gauss()
        ix, iy = np.nonzero(self.whole)
        wide, high = np.diff(self.x), np.diff(self.y)
        px = self.x[ix, None, None] + wide[ix, None, None] * at[None, :, None]
        py = self.y[iy, None, None] + high[iy, None, None] * at[None, None, :]
        shape = (len(ix), POINTS, POINTS)
        area = (wide[ix] * high[iy])[:, None, None] * (weight[:, None] * weight)[None]
        flat = (len(ix), POINTS * POINTS)
        return (
            np.broadcast_to(px, shape).reshape(flat),
            np.broadcast_to(py, shape).reshape(flat),
            area.reshape(flat),
        )


def cells_of(slab: Slab, x: NDArray[np.float64], y: NDArray[np.float64]) -> Cells:
    """Sort the cells between lines by the slab's outline.

    Parameters
    ----------
    slab : Slab
        [m]
    x, y : ndarray, shape (n,)
        Rising lines that reach over the whole outline. [m]

    Returns
    -------
    Cells
        [m]

    Source
    ------
    The finite cell method (Parvizian, Duester and Rank 2007) with exact strips in place of its trees; from memory.

    Examples
    --------
    >>> square = Slab([(0, 0), (2, 0), (2, 1), (0, 1)], 0.1, 3e10, 0.2, 1e7)
    >>> cells = cells_of(square, np.array([0.0, 1.0, 2.0]), np.array([0.0, 1.0]))
    >>> cells.whole.tolist(), cells.cut
    ([[True], [True]], {})
    """
    rings = (slab.outline, *slab.holes)
    crossed = _crossed(rings, x, y)
    middle_x, middle_y = np.meshgrid((x[1:] + x[:-1]) / 2.0, (y[1:] + y[:-1]) / 2.0, indexing="ij")
    whole = inside(rings, middle_x, middle_y)
    cut = {}
    parted = _crossed([region.outline for region in (*slab.thickened, *slab.otherwise_borne)], x, y)
    for ix, iy in sorted(crossed | {cell for cell in parted if whole[cell]}):
        places = _strips(rings, x[ix], x[ix + 1], y[iy], y[iy + 1])
        whole[ix, iy] = False
        if len(places):
            cut[ix, iy] = places
    return Cells(x, y, whole, cut)


def parts_of_cells(
    rings: Sequence[Ring], x: NDArray[np.float64], y: NDArray[np.float64]
) -> Iterator[tuple[int, int, NDArray[np.float64]]]:
    """Every cell that an outline reaches into, with places and weights of what lies in it.

    Parameters
    ----------
    rings : sequence of outlines
        The outline and its holes. [m]
    x, y : ndarray, shape (n,)
        Rising lines. [m]

    Returns
    -------
    iterator of cell across, cell up, ndarray (points, 3)
        x, y [m] and weight [m²].

    Source
    ------
    As ``cells_of``.

    Examples
    --------
    >>> line = np.array([0.0, 1.0, 2.0])
    >>> parts = parts_of_cells([[(0, 0), (2, 0), (0, 2)]], line, line)
    >>> [(ix, iy, round(float(part[:, 2].sum()), 9)) for ix, iy, part in parts]
    [(0, 0, 1.0), (0, 1, 0.5), (1, 0, 0.5)]
    """
    corners = np.concatenate([np.asarray(ring, float) for ring in rings])
    low, high = corners.min(0), corners.max(0)
    for ix in range(*_between(x, low[0], high[0])):
        for iy in range(*_between(y, low[1], high[1])):
            places = _strips(rings, x[ix], x[ix + 1], y[iy], y[iy + 1])
            if len(places):
                yield ix, iy, places


def _crossed(rings: Sequence[Ring], x: NDArray, y: NDArray) -> set[tuple[int, int]]:
    """Cells through whose inside a side of an outline runs."""
    found = set()
    for ring in rings:
        corners = np.asarray(ring, float)
        for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
            low, high = np.minimum(start, end), np.maximum(start, end)
            for ix in range(*_between(x, low[0], high[0])):
                for iy in range(*_between(y, low[1], high[1])):
                    if _runs_through(start, end, (x[ix], x[ix + 1]), (y[iy], y[iy + 1])):
                        found.add((ix, iy))
    return found


def _between(lines: NDArray, low: float, high: float) -> tuple[int, int]:
    first = int(np.searchsorted(lines, low + SAME, side="right")) - 1
    last = int(np.searchsorted(lines, high - SAME, side="left"))
    return max(first, 0), min(max(last, first + 1), len(lines) - 1)


def _runs_through(start: NDArray, end: NDArray, wide: tuple[float, float], high: tuple[float, float]) -> bool:
    """Whether a stretch of the side lies well inside a cell, by the parameters at which it enters and leaves."""
    enters, leaves = 0.0, 1.0
    for axis, (low, top) in enumerate((wide, high)):
        step = end[axis] - start[axis]
        if abs(step) <= SAME:
            if not low + SAME < start[axis] < top - SAME:
                return False
            continue
        ends = sorted(((low - start[axis]) / step, (top - start[axis]) / step))
        enters, leaves = max(enters, ends[0]), min(leaves, ends[1])
    if (leaves - enters) * float(np.hypot(*(end - start))) <= SAME:
        return False
    middle = start + (end - start) * (enters + leaves) / 2.0
    return all(low + SAME < place < top - SAME for place, (low, top) in zip(middle, (wide, high), strict=True))


def _strips(rings: Sequence[Ring], x0: float, x1: float, y0: float, y1: float) -> NDArray[np.float64]:
    """Places and weights of the part of a cell that is slab, (points, 3)."""
    sides = [
        (start, end)
        for ring in rings
        for corners in [np.asarray(ring, float)]
        for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True)
        if abs(end[0] - start[0]) > SAME
    ]
    bends = {x0, x1}
    for start, end in sides:
        bends |= {each[0] for each in (start, end) if x0 < each[0] < x1}
        for level in (y0, y1):
            if abs(end[1] - start[1]) > SAME:
                at = start[0] + (level - start[1]) * (end[0] - start[0]) / (end[1] - start[1])
                if x0 < at < x1 and min(start[0], end[0]) <= at <= max(start[0], end[0]):
                    bends.add(float(at))
    nodes, shares = gauss(ACROSS)
    places = []
    for left, right in pairwise(sorted(bends)):
        if right - left <= SAME:
            continue
        for node, share in zip(nodes, shares, strict=True):
            x = left + (right - left) * node
            for low, high in stretches_within(_crossings(sides, x), y0, y1):
                y = low + (high - low) * nodes
                weight = (right - left) * share * (high - low) * shares
                places.append(np.column_stack([np.full(ACROSS, x), y, weight]))
    return np.concatenate(places) if places else np.empty((0, 3))


def _crossings(sides: Sequence[tuple[NDArray, NDArray]], x: float) -> list[float]:
    """Heights at which a line x = constant enters and leaves the slab, rising."""
    return sorted(
        float(start[1] + (x - start[0]) * (end[1] - start[1]) / (end[0] - start[0]))
        for start, end in sides
        if (start[0] > x) != (end[0] > x)
    )


def stretches_within(crossings: Sequence[float], low: float, high: float) -> list[tuple[float, float]]:
    """Stretches between the first and second crossing, third and fourth, ..., as far as they lie within two levels.

    Parameters
    ----------
    crossings : sequence of float
        Rising. [m]
    low, high : float
        [m]

    Returns
    -------
    list of pairs
        [m]

    Source
    ------
    Definition.

    Examples
    --------
    >>> stretches_within([0.0, 2.0, 3.0, 5.0], 1.0, 4.0)
    [(1.0, 2.0), (3.0, 4.0)]
    """
    runs = zip(crossings[::2], crossings[1::2], strict=True)
    within = [(max(first, low), min(last, high)) for first, last in runs]
    return [(first, last) for first, last in within if last - first > SAME]
