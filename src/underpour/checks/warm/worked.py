"""A heated floor worked out once for all that is said of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import exp

import numpy as np
from numpy.typing import NDArray

from ...catalogue import heated_floors
from ...physics.conduction.solve import Told
from ...physics.warm_floor.cell import Cell, Layer, Tube, cell, wall_resistance
from ...physics.warm_floor.loops import Loops, flow, loops
from ...physics.warm_floor.season import Below, Season, season
from ...physics.warm_floor.water import Flow, flow_in_tube
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Panel, Water
from ..solved import ROOM, SolvedEdge, felt, floor_faces, summed

LEAST_BELOW = 0.05  # m²·K/W, that the cell is solved over; what lies below the floor is worth what it is worth
FIRST_GUESS = 0.0  # m²·K/W, of the water's own film, before its flow is known
MONTHS = 12
Array = NDArray[np.float64]


@dataclass(frozen=True)
class Running:
    """Water through one loop on the coldest day, the longest where each is told, and all loops."""

    loops: Loops
    flow: Flow
    length: float  # m, of that loop
    litres: float  # m³/s through it
    whole: float  # m³/s through all
    drop: float  # K, supply less return


@dataclass(frozen=True)
class Worked:
    """Cell, year and coldest day of a heated floor."""

    cell: Cell
    season: Season
    anyway: tuple[float, ...]  # (12,) W/m², what the room would lose through this floor were it not heated
    below: float  # m²·K/W, from the underside of the build-up to the place whose temperature is the ground's
    worth: float  # m²·K/W, what lies below is worth for what lasts; below 0 where edges let more past the foam
    month: int  # 0 to 11, the coldest
    ground: float  # degC there, then
    rooms: tuple[float, ...]  # (12,) degC
    outdoors: tuple[float, ...]  # (12,) degC
    excess: float  # K, mean of water or cable over the room on the coldest day
    up: float  # W/m² then
    down: float  # W/m² then
    surface: tuple[float, float, float]  # degC then: mean, warmest, coolest
    running: Running | None  # None of electric cables, and where nothing is wanted of the water
    water_film: float  # m²·K/W, from water to tube, as the cell counts it; 0 of cables
    within: float  # of heat, as a share of it

    @property
    def room(self) -> float:
        """In the coldest month. [degC]"""
        return self.rooms[self.month]

    def supply(self, excess: float, part: float = 1.0) -> float:
        """Supply over the room for such a mean and such a part of the drop, by the logarithm. [K]"""
        assert self.running is not None
        drop = self.running.drop * part
        return drop / (1.0 - exp(-drop / excess)) if drop > 0.0 and excess > 0.0 else excess

    def excess_of(self, supply: float) -> float:
        """Mean of the water over the room where its supply is so far above it: ``supply`` turned round. [K]"""
        low, high = 0.0, supply
        for _ in range(60):
            middle = (low + high) / 2.0
            low, high = (middle, high) if self.supply(middle) < supply else (low, middle)
        return high

    def supplies(self, *, coldest_day: bool) -> tuple[float, ...]:
        """Supply in each month, or the coldest day's in that of the coldest; without heat, what stands. [degC]"""
        given = self.up + self.down
        told = []
        for month, room in enumerate(self.rooms):
            excess = float(self.season.water[month]) - room
            part = float(self.season.up[month] + self.season.down[month]) / given
            coldest = coldest_day and month == self.month
            heats = bool(self.season.heated[month])
            more = self.supply(self.excess) if coldest else self.supply(excess, part) if heats else excess
            told.append(room + more)
        return tuple(told)


