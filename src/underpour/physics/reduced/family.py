"""A family of sections as sums: matrices of one grid, each times a product of what varies.

A cell whose width grows s times and whose height t times conducts k t/s times its matrix along x, k s/t times that
along y, and stores s t times as much; a film passes its conductance times s or t. All of these matrices are symmetric
and none has a negative eigenvalue, and all factors are above zero: bounds of the reduced model rest on that.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray

from ..conduction import elements
from ..conduction.assemble import DEGREE, FACINGS, SIDE, Equations, equations
from ..conduction.grid import Grid
from ..conduction.shapes import Facing, Films
from ..conduction.solve import factor, unknown_at
from .stretch import Cut, Lines, Stretched, stretched

Array = NDArray[np.float64]
Airs = tuple[frozenset[tuple[int, Facing]], ...]  # of each air: the spaces it fills, the faces that feel it; may share


@dataclass(frozen=True)
class Parameter:
    """Something that varies, and the ends between which a family is made."""

    name: str
    low: float
    high: float


@dataclass(frozen=True)
class Conducting:
    """Bodies of one conductivity that varies. [W/(m·K)]"""

    parameter: Parameter
    bodies: tuple[int, ...]


@dataclass(frozen=True)
class Filmed:
    """Faces whose film's conductance varies. [W/(m²·K)]"""

    parameter: Parameter
    space: int
    facings: tuple[Facing, ...] = FACINGS


@dataclass(frozen=True)
class Varied:
    """What varies in a family: lengths in the order of ``cut``, then conductivities, films, and the pace of the air."""

    lengths: tuple[Parameter, ...] = ()  # m
    conductivities: tuple[Conducting, ...] = ()
    films: tuple[Filmed, ...] = ()
    pace: Parameter | float | None = None  # rad/s; a number where it is always the same, None for steady heat

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        paces = (self.pace,) if isinstance(self.pace, Parameter) else ()
        return (*self.lengths, *(c.parameter for c in self.conductivities), *(f.parameter for f in self.films), *paces)


@dataclass(frozen=True)
class Terms:
    """Matrices or vectors, one a row, and the powers of the factors that each is multiplied by."""

    values: Array  # (terms, entries) of the common pattern, or (terms, n)
    powers: NDArray[np.int8]  # (terms, factors)
    of: NDArray[np.int64] = field(default_factory=lambda: np.empty(0, np.int64))  # (terms,) which load, of loads alone

    def weights(self, logs: Array) -> Array:
        """What each term is multiplied by (cases, terms), from the logarithms of the factors (cases, factors)."""
        return np.exp(logs @ self.powers.T)


