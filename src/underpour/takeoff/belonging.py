"""What a product's record says to order with it: tape, clips, strip, and the tools to work it with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from ..catalogue.estimating import estimating
from ..catalogue.line import Product
from ..measure import say
from ..resolve import Resolved
from .prices import priced_by_piece
from .records import Item, beyond


def of_record(resolved: Resolved, product: Product | None, what: str) -> Product | None:
    """The product that a record names for something, where a file holds it.

    Arguments
    ---------
    resolved
        The brief in numbers.
    product
        Whose record is asked; None of a class.
    what
        "tube", "laps", "pipes", "edge".
    """
    for each in product.goes_with if product else ():
        if each.for_ == what and resolved.products.has(each.product):
            return resolved.products.product(each.product)
    return None


def by_roll(resolved: Resolved, product: Product, what: str, where: str, net: float, why: str, high: int = 1) -> Item:
    """Rolls of tape or strip for a length. [m]

    Arguments
    ---------
    resolved
        The brief in numbers.
    product
        The tape or strip; its first size is a roll.
    what, where, why
        Words of the item.
    net
        Length to be covered. [m]
    high
        How many lie over one another.
    """
    roll = product.sizes[0]
    spare = net * high * estimating("tape", "spare").value / 100.0
    rolls = ceil((net * high + spare) / roll.length - 1e-9)
    bought = rolls * roll.length
    cost, unpriced = priced_by_piece(resolved, product.key, rolls, bought * roll.width, bought)
    rolled = f"{'rolls' if rolls > 1 else 'roll'} of {roll.typed}"
    over = beyond(("one over another", net * (high - 1)), ("spare", spare), ("left over", bought - net * high - spare))
    return Item(what, where, product.key, net, "m", rolls, rolled, bought, why, "", cost, unpriced, over)


def tape_of(resolved: Resolved, product: Product | None, seams: float, path: str) -> Iterator[Item]:
    """Tape over the joints of a faced board, where its record says which. [m]"""
    tapes = product.facing.tapes if product and product.facing else ()
    for key in tapes[:1]:
        if resolved.products.has(key):
            tape, around = resolved.products.product(key), resolved.plan.floor.length
            joints, edge = (say.value(each, "m", resolved.system) for each in (seams, around))
            why = f"{joints} of joints and {edge} at the edge, laid end to end."
            yield by_roll(resolved, tape, tape.name, path, seams + around, why)


def tools(resolved: Resolved, items: Sequence[Item]) -> tuple[tuple[str, str], ...]:
    """Of each product that is ordered, its name and what its record says it is worked with.

    Arguments
    ---------
    resolved
        The brief in numbers.
    items
        Everything that is ordered.
    """
    keys = dict.fromkeys(item.key for item in items if resolved.products.has(item.key))
    ordered = [resolved.products.product(key) for key in keys]
    return tuple((each.name or each.key, ", ".join(each.tools)) for each in ordered if each.tools)
