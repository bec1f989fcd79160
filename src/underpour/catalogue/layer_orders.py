"""Orders of layers that fail in practice, in words."""

from __future__ import annotations

from functools import cache

from .read import table
from .records import LayerOrder


@cache
def layer_orders() -> dict[str, LayerOrder]:
    """Each order by its name.

    >>> layer_orders()["two-films"].mend
    'Keep one of the two, the one that is nearer to the slab.'
    """
    return {
        key: LayerOrder(key, entry["says"], entry["mend"], entry.get("source", "common practice, no source"))
        for key, entry in table("layer_orders").items()
    }
