"""What a takeoff hands on: items to order, layers of panels with their plans, and totals by currency."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..measure.table import System
from ..panels.layout import Layout
from ..panels.search import Bounds
from .film_plan import FilmPlan


@dataclass(frozen=True, slots=True)
class Cost:
    """Of one item, by the price in its record."""

    amount: float
    currency: str
    price: str  # as the record prints it
    day: str  # of that price


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the order."""

    what: str  # "Marlpit Plain 15, 2 in (51 mm)"
    where: str  # "floor.build-up.2.board", "edge A, outside"
    key: str  # of the product or class; "" for bulk
    net: float  # what the slab takes, in the unit
    unit: str  # m², m³, m
    count: int | None  # pieces, rolls; None for bulk
    of: str  # "panels of 4 ft x 8 ft", "rolls of 12 ft x 150 ft", ""
    order: float  # what is bought, in the unit: whole pieces, rounded steps
    why: str  # how net became order, in words
    packs: str = ""  # "5 bundles of 12"
    cost: Cost | None = None
    unpriced: str = ""  # why there is no cost

    @property
    def over(self) -> float:
        """What is bought over what the slab takes. [1]"""
        return self.order / self.net - 1.0 if self.net else 0.0


@dataclass(frozen=True, slots=True)
class LaidLayer:
    """One layer of panels with its plan."""

    label: str
    words: str
    path: str
    size: str  # "4 ft x 8 ft"
    layout: Layout
    bounds: Bounds
    items: tuple[Item, ...]
    notes: tuple[str, ...] = ()

    @property
    def bound(self) -> tuple[int, str]:
        """The fewest panels that any plan in rows takes, and how that was counted."""
        if self.layout.rules.interlock:
            return self.bounds.by_strips, "by strips of edge rows"
        return self.bounds.by_area, "by area"


@dataclass(frozen=True, slots=True)
class Takeoff:
    """All of it."""

    title: str
    system: System
    layers: tuple[LaidLayer, ...]
    items: tuple[Item, ...]
    totals: tuple[tuple[str, float, str], ...] = field(default=())  # currency, amount, days of the prices
    films: tuple[FilmPlan, ...] = ()  # where the strips of each film lie
