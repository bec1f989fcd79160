"""How long slabs took to dry."""

from __future__ import annotations

from functools import cache

from .read import one, quantity, table
from .records import Quantity


@cache
def drying() -> dict[str, Quantity]:
    """Every number by its key, each in its own unit."""
    return {key: quantity(entry, f"catalogue.drying.{key}") for key, entry in table("drying").items()}


def of_drying(key: str) -> Quantity:
    """The number of that key.

    >>> of_drying("usual").value, of_drying("usual").unit
    (82.0, 'd')
    """
    return one(drying(), key, "number", "drying")
