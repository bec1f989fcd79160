"""Vapour retarders under a slab."""

from __future__ import annotations

from functools import cache

from .read import one, quantity, table
from .records import Retarder


@cache
def _by_key() -> dict[str, Retarder]:
    return {
        key: Retarder(
            key=key,
            label=entry["label"],
            thickness=entry["thickness"]["value"],
            permeance=quantity(entry["permeance"], f"catalogue.retarder.{key}.permeance"),
        )
        for key, entry in table("retarders").items()
    }


def retarders() -> tuple[Retarder, ...]:
    """Every vapour retarder, thinnest first."""
    return tuple(_by_key().values())


def retarder(key: str) -> Retarder:
    """The vapour retarder of that key; a key that is not known is a Mistake with the nearest one.

    >>> retarder("film-15-mil").thickness
    0.000381
    """
    return one(_by_key(), key, "vapour retarder", "retarders")
