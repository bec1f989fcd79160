"""Sums by currency: prices in two currencies are never added."""

from __future__ import annotations

from collections.abc import Sequence

from .records import Item


def totals(items: Sequence[Item]) -> tuple[tuple[str, float, str], ...]:
    """Currency, amount, and the days of the prices, for each currency that a price is in."""
    found: dict[str, tuple[float, set[str]]] = {}
    for item in items:
        if item.cost:
            amount, days = found.get(item.cost.currency, (0.0, set()))
            found[item.cost.currency] = amount + item.cost.amount, days | {item.cost.day}
    return tuple((currency, amount, ", ".join(sorted(days))) for currency, (amount, days) in sorted(found.items()))


def unlike(items: Sequence[Item]) -> tuple[str, ...]:
    """What to say where prices stand in several currencies.

    Arguments
    ---------
    items
        Everything that is ordered.
    """
    currencies = sorted({item.cost.currency for item in items if item.cost})
    if len(currencies) < 2:
        return ()
    named = f"{', '.join(currencies[:-1])} and {currencies[-1]}"
    said = f"Prices stand in {named} and are not added together."
    return (f"{said} Write the records' prices in one currency, with the day of the rate, to have one sum.",)
