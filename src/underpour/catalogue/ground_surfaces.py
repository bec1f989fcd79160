"""What lies on the ground outside, and snow."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .read import quantity, table
from .records import Quantity


@dataclass(frozen=True, slots=True)
class GroundCover:
    """A surface of the ground by its n-factors."""

    key: str
    label: str  # "turf, with the snow that usually lies on it"
    freezing: Quantity  # 1, freezing index of the surface over that of the air
    thawing: Quantity  # 1, the same of the thawing index


@cache
def _by_key() -> dict[str, GroundCover]:
    return {
        key: GroundCover(
            key,
            entry["label"],
            quantity(entry["freezing"], f"catalogue.ground-surface.{key}.freezing"),
            quantity(entry["thawing"], f"catalogue.ground-surface.{key}.thawing"),
        )
        for key, entry in table("ground_surfaces").items()
        if "freezing" in entry
    }


def ground_cover(key: str) -> GroundCover:
    """The surface of that key: one of the words that a brief can hold, or ``bare``, which is taken where it holds none.

    >>> ground_cover("turf").freezing.value
    0.5
    """
    return _by_key()[key]


def snow_conductivity() -> Quantity:
    """Conductivity of snow that lies. [W/(m·K)]

    >>> snow_conductivity().value
    0.2
    """
    return quantity(table("ground_surfaces")["snow"]["conductivity"], "catalogue.ground-surface.snow.conductivity")


def sunlit() -> tuple[Quantity, Quantity]:
    """Share of the sun that a surface takes up [1], and what it loses to the sky beyond what its film counts [W/m²].

    >>> [each.value for each in sunlit()]
    [0.6, 57.0]
    """
    entry = table("ground_surfaces")["sun"]
    absorptance, to_sky = (
        quantity(entry[key], f"catalogue.ground-surface.sun.{key}") for key in ("absorptance", "to-sky")
    )
    return absorptance, to_sky
