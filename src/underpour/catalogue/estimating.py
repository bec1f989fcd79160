"""What a crew keeps to and an estimator allows for, where nobody types it."""

from __future__ import annotations

from .read import quantity, table
from .records import Quantity


def estimating(of: str, name: str) -> Quantity:
    """One of those numbers: of panel, film, tape, tube, strip, fixing, vent, lorry, lift, wind, bulk or concrete.

    >>> estimating("panel", "kerf").value
    0.003
    """
    return quantity(table("takeoff")[of][name]["number"], f"catalogue.takeoff.{of}-{name}")


def estimating_numbers() -> dict[str, Quantity]:
    """All of them by name."""
    return {f"{of}-{name}": estimating(of, name) for of, entries in table("takeoff").items() for name in entries}
