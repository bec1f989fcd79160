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


def unlike(items: Sequence[Item], wanted: str = "") -> tuple[str, ...]:
    """What to say where prices stand in several currencies, or in another one than the brief's.

    Arguments
    ---------
    items
        Everything that is ordered.
    wanted
        The currency that the brief counts money in; "" where it does not say.
    """
    currencies = sorted({item.cost.currency for item in items if item.cost})
    others = [each for each in currencies if wanted and each != wanted]
    if len(currencies) < 2 and not others:
        return ()
    named = " and ".join(filter(None, [", ".join(currencies[:-1]), *currencies[-1:]]))
    apart = " and are not added together" if len(currencies) > 1 else ""
    brief = f"; the brief counts money in {wanted}" if others else ""
    said = f"Prices stand in {named}{apart}{brief}."
    return (f"{said} Have them quoted in one currency, with the day, and type them under [money.price].",)
