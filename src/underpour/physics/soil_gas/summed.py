"""What flows to each point of the lines at a given suction, and how that changes with the suction."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray

from .cells import Cells

Array = NDArray[np.float64]
NO_FALL = 1e-30  # Pa/m that keeps a direction where nothing flows


@dataclass(frozen=True)
class Leaks:
    """Air that comes in at places by suction, each place with the suction of what lies on the other side."""

    cell: NDArray[np.int64]  # (places,) number of the cell that each lies in
    shares: Array  # (places, 4) of the cell's corners
    rate: Array  # (places,) m³/(s·Pa): by area or length, with the place's weight
    beyond: float  # Pa of suction on the other side

    def flow(self, at_corners: Array) -> Array:
        """Air that comes in at each place, by the suction at each cell's corners, (cells, 4). [m³/s]"""
        at: Array = np.einsum("pi,pi->p", self.shares, at_corners[self.cell])
        return self.rate * (at - self.beyond)


@dataclass(frozen=True)
class Summed:
    """A layer in cells: Darcy with Forchheimer's term between the points, by the whole fall of pressure."""

    corners: NDArray[np.int64]  # (cells, 4) unknowns
    cell: NDArray[np.int64]  # (places,) number of the cell that each lies in
    slopes: Array  # (places, 2, 4) 1/m
    weight: Array  # (places,) m²
    viscous: Array  # (places,) Pa·s/m³
    inertial: Array  # (places,) Pa·s²/m⁵
    leaks: tuple[Leaks, ...]
    count: int

    def unbalanced(self, suction: Array) -> Array:
        """Air that goes away along the layer or comes in by leaks at each point, more or less; (count,). [m³/s]"""
        fall, steep = self._fall(suction)
        along = (2.0 / (self.viscous + self._root(steep)) * self.weight)[:, None] * fall
        found = self._by_cell(self.cell, np.einsum("pd,pdi->pi", along, self.slopes))
        for leak in self.leaks:
            found += self._by_cell(leak.cell, leak.flow(suction[self.corners])[:, None] * leak.shares)
        return np.asarray(np.bincount(self.corners.ravel(), found.ravel(), self.count), float)

    def change(self, suction: Array) -> sp.csc_array:
        """How ``unbalanced`` changes with each point's suction, (count, count). [m³/(s·Pa)]"""
        fall, steep = self._fall(suction)
        root = self._root(steep)
        even = 2.0 / (self.viscous + root)
        along_it = -4.0 * self.inertial / (root * (self.viscous + root) ** 2 * (steep + NO_FALL))
        down = np.einsum("pd,pdi->pi", fall, self.slopes)
        values = np.einsum("pdi,pdj->pij", self.slopes * (even * self.weight)[:, None, None], self.slopes)
        values += (down * (along_it * self.weight)[:, None])[:, :, None] * down[:, None, :]
        of_cells = self._by_cell(self.cell, values.reshape(-1, 16)) + self._leaking
        keys, place = self._pattern
        column = np.searchsorted(keys, np.arange(self.count + 1) * self.count)
        filled = np.bincount(place, of_cells.ravel(), len(keys))
        return sp.csc_array((filled, keys % self.count, column), shape=(self.count, self.count))

    def _by_cell(self, cell: NDArray[np.int64], values: Array) -> Array:
        """Sums of rows that belong to one cell, (cells, columns)."""
        columns = values.shape[1]
        key = (cell[:, None] * columns + np.arange(columns)).ravel()
        return np.asarray(np.bincount(key, values.ravel(), len(self.corners) * columns), float).reshape(-1, columns)

    @cached_property
    def _leaking(self) -> Array:
        """What leaks change, (cells, 16); it is the same at any suction."""
        found = np.zeros((len(self.corners), 16))
        for leak in self.leaks:
            both = np.einsum("p,pi,pj->pij", leak.rate, leak.shares, leak.shares)
            found += self._by_cell(leak.cell, both.reshape(-1, 16))
        return found

    @cached_property
    def _pattern(self) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """Where the matrix has entries, column by column, and which entry each of a cell's sixteen is."""
        row, column = np.repeat(self.corners, 4, axis=1), np.tile(self.corners, (1, 4))
        keys, place = np.unique((column * self.count + row).ravel(), return_inverse=True)
        return keys, place

    def _fall(self, suction: Array) -> tuple[Array, Array]:
        fall: Array = np.einsum("pdi,pi->pd", self.slopes, suction[self.corners][self.cell])
        return fall, np.hypot(fall[:, 0], fall[:, 1])

    def _root(self, steep: Array) -> Array:
        return np.asarray(np.sqrt(self.viscous**2 + 4.0 * self.inertial * steep))


def summed(
    cells: Cells,
    numbered: NDArray[np.int64],
    viscous: Array,
    inertial: Array,
    leaks: Callable[[NDArray[np.int64]], tuple[Leaks, ...]] | None = None,
) -> Summed:
    """A layer in cells, ready to be summed.

    Parameters
    ----------
    cells : Cells
        [m]
    numbered : ndarray of int
        Unknown of each point of the lines. [1]
    viscous, inertial : ndarray, shape (places,)
        Hydraulics at each place. [Pa·s/m³], [Pa·s²/m⁵]
    leaks : function or None
        Makes the leaks, given the number of each cell by its place among the lines, (nx, ny). [m³/(s·Pa)]

    Returns
    -------
    Summed
        [m³/s]

    Source
    ------
    Galerkin's method with bilinear shapes.

    Examples
    --------
    A strip 2 m long and 1 m wide, suction falling by 1 Pa from end to end: 0.25 m³/s by a viscous term of 2 Pa·s/m³.

    >>> from .cells import whole_cells
    >>> x, y = np.array([0.0, 2.0]), np.array([0.0, 1.0])
    >>> cell, places = whole_cells(x, y, np.array([[True]]))
    >>> box = Cells(x, y, np.array([[True]]), cell, *places.T)
    >>> layer = summed(box, np.arange(4), np.full(4, 2.0), np.zeros(4))
    >>> layer.unbalanced(np.array([1.0, 1.0, 0.0, 0.0])).round(9).tolist()
    [0.125, 0.125, -0.125, -0.125]
    """
    _, slopes = cells.shapes(cells.cell, cells.px, cells.py)
    number = np.full(cells.there.shape, -1)
    number[cells.there] = np.arange(int(cells.there.sum()))
    corners = numbered[cells.corners_of(np.argwhere(cells.there))]
    cell = number[cells.cell[:, 0], cells.cell[:, 1]]
    made = leaks(number) if leaks else ()
    return Summed(corners, cell, slopes, cells.weight, viscous, inertial, made, int(numbered.max()) + 1)
