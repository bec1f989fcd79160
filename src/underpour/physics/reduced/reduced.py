"""A family reduced: trained once between its ends, then thousands of cases a second, each with its bound."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..conduction.assemble import FACINGS
from ..conduction.shapes import Films
from .family import Airs, Family, Parameter, Varied, on_grid, posed
from .slopes import slopes
from .span import Growing, Span
from .stretch import Cut, Stretched
from .surface import Watched, beside, grown, temperatures
from .told import Told, spanned

Array = NDArray[np.float64]
Solved = tuple[Array, NDArray, dict[str, NDArray]]  # case, couplings, watched places
TRAINED, LOOKED_AT = 1_000, 8_000  # cases: to grow the span by, and to look at afterwards
WIDEST = 14.0  # the nearest reference's largest share over its least: the bound is at most so many times the error
MOST_REFERENCES = 6
MARGIN = 0.7  # of the wanted bound, on the cases looked at, so that others stay below it
NEGLIGIBLE = 1e-2  # of the residual that gives the wanted bound: what the cut factor may miss
NARROWED = 0.25  # of a full solve's first cells: one grid must serve all cases
OF_THE_CHANGE = 1.5  # of the change to the finer grid: that keeps a third of it at most (grid.finer)
OF_A_TEMPERATURE = 2.5  # the same for a watched place (studies/2026-11-25-grids.md)


@dataclass(frozen=True)
class Grown:
    """What the making of a family came to."""

    fields: int
    references: int
    ranks: tuple[int, ...]  # of each reference's factor
    solved: int  # cases solved wholly
    worst: float  # largest bound over the heat on the cases looked at, without the grid's own error
    on_finer: int  # cases solved on the finer grid as well


@dataclass(frozen=True)
class Posed:
    """A family as it was asked for."""

    cut: Cut
    varied: Varied
    films: tuple[Films, ...]
    airs: Airs
    watched: Mapping[str, tuple[float, float]]
    lines_x: tuple[float, ...]
    narrowed: float


@dataclass(frozen=True)
class Reduced:
    """A family and its span."""

    family: Family
    span: Span
    grid: Array  # (airs, airs) the grid's own error of each coupling, as a share of it
    watched: Mapping[str, Watched]
    grown: Grown
    posed: Posed

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        return self.family.parameters

    def told(self, cases: Array) -> Told:
        """Cases (cases, parameters), each between the family's ends, answered in the span."""
        return spanned(self.family, self.span, self.family.load, self.family.logs(cases))

    def temperatures(self, name: str, cases: Array, told: Told) -> tuple[NDArray, Array]:
        """A watched place for a kelvin of each air (cases, airs), and the bound of it. [K/K]"""
        return temperatures(self.family, self.watched[name], cases, told)

    def slopes(self, cases: Array, told: Told) -> NDArray:
        """Of each coupling in each parameter (cases, airs, airs, parameters). [W/(m·K) per unit of the parameter]"""
        return slopes(self.family, self.span, cases, told)

    def field(self, told: Told, case: int) -> NDArray:
        """Temperatures (n, airs) of one case told, at every unknown; ``family.lines`` says where. [K/K]"""
        return np.asarray(self.span.fields @ told.coefficients[case])

    def handed_on(self) -> Reduced:
        """Without the matrices of all unknowns, which only its making needs: a tenth of the memory."""
        return replace(self, family=self.family.without_matrices())

    def within(self, told: Told) -> Array:
        """Bound of each coupling (cases, airs, airs) with the grid's own error. [W/(m·K)]"""
        return np.asarray(told.bound + self.grid * (np.abs(told.couplings) + told.bound))


def cases_at_random(parameters: Sequence[Parameter], count: int, seed: int) -> Array:
    """Cases of a family drawn at random, evenly in the logarithm of each parameter.

    Parameters
    ----------
    parameters : sequence of Parameter
        [m, W/(m·K), W/(m²·K), rad/s]
    count : int
        [1]
    seed : int
        [1]

    Returns
    -------
    ndarray, shape (count, parameters)
        [m, W/(m·K), W/(m²·K), rad/s]

    Source
    ------
    Definition.

    Examples
    --------
    >>> cases_at_random([Parameter("foam", 0.02, 0.02)], 2, 1).round(6).tolist()
    [[0.02], [0.02]]
    """
    low, high = (np.log([getattr(p, end) for p in parameters]) for end in ("low", "high"))
    return np.exp(low + (high - low) * np.random.default_rng(seed).random((count, len(parameters))))


