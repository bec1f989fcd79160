"""Slabs on the ground in bending: the numbers that are taken of concrete, bed and planks, each with its source."""

from __future__ import annotations

from functools import cache

from .read import quantity, table
from .records import Quantity


@cache
def of_slabs(key: str) -> Quantity:
    """One number of slabs.toml.

    >>> of_slabs("factor").value, of_slabs("poisson").unit
    (1.7, '1')
    """
    return quantity(table("slabs")[key], f"catalogue.slab.{key}")
