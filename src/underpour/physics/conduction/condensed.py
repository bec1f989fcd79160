"""Equations without the unknowns inside cells: fewer, in an order that keeps factors thin, for any pace of swing.

An unknown inside a whole cell couples only with the cell's own sides, so it is put in terms of them before anything is
factorised. On the square the matrices of the inner unknowns are all diagonal in one set of modes, whatever the cell's
widths and the pace: nothing is inverted, and a complex matrix costs no more work than a real one. What is left is
numbered by dissecting the grid again and again, halves before the line between them. That order depends on nothing but
the grid: it serves every degree, every set of films, the mean and the swing at any pace.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import scipy.linalg
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.sparse.linalg import SuperLU, splu

from . import elements

if TYPE_CHECKING:
    from .assemble import Equations

SYMMETRIC = {"SymmetricMode": True, "Equil": False}  # for the sparse solver
LEFT, RIGHT, BETWEEN = 0, 1, 2  # which part of a dissection comes first

Array = NDArray[np.float64]
Places = NDArray[np.int64]


@dataclass(frozen=True)
class Square:
    """The whole cell's matrices, parted in its sides and the modes of its inside. Stacked: along x, along y, capacity.

    With q inner points and s on the sides; a mode's own number for the three is in ``inside``.
    """

    sides: Places  # (s,) points of the lattice
    inner: Places  # (q,)
    modes: Array  # (q, q) value of each mode (column) at each inner point
    between_sides: Array  # (3, s s)
    across: Array  # (3, s q)
    inside: Array  # (3, q)


@cache
def square(degree: int) -> Square:
    """The whole cell in its parts.

    Parameters
    ----------
    degree : int
        At least 2. [1]

    Returns
    -------
    Square
        Matrices on [-1, 1]². [1]

    Source
    ------
    Fast diagonalisation of tensor products: Lynch, Rice and Thomas 1964 (from memory).

    Examples
    --------
    One inner point of degree 2, (1 - x²)(1 - y²): its slope along x gives 8/3 times 16/15.

    >>> round(float(square(2).inside[0, 0] * square(2).modes[0, 0] ** -2), 6) == round(8 / 3 * 16 / 15, 6)
    True
    """
    whole = elements.square(degree)
    lattice = whole.points.reshape(degree + 1, degree + 1)
    inner = lattice[1:-1, 1:-1].ravel()
    sides = np.setdiff1d(whole.points, inner)
    stiff, mass = elements.line(degree)
    own, along = scipy.linalg.eigh(stiff[1:-1, 1:-1], mass[1:-1, 1:-1])
    modes = np.kron(along, along)
    one = np.ones_like(own)
    each = (whole.along_x, whole.along_y, whole.capacity)
    return Square(
        sides,
        inner,
        np.asarray(modes, np.float64),
        np.stack([matrix[np.ix_(sides, sides)].ravel() for matrix in each]),
        np.stack([(matrix[np.ix_(sides, inner)] @ modes).ravel() for matrix in each]),
        np.stack([np.kron(own, one), np.kron(one, own), np.kron(one, one)]),
    )


def dissected(cells: tuple[int, int]) -> Places:
    """Order in which the lines and the cells of a grid are taken: halves first, the line between them last.

    Parameters
    ----------
    cells : two ints
        How many across and up. [1]

    Returns
    -------
    ndarray of int, shape (2 nx + 1, 2 ny + 1)
        A number for each line (even places) and the space between two (odd places), across and up; what has the lower
        number is taken first, what has the same number lies side by side. [1]

    Source
    ------
    Nested dissection, George 1973 (from memory).

    Examples
    --------
    Of four cells in a row the line in the middle is last, those beside it before that.

    >>> order = dissected((4, 1))[:, 1].tolist()
    >>> order.index(max(order)), order[0] < order[2] < order[4], order[6] < order[4]
    (4, True, True)
    """
    halvings = [[(axis, digits) for digits in _halved(count)] for axis, count in enumerate(cells)]
    found = np.zeros((2 * cells[0] + 1, 2 * cells[1] + 1), np.int64)
    settled = np.zeros(found.shape, bool)
    while any(halvings):
        axis, digits = max(halvings, key=len).pop(0)
        here = digits[:, None] if axis == 0 else digits[None, :]
        found = 3 * found + np.where(settled, LEFT, here)
        settled |= here == BETWEEN
    return found


@cache
def _halved(cells: int) -> tuple[NDArray[np.int64], ...]:
    """Halving by halving, on which hand of the middle line each line and each space between lines lies."""
    at = np.arange(2 * cells + 1)
    low, high = np.zeros(at.shape, np.int64), np.full(at.shape, cells)
    found: list[NDArray[np.int64]] = []
    settled = np.zeros(at.shape, bool)
    while True:
        live = (high - low > 1) & ~settled
        if not live.any():
            return tuple(found)
        middle = (low + high) // 2
        hand = np.where(at < 2 * middle, LEFT, np.where(at > 2 * middle, RIGHT, BETWEEN))
        found.append(np.where(live, hand, LEFT))
        settled |= live & (hand == BETWEEN)
        low, high = np.where(live & (hand == RIGHT), middle, low), np.where(live & (hand == LEFT), middle, high)


@dataclass(frozen=True)
class Condensing:
    """Which unknowns of a grid are kept, in their order, and how the cells' matrices are laid into theirs."""

    kept: Places  # (m,) unknowns in the order of the factors
    inner: Places  # (cells, q) unknowns inside whole cells
    sides: Places  # (cells, s) places among the kept of the unknowns on the sides of whole cells
    rows: NDArray[np.int32]  # of every entry: whole cells, then halves
    columns: NDArray[np.int32]
    face_rows: NDArray[np.int32]  # of every entry of the films
    face_columns: NDArray[np.int32]
    place: Places  # (n,) place of each unknown among the kept, -1 inside cells

    @classmethod
    def of(cls, eq: Equations) -> Condensing:
        """Order the unknowns of a grid."""
        degree = eq.degree
        across, up = np.nonzero(eq.number >= 0)  # in the order of their numbers
        cells = tuple((lines - 1) // degree for lines in eq.number.shape)
        order = dissected((cells[0], cells[1]))
        first = order[_entity(across, degree), _entity(up, degree)]
        inner = np.zeros((0, 0), np.int64)
        points = []
        for piece in eq.pieces:
            own = piece.points
            if piece.element.points.size == (degree + 1) ** 2:
                inner, own = own[:, square(degree).inner], own[:, square(degree).sides]
            points.append(own)
        is_kept = np.ones(eq.unknowns, bool)
        is_kept[inner.ravel()] = False
        kept = np.flatnonzero(is_kept)
        kept = kept[np.argsort(first[kept], kind="stable")]
        place = np.full(eq.unknowns, -1)
        place[kept] = np.arange(len(kept))
        sides = place[points[0]] if inner.size else np.zeros((0, 0), np.int64)
        return cls(
            kept, inner, sides, *_entries([place[own] for own in points]), *_entries([place[eq.faces.points]]), place
        )


def _entity(lines: Places, degree: int) -> Places:
    """Line of the grid (even) or space between two (odd) on which a line of the lattice lies."""
    return np.asarray(2 * (lines // degree) + (lines % degree > 0))


def _entries(groups: Sequence[Places]) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
    groups = [points.astype(np.int32) for points in groups]
    rows = [np.repeat(points, points.shape[1], 1).ravel() for points in groups]
    columns = [np.tile(points, (1, points.shape[1])).ravel() for points in groups]
    return np.concatenate(rows), np.concatenate(columns)


@dataclass(frozen=True)
class Condensed:
    """Conduction, with storage at one pace, over the kept unknowns; no films yet."""

    eq: Equations
    matrix: sp.csc_array  # (m, m) W/(m·K)
    across: NDArray  # (cells, s, q) between sides and modes
    inside: NDArray  # (cells, q) of each mode


def condensed(eq: Equations, pace: complex = 0.0) -> Condensed:
    """Put what lies inside whole cells in terms of their sides.

    Parameters
    ----------
    eq : Equations
        Of one grid. [W/(m·K), J/(m·K)]
    pace : complex
        i omega: how much of the storage is added to the conduction; 0 for what stands still. [1/s]

    Returns
    -------
    Condensed
        Real where ``pace`` is nought. [W/(m·K)]

    Source
    ------
    Static condensation, Wilson 1974 (from memory).

    Examples
    --------
    See tests/exact/test_condensed.py: temperatures are those of the whole equations.
    """
    to = eq.condensing
    across: NDArray = np.zeros((0, 0, 0))
    inside: NDArray = np.zeros((0, 0))
    values: list[NDArray] = []
    for piece in eq.pieces:
        k, a, b = eq.conductivity[piece.body], piece.wide, piece.high
        shares: list[NDArray] = [k * b / a, k * a / b]
        if pace:
            shares.append(pace * eq.capacity[piece.body] * a * b / 4.0)
        times = np.stack(shares, 1)
        if piece.points.shape[1] == (eq.degree + 1) ** 2:
            whole, count = square(eq.degree), times.shape[1]
            size, modes = len(whole.sides), len(whole.inner)
            own = (times @ whole.between_sides[:count]).reshape(-1, size, size)
            across = (times @ whole.across[:count]).reshape(-1, size, modes)
            inside = times @ whole.inside[:count]
            own -= (across / inside[:, None]) @ across.transpose(0, 2, 1)
        else:
            half = piece.element
            own = times @ np.stack([m.ravel() for m in (half.along_x, half.along_y, half.capacity)][: times.shape[1]])
        values.append(own.ravel())
    count = len(to.kept)
    matrix = sp.coo_array((np.concatenate(values), (to.rows, to.columns)), (count, count)).tocsc()
    return Condensed(eq, matrix, across, inside)


@dataclass(frozen=True)
class Factors:
    """Equations with films, factorised: solves for any loads on all unknowns of the grid."""

    of: Condensed
    matrix: sp.csc_array  # (m, m), films and all
    factors: SuperLU

    def solve(self, load: NDArray, *, once_more: bool = False) -> NDArray:
        """Temperatures for one load (n,) or several (n, k), ``once_more`` for what rounding left. [W/m] -> [K]"""
        to = self.of.eq.condensing
        kind = np.result_type(self.of.inside, load)
        columns = np.asarray(load, kind).reshape(len(load), -1)
        held = columns[to.kept]
        modes = None
        if to.inner.size:
            own = columns[to.inner]  # (cells, q, k)
            if own.any():
                modes = np.einsum("pm,cpk->cmk", square(self.of.eq.degree).modes, own) / self.of.inside[:, :, None]
                np.subtract.at(held, to.sides, self.of.across @ modes)
        kept = self.factors.solve(held)
        if once_more:
            kept = kept + self.factors.solve(held - self.matrix @ kept)
        found = np.empty(columns.shape, kind)
        found[to.kept] = kept
        if to.inner.size:
            follow = -(self.of.across.transpose(0, 2, 1) @ kept[to.sides]) / self.of.inside[:, :, None]
            found[to.inner] = square(self.of.eq.degree).modes @ (follow if modes is None else follow + modes)
        return found.reshape(load.shape)


def factorised(made: Condensed, resistance: Array) -> Factors:
    """With the films, factorised.

    Parameters
    ----------
    made : Condensed
        [W/(m·K)]
    resistance : ndarray, shape (faces,)
        Of the film on each face. [m²·K/W]

    Returns
    -------
    Factors
        Must be let go by the thread that made them, or scipy never gives their memory back. [K per W/m]

    Source
    ------
    SuperLU users' guide: symmetric mode, the order given (from memory).

    Examples
    --------
    See ``condensed``.
    """
    eq = made.eq
    to, count = eq.condensing, len(eq.condensing.kept)
    values = (eq.faces.length / 2 / resistance)[:, None] * elements.side(eq.degree).mass.ravel()
    films = sp.coo_array((values.ravel(), (to.face_rows, to.face_columns)), (count, count)).tocsc()
    matrix = made.matrix + films
    return Factors(made, matrix, splu(matrix, permc_spec="NATURAL", diag_pivot_thresh=0.0, options=SYMMETRIC))
