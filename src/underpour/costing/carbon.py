"""Greenhouse gas of making what a takeoff buys, thing by thing."""

from __future__ import annotations

from ..resolve import Resolved
from ..takeoff import Item, Takeoff
from .first import BULK, is_foam, kind_of, layer_of
from .making import Made, of_board, of_bulk, of_film
from .records import Embodied, LayerMade

MEGA = 1e6


def embodied(resolved: Resolved, takeoff: Takeoff) -> Embodied:
    """Of all that is bought, what is sawn off and spilt counted in; tape, tube and steel are left out in words."""
    made = [_made(resolved, item) for item in takeoff.items]
    return Embodied(
        tuple(each for each in made if each.made is not None or each.lacks),
        tuple(each.what for each in made if each.made is None and not each.lacks),
    )


def _made(resolved: Resolved, item: Item) -> LayerMade:
    kind, foam = kind_of(item, resolved), is_foam(item, resolved)
    each = _each(resolved, item, kind)
    board = foam and kind != "tape"
    lacks = f"money.embodied.{item.key}" if each is None and board else ""
    made = each.times(item.order) if each is not None else None
    return LayerMade(item.what, item.where, item.order, item.unit, made, lacks, board)


def _each(resolved: Resolved, item: Item, kind: str) -> Made | None:
    """Of one of the item's units."""
    if kind in BULK:
        strength = resolved.concrete_strength
        return of_bulk(kind, strength / MEGA if strength is not None else None)
    layer = layer_of(item, resolved)
    if layer is None:
        return None
    if layer.film is not None:
        return of_film(layer.film.thickness)
    if layer.record is None:
        return None
    of = of_board(resolved, resolved.money, layer.record)
    return of.times(layer.thickness) if of is not None else None
