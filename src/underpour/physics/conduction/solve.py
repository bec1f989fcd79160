"""Temperatures and heat flows of a section: the mean of the year and its first harmonic, each with its error."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.sparse.linalg import SuperLU, splu

from ..year import YEAR
from .assemble import FACINGS, Equations, Faces, equations
from .grid import NOTHING, RATIO, Grid, Stretch, crossed, features_of, fill, finer, graded, within
from .shapes import Body, Facing, Films, Space

SYMMETRIC = {"SymmetricMode": True, "Equil": False}  # for the sparse solver
# Estimates from the change between two grids. The heat of a whole space is stationary: its error falls evenly, at
# least four times in theory (``finer``), so its change is a safe estimate. The heat of a part of its surface, and a
# temperature at a point, can change by accident less than they are wrong: a part also carries some of the whole's
# change, a temperature a margin. Tried on seeds 1 to 30 (studies/2026-11-25-grids.md).
OF_THE_WHOLE, OF_A_TEMPERATURE = 0.25, 2.5


@dataclass(frozen=True)
class Climate:
    """Air temperature of one space: mean of the year and complex swing. [degC, K]

    ``level`` is what faces that look up feel in its place: ground under turf, snow or paving.
    """

    mean: float
    swing: complex = 0j
    level: Climate | None = None

    def of(self, facing: Facing) -> Climate:
        """What faces of one facing feel."""
        return self.level if self.level is not None and facing == "up" else self


class Overlap(ValueError):
    """Two bodies of one priority claim the same place; holds their indices."""

    def __init__(self, pairs: Sequence[tuple[int, int]]):
        self.pairs = tuple(pairs)
        super().__init__(f"bodies overlap: {self.pairs}")


class Gap(ValueError):
    """A place that neither a body nor a space claims. [m]"""

    def __init__(self, x: float, y: float):
        self.x, self.y = x, y
        super().__init__(f"nothing fills the place x = {x:.3f} m, y = {y:.3f} m")


@dataclass(frozen=True)
class Factors:
    """The equations factorised, for further loads: mean and swing; None where nothing swings."""

    steady: SuperLU
    periodic: SuperLU | None


@dataclass(frozen=True)
class Solution:
    """One grid's answer for one set of films."""

    equations: Equations
    mean: NDArray[np.float64]  # (n,) degC at every unknown
    swing: NDArray[np.complex128]  # (n,) K
    flow_mean: NDArray[np.float64]  # (faces,) W/m into the bodies
    flow_swing: NDArray[np.complex128]  # (faces,) W/m
    resistance: NDArray[np.float64]  # (faces,) m²·K/W of the films
    factors: Factors | None = None  # on the coarser grid, of the first set of films: the finer one's fill memories


@dataclass(frozen=True)
class Told:
    """A number of the year with its estimated numerical error: mean and swing, each within a bound."""

    mean: float
    swing: complex
    within: float  # bound for the mean plus bound for the swing


@dataclass(frozen=True)
class Solved:
    """A section answered on two grids, the second one finer; numbers come from the finer, errors from the change."""

    coarse: Solution
    fine: Solution
    climates: tuple[Climate, ...]  # by space

    @property
    def faces(self) -> Faces:
        return self.fine.equations.faces

    def flow(self, chosen: Callable[[Faces], NDArray[np.bool_]]) -> Told:
        """Heat that enters the bodies through the chosen faces. [W/m]"""
        part = self._change(chosen)
        spaces = np.unique(self.faces.space[chosen(self.faces)])
        whole = self._change(lambda faces: np.isin(faces.space, spaces))
        if whole.mean == part.mean:
            return part
        return Told(part.mean, part.swing, part.within + OF_THE_WHOLE * whole.within)

    def _change(self, chosen: Callable[[Faces], NDArray[np.bool_]]) -> Told:
        new, old = (
            (s.flow_mean[mask].sum(), s.flow_swing[mask].sum())
            for s in (self.fine, self.coarse)
            for mask in [chosen(s.equations.faces)]
        )
        return told(new, old)

    def temperature(self, x: float, y: float) -> Told:
        """Temperature at a point that is on the grids: a corner of a body. [degC]"""
        new, old = ((s.mean[n], s.swing[n]) for s in (self.fine, self.coarse) for n in [unknown_at(s.equations, x, y)])
        return told(new, old, OF_A_TEMPERATURE)

    def along(self, x0: float, x1: float, y: float) -> tuple[NDArray, NDArray, NDArray, float]:
        """Places x, mean and swing along a level between two grid lines, and the error of the worst place."""
        x, mean, swing = _level(self.fine, x0, x1, y)
        old_x, old_mean, old_swing = _level(self.coarse, x0, x1, y)
        at = np.searchsorted(x, old_x - 1e-9)
        change = np.abs(mean[at] - old_mean) + np.abs(swing[at] - old_swing)
        return x, mean, swing, OF_A_TEMPERATURE * float(change.max())

    @property
    def imbalance(self) -> float:
        """Sum of all mean flows over the largest of the spaces' flows. [1]"""
        spaces = [self.fine.flow_mean[self.faces.space == n].sum() for n in range(len(self.climates))]
        largest = max(map(abs, spaces))
        return abs(sum(spaces)) / largest if largest > 0.0 else 0.0


