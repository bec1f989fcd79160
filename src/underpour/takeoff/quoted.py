"""Prices that the brief quotes under [money], in the place of a record's or where there is none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..measure import Price
from ..resolve import Resolved
from .records import Cost, Item


def quoted(resolved: Resolved, items: Sequence[Item]) -> tuple[Item, ...]:
    """The items at the brief's own prices, where it has any for them.

    Arguments
    ---------
    resolved
        The brief in numbers.
    items
        Everything that is ordered, at the prices of its records.
    """
    money = resolved.money
    if money is None:
        return tuple(items)
    prices = [money.prices.get(item.key or item.kind) for item in items]
    return tuple(_at(item, price, money.day) if price else item for item, price in zip(items, prices, strict=True))


def _at(item: Item, price: Price, day: str) -> Item:
    amounts: dict[str, float] = {item.unit: item.order}
    if item.count is not None:
        amounts["1"] = float(item.count)
    if item.thickness:
        amounts["m³"] = item.order * item.thickness
    if price.per not in amounts:
        return item
    cost = Cost(price.amount * amounts[price.per], price.currency, price.typed, day)
    before = item.cost.amount if item.cost else 0.0
    per_r = item.per_r * cost.amount / before if item.per_r is not None and before else None
    return replace(item, cost=cost, unpriced="", per_r=per_r)
