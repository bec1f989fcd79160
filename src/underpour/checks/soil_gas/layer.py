"""The layer below this floor as gas flows through it, what draws on it, and the suction that comes of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, cos, degrees, dist, pi

import numpy as np

from ...catalogue import of_soil_gas
from ...outlines.floor import Floor
from ...outlines.outline import Outline
from ...outlines.side import Point
from ...physics import radon
from ...physics.soil_gas.cells import Pit
from ...physics.soil_gas.communication import Reading, Told, told
from ...physics.soil_gas.draught import by_itself
from ...physics.soil_gas.fan import fan_curve, of_flow
from ...physics.soil_gas.field import Curve, Drawn, Field, Leakage, suction_field
from ...physics.soil_gas.hydraulics import AIR_DENSITY, AIR_VISCOSITY, Hydraulics, ergun, inertia_of, layer, measured
from ...physics.soil_gas.pipe import Pipe, loss_curve
from ...physics.soil_gas.plan import Part, Plan, footing, sleeve
from ...physics.soil_gas.soil import inflow
from ...resolve import Resolved
from ...resolve.soil_gas import CommunicationTest, InnerFooting, ResolvedSoilGas
from .suction import Rings

CHANNELS = "soil-gas.channels"
TURN = 6.0  # degrees of an arc for one chord
TEST_BED = 0.1  # m, of fill that a communication test is fitted to where no stone is told; only k times it counts
UM2 = 1e-12  # m²
LEAST_PIT = 0.03  # m, radius
MONTHS = range(12)
COARSE = 1.0  # m, of a cell where twelve months are worked out
SLEEVE_FRICTION, SLEEVE_ENDS = 0.03, 1.5  # of a short pipe through a footing: friction factor, heads at both ends


@dataclass(frozen=True)
class Case:
    """What of the layer and the ground is not sure, at one of its ends or in the middle."""

    hydraulics: Hydraulics
    ground: float  # m², permeability of the ground; or leaks of ground and slab together from a test
    leaks: float | None  # m/(s·Pa) from a communication test, in place of ground and edge


@dataclass(frozen=True)
class Layer:
    """The middle and the two ends; the ends are the middle where all was measured."""

    middle: Case
    worst: Case
    best: Case
    rests_on: tuple[str, ...]
    open_keys: tuple[str, ...]  # keys whose values make the ends, the one that decides most first
    fitted: Told | None  # a communication test
    what: str  # "100 mm of stone", as it is said

    @property
    def sure(self) -> bool:
        return not self.open_keys


def layer_of(resolved: Resolved, gas: ResolvedSoilGas) -> Layer | str:
    """The layer, or the one key without which nothing can be said of it."""
    fitted = fitted_test(resolved, gas)
    ground = gas.permeability
    ends = (ground.value / ground.factor, ground.value * ground.factor)
    open_ground = () if ground.told else ("soil-gas.permeability",)
    if fitted is not None:
        bed = _test_bed(gas)
        of_test = Case(_stone(fitted.permeability, gas.stone.voids, bed), 0.0, fitted.leakage)
        rests = ("soil-gas.communication.flow", *(hole.path for hole in _test(gas).holes))
        return Layer(of_test, of_test, of_test, rests, (), fitted, "what the test tells of the layer")
    ways = channels(resolved, gas)
    if ways is not None:
        found, rests = ways
        middle, worst, best = (Case(found, k, None) for k in (ground.value, ends[1], ends[0]))
        return Layer(middle, worst, best, (*rests, *ground.rests_on), open_ground, None, "channels of the panel")
    if gas.stone.thickness <= 0.0:
        return CHANNELS if gas.panel is not None else "soil-gas.communication.flow"
    thick, voids = gas.stone.thickness, gas.stone.voids
    what = "stone"
    if gas.stone.permeability is not None:
        stone = _stone(gas.stone.permeability, voids, thick)
        middle, worst, best = (Case(stone, k, None) for k in (ground.value, ends[1], ends[0]))
        rests = ("soil-gas.stone.permeability", *gas.stone.rests_on, *ground.rests_on)
        return Layer(middle, worst, best, rests, open_ground, None, what)
    usual = of_soil_gas("stone.permeability")
    sphericity = of_soil_gas("stone.sphericity")
    usual_stone = layer(*ergun(gas.stone.size, voids, sphericity.value), thick)
    assert usual.low is not None and usual.high is not None
    tight, wide = (_stone(k * UM2, voids, thick) for k in (usual.low, usual.high))
    rests = (*gas.stone.rests_on, sphericity.path, usual.path, *ground.rests_on)
    return Layer(
        Case(usual_stone, ground.value, None),
        Case(tight, ends[1], None),
        Case(wide, ends[0], None),
        rests,
        ("soil-gas.stone.permeability", *open_ground),
        None,
        what,
    )


def channels(resolved: Resolved, gas: ResolvedSoilGas) -> tuple[Hydraulics, tuple[str, ...]] | None:
    """What the channels below the panel let through, as the brief has it or the product's records; None where nobody
    measured it."""
    if gas.channels:
        return measured([flow for flow, _ in gas.channels], [fall for _, fall in gas.channels]), (CHANNELS,)
    if gas.panel is None or not resolved.products.has(gas.panel.key):
        return None
    product = resolved.products.product(gas.panel.key)
    told_of = {each.property: each.value for each in product.evidence if each.value is not None}
    permeability, inertia = told_of.get("channel-permeability"), told_of.get("channel-inertia")
    if permeability is None or inertia is None or product.channels is None:
        return None
    at = f"catalogue.product.{gas.panel.key}"
    rests = tuple(f"{at}.{name}" for name in ("channel-permeability", "channel-inertia", "channels"))
    return layer(permeability, inertia, product.channels.depth.si), rests


def fitted_test(resolved: Resolved, gas: ResolvedSoilGas) -> Told | None:
    """Stone and leaks by the communication test of the brief; None where it has none, or none with a flow and holes."""
    test = gas.communication
    if test is None or test.flow is None or len(test.holes) + (test.vacuum is not None) < 2:
        return None
    rings = _rings(resolved.plan.floor)
    radius = max((test.bore or 2.0 * LEAST_PIT) / 2.0, LEAST_PIT)
    placed = test.at is not None and all(hole.at is not None for hole in test.holes)
    if placed:
        assert test.at is not None
        holes = tuple((*hole.at, hole.vacuum) for hole in test.holes if hole.at is not None)
        return _fitted(
            rings, _footings(gas), (*test.at, radius), holes, test.flow, test.vacuum, _test_bed(gas), gas.stone.voids
        )
    # where only distances were noted: a round floor as large, air drawn from its middle
    away = (resolved.area / pi) ** 0.5
    corners = 72
    disc = tuple(
        (away * cos(2.0 * pi * n / corners), away * cos(2.0 * pi * n / corners - pi / 2.0)) for n in range(corners)
    )
    holes = tuple((min(hole.distance, 0.98 * away), 0.0, hole.vacuum) for hole in test.holes)
    return _fitted((disc,), (), (0.0, 0.0, radius), holes, test.flow, test.vacuum, _test_bed(gas), gas.stone.voids)


Strips = tuple[tuple[Point, Point, float, tuple[tuple[float, float, float], ...]], ...]


@lru_cache(maxsize=16)
def _fitted(
    rings: Rings,
    strips: Strips,
    drawn_at: tuple[float, float, float],
    holes: tuple[tuple[float, float, float], ...],
    flow: float,
    mouth: float | None,
    bed: float,
    voids: float,
) -> Told:
    def plan(hydraulics: Hydraulics) -> Plan:
        return _plan(rings, strips, hydraulics)

    return told(plan, Pit(*drawn_at), flow, [Reading(*hole) for hole in holes], bed, voids, mouth)


def field_of(resolved: Resolved, gas: ResolvedSoilGas, case: Case) -> Field:
    """Suction with the fan of the brief, at the house's worst."""
    assert gas.fan is not None and gas.pipe is not None
    return _field(*_told(resolved, gas), case, gas.house_vacuum, gas.fan.curve, _pipe(gas), ())


