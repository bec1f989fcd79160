"""The foam strip that parts the slab from walls and from what stands in it."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from ..catalogue.estimating import estimating
from ..measure import say
from ..resolve import Resolved
from .belonging import by_roll, of_record
from .prices import NO_PRODUCT
from .records import Item, beyond

WALLED = ("footing-wall", "frost-wall", "ledge")  # edges at which the slab ends against a wall
STANDING = ("column", "post", "pit")


def edge_strip(resolved: Resolved) -> Iterator[Item]:
    """Strip along walls that have no foam at the slab's edge, and around columns, posts and pits.

    Arguments
    ---------
    resolved
        The brief in numbers.
    """
    slab = sum(layer.thickness for layer in resolved.laid if layer.kind in ("concrete", "screed"))
    bare = [
        edge
        for edge in resolved.edges
        if edge.kind in WALLED and not any(piece.face == "slab-edge" for piece in edge.pieces)
    ]
    walls = sum(edge.length for edge in bare)
    around = sum(each.outline.length for each in resolved.plan.floor.obstacles if each.kind in STANDING)
    net = walls + around
    if not slab or not net:
        return
    boards = [resolved.products.product(each.key) for each in resolved.boards if resolved.products.has(each.key)]
    strip = next((found for each in boards if (found := of_record(resolved, each, "edge"))), None)
    system = resolved.system
    letters = ", ".join(edge.letter for edge in bare)
    along = f"{say.value(walls, 'm', system)} along edge{'s' if len(bare) > 1 else ''} {letters}" if bare else ""
    stands = f"{say.value(around, 'm', system)} around what stands in it" if around else ""
    why = (
        f"{', '.join(each for each in (along, stands) if each)}, as high as the slab, {say.both(slab, 'm', system)}. "
        "Leave it out where the slab is tied to the wall; beside heated rooms none is counted."
    )
    if strip is None:
        spare = net * estimating("tape", "spare").value / 100.0
        thick = say.both(estimating("strip", "thickness").value, "m", system)
        over = beyond(("spare", spare))
        words = f"Edge strip, {thick}"
        yield Item(
            words, "slab edge", "", net, "m", None, "", net + spare, why, "", None, NO_PRODUCT, over, kind="strip"
        )
        return
    high = ceil(slab / strip.sizes[0].width - 1e-2)
    more = f" {high} one over another." if high > 1 else ""
    yield by_roll(resolved, strip, strip.name, "slab edge", net, why + more, high)
