"""Suction all over the layer under a floor: pits and their fans, leaks of ground, slab and edge, found together.

Suction counts from the air outdoors at the floor's level: nought there, above nought where the layer is below it. All
flows and pits are found at once by Newton's method; pits stand in it as a border, so a fan's curve needs no inverse.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..conduction.solve import factor
from ..domain import OutOfDomain, above_zero, not_below_zero
from ..plates.slab import inside
from .cells import Array, Cells, Pit, along_the_edge, cells_of, held_by
from .hydraulics import Hydraulics
from .pits import LastStretch, last_stretch
from .plan import Plan
from .summed import Leaks, Summed, summed

WIDEST = 0.5  # m, of a cell
MOST_TURNS = 40
SETTLED = 1e-11  # of the largest flow, and of the largest suction

Curve = Callable[[float], tuple[float, float]]  # flow [m³/s] -> suction or loss [Pa] and its slope [Pa·s/m³]
At = Callable[[Array, Array], Array]  # places x, y [m] -> a value at each


class Unsettled(ArithmeticError):
    """Flow and suction do not come to rest: what drives the pits has no steady state."""


def no_loss(flow: float) -> tuple[float, float]:
    """A branch so short and wide that nothing is lost in it.

    Parameters
    ----------
    flow : float
        [m³/s]

    Returns
    -------
    tuple of two, loss and slope
        [Pa], [Pa·s/m³]

    Source
    ------
    Definition.

    Examples
    --------
    >>> no_loss(0.02)
    (0.0, 0.0)
    """
    return 0.0, 0.0


@dataclass(frozen=True)
class Drawn:
    """Pits that one fan or one pipe draws from."""

    pits: tuple[Pit, ...]
    suction: Curve  # where the branches meet, at the flow of all of them; never rises with the flow
    branches: tuple[Curve, ...] = ()  # loss on the way to each pit; none where nothing is lost


@dataclass(frozen=True)
class Leakage:
    """Air that comes into the layer by suction: through the ground, the slab and the joint round its edge."""

    ground: float | At  # m/(s·Pa), from outdoors
    slab: float = 0.0  # m/(s·Pa), from the room
    edge: float | At = 0.0  # m²/(s·Pa) by length of the edge, from the room
    room: float = 0.0  # Pa by which the room is below outdoors


@dataclass(frozen=True)
class Field:
    """Suction all over a layer, and what flows. [Pa], [m³/s]"""

    cells: Cells
    plan: Plan
    suction: Array  # (nx + 1, ny + 1) Pa at the points of the lines; NaN where there is no layer
    pits: tuple[Pit, ...]
    pit_suction: tuple[float, ...]  # Pa in each pit
    pit_flow: tuple[float, ...]  # m³/s out of each pit
    ground_flow: float  # m³/s that comes in through the ground
    room_flow: float  # m³/s that comes in from the room, through slab and edge
    room: float  # Pa by which the room is below outdoors
    turns: int

    @property
    def flow(self) -> float:
        """All that is drawn. [m³/s]"""
        return sum(self.pit_flow)

    @property
    def unbalanced(self) -> float:
        """Flow in less flow out. [m³/s]"""
        return self.ground_flow + self.room_flow - self.flow

    def at(self, x: Array, y: Array) -> Array:
        """Suction at places; NaN where there is no layer. [Pa]"""
        px, py = np.atleast_1d(np.asarray(x, float)), np.atleast_1d(np.asarray(y, float))
        cell = self.cells.found(px, py)
        found = np.full(len(px), np.nan)
        here = cell[:, 0] >= 0
        shares, _ = self.cells.shapes(cell[here], px[here], py[here])
        ix, iy = cell[here].T
        corners = np.stack(
            [self.suction[ix, iy], self.suction[ix, iy + 1], self.suction[ix + 1, iy], self.suction[ix + 1, iy + 1]], 1
        )
        found[here] = np.einsum("pi,pi->p", shares, corners)
        return found

    @property
    def weakest(self) -> tuple[float, float, float]:
        """Where the layer is least below the room: x, y [m] and how far it is below it. [Pa]"""
        px, py = np.meshgrid(self.cells.x, self.cells.y, indexing="ij")
        known = np.isfinite(self.suction) & inside(self.plan.rings, px, py)
        x, y = px[known], py[known]
        edge = np.concatenate([_along(ring, self.cells) for ring in self.plan.rings])
        x, y = np.append(x, edge[:, 0]), np.append(y, edge[:, 1])
        found = self.at(x, y)
        least = int(np.nanargmin(found))
        return float(x[least]), float(y[least]), float(found[least] - self.room)


def suction_field(
    plan: Plan, drawn: Sequence[Drawn], leakage: Leakage, widest: float = WIDEST, like: Field | None = None
) -> Field:
    """Suction all over the layer under a floor.

    Parameters
    ----------
    plan : Plan
        Outline, footings, hydraulics. [m]
    drawn : sequence of Drawn
        Pits with what draws from them. [m], [Pa]
    leakage : Leakage
        [m/(s·Pa)]
    widest : float
        No cell is wider. [m]
    like : Field or None
        An earlier one with the same outlines and pits: its cells are taken, and its suction is begun with. [Pa]

    Returns
    -------
    Field
        [Pa]

    Raises
    ------
    OutOfDomain
        No pit; a pit beside the plan or in a footing; two pits in one another; nothing that leaks into a part of the
        layer, whose suction nothing then holds; leakage below nought.
    Unsettled
        What draws from the pits has no steady state.

    Source
    ------
    Darcy with Forchheimer's term by the whole fall of pressure; leaky layer; Galerkin's method and Newton's (derived).

    Examples
    --------
    A pit in the middle of a square slab that only leaks evenly, and hardly: all the leak at the pit's suction.

    >>> from .hydraulics import Hydraulics
    >>> plan = Plan([(0, 0), (4, 0), (4, 4), (0, 4)], Hydraulics(1e-3, 0.0))
    >>> one = Drawn((Pit(2.0, 2.0, 0.2),), lambda flow: (50.0, 0.0))
    >>> round(suction_field(plan, [one], Leakage(1e-6)).flow / (50.0 * 1e-6 * 16.0), 5)
    1.0
    """
    pits = tuple(pit for each in drawn for pit in each.pits)
    _refuse(plan, pits, leakage, widest)
    cells = cells_of(plan, pits, widest) if like is None else like.cells
    numbered, place = _numbered(cells, pits)
    law = _law(plan, cells)
    layer = summed(cells, numbered, *law, lambda number: _leaks(plan, cells, number, leakage))
    _refuse_sealed(layer)
    last = [last_stretch(pit, cells.x, cells.y, _law_at(plan, pit)) for pit in pits]
    begin = np.full(layer.count, float(np.mean([leak.beyond for leak in layer.leaks]))), np.zeros(len(pits))
    if like is not None:
        begin[0][numbered[place]] = like.suction.ravel()[place]
        begin[1][:] = like.pit_flow
    suction, flows, turns = _settled(layer, begin, drawn, last)
    ground, slab, edge = (float(leak.flow(suction[layer.corners]).sum()) for leak in layer.leaks)
    left = np.full(len(numbered), np.nan)
    left[place] = suction[numbered[place]]
    inner = [stretch.fall(flow)[0] for stretch, flow in zip(last, flows, strict=True)]
    return Field(
        cells,
        plan,
        left.reshape(len(cells.x), len(cells.y)),
        pits,
        tuple(float(s) + fall for s, fall in zip(suction[: len(pits)], inner, strict=True)),
        tuple(flows.tolist()),
        ground,
        slab + edge,
        leakage.room,
        turns,
    )


def _refuse(plan: Plan, pits: Sequence[Pit], leakage: Leakage, widest: float) -> None:
    above_zero(widest=widest)
    if not pits:
        raise OutOfDomain("there is no pit to draw from")
    for pit in pits:
        above_zero(radius=pit.radius)
        held_by(plan, pit)
    for n, pit in enumerate(pits):
        if any(max(abs(pit.x - o.x), abs(pit.y - o.y)) < 1.5 * (pit.radius + o.radius) for o in pits[:n]):
            raise OutOfDomain(f"the pit at {pit.x:g}, {pit.y:g} m is too close to another one")
    not_below_zero(slab=leakage.slab)
    for each in (leakage.ground, leakage.edge):
        if not callable(each):
            not_below_zero(leakage=each)


def _numbered(cells: Cells, pits: Sequence[Pit]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Unknown of each point of the lines, a pit's square being one; and the points that have any layer round them."""
    place = np.unique(cells.corners_of(np.argwhere(cells.there)))
    numbered = np.zeros(len(cells.x) * len(cells.y), int)
    px, py = (each.ravel() for each in np.meshgrid(cells.x, cells.y, indexing="ij"))
    of_pit = np.full(len(px), -1)
    for n, pit in enumerate(pits):
        reach = pit.radius * (1.0 + 1e-9)
        of_pit[(abs(px - pit.x) <= reach) & (abs(py - pit.y) <= reach)] = n
    free = place[of_pit[place] < 0]
    numbered[free] = len(pits) + np.arange(len(free))
    tied = of_pit >= 0
    numbered[tied] = of_pit[tied]
    return numbered, place