@dataclass(frozen=True)
class Family:
    """A family on one grid."""

    varied: Varied
    across: Lines
    up: Lines
    equations: Equations
    conduct: Terms  # W/(m·K), films among them
    store: Terms  # J/(m·K)
    load: Terms  # W/(m·K) that air of 1 K brings
    shared: Terms  # W/(m·K) that faces of two airs pass, one number a term; ``of`` counts pairs of airs
    pattern: tuple[NDArray[np.int32], NDArray[np.int32]]  # row indices and column starts of all matrices
    factors: tuple[tuple[int, int], ...]  # which band of which axis (0, 1) each stretch factor is of
    watched: Mapping[str, int]  # unknown of each watched place
    airs: int

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        return self.varied.parameters

    @property
    def size(self) -> int:
        return self.equations.unknowns

    @property
    def middle(self) -> Array:
        """The reference case: the geometric middle of every parameter."""
        return np.array([np.sqrt(p.low * p.high) for p in self.parameters])

    def stretches(self, cases: Array) -> tuple[Array, Array]:
        """Stretch factors (cases, factors) and their slopes in the lengths (factors, lengths). [1, 1/m]"""
        count = len(self.varied.lengths)
        away = cases[:, :count] - self.middle[:count]
        columns, slopes = [np.empty((len(cases), 0))], [np.empty((0, count))]
        for axis, band in self.factors:
            lines = (self.across, self.up)[axis]
            length = lines.features[band + 1] - lines.features[band]
            slope = (lines.slopes[band + 1] - lines.slopes[band]) / length
            columns.append(1.0 + away @ slope[:, None])
            slopes.append(slope[None])
        return np.concatenate(columns, 1), np.concatenate(slopes)

    def logs(self, cases: Array) -> Array:
        """Logarithms of all factors (cases, factors): stretches, conductivities, films, pace."""
        grown, _ = self.stretches(cases)
        rest = cases[:, len(self.varied.lengths) :]
        pace = self.varied.pace
        fixed = np.full((len(cases), 1), pace) if isinstance(pace, float) else np.empty((len(cases), 0))
        return np.log(np.concatenate([grown, rest, fixed], 1))

    def matrix(self, case: Array) -> sp.csc_array:
        """The matrix of one case (parameters,), complex where a pace is given. [W/(m·K)]"""
        logs = self.logs(case[None])
        entries = (self.conduct.weights(logs) @ self.conduct.values)[0]
        if self.varied.pace is not None:
            entries = entries + 1j * (self.store.weights(logs) @ self.store.values)[0]
        return self.sparse(entries)

    def sparse(self, entries: NDArray) -> sp.csc_array:
        """A matrix from its entries on the common pattern. [unit of the entries]"""
        return sp.csc_array((entries, *self.pattern), shape=(self.size, self.size))

    def loads(self, case: Array) -> Array:
        """Loads (n, airs) of one case. [W/(m·K)]"""
        weights = self.load.weights(self.logs(case[None]))[0]
        made = np.zeros((self.size, self.airs))
        np.add.at(made.T, self.load.of, weights[:, None] * self.load.values)
        return made

    def answer(self, case: Array, loads: Array) -> NDArray:
        """Temperatures (n, m) of one case under these loads (n, m), solved wholly. [K]"""
        return np.asarray(factor(self.matrix(case)).solve(loads if self.varied.pace is None else loads.astype(complex)))

    def fields(self, case: Array) -> NDArray:
        """Temperatures (n, airs) of one case, solved wholly: each air at 1 K, the others at nought. [1]"""
        return self.answer(case, self.loads(case))

    def lines(self, case: Array) -> tuple[Array, Array]:
        """Where the lattice's lines lie in one case: x and y. [m]"""
        count = len(self.varied.lengths)
        away = case[:count] - self.middle[:count]
        return self.across.moved(self.equations.x, away), self.up.moved(self.equations.y, away)

    def moved(self, case: Array) -> Equations:
        """The equations of one case: every line where it then lies, every conductivity as it then is."""
        eq = self.equations
        x, y = self.lines(case)
        lattice = np.argwhere(eq.number >= 0)
        of_unknown = np.empty_like(lattice)
        of_unknown[eq.number[tuple(lattice.T)]] = lattice
        ends = of_unknown[eq.faces.points[:, [0, -1]]]
        at_x, at_y = x[ends[..., 0]], y[ends[..., 1]]
        length = np.hypot(np.diff(at_x)[:, 0], np.diff(at_y)[:, 0])
        wide, high = np.diff(x[:: eq.degree]), np.diff(y[:: eq.degree])
        conductivity = eq.conductivity.copy()
        first = len(self.varied.lengths)
        for each, value in zip(self.varied.conductivities, case[first:], strict=False):  # films and pace come after
            conductivity[list(each.bodies)] = value
        return replace(
            eq,
            conductivity=conductivity,
            faces=replace(eq.faces, length=length, x=at_x.mean(1), y=at_y.mean(1)),
            x=x,
            y=y,
            pieces=tuple(replace(each, wide=wide[each.column], high=high[each.row]) for each in eq.pieces),
        )

    def without_matrices(self) -> Family:
        """The same without the entries of its matrices: enough to tell cases by a span that is there."""
        none = np.empty(0, np.int32)
        return replace(
            self,
            conduct=replace(self.conduct, values=self.conduct.values[:, :0].copy()),
            store=replace(self.store, values=self.store.values[:, :0].copy()),
            pattern=(none, none),
        )

    def couplings(self, case: Array, fields: NDArray) -> NDArray:
        """Heat (airs, airs) that air i gives off for each kelvin of air j. [W/(m·K)]"""
        return np.asarray(self.passed(self.logs(case[None]))[0] - self.loads(case).T @ fields)

    def passed(self, logs: Array) -> Array:
        """What the films of the faces of two airs pass (cases, airs, airs). [W/(m·K)]"""
        made = np.zeros((len(logs), self.airs**2))
        for air, weight, value in zip(self.shared.of, self.shared.weights(logs).T, self.shared.values, strict=True):
            made[:, air] += weight * value[0]
        return made.reshape(len(logs), self.airs, self.airs)


