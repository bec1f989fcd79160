"""What a resolved brief says of tubes or cables in its floor."""

from __future__ import annotations

from dataclasses import dataclass

from ..catalogue.fluids import Mixture
from ..catalogue.records import Quantity
from ..catalogue.tubes import TubeSize


@dataclass(frozen=True, slots=True)
class Water:
    """What runs in the tubes."""

    size: TubeSize
    fluid: Mixture
    drop: float  # K, supply less return on the coldest day
    leader: float  # m, one way
    longest: Quantity  # m, that a loop may be
    loops: int | None  # as typed; None for as many as keep each below that
    source: str  # boiler, heat-pump; "" where the brief does not say


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
