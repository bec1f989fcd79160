"""The takeoff as JSON."""

from __future__ import annotations

import json
from typing import Any

from .cutting import is_whole, numbered
from .records import Item, LaidLayer, Takeoff


def as_json(takeoff: Takeoff) -> str:
    """Items, layers with every piece, and totals. SI throughout; lengths in m, areas in m², volumes in m³."""
    told = {
        "title": takeoff.title,
        "items": [_item(each) for each in takeoff.items],
        "layers": [_layer(each) for each in takeoff.layers],
        "totals": [{"currency": c, "amount": round(amount, 2), "priced": days} for c, amount, days in takeoff.totals],
    }
    return json.dumps(told, ensure_ascii=False, indent=2)


def _item(item: Item) -> dict[str, Any]:
    cost = item.cost
    return {
        "what": item.what,
        "where": item.where,
        "product": item.key or None,
        "needed": item.net,
        "unit": item.unit,
        "count": item.count,
        "of": item.of or None,
        "ordered": item.order,
        "packs": item.packs or None,
        "cost": {"amount": cost.amount, "currency": cost.currency, "price": cost.price, "priced": cost.day}
        if cost
        else None,
        "not-priced": item.unpriced or None,
        "how": item.why,
    }


def _layer(layer: LaidLayer) -> dict[str, Any]:
    layout, (fewest, how) = layer.layout, layer.bound
    return {
        "path": layer.path,
        "label": layer.label,
        "size": layer.size,
        "takeoff.panels": layout.panels,
        "takeoff.waste": layout.waste,
        "takeoff.bound": fewest,
        "bound-counted": how,
        "angle": layout.angle,
        "joints": layout.seams,
        "notes": list(layer.notes),
        "pieces": [
            {
                "number": number,
                "along": [piece.x0, piece.x1],
                "across": [piece.y0, piece.y1],
                "area": piece.area,
                "panel": piece.panel,
                "from": [piece.u, piece.v],
                "whole": is_whole(layout, piece),
            }
            for number, piece in numbered(layout)
        ],
    }