def posed(
    cut: Cut,
    varied: Varied,
    films: Sequence[Films],
    airs: Airs | None = None,
    *,
    watched: Mapping[str, tuple[float, float]] | None = None,
    lines_x: Sequence[float] = (),
    narrowed: float = 1.0,
) -> tuple[Family, Stretched]:
    """A family set up on its first grid.

    Parameters
    ----------
    cut : callable
        Lengths to bodies and spaces. [m]
    varied : Varied
        What varies. [m, W/(m·K), W/(m²·K), rad/s]
    films : sequence of Films
        Of each space; where a film varies, only its first cell's width follows from it. [m²·K/W]
    airs : tuple of frozensets of (int, facing), optional
        Airs of one temperature each, by number of space and facing; the room alone where left out, all else at
        nought. [1]
    watched : mapping of str to pair of float, optional
        Places, corners of bodies at the reference, whose temperature is asked for. [m]
    lines_x : sequence of float
        Further places x that shall be lines. [m]
    narrowed : float
        As for ``stretch.stretched``. [1]

    Returns
    -------
    Family, Stretched
        The family, and its grids. [W/(m·K)]

    Raises
    ------
    Unstretched
        See ``stretch.stretched``.

    Source
    ------
    Affine decomposition by stretches of a tensor grid, common practice, no source.

    Examples
    --------
    See ``told.told``.
    """
    ends = [np.array([getattr(p, end) for p in varied.lengths]) for end in ("low", "high")]
    made = stretched(cut, ends[0], ends[1], films, lines_x, narrowed)
    room: Airs = (frozenset((0, facing) for facing in FACINGS),)
    return on_grid(made, made.grid, varied, films, airs or room, watched or {}), made


def on_grid(
    made: Stretched,
    grid: Grid,
    varied: Varied,
    films: Sequence[Films],
    airs: Airs,
    watched: Mapping[str, tuple[float, float]],
) -> Family:
    """A family on one of its grids.

    Parameters
    ----------
    made : Stretched
        How its lines move. [m]
    grid : Grid
        The first grid or the finer one. [m]
    varied, films, airs, watched
        As for ``posed``. [m, W/(m·K), W/(m²·K), m²·K/W]

    Returns
    -------
    Family
        [W/(m·K)]

    Source
    ------
    As for ``posed``.

    Examples
    --------
    See ``told.told``.
    """
    eq = equations(grid, made.bodies)
    names = _factor_names(made, varied)
    place = {name: n for n, name in enumerate(names)}
    conduct, store, load, shared = (_Sum(len(names)) for _ in range(4))
    material = {body: n for n, each in enumerate(varied.conductivities) for body in each.bodies}
    conductivity = np.array([1.0 if n in material else b.conductivity for n, b in enumerate(made.bodies)])
    capacity = np.array([b.heat_capacity for b in made.bodies])
    material_of = np.array([material.get(n, -1) for n in range(len(made.bodies))])
    for piece, column, row in _placed(eq, made, place):
        kind = material_of[piece.body]
        a, b, k = piece.wide, piece.high, conductivity[piece.body]
        for m, s, t in {tuple(map(int, key)) for key in np.unique(np.column_stack([kind, column, row]), axis=0)}:
            here = (kind == m) & (column == s) & (row == t)
            points = piece.points[here]
            of = [place["material", m]] if m >= 0 else []
            along = (k * b / a)[here, None, None] * piece.element.along_x
            over = (k * a / b)[here, None, None] * piece.element.along_y
            if s < 0 and t < 0:
                conduct.add(of, [], points, along + over)
            else:
                up, down = [n for n in (t,) if n >= 0], [n for n in (s,) if n >= 0]
                conduct.add([*of, *up], down, points, along)
                conduct.add([*of, *down], up, points, over)
            if varied.pace is not None:
                kept = (capacity[piece.body] * a * b / 4)[here, None, None] * piece.element.capacity
                store.add([place["pace", 0], *(n for n in (s, t) if n >= 0)], [], points, kept)
    _add_films(conduct, load, shared, eq, made, varied, films, airs, place)
    pattern, values = _common(eq.unknowns, conduct, store)
    loads = np.zeros((len(load.parts), eq.unknowns))
    for n, parts in enumerate(load.parts.values()):
        for points, entries in parts:
            np.add.at(loads[n], points.ravel(), entries.ravel())
    return Family(
        varied=varied,
        across=made.across,
        up=made.up,
        equations=eq,
        conduct=Terms(values[0], conduct.powers()),
        store=Terms(values[1], store.powers()),
        load=Terms(loads, load.powers(), load.of()),
        shared=Terms(shared.totals(), shared.powers(), shared.of()),
        pattern=pattern,
        factors=tuple((name[1], name[2]) for name in names if name[0] == "stretch"),
        watched={name: unknown_at(eq, *at) for name, at in watched.items()},
        airs=len(airs),
    )


class _Sum:
    """Element matrices gathered by the powers of what they are multiplied by."""

    def __init__(self, factors: int):
        self.factors = factors
        self.parts: dict[tuple[tuple[int, ...], int], list[tuple[NDArray, NDArray]]] = {}

    def add(self, up: Sequence[int], down: Sequence[int], points: NDArray, entries: NDArray, of: int = 0) -> None:
        power = [0] * self.factors
        for n in up:
            power[n] += 1
        for n in down:
            power[n] -= 1
        self.parts.setdefault((tuple(power), of), []).append((points, entries))

    def of(self) -> NDArray[np.int64]:
        return np.array([key[1] for key in self.parts], np.int64)

    def totals(self) -> Array:
        return np.array([[sum(entries.sum() for _, entries in parts)] for parts in self.parts.values()])

    def powers(self) -> NDArray[np.int8]:
        return np.array([key[0] for key in self.parts], np.int8).reshape(len(self.parts), self.factors)


