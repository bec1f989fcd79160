"""Bulk materials: concrete, screed, gravel, sand, masonry, timber."""

from __future__ import annotations

from functools import cache

from .read import Entry, one, quantity, table
from .records import Material


def read_material(key: str, entry: Entry, path: str) -> Material:
    """A material from its table, with ``path`` in front of the paths of its numbers."""
    return Material(
        key=key,
        label=entry["label"],
        conductivity=quantity(entry["conductivity"], f"{path}.{key}.conductivity"),
        heat_capacity=quantity(entry["heat-capacity"], f"{path}.{key}.heat-capacity"),
        hatch=entry["hatch"],
        density=quantity(entry["density"], f"{path}.{key}.density") if "density" in entry else None,
        grain=entry.get("grain", ""),
        saturated=(
            (
                quantity(entry["saturated-conductivity"], f"{path}.{key}.saturated-conductivity"),
                quantity(entry["saturated-heat-capacity"], f"{path}.{key}.saturated-heat-capacity"),
            )
            if "saturated-conductivity" in entry
            else None
        ),
    )


@cache
def _by_key() -> dict[str, Material]:
    return {key: read_material(key, entry, "catalogue.material") for key, entry in table("materials").items()}


def materials() -> tuple[Material, ...]:
    """Every bulk material, in the order of the file."""
    return tuple(_by_key().values())


def material(key: str) -> Material:
    """The bulk material of that key; a key that is not known is a Mistake with the nearest one.

    >>> material("softwood").conductivity.value
    0.13
    """
    return one(_by_key(), key, "material", "materials")
