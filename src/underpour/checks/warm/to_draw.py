"""A heated floor as it is drawn: what was worked out of it, on lines fine enough for pictures."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...catalogue import heated_floors
from ...findings import Finding
from ...physics.warm_floor.between import between
from ...physics.warm_floor.water import FAST, SLOW, flow_in_tube
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Water
from ..solved import SolvedEdge
from .seen import Around, FromCold, Heated, Lying, Pumped, UpAndDown
from .warming import from_cold
from .worked import Running, Worked, layers_of, tube_of, worked

KILO = 1e3
FLOWS = 81  # places along a loop's curve
BEYOND = 2.0  # times the flow of the coldest day, that the curve reaches at least
NEAR = 1e-6  # of a flow: so close to where one kind ends or begins, and safely on its own side
AFTER = 1.3  # times the hours that it takes, that warming up is drawn
HOURS = 4.0  # h of it, at least


def drawn(resolved: Resolved, heated: HeatedFloor, edges: Sequence[SolvedEdge], said: Sequence[Finding]) -> Heated:
    """Everything that pictures of one heated floor want; limits are those that its findings are held to."""
    made = worked(resolved, heated, edges)
    limits = {each.id: each.limit for each in said if each.id in ("warm.surface", "warm.warm-up", "warm.pressure")}
    held = limits["warm.surface"]
    mean, warmest, coolest = made.surface
    runs = heated.water
    return Heated(
        electric=runs is None,
        layers=tuple(Lying(each.label, each.words, each.hatch, each.thickness) for each in resolved.floor),
        tube=runs.size.label if runs is not None else "",
        outside=heated.outside,
        axis=heated.axis,
        spacing=heated.spacing,
        month=made.month + 1,
        room=made.room,
        water=made.room + made.excess,
        up=made.up,
        down=made.down,
        mean=mean,
        warmest=warmest,
        coolest=coolest,
        limit=held,
        at_edge=None if held is None else made.room + heated_floors.above_room("edge").value,
        around=_around(resolved, heated, made),
        pumped=_pumped(runs, made.running, made, limits["warm.pressure"]) if runs and made.running else None,
        from_cold=_warming(resolved, heated, made, limits["warm.warm-up"]),
        year=_year(made, runs, said),
    )


def _around(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Around:
    field = between(layers_of(resolved), tube_of(heated, made.water_film), made.cell.film, made.below)
    water, surface = made.room + made.excess, made.cell.surface
    along = made.room + surface.by_water * made.excess + surface.by_ground * (made.ground - made.room)
    degrees = field.degrees(water, made.room, made.ground)
    return Around(*(each.astype(np.float32) for each in (field.x, field.y, degrees, surface.x, along)))


def _pumped(water: Water, running: Running, made: Worked, most: float | None) -> Pumped:
    """The curve of one loop, its fluid as warm as on the coldest day."""
    more, mean = heated_floors.usual("fittings").value, made.room + made.excess
    of = water.fluid.at(min(max(mean, water.fluid.least), water.fluid.most))
    a_flow = running.litres / running.flow.reynolds  # m³/s for each of Reynolds' numbers
    until, beginning = SLOW * a_flow, FAST * a_flow
    reach = max(BEYOND * running.litres, 1.15 * beginning if running.litres > 0.4 * beginning else 0.0)
    flows = np.unique(
        np.r_[np.linspace(reach / FLOWS, reach, FLOWS), running.litres, until * (1.0 - NEAR), beginning * (1.0 + NEAR)]
    )
    flows = flows[flows <= reach]

    def through(flow: float) -> tuple[float, float]:
        bore = water.size.bore
        told = flow_in_tube(flow, bore, running.length, of.density, of.viscosity, of.heat_capacity, of.conductivity)
        return told.loss * more / KILO, told.least_loss * more / KILO

    losses, least = np.array([through(float(each)) for each in flows]).T
    return Pumped(
        fluid=_fluid(water.fluid.key),
        count=running.loops.count,
        length=running.length,
        flow=running.litres,
        whole=running.whole,
        longest=bool(water.lengths),
        loss=running.flow.loss * more / KILO,
        most=heated_floors.usual("pump-head").value if most is None else most,
        reynolds=running.flow.reynolds,
        layers_until=until,
        eddies_from=beginning,
        flows=flows.astype(np.float32),
        losses=losses.astype(np.float32),
        least=least.astype(np.float32),
    )


def _fluid(key: str) -> str:
    """In words: "propylene glycol, 30 %"."""
    name, _, share = key.rpartition("-")
    return f"{name.replace('-', ' ')}, {share} %" if share.isdecimal() else key.replace("-", " ")


def _warming(resolved: Resolved, heated: HeatedFloor, made: Worked, within: float | None) -> FromCold:
    cold = from_cold(resolved, heated, made)
    told, reached = cold.warming, cold.reached
    longest = float(told.hours[-1])
    until = max(AFTER * (longest if reached is None else reached), 1.1 * (within or 0.0), HOURS)
    shown = told.hours <= min(until, longest) + 1e-9
    return FromCold(
        hours=np.r_[0.0, told.hours[shown]].astype(np.float32),
        floor=np.r_[cold.start, told.floor[shown]].astype(np.float32),
        water=np.r_[cold.start, told.water[shown]].astype(np.float32),
        start=cold.start,
        wanted=cold.wanted,
        reached=reached,
        within=within,
    )


def _year(made: Worked, water: Water | None, said: Sequence[Finding]) -> UpAndDown:
    season = made.season
    supply = made.supplies(coldest_day=False) if water is not None and made.running is not None else None
    return UpAndDown(
        heated=tuple(bool(each) for each in season.heated),
        up=tuple(map(float, season.up)),
        down=tuple(map(float, season.down)),
        supply=supply,
        pump=next((each.months for each in said if each.id == "warm.heat-pump"), None),
        of_up=season.down_of_up,
        of_total=season.down_of_total,
    )
