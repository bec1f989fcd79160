"""What to order and how it is laid, as a part of the submittal: the takeoff's own numbers, put into words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from ..laying.table import caution
from ..measure import say
from ..takeoff.as_laid import rest_words

if TYPE_CHECKING:
    from ..takeoff import Item, LaidLayer, Takeoff

CAUTIONS = ("lifting", "wind", "saw", "fire")
MIND = "Counted as briefed. Walls, delivery, breakage, labour and what the site adds are not in it."


def ordered(takeoff: Takeoff | None) -> dict[str, Any] | None:
    """Items with what the slab takes and what is bought, layers with their bounds, totals; None where nothing is."""
    if takeoff is None or not takeoff.items:
        return None
    return {
        "cautions": [caution(name) for name in CAUTIONS] if takeoff.layers else [],
        "items": [_item(item, takeoff) for item in takeoff.items],
        "totals": list(_totals(takeoff)),
        "layers": [_layer(layer, takeoff) for layer in takeoff.layers],
        "notes": [*takeoff.notes, MIND],
    }


def _item(item: Item, takeoff: Takeoff) -> dict[str, str]:
    system = takeoff.system
    bought = "" if item.unit == "count" else say.both(item.order, item.unit, system)
    counted = f"{item.count} {item.of}" if item.count is not None else ""
    return {
        "what": item.what,
        "where": item.where,
        "needed": say.both(item.net, item.unit, system),
        "count": counted or bought,
        "bought": bought if counted else "",
        "packs": item.packs,
        "cost": f"{item.cost.amount:,.2f} {item.cost.currency}" if item.cost else "",
        "price": f"{item.cost.price}, {item.cost.day}" if item.cost else "not priced",
    }


def _totals(takeoff: Takeoff) -> Iterator[str]:
    for currency, amount, days in takeoff.totals:
        yield f"Priced in all: {amount:,.2f} {currency} at prices of {days}; what has none is not in it."
    if takeoff.loads and takeoff.loads.lorries:
        lorries = takeoff.loads.lorries
        bulk = say.both(takeoff.loads.bulk, "m³", takeoff.system)
        yield f"Boards take {bulk} as they are stacked: {lorries} {'lorry' if lorries == 1 else 'lorries'}."


def _layer(layer: LaidLayer, takeoff: Takeoff) -> dict[str, Any]:
    layout, (fewest, how) = layer.layout, layer.bound
    return {
        "words": layer.words,
        "bound": (
            f"{layout.panels} panels of {layer.size}, {layer.sawn} pieces sawn, {100 * layout.waste:.1f} % left over; "
            f"no plan in rows takes fewer than {fewest}, counted {how}. "
            f"{say.both(layout.seams, 'm', takeoff.system)} of joints."
        ),
        "notes": [*layer.notes, *(rest_words(layer.rest, layer.size) if layer.rest else ())],
    }
