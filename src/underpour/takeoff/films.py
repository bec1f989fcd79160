"""Film in strips with their laps, in the direction that takes fewer rolls."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from ..catalogue.estimating import estimating
from ..catalogue.line import Product
from ..measure import say
from ..resolve import Resolved, Slice
from .belonging import by_roll, of_record
from .film_plan import FilmPlan, film_plan
from .prices import NO_PRODUCT, priced_by_piece
from .records import Item, beyond


def films(resolved: Resolved) -> Iterator[Item]:
    """The film of each layer, and the tape that its laps and edges take in metres."""
    for layer in resolved.floor:
        if layer.kind == "vapour-retarder":
            yield from _film(resolved, layer)


def _film(resolved: Resolved, layer: Slice) -> Iterator[Item]:
    product = resolved.products.product(layer.key) if resolved.products.has(layer.key) else None
    plan = film_plan(resolved, layer)
    length = plan.length
    whole = sum(plan.lengths) + plan.lap * sum(ceil(each / length) - 1 for each in plan.lengths)
    rolls = ceil(whole / length)
    bought = rolls * plan.width * length
    cost, unpriced = priced_by_piece(resolved, layer.key, rolls, bought)
    lapped, turned = (say.both(each, "m", resolved.system) for each in (plan.lap, plan.up))
    sloped = any(edge.thickening for edge in resolved.edges)
    way = "turned up and led down the slope" if sloped else "turned up"
    in_all = say.both(whole, "m", resolved.system)
    why = (
        f"{len(plan.strips)} strips along {'x' if plan.angle == 0.0 else 'y'}, {in_all} in all, "
        f"laps of {lapped}, {turned} {way} at both ends."
    )
    net, rolled = plan.plan.floor.area, f"{'rolls' if rolls > 1 else 'roll'} of {plan.size}"
    used, thick = whole * plan.width, layer.film.thickness if layer.film else layer.thickness
    yield Item(
        layer.words,
        layer.path,
        layer.key,
        net,
        "m²",
        rolls,
        rolled,
        bought,
        why,
        "",
        cost,
        unpriced,
        beyond(("laps and turned up", used - net), ("left over", bought - used)),
        mass=bought * thick * estimating("film", "density").value,
    )
    yield _tape(resolved, layer, product, plan)


def _tape(resolved: Resolved, layer: Slice, product: Product | None, plan: FilmPlan) -> Item:
    parts = plan.seams, plan.plan.floor.length
    laps, edge = (say.value(each, "m", resolved.system) for each in parts)
    why = f"{laps} of laps, {edge} at the edge."
    tape = of_record(resolved, product, "laps")
    if tape is None:
        net = sum(parts)
        return Item("Tape for the film", layer.path, "", net, "m", None, "", net, why, unpriced=NO_PRODUCT, kind="tape")
    return by_roll(resolved, tape, tape.name, layer.path, sum(parts), why)
