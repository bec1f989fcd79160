"""Termites in the ground: regions of the code's map, and barriers that keep them from using foam."""

from __future__ import annotations

from dataclasses import dataclass

from .read import quantity, table
from .records import Quantity


@dataclass(frozen=True, slots=True)
class Barrier:
    """What keeps termites from using foam as a way into the house."""

    label: str
    mind: str  # what it needs in order to work
    shows: bool  # whether tubes that go round it are seen


def termite_region(key: str) -> tuple[str, bool]:
    """A region's name, and whether foam in the ground is held to a barrier there.

    >>> termite_region("none-to-slight")
    ('none to slight', False)
    """
    told = table("termites")["region"][key]
    return told["label"], told["held"]


def termite_barrier(key: str) -> Barrier:
    """A barrier by its key.

    >>> termite_barrier("treated-ground").label
    'treated ground'
    """
    told = table("termites")["barrier"][key]
    return Barrier(told["label"], told["mind"], told["shows"])


def termite_strip() -> Quantity:
    """How much of the foundation is left bare above the ground, so that their tubes are seen. [m]"""
    return quantity(table("termites")["strip"]["limit"], "catalogue.termites.strip")


def may_be_very_heavy(state: str) -> bool:
    """Whether the code's map has very heavy termites anywhere in a state of the United States; "" is any of them.

    >>> may_be_very_heavy("TX"), may_be_very_heavy("MN"), may_be_very_heavy("")
    (True, False, True)
    """
    return not state or state in table("termites")["very-heavy"]["states"]
