"""What a takeoff hands on: items to order, layers of panels with their plans, and totals by currency."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ..findings import Finding
from ..measure.table import System
from ..panels.channels import Reach
from ..panels.layout import Layout
from ..panels.places import Bounds
from ..resolve import KeyPlan
from .cutting import is_whole
from .film_plan import FilmPlan

if TYPE_CHECKING:
    from .as_laid import Rest
    from .coils import Coils
    from .lorries import Loads
    from .lots import Lot


@dataclass(frozen=True, slots=True)
class Cost:
    """Of one item, by the price in its record."""

    amount: float
    currency: str
    price: str  # as the record prints it
    day: str  # of that price


@dataclass(frozen=True, slots=True)
class Beyond:
    """Why more is ordered than the slab takes, and how much of it."""

    what: str  # "cut off", "left over", "laps", "turned up", "hidden in joints", "compaction", "spare", "rounding"
    amount: float  # in the item's unit


def beyond(*parts: tuple[str, float]) -> tuple[Beyond, ...]:
    """Those of the parts that are any.

    >>> [each.what for each in beyond(("laps", 2.0), ("spare", 0.0))]
    ['laps']
    """
    return tuple(Beyond(what, amount) for what, amount in parts if abs(amount) > 1e-9)


@dataclass(frozen=True, slots=True)
class Pack:
    """How the pieces of an item come."""

    bundles: int
    each: int  # pieces in a bundle
    pallets: int | None  # None where the record does not say how high one is

    @property
    def words(self) -> str:
        """As an order says it.

        >>> Pack(9, 12, 3).words
        '9 bundles of 12 on 3 pallets'
        """
        pallets = f" on {self.pallets} pallet{'s' if self.pallets > 1 else ''}" if self.pallets else ""
        return f"{self.bundles} bundle{'s' if self.bundles > 1 else ''} of {self.each}{pallets}"


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the order."""

    what: str  # "Marlpit Plain 15, 2 in (51 mm)"
    where: str  # "floor.build-up.2.board", "edge A, outside"
    key: str  # of the product or class; "" for bulk
    net: float  # what the slab takes, in the unit
    unit: str  # m², m³, m, count
    count: int | None  # pieces, rolls; None for bulk
    of: str  # "panels of 4 ft x 8 ft", "rolls of 12 ft x 150 ft", ""
    order: float  # what is bought, in the unit: whole pieces, rounded steps
    why: str  # how net became order, in words
    packs: str = ""  # "5 bundles of 12"
    cost: Cost | None = None
    unpriced: str = ""  # why there is no cost
    beyond: tuple[Beyond, ...] = ()  # what makes order more than net; adds up to it
    mass: float | None = None  # kg, of what is ordered; None where no density is known
    bulk: float | None = None  # m³ that it takes as it is stacked; None of what comes by itself
    pack: Pack | None = None  # where its record says how it comes
    thickness: float = 0.0  # m, of boards
    per_r: float | None = None  # money for each m² and each m²·K/W on the label; None where price or R is not known
    kind: str = ""  # what [money] prices it as where it has no key: concrete, screed, gravel, sand, tape, strip

    @property
    def over(self) -> float:
        """What is bought over what the slab takes. [1]"""
        return self.order / self.net - 1.0 if self.net else 0.0

    @property
    def spare(self) -> float:
        """What is bought on purpose beyond need, in the unit."""
        return sum(each.amount for each in self.beyond if each.what == "spare")

    @property
    def waste(self) -> float:
        """What is sawn off or left over and thrown away unless somebody keeps it, in the unit."""
        return sum(each.amount for each in self.beyond if each.what in ("cut off", "left over"))


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
    plan: KeyPlan  # what it covers: out below the wall of a raft, in to the slope of a thickened edge
    notes: tuple[str, ...] = ()
    rest: Rest | None = None  # what is still to be laid; None where nothing is typed back from the site
    looked: float = 1.0  # share of the looking for a better plan that was done; less where it was stopped
    channels: Reach | None = None  # of panels with channels that meet across joints
    proved: int = 0  # fewest panels for rows that lie where these do, whatever their starts; 0 where that is not known
    over: float = 0.0  # m of joints that lie over parallel ones of the layer below

    @property
    def sawn(self) -> int:
        """How many pieces are sawn."""
        return sum(not is_whole(self.layout, piece) for piece in self.layout.pieces)

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
    loads: Loads | None = None
    coils: Coils | None = None  # the loops of tubes by coil
    tools: tuple[tuple[str, str], ...] = ()  # a product's name, and what it is worked with
    notes: tuple[str, ...] = ()  # what is to be said of the whole order
    findings: tuple[Finding, ...] = ()  # panels, bound, what is left over, tube
    lots: tuple[Lot, ...] = ()  # boards of one kind that go to several places, as they are ordered