def told(new: tuple[float, complex], old: tuple[float, complex], times: float = 1.0) -> Told:
    """A number of the finer grid, with so many times its change as estimate of the error.

    Parameters
    ----------
    new, old : tuples of mean and swing
        On the finer and on the coarser grid. [W/m or degC]
    times : float
        [1]

    Returns
    -------
    Told
        [W/m or degC]

    Source
    ------
    Definition.

    Examples
    --------
    >>> told((20.0, 1j), (20.5, 1j)).within
    0.5
    """
    within = times * (abs(new[0] - old[0]) + abs(new[1] - old[1]))
    return Told(float(new[0]), complex(new[1]), float(within))


def unknown_at(equations: Equations, x: float, y: float) -> int:
    """Number of the unknown at a point on grid lines.

    Parameters
    ----------
    equations : Equations
        [m]
    x, y : float
        [m]

    Returns
    -------
    int
        [1]

    Raises
    ------
    ValueError
        The point lies in air.

    Source
    ------
    Definition.

    Examples
    --------
    See ``response.temperature_watched``.
    """
    n = int(equations.number[np.argmin(np.abs(equations.x - x)), np.argmin(np.abs(equations.y - y))])
    if n < 0:
        raise ValueError(f"the point x = {x}, y = {y} lies in air")
    return n


def _level(solution: Solution, x0: float, x1: float, y: float) -> tuple[NDArray, NDArray, NDArray]:
    eq = solution.equations
    row = eq.number[:, np.argmin(np.abs(eq.y - y))]
    on = (eq.x >= x0 - 1e-9) & (eq.x <= x1 + 1e-9) & (row >= 0)
    return eq.x[on], solution.mean[row[on]], solution.swing[row[on]]


def solve(
    bodies: Sequence[Body],
    spaces: Sequence[Space],
    films: Mapping[str, Films],
    climates: Mapping[str, Climate],
    *,
    lines_x: Sequence[float] = (),
    tolerance: float = 1e-3,
    most_unknowns: int = 60_000,
) -> Solved:
    """Solve a section for the mean of the year and the first harmonic, refined until the error is small enough.

    Parameters
    ----------
    bodies, spaces : sequences
        What the section is made of; together they leave no gap. [m, W/(m·K), J/(m³·K)]
    films : mapping of str to Films
        Surface resistances by the space's ``where``. [m²·K/W]
    climates : mapping of str to Climate
        Air temperatures by the space's ``where``. [degC]
    lines_x : sequence of float
        Further places x that shall be grid lines. [m]
    tolerance : float
        Wanted error of the heat that the first space gives off, as a share of it. [1]
    most_unknowns : int
        Refining stops here; the estimate then tells what was reached. [1]

    Returns
    -------
    Solved
        Temperatures [degC] and flows [W/m].

    Raises
    ------
    Overlap, Gap
        The bodies contradict each other or leave a hole.
    OutOfDomain
        Slanted sides that cannot be met by grid lines.

    Source
    ------
    Conduction with surface films as ISO 10211:2017 describes it (clause: from memory); periodic part as ISO 13370
    (annual harmonic, from memory). The error of the room's heat is the change between two nested grids: the finer one
    keeps at most a third of it by theory (``grid.finer``); see studies/2026-11-25-grids.md.

    Examples
    --------
    A wall 0.2 m thick, 1 W/(m·K), films 0.13 and 0.04, 20 K: 20 / 0.37 W/m².

    >>> from types import SimpleNamespace as S
    >>> def box(x0, x1): return ((x0, 0.0), (x1, 0.0), (x1, 1.0), (x0, 1.0))
    >>> wall = S(outline=box(0.0, 0.2), conductivity=1.0, heat_capacity=2e6, priority=1)
    >>> room, out = S(where="room", outline=box(0.2, 1.0)), S(where="outdoors", outline=box(-1.0, 0.0))
    >>> films = {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}
    >>> answer = solve([wall], [room, out], films, {"room": Climate(20.0), "outdoors": Climate(0.0)})
    >>> round(answer.flow(lambda faces: faces.space == 0).mean, 4)
    54.0541
    """
    return solve_each(
        bodies, spaces, [films], climates, lines_x=lines_x, tolerance=tolerance, most_unknowns=most_unknowns
    )[0]


