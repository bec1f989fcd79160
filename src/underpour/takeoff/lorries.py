"""How many lorries bring it: boards by the room that they take, concrete by the truck."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from ..catalogue.estimating import estimating
from ..measure.table import System
from .concrete import is_concrete
from .records import Item


@dataclass(frozen=True, slots=True)
class Loads:
    """What is brought, and by how many lorries."""

    bulk: float  # m³ of boards as they are stacked
    mass: float  # kg of them, as far as their weight is known
    lorry: float  # m³ of boards that go on one
    lorries: int
    concrete: float  # m³
    mixers: int


def loads(items: Sequence[Item], system: System) -> Loads:
    """Lorries by volume: boards fill one long before they weigh it down.

    Arguments
    ---------
    items
        Everything that is ordered.
    system
        Of the brief, for what is usual there.
    """
    own = "us" if system == "US" else "si"
    lorry = estimating("lorry", f"volume-{own}").value * estimating("lorry", "filled").value / 100.0
    mixer = estimating("lorry", f"mixer-{own}").value
    boards = [each for each in items if each.bulk is not None]
    bulk = sum(each.bulk or 0.0 for each in boards)
    poured = sum(each.order for each in items if is_concrete(each))
    return Loads(
        bulk,
        sum(each.mass or 0.0 for each in boards),
        lorry,
        ceil(bulk / lorry - 1e-9),
        poured,
        ceil(poured / mixer - 1e-9),
    )
