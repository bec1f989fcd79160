"""Temperatures and heat flows of a section: the mean of the year and its first harmonic, each with its error."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.sparse.linalg import SuperLU, splu

from ..year import YEAR
from . import condensed, elements
from .assemble import FACINGS, Equations, Faces, equations
from .condensed import SYMMETRIC
from .crossing import unseen
from .grid import NOTHING, Grid, Stretch, crossed, fill, finer, graded, within
from .lines import GROWTH, closer, features, shares
from .shapes import Body, Facing, Films, Space

LOWER, HIGHER = 3, 4  # degrees of the two solutions on every grid
# Estimates from the change between the two. The heat of a whole space is stationary, and its error falls evenly with
# the degree; the heat of a part of its surface, and a temperature at a point, can change by accident less than they are
# wrong: a part also carries some of the whole's change; a temperature a margin, and as much of the difference of the
# airs as the heat of all spaces is uncertain by. Tried on seeds 1 to 30 (studies/2026-11-28-degrees.md).
OF_A_WHOLE, OF_THE_WHOLE, OF_A_TEMPERATURE = 1.25, 0.25, 3.5


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

    steady: condensed.Factors
    periodic: condensed.Factors | None


@dataclass(frozen=True)
class Solution:
    """One grid's answer for one set of films."""

    equations: Equations
    mean: NDArray[np.float64]  # (n,) degC at every unknown
    swing: NDArray[np.complex128]  # (n,) K
    flow_mean: NDArray[np.float64]  # (faces,) W/m into the bodies
    flow_swing: NDArray[np.complex128]  # (faces,) W/m
    resistance: NDArray[np.float64]  # (faces,) m²·K/W of the films
    factors: Factors | None = None  # of the lower degree, with the first set of films: the others' would fill memories


@dataclass(frozen=True)
class Told:
    """A number of the year with its estimated numerical error: mean and swing, each within a bound."""

    mean: float
    swing: complex
    within: float  # bound for the mean plus bound for the swing


@dataclass(frozen=True)
class Solved:
    """A section answered twice on one grid: numbers from the higher degree, errors from the change to it."""

    coarse: Solution
    fine: Solution
    climates: tuple[Climate, ...]  # by space
    unseen: float = 0.0  # W/m that the change leaves out at corners where heat squeezes through a point; ``crossing``

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
        made = told(new, old, OF_A_WHOLE)
        return replace(made, within=made.within + self.unseen) if self.unseen else made

    def temperature(self, x: float, y: float) -> Told:
        """Temperature at a point that is on the grid: a corner of a body. [degC]"""
        new, old = ((s.mean[n], s.swing[n]) for s in (self.fine, self.coarse) for n in [unknown_at(s.equations, x, y)])
        return self.degrees(new, old)

    def degrees(self, new: tuple[float, complex], old: tuple[float, complex]) -> Told:
        """A temperature of the higher and of the lower degree, with its error. [degC]"""
        made = told(new, old, OF_A_TEMPERATURE)
        return replace(made, within=made.within + self._everywhere)

    @property
    def _everywhere(self) -> float:
        """What any temperature is uncertain by as the whole field is: that share of the airs' differences. [K]"""
        flows = [self._change(partial(_of_space, n)) for n in range(len(self.climates))]
        size = max(abs(flow.mean) + abs(flow.swing) for flow in flows)
        felt = _felt_airs(self.climates)
        apart = max(abs(a.mean - b.mean) + abs(a.swing - b.swing) for a in felt for b in felt)
        return apart * max(flow.within for flow in flows) / size if size > 0.0 else 0.0

    def along(self, x0: float, x1: float, y: float) -> tuple[NDArray, NDArray, NDArray, float]:
        """Places x, mean and swing along a level between two grid lines, and the error of the worst place."""
        x, mean, swing = _level(self.fine, x0, x1, y)
        old_x, old_mean, old_swing = _level(self.coarse, x0, x1, y)
        degree = self.fine.equations.degree
        new_mean, new_swing = (_along(x, each, degree, old_x) for each in (mean, swing))
        change = np.abs(new_mean - old_mean) + np.abs(new_swing - old_swing)
        return x, mean, swing, OF_A_TEMPERATURE * float(change.max()) + self._everywhere

    @property
    def imbalance(self) -> float:
        """Sum of all mean flows over the largest of the spaces' flows. [1]"""
        spaces = [self.fine.flow_mean[self.faces.space == n].sum() for n in range(len(self.climates))]
        largest = max(map(abs, spaces))
        return abs(sum(spaces)) / largest if largest > 0.0 else 0.0