def worked(resolved: Resolved, heated: HeatedFloor, edges: Sequence[SolvedEdge]) -> Worked:
    """The tube cell over the ground as the sections have it, and the year that follows.

    Heat through the floor for each kelvin of the room, lasting and once a year, is asked of each section; less film and
    layers it is what lies below, which is less than nothing where an edge lets past the foam what the foam keeps. What
    the sections' own year lets through the floor says how warm that is.
    """
    lasting, yearly = _per_kelvin(resolved, edges)
    told = summed(tuple(edges), floor_faces)
    own = _film(edges) + sum(layer.resistance for layer in resolved.floor)
    grounds = [1.0 / each - own for each in (lasting, yearly)]
    room_swing = resolved.room.swing
    mean = resolved.room.mean - told.mean / resolved.area / lasting.real
    swing = room_swing - told.swing / resolved.area / yearly
    below = max(float(grounds[0].real), LEAST_BELOW)
    months = _middles()
    room = resolved.room.mean + (room_swing * np.exp(2j * np.pi * months)).real
    outdoors = resolved.outdoor_mean + (resolved.outdoor_swing * np.exp(2j * np.pi * months)).real
    month = int(np.argmin(outdoors))
    load = _loads(heated, room, outdoors, month)
    film = FIRST_GUESS
    first = _with_film(resolved, heated, below, film)
    year = season(first, below, Below(grounds[0], mean), Below(grounds[1], swing), room, load)
    made = _at_its_coldest(resolved, heated, first, film, year, below, grounds[0].real, month, (room, outdoors), told)
    if made.running is None:
        return made
    film = made.running.flow.film
    second = _with_film(resolved, heated, below, film)
    year = season(second, below, Below(grounds[0], mean), Below(grounds[1], swing), room, load)
    return _at_its_coldest(resolved, heated, second, film, year, below, grounds[0].real, month, (room, outdoors), told)


def _middles() -> Array:
    """Where in the year the middle of each month is."""
    return np.asarray((np.arange(MONTHS) + 0.5) / MONTHS)


def _per_kelvin(resolved: Resolved, edges: Sequence[SolvedEdge]) -> tuple[complex, complex]:
    """Heat through the floor for each kelvin that the room is warmer: for ever, and once a year. [W/(m²·K)]"""
    found = [0j, 0j]
    for edge in edges:
        grid = edge.heat.coarse
        which, _ = felt(edge.heat)
        air = (which == ROOM).astype(float)
        load, faces = grid.equations.load(grid.resistance, air), floor_faces(grid.equations.faces)
        assert grid.factors is not None  # the coarser grid keeps its own
        for n, factors in enumerate((grid.factors.steady, grid.factors.periodic or grid.factors.steady)):
            flows = grid.equations.flows(grid.resistance, air, factors.solve(load.astype(complex) if n else load))
            found[n] += complex(flows[faces].sum()) * edge.edge.length / resolved.area
    return found[0], found[1]


def _film(edges: Sequence[SolvedEdge]) -> float:
    """From the floor's surface into the room, as the sections have it: heat goes down there. [m²·K/W]"""
    grid = edges[0].heat.coarse
    return float(grid.resistance[floor_faces(grid.equations.faces)][0])


def _loads(heated: HeatedFloor, room: Array, outdoors: Array, month: int) -> Array:
    """What the floor owes the room in each month: in proportion to how much colder it is outdoors. [W/m²]"""
    apart = max(float(room[month]) - heated.coldest, 1.0)
    owed = heated.load * np.maximum(room - outdoors, 0.0) / apart
    owed[outdoors > heated_floors.usual("heating-ends").value] = 0.0
    owed[month] = max(owed[month], 1e-6 * heated.load)
    return owed


def _with_film(resolved: Resolved, heated: HeatedFloor, below: float, water: float) -> Cell:
    return cell(layers_of(resolved), tube_of(heated, water), heated_floors.usual("film").value, below)


def layers_of(resolved: Resolved) -> list[Layer]:
    """The floor's layers that have a thickness, from the top down; what stands between knobs is a layer of its own."""
    told = []
    for n, layer in enumerate(resolved.floor):
        if not layer.thickness > 0.0:
            continue
        whole = Layer(layer.thickness, layer.conductivity, layer.heat_capacity)
        panel = resolved.heated.panel if resolved.heated is not None and n == resolved.heated.layer else None
        told += [whole] if panel is None else _between_knobs(whole, panel)
    return told


