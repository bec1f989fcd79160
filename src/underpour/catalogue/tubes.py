"""Tubes of heated floors: outside, wall and bore of each size."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .read import Entry, cell, one, quantity, table
from .records import Quantity


@dataclass(frozen=True, slots=True)
class TubeSize:
    """One size of tube."""

    key: str  # as it is typed: "1/2 in", "16 mm"
    label: str
    outside: Quantity  # m, diameter
    least_wall: Quantity  # m
    thicker: Quantity  # m, what a wall may be over the least
    longest: Quantity  # m, that a loop of it usually is at the most
    conductivity: Quantity  # W/(m·K), of the wall

    @property
    def widest_bore(self) -> float:
        """At the least wall. [m]"""
        return self.outside.value - 2.0 * self.least_wall.value

    @property
    def bore(self) -> float:
        """At the average wall: what loses pressure. [m]"""
        return self.widest_bore - self.thicker.value


@cache
def _by_key() -> dict[str, TubeSize]:
    tables = (table("tubes_by_inch"), table("tubes_by_mm"))
    return {row["key"]: _size(row, of["columns"]) for of in tables for row in of["row"]}


def _size(row: Entry, columns: Mapping[str, Entry]) -> TubeSize:
    path = f"catalogue.tube.{row['key']}"
    outside, wall, thicker, longest = (cell(columns, name, row[name], f"{path}.{name}") for name in columns)
    conductivity = quantity(table("tubes_by_inch")["conductivity"]["of-wall"], f"{path}.conductivity")
    return TubeSize(row["key"], row["label"], outside, wall, thicker, longest, conductivity)


def tube_sizes() -> tuple[TubeSize, ...]:
    """Every size, in the order of the file."""
    return tuple(_by_key().values())


def tube_size(key: str) -> TubeSize:
    """The size of that name; one that is not known is a Mistake with the nearest one.

    >>> round(tube_size("1/2 in").bore / 0.0254, 3), round(tube_size("16 mm").widest_bore * 1000.0, 1)
    (0.475, 12.0)
    """
    return one(_by_key(), key, "tube", "tubes")
