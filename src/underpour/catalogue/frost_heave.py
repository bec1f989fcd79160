"""Which ground can heave where it freezes."""

from __future__ import annotations

from .read import quantity, table
from .records import Quantity


def fines_limit() -> Quantity:
    """Share of grains finer than 0.02 mm from which on ground is taken to heave. [%]"""
    return _fines("limit")


def may_heave(grain: str) -> bool:
    """Whether ground of this grain can heave where it freezes; where its grain is not told that is not ruled out.

    >>> may_heave("fine"), may_heave("coarse"), may_heave("")
    (True, False, True)
    """
    return not grain or _fines(grain).value >= fines_limit().value


def _fines(grain: str) -> Quantity:
    return quantity(table("frost_heave")[grain]["fines"], f"catalogue.frost-heave.{grain}.fines")