def _between_knobs(whole: Layer, panel: Panel) -> list[Layer]:
    """What lies over the knobs, and what lies between them with them, side by side."""
    solid, poured = panel.share, 1.0 - panel.share
    return [
        replace(whole, thickness=whole.thickness - panel.height),
        Layer(
            panel.height,
            poured * whole.conductivity + solid * panel.conductivity,
            poured * whole.heat_capacity + solid * panel.heat_capacity,
        ),
    ]


def most_by_surface(made: Worked, of: Cell, limit: float) -> float:
    """What a cell gives on the coldest day where its warmest place is so warm. [degC -> W/m²]"""
    none, some = (of.floor(made.room + excess, made.room, made.ground)[1] for excess in (0.0, 100.0))
    low, high = (0.0, 100.0 * (limit - none) / (some - none) * 2.0 + 1.0)
    for _ in range(60):
        middle = (low + high) / 2.0
        warm = of.floor(made.room + middle, made.room, made.ground)[1]
        low, high = (middle, high) if warm < limit else (low, middle)
    return of.up(made.room + high, made.room, made.ground)


def cell_with(resolved: Resolved, heated: HeatedFloor, made: Worked, covered: float = 0.0, hollow: float = 0.0) -> Cell:
    """The cell with its tube laid otherwise, under a rug, or over a hollow. [m²·K/W, m]"""
    laid = replace(tube_of(heated, made.water_film), hollow=hollow)
    return cell(layers_of(resolved), laid, heated_floors.usual("film").value + covered, made.below)


def tube_of(heated: HeatedFloor, film: float) -> Tube:
    """Tube or cable as the cell takes it; ``film`` is the water's own. [m²·K/W]"""
    wall = heated_floors.usual("sheath").value
    if heated.water is not None:
        size = heated.water.size
        wall = wall_resistance(size.outside.value, size.bore, size.conductivity.value, film)
    return Tube(heated.outside, heated.axis, heated.spacing, wall)


def _at_its_coldest(
    resolved: Resolved,
    heated: HeatedFloor,
    made: Cell,
    film: float,
    year: Season,
    below: float,
    worth: float,
    month: int,
    airs: tuple[Array, Array],
    told: Told,
) -> Worked:
    """The coldest day: the ground as in the coldest month, the load whole."""
    inside, ground = float(airs[0][month]), float(year.below[month])
    water = made.water_for(heated.load, inside, ground)
    up, down = made.up(water, inside, ground), made.down(water, inside, ground)
    share = told.within / abs(told.mean) if told.mean else 0.0
    return Worked(
        cell=made,
        season=year,
        anyway=tuple(float(told.mean + (told.swing * np.exp(2j * np.pi * m)).real) / resolved.area for m in _middles()),
        below=below,
        worth=worth,
        month=month,
        ground=ground,
        rooms=tuple(map(float, airs[0])),
        outdoors=tuple(map(float, airs[1])),
        excess=water - inside,
        up=up,
        down=down,
        surface=made.floor(water, inside, ground),
        running=_running(resolved, heated, heated.water, water, up + down)
        if heated.water and up + down > 0.0
        else None,
        water_film=film,
        within=made.within / made.water_to_room + share * down / (up + down),
    )


def _running(resolved: Resolved, heated: HeatedFloor, water: Water, warmth: float, given: float) -> Running:
    laid = loops(resolved.area, heated.spacing, water.leader, water.longest.value, water.loops)
    length, share = laid.mean_length, 1.0 / laid.count
    if water.lengths:
        count, whole_tube, length = len(water.lengths), sum(water.lengths), max(water.lengths)
        laid = Loops(count, whole_tube / count, whole_tube)
        share = (length - 2.0 * water.leader) / (whole_tube - 2.0 * water.leader * count)
    of = water.fluid.at(min(max(warmth, water.fluid.least), water.fluid.most))
    whole = flow(given * resolved.area, water.drop, of.density, of.heat_capacity)
    each, bore = whole * share, water.size.bore
    through = flow_in_tube(each, bore, length, of.density, of.viscosity, of.heat_capacity, of.conductivity)
    return Running(laid, through, length, each, whole, water.drop)
