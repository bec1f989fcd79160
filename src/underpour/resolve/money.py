"""What the brief says of money: one currency, one day, and what a kilowatt hour of the room's heat costs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from ..brief.money import unknown_goods
from ..brief.tables.money import Money as Typed
from ..catalogue.fuels import Fuel, fuel
from ..catalogue.products import Products
from ..findings import Assumed
from ..measure import Price
from ..mistakes import Mistake
from .assumptions import Assumptions
from .usual import usual

if TYPE_CHECKING:
    from ..economy import Again

JOULES = 3.6e6  # in a kilowatt hour
YEAR = 365.2425 * 86400.0  # s

HeatingValue = Literal["HHV", "LHV", ""]


@dataclass(frozen=True, slots=True)
class Money:
    """Prices of one day in one currency, SI; None where the brief does not say and nothing is usual."""

    currency: str
    day: str  # of the prices typed here, "2026-11-01"
    fuel: Fuel | None
    fuel_price: Price | None  # as typed
    price: float | None  # of a kilowatt hour of what is bought, by the heating value told beside
    heating_value: HeatingValue  # "" of what is not burnt
    efficiency: float | None  # heat over what is bought for it, by that heating value
    season: tuple[int, ...] | None  # months of heating, 1 to 12; None for those in which the room wants heat
    growth: float  # of the price of energy, 1/a
    discount: float  # 1/a
    years: int
    labour: float | None  # money/h
    budget: float | None
    prices: Mapping[str, Price]  # as quoted, by what they are of
    again: tuple[Again, ...]  # what is bought again
    residual: float  # what is left at the end
    carbon: float | None  # kgCO2e for each kilowatt hour of what is bought, by the heating value told beside
    carbon_from: str  # where that comes from, in words
    embodied: Mapping[str, float]  # kgCO2e/kg, by board, as declared

    @property
    def heat_price(self) -> float | None:
        """Of a kilowatt hour of useful heat; of a floor kept frozen of heat that is taken out. [money/kWh]"""
        return self.price / self.efficiency if self.price is not None and self.efficiency else None

    @property
    def heat_carbon(self) -> float | None:
        """Of a kilowatt hour of useful heat. [kgCO2e/kWh]"""
        return self.carbon / self.efficiency if self.carbon is not None and self.efficiency else None

    @property
    def lacks_price(self) -> str:
        """The first key that a price of heat still wants; "" where none."""
        wants = {"money.fuel": self.fuel, "money.fuel-price": self.fuel_price, "money.efficiency": self.efficiency}
        return next((path for path, value in wants.items() if value is None), "")

    @property
    def lacks_carbon(self) -> str:
        """The first key that the carbon of heat still wants; "" where none."""
        wants = {"money.fuel": self.fuel, "money.fuel-carbon": self.carbon, "money.efficiency": self.efficiency}
        return next((path for path, value in wants.items() if value is None), "")


def money(typed: Typed | None, products: Products, assumed: Assumptions, found: list[Mistake]) -> Money | None:
    """What the table says, in SI; None where it does not stand in the brief.

    Prices of what no catalogue knows are put among the mistakes.
    """
    if typed is None or typed.currency is None or typed.date is None:
        return None
    from ..economy import Again  # its formulas take arrays, and a brief that cannot be used is told without them

    found += unknown_goods(typed, products)
    burns = fuel(typed.fuel) if typed.fuel is not None else None
    by = _heating_value(typed, burns, assumed)
    carbon, carbon_from = _carbon(typed, burns, by)
    return Money(
        currency=typed.currency,
        day=typed.date,
        fuel=burns,
        fuel_price=typed.fuel_price,
        price=_by_heat(typed.fuel_price, burns, by),
        heating_value=by,
        efficiency=_efficiency(typed, burns, by, assumed),
        season=typed.season,
        growth=typed.growth.si if typed.growth else assumed.take(usual("growth").assumed("money.growth")) / 100.0,
        discount=typed.discount.si
        if typed.discount
        else assumed.take(usual("discount").assumed("money.discount")) / 100.0,
        years=typed.years or round(assumed.take(usual("years").assumed("money.years"))),
        labour=typed.labour.amount * 3600.0 if typed.labour else None,
        budget=typed.budget.amount if typed.budget else None,
        prices=dict(typed.price),
        again=tuple(Again(each.cost.amount, each.after.si / YEAR) for each in typed.replacement),
        residual=typed.residual.amount if typed.residual else 0.0,
        carbon=carbon,
        carbon_from=carbon_from,
        embodied={key: each.si for key, each in typed.embodied.items()},
    )


def _heating_value(typed: Typed, burns: Fuel | None, assumed: Assumptions) -> HeatingValue:
    if burns is None or not burns.burnt:
        return ""
    if typed.heating_value is not None:
        return typed.heating_value
    why = "as meters are billed and plants are labelled in North America and Britain (common practice, no source)"
    taken = assumed.take_word(Assumed("money.heating-value", "HHV", None, None, "1", why))
    return "LHV" if taken == "LHV" else "HHV"


def _over(burns: Fuel, by: HeatingValue) -> float:
    """The heating value that is told over the higher one. [1]"""
    return burns.low_over_high.value if by == "LHV" and burns.low_over_high is not None else 1.0


def _by_heat(price: Price | None, burns: Fuel | None, by: HeatingValue) -> float | None:
    """Price of a kilowatt hour of what is bought."""
    if price is None or burns is None:
        return None
    if price.per == "J":
        return price.amount * JOULES
    holds = burns.by_volume if price.per == "m³" else burns.by_mass
    assert holds is not None  # a price in a unit that the fuel is not sold by is a mistake of the brief
    return price.amount / (holds.value * 1e6 / JOULES * _over(burns, by))


def _efficiency(typed: Typed, burns: Fuel | None, by: HeatingValue, assumed: Assumptions) -> float | None:
    if typed.efficiency is not None or burns is None:
        return typed.efficiency
    if burns.efficiency is None:
        return None
    usually, over = burns.efficiency, _over(burns, by)
    value, low, high = (100.0 * each / over for each in (usually.value, usually.low, usually.high))
    why = f"usual of {burns.label}, {usually.where} (common practice, no source)"
    return assumed.take(Assumed("money.efficiency", value, low, high, "%", why)) / 100.0


def _carbon(typed: Typed, burns: Fuel | None, by: HeatingValue) -> tuple[float | None, str]:
    if typed.fuel_carbon is not None:
        return typed.fuel_carbon.si * JOULES, typed.fuel_carbon_from or "as the brief says"
    if burns is None or burns.carbon is None:
        return None, ""
    return burns.carbon.value / _over(burns, by), f"{burns.carbon.source.title}: {burns.carbon.where}"
