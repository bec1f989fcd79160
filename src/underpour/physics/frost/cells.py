"""A section in cells for freezing and thawing: what each holds, what it hands to its neighbours and to the air."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ..conduction.grid import NOTHING, Grid, fill
from ..conduction.shapes import Body, Facing, Space
from ..domain import OutOfDomain, above_zero
from .freezing import Freezing, freezing

SAME = 1e-7  # m
NOWHERE = (0.0, 0.0)
GROWTH = 1.3  # of cells beyond the part that is watched
LARGEST = 4.0  # m
FACINGS: tuple[Facing, ...] = ("up", "side", "down")


@dataclass(frozen=True)
class Freezes:
    """How a body freezes; one of which nothing is said holds no water."""

    frozen_conductivity: float  # W/(m·K)
    frozen_heat_capacity: float  # J/(m³·K)
    latent: float  # J/m³, of all of its water
    range: float  # K below 0 °C
    unfrozen: float = 0.0  # share of the water that is liquid below that range


@dataclass(frozen=True)
class Surfaces:
    """Every stretch of surface between a cell and a space."""

    cell: NDArray[np.int64]  # (n,)
    length: NDArray[np.float64]  # m
    half: NDArray[np.float64]  # m, from the surface to the middle of the cell
    group: NDArray[np.int64]  # 3 × space + facing, up being 0, side 1, down 2


@dataclass(frozen=True)
class Cells:
    """Cells of bodies, numbered column by column, or row by row where that is the shorter way."""

    x: NDArray[np.float64]  # (nx + 1,) m, lines
    y: NDArray[np.float64]  # (ny + 1,) m, lines
    number: NDArray[np.int64]  # (nx, ny), -1 in air
    area: NDArray[np.float64]  # (n,) m²
    body: NDArray[np.int64]  # (n,) which body fills a cell, or the lower half of it
    made: Freezing  # each (n,)
    one: NDArray[np.int64]  # (m,) cells on one side of each inner face, the lower number
    other: NDArray[np.int64]  # (m,)
    length: NDArray[np.float64]  # (m,) m, of the face
    half_one: NDArray[np.float64]  # (m,) m, from the middle of a cell to the face
    half_other: NDArray[np.float64]  # (m,)
    surfaces: Surfaces

    @property
    def middles(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Middle of each column and of each row. [m]"""
        return (self.x[1:] + self.x[:-1]) / 2.0, (self.y[1:] + self.y[:-1]) / 2.0

    def conductances(self, temperature: NDArray) -> NDArray[np.float64]:
        """From cell to cell through each inner face. [W/(m·K)]

        A cell that freezes has its ice on the side of its frozen neighbour, so that each half of it is nearer to what
        lies beside it than the whole is.
        """
        ice = self.made.ice(temperature)
        both = (
            half / self._conducts(cell, ice[cell], ice[beside])
            for half, cell, beside in (
                (self.half_one, self.one, self.other),
                (self.half_other, self.other, self.one),
            )
        )
        return np.asarray(self.length / sum(both))

    def to_air(self, temperature: NDArray, films: NDArray) -> NDArray[np.float64]:
        """From each surface's cell to its air, given the film of each group. [W/(m·K)]"""
        at, ice = self.surfaces, self.made.ice(temperature)
        own = ice[at.cell]
        return np.asarray(at.length / (at.half / self._conducts(at.cell, own, np.ceil(own)) + films[at.group]))

    def _conducts(self, cell: NDArray, own: NDArray, beside: NDArray) -> NDArray[np.float64]:
        """Conductivity of halves of cells, of which their own ice and that beside them are told. [W/(m·K)]"""
        part = 4.0 * own * (1.0 - own)  # all of it where half of the water is ice, nothing where all or none is
        ice = own + part * (beside - own)
        made = self.made
        return np.asarray(made.conductivity[cell] + (made.frozen_conductivity - made.conductivity)[cell] * ice)

    def on_grid(self, values: NDArray) -> NDArray[np.float64]:
        """Values of the cells (n,) as a picture (nx, ny), not a number in air."""
        laid = np.full(self.number.shape, np.nan)
        laid[self.number >= 0] = values[self.number[self.number >= 0]]
        return laid


