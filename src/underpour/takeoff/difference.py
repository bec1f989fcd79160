"""What an alternative orders otherwise than the brief as briefed, item by item."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .records import Item, Takeoff


@dataclass(frozen=True, slots=True)
class Otherwise:
    """One place at which two orders differ; None where one of them orders nothing there."""

    where: str
    was: Item | None
    now: Item | None


def otherwise(briefed: Takeoff, other: Takeoff) -> tuple[Otherwise, ...]:
    """The places at which more, less or something else is ordered, in the order of the brief as briefed.

    Arguments
    ---------
    briefed, other
        Two orders of one brief.
    """
    before, after = _placed(briefed), _placed(other)
    return tuple(
        Otherwise(place[0], before.get(place), after.get(place))
        for place in dict.fromkeys([*before, *after])
        if _ordered(before.get(place)) != _ordered(after.get(place))
    )


def _placed(takeoff: Takeoff) -> dict[tuple[str, str, int], Item]:
    """Items by where they go and what kind they are; layers of the floor by their kind, since numbers shift."""
    found: dict[tuple[str, str, int], Item] = {}
    for item in takeoff.items:
        place = _place(item)
        number = sum(each[:2] == place for each in found)
        found[(*place, number)] = item
    return found


def _place(item: Item) -> tuple[str, str]:
    parts = item.where.split(".")
    if parts[:2] == ["floor", "build-up"]:
        return f"floor, {parts[-1].replace('-', ' ')}", item.unit
    return item.where, item.what if item.unit == "count" else item.unit


def _ordered(item: Item | None) -> tuple[str, float, int | None] | None:
    return (item.what, round(item.order, 6), item.count) if item else None


def totals_apart(briefed: Takeoff, other: Takeoff) -> Iterator[tuple[str, float, float]]:
    """Each currency with the sum of both orders.

    Arguments
    ---------
    briefed, other
        Two orders of one brief.
    """
    before, after = ({currency: amount for currency, amount, _ in each.totals} for each in (briefed, other))
    for currency in sorted({*before, *after}):
        yield currency, before.get(currency, 0.0), after.get(currency, 0.0)
