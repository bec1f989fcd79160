"""What is handed on of money and carbon: outlays, layers, the season's heat, and what all of it comes to."""

from __future__ import annotations

from dataclasses import dataclass

from ..economy import Flat
from ..resolve import Money
from .making import Made


@dataclass(frozen=True, slots=True)
class Outlay:
    """One thing that is paid for at first."""

    what: str  # "Marlpit Plain 15, 2 in (51 mm)"
    where: str  # "floor.build-up.2.board", "edge A, outside"
    amount: float  # bought, in the unit
    unit: str
    goods: float | None  # money; None where no price is known
    price: str  # as typed or printed, with its day: "0.74 USD/ft² (2026-06-01)"
    hours: float | None  # of laying; None where nothing is known of it
    labour: float | None  # money
    lacks: str  # the key of a price that must be known; "" where it is known or is left out in words
    foam: bool  # paid because of foam: boards, their tape, their edges, what is dug deeper for them

    @property
    def cost(self) -> float:
        """Goods and labour, as far as they are known. [money]"""
        return (self.goods or 0.0) + (self.labour or 0.0)


@dataclass(frozen=True, slots=True)
class FirstCost:
    """All that is paid at first."""

    outlays: tuple[Outlay, ...]
    left_out: tuple[str, ...]  # what is not counted for want of a price, in words
    lacks_labour: str  # money.labour where an hour has no price and one is worked; else ""

    @property
    def lacks(self) -> str:
        """The one key that is wanted first; "" where nothing is."""
        return next((each.lacks for each in self.outlays if each.lacks), self.lacks_labour)

    @property
    def lacks_foam(self) -> str:
        """The same of what is paid because of foam."""
        return next((each.lacks for each in self.outlays if each.foam and each.lacks), self.lacks_labour)

    @property
    def total(self) -> float:
        """Of everything that is counted. [money]"""
        return sum(each.cost for each in self.outlays)

    @property
    def foam(self) -> float:
        """Of what is there because of foam. [money]"""
        return sum(each.cost for each in self.outlays if each.foam)

    @property
    def goods(self) -> float:
        """Without labour. [money]"""
        return sum(each.goods or 0.0 for each in self.outlays)

    @property
    def hours(self) -> float:
        """Of laying. [h]"""
        return sum(each.hours or 0.0 for each in self.outlays)


@dataclass(frozen=True, slots=True)
class LayerMade:
    """Greenhouse gas of making one thing that is bought."""

    what: str
    where: str
    amount: float
    unit: str
    made: Made | None  # None where nobody declares it
    lacks: str  # the key that would say it
    foam: bool


@dataclass(frozen=True, slots=True)
class Embodied:
    """Of making all that is bought, as far as anything is known of it."""

    layers: tuple[LayerMade, ...]
    left_out: tuple[str, ...]

    @property
    def lacks(self) -> str:
        """The first key that is wanted; "" where nothing is."""
        return next((each.lacks for each in self.layers if each.lacks), "")

    def of(self, foam: bool | None = None) -> tuple[float, float, float]:
        """Value, low and high of all, of foam, or of all but foam. [kgCO2e]"""
        made = [each.made for each in self.layers if each.made and foam in (None, each.foam)]
        return sum(m.value for m in made), sum(m.low for m in made), sum(m.high for m in made)


@dataclass(frozen=True, slots=True)
class Season:
    """Heat through floor and wall that is paid for, month by month."""

    months: tuple[float, ...]  # kWh out of the room
    counted: tuple[int, ...]  # months that count, 1 to 12
    cool: tuple[int, ...]  # months in which the room wants coolness, none of those that count
    cold: bool  # a floor kept frozen: heat that comes in is taken out again

    @property
    def energy(self) -> float:
        """What the plant gives or takes out in a year. [kWh]"""
        out = sum(self.months[month - 1] for month in self.counted)
        return -out if self.cold else out

    @property
    def taken(self) -> float:
        """What the ground takes from the room while it wants coolness. [kWh]"""
        return sum(self.months[month - 1] for month in self.cool)


@dataclass(frozen=True, slots=True)
class Against:
    """What one version costs and saves beside another with less foam."""

    words: str  # "no foam", "1-1/2 in of Marlpit Plain 15"
    more: float | None  # first cost, money; None where a price is not known
    more_carbon: float | None  # kgCO2e
    saves: float  # kWh a year, in the months that are paid for
    keeps_in: float  # kWh a year that the ground would take while the room is cooled; nought where it is let go


@dataclass(frozen=True, slots=True)
class Costed:
    """One version of a brief in money and carbon."""

    money: Money
    first: FirstCost
    embodied: Embodied
    season: Season | None  # None where nothing is heated over it
    bare: Against | None  # beside the same floor without any foam; None where it has none
    thinner: Against | None  # beside the next thinner board under the middle; None where there is none
    ladder: tuple[tuple[float, float], ...]  # thickness under the middle, life-cycle cost; () where not worked out
    flat: Flat | None

    @property
    def yearly(self) -> float | None:
        """What a year's heat costs at today's price; None where that is not known. [money]"""
        price = self.money.heat_price
        return self.season.energy * price if self.season is not None and price is not None else None
