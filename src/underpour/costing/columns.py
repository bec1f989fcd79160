"""What a square metre of a board takes, as plain numbers: for who weighs thousands of them and takes nothing off."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ..catalogue.labour import hours_of
from ..catalogue.line import Size
from ..catalogue.records import Board
from ..outlines.floor import Floor
from ..panels.panel import Rules
from ..panels.search import fewest_panels
from ..resolve import Resolved, Slice
from ..takeoff.layers import rules_of, size_of
from .making import of_board
from .prices import by_area, price_of

TRIED = 2000  # pieces cut in looking for a plan: within a panel or two of the takeoff's own, in a tenth of its time
FACES = {"footing-top": "footing", "footing-side": "footing", "below-footing": "footing", "below-slope": "wing"}


@dataclass(frozen=True, slots=True)
class OnFloor:
    """A square metre of one board in one thickness, laid."""

    price: float | None  # money/m², what is sawn off counted in; None where no price of it is known
    lacks: str  # the key that would say it; "" where it is known
    day: str  # of that price; "" where there is none
    hours: float  # h/m²
    carbon: float | None  # kgCO2e/m², what is sawn off counted in; None where its gas decides
    carbon_low: float
    carbon_high: float
    bought: float  # area of whole panels over that of the floor, 1

    def cost(self, labour: float, excavation: float, height: float) -> float | None:
        """Laid and dug for, given what an hour and a cubic metre dug cost, and its height. [money/h, money/m³, m]"""
        return None if self.price is None else self.price + self.hours * labour + height * excavation


def on_floor(resolved: Resolved, board: Board, thickness: float) -> OnFloor:
    """A board in one thickness in this floor, the plan of panels looked for once for each size. Wants [money]. [m]"""
    layer = _layer(board, thickness)
    rules, _, product = rules_of(resolved, layer)
    size = size_of(resolved, layer)
    bought = bought_over(resolved.plan.floor, rules, size)
    panel = bool(product and product.edges and product.edges[0].profile == "interlock")
    return _each(resolved, layer, size, bought, hours_of("panel" if panel else "board").value)


def at_face(resolved: Resolved, board: Board, thickness: float, face: str) -> OnFloor:
    """A board at a face of an edge; strips are taken to come out of whole boards with nothing left over. [m]"""
    layer = _layer(board, thickness)
    return _each(resolved, layer, size_of(resolved, layer), 1.0, hours_of(FACES.get(face, face)).value)


def _layer(board: Board, thickness: float) -> Slice:
    """The board as a layer, for what is asked by its name, its thickness and its record."""
    conductivity, capacity = board.conductivity_in_place.value, board.heat_capacity.value
    path = "floor.build-up"
    words = (board.label, board.label)
    return Slice("board", *words, thickness, conductivity, capacity, board.hatch, path, (), key=board.key, record=board)


def _each(resolved: Resolved, layer: Slice, size: Size, bought: float, hours: float) -> OnFloor:
    money = resolved.money
    assert money is not None, "nothing is priced without [money]"
    found = price_of(resolved, money, layer.key, layer.thickness)
    price = by_area(found, layer.thickness, size.width * size.length)
    made = of_board(resolved, money, layer.record) if layer.record is not None else None
    of = made.times(layer.thickness * bought) if made is not None else None
    return OnFloor(
        price=price * bought if price is not None else None,
        lacks="" if price is not None else f"money.price.{layer.key}",
        day=found.day if found is not None and price is not None else "",
        hours=hours,
        carbon=of.value if of is not None else None,
        carbon_low=of.low if of is not None else 0.0,
        carbon_high=of.high if of is not None else 0.0,
        bought=bought,
    )


@lru_cache(maxsize=256)
def bought_over(floor: Floor, rules: Rules, size: Size) -> float:
    """Area of the panels that a floor takes over its own, by a short look for a plan. [1]"""
    standing = sum(each.area for each in floor.obstacles)
    found = fewest_panels(floor, rules, (), TRIED)
    return found.panels * size.width * size.length / (floor.area - standing)
