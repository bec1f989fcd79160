"""What lies on floors: how it resists heat and vapour, and how dry the slab must be first."""

from __future__ import annotations

from functools import cache

from .read import one, quantity, table
from .records import Covering


@cache
def _by_key() -> dict[str, Covering]:
    return {
        key: Covering(
            key=key,
            label=entry["label"],
            hatch=entry["hatch"],
            thickness=entry["thickness"]["value"],
            resistance=quantity(entry["resistance"], f"catalogue.covering.{key}.resistance"),
            permeance=quantity(entry["permeance"], f"catalogue.covering.{key}.permeance"),
            slab_humidity=quantity(entry["slab-humidity"], f"catalogue.covering.{key}.slab-humidity"),
            warmest=quantity(entry["warmest"], f"catalogue.covering.{key}.warmest") if "warmest" in entry else None,
            heat_capacity=quantity(entry["heat-capacity"], f"catalogue.covering.{key}.heat-capacity"),
            known=entry.get("known", True),
        )
        for key, entry in table("coverings").items()
    }


def coverings() -> tuple[Covering, ...]:
    """Every covering, in the order of the file."""
    return tuple(_by_key().values())


def covering(key: str) -> Covering:
    """The covering of that key; a key that is not known is a Mistake with the nearest one.

    >>> covering("tile").slab_humidity.value, covering("tile").warmest
    (90.0, None)
    """
    return one(_by_key(), key, "covering", "coverings")
