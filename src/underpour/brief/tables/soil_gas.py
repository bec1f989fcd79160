"""Soil gas: what is laid to draw it off, what keeps it out, and what was measured."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, StrictBool

from .. import kinds
from .handover import Day, Line
from .table import Table, key

System = Literal["none", "rough-in", "passive", "fan"]
Closed = Literal["film-laps", "film-edge", "edge-joint", "pipes", "cracks", "sump", "block-tops"]


class Suction(Table):
    """A place below the slab from which soil gas is drawn."""

    at: str = key("Its middle on the plan, x and y.", "20 14")
    pit: kinds.Extent | None = key("How wide the pit in the stone is there.", "24 in", "600 mm", default=None)
    pit_depth: kinds.Extent | None = key("How deep the pit is below the slab.", "6 in", "150 mm", default=None)


class Crossing(Table):
    """A way through a footing, from stone to stone."""

    at: str = key("Its middle on the plan, x and y.", "20 9")
    size: kinds.Extent = key("How wide it is: the bore of a pipe through the footing.", "4 in", "100 mm")
    count: int = Field(default=1, ge=1, le=50, strict=True, description="How many lie side by side.", examples=[2])


class GasFooting(Table):
    """A footing or a wall inside the floor that parts the stone below it."""

    from_: str = key("Where it begins on the plan, x and y; along x or along y.", "0 20")
    to: str = key("Where it ends.", "30 20")
    width: kinds.Extent | None = key("How wide it is.", "20 in", "500 mm", default=None)
    crossing: tuple[Crossing, ...] = key("Ways through it.", [{"at": "20 20", "size": "4 in"}], default=())


class Stone(Table):
    """The stone below the slab, as gas flows through it."""

    size: kinds.Thickness | None = key("The usual size of its grains.", "3/4 in", "19 mm", default=None)
    voids: kinds.Share | None = key("How much of it is air.", "40 %", default=None)
    fines: kinds.Share | None = key("How much of it goes through a 4 mm (No. 4) sieve.", "2 %", default=None)
    permeability: kinds.GasPermeability | None = key("How well it lets air through, measured.", "2e-8 m²", default=None)


class ChannelReading(Table):
    """What a metre's width of a panel's channels lets through, measured."""

    flow: kinds.AirFlow = key("Air through channels 1 m wide side by side.", "1 l/s", "2 cfm")
    fall: kinds.GasPressure = key("How much the pressure falls over 1 m of their length.", "0.5 Pa", "0.002 in. w.c.")


class GasPipe(Table):
    """The pipe that leads the gas over the roof."""

    size: kinds.Thickness | None = key("Its nominal size.", "4 in", "100 mm", default=None)
    route: tuple[str, ...] = key(
        "Where it goes on the plan, from the suction point on: x and y of each bend.", ["20 14", "38 14"], default=()
    )
    rise: kinds.Extent | None = key("How high it climbs from the slab to its outlet.", "28 ft", "8.5 m", default=None)
    length: kinds.Extent | None = key("Its whole length, where no route is drawn.", "45 ft", "14 m", default=None)
    bends: int | None = Field(
        default=None, ge=0, le=30, strict=True, description="How many bends of 90° it has.", examples=[4]
    )
    falls: Literal["to-suction", "to-outlet", "level"] | None = key(
        "Which way its level stretches fall, so that its water goes back into the ground.", "to-suction", default=None
    )
    slope: kinds.Share | None = key(
        "How steeply its level stretches fall, over their length: 1/8 in in each foot is 1 %.", "1 %", default=None
    )
    through: Literal["heated", "unheated", "outdoors"] | None = key(
        "Through what it climbs: a pipe in heated rooms draws by itself in winter.", "heated", default=None
    )
    labelled: StrictBool | None = key("Whether it says on each storey what it is.", True, default=None)
    power: StrictBool | None = key("Whether a junction box for a fan stands beside its way.", True, default=None)


class Outlet(Table):
    """Where the gas leaves the pipe."""

    above_roof: kinds.Depth | None = key("How far it stands above the roof there.", "12 in", "300 mm", default=None)
    from_openings: kinds.Depth | None = key(
        "How far the nearest door, window or air intake is away.", "10 ft", "3 m", default=None
    )
    above_openings: kinds.Depth | None = key(
        "How far it stands above the top of that opening, where it does.", "3 ft", "1 m", default=None
    )


class FanPoint(Table):
    """One point of a fan's curve."""

    flow: kinds.AirFlow = key("What it moves.", "40 cfm", "20 l/s")
    vacuum: kinds.GasPressure = key("Against what pressure.", "1 in. w.c.", "250 Pa")


class Fan(Table):
    """The fan on the pipe."""

    at: Literal["attic", "outdoors", "garage", "basement", "crawl-space", "living-space"] | None = key(
        "Where it stands: outside whatever people live in, since all pipe beyond it leaks outwards.",
        "attic",
        "outdoors",
        default=None,
    )
    curve: tuple[FanPoint, ...] = key(
        "Its curve as its maker gives it, from no flow on.",
        [
            {"flow": "0 cfm", "vacuum": "1.6 in. w.c."},
            {"flow": "60 cfm", "vacuum": "1 in. w.c."},
            {"flow": "140 cfm", "vacuum": "0 in. w.c."},
        ],
        default=(),
    )
    power: kinds.ElectricPower | None = key("What it draws from the mains.", "60 W", default=None)


class TestHole(Table):
    """A hole through the slab at which a gauge was held while air was drawn elsewhere."""

    at: str | None = key("Its middle on the plan, x and y.", "6 20", default=None)
    distance: kinds.Extent | None = key(
        "How far it is from the hole that air was drawn from, where no place is told.", "15 ft", "4.5 m", default=None
    )
    vacuum: kinds.GasPressure = key("How far below the room's the pressure was there.", "3 Pa", "0.012 in. w.c.")