def field_of_month(resolved: Resolved, gas: ResolvedSoilGas, case: Case, outdoors: float) -> Field:
    """Suction of a pipe that draws by itself in a month; the house pulls the less the warmer it is outdoors. [degC]"""
    assert gas.pipe is not None
    coldest = resolved.outdoor_mean - abs(resolved.outdoor_swing)
    room = resolved.room.mean
    share = min(max((room - outdoors) / (room - coldest), 0.0), 1.0) if room > coldest else 0.0
    inside = room if gas.pipe.through == "heated" else outdoors
    air = (resolved.outdoor_mean, round(inside, 1), round(outdoors, 1), gas.pipe.rise)
    return _field(*_told(resolved, gas), case, share * gas.house_vacuum, (), _pipe(gas), air)


def way_round(foot: float, below: float, ground: float) -> float:
    """How far air has to go round an edge, as the depth of a footing between two level grounds that is as far. [m]

    ``foot`` is how deep the footing ends and ``below`` how deep the layer lies, both below the top of the floor, and
    ``ground`` how high the ground outside stands above it. Round a footing d deep the way is π d; straight down it is
    its length.
    """
    return max(foot - below, 0.0) + max(below + ground, 0.0) / pi


def outdoors_in(resolved: Resolved, month: int) -> float:
    """Outdoors in the middle of a month, by the year's one wave. [degC]"""
    turn = np.exp(2j * pi * (month + 0.5) / 12.0)
    return float(resolved.outdoor_mean + (resolved.outdoor_swing * turn).real)


