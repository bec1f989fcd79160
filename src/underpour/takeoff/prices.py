"""Prices of the record, with their day; nothing is priced without one."""

from __future__ import annotations

from ..catalogue.line import Product
from ..measure.money import money_per_unit
from ..mistakes import Mistake
from ..resolve import Resolved, Slice
from .records import Cost

NO_PRODUCT = "no product is named"
NO_PRICE = "its record has no price with a day"


def priced_by_area(resolved: Resolved, layer: Slice, area: float, pieces: int) -> tuple[Cost | None, str]:
    """What so much of a layer's product costs, or why that is not known. [m²]"""
    if not resolved.products.has(layer.key):
        return None, NO_PRODUCT
    product = resolved.products.product(layer.key)
    made = next((each for each in product.made if abs(each.thickness.si - layer.thickness) < 1e-6), None)
    return _cost(resolved, product, (made.price if made else "") or product.price, {"m²": area, "1": pieces})


def priced_by_piece(
    resolved: Resolved, key: str, pieces: int, area: float = 0.0, length: float = 0.0
) -> tuple[Cost | None, str]:
    """What so many rolls or pieces of a product cost, or why that is not known. [m², m of all of them]"""
    if not resolved.products.has(key):
        return None, NO_PRODUCT
    product = resolved.products.product(key)
    price = next((made.price for made in product.made if made.price), product.price)
    return _cost(resolved, product, price, {"m²": area, "m": length, "1": pieces})


def _cost(resolved: Resolved, product: Product, price: str, amounts: dict[str, float]) -> tuple[Cost | None, str]:
    day = product.priced or resolved.products.line_of(product.key).line.priced
    if not price or day is None:
        return None, NO_PRICE
    try:
        read = money_per_unit(price)
    except Mistake:
        return None, NO_PRICE
    if read.per not in amounts:
        return None, f"its price is by {read.per}"
    return Cost(read.amount * amounts[read.per], read.currency, price, day.isoformat()), ""