def lines(
    places: Sequence[float], watched: tuple[float, float], cell: float, closely: tuple[float, float] = NOWHERE
) -> NDArray[np.float64]:
    """Lines through every place, even where frost is watched and growing apart beyond.

    Parameters
    ----------
    places : sequence of float
        That must be lines; the least and the largest are the ends. [m]
    watched : tuple of two floats
        From and to. [m]
    cell : float
        Largest cell there. [m]
    closely : tuple of two floats
        From and to, inside of what is watched: cells of half that size. [m]

    Returns
    -------
    ndarray, shape (n,)
        Rising. [m]

    Raises
    ------
    OutOfDomain
        The cell is not above zero.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    >>> lines([0.0, 1.0, 4.0], (0.0, 1.0), 0.5).round(2).tolist()
    [0.0, 0.5, 1.0, 1.75, 2.73, 4.0]
    """
    above_zero(cell=cell)
    low, high = max(watched[0], min(places)), min(watched[1], max(places))
    near = [min(max(place, low), high) for place in closely if closely[0] < closely[1]]
    inner = [place for place in (low, high, *near) if not any(abs(place - at) < cell / 4.0 for at in places)]
    fixed = sorted([*places, *inner])
    fixed = [fixed[0]] + [b for a, b in pairwise(fixed) if b - a > SAME]
    made = [fixed[0]]
    for start, end in pairwise(fixed):
        fine = closely[0] < (start + end) / 2.0 < closely[1]
        made += [*_between(start, end, low, high, cell / 2.0 if fine else cell), end]
    return np.array(made)


def _between(start: float, end: float, low: float, high: float, cell: float) -> list[float]:
    if start > high - cell / 4.0:  # beyond, growing upwards
        return _growing(start, end, cell * GROWTH, start - high)
    if end < low + cell / 4.0:
        return [start + end - at for at in reversed(_growing(start, end, cell * GROWTH, low - end))]
    count = max(1, int(np.ceil((end - start) / cell - 1e-9)))
    return [start + (end - start) * n / count for n in range(1, count)]


def _growing(start: float, end: float, first: float, beyond: float) -> list[float]:
    """Lines between two, each cell larger than the one before, the first of a size that fits how far off it is."""
    width = first + max(beyond, 0.0) * (GROWTH - 1.0)
    widths: list[float] = []
    while sum(widths) + width < end - start:
        widths.append(min(width, LARGEST))
        width *= GROWTH
    if not widths:
        return []
    stretch = (end - start) / (sum(widths) + (widths[-1] if end - start - sum(widths) > widths[-1] / 2.0 else 0.0))
    at = start + np.cumsum(widths) * stretch
    return [float(place) for place in at if place < end - first / 4.0]


def cells(
    x: NDArray[np.float64],
    y: NDArray[np.float64],
    bodies: Sequence[Body],
    spaces: Sequence[Space],
    freezes: Mapping[int, Freezes],
) -> Cells:
    """A section in cells.

    Parameters
    ----------
    x, y : ndarray
        Rising lines through every corner. [m]
    bodies : sequence of Body
        Lower priority wins. [m]
    spaces : sequence of Space
        Air; any body wins over it. [m]
    freezes : mapping of int to Freezes
        By the number of the body, how it freezes; others hold no water. [1]

    Returns
    -------
    Cells
        [m, W/(m·K), J/(m³·K), J/m³]

    Raises
    ------
    OutOfDomain
        The bodies leave a hole.

    Source
    ------
    Finite volumes, conductances in series from middle to middle; common practice, no source. A cell that a slanted side
    cuts holds the mean of both halves; one half of it in air counts as body.

    Examples
    --------
    >>> from types import SimpleNamespace as S
    >>> ground = S(outline=((0, -1), (1, -1), (1, 0), (0, 0)), conductivity=2.0, heat_capacity=2e6, priority=1)
    >>> air = S(where="outdoors", outline=((0, 0), (1, 0), (1, 1), (0, 1)))
    >>> column = cells(np.array([0.0, 1.0]), np.array([-1.0, -0.5, 0.0, 1.0]), [ground], [air], {})
    >>> column.number.tolist(), column.surfaces.cell.tolist()
    ([[0, 1, -1]], [1])
    """
    grid, _ = fill(x, y, bodies, spaces)
    for each in (grid.first, grid.second):
        if (each == NOTHING).any():
            raise OutOfDomain("the section has a place that nothing fills")
    first = np.where(grid.first >= 0, grid.first, grid.second)
    second = np.where(grid.second >= 0, grid.second, grid.first)
    number, at = _numbered(first >= 0)
    made = _made(first[at], second[at], bodies, freezes)
    wide, high = np.diff(grid.x), np.diff(grid.y)
    area = np.outer(wide, high)[at]
    one, other, length, half_one, half_other = _inner(number, wide, high)
    surfaces = _outer(grid, number)
    return Cells(grid.x, grid.y, number, area, first[at], made, one, other, length, half_one, half_other, surfaces)


