"""How stiff ground is under a slab, and what may press on it: by its kind, or by a test of it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from .grounds import NOT_TOLD
from .read import cell, quantity, table
from .records import Quantity

KINDS = ("fine", "coarse", "rock", "peat")  # of a ground's grain; all others count as not told
LOW, HIGH = 0.7, 1.4  # of a modulus by CBR: two published tables differ twofold at 3 %


def _kind(grain: str) -> str:
    return grain if grain in KINDS else NOT_TOLD


@cache
def _of_kind(kind: str, name: str) -> Quantity:
    return quantity(table("subgrades")["kind"][kind][name], f"catalogue.subgrade.{kind}.{name}")


def subgrade_modulus(grain: str) -> Quantity:
    """Modulus of subgrade reaction of ground of that grain where nobody tested it. [MN/m³]

    >>> subgrade_modulus("fine").value
    26.5
    """
    return _of_kind(_kind(grain), "modulus")


def presumed_bearing(grain: str) -> Quantity:
    """What may press on ground of that grain where nobody tested it. [kPa]

    >>> presumed_bearing("fine").value  # 1,500 lb/ft²
    71.82
    """
    return _of_kind(_kind(grain), "bearing")


def pressure_at_rest(grain: str) -> Quantity:
    """What ground of that grain presses with on a wall that does not give way, for each metre of its depth. [kN/m³]

    >>> pressure_at_rest("fine").value  # 100 lb/ft² each foot
    15.71
    """
    return _of_kind(_kind(grain), "at-rest")


@cache
def _tested() -> tuple[tuple[Quantity, Quantity], ...]:
    columns = table("subgrades")["columns"]
    return tuple(
        (
            cell(columns, "cbr", row["cbr"], f"catalogue.subgrade.{row['key']}.cbr"),
            cell(columns, "modulus", row["modulus"], f"catalogue.subgrade.{row['key']}.modulus"),
        )
        for row in table("subgrades")["row"]
    )


def modulus_by_cbr(cbr: float) -> Quantity:
    """Modulus of subgrade reaction of ground whose soaked CBR was tested, in %, between the rows of the table. [MN/m³]

    Published tables differ twofold at low CBR: low and high are 0.7 and 1.4 of the value.

    >>> modulus_by_cbr(3.0).value
    28.0
    >>> modulus_by_cbr(4.5).value  # half-way from 35 to 42
    38.5
    """
    rows = _tested()
    at = min(max(cbr, rows[0][0].value), rows[-1][0].value)
    below = max((row for row in rows if row[0].value <= at), key=lambda row: row[0].value)
    above = min((row for row in rows if row[0].value >= at), key=lambda row: row[0].value)
    span = above[0].value - below[0].value
    share = (at - below[0].value) / span if span else 0.0
    value = below[1].value + share * (above[1].value - below[1].value)
    path = "catalogue.subgrade.cbr.modulus"
    return replace(below[1], value=value, low=value * LOW, high=value * HIGH, path=path)
