"""Hours that laying takes, by what is laid and where."""

from __future__ import annotations

from .read import quantity, table
from .records import Quantity


def hours_of(name: str) -> Quantity:
    """Hours for each square metre, of tape for each metre: board, panel, film, tape, or the face of an edge.

    >>> hours_of("board").value
    0.04
    """
    return quantity(table("labour")[name]["number"], f"catalogue.labour.{name}")


def labour_numbers() -> dict[str, Quantity]:
    """All of them by name."""
    return {name: hours_of(name) for name in table("labour")}