def _told(
    resolved: Resolved, gas: ResolvedSoilGas
) -> tuple[Rings, Strips, tuple[tuple[float, float, float], ...], float, float, float]:
    floor = resolved.plan.floor
    rings, strips = _rings(floor), _footings(gas)
    pits = tuple((*each.at, _radius(each.at, each.width / 2.0, floor, gas)) for each in gas.suctions)
    below = sum(part.thickness for part in resolved.floor if part.kind != "gravel")
    lengths = [edge.length for edge in resolved.edges]
    ways = [way_round(edge.depth, below, edge.ground) for edge in resolved.edges]
    deep = sum(way * long for way, long in zip(ways, lengths, strict=True)) / sum(lengths)
    return rings, strips, pits, deep, gas.gap.value, max(gas.slab, 0.05)


@lru_cache(maxsize=64)
def _field(
    rings: Rings,
    strips: Strips,
    pits: tuple[tuple[float, float, float], ...],
    deep: float,
    gap: float,
    slab: float,
    case: Case,
    room: float,
    fan: tuple[tuple[float, float], ...],
    pipe: Pipe,
    air: tuple[float, float, float, float] | tuple[()],
) -> Field:
    plan, leakage = _laid(rings, strips, deep, gap, slab, case, room)
    loss = loss_curve(pipe)
    if air:
        below, inside, outdoors, rise = air
        transmittance = of_soil_gas("pipe.transmittance").value
        curve = by_itself(below, inside, outdoors, rise, pipe.bore, max(pipe.length, rise), transmittance, loss)
    else:
        curve = _less(fan_curve([flow for flow, _ in fan], [pull for _, pull in fan]), loss)
    drawn = Drawn(tuple(Pit(*pit) for pit in pits), curve)
    return suction_field(plan, [drawn], leakage, COARSE) if air else suction_field(plan, [drawn], leakage)


def _laid(
    rings: Rings, strips: Strips, deep: float, gap: float, slab: float, case: Case, room: float
) -> tuple[Plan, Leakage]:
    """The layer with its footings, and what leaks into it."""
    ground: float | Callable[[np.ndarray, np.ndarray], np.ndarray]
    if case.leaks is not None:
        ground, edge = case.leaks, 0.0
    else:
        k = case.ground

        def ground(x: np.ndarray, y: np.ndarray) -> np.ndarray:
            return inflow(x, y, rings, k, deep)

        edge = float(radon.through_joint(gap, 1.0, slab))
    return _plan(rings, strips, case.hydraulics), Leakage(ground, edge=edge, room=room)


@lru_cache(maxsize=64)
def _needed(
    rings: Rings,
    strips: Strips,
    pits: tuple[tuple[float, float, float], ...],
    deep: float,
    gap: float,
    slab: float,
    case: Case,
    room: float,
    flow: float,
) -> float:
    plan, leakage = _laid(rings, strips, deep, gap, slab, case, room)
    drawn = Drawn(tuple(Pit(*pit) for pit in pits), of_flow(flow))
    return suction_field(plan, [drawn], leakage, COARSE).pit_suction[0]


