"""The price of what is laid: as quoted in the brief, else as its record has it; in one currency and with a day."""

from __future__ import annotations

from dataclasses import dataclass

from ..catalogue.line import Product
from ..measure import Price
from ..measure.money import money_per_unit
from ..mistakes import Mistake
from ..resolve import Money, Resolved

SAME = 1e-6  # m: thicknesses this near are one


@dataclass(frozen=True, slots=True)
class Priced:
    """One price that can be counted with."""

    price: Price
    day: str  # "2026-06-01"
    quoted: bool  # in the brief, for this thickness and no other unless it is by volume


def price_of(resolved: Resolved, money: Money, key: str, thickness: float) -> Priced | None:
    """The price of a product or class in one thickness; None where there is none in the currency of the brief. [m]"""
    quoted = money.prices.get(key)
    if quoted is not None:
        return Priced(quoted, money.day, True)
    if not resolved.products.has(key):
        return None
    product = resolved.products.product(key)
    day = product.priced or resolved.products.line_of(key).line.priced
    typed = _typed(product, thickness)
    if not typed or day is None:
        return None
    try:
        read = money_per_unit(typed)
    except Mistake:
        return None
    return Priced(read, day.isoformat(), False) if read.currency == money.currency else None


def by_area(found: Priced | None, thickness: float, piece: float) -> float | None:
    """What a square metre costs, given a piece's area; None where it is by something else. [m, m² -> money/m²]"""
    if found is None:
        return None
    per = {"m²": 1.0, "m³": thickness, "1": 1.0 / piece if piece else None}.get(found.price.per)
    return found.price.amount * per if per is not None else None


def _typed(product: Product, thickness: float) -> str:
    made = next((each for each in product.made if abs(each.thickness.si - thickness) < SAME), None)
    return (made.price if made else "") or product.price
