"""The equations of a section on one grid: conduction, storage, and the faces towards air."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray

from . import elements
from .condensed import Condensing
from .grid import FALLING, NOTHING, RISING, Grid, Side
from .shapes import Body, Facing

DEGREE = 2  # where none is asked for
UP, SIDE, DOWN = 0, 1, 2
FACINGS: tuple[Facing, ...] = ("up", "side", "down")


@dataclass(frozen=True)
class Faces:
    """Every stretch of surface between a body and a space."""

    points: NDArray[np.int64]  # (n, p + 1) unknowns along the face
    length: NDArray[np.float64]  # (n,) m
    x: NDArray[np.float64]  # (n,) m, middle
    y: NDArray[np.float64]  # (n,) m, middle
    space: NDArray[np.int64]  # (n,) index of the space
    facing: NDArray[np.int64]  # (n,) UP, SIDE or DOWN


@dataclass(frozen=True)
class Pieces:
    """Cells of one shape: whole ones, or halves of one kind."""

    points: NDArray[np.int64]  # (n, m) unknowns
    body: NDArray[np.int64]  # (n,) index of the body
    wide: NDArray[np.float64]  # (n,) m, of the whole cell
    high: NDArray[np.float64]  # (n,) m
    column: NDArray[np.int64]  # (n,) of the grid, from the left
    row: NDArray[np.int64]  # (n,) from below
    element: elements.Element


@dataclass(frozen=True)
class Equations:
    """Matrices over the unknown temperatures, and where those are. The matrices are summed when they are asked for."""

    degree: int  # of the polynomials on each cell
    conductivity: NDArray[np.float64]  # (bodies,) W/(m·K)
    capacity: NDArray[np.float64]  # (bodies,) J/(m³·K)
    faces: Faces
    number: NDArray[np.int64]  # (Nx, Ny) unknown at each lattice point, -1 in air
    x: NDArray[np.float64]  # (Nx,) m, lattice lines
    y: NDArray[np.float64]  # (Ny,) m
    pieces: tuple[Pieces, ...]  # the cells, from which the matrices are summed
    unknowns: int

    @cached_property
    def conduction(self) -> sp.csc_array:
        """[W/(m·K)]"""
        return self._summed(_conducts(piece, self.conductivity) for piece in self.pieces)

    @cached_property
    def storage(self) -> sp.csc_array:
        """[J/(m·K)]"""
        return self._summed(_stores(piece, self.capacity) for piece in self.pieces)

    @cached_property
    def condensing(self) -> Condensing:
        """Which unknowns are factorised, and in which order."""
        return Condensing.of(self)

    def _summed(self, values: Iterable[NDArray[np.float64]]) -> sp.csc_array:
        rows = [np.repeat(piece.points, piece.points.shape[1], 1).ravel() for piece in self.pieces]
        columns = [np.tile(piece.points, (1, piece.points.shape[1])).ravel() for piece in self.pieces]
        at = (np.concatenate(rows), np.concatenate(columns))
        summed = np.concatenate([each.ravel() for each in values])
        return sp.coo_array((summed, at), (self.unknowns, self.unknowns)).tocsc()

    def films(self, resistance: NDArray[np.float64]) -> sp.csc_array:
        """Matrix of the films, given the resistance of each face (n,). [m²·K/W] -> [W/(m·K)]"""
        side = elements.side(self.degree)
        values = (self.faces.length / 2 / resistance)[:, None, None] * side.mass
        rows = np.repeat(self.faces.points, self.degree + 1, 1)
        columns = np.tile(self.faces.points, (1, self.degree + 1))
        shape = (self.unknowns, self.unknowns)
        return sp.coo_array((values.ravel(), (rows.ravel(), columns.ravel())), shape).tocsc()

    def load(self, resistance: NDArray[np.float64], air: NDArray) -> NDArray:
        """Heat brought by air of the given temperature at each face (n,). [degC or K] -> [W/m]"""
        share = (self.faces.length / 2 / resistance * air)[:, None] * elements.side(self.degree).load
        points = self.faces.points.ravel()
        real = np.bincount(points, share.real.ravel(), self.unknowns)
        return real + 1j * np.bincount(points, share.imag.ravel(), self.unknowns) if np.iscomplexobj(air) else real

    def flows(self, resistance: NDArray[np.float64], air: NDArray, temperature: NDArray) -> NDArray:
        """Heat that enters the bodies through each face (n,). [W/m]"""
        surface = temperature[self.faces.points] @ (elements.side(self.degree).load / 2)
        return self.faces.length / resistance * (air - surface)


def equations(grid: Grid, bodies: Sequence[Body], degree: int = DEGREE) -> Equations:
    """Set up the equations of a section.

    Parameters
    ----------
    grid : Grid
        Lines and fill. [m]
    bodies : sequence of Body
        The bodies that the grid's fill counts. [W/(m·K), J/(m³·K)]
    degree : int
        Degree of the polynomials on each cell, at least 2. [1]

    Returns
    -------
    Equations
        Conduction [W/(m·K)] and storage [J/(m·K)], for one metre of edge.

    Source
    ------
    Galerkin's method with continuous elements, common practice, no source.

    Examples
    --------
    A wall 1 m high and 1 m thick between nothing and nothing conducts without loss: rows add up to nought.

    >>> from types import SimpleNamespace
    >>> wall = SimpleNamespace(conductivity=2.0, heat_capacity=1e6)
    >>> cell = np.array([0.0, 1.0])
    >>> one = Grid(cell, cell, np.zeros((1, 1), int), np.zeros((1, 1), int), np.zeros((1, 1), np.int8))
    >>> bool(abs(equations(one, [wall]).conduction.sum()) < 1e-12)
    True
    """
    p = degree
    nx, ny = grid.first.shape
    lattice = elements.lobatto(p)[1:] / 2 + 0.5
    lines_x = np.concatenate([[grid.x[0]], (grid.x[:-1, None] + np.diff(grid.x)[:, None] * lattice).ravel()])
    lines_y = np.concatenate([[grid.y[0]], (grid.y[:-1, None] + np.diff(grid.y)[:, None] * lattice).ravel()])
    base = (np.arange(nx) * p)[:, None] * len(lines_y) + np.arange(ny) * p
    step = np.arange(p + 1)
    local = (step[:, None] * len(lines_y) + step).ravel()
    conductivity = np.array([body.conductivity for body in bodies])
    capacity = np.array([body.heat_capacity for body in bodies])

    groups = []
    for which, pick, element in _pieces(grid, p):
        ix, iy = np.nonzero(pick & (which >= 0))
        if len(ix):
            groups.append((base[ix, iy][:, None] + local[element.points], which[ix, iy], ix, iy, element))
    used = np.zeros(len(lines_x) * len(lines_y), bool)
    for points, *_ in groups:
        used[points.ravel()] = True
    number = np.where(used, np.cumsum(used) - 1, -1)

    wide, high = np.diff(grid.x), np.diff(grid.y)
    pieces = tuple(
        Pieces(number[points], body, wide[ix], high[iy], ix, iy, made) for points, body, ix, iy, made in groups
    )
    return Equations(
        degree=p,
        conductivity=conductivity,
        capacity=capacity,
        faces=_faces(grid, p, base, local, number, lines_x, lines_y),
        number=number.reshape(len(lines_x), len(lines_y)),
        x=lines_x,
        y=lines_y,
        pieces=pieces,
        unknowns=int(used.sum()),
    )


def _conducts(piece: Pieces, conductivity: NDArray[np.float64]) -> NDArray[np.float64]:
    k, a, b, element = conductivity[piece.body], piece.wide, piece.high, piece.element
    return (k * b / a)[:, None] * element.along_x.ravel() + (k * a / b)[:, None] * element.along_y.ravel()


def _stores(piece: Pieces, capacity: NDArray[np.float64]) -> NDArray[np.float64]:
    return (capacity[piece.body] * piece.wide * piece.high / 4)[:, None] * piece.element.capacity.ravel()


def _pieces(grid: Grid, degree: int):
    """Fill, whether the piece is there, and element: whole cells, then the four kinds of half."""
    yield grid.first, grid.split == 0, elements.square(degree)
    for way in (RISING, FALLING):
        here = grid.split == way
        if here.any():
            yield grid.first, here, elements.triangle(degree, above=False, rising=way == RISING)
            yield grid.second, here, elements.triangle(degree, above=True, rising=way == RISING)


def _faces(grid: Grid, p: int, base, local, number, lines_x, lines_y) -> Faces:
    """Find every side, and every diagonal, with a body on one hand and a space on the other."""
    square = local.reshape(p + 1, p + 1)
    found: list[tuple[NDArray, ...]] = []

    def keep(body, air, cells, points, length, facing):
        ok = (body >= 0) & (air < 0) & (air > NOTHING)
        ix, iy = cells[0][ok], cells[1][ok]
        at = base[ix, iy][:, None] + points[ok]
        ends = at[:, [0, -1]]
        found.append(
            (
                number[at],
                length[ok],
                lines_x[ends // len(lines_y)].mean(1),
                lines_y[ends % len(lines_y)].mean(1),
                -1 - air[ok],
                facing[ok],
            )
        )

    wide, high = np.diff(grid.x), np.diff(grid.y)
    sides: tuple[tuple[Side, Side, int], ...] = (("left", "right", 0), ("bottom", "top", 1))
    for low_side, high_side, axis in sides:
        after = tuple(slice(1, None) if n == axis else slice(None) for n in (0, 1))
        before = tuple(slice(None, -1) if n == axis else slice(None) for n in (0, 1))
        one, two = grid.owner(high_side)[before], grid.owner(low_side)[after]
        cells = tuple(c.ravel() for c in np.indices(one.shape))
        length = high[cells[1]] if axis == 0 else wide[cells[0]]
        last = square[-1, :] if axis == 0 else square[:, -1]
        points = np.broadcast_to(last, (len(length), p + 1))
        for body, air, faces in ((one, two, UP), (two, one, DOWN)):
            facing = np.full(len(length), SIDE if axis == 0 else faces)
            keep(body.ravel(), air.ravel(), cells, points, length, facing)
    cells = np.nonzero(grid.split)
    if len(cells[0]):
        a, b = wide[cells[0]], high[cells[1]]
        rising = grid.split[cells] == RISING
        points = np.where(rising[:, None], np.diag(square), np.diag(square[:, ::-1]))
        flat = a >= b
        for body, air, faces in ((grid.first, grid.second, UP), (grid.second, grid.first, DOWN)):
            keep(body[cells], air[cells], cells, points, np.hypot(a, b), np.where(flat, faces, SIDE))
    return Faces(*(np.concatenate(column) for column in zip(*found, strict=True)))
