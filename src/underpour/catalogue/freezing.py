"""How ground freezes, how much colder hard winters are, and which water is out of the frost's reach."""

from __future__ import annotations

from dataclasses import dataclass

from .read import quantity, table
from .records import Quantity


@dataclass(frozen=True, slots=True)
class FreezingGround:
    """What the catalogue says of the freezing of one grain."""

    water: Quantity  # kg/m³
    frozen_over_unfrozen: Quantity  # 1, conductivity
    range: Quantity  # K below 0 °C
    unfrozen: Quantity  # 1, share of the water


def freezing_ground(grain: str) -> FreezingGround:
    """By its grain (fine, coarse, rock, peat); where that is not told, by what is taken then.

    >>> freezing_ground("coarse").water.value, freezing_ground("").water.value
    (120.0, 200.0)
    """
    key = grain or "unknown"
    return FreezingGround(*(_freezing(key, name) for name in ("water", "frozen-over-unfrozen", "range", "unfrozen")))


def hard_winters() -> Quantity:
    """Freezing index of the three coldest winters over that of the mean year, as measured in two places. [1]"""
    return _freezing("winter", "three-coldest")


def kept_from_freezing() -> Quantity:
    """How warm a vacant building is kept. [degC]"""
    return _freezing("winter", "air-enclosed")


def without_heat() -> Quantity:
    """How long a heating is out. [d]"""
    return _freezing("winter", "without-heat")


def water_out_of_reach() -> Quantity:
    """How far below the frost a water table feeds it no more. [m]"""
    return _freezing("water", "out-of-reach")


def _freezing(key: str, name: str) -> Quantity:
    return quantity(table("freezing")[key][name], f"catalogue.freezing.{key}.{name}")
