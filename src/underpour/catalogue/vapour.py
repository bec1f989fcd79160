"""How much slower vapour spreads in materials than in still air."""

from __future__ import annotations

from functools import cache

from .read import quantity, table
from .records import Quantity


@cache
def vapour_factors() -> dict[str, Quantity]:
    """The resistance factor of each kind of material, by its name.

    >>> vapour_factors()["EPS"].value
    60.0
    """
    return {key: quantity(entry["factor"], f"catalogue.vapour.{key}") for key, entry in table("vapour").items()}
