"""What a resolved brief says of tubes or cables in its floor."""

from __future__ import annotations

from dataclasses import dataclass

from ..catalogue.fluids import Mixture
from ..catalogue.records import Quantity
from ..catalogue.tubes import TubeSize


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel whose knobs hold the tube."""

    label: str
    height: float  # m, of the knobs
    share: float  # of the area that they are, 1
    centre: float  # m, of the tube above the solid foam
    conductivity: float  # W/(m·K), of the knobs
    heat_capacity: float  # J/(m³·K)


@dataclass(frozen=True, slots=True)
class Rest:
    """Heat that rests for a time and comes again."""

    lasts: float  # s
    set_back: float  # K, that the room falls meanwhile
    back_within: float | None  # s; None where the brief does not say


@dataclass(frozen=True, slots=True)
class Water:
    """What runs in the tubes."""

    size: TubeSize
    fluid: Mixture
    drop: float  # K, supply less return on the coldest day
    leader: float  # m, one way
    longest: Quantity  # m, that a loop may be
    loops: int | None  # as typed; None for as many as keep each below that
    lengths: tuple[float, ...]  # m, of each loop as typed; () where the brief does not say
    source: str  # boiler, heat-pump; "" where the brief does not say
    coldest: float | None  # degC, that it may get; None where the brief does not say
    coil: float | None = None  # m, that tube is bought in; None where the brief does not say


@dataclass(frozen=True, slots=True)
class HeatedFloor:
    """A floor with tubes or cables in it."""

    outside: float  # m, diameter
    spacing: float  # m
    axis: float  # m, below the floor's surface
    layer: int  # of the build-up, from 0, in which it lies
    depth_told: bool  # else it lies in the middle of its layer
    load: float  # W/m², wanted on the coldest day
    coldest: float  # degC outdoors on that day
    warm_within: float | None  # s, from cold; None where the brief does not say
    water: Water | None  # None where the floor is warmed by electric cables
    rests_on: tuple[str, ...]
    panel: Panel | None = None
    edge_spacing: float | None = None  # m, in the strip along outer walls; None where it is as elsewhere
    covered: float | None = None  # of the floor, by furnishing, 1; None where the brief does not say
    heat_after: float | None = None  # s, from the pour; None where the brief does not say
    rest: Rest | None = None
    ties: float | None = None  # m along it from one to the next; None where the brief does not say
