"""Surface resistances by use, and limits that hold everywhere."""

from __future__ import annotations

from functools import cache

from .read import one, quantity, table
from .records import Quantity


@cache
def surfaces() -> dict[str, Quantity]:
    """Every surface resistance by its key. [m²·K/W]"""
    return {key: quantity(entry["resistance"], f"catalogue.surface.{key}") for key, entry in table("surfaces").items()}


@cache
def limits() -> dict[str, Quantity]:
    """Every limit by its key, each in its own unit."""
    return {key: quantity(entry["limit"], f"catalogue.limit.{key}") for key, entry in table("limits").items()}


@cache
def air_spaces() -> dict[str, Quantity]:
    """What an air space is worked out with, by its key, each in its own unit."""
    return {key: quantity(entry["number"], f"catalogue.air-space.{key}") for key, entry in table("air_spaces").items()}


def surface(key: str) -> Quantity:
    """Resistance between a surface and the air before it. [m²·K/W]

    ``floor-down``, ``wall`` and ``floor-up`` for heat loss by the way heat flows, ``room-mould`` for humidity and
    mould, ``outdoors``. Source: ISO 6946 and ISO 13788, as each number says.

    >>> surface("floor-down").value
    0.17
    """
    return one(surfaces(), key, "surface", "surfaces")


def air_layer(thickness: float) -> tuple[float, Quantity]:
    """Resistance of an air layer in a wall that outdoor air does not move through [m²·K/W], and the row it rests on.

    ``thickness`` in m. Between rows by a straight line, beyond the thickest as the thickest; from nought at no air.

    >>> air_layer(0.05)[0], round(air_layer(0.0125)[0], 4)
    (0.18, 0.16)
    """
    below, resistance = 0.0, 0.0
    for key, entry in table("surfaces").items():
        if "thickness" not in entry:
            continue
        row, thick = surfaces()[key], float(entry["thickness"]["value"])
        if thickness <= thick:
            part = (thickness - below) / (thick - below)
            return resistance + part * (row.value - resistance), row
        below, resistance = thick, row.value
    return resistance, row


def limit(key: str) -> Quantity:
    """The limit of that key, in its own unit.

    >>> limit("mould-surface-humidity").value, limit("mould-surface-humidity").unit
    (80.0, '%')
    """
    return one(limits(), key, "limit", "limits")
