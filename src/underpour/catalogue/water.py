"""Water below and beside a floor: the numbers that it is held to, each with its source."""

from __future__ import annotations

from functools import cache

from .read import quantity, table
from .records import Quantity


@cache
def of_water(key: str) -> Quantity:
    """One number of water.toml.

    >>> of_water("stone").value, of_water("S1").unit
    (0.1016, 'kPa')
    """
    return quantity(table("water")[key], f"catalogue.water.{key}")
