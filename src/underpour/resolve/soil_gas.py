"""Soil gas in numbers: ground, house, stone, suction, pipe, fan, tests; what nobody typed listed as assumed.

Everything here is SI: m, m², m³, Pa, m³/s, 1/s, Bq/m³. Places are on the plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist

from .. import catalogue
from ..brief.corners import read_corner
from ..brief.model import Brief
from ..brief.tables.soil_gas import Communication, Fan, GasPipe, SoilGas, Stone
from ..catalogue.soil_gas import RadonLevel, RadonTest, of_soil_gas, permeability_of, radon_level, radon_test
from ..findings import Assumed
from ..measure import Measure, System, say
from ..mistakes import Mistake
from ..outlines.side import Point
from .assumptions import Assumptions
from .resolved import Slice

UM2 = 1e-12  # m²
TEST = "soil-gas.test.1.level"
LEVEL = "soil-gas.level-by"
OF_SITE = "site.soil-gas"
RADON = "soil-gas.radon"


@dataclass(frozen=True, slots=True)
class Spread:
    """A number that lies far apart from site to site: its middle, and a factor for two cases of three."""

    value: float
    factor: float  # standard deviation of the logarithm, as a factor; 1 where the number is sure
    rests_on: tuple[str, ...]
    told: bool = False  # whether the brief types it


@dataclass(frozen=True, slots=True)
class StoneBed:
    """The stone below the slab."""

    thickness: float  # m; nought where there is none
    size: float  # m, of its grains
    voids: float  # share
    permeability: float | None  # m², where it was measured
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SuctionPoint:
    """A place from which soil gas is drawn."""

    at: Point
    width: float  # m, of its pit
    depth: float  # m, of its pit below the slab
    path: str


@dataclass(frozen=True, slots=True)
class ThroughFooting:
    """A way for gas through a footing."""

    at: Point
    width: float  # m, bore
    count: int


@dataclass(frozen=True, slots=True)
class InnerFooting:
    """A footing inside the floor, along x or along y."""

    start: Point
    end: Point
    width: float  # m
    crossings: tuple[ThroughFooting, ...]
    path: str


@dataclass(frozen=True, slots=True)
class VentPipe:
    """The pipe from the suction points to the outlet."""

    size: float  # m, nominal
    bore: float  # m
    route: tuple[Point, ...]  # on the plan; () where it is not drawn
    length: float  # m, all of it
    level: float | None  # m of level stretches; None where neither a route nor a length is told
    rise: float  # m
    bends: int
    through: str  # heated, unheated, outdoors
    words: str  # "4 in (102 mm)"
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class VentFan:
    """The fan on the pipe."""

    at: str  # attic, outdoors, garage; "" where the brief does not say
    curve: tuple[tuple[float, float], ...]  # m³/s and Pa, by rising flow
    generic: bool  # a usual fan's, since the brief gives no curve
    power: float  # W
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GaugedHole:
    """A hole through the slab at which a gauge was held."""

    distance: float  # m from where air was drawn
    vacuum: float  # Pa
    at: Point | None
    path: str


@dataclass(frozen=True, slots=True)
class CommunicationTest:
    """How far suction reached below a slab that is there."""

    at: Point | None
    bore: float | None  # m, of the hole that air was drawn from
    flow: float | None  # m³/s
    vacuum: float | None  # Pa, in that hole
    scanned: bool | None
    holes: tuple[GaugedHole, ...]


@dataclass(frozen=True, slots=True)
class RoomTest:
    """One test for radon in the finished building."""

    kit: RadonTest | None
    level: float  # Bq/m³
    days: float | None
    place: str
    date: str
    closed: bool | None
    system: str  # what stood when it hung
    path: str


@dataclass(frozen=True, slots=True)
class Gauge:
    """The gauge on a pipe, read."""

    vacuum: float  # Pa
    date: str
    at: str
    path: str


@dataclass(frozen=True, slots=True)
class AsTyped:
    """What the brief itself says of a rough-in, nothing taken in its place; None where it does not."""

    stone_size: float | None  # m
    voids: float | None
    fines: float | None  # share that goes through a 4 mm sieve
    pipe: float | None  # m, nominal
    falls: str | None
    slope: float | None  # fall over length of the level stretches
    labelled: bool | None
    power: bool | None
    pit_width: float | None  # m, of the first suction point
    pit_depth: float | None  # m
    above_roof: float | None  # m
    from_openings: float | None  # m
    above_openings: float | None  # m


@dataclass(frozen=True, slots=True)
class ResolvedSoilGas:
    """All that a brief says of soil gas, in numbers."""

    system: str  # none, rough-in, passive, fan; "" where the brief does not say
    of_site: str  # low, middle, high, unknown; "" where the brief does not say
    levels: tuple[RadonLevel, ...]
    radon: Spread | None  # Bq/m³ in the soil gas; None where nothing says how much there is
    permeability: Spread  # m², of the ground
    ventilation: Spread  # 1/s
    volume: float  # m³
    volume_rests_on: str
    house_vacuum: float  # Pa, at its worst
    house_vacuum_rests_on: str
    mean_vacuum: Spread  # Pa, mean of the heating season
    gap: Spread  # m, joint between slab and wall
    slab: float  # m, thickness of the concrete
    stone: StoneBed
    panel: Slice | None  # a board with channels underneath
    channels: tuple[tuple[float, float], ...]  # readings of them: m²/s for each metre of width, Pa/m
    sealed: tuple[str, ...] | None  # None where the brief does not say
    combustion: str  # none, sealed, open; "" where the brief does not say
    backdraught_tested: bool | None
    suctions: tuple[SuctionPoint, ...]
    footings: tuple[InnerFooting, ...]
    pipe: VentPipe | None
    typed: AsTyped
    fan: VentFan | None
    communication: CommunicationTest | None
    tests: tuple[RoomTest, ...]
    gauges: tuple[Gauge, ...]
    country: str

    @property
    def draws(self) -> bool:
        """Whether anything draws soil gas off, by itself or by a fan."""
        return self.system in ("passive", "fan")


def soil_gas(
    brief: Brief,
    floor: Sequence[Slice],
    ground: tuple[str, str],
    area: float,
    country: str,
    system: System,
    assumed: Assumptions,
    found: list[Mistake],
) -> ResolvedSoilGas | None:
    """What a brief says of soil gas; None where it says nothing of it.

    ``ground`` is the key and the grain of the ground below the build-up, ``area`` that of the floor in m².
    """
    if brief.soil_gas is None and brief.site.soil_gas is None:
        return None
    gas = brief.soil_gas or SoilGas.model_validate({})
    unit = brief.plan.unit
    levels = _levels(gas, country, assumed, found)
    tests = _tests(gas, assumed, found)
    volume = gas.volume.si if gas.volume else assumed.take(_usual_volume(area))
    worst = _worst(gas, assumed)
    laid = gas.system or ("fan" if gas.fan is not None else "")
    return ResolvedSoilGas(
        system=laid,
        of_site=brief.site.soil_gas or "",
        levels=levels,
        radon=_radon(gas, brief.site.soil_gas, assumed),
        permeability=_permeability(gas, ground, assumed),
        ventilation=_ventilation(gas, assumed),
        volume=volume,
        volume_rests_on="soil-gas.volume",
        house_vacuum=worst,
        house_vacuum_rests_on="soil-gas.house-vacuum",
        mean_vacuum=Spread(
            worst * of_soil_gas("usual.mean-vacuum").value,
            of_soil_gas("spread.house").value,
            ("soil-gas.house-vacuum", of_soil_gas("usual.mean-vacuum").path),
            gas.house_vacuum is not None,
        ),
        gap=_gap(gas, assumed),
        slab=sum(layer.thickness for layer in floor if layer.kind in ("concrete", "old-slab")),
        stone=_stone(gas.stone, floor, assumed, needed=bool(gas.suction)),
        panel=next((layer for layer in floor if layer.below > 0.0), None),
        channels=tuple((each.flow.si, each.fall.si) for each in gas.channels),
        sealed=gas.sealed,
        combustion=gas.combustion or "",
        backdraught_tested=gas.backdraught_tested,
        suctions=_suctions(gas, unit, assumed),
        footings=_footings(gas, unit, assumed),
        pipe=_pipe(gas.pipe, unit, system, assumed) if gas.pipe is not None or laid in ("passive", "fan") else None,
        typed=_as_typed(gas, assumed),
        fan=_fan(gas.fan, assumed) if laid == "fan" else None,
        communication=_communication(gas.communication, unit) if gas.communication is not None else None,
        tests=tests,
        gauges=tuple(
            Gauge(each.vacuum.si, each.date or "", each.at, f"soil-gas.gauge.{n}")
            for n, each in enumerate(gas.gauge, start=1)
        ),
        country=country,
    )


def _as_typed(gas: SoilGas, assumed: Assumptions) -> AsTyped:
    pipe = gas.pipe or GasPipe.model_validate({})
    first = gas.suction[0] if gas.suction else None

    def told(typed: Measure | None, path: str, times: float = 1.0) -> float | None:
        tried = assumed.missing(f"soil-gas.{path}")
        return typed.si if typed is not None else tried * times if tried is not None else None

    return AsTyped(
        stone_size=told(gas.stone.size, "stone.size"),
        voids=told(gas.stone.voids, "stone.voids", times=0.01),
        fines=told(gas.stone.fines, "stone.fines", times=0.01),
        pipe=told(pipe.size, "pipe.size"),
        falls=pipe.falls,
        slope=told(pipe.slope, "pipe.slope", times=0.01),
        labelled=pipe.labelled,
        power=pipe.power,
        pit_width=told(first.pit, "suction.1.pit") if first is not None else None,
        pit_depth=told(first.pit_depth, "suction.1.pit-depth") if first is not None else None,
        above_roof=told(gas.outlet.above_roof, "outlet.above-roof"),
        from_openings=told(gas.outlet.from_openings, "outlet.from-openings"),
        above_openings=told(gas.outlet.above_openings, "outlet.above-openings"),
    )


def _take(key: str, path: str, assumed: Assumptions, times: float = 1.0) -> float:
    """What is usual, listed as assumed in its own unit, handed on times a factor."""
    usual = of_soil_gas(key)
    why = f"{usual.where} ({'common practice, no source' if usual.seen == 'practice' else usual.source.title})"
    return assumed.take(Assumed(path, usual.value, usual.low, usual.high, usual.unit, why)) * times


def _levels(gas: SoilGas, country: str, assumed: Assumptions, found: list[Mistake]) -> tuple[RadonLevel, ...]:
    if not gas.level_by:
        taken = catalogue.radon_level_of(country)
        why = (
            f"the level of the country, {country}" if country in taken.countries else "no country's level is held here"
        )
        return (radon_level(assumed.take_word(Assumed(LEVEL, taken.key, None, None, "1", why))),)
    levels = []
    for n, key in enumerate(gas.level_by, start=1):
        try:
            levels.append(radon_level(key))
        except Mistake as mistake:
            found.append(mistake.placed(at=f"{LEVEL}.{n}" if len(gas.level_by) > 1 else LEVEL))
    return tuple(dict.fromkeys(levels))


def _tests(gas: SoilGas, assumed: Assumptions, found: list[Mistake]) -> tuple[RoomTest, ...]:
    made = []
    now = gas.system or ("fan" if gas.fan is not None else "")
    for n, test in enumerate(gas.test, start=1):
        kit = None
        if test.kit is not None:
            try:
                kit = radon_test(test.kit)
            except Mistake as mistake:
                found.append(mistake.placed(at=f"soil-gas.test.{n}.kit"))
        days = test.days.si / 86400.0 if test.days else None
        told = (test.place, test.date or "", test.closed, test.system or now, f"soil-gas.test.{n}")
        made.append(RoomTest(kit, test.level.si, days, *told))
    wanted = f"soil-gas.test.{len(made) + 1}"
    tried = assumed.missing(f"{wanted}.level")
    if tried is not None:
        made.append(RoomTest(radon_test("alpha-track"), tried, 91.0, "", "", None, now, wanted))
    return tuple(made)


def _usual_volume(area: float) -> Assumed:
    storey, storeys = of_soil_gas("usual.storey"), of_soil_gas("usual.storeys")
    ends = ((storey.value, storeys.value), (storey.low, storeys.low), (storey.high, storeys.high))
    value, low, high = (area * one * other for one, other in ends)
    why = "area of the floor, storeys of 2.4 m, two of them sharing their air (common practice, no source)"
    return Assumed("soil-gas.volume", value, low, high, "m³", why)


def _worst(gas: SoilGas, assumed: Assumptions) -> float:
    if gas.house_vacuum is not None:
        return gas.house_vacuum.si
    return _take("usual.house-vacuum", "soil-gas.house-vacuum", assumed)


def _radon(gas: SoilGas, of_site: str | None, assumed: Assumptions) -> Spread | None:
    if gas.radon is not None:
        return Spread(gas.radon.si, of_soil_gas("spread.tested").value, (RADON,), True)
    if of_site in ("low", "middle", "high"):
        value = _take(f"radon.{of_site}", RADON, assumed)
        return Spread(value, of_soil_gas("spread.radon").value, (OF_SITE, RADON))
    tried = assumed.missing(RADON)
    return Spread(tried, of_soil_gas("spread.tested").value, (RADON,), True) if tried is not None else None


def _permeability(gas: SoilGas, ground: tuple[str, str], assumed: Assumptions) -> Spread:
    path = "soil-gas.permeability"
    if gas.permeability is not None:
        return Spread(gas.permeability.si, of_soil_gas("spread.tested").value, (path,), True)
    usual = permeability_of(*ground)
    why = f"{usual.where} ({usual.source.title}, from memory)"
    value = assumed.take(Assumed(path, usual.value, usual.low, usual.high, usual.unit, why))
    return Spread(value * UM2, of_soil_gas("spread.permeability").value, (path, "site.ground", usual.path))


def _ventilation(gas: SoilGas, assumed: Assumptions) -> Spread:
    path = "soil-gas.ventilation"
    if gas.ventilation is not None:
        return Spread(gas.ventilation.si, 1.2, (path,), True)
    return Spread(_take("usual.ventilation", path, assumed) / 3600.0, of_soil_gas("spread.house").value, (path,))


def _gap(gas: SoilGas, assumed: Assumptions) -> Spread:
    path = "soil-gas.gap"
    spread = of_soil_gas("spread.gap").value
    if gas.gap is not None and gas.gap.si > 0.0:
        return Spread(gas.gap.si, spread, (path,), True)
    closed = set(gas.sealed or ())
    sealed = gas.gap is not None or "edge-joint" in closed or closed >= {"film-laps", "film-edge"}
    if sealed:
        usual = of_soil_gas("usual.gap-sealed")
        return Spread(usual.value, spread, ("soil-gas.sealed", usual.path), True)
    return Spread(_take("usual.gap", path, assumed), spread, (path,))


def _stone(stone: Stone, floor: Sequence[Slice], assumed: Assumptions, needed: bool) -> StoneBed:
    layers = [layer for layer in floor if layer.kind == "gravel"]
    size, voids = of_soil_gas("stone.size").value, of_soil_gas("stone.voids").value / 100.0
    if stone.size is not None:
        size = stone.size.si
    elif needed and layers:
        size = _take("stone.size", "soil-gas.stone.size", assumed)
    if stone.voids is not None:
        voids = stone.voids.si
    elif needed and layers:
        voids = _take("stone.voids", "soil-gas.stone.voids", assumed, times=0.01)
    return StoneBed(
        thickness=sum(layer.thickness for layer in layers),
        size=size,
        voids=voids,
        permeability=stone.permeability.si if stone.permeability is not None else None,
        rests_on=("soil-gas.stone.size", "soil-gas.stone.voids", *(layer.path for layer in layers)),
    )


def _suctions(gas: SoilGas, unit: str, assumed: Assumptions) -> tuple[SuctionPoint, ...]:
    made = []
    for n, each in enumerate(gas.suction, start=1):
        path = f"soil-gas.suction.{n}"
        width = each.pit.si if each.pit is not None else _take("pit.width", f"{path}.pit", assumed)
        depth = each.pit_depth.si if each.pit_depth is not None else of_soil_gas("pit.depth").value
        made.append(SuctionPoint(read_corner(each.at, unit), width, depth, path))
    return tuple(made)


def _footings(gas: SoilGas, unit: str, assumed: Assumptions) -> tuple[InnerFooting, ...]:
    made = []
    for n, each in enumerate(gas.footing, start=1):
        path = f"soil-gas.footing.{n}"
        width = each.width.si if each.width is not None else _take("footing.width", f"{path}.width", assumed)
        ways = tuple(ThroughFooting(read_corner(c.at, unit), c.size.si, c.count) for c in each.crossing)
        made.append(InnerFooting(read_corner(each.from_, unit), read_corner(each.to, unit), width, ways, path))
    return tuple(made)


def _pipe(typed: GasPipe | None, unit: str, system: System, assumed: Assumptions) -> VentPipe:
    pipe = typed or GasPipe.model_validate({})
    at = "soil-gas.pipe"
    size = pipe.size.si if pipe.size is not None else _take("pipe.size", f"{at}.size", assumed)
    rise = pipe.rise.si if pipe.rise is not None else _take("pipe.rise", f"{at}.rise", assumed)
    route = tuple(read_corner(typed_at, unit) for typed_at in pipe.route)
    level = sum(dist(one, other) for one, other in pairwise(route))
    length = pipe.length.si if pipe.length is not None else rise + level
    bends: float = pipe.bends if pipe.bends is not None else _take("pipe.bends", f"{at}.bends", assumed)
    through = pipe.through or assumed.take_word(
        Assumed(f"{at}.through", "unheated", None, None, "1", "nothing told of heated rooms on its way")
    )
    return VentPipe(
        size,
        _bore(size),
        route,
        length,
        max(length - rise, 0.0) if route or pipe.length is not None else None,
        rise,
        round(bends),
        through,
        say.typed(pipe.size, "m", system) if pipe.size is not None else f"{say.both(size, 'm', system)}, assumed",
        (f"{at}.size", f"{at}.length" if pipe.length is not None else f"{at}.rise", f"{at}.bends", f"{at}.through"),
    )


def _bore(size: float) -> float:
    """The bore of a pipe by its nominal size; of a size that is no schedule 40 one the size itself. [m]"""
    nominal = {"bore.2-in": 0.0508, "bore.3-in": 0.0762, "bore.4-in": 0.1016, "bore.6-in": 0.1524}
    near = [key for key, named in nominal.items() if abs(named - size) < 2e-3]
    return of_soil_gas(near[0]).value if near else size


def _fan(typed: Fan | None, assumed: Assumptions) -> VentFan:
    at = "soil-gas.fan"
    curve = tuple((point.flow.si, point.vacuum.si) for point in typed.curve) if typed is not None else ()
    keys = ("fan.little-flow", "fan.little-vacuum", "fan.much-flow", "fan.much-vacuum")
    rests: tuple[str, ...] = (f"{at}.curve",)
    generic = not curve
    if generic:
        few, strong, many, weak = (of_soil_gas(key).value for key in keys)
        slope = (strong - weak) / (many - few)
        curve = ((0.0, strong + slope * few), (few, strong), (many, weak), (many + weak / slope, 0.0))
        rests = tuple(of_soil_gas(key).path for key in keys)
        why = "a usual fan: 10 to 100 cfm at 1 to 1/2 in of water (common practice, no source)"
        assumed.take_word(Assumed(f"{at}.curve", "usual", None, None, "1", why))
    power = of_soil_gas("fan.power").value
    if typed is not None and typed.power is not None:
        power = typed.power.si
    return VentFan((typed.at or "") if typed is not None else "", curve, generic, power, rests)


def _communication(test: Communication, unit: str) -> CommunicationTest:
    drawn = read_corner(test.at, unit) if test.at is not None else None
    holes = []
    for n, hole in enumerate(test.hole, start=1):
        at = read_corner(hole.at, unit) if hole.at is not None else None
        away = dist(at, drawn) if at is not None and drawn is not None else hole.distance.si if hole.distance else 0.0
        holes.append(GaugedHole(away, hole.vacuum.si, at, f"soil-gas.communication.hole.{n}"))
    return CommunicationTest(
        drawn,
        test.bore.si if test.bore is not None else None,
        test.flow.si if test.flow is not None else None,
        test.vacuum.si if test.vacuum is not None else None,
        test.scanned,
        tuple(holes),
    )
