"""What heated floors are pictured by: plain values, so that who draws or hands them on works nothing out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float32]
Months = tuple[float, ...]  # twelve


@dataclass(frozen=True, slots=True)
class Lying:
    """One layer of a heated floor, from the room down."""

    label: str  # "Concrete"
    words: str  # "Concrete, 4 in (102 mm)"
    hatch: str
    thickness: float  # m; 0 of a film


@dataclass(frozen=True)
class Around:
    """Temperatures between two tubes on the coldest day, from above a tube to halfway to the next."""

    x: Array  # (nx,) m
    y: Array  # (ny,) m, rising to 0 at the surface
    degrees: Array  # (ny, nx) degC, NaN in the tube
    along: Array  # (ns,) m
    surface: Array  # (ns,) degC


@dataclass(frozen=True)
class Pumped:
    """What pressure the water of one loop takes at any flow."""

    fluid: str
    count: int  # loops
    length: float  # m, of one
    flow: float  # m³/s through one on the coldest day
    whole: float  # m³/s through all of them then
    longest: bool  # whether it is the longest of loops that the brief tells; else all are alike
    loss: float  # kPa then, manifold and valves counted
    most: float  # kPa that the pump has
    reynolds: float  # then
    layers_until: float  # m³/s: slower than this it flows in layers
    eddies_from: float  # m³/s: faster than this it flows in eddies
    flows: Array  # (n,) m³/s
    losses: Array  # (n,) kPa, the greater where both kinds of flow may be
    least: Array  # (n,) kPa, the smaller there


@dataclass(frozen=True)
class FromCold:
    """A floor that warms up."""

    hours: Array  # (n,) h
    floor: Array  # (n,) degC, mean of the surface
    water: Array  # (n,) degC, mean along the loop; of cables, at the cable
    start: float  # degC, of everything
    wanted: float  # degC, of the surface
    reached: float | None  # h; None where it is not reached
    within: float | None  # h, as the brief asks


@dataclass(frozen=True, slots=True)
class UpAndDown:
    """Twelve months of a heated floor."""

    heated: tuple[bool, ...]
    up: Months  # W/m²
    down: Months  # W/m²
    supply: Months | None  # degC, of the months' means; None of cables
    pump: Months | None  # 1, heat for electricity of a heat pump; None where none heats the water
    of_up: float  # down / up over the months with heat
    of_total: float  # down / (up + down)


@dataclass(frozen=True)
class Heated:
    """A heated floor as it is drawn."""

    electric: bool
    layers: tuple[Lying, ...]
    tube: str  # "1/2 in"; "" of cables
    outside: float  # m, diameter
    axis: float  # m, below the surface
    spacing: float  # m
    month: int  # 1 to 12, the coldest
    room: float  # degC then
    water: float  # degC, mean of it, or of the cable
    up: float  # W/m² on the coldest day
    down: float  # W/m² then
    mean: float  # degC, of the surface
    warmest: float
    coolest: float
    limit: float | None  # degC, that the surface is held to
    at_edge: float | None  # degC, that a strip along outer walls may have; None where nobody is held to it
    around: Around
    pumped: Pumped | None  # None of cables
    from_cold: FromCold
    year: UpAndDown