def _felt_airs(climates: Sequence[Climate]) -> list[Climate]:
    return [climate.of(way) for climate in climates for way in FACINGS]


def _of_space(space: int, faces: Faces) -> NDArray[np.bool_]:
    return np.asarray(faces.space == space)


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


def _along(x: NDArray, values: NDArray, degree: int, at: NDArray) -> NDArray:
    """What polynomials on cells one beside the other, given at their lattice points, are at other places."""
    lines = x[::degree]
    if len(lines) == 1:
        return values
    cell = np.clip(np.searchsorted(lines, at - 1e-9) - 1, 0, len(lines) - 2)
    wide = lines[cell + 1] - lines[cell]
    weights, _ = elements.line_basis(degree, 2.0 * (at - lines[cell]) / wide - 1.0)
    return np.asarray((weights * values[cell[:, None] * degree + np.arange(degree + 1)]).sum(1))


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
    (annual harmonic, from memory). The error of the room's heat is 1.25 times the change from the third to the fourth
    degree, and what such a change does not show where two good conductors touch in a point (``crossing.unseen``): on
    sixty sections at random 1 to 20 times what is off. Below 0.001 % of the heat, where no second way is surer,
    nothing is claimed. See studies/2026-11-28-degrees.md and studies/2026-11-28-heat-alone.md.

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
    air, resistances, grid = posed.air, posed.resistances, posed.grid
    while True:
        coarse = _solutions(grid, bodies, resistances, air, LOWER, keep=True)
        fine = _solutions(grid, bodies, resistances, air, HIGHER)
        solved = tuple(Solved(*pair, air, _unseen(*pair, air)) for pair in zip(coarse, fine, strict=True))
        wanted = solved[0].flow(lambda faces: faces.space == 0)
        size = abs(wanted.mean) + abs(wanted.swing)
        if wanted.within <= tolerance * size:
            return solved
        x, y = _closer(posed, grid, solved[0])
        if (len(x) - 1) * (len(y) - 1) * HIGHER**2 > most_unknowns or (len(x), len(y)) == (len(grid.x), len(grid.y)):
            return solved
        grid = _grid(x, y, bodies, spaces)


def _unseen(coarse: Solution, fine: Solution, air: Sequence[Climate]) -> float:
    """Heat that the energy left out at corners comes to: between two airs it is that over what they are apart. [W/m]"""
    felt = _felt_airs(air)
    apart = (
        max(abs(a.mean - b.mean) for a in felt for b in felt),
        max(abs(a.swing - b.swing) for a in felt for b in felt),
    )
    energies = zip(unseen(coarse, fine), apart, strict=True)
    return OF_A_WHOLE * sum(energy / degrees for energy, degrees in energies if energy > 0.0 and degrees > 0.0)


def _closer(posed: _Posed, grid: Grid, solved: Solved) -> tuple[NDArray, NDArray]:
    """Lines of the next grid: more of them where the two degrees differ most.

    Where slanted sides hand lines to one another every cell is halved: then they ask for no more.
    """
    if posed.slanted:
        return finer(grid.x, posed.corners[0]), finer(grid.y, posed.corners[1])
    across, up = shares(grid, solved.coarse, solved.fine)
    return closer((grid.x, grid.y), (across, up), posed.corners)


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
    found = _solutions(posed.grid, bodies, posed.resistances, posed.air, LOWER, keep=True)
    return tuple(Solved(s, s, posed.air) for s in found)