def _factor_names(made: Stretched, varied: Varied) -> list[tuple]:
    """Every factor, in the order of ``Family.logs``; bands that grow alike share one, the first of them."""
    names: list[tuple] = []
    for axis, lines in ((0, made.across), (1, made.up)):
        seen: set[tuple] = set()
        for band, slope in enumerate(_growths(lines)):
            if any(slope) and slope not in seen:
                seen.add(slope)
                names.append(("stretch", axis, band))
    names += [("material", n) for n in range(len(varied.conductivities))]
    names += [("film", n) for n in range(len(varied.films))]
    return [*names, ("pace", 0)] if varied.pace is not None else names


def _growths(lines: Lines) -> list[tuple]:
    return [tuple(row) for row in np.round(np.diff(lines.slopes, axis=0) / np.diff(lines.features)[:, None], 9)]


def _factor_of_band(lines: Lines, axis: int, place: Mapping[tuple, int]) -> NDArray[np.int64]:
    """Number of the stretch factor of each band, -1 where it does not grow."""
    growths = _growths(lines)
    return np.array([place["stretch", axis, growths.index(slope)] if any(slope) else -1 for slope in growths], np.int64)


def _placed(eq: Equations, made: Stretched, place: Mapping[tuple, int]):
    """Each kind of cells, with the stretch factors of their columns and rows."""
    lattice = np.argwhere(eq.number >= 0)
    of_unknown = np.empty_like(lattice)
    of_unknown[eq.number[tuple(lattice.T)]] = lattice
    for piece in eq.pieces:
        corner = of_unknown[piece.points].min(1)
        x = eq.x[corner[:, 0]] + piece.wide / 2
        y = eq.y[corner[:, 1]] + piece.high / 2
        yield (
            piece,
            _factor_of_band(made.across, 0, place)[made.across.band(x)],
            _factor_of_band(made.up, 1, place)[made.up.band(y)],
        )


def _add_films(conduct, load, shared, eq, made, varied, films, airs, place) -> None:
    side, faces = elements.side(DEGREE), eq.faces
    upright = faces.facing == SIDE
    column = _factor_of_band(made.across, 0, place)[made.across.band(faces.x)]
    row = _factor_of_band(made.up, 1, place)[made.up.band(faces.y)]
    stretch = np.where(upright, row, column)
    film_of = {(each.space, f): n for n, each in enumerate(varied.films) for f in each.facings}
    for space in range(len(made.spaces)):
        for number, facing in enumerate(FACINGS):
            own = film_of.get((space, facing), -1)
            conductance = 1.0 if own >= 0 else 1.0 / films[space].of(facing)
            of = [place["film", own]] if own >= 0 else []
            for s in np.unique(stretch[(faces.space == space) & (faces.facing == number)]):
                here = (faces.space == space) & (faces.facing == number) & (stretch == s)
                points = faces.points[here]
                share = conductance * faces.length[here] / 2
                grown = [*of, int(s)] if s >= 0 else of
                conduct.add(grown, [], points, share[:, None, None] * side.mass)
                feeling = [n for n, keys in enumerate(airs) if (space, facing) in keys]
                for air in feeling:
                    load.add(grown, [], points, share[:, None] * side.load, air)
                    for other in feeling:
                        both = np.array([[2.0 * share.sum()]])
                        shared.add(grown, [], np.zeros((1, 1), int), both, air * len(airs) + other)


def _common(size: int, *sums: _Sum) -> tuple[tuple[NDArray, NDArray], list[Array]]:
    """One pattern for all matrices, and each term's entries on it."""
    keys, entries = [], []
    for each in sums:
        for parts in each.parts.values():
            columns = np.concatenate([np.repeat(points, points.shape[1], 1).ravel() for points, _ in parts])
            rows = np.concatenate([np.tile(points, (1, points.shape[1])).ravel() for points, _ in parts])
            keys.append(columns * size + rows)
            entries.append(np.concatenate([values.ravel() for _, values in parts]))
    pattern, at = np.unique(np.concatenate(keys), return_inverse=True)
    starts = np.cumsum([0, *map(len, keys)])
    every = [np.bincount(at[a:b], e, len(pattern)) for a, b, e in zip(starts, starts[1:], entries, strict=False)]
    made: list[Array] = []
    first = 0
    for each in sums:
        made.append(np.reshape(every[first : first + len(each.parts)], (len(each.parts), len(pattern))).astype(float))
        first += len(each.parts)
    columns_at = np.searchsorted(pattern // size, np.arange(size + 1))
    return ((pattern % size).astype(np.int32), columns_at.astype(np.int32)), made