def _law(plan: Plan, cells: Cells) -> tuple[Array, Array]:
    viscous = np.full(len(cells.px), plan.hydraulics.viscous)
    inertial = np.full(len(cells.px), plan.hydraulics.inertial)
    for part in plan.parts:
        here = inside([part.outline], cells.px, cells.py)
        viscous[here], inertial[here] = part.hydraulics.viscous, part.hydraulics.inertial
    return viscous, inertial


def _law_at(plan: Plan, pit: Pit) -> Hydraulics:
    for part in reversed(plan.parts):
        if inside([part.outline], np.array([pit.x]), np.array([pit.y])).all():
            return part.hydraulics
    return plan.hydraulics


def _leaks(plan: Plan, cells: Cells, number: NDArray[np.int64], leakage: Leakage) -> tuple[Leaks, ...]:
    """Through the ground, the slab and the edge."""
    below = number[cells.cell[:, 0], cells.cell[:, 1]]
    shares, _ = cells.shapes(cells.cell, cells.px, cells.py)
    ground = leakage.ground(cells.px, cells.py) if callable(leakage.ground) else leakage.ground
    cell, x, y, length = along_the_edge(cells, plan.rings)
    edge = leakage.edge(x, y) if callable(leakage.edge) else leakage.edge
    return (
        Leaks(below, shares, ground * cells.weight, 0.0),
        Leaks(below, shares, leakage.slab * cells.weight, leakage.room),
        Leaks(number[cell[:, 0], cell[:, 1]], cells.shapes(cell, x, y)[0], edge * length, leakage.room),
    )