def _numbered(here: NDArray[np.bool_]) -> tuple[NDArray[np.int64], tuple[NDArray[np.int64], NDArray[np.int64]]]:
    """Numbers of cells (nx, ny), -1 in air, and where each stands: along the shorter side first, for a narrow band."""
    if here.shape[0] >= here.shape[1]:
        x, y = np.nonzero(here)
    else:
        y, x = np.nonzero(here.T)
    number = np.full(here.shape, -1)
    number[x, y] = np.arange(len(x))
    return number, (x, y)


def _made(
    first: NDArray[np.int64], second: NDArray[np.int64], bodies: Sequence[Body], freezes: Mapping[int, Freezes]
) -> Freezing:
    known = [freezes.get(n, Freezes(b.conductivity, b.heat_capacity, 0.0, 1.0)) for n, b in enumerate(bodies)]
    table = freezing(
        np.array([body.conductivity for body in bodies]),
        np.array([each.frozen_conductivity for each in known]),
        np.array([body.heat_capacity for body in bodies]),
        np.array([each.frozen_heat_capacity for each in known]),
        np.array([each.latent for each in known]),
        np.array([each.range for each in known]),
        np.array([each.unfrozen for each in known]),
    )
    halves = (
        (getattr(table, name)[first] + getattr(table, name)[second]) / 2.0 for name in Freezing.__dataclass_fields__
    )
    return Freezing(*halves)


def _inner(number: NDArray, wide: NDArray, high: NDArray) -> tuple[NDArray, ...]:
    """Cells beside one another: the two, the face between them, and how far it is from each middle."""
    found = []
    for axis in (0, 1):
        before, after = (number[:-1], number[1:]) if axis == 0 else (number[:, :-1], number[:, 1:])
        both = (before >= 0) & (after >= 0)
        ix, iy = np.nonzero(both)
        if axis == 0:
            found.append((before[both], after[both], high[iy], wide[ix] / 2.0, wide[ix + 1] / 2.0))
        else:
            found.append((before[both], after[both], wide[ix], high[iy] / 2.0, high[iy + 1] / 2.0))
    return tuple(np.concatenate(column) for column in zip(*found, strict=True))


def _outer(grid: Grid, number: NDArray) -> Surfaces:
    wide, high = np.diff(grid.x), np.diff(grid.y)
    space = np.where(number < 0, -1 - grid.first, -1)
    found = []
    for axis, step, facing in ((0, 1, 1), (0, -1, 1), (1, 1, 0), (1, -1, 2)):  # air to the right, left, above, below
        beside = np.full(number.shape, -1)
        inner = [slice(None), slice(None)]
        outer = [slice(None), slice(None)]
        inner[axis], outer[axis] = (slice(None, -1), slice(1, None)) if step > 0 else (slice(1, None), slice(None, -1))
        beside[tuple(inner)] = space[tuple(outer)]
        ix, iy = np.nonzero((number >= 0) & (beside >= 0))
        length, half = (high[iy], wide[ix] / 2.0) if axis == 0 else (wide[ix], high[iy] / 2.0)
        found.append((number[ix, iy], length, half, 3 * beside[ix, iy] + facing))
    return Surfaces(*(np.concatenate(column) for column in zip(*found, strict=True)))
