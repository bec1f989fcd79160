"""How much slower vapour spreads in materials than in still air."""

from __future__ import annotations

from functools import cache

from .read import quantity, table
from .records import Quantity, Seams


@cache
def vapour_factors() -> dict[str, Quantity]:
    """The resistance factor of each kind of material, by its name.

    >>> vapour_factors()["EPS"].value
    60.0
    """
    return {key: quantity(entry["factor"], f"catalogue.vapour.{key}") for key, entry in table("vapour").items()}


@cache
def seams() -> dict[str, Seams]:
    """What the seams of a film let through beside it, by how they are laid.

    >>> seams()["lapped"].permeance.value
    0.47
    """
    return {
        key: Seams(key, entry["label"], quantity(entry["permeance"], f"catalogue.seams.{key}"))
        for key, entry in table("seams").items()
    }