def _refuse_sealed(layer: Summed) -> None:
    """Refuse a part of the layer that nothing leaks into."""
    import scipy.sparse as sp
    from scipy.sparse.csgraph import connected_components

    first, others = np.repeat(layer.corners[:, 0], 3), layer.corners[:, 1:].ravel()
    graph = sp.csr_array((np.ones(len(first)), (first, others)), shape=(layer.count, layer.count))
    parts, of = connected_components(graph, directed=False)
    leaking = np.zeros(parts)
    for leak in layer.leaks:
        leaking += np.bincount(of[layer.corners[leak.cell, 0]], leak.rate, parts)
    if (leaking <= 0.0).any():
        raise OutOfDomain("a part of the layer is sealed all round: nothing holds its suction")


def _settled(
    layer: Summed, begin: tuple[Array, Array], drawn: Sequence[Drawn], last: Sequence[LastStretch]
) -> tuple[Array, Array, int]:
    """Suction at every unknown, flow out of every pit, and in how many turns they were found."""
    suction, flows = begin
    pits = len(flows)
    group = np.array([n for n, each in enumerate(drawn) for _ in each.pits])
    branches = [branch for each in drawn for branch in (each.branches or (no_loss,) * len(each.pits))]
    alike = group[:, None] == group[None, :]
    border = np.zeros((layer.count, pits))
    border[np.arange(pits), np.arange(pits)] = 1.0
    for turn in range(1, MOST_TURNS + 1):
        solver = factor(layer.change(suction))
        excess = layer.unbalanced(suction)
        excess[:pits] -= flows
        found = solver.solve(np.column_stack([-excess, border]))
        alone, by_flow = found[:, 0], found[:, 1:]
        drives = [each.suction(float(flows[group == n].sum())) for n, each in enumerate(drawn)]
        falls = [
            (stretch.fall(flow)[0] + branch(flow)[0], stretch.fall(flow)[1] + branch(flow)[1])
            for stretch, branch, flow in zip(last, branches, flows.tolist(), strict=True)
        ]
        off = suction[:pits] + np.array([fall for fall, _ in falls]) - np.array([drives[g][0] for g in group])
        slopes = by_flow[:pits] + np.diag([slope for _, slope in falls])
        slopes -= np.array([drives[g][1] for g in group])[:, None] * alike
        more = np.linalg.solve(slopes, -off - alone[:pits])
        step = alone + by_flow @ more
        suction, flows = suction + step, flows + more
        if np.abs(more).max() <= SETTLED**0.5 * np.abs(flows).max() and (
            np.abs(step).max() <= SETTLED**0.5 * max(float(np.abs(suction).max()), 1e-12)
        ):
            return suction, flows, turn
    raise Unsettled("flow and suction do not come to rest")


def _along(ring: Sequence[tuple[float, float]], cells: Cells) -> Array:
    """Corners of an outline, and places between them as close as the lines are."""
    corners = np.asarray(ring, float)
    wide = float(max(np.diff(cells.x).max(), np.diff(cells.y).max()))
    places = []
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        count = max(1, round(float(np.hypot(*(end - start))) / wide))
        places.append(start + (end - start) * (np.arange(count) / count)[:, None])
    return np.concatenate(places)
