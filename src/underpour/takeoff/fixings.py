"""What holds boards to walls until the ground does, and what holds the steel up."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from ..catalogue.estimating import estimating
from ..measure.table import System
from ..resolve import Resolved
from .prices import NO_PRODUCT
from .records import Item

UPRIGHT = ("outside", "inside")
HUNDRED_FEET = 9.290304  # m² of 100 ft²


def wall_fixings(resolved: Resolved, edge_items: tuple[Item, ...]) -> Iterator[Item]:
    """Dowels or spots of glue for boards that stand at a wall; wings lie under the ground and want none.

    Arguments
    ---------
    resolved
        The brief in numbers.
    edge_items
        Foam of the edges as it was counted.
    """
    each = estimating("fixing", "wall-boards").value
    for item in edge_items:
        if item.where.rpartition(", ")[2] in UPRIGHT:
            count = ceil(each * item.net - 1e-9)
            per = _per_area(each, resolved.system)
            why = f"{per}. Outside, glue only where the wall is sealed against water: no hole through it."
            yield Item(
                "Fixings of wall boards",
                item.where,
                "",
                count,
                "count",
                count,
                "dowels or spots of glue",
                count,
                why,
                unpriced=NO_PRODUCT,
            )


def chairs(resolved: Resolved) -> Iterator[Item]:
    """Chairs below the steel of each slab of concrete; the steel itself is the engineer's and is not counted.

    Arguments
    ---------
    resolved
        The brief in numbers.
    """
    each = estimating("fixing", "chairs").value
    for layer in resolved.laid:
        if layer.kind == "concrete":
            count = ceil(each * resolved.plan.floor.area - 1e-9)
            why = (
                f"{_per_area(each, resolved.system)}, with feet too wide to sink into foam or cut film. "
                "The steel is not counted: nobody says which it is. Leave them out where there is none."
            )
            yield Item(
                "Chairs for the steel", "slab", "", count, "count", count, "chairs", count, why, unpriced=NO_PRODUCT
            )


def _per_area(number: float, system: System) -> str:
    """A number of pieces for each square metre, in the brief's own unit.

    >>> _per_area(4.0, "SI"), _per_area(4.0, "US")
    ('4 for each m²', '37 for each 100 ft²')
    """
    return f"{number:.3g} for each m²" if system == "SI" else f"{number * HUNDRED_FEET:.2g} for each 100 ft²"
