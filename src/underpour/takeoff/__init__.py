"""What to order for a slab: panels by a plan of them, film, gravel, concrete and foam of the edges, with prices."""

from __future__ import annotations

from collections.abc import Callable

from ..resolve import Resolved
from .bulk import concrete, gravel
from .edges import edge_foam
from .film_plan import film_plans
from .films import films
from .layers import layers
from .records import Item, LaidLayer, Takeoff
from .totals import totals

__all__ = ["Item", "LaidLayer", "Takeoff", "taken_off"]


def taken_off(resolved: Resolved, told: Callable[[str, float], None] = lambda _words, _done: None) -> Takeoff:
    """Everything that a resolved brief takes.

    Arguments
    ---------
    resolved
        The brief in numbers.
    told
        Called while panels are laid, with what is laid and how much of the looking is done. [0 to 1]
    """
    laid = layers(resolved, told)
    items = (
        *(item for layer in laid for item in layer.items),
        *edge_foam(resolved, told),
        *films(resolved),
        *gravel(resolved),
        *concrete(resolved),
    )
    return Takeoff(resolved.title, resolved.system, laid, items, totals(items), film_plans(resolved))