def solve_each(
    bodies: Sequence[Body],
    spaces: Sequence[Space],
    film_sets: Sequence[Mapping[str, Films]],
    climates: Mapping[str, Climate],
    *,
    lines_x: Sequence[float] = (),
    tolerance: float = 1e-3,
    most_unknowns: int = 60_000,
) -> tuple[Solved, ...]:
    """The same section with several sets of films, on the same grids; the first set's heat decides how fine.

    Parameters
    ----------
    bodies, spaces : sequences
        As for ``solve``. [m, W/(m·K), J/(m³·K)]
    film_sets : sequence of mappings of str to Films
        Surface resistances, each set by the space's ``where``. [m²·K/W]
    climates : mapping of str to Climate
        As for ``solve``. [degC]
    lines_x : sequence of float
        As for ``solve``. [m]
    tolerance : float
        As for ``solve``. [1]
    most_unknowns : int
        As for ``solve``. [1]

    Returns
    -------
    tuple of Solved
        One for each set of films. [degC, W/m]

    Raises
    ------
    Overlap, Gap, OutOfDomain
        As for ``solve``.

    Source
    ------
    As for ``solve``.

    Examples
    --------
    See ``solve``.
    """
    posed = _posed(bodies, spaces, film_sets, climates, lines_x)
    air, resistances = posed.air, posed.resistances
    coarse = _solutions(posed.grid, bodies, resistances, air)
    x, y = posed.lines
    while True:
        x, y = finer(x, posed.corners[0]), finer(y, posed.corners[1])
        grid = _grid(x, y, bodies, spaces)
        fine = _solutions(grid, bodies, resistances, air)
        if posed.slanted:
            x, y = grid.x, grid.y  # with the lines that slanted sides asked for: halved, they ask for no more
        solved = tuple(Solved(*pair, air) for pair in zip(coarse, fine, strict=True))
        wanted = solved[0].flow(lambda faces: faces.space == 0)
        size = abs(wanted.mean) + abs(wanted.swing)
        if wanted.within <= tolerance * size or 4 * fine[0].equations.unknowns > most_unknowns:
            kept = [each.coarse if n == 0 else _light(each.coarse) for n, each in enumerate(solved)]
            return tuple(Solved(old, _light(each.fine), air) for old, each in zip(kept, solved, strict=True))
        coarse = fine


def _light(solution: Solution) -> Solution:
    return replace(solution, factors=None)


def sketch_each(
    bodies: Sequence[Body],
    spaces: Sequence[Space],
    film_sets: Sequence[Mapping[str, Films]],
    climates: Mapping[str, Climate],
    *,
    lines_x: Sequence[float] = (),
) -> tuple[Solved, ...]:
    """The same section on the first grid alone: some ten times faster than ``solve_each``, and with no error told.

    For the difference between two sections that are alike: what the first grid is wrong by is nearly the same in both.
    Its numbers are not handed on by themselves, for their ``within`` is nought.

    Parameters
    ----------
    bodies, spaces : sequences
        As for ``solve``. [m, W/(m·K), J/(m³·K)]
    film_sets : sequence of mappings of str to Films
        As for ``solve_each``. [m²·K/W]
    climates : mapping of str to Climate
        As for ``solve``. [degC]
    lines_x : sequence of float
        As for ``solve``. [m]

    Returns
    -------
    tuple of Solved
        One for each set of films, the coarse and the fine solution being the same. [degC, W/m]

    Raises
    ------
    Overlap, Gap, OutOfDomain
        As for ``solve``.

    Source
    ------
    As for ``solve``.

    Examples
    --------
    See ``solve``.
    """
    posed = _posed(bodies, spaces, film_sets, climates, lines_x)
    return tuple(Solved(s, s, posed.air) for s in _solutions(posed.grid, bodies, posed.resistances, posed.air))


@dataclass(frozen=True)
class _Posed:
    """A section as it is first put to the grid."""

    grid: Grid
    lines: tuple[NDArray, NDArray]  # to be made finer, across and up; m
    corners: tuple[list[float], list[float]]  # beside which the grid is refined twice, across and up; m
    slanted: bool
    air: tuple[Climate, ...]  # of each space
    resistances: list[list[Films]]  # of each set of films, by space


