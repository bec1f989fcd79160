"""Film in strips with their laps, in the direction that takes fewer rolls."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import ceil

from ..catalogue.estimating import estimating
from ..measure import say
from ..panels.ground_plan import ground_plan
from ..panels.rows import between, rows
from ..resolve import Resolved, Slice
from .prices import NO_PRODUCT, priced_by_piece
from .records import Item

NOTCHED = 2.0  # m; a strip of film goes on over a hole that is no longer, and is cut out there


def films(resolved: Resolved) -> Iterator[Item]:
    """The film of each layer, and the tape that its laps and edges take in metres."""
    for layer in resolved.floor:
        if layer.kind == "vapour-retarder":
            yield from _film(resolved, layer)


def _film(resolved: Resolved, layer: Slice) -> Iterator[Item]:
    product = resolved.products.product(layer.key) if resolved.products.has(layer.key) else None
    if product and product.sizes:
        width, length, size = product.sizes[0].width, product.sizes[0].length, product.sizes[0].typed
    else:
        width, length = (estimating("film", name).value for name in ("roll-width", "roll-length"))
        size = " x ".join(say.value(each, "m", resolved.system) for each in (width, length))
    lap = product.lap.si if product and product.lap else estimating("film", "lap").value
    up = estimating("film", "turned-up").value
    tried = [(*_strips(resolved, width - lap, up, angle), angle) for angle in (0.0, 90.0)]
    strips, seams, angle = min(tried, key=lambda each: sum(each[0]))
    whole = sum(strips) + lap * sum(ceil(each / length) - 1 for each in strips)
    rolls = ceil(whole / length)
    bought = rolls * width * length
    cost, unpriced = priced_by_piece(resolved, layer.key, rolls, bought)
    lapped, turned = (say.both(each, "m", resolved.system) for each in (lap, up))
    in_all = say.both(whole, "m", resolved.system)
    why = (
        f"{len(strips)} strips along {'x' if angle == 0.0 else 'y'}, {in_all} in all, "
        f"laps of {lapped}, {turned} turned up at both ends."
    )
    net, rolled = resolved.plan.floor.area, f"{'rolls' if rolls > 1 else 'roll'} of {size}"
    yield Item(layer.words, layer.path, layer.key, net, "m²", rolls, rolled, bought, why, "", cost, unpriced)
    yield _tape(resolved, layer, seams)


def _tape(resolved: Resolved, layer: Slice, seams: float) -> Item:
    floor = resolved.plan.floor
    parts = seams, floor.length, sum(each.outline.length for each in floor.obstacles)
    laps, edge, through = (say.value(each, "m", resolved.system) for each in parts)
    why = f"{laps} of laps, {edge} at the edge, {through} around what goes through."
    return Item("Tape for the film", layer.path, "", sum(parts), "m", None, "", sum(parts), why, unpriced=NO_PRODUCT)


def _strips(resolved: Resolved, cover: float, up: float, angle: float) -> tuple[list[float], float]:
    """Length of each strip of film with both ends turned up, and of all laps between strips. [m]"""
    plan = ground_plan(resolved.plan.floor, angle)
    across = plan.top - plan.bottom
    count = max(ceil((across + 2.0 * up) / cover - 1e-9), 1)
    offset = plan.bottom - (count * cover - across) / 2.0
    by_row = rows(plan, cover, offset, NOTCHED)
    lengths = [strip.length + 2.0 * up for row in by_row for strip in row]
    return lengths, sum(between(low, high) for low, high in pairwise(by_row))
