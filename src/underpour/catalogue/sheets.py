"""Foil and bubble sheets: what their thin body resists, and how little their faces radiate."""

from __future__ import annotations

from functools import cache

from .read import one, quantity, table
from .records import Sheet


@cache
def _by_key() -> dict[str, Sheet]:
    return {
        key: Sheet(
            key=key,
            label=entry["label"],
            thickness=entry["thickness"]["value"],
            resistance=quantity(entry["resistance"], f"catalogue.sheet.{key}.resistance"),
            emissivity=quantity(entry["emissivity"], f"catalogue.sheet.{key}.emissivity"),
            heat_capacity=quantity(entry["heat-capacity"], f"catalogue.sheet.{key}.heat-capacity"),
        )
        for key, entry in table("sheets").items()
    }


def sheets() -> tuple[Sheet, ...]:
    """Every sheet, in the order of the file."""
    return tuple(_by_key().values())


def sheet(key: str) -> Sheet:
    """The sheet of that key; a key that is not known is a Mistake with the nearest one.

    >>> sheet("foil").emissivity.value, sheet("foil").resistance.value
    (0.05, 0.0)
    """
    return one(_by_key(), key, "sheet", "sheets")