class Communication(Table):
    """A test of how far suction reaches below a slab that is there: air drawn from one hole, a gauge at others."""

    at: str | None = key("Where air was drawn from, x and y.", "20 14", default=None)
    bore: kinds.Extent | None = key("How wide that hole was.", "1-1/2 in", "38 mm", default=None)
    flow: kinds.AirFlow | None = key("What was drawn.", "20 cfm", default=None)
    vacuum: kinds.GasPressure | None = key("The pressure below the slab in that hole.", "250 Pa", default=None)
    scanned: StrictBool | None = key(
        "Whether the slab was scanned for tubes, cables and tendons before it was drilled.", True, default=None
    )
    hole: tuple[TestHole, ...] = key("Where the gauge was held.", [{"at": "6 20", "vacuum": "3 Pa"}], default=())


class RadonTest(Table):
    """A test for radon in the finished building."""

    kit: str | None = key(
        "With what: underpour catalogue list radon-tests.", "alpha-track", "charcoal", "electret", default=None
    )
    level: kinds.Radon = key("What it told, as a mean over its days.", "2.1 pCi/L", "80 Bq/m³")
    days: kinds.Time | None = key("How long it hung.", "91 d", "4 d", default=None)
    place: Line = key("Where it hung: the lowest storey that is lived in.", "basement, family room", default="")
    date: Day | None = key("The day it was taken down.", "2026-11-25", default=None)
    closed: StrictBool | None = key(
        "Whether windows and outside doors stayed shut, from twelve hours before a short test on.", True, default=None
    )
    system: System | None = key(
        "What stood when it hung, where that is no longer so: a test before the fan tells nothing of it.",
        "passive",
        default=None,
    )


class GaugeReading(Table):
    """The gauge on the pipe, read."""

    vacuum: kinds.GasPressure = key("What it showed.", "0.9 in. w.c.", "220 Pa")
    date: Day | None = key("When.", "2026-11-25", default=None)
    at: Line = key("On which pipe, where there are several.", "north pipe", default="")


class SoilGas(Table):
    """Soil gas: what is laid to draw it off, what keeps it out, and what was measured."""

    system: System | None = key(
        "What is laid: nothing, a capped pipe for later, a pipe that draws by itself, or one with a fan.",
        "rough-in",
        "passive",
        "fan",
        default=None,
    )
    level_by: kinds.Words = key(
        "Whose level the rooms are held to, or several: underpour catalogue list radon-levels.",
        "us-epa",
        ["who", "health-canada"],
        default=(),
    )
    radon: kinds.Radon | None = key(
        "Radon in the soil gas below the floor, as tested on the site.", "30000 Bq/m³", "800 pCi/L", default=None
    )
    permeability: kinds.GasPermeability | None = key(
        "How well the ground lets gas through, as tested on the site.", "1e-11 m²", default=None
    )
    ventilation: kinds.AirChanges | None = key(
        "How often the air of the rooms is changed, mean of the heating season.", "0.35 1/h", default=None
    )
    volume: kinds.Volume | None = key(
        "The air of all rooms that share it with those on this floor.", "500 m³", "18000 ft³", default=None
    )
    house_vacuum: kinds.GasPressure | None = key(
        "How far below the ground's the pressure in the house is at its worst: cold, all fans on.", "5 Pa", default=None
    )
    gap: kinds.Gap | None = key(
        "How wide the joint between slab and wall is open; nought where it is sealed.",
        "0.5 mm",
        "1/64 in",
        default=None,
    )
    sealed: tuple[Closed, ...] | None = key(
        "What is sealed against soil gas; an empty list says nothing is.",
        ["film-laps", "film-edge", "edge-joint", "pipes"],
        default=None,
    )
    combustion: Literal["none", "sealed", "open"] | None = key(
        "Whether something burns fuel in these rooms and takes its air from them: nothing does, it has air of its own, "
        "or it draws from the room.",
        "sealed",
        default=None,
    )
    backdraught_tested: StrictBool | None = key(
        "Whether its flue was tested to draw with every fan on.", True, default=None
    )
    stone: Stone = key("The stone below the slab, as gas flows through it.", default_factory=Stone)
    channels: tuple[ChannelReading, ...] = key(
        "Readings of the channels below a panel, by its maker: at two flows or more.",
        [{"flow": "1 l/s", "fall": "0.5 Pa"}, {"flow": "5 l/s", "fall": "6 Pa"}],
        default=(),
    )
    suction: tuple[Suction, ...] = key("Where soil gas is drawn from.", [{"at": "20 14", "pit": "24 in"}], default=())
    footing: tuple[GasFooting, ...] = key(
        "Footings and walls inside the floor that part the stone.", [{"from": "0 20", "to": "30 20"}], default=()
    )
    pipe: GasPipe | None = key("The pipe that leads it over the roof.", {"size": "4 in", "rise": "28 ft"}, default=None)
    outlet: Outlet = key("Where it leaves the pipe.", default_factory=Outlet)
    fan: Fan | None = key("The fan on the pipe.", {"at": "attic"}, default=None)
    communication: Communication | None = key(
        "A test of how far suction reaches below a slab that is there.", {"flow": "20 cfm"}, default=None
    )
    test: tuple[RadonTest, ...] = key(
        "Tests for radon in the finished building.", [{"kit": "alpha-track", "level": "2.1 pCi/L"}], default=()
    )
    gauge: tuple[GaugeReading, ...] = key("The gauge on the pipe, read.", [{"vacuum": "0.9 in. w.c."}], default=())
