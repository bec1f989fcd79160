"""The takeoff as JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from .. import __version__
from .as_laid import Rest
from .channelled import missed
from .coils import Coils
from .cutting import is_whole, kept, numbered, sawn_panels
from .film_plan import FilmPlan
from .lorries import Loads
from .lots import Lot
from .records import Item, LaidLayer, Pack, Takeoff


def as_json(takeoff: Takeoff, findings: Sequence[Mapping[str, Any]] = ()) -> str:
    """Items, layers with every piece, and totals. SI throughout; lengths in m, areas in m², volumes in m³.

    Weights are in kg; a price for each R is for each m² and each m²·K/W.

    Arguments
    ---------
    takeoff
        The order.
    findings
        Its findings as data.
    """
    told = {
        "format": "takeoff/1",
        "made_by": {"name": "underpour", "version": __version__},
        "title": takeoff.title,
        "units": takeoff.system,
        "items": [_item(each) for each in takeoff.items],
        "layers": [_layer(each) for each in takeoff.layers],
        "totals": [{"currency": c, "amount": round(amount, 2), "priced": days} for c, amount, days in takeoff.totals],
        "loads": _loads(takeoff.loads) if takeoff.loads else None,
        "coils": _coils(takeoff.coils) if takeoff.coils else None,
        "tools": [{"product": name, "worked-with": words} for name, words in takeoff.tools],
        "films": [_film(each) for each in takeoff.films],
        "notes": list(takeoff.notes),
        "lots": [_lot(each) for each in takeoff.lots],
        "findings": list(findings),
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
        "spare": item.spare,
        "waste": item.waste,
        "beyond-need": [{"what": each.what, "amount": each.amount} for each in item.beyond],
        "mass": item.mass,
        "stacked": item.bulk,
        "price-per-r": item.per_r,
        "pack": _pack(item.pack),
    }


def _lot(lot: Lot) -> dict[str, Any]:
    return {
        "what": lot.what,
        "product": lot.key or None,
        "count": lot.count,
        "of": lot.of,
        "pack": _pack(lot.pack),
        "mass": lot.mass,
        "where": list(lot.where),
    }


def _pack(pack: Pack | None) -> dict[str, Any] | None:
    return {"bundles": pack.bundles, "each": pack.each, "pallets": pack.pallets} if pack else None


def _loads(loads: Loads) -> dict[str, Any]:
    return {
        "boards": {"stacked": loads.bulk, "mass": loads.mass, "on-one-lorry": loads.lorry, "lorries": loads.lorries},
        "concrete": {"volume": loads.concrete, "trucks": loads.mixers},
    }


def _coils(coils: Coils) -> dict[str, Any]:
    return {
        "length": coils.length,
        "loops": list(coils.loops),
        "cuts": [{"loops": list(cut), "left": left} for cut, left in zip(coils.cuts, coils.left, strict=True)],
    }


def _channels(layer: LaidLayer) -> dict[str, Any] | None:
    found = layer.channels
    if found is None:
        return None
    return {
        "length": found.length,
        "reached": found.reached,
        "nets": found.nets,
        "pieces-not-reached": missed(found, layer.layout),
        "suction-points-without-channel": [list(at) for at in found.dry],
    }


def _layer(layer: LaidLayer) -> dict[str, Any]:
    layout, (fewest, how) = layer.layout, layer.bound
    sawn = sawn_panels(layout)
    return {
        "path": layer.path,
        "label": layer.label,
        "size": layer.size,
        "takeoff.panels": layout.panels,
        "takeoff.waste": layout.waste,
        "takeoff.bound": fewest,
        "bound-counted": how,
        "fewest-for-these-rows": layer.proved or None,
        "joints-over-joints": layer.over,
        "looked": layer.looked,
        "pitch": layout.rules.pitch or None,
        "channels": _channels(layer),
        "angle": layout.angle,
        "joints": layout.seams,
        "cover": [layout.rules.width, layout.rules.length],
        "kerf": layout.rules.kerf,
        "interlock": layout.rules.interlock,
        "offset": layout.offset,
        "notes": list(layer.notes),
        "pieces": [
            {
                "number": number,
                "along": [piece.x0, piece.x1],
                "across": [piece.y0, piece.y1],
                "area": piece.area,
                "panel": piece.panel,
                "sawn-panel": sawn.get(piece.panel),
                "from": [piece.u, piece.v],
                "whole": is_whole(layout, piece),
            }
            for number, piece in numbered(layout)
        ],
        "offcuts": [
            {"sawn-panel": each.panel, "size": [each.length, each.height], "from": [each.u, each.v]}
            for each in kept(layout)
        ],
        "rest": _rest(layer.rest) if layer.rest else None,
    }


def _rest(rest: Rest) -> dict[str, Any]:
    return {
        "rows-laid": rest.rows,
        "rows": rest.of,
        "panels": rest.panels,
        "left": rest.left,
        "more": rest.more,
        "offcuts-used": rest.used,
        "cuts": [
            {"number": cut.number, "panel": cut.panel, "size": [cut.length, cut.height], "from": [cut.u, cut.v]}
            for cut in rest.cuts
        ],
    }


def _film(film: FilmPlan) -> dict[str, Any]:
    return {
        "path": film.path,
        "roll": [film.width, film.length],
        "lap": film.lap,
        "turned-up": film.up,
        "angle": film.angle,
        "strips": [
            {"along": [x0, x1], "across": [y, y + film.cover], "length": long}
            for (x0, x1, y), long in zip(film.strips, film.lengths, strict=True)
        ],
        "laps": film.seams,
    }