def _posed(
    bodies: Sequence[Body],
    spaces: Sequence[Space],
    film_sets: Sequence[Mapping[str, Films]],
    climates: Mapping[str, Climate],
    lines_x: Sequence[float],
) -> _Posed:
    features = features_of(bodies, spaces, [film_sets[0][space.where] for space in spaces], lines_x)
    stretches = crossed(bodies, spaces)
    x, y = (_thinned(graded(f, RATIO), f, s) for f, s in zip(features, stretches, strict=True))
    grid = _grid(x, y, bodies, spaces)
    slanted = any(stretches)
    return _Posed(
        grid=grid,
        lines=(grid.x, grid.y) if slanted else (x, y),
        corners=(_outside(features[0], stretches[0]), _outside(features[1], stretches[1])),
        slanted=slanted,
        air=tuple(climates[space.where] for space in spaces),
        resistances=[[films[space.where] for space in spaces] for films in film_sets],
    )


def _thinned(lines: NDArray, features: Mapping[float, float], stretches: Sequence[Stretch]) -> NDArray:
    """Lines without those that only grade the grid in a stretch where slanted sides multiply them."""
    spare = np.array(within(lines, stretches), bool) & ~np.isin(lines, list(features))
    return np.asarray(lines[~spare])


def _outside(features: Mapping[float, float], stretches: Sequence[Stretch]) -> list[float]:
    """Features beside which the grid is refined twice: where slanted sides multiply lines it is fine as it is."""
    kept = sorted(features)
    inner = within(kept, stretches)
    return [place for place, is_inner in zip(kept, inner, strict=True) if not is_inner]


def _grid(x: NDArray, y: NDArray, bodies: Sequence[Body], spaces: Sequence[Space]) -> Grid:
    grid, pairs = fill(x, y, bodies, spaces)
    if pairs:
        raise Overlap(pairs)
    for filled in (grid.first, grid.second):
        if (filled == NOTHING).any():
            ix, iy = (int(n[0]) for n in np.nonzero(filled == NOTHING))
            raise Gap(float(grid.x[ix : ix + 2].mean()), float(grid.y[iy : iy + 2].mean()))
    return grid


def _solutions(
    grid: Grid, bodies: Sequence[Body], film_sets: Sequence[Sequence[Films]], climates: tuple[Climate, ...]
) -> tuple[Solution, ...]:
    """Each set of films in a thread of its own: factorising takes nearly all of the time and leaves Python free.

    Factors that are kept must be made by the thread that lets them go, or scipy never gives their memory back: the
    first set is solved here, the others keep none.
    """
    eq = equations(grid, bodies)
    first, *others = film_sets
    with ThreadPoolExecutor(max(len(others), 1)) as threads:
        beside = [threads.submit(lambda films: _light(_solution(eq, films, climates)), films) for films in others]
        return (_solution(eq, first, climates), *(each.result() for each in beside))


def _solution(eq: Equations, films: Sequence[Films], climates: tuple[Climate, ...]) -> Solution:
    table = np.array([[film.of(facing) for facing in FACINGS] for film in films])
    resistance = table[eq.faces.space, eq.faces.facing]
    felt = [[climate.of(facing) for facing in FACINGS] for climate in climates]
    mean_air = np.array([[c.mean for c in row] for row in felt])[eq.faces.space, eq.faces.facing]
    swing_air = np.array([[c.swing for c in row] for row in felt], complex)[eq.faces.space, eq.faces.facing]
    matrix = eq.conduction + eq.films(resistance)
    load = eq.load(resistance, mean_air)
    steady = factor(matrix)
    mean = steady.solve(load)
    mean += steady.solve(load - matrix @ mean)  # once more for what rounding left: flows then add up
    if np.any(swing_air != 0):
        periodic = factor((matrix + (2j * np.pi / YEAR) * eq.storage).tocsc())
        swing = periodic.solve(eq.load(resistance, swing_air))
    else:
        periodic, swing = None, np.zeros(eq.unknowns, complex)
    flow_mean, flow_swing = eq.flows(resistance, mean_air, mean), eq.flows(resistance, swing_air, swing)
    return Solution(eq, mean, swing, flow_mean, flow_swing, resistance, Factors(steady, periodic))


def factor(matrix: sp.csc_array) -> SuperLU:
    """Factorise a symmetric matrix.

    Parameters
    ----------
    matrix : csc_array, shape (n, n)
        Real or complex symmetric. [W/(m·K)]

    Returns
    -------
    SuperLU
        Solves for right-hand sides (n,). [K]

    Source
    ------
    SuperLU users' guide: symmetric mode, minimum degree on A' + A (from memory).

    Examples
    --------
    >>> float(factor(sp.csc_array(np.eye(2) * 4.0)).solve(np.array([8.0, 4.0]))[0])
    2.0
    """
    return splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options=SYMMETRIC)