def reduced(
    cut: Cut,
    varied: Varied,
    films: Sequence[Films],
    airs: Airs | None = None,
    *,
    wanted: float = 0.01,
    absolute: float = np.inf,
    wanted_temperature: float = 2e-3,
    most: int = 90,
    seed: int = 1,
    trained: int = TRAINED,
    looked_at: int = LOOKED_AT,
    on_finer: int = 6,
    watched: Mapping[str, tuple[float, float]] | None = None,
    lines_x: Sequence[float] = (),
    narrowed: float = NARROWED,
) -> Reduced:
    """A family made ready: solved wholly where its span tells it worst, until every case looked at is told well.

    The bound of a case holds for it whether it was looked at or not; what was looked at only says how wide bounds are
    likely to be. It is a bound of what the span leaves out. The grid's own error is estimated beside it, from the
    change to a finer grid on some of the cases solved.

    Parameters
    ----------
    cut : callable
        Lengths to bodies and spaces. [m]
    varied : Varied
        What varies, between which ends. [m, W/(m·K), W/(m²·K), rad/s]
    films : sequence of Films
        Of each space. [m²·K/W]
    airs : tuple of frozensets of (int, facing), optional
        As for ``family.posed``. [1]
    wanted : float
        Bound of the heat, as a share of it. [1]
    absolute : float
        Bound of the heat by itself; that of a psi is the same. [W/(m·K)]
    wanted_temperature : float
        Bound of each watched place, as a share of the difference between airs. [1]
    most : int
        Fields at most; then the bounds are what was reached. [1]
    seed : int
        Of the cases drawn. [1]
    trained, looked_at : int
        Cases the span grows by, and those looked at afterwards. [1]
    on_finer : int
        Cases solved on the finer grid as well, at most. [1]
    watched : mapping of str to pair of float, optional
        Places whose temperature is asked for. [m]
    lines_x : sequence of float
        Further places x that shall be lines. [m]
    narrowed : float
        As for ``stretch.stretched``. [1]

    Returns
    -------
    Reduced
        [W/(m·K)]

    Raises
    ------
    Unstretched
        See ``stretch.stretched``.

    Source
    ------
    Greedy reduced basis method: Quarteroni, Manzoni, Negri 2016, chapters 3 and 7 (from memory). Stability by the
    least of the terms' shares (min-theta). Error of a compliant output: the residual's length squared over it.

    Examples
    --------
    A wall 1 m high and 0.1 to 0.4 m thick, films 0.13 and 0.04: t = 0.2 and k = 1 pass 1 / (0.17 + 0.2) W/K.

    >>> from types import SimpleNamespace as S
    >>> from .family import Conducting
    >>> def box(x0, x1): return ((x0, 0.0), (x1, 0.0), (x1, 1.0), (x0, 1.0))
    >>> def wall(t): return ([S(outline=box(0, t[0]), conductivity=1.0, heat_capacity=2e6, priority=1)],
    ...     [S(where="room", outline=box(t[0], t[0] + 1.0)), S(where="outdoors", outline=box(-1.0, 0.0))])
    >>> varied = Varied((Parameter("t", 0.1, 0.4),), (Conducting(Parameter("k", 0.5, 2.0), (0,)),))
    >>> made = reduced(wall, varied, [Films(0.13, 0.13, 0.13), Films(0.04, 0.04, 0.04)])
    >>> told = made.told(np.array([[0.2, 1.0]]))
    >>> bool(abs(told.couplings[0, 0, 0] - 1 / 0.37) <= made.within(told)[0, 0, 0] + 1e-9)
    True
    """
    room = airs or (frozenset((0, facing) for facing in FACINGS),)
    asked = Posed(cut, varied, tuple(films), room, watched or {}, tuple(lines_x), narrowed)
    family, made = posed(cut, varied, films, room, watched=watched, lines_x=lines_x, narrowed=narrowed)
    growing, known, span, cases, worst = _grown(family, wanted, absolute, most, seed, trained, looked_at)
    told = spanned(family, span, family.load, family.logs(cases))
    places = {
        name: grown(family, growing, unknown, cases, told, wanted_temperature, most)
        for name, unknown in family.watched.items()
    }
    grid, on_places, picked = _on_finer(family, made, asked, known, on_finer)
    ranks = tuple(len(reference.of_matrices) for reference in span.references)
    return Reduced(
        family,
        span,
        grid,
        {name: beside(*each, growing, on_places[name]) for name, each in places.items()},
        Grown(span.size, len(span.references), ranks, len(known), worst, picked),
        asked,
    )


