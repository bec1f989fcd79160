"""Heat and coldest places of thousands of candidates from some tens of sections on the first grid.

A floor's flow and its coldest places follow the resistance of its foam smoothly: U = 1 / (R + what else resists). So
each way of laying foam at the edges is cut and solved for a few resistances under the floor and at the edge, and what
lies between is laid through them by polynomials in 1 / (R + what else resists). For a floor's flow that is the whole
bare floor with its ground, for places and edges about what concrete, film and ground near by do. Leaving nodes out in
turn tells what that misses.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from ..checks import heat, humid, moisture
from ..checks.code.floor import u_value
from ..checks.settled import HEAT, settled_year
from ..checks.settled import wanted as wanted_by_room
from ..checks.solved import SolvedEdge, floor_faces, wall_faces
from ..cut import sketched_edges
from ..findings import Finding
from ..mistakes import Mistake, Mistakes
from ..resolve import Resolved
from .wanted import EdgeFoam, FloorFoam, Wanted

Array = NDArray[np.float64]
Ints = NDArray[np.int64]
Name = tuple[str, tuple[tuple[str, str | float], ...]]  # of a finding: its id and instance

BESIDE = 1.0  # m²·K/W that foam at an edge or below a place is counted beside: concrete, film and ground near by
FLOOR_NODES, EDGE_NODES = 4, 2
WALL_NODES = 3  # at an edge, where foam covers a basement's wall as well
FLOW = "flow"


@dataclass(frozen=True)
class Sketched:
    """One brief on the first grid: what is laid between, and the sections to know again."""

    edges: tuple[SolvedEdge, ...]
    flow: float  # W, mean of the year through the floor and a basement's wall
    energy: float  # kWh a year through them in the months that count for money
    held: tuple[Finding, ...]  # that have a limit


@dataclass
class Known:
    """Sections that are solved already, kept by whoever asks again about the same brief."""

    sketched: dict[tuple[object, ...], Sketched] = field(default_factory=dict)


@dataclass(frozen=True)
class Heat:
    """Columns over all candidates."""

    flow: Array  # W
    flow_within: Array  # W
    energy: Array  # kWh a year, in the months in which the room wants heat
    values: dict[Name, Array]  # of each finding that has a limit
    within: dict[Name, Array]
    of: dict[Name, Finding]  # one of that name, for its limit, sense, title and basis
    solved: int  # sections on the first grid that all of it rests on


def heat_of(wanted: Wanted, floor_of: Ints, edge_of: Ints, known: Known) -> Heat:
    """Heat of all candidates (each a number of a floor's foam and one of the edge's)."""
    count = len(floor_of)
    flow, off, energy = np.full(count, np.nan), np.zeros(count), np.full(count, np.nan)
    values: dict[Name, Array] = {}
    within: dict[Name, Array] = {}
    of: dict[Name, Finding] = {}
    solved = 0
    beside = 1.0 / u_value(wanted.parts(wanted.floors[0], wanted.edges[0]))[0]
    for detail in dict.fromkeys(each.detail for each in wanted.edges):
        here = np.array([each.detail == detail for each in wanted.edges])[edge_of]
        rows = np.flatnonzero(here)
        if not len(rows):
            continue
        for bare in (True, False):
            some = rows[(floor_of[rows] == 0) == bare]
            if not len(some):
                continue
            laid = _Between(wanted, sorted(set(floor_of[some])), sorted(set(edge_of[some])), known)
            solved += laid.count
            r_floor = np.array([wanted.floors[n].r_in_place for n in floor_of[some]])
            r_edge = np.array([wanted.edges[n].r_in_place for n in edge_of[some]])
            flow[some], off[some] = laid.at(lambda made: made.flow, r_floor, r_edge, beside)
            energy[some], _ = laid.at(lambda made: made.energy, r_floor, r_edge, beside)
            for name, finding in laid.findings.items():
                of.setdefault(name, finding)
                column = values.setdefault(name, np.full(count, np.nan))
                doubt = within.setdefault(name, np.full(count, np.inf))
                column[some], doubt[some] = laid.at(_value_of(name), r_floor, r_edge)
    return Heat(flow, off, energy, values, within, of, solved)


def name_of(finding: Finding) -> Name:
    return finding.id, tuple(sorted(finding.at.items()))


def _value_of(name: Name) -> Callable[[Sketched], float]:
    def value(made: Sketched) -> float:
        found = next((each.value for each in made.held if name_of(each) == name), None)
        return np.nan if found is None else found

    return value


def sketched(wanted: Wanted, floor: FloorFoam, edge: EdgeFoam, known: Known) -> Sketched:
    """One brief on the first grid. Raises Mistake or Mistakes where it cannot be built."""
    key = (floor.words, edge.detail, edge.board.key if edge.board else "", edge.made.typed if edge.made else "")
    if key not in known.sketched:
        resolved = wanted.with_these(floor, edge)
        known.sketched[key] = _sketched(resolved)
    return known.sketched[key]


def _sketched(resolved: Resolved) -> Sketched:
    edges = sketched_edges(resolved)
    flow = 0.0
    for edge in edges:
        through = edge.heat.flow(floor_faces).mean
        through += edge.heat.flow(wall_faces).mean if edge.walled else 0.0
        flow += through * edge.edge.length
    year = settled_year(resolved, edges)
    energy = bought(resolved, year.kilowatt_hours(year.whole))
    return Sketched(edges, flow, energy, tuple(_held(resolved, edges)))


def bought(resolved: Resolved, months: Sequence[float]) -> float:
    """What of twelve months' heat is paid for: those in which the room wants heat, in the season typed. [kWh]

    Of a floor that is kept frozen it is the heat that is taken out again.
    """
    if resolved.use.cold_floor:
        return -sum(months)
    season = resolved.money.season if resolved.money is not None else None
    wants = wanted_by_room(resolved)
    return sum(each for n, each in enumerate(months) if wants[n] == HEAT and (season is None or n + 1 in season))


def _held(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Finding]:
    for edge in edges:
        of_surfaces = (moisture.factor(resolved, edge), humid.surfaces(resolved, edge), heat.surface(resolved, edge))
        for finding in chain(*of_surfaces):
            if finding.limit is not None and finding.value is not None:
                yield finding


class _Between:
    """A grid of solved briefs over resistance under the floor and at the edge, and what lies between them."""

    def __init__(self, wanted: Wanted, floors: Sequence[int], edges: Sequence[int], known: Known) -> None:
        chosen_floors = _spread([(n, wanted.floors[n].r_in_place) for n in floors], FLOOR_NODES)
        nodes = WALL_NODES if any(each.kind == "footing-wall" for each in wanted.resolved.edges) else EDGE_NODES
        chosen_edges = _spread([(n, wanted.edges[n].r_in_place) for n in edges], nodes)
        self._floors = np.array([wanted.floors[n].r_in_place for n in chosen_floors])
        self._edges = _places([wanted.edges[n].r_in_place for n in chosen_edges])
        self._made: list[list[Sketched | None]] = [
            [_tried(wanted, wanted.floors[f], wanted.edges[e], known) for f in chosen_floors] for e in chosen_edges
        ]
        there = [made for row in self._made for made in row if made is not None]
        self.count = len(there)
        self.findings = {name_of(each): each for each in (there[0].held if there else ())}

    def at(
        self, value: Callable[[Sketched], float], r_floor: Array, r_edge: Array, beside: float = BESIDE
    ) -> tuple[Array, Array]:
        """What lies at so much resistance under the floor and at the edge, and how far it may be off.

        ``beside`` is what else resists where the floor's foam lies. [m²·K/W]
        """
        table = np.array([[np.nan if made is None else value(made) for made in row] for row in self._made])
        floors, nodes = _places(r_floor, beside), _places(self._floors, beside)
        whole = np.einsum("ce,ef,cf->c", _weights(_places(r_edge), self._edges), table, _weights(floors, nodes))
        off = np.zeros(len(r_floor))
        if len(self._floors) > 2:
            off = np.maximum(off, self._left_out(table, nodes, axis=1))
        if len(self._edges) > 2:
            off = np.maximum(off, self._left_out(table, self._edges, axis=0))
        return whole, off

    @staticmethod
    def _left_out(table: Array, places: Array, axis: int) -> float:
        """How far the inner nodes lie from what the others say of them, divided by what one more node gains."""
        rows = np.moveaxis(table, axis, -1)
        worst = 0.0
        for n in range(1, len(places) - 1):
            rest = [m for m in range(len(places)) if m != n]
            told = rows[..., rest] @ _weights(places[n : n + 1], places[rest])[0]
            worst = max(worst, float(np.nanmax(np.abs(told - rows[..., n]), initial=0.0)))
        return worst


def _tried(wanted: Wanted, floor: FloorFoam, edge: EdgeFoam, known: Known) -> Sketched | None:
    try:
        return sketched(wanted, floor, edge, known)
    except (Mistake, Mistakes):
        return None


def _places(resistance: Sequence[float] | Array, beside: float = BESIDE) -> Array:
    return np.asarray(1.0 / (np.asarray(resistance, np.float64) + beside))


def _spread(options: Sequence[tuple[int, float]], nodes: int) -> list[int]:
    """Options whose places lie about evenly between the least and the largest resistance, both ends among them."""
    places = {n: 1.0 / (r + BESIDE) for n, r in options}
    low, high = min(places.values()), max(places.values())
    if high - low < 1e-9:
        return [options[0][0]]
    aims = np.linspace(low, high, nodes)
    return list(dict.fromkeys(min(places, key=lambda n: (abs(places[n] - aim), n)) for aim in aims))


def _weights(at: Array, nodes: Array) -> Array:
    """Lagrange's weights (places, nodes)."""
    made = np.ones((len(at), len(nodes)))
    for n, node in enumerate(nodes):
        for m, other in enumerate(nodes):
            if m != n:
                made[:, n] *= (at - other) / (node - other)
    return made
