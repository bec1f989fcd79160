"""First cost: what a takeoff buys at its prices, hours of laying, and what is dug deeper for foam."""

from __future__ import annotations

from collections.abc import Iterator

from ..catalogue.labour import hours_of, labour_numbers
from ..measure import Price, say
from ..resolve import Money, Resolved, Slice
from ..takeoff import Item, Takeoff
from .columns import FACES
from .prices import Priced, price_of
from .records import FirstCost, Outlay

BULK = ("concrete", "screed", "gravel", "sand")
AS_FOAM = ("board", *FACES, "outside", "inside", "slab-edge", "wing")


def first_cost(resolved: Resolved, money: Money, takeoff: Takeoff) -> FirstCost:
    """Everything that is bought and laid.

    Boards and films must have a price; what is poured, spread, dug, taped or set beside them is left out in words
    until its price is typed, for it is there whichever foam is laid.
    """
    made = [_outlay(resolved, money, item) for item in takeoff.items]
    made += _dug(resolved, money)
    lacks = "money.labour" if money.labour is None and any(each.hours for each in made) else ""
    counted = tuple(each for each in made if each.goods is not None or each.hours or each.lacks)
    return FirstCost(counted, _left_out(made), lacks)


def kind_of(item: Item, resolved: Resolved) -> str:
    """What an item is: board, film, tape, strip, the face of an edge, or what is poured and spread; "" for the rest."""
    if item.unit == "m³":
        last = "sand" if item.what.startswith("Sand") else item.where.rpartition(".")[2]
        return last if last in BULK else "concrete"
    if item.unit == "m":
        made = resolved.products.product(item.key).kind if resolved.products.has(item.key) else ""
        return "tape" if made == "tape" or item.what.startswith("Tape") else "strip" if _strip(item, made) else ""
    if ", " in item.where and item.unit == "m²":
        return item.where.partition(", ")[2].replace(" ", "-")
    last = item.where.rpartition(".")[2]
    return {"board": "board", "vapour-retarder": "film"}.get(last, "") if item.unit == "m²" else ""


def _strip(item: Item, made: str) -> bool:
    return made == "edge-strip" or item.what.startswith("Edge strip")


def is_foam(item: Item, resolved: Resolved) -> bool:
    """Whether an item is there because of foam: a board, or the tape of its joints."""
    boards = {layer.path for layer in resolved.boards}
    return kind_of(item, resolved) in AS_FOAM or item.where in boards


def thickness_of(item: Item, resolved: Resolved) -> float:
    """Of the layer that an item is; nought where it is none. [m]"""
    layer = layer_of(item, resolved)
    return layer.thickness if layer is not None else 0.0


def layer_paths(resolved: Resolved) -> tuple[str, ...]:
    """Where the thicknesses of what is bought stand: of the floor's boards and of those at the edges."""
    boards = [*(layer for layer in resolved.boards if layer in resolved.laid)]
    boards += [piece.board for edge in resolved.edges for piece in edge.pieces]
    return tuple(dict.fromkeys(path for board in boards for path in board.rests_on[:1]))


def layer_of(item: Item, resolved: Resolved) -> Slice | None:
    """The layer of the floor, or the board of an edge, that an item is bought for."""
    for layer in resolved.laid:
        if layer.path == item.where and layer.key == item.key:
            return layer
    for edge in resolved.edges:
        for piece in edge.pieces:
            if item.where == f"edge {edge.letter}, {piece.face.replace('-', ' ')}" and item.what == piece.board.words:
                return piece.board
    return None


def _outlay(resolved: Resolved, money: Money, item: Item) -> Outlay:
    kind = kind_of(item, resolved)
    goods, price, lacks = _goods(resolved, money, item, kind)
    hours = _hours(resolved, item, kind)
    labour = hours * money.labour if hours is not None and money.labour is not None else None
    foam = is_foam(item, resolved)
    return Outlay(item.what, item.where, item.order, item.unit, goods, price, hours, labour, lacks, foam)


def _goods(resolved: Resolved, money: Money, item: Item, kind: str) -> tuple[float | None, str, str]:
    """What it costs, its price in words, and the key that is wanted where it has none and must."""
    quoted = money.prices.get(item.key) or money.prices.get(kind)
    found: Priced | None = Priced(quoted, money.day, True) if quoted is not None else None
    if found is None and item.cost is not None and item.cost.currency == money.currency:
        return item.cost.amount, f"{item.cost.price} ({item.cost.day})", ""
    if found is None and item.key:
        found = price_of(resolved, money, item.key, thickness_of(item, resolved))
    amount = _amount(item, found.price, thickness_of(item, resolved)) if found is not None else None
    if found is not None and amount is not None:
        return found.price.amount * amount, f"{found.price.typed} ({found.day})", ""
    return None, "", f"money.price.{item.key}" if item.key and kind in (*AS_FOAM, "film") else ""


def _amount(item: Item, price: Price, thickness: float) -> float | None:
    """How many of what a price is for an item takes; None where that is not known."""
    if price.per == item.unit:
        return item.order
    if price.per == "1":
        return float(item.count) if item.count is not None else None
    return item.order * thickness if (price.per, item.unit) == ("m³", "m²") and thickness else None


def _hours(resolved: Resolved, item: Item, kind: str) -> float | None:
    if kind in BULK or not kind:
        return None
    if kind == "board" and resolved.products.has(item.key):
        edges = resolved.products.product(item.key).edges
        kind = "panel" if edges and edges[0].profile == "interlock" else kind
    name = FACES.get(kind, kind)
    return hours_of(name).value * item.net if name in labour_numbers() else None


def _dug(resolved: Resolved, money: Money) -> Iterator[Outlay]:
    """What is dug deeper for the boards under the floor; nothing over an old slab, where the floor rises instead."""
    height = sum(layer.height for layer in resolved.boards if layer in resolved.laid)
    if not height or resolved.on_old_slab:
        return
    volume = resolved.plan.floor.area * height
    price = money.prices.get("excavation")
    words = f"Ground dug {say.both(height, 'm', resolved.system)} deeper for foam, and taken away"
    told = f"{price.typed} ({money.day})" if price else ""
    goods = volume * price.amount if price else None
    yield Outlay(words, "floor.build-up", volume, "m³", goods, told, None, None, "", True)


def _left_out(made: list[Outlay]) -> tuple[str, ...]:
    return tuple(each.what for each in made if each.goods is None and not each.lacks)