def _on_finer(
    family: Family, made: Stretched, asked: Posed, known: Sequence[Solved], count: int
) -> tuple[Array, dict[str, float], int]:
    """The grid's own errors: of couplings as a share, of watched places in K/K; and how many cases tell them."""
    grid, places = np.zeros((family.airs, family.airs)), dict.fromkeys(family.watched, 0.0)
    picked = _spread_out(known, count)
    if picked:
        finer = on_grid(made, made.finer(), asked.varied, asked.films, asked.airs, asked.watched)
    for case, couplings, old in picked:
        fields = finer.fields(case)
        change = np.abs(finer.couplings(case, fields) - couplings)
        grid = np.maximum(grid, OF_THE_CHANGE * change / np.abs(couplings))
        for name, unknown in finer.watched.items():
            moved = float(np.abs(fields[unknown] - old[name]).max())
            places[name] = max(places[name], OF_A_TEMPERATURE * moved)
    return grid, places, len(picked)


def _spread_out(known: Sequence[Solved], count: int) -> list[Solved]:
    """Solved cases, evenly taken from the one with the least heat to the one with the most."""
    order = sorted(known, key=lambda each: abs(each[1][0, 0]))
    at = np.unique(np.linspace(0, len(order) - 1, min(count, len(order))).round().astype(int))
    return [order[n] for n in at] if count else []


def _grown(
    family: Family, wanted: float, absolute: float, most: int, seed: int, trained: int, looked_at: int
) -> tuple[Growing, list[Solved], Span, Array, float]:
    cases = cases_at_random(family.parameters, trained, seed)
    fresh = cases_at_random(family.parameters, looked_at, seed + 7919)
    growing = Growing(family, family.load, _references(family, cases))
    known: list[Solved] = []

    def solve(case: Array) -> int:
        fields = family.fields(case)
        there = {name: fields[unknown] for name, unknown in family.watched.items()}
        known.append((case, family.couplings(case, fields), there))
        return growing.add(fields)

    solve(family.middle)
    logs, logs_fresh = family.logs(cases), family.logs(fresh)
    looking, among = logs, cases
    while True:
        told = spanned(family, growing.span(), family.load, looking)
        widths = _widths(told)
        excess = np.maximum(widths / wanted, _product(told) / absolute)
        worst = int(excess.argmax())
        if growing.fields.shape[1] >= most:
            break
        if excess[worst] > MARGIN:
            if not solve(among[worst]):
                break  # its field is in the span already: what is left of the bound is rounding
        elif looking is logs:
            looking, among = logs_fresh, fresh
        else:
            break
    aim = min(wanted, absolute / float(np.abs(told.couplings[:, 0, 0]).max()))
    return growing, known, _cut_down(family, growing, logs, aim), cases, float(widths.max())


def _product(told: Told) -> Array:
    """Bound of the room's own heat, or of what it gets from another air if that is wider. [W/(m·K)]"""
    return np.asarray(told.lengths[:, 0] * told.lengths.max(1))


def _widths(told: Told) -> Array:
    """The same as a share of the room's heat."""
    return np.asarray(_product(told) / np.abs(told.couplings[:, 0, 0]))


def _cut_down(family: Family, growing: Growing, logs: Array, wanted: float) -> Span:
    """The span with factors cut down to what matters for the wanted bound."""
    told = spanned(family, growing.span(), family.load, logs)
    weights = family.conduct.weights(logs)
    if family.varied.pace is not None:
        weights = np.concatenate([weights, family.store.weights(logs)], 1)
    largest = (
        np.abs(told.coefficients).max((0, 2)) + 1e-300,
        family.load.weights(logs).max(0),
        weights.max(0),
    )
    scaled = np.sqrt(len(weights[0]) * growing.fields.shape[1])
    least = np.abs(told.couplings[:, 0, 0]).min()
    return growing.span(largest, NEGLIGIBLE * np.sqrt(wanted * least) / scaled)


def _references(family: Family, cases: Array) -> list[Array]:
    """The middle, and further cases until each lies near enough to one; as many as are allowed."""
    logs = family.logs(cases)
    terms = np.concatenate([family.conduct.powers, family.store.powers]) if family.varied.pace is not None else None
    powers = family.conduct.powers if terms is None else terms
    at = logs @ powers.T
    chosen = [(family.logs(family.middle[None]) @ powers.T)[0]]
    found = [family.middle]
    while len(found) < MOST_REFERENCES:
        away = np.min([np.ptp(at - each, axis=1) for each in chosen], axis=0)
        if away.max() < np.log(WIDEST):
            break
        far = np.flatnonzero(away > np.log(WIDEST) * 0.8)
        middle = min(far, key=lambda n: np.median(np.ptp(at[far] - at[n], axis=1)))
        found.append(cases[middle])
        chosen.append(at[middle])
    return found