@dataclass(frozen=True)
class _Posed:
    """A section as it is first put to the grid."""

    grid: Grid
    corners: tuple[list[float], list[float]]  # beside which cells are made narrow, across and up; m
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
    asked = features(bodies, spaces, [film_sets[0][space.where] for space in spaces], lines_x)
    stretches = crossed(bodies, spaces)
    x, y = (_thinned(graded(f, GROWTH), f, s) for f, s in zip(asked, stretches, strict=True))
    return _Posed(
        grid=_grid(x, y, bodies, spaces),
        corners=(_outside(asked[0], stretches[0]), _outside(asked[1], stretches[1])),
        slanted=any(stretches),
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
    grid: Grid,
    bodies: Sequence[Body],
    film_sets: Sequence[Sequence[Films]],
    climates: tuple[Climate, ...],
    degree: int,
    keep: bool = False,
) -> tuple[Solution, ...]:
    """Each set of films in a thread of its own: factorising takes much of the time and leaves Python free.

    Factors that are kept must be made by the thread that lets them go, or scipy never gives their memory back: the
    first set is solved here, the others keep none.
    """
    eq = equations(grid, bodies, degree)
    swings = any(each.swing != 0 for climate in climates for each in (climate, climate.of("up")))
    made = condensed.condensed(eq), condensed.condensed(eq, 2j * np.pi / YEAR) if swings else None
    first, *others = film_sets
    with ThreadPoolExecutor(max(len(others), 1)) as threads:
        beside = [threads.submit(lambda films: _light(_solution(*made, films, climates)), films) for films in others]
        here = _solution(*made, first, climates)
        return (here if keep else _light(here), *(each.result() for each in beside))


def _solution(
    still: condensed.Condensed,
    swinging: condensed.Condensed | None,
    films: Sequence[Films],
    climates: tuple[Climate, ...],
) -> Solution:
    eq = still.eq
    resistance, mean_air, swing_air = _felt(eq, films, climates)
    steady = condensed.factorised(still, resistance)
    mean = steady.solve(eq.load(resistance, mean_air), once_more=True)  # flows then add up
    if swinging is not None:
        periodic = condensed.factorised(swinging, resistance)
        swing = periodic.solve(eq.load(resistance, swing_air))
    else:
        periodic, swing = None, np.zeros(eq.unknowns, complex)
    return replace(solution(eq, films, climates, mean, swing), factors=Factors(steady, periodic))


def _felt(eq: Equations, films: Sequence[Films], climates: Sequence[Climate]) -> tuple[NDArray, NDArray, NDArray]:
    """Film and air of each face: resistance, mean and swing."""
    table = np.array([[film.of(facing) for facing in FACINGS] for film in films])
    resistance = table[eq.faces.space, eq.faces.facing]
    felt = [[climate.of(facing) for facing in FACINGS] for climate in climates]
    mean_air = np.array([[c.mean for c in row] for row in felt])[eq.faces.space, eq.faces.facing]
    swing_air = np.array([[c.swing for c in row] for row in felt], complex)[eq.faces.space, eq.faces.facing]
    return resistance, mean_air, swing_air


def solution(
    eq: Equations, films: Sequence[Films], climates: Sequence[Climate], mean: NDArray, swing: NDArray
) -> Solution:
    """Temperatures with the flows that belong to them.

    Parameters
    ----------
    eq : Equations
        [W/(m·K)]
    films : sequence of Films
        Of each space. [m²·K/W]
    climates : sequence of Climate
        Of each space. [degC]
    mean, swing : ndarray, shape (n,)
        At every unknown. [degC, K]

    Returns
    -------
    Solution
        Without factors. [degC, W/m]

    Source
    ------
    As for ``solve``.

    Examples
    --------
    See ``tests/exact/test_families.py``.
    """
    resistance, mean_air, swing_air = _felt(eq, films, climates)
    flow_mean, flow_swing = eq.flows(resistance, mean_air, mean), eq.flows(resistance, swing_air, swing)
    return Solution(eq, mean, swing, flow_mean, flow_swing, resistance)


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