def needed(resolved: Resolved, gas: ResolvedSoilGas, case: Case, flow: float) -> float:
    """Suction that a flow takes in the pits, all of them on one pipe, at the house's worst. [Pa]"""
    return _needed(*_told(resolved, gas), case, gas.house_vacuum, flow)


def _less(fan: Curve, loss: Curve) -> Curve:
    def left(flow: float) -> tuple[float, float]:
        (pull, steep), (taken, more) = fan(flow), loss(flow)
        return pull - taken, steep - more

    return left


def _pipe(gas: ResolvedSoilGas) -> Pipe:
    assert gas.pipe is not None
    return Pipe(gas.pipe.bore, gas.pipe.length, bends=gas.pipe.bends)


def pipe_loss(gas: ResolvedSoilGas, flow: float) -> float:
    """What the pipe takes of the suction at a flow. [Pa]"""
    return loss_curve(_pipe(gas))(flow)[0]


def _stone(permeability: float, voids: float, thickness: float) -> Hydraulics:
    return layer(permeability, float(inertia_of(permeability, voids)), thickness)


def stone_beside(gas: ResolvedSoilGas) -> Hydraulics:
    """100 mm of clean crushed stone, to lay channels beside."""
    size, voids, round_ = (of_soil_gas(f"stone.{key}").value for key in ("size", "voids", "sphericity"))
    return layer(*ergun(size, voids / 100.0, round_), 0.1)


def _test(gas: ResolvedSoilGas) -> CommunicationTest:
    assert gas.communication is not None
    return gas.communication


def _test_bed(gas: ResolvedSoilGas) -> float:
    return gas.stone.thickness or TEST_BED


def _plan(rings: Rings, strips: Strips, hydraulics: Hydraulics) -> Plan:
    made = [(footing([start, end], wide, [at[:2] for at in ways]), ways) for start, end, wide, ways in strips]
    parts = []
    for (strip, ways), (_, _, wide, _) in zip(made, strips, strict=True):
        for ring, (_, _, bore) in zip(strip.openings, sorted(ways), strict=True):
            parts.append(Part(ring, sleeve(bore, wide, SLEEVE_FRICTION, SLEEVE_ENDS, AIR_DENSITY, AIR_VISCOSITY)))
    solid = tuple(ring for strip, _ in made for ring in strip.solid)
    return Plan(rings[0], hydraulics, rings[1:], solid, tuple(parts))


def _footings(gas: ResolvedSoilGas) -> Strips:
    return tuple((each.start, each.end, each.width, _ways(each)) for each in gas.footings)


def _ways(of: InnerFooting) -> tuple[tuple[float, float, float], ...]:
    """How far along a footing the middle of each way through it is, how wide they are together, and one's bore. [m]"""
    return tuple((dist(of.start, way.at), way.count * way.width, way.width) for way in of.crossings)


def _rings(floor: Floor) -> Rings:
    return tuple(_chords(ring) for ring in floor.rings)


def _chords(outline: Outline) -> tuple[Point, ...]:
    points: list[Point] = []
    for side in outline.sides:
        parts = max(1, ceil(abs(degrees(side.sweep)) / TURN)) if side.bulge else 1
        points += [side.at(side.length * n / parts) if n else side.start for n in range(parts)]
    return tuple(points)


def _radius(at: Point, wanted: float, floor: Floor, gas: ResolvedSoilGas) -> float:
    """The pit's radius, less where an edge or a footing is nearer. [m]"""
    room = min(side.distance(at) for ring in floor.rings for side in ring.sides)
    for strip in gas.footings:
        (x0, y0), (x1, y1) = strip.start, strip.end
        long = (x1 - x0) ** 2 + (y1 - y0) ** 2
        share = min(max(((at[0] - x0) * (x1 - x0) + (at[1] - y0) * (y1 - y0)) / long, 0.0), 1.0)
        room = min(room, dist(at, (x0 + share * (x1 - x0), y0 + share * (y1 - y0))) - strip.width / 2.0)
    return max(min(wanted, 0.9 * room), LEAST_PIT)
