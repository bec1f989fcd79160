"""What heats rooms: what is in a fuel, what usual plants make of it, and the carbon dioxide of burning it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .read import Entry, one, quantity, table
from .records import Quantity


@dataclass(frozen=True, slots=True)
class Fuel:
    """One fuel, or electricity, or heat from a network."""

    key: str
    label: str
    by_volume: Quantity | None  # MJ/m³, higher heating value; None where it is not sold so
    by_mass: Quantity | None  # MJ/kg, higher heating value
    low_over_high: Quantity | None  # lower over higher heating value; None where nothing is burnt
    efficiency: Quantity | None  # usual, of the year, by the higher heating value; None where none is usual
    carbon: Quantity | None  # kgCO2e/kWh of what is bought, by the higher heating value; None where nothing is taken
    electric: bool = False

    @property
    def burnt(self) -> bool:
        """Whether it has heating values."""
        return self.low_over_high is not None


@cache
def _by_key() -> dict[str, Fuel]:
    return {key: _fuel(key, row) for key, row in table("fuels").items()}


def _fuel(key: str, row: Entry) -> Fuel:
    found = {
        name: quantity(row[name], f"catalogue.fuel.{key}.{name}") if name in row else None
        for name in ("by-volume", "by-mass", "low-over-high", "efficiency", "carbon")
    }
    return Fuel(
        key,
        row["label"],
        found["by-volume"],
        found["by-mass"],
        found["low-over-high"],
        found["efficiency"],
        found["carbon"],
        row.get("electric", False),
    )


def fuels() -> tuple[Fuel, ...]:
    """All of them, in the order of the file."""
    return tuple(_by_key().values())


def fuel(key: str) -> Fuel:
    """The fuel of that key; a key that is not known is a Mistake with the nearest one.

    >>> fuel("natural-gas").label
    'natural gas'
    """
    return one(_by_key(), key, "fuel", "fuels")
