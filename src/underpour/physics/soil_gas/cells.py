"""Cells over a layer's plan: lines on the faces of footings and close round pits, places at which each cell is summed.

A cell that a slanting side cuts keeps its shapes and is summed over the part that is layer, as the slab's cells are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain
from ..plates.cells import stretches_within
from ..plates.hermite import gauss
from ..plates.lines import graded
from ..plates.slab import Ring, area, inside
from .plan import Plan

SAME = 1e-9  # m: nearer than this is one
GROWTH = 1.3  # from one cell to the next away from pits and openings
BESIDE = 0.7  # radii of a pit, width of the cells beside its square
TURNS = 0.4  # sine of the turn from which a corner that juts into the layer draws narrow cells
POINTS = 2  # of Gauss along each side of a cell
Array = NDArray[np.float64]


@dataclass(frozen=True)
class Pit:
    """A suction pit, or the end of a pipe in the stone: round, open over the whole layer."""

    x: float  # m
    y: float  # m
    radius: float  # m


@dataclass(frozen=True)
class Cells:
    """Lines, and the places at which what lies between them is summed; each place belongs to one cell."""

    x: Array  # (nx + 1,) m
    y: Array  # (ny + 1,) m
    there: NDArray[np.bool_]  # (nx, ny) cells with any layer in them
    cell: NDArray[np.int64]  # (places, 2)
    px: Array  # (places,) m
    py: Array  # (places,) m
    weight: Array  # (places,) m²

    def corners_of(self, cell: NDArray[np.int64]) -> NDArray[np.int64]:
        """Numbers of the four points of the lines round each cell, (cells, 4)."""
        ix, iy = cell.T
        first = ix * len(self.y) + iy
        return np.stack([first, first + 1, first + len(self.y), first + len(self.y) + 1], axis=1)

    def shapes(self, cell: NDArray[np.int64], px: Array, py: Array) -> tuple[Array, Array]:
        """Shares of the four corners at places in cells, (places, 4), and their slopes, (places, 2, 4). [1], [1/m]"""
        ix, iy = cell.T
        wide, high = np.diff(self.x)[ix], np.diff(self.y)[iy]
        a, b = (px - self.x[ix]) / wide, (py - self.y[iy]) / high
        shares = np.stack([(1 - a) * (1 - b), (1 - a) * b, a * (1 - b), a * b], axis=1)
        along = np.stack([-(1 - b) / wide, -b / wide, (1 - b) / wide, b / wide], axis=1)
        up = np.stack([-(1 - a) / high, (1 - a) / high, -a / high, a / high], axis=1)
        return shares, np.stack([along, up], axis=1)

    def found(self, px: Array, py: Array) -> NDArray[np.int64]:
        """The cell with layer in it that each place lies in or touches, (places, 2); -1 where there is none."""
        cell = np.full((len(px), 2), -1)
        for dx in (SAME, -SAME):
            for dy in (SAME, -SAME):
                ix = np.searchsorted(self.x, px + dx, side="right") - 1
                iy = np.searchsorted(self.y, py + dy, side="right") - 1
                inside_box = (ix >= 0) & (iy >= 0) & (ix < len(self.x) - 1) & (iy < len(self.y) - 1)
                good = inside_box & (cell[:, 0] < 0)
                good[good] = self.there[ix[good], iy[good]]
                cell[good] = np.column_stack([ix, iy])[good]
        return cell


def cells_of(plan: Plan, pits: Sequence[Pit], widest: float) -> Cells:
    """Cells of a plan with its pits.

    Parameters
    ----------
    plan : Plan
        [m]
    pits : sequence of Pit
        [m]
    widest : float
        No cell is wider. [m]

    Returns
    -------
    Cells
        [m]

    Source
    ------
    The finite cell method (Parvizian, Duester and Rank 2007) with exact strips in place of its trees; from memory.

    Examples
    --------
    >>> from .hydraulics import Hydraulics
    >>> square = Plan([(0, 0), (2, 0), (2, 1), (0, 1)], Hydraulics(1.0, 0.0))
    >>> float(cells_of(square, [], widest=0.5).weight.sum())
    2.0
    """
    aslant = [ring for ring in (*plan.footings, *(part.outline for part in plan.parts)) if _slanted([ring])]
    widest = min([widest, *(0.4 * _narrow(ring) for ring in aslant)])  # a footing within one cell would let air through
    x, y = (_lines(plan, pits, widest, axis) for axis in (0, 1))
    middle_x, middle_y = np.meshgrid((x[1:] + x[:-1]) / 2.0, (y[1:] + y[:-1]) / 2.0, indexing="ij")
    whole = inside(plan.rings, middle_x, middle_y)
    for ring in plan.footings:
        whole &= ~inside([ring], middle_x, middle_y)
    crossed = np.zeros_like(whole)
    for start, end in _slanted((*plan.rings, *plan.footings)):
        crossed |= _crossed(start, end, x, y)
    whole &= ~crossed
    of_whole, places_of_whole = whole_cells(x, y, whole)
    cell, places = [of_whole], [places_of_whole]
    rings, footings = _together(plan.rings), [_together([ring]) for ring in plan.footings]
    for column, row in np.argwhere(crossed):
        part = _strips(rings, footings, x[column], x[column + 1], y[row], y[row + 1])
        if len(part):
            cell.append(np.broadcast_to([column, row], (len(part), 2)))
            places.append(part)
    cells, summed = np.concatenate(cell), np.concatenate(places)
    there = np.zeros_like(whole)
    there[cells[:, 0], cells[:, 1]] = True
    return Cells(x, y, there, cells, summed[:, 0], summed[:, 1], summed[:, 2])


def whole_cells(x: Array, y: Array, whole: NDArray[np.bool_]) -> tuple[NDArray[np.int64], Array]:
    """Places and weights of cells that are layer all over.

    Parameters
    ----------
    x, y : ndarray, shapes (nx + 1,) and (ny + 1,)
        Rising lines. [m]
    whole : ndarray of bool, shape (nx, ny)
        [1]

    Returns
    -------
    cells (places, 2); x, y and weight (places, 3)
        [1]; [m], [m], [m²]

    Source
    ------
    Two points of Gauss each way.

    Examples
    --------
    >>> cell, places = whole_cells(np.array([0.0, 2.0]), np.array([0.0, 3.0]), np.array([[True]]))
    >>> len(cell), float(round(places[:, 2].sum(), 9))
    (4, 6.0)
    """
    ix, iy = np.nonzero(whole)
    at, share = gauss(POINTS)
    wide, high = np.diff(x)[ix], np.diff(y)[iy]
    shape = (len(ix), POINTS, POINTS)
    px = np.broadcast_to(x[ix, None, None] + wide[:, None, None] * at[:, None], shape)
    py = np.broadcast_to(y[iy, None, None] + high[:, None, None] * at[None, :], shape)
    weight = (wide * high)[:, None, None] * np.outer(share, share)
    cell = np.repeat(np.column_stack([ix, iy]), POINTS * POINTS, axis=0)
    return cell, np.column_stack([px.ravel(), py.ravel(), weight.ravel()])


def along_the_edge(cells: Cells, rings: Sequence[Ring]) -> tuple[NDArray[np.int64], Array, Array, Array]:
    """Places along outlines, each in the cell that it borders.

    Parameters
    ----------
    cells : Cells
        [m]
    rings : sequence of outlines
        [m]

    Returns
    -------
    cells (places, 2), x, y and weight (places,)
        [1], [m], [m], [m]

    Source
    ------
    Two points of Gauss on each piece of a side between two lines.

    Examples
    --------
    >>> from .hydraulics import Hydraulics
    >>> square = Plan([(0, 0), (2, 0), (2, 1), (0, 1)], Hydraulics(1.0, 0.0))
    >>> float(round(along_the_edge(cells_of(square, [], widest=0.5), square.rings)[3].sum(), 9))
    6.0
    """
    places = []
    nodes, shares = gauss(POINTS)
    for start, end in _sides(rings):
        step = end - start
        length = float(np.hypot(*step))
        cuts = [0.0, 1.0]
        for axis, lines in enumerate((cells.x, cells.y)):
            if abs(step[axis]) > SAME:
                at = (lines - start[axis]) / step[axis]
                cuts += at[(at > SAME) & (at < 1.0 - SAME)].tolist()
        for first, last in pairwise(sorted(cuts)):
            if (last - first) * length > SAME:
                for node, share in zip(nodes, shares, strict=True):
                    x, y = start + step * (first + (last - first) * node)
                    places.append((x, y, (last - first) * length * share))
    summed = np.array(places, float).reshape(-1, 3)
    cell = cells.found(summed[:, 0], summed[:, 1])
    here = cell[:, 0] >= 0  # where a footing meets the outline there is no layer
    return cell[here], summed[here, 0], summed[here, 1], summed[here, 2]


def _sides(rings: Sequence[Ring]) -> Iterator[tuple[Array, Array]]:
    for ring in rings:
        corners = np.asarray(ring, float)
        yield from zip(corners, np.roll(corners, -1, axis=0), strict=True)


def _together(rings: Sequence[Ring]) -> Array:
    """All sides of outlines, (sides, 2, 2): start and end, x and y."""
    return np.array([(start, end) for start, end in _sides(rings)]).reshape(-1, 2, 2)


def _slanted(rings: Sequence[Ring]) -> list[tuple[Array, Array]]:
    return [(a, b) for a, b in _sides(rings) if min(abs(b - a)) > SAME]


def _narrow(ring: Ring) -> float:
    return min(float(np.hypot(*(b - a))) for a, b in _sides([ring]))


def _lines(plan: Plan, pits: Sequence[Pit], widest: float, axis: int) -> Array:
    wanted: dict[float, float] = {}

    def want(place: float, width: float) -> None:
        wanted[place] = min(width, wanted.get(place, width))

    for ring in plan.rings:
        turned = 1.0 if area(ring) > 0.0 else -1.0
        sides = list(_sides([ring]))
        for n, (start, end) in enumerate(sides):
            before, after = start - sides[n - 1][0], end - start
            turn = turned * (before[0] * after[1] - before[1] * after[0]) / np.hypot(*before) / np.hypot(*after)
            if (-turn if ring is plan.outline else turn) > TURNS:
                want(float(start[axis]), widest / 2.0)
            if abs(end[axis] - start[axis]) <= SAME:
                want(float(start[axis]), widest)
    for ring in (*plan.footings, *(part.outline for part in plan.parts)):
        for start, end in _sides([ring]):
            if abs(end[axis] - start[axis]) <= SAME:
                want(float(start[axis]), min(widest, max(0.4 * float(np.ptp(np.asarray(ring)[:, axis])), SAME)))
    for pit in pits:
        middle = (pit.x, pit.y)[axis]
        for place in (middle - pit.radius, middle, middle + pit.radius):
            want(place, BESIDE * pit.radius)
    corners = np.asarray(plan.outline, float)[:, axis]
    low, high = float(corners.min()), float(corners.max())
    want(low, widest)
    want(high, widest)
    return graded(
        {place: width for place, width in wanted.items() if low <= place <= high}, widest, (low, high), GROWTH
    )


def _crossed(start: Array, end: Array, x: Array, y: Array) -> NDArray[np.bool_]:
    """Cells through whose inside a slanting side runs."""
    step = end - start
    across = np.sort([(x - start[0]) / step[0]], axis=0)[0]
    rising = np.sort([(y - start[1]) / step[1]], axis=0)[0]
    enters = np.maximum(np.minimum(across[:-1], across[1:])[:, None], np.minimum(rising[:-1], rising[1:])[None, :])
    leaves = np.minimum(np.maximum(across[:-1], across[1:])[:, None], np.maximum(rising[:-1], rising[1:])[None, :])
    found = (np.minimum(leaves, 1.0) - np.maximum(enters, 0.0)) * float(np.hypot(*step)) > SAME
    return np.asarray(found)


def _strips(rings: Array, footings: Sequence[Array], x0: float, x1: float, y0: float, y1: float) -> Array:
    """Places and weights of the part of a cell that is layer, (places, 3); sides are (sides, 2, 2)."""
    near = [sides[(sides[:, :, 0].min(1) <= x1) & (sides[:, :, 0].max(1) >= x0)] for sides in (rings, *footings)]
    rings, *footings = near
    every = [side for sides in near for side in sides if abs(side[1][0] - side[0][0]) > SAME]
    bends = {x0, x1}
    for start, end in every:
        bends |= {float(each[0]) for each in (start, end) if x0 < each[0] < x1}
        for level in (y0, y1):
            if abs(end[1] - start[1]) > SAME:
                at = start[0] + (level - start[1]) * (end[0] - start[0]) / (end[1] - start[1])
                if x0 < at < x1 and min(start[0], end[0]) <= at <= max(start[0], end[0]):
                    bends.add(float(at))
    nodes, shares = gauss(POINTS + 1)
    places = []
    for left, right in pairwise(sorted(bends)):
        for node, share in zip(nodes, shares, strict=True):
            if right - left <= SAME:
                continue
            at = left + (right - left) * node
            free = stretches_within(_crossings(rings, at), y0, y1)
            for ring in footings:
                free = _less(free, stretches_within(_crossings(ring, at), y0, y1))
            for low, high in free:
                weight = (right - left) * share * (high - low) * shares
                places.append(np.column_stack([np.full(len(nodes), at), low + (high - low) * nodes, weight]))
    return np.concatenate(places) if places else np.empty((0, 3))


def _crossings(sides: Array, x: float) -> list[float]:
    """Heights at which the line x = constant crosses sides, (sides, 2, 2), rising: there it enters and leaves."""
    (x0, y0), (x1, y1) = sides[:, 0].T, sides[:, 1].T
    there = (x0 > x) != (x1 > x)
    heights = y0[there] + (x - x0[there]) * (y1[there] - y0[there]) / (x1[there] - x0[there])
    return sorted(heights.tolist())


def _less(free: list[tuple[float, float]], taken: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Stretches without those that others take."""
    for low, high in taken:
        left = [(first, min(last, low)) for first, last in free]
        right = [(max(first, high), last) for first, last in free]
        free = sorted({each for each in (*left, *right) if each[1] - each[0] > SAME})
    return free


def held_by(plan: Plan, pit: Pit) -> None:
    """Refuse a pit that is not wholly in the layer.

    Parameters
    ----------
    plan : Plan
        [m]
    pit : Pit
        [m]

    Returns
    -------
    None
        [1]

    Raises
    ------
    OutOfDomain
        A pit beside the plan, in a footing, or that reaches into one.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> from .hydraulics import Hydraulics
    >>> square = Plan([(0, 0), (2, 0), (2, 1), (0, 1)], Hydraulics(1.0, 0.0))
    >>> held_by(square, Pit(1.0, 0.5, 0.15))
    """
    round_it = np.linspace(0.0, 2.0 * np.pi, 33)[:-1]
    x = np.append(pit.x + pit.radius * np.cos(round_it), pit.x)
    y = np.append(pit.y + pit.radius * np.sin(round_it), pit.y)
    if not inside(plan.rings, x, y).all():
        raise OutOfDomain(f"the pit at {pit.x:g}, {pit.y:g} m does not lie inside the plan")
    if any(inside([ring], x, y).any() for ring in plan.footings):
        raise OutOfDomain(f"the pit at {pit.x:g}, {pit.y:g} m reaches into a footing")
