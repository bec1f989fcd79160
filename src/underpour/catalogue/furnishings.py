"""What lies or stands on a floor: rugs, beds, cupboards."""

from __future__ import annotations

from functools import cache

from .read import one, quantity, table
from .records import Furnishing


@cache
def _by_key() -> dict[str, Furnishing]:
    return {
        key: Furnishing(
            key,
            entry["label"],
            quantity(entry["resistance"], f"catalogue.furnishing.{key}.resistance"),
            quantity(entry["area"], f"catalogue.furnishing.{key}.area"),
        )
        for key, entry in table("furnishings").items()
    }


def furnishings() -> tuple[Furnishing, ...]:
    """Everything of the list, in the order of the file."""
    return tuple(_by_key().values())


def furnishing(key: str) -> Furnishing:
    """The furnishing of that key; a key that is not known is a Mistake with the nearest one.

    >>> furnishing("rug").resistance.value
    0.21
    """
    return one(_by_key(), key, "furnishing", "furnishings")
