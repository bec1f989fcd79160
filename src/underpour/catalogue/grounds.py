"""Ground: by kind, by the names of the trade, and the one that is assumed where none is told."""

from __future__ import annotations

from functools import cache

from .materials import read_material
from .read import Entry, cell, keyed, one, table
from .records import Material, Quantity

NOT_TOLD = "unknown"


@cache
def _by_key() -> dict[str, Material]:
    kinds = {key: read_material(key, entry, "catalogue.ground") for key, entry in table("grounds").items()}
    columns = table("soils")["columns"]

    def of(row: Entry, name: str) -> Quantity:
        return cell(columns, name, row[name], f"catalogue.ground.{row['key']}.{name}")

    soils = {
        row["key"]: Material(
            key=row["key"],
            label=row["label"],
            conductivity=of(row, "conductivity"),
            heat_capacity=of(row, "heat-capacity"),
            hatch="ground",
            grain="fine" if row["fine"] else "coarse",
            saturated=(of(row, "saturated-conductivity"), of(row, "saturated-heat-capacity")),
        )
        for row in table("soils")["row"]
    }
    return kinds | soils


@cache
def _by_word() -> dict[str, Material]:
    return keyed(_by_key(), lambda key: tuple(table("grounds").get(key, {}).get("also", ())))


def grounds() -> tuple[Material, ...]:
    """Every ground, kinds first, then soils by name and moisture."""
    return tuple(_by_key().values())


def ground(key: str) -> Material:
    """The ground of that key or of another word for it; one that is not known is a Mistake with the nearest.

    >>> ground("clay").key, ground("clay").conductivity.value
    ('clay-or-silt', 1.5)
    """
    return one(_by_word(), key, "ground", "grounds")


def default_ground() -> Material:
    """The ground that is assumed where the brief tells none, with the range it may lie in.

    Source: ISO 13370:2017, value where the ground is not known.

    >>> k = default_ground().conductivity
    >>> k.low, k.value, k.high
    (1.5, 2.0, 3.5)
    """
    return _by_key()[NOT_TOLD]
