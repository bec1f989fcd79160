"""Thousands of candidates as columns: which floor, which edge, and what each has of foam, price and carbon."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..catalogue.records import Board, Made
from ..costing import OnFloor, at_face, on_floor
from ..costing.making import of_board
from ..measure import Measure, say
from ..measure.money import money_per_unit
from ..mistakes import Mistake
from ..resolve import Resolved, Slice
from ..sections.build import section
from .wanted import EdgeFoam, FloorFoam, Wanted, foam_at_edge

Array = NDArray[np.float64]
Ints = NDArray[np.int64]
OPEN = float("nan")


@dataclass(frozen=True)
class Columns:
    """One entry a candidate; floors and edges by their number in what is wanted."""

    floor: Ints
    edge: Ints
    floor_foam: NDArray[np.bool_]
    volume: Array  # m³ of foam, floor and edges
    first: Array  # what the foam costs, laid and dug for where [money] says what that costs; not a number where open
    carbon: Array  # (3, candidates) kgCO2e of making the foam: value, low, high; not a number where it is open
    height: Array  # m, of the build-up
    currency: str  # "" where nothing has a price
    day: str  # of the oldest price

    def __len__(self) -> int:
        return len(self.floor)


@dataclass(frozen=True)
class Weighed:
    """What one part of a candidate costs, and what its making gives off."""

    first: float
    carbon: tuple[float, float, float]
    day: str
    currency: str


@dataclass(frozen=True)
class Bought:
    """One product in one thickness that a candidate is made of."""

    board: Board
    made: Made
    words: str
    price: float  # of a square metre, by the record or as quoted; not a number where it is open
    area: float  # m² that are paid for
    currency: str

    def same(self, other: Bought) -> bool:
        """Whether both are bought by one price."""
        return (self.board.key, self.made.typed) == (other.board.key, other.made.typed)


NOTHING = Weighed(0.0, (0.0, 0.0, 0.0), "", "")


def columns(wanted: Wanted) -> Columns:
    """Every floor with every edge of the same product, or of none, or as typed."""
    resolved = wanted.resolved
    keys = [each.board.key if each.board else "" for each in wanted.floors]
    other = [each.board.key if each.board else "" for each in wanted.edges]
    pairs = [(f, e) for f, key in enumerate(keys) for e, at in enumerate(other) if not key or not at or key == at]
    floor, edge = (np.array(each) for each in zip(*pairs, strict=True))
    weigh = _Weigh(wanted)
    floors, edges = [weigh.floor(each) for each in wanted.floors], [weigh.edge(each) for each in wanted.edges]
    rest = resolved.total - sum(layer.height for layer in resolved.boards)
    currencies = list(dict.fromkeys(each.currency for each in (*floors, *edges) if each.currency))
    first = np.array([each.first for each in floors])[floor] + np.array([each.first for each in edges])[edge]
    carbon = (
        np.array([each.carbon for each in floors]).T[:, floor] + np.array([each.carbon for each in edges]).T[:, edge]
    )
    return Columns(
        floor,
        edge,
        np.array([each.board is not None for each in wanted.floors])[floor],
        np.array([each.thickness * resolved.area for each in wanted.floors])[floor]
        + np.array([each.volume for each in wanted.edges])[edge],
        first if len(currencies) < 2 else np.full(len(floor), OPEN),  # two currencies are never added up
        carbon,
        rest + np.array([each.thickness for each in wanted.floors])[floor],
        currencies[0] if len(currencies) == 1 else "",
        min((each.day for each in (*floors, *edges) if each.day), default=""),
    )


def as_briefed(wanted: Wanted) -> Weighed:
    """What the brief's own foam costs and weighs."""
    resolved, weigh = wanted.resolved, _Weigh(wanted)
    found = [weigh.piece(layer, "floor", resolved.area) for layer in resolved.boards]
    for edge in resolved.edges:
        faces = foam_at_edge(section(resolved, edge), edge)
        found += [weigh.piece(p.board, face, area) for p, (face, area, _) in zip(edge.pieces, faces, strict=True)]
    return _summed(found)


class _Weigh:
    """Weighs parts: with [money] laid and dug for, without it by the records' prices of the foam alone."""

    def __init__(self, wanted: Wanted) -> None:
        self._resolved = wanted.resolved
        money = wanted.resolved.money
        self._labour = (money.labour or 0.0) if money is not None else 0.0
        digs = money.prices.get("excavation") if money is not None else None
        self._digs = digs.amount if digs is not None else 0.0
        self._left = {(each.board, round(1e4 * each.thickness.si)): each.area.si for each in wanted.on_hand}
        self._boards: dict[tuple[str, str, str], OnFloor] = {}

    def floor(self, of: FloorFoam) -> Weighed:
        area = self._resolved.area
        layers = of.laid.layers if of.laid else ()
        found = [self._laid(of.board, made, "floor", area) for made in layers if of.board is not None]
        whole = _summed(found)
        dug = 0.0 if self._resolved.on_old_slab else of.thickness * area * self._digs
        return Weighed(whole.first + dug, whole.carbon, whole.day, whole.currency)

    def edge(self, of: EdgeFoam) -> Weighed:
        return _summed(list(self._faces(of)))

    def _faces(self, of: EdgeFoam) -> Iterator[Weighed]:
        pieces = [piece for each in of.edges for piece in each.pieces]
        for piece, (face, area) in zip(pieces, of.faces, strict=True):
            yield self.piece(piece.board, face, area)

    def piece(self, of: Slice, face: str, area: float) -> Weighed:
        """A board as it lies somewhere."""
        board = of.record
        if board is None:
            return Weighed(OPEN, (OPEN, OPEN, OPEN), "", "")
        made = next((each for each in board.made if abs(each.thickness - of.thickness) < 5e-4), None)
        return self._laid(board, made or Made(of.thickness, of.words, board.r_label_per_metre), face, area)

    def _laid(self, board: Board, made: Made, face: str, area: float) -> Weighed:
        there = self._left.get((board.key, round(1e4 * made.thickness)), 0.0)
        share = max(area - there, 0.0) / area if area else 0.0  # of it that is still to be bought
        if self._resolved.money is None:
            price, currency, day = price_of(self._resolved, board, made)
            gas = of_board(self._resolved, None, board)
            per = (gas.value, gas.low, gas.high) if gas is not None else (OPEN, OPEN, OPEN)
            value, low, high = (each * made.thickness * area for each in per)
            return Weighed(price * area * share, (value, low, high), day, currency)
        key = (board.key, made.typed, face)
        if key not in self._boards:
            on = on_floor(self._resolved, board, made.thickness) if face == "floor" else None
            self._boards[key] = on or at_face(self._resolved, board, made.thickness, face)
        each = self._boards[key]
        cost = OPEN if each.price is None else (each.price * share + each.hours * self._labour) * area
        given = (OPEN, OPEN, OPEN) if each.carbon is None else (each.carbon, each.carbon_low, each.carbon_high)
        value, low, high = (one * area for one in given)
        return Weighed(cost, (value, low, high), each.day, self._resolved.money.currency)


def bought_of(wanted: Wanted, floor: FloorFoam, edge: EdgeFoam) -> list[Bought]:
    """What a candidate is made of, each price once, by the records' prices or as quoted."""
    resolved = wanted.resolved
    found: dict[tuple[str, str], Bought] = {}
    items = [(floor.board, made, resolved.area) for made in (floor.laid.layers if floor.laid else ())]
    items += [(edge.board, edge.made, area) for _, area in edge.faces] if edge.made is not None else []
    for board, made, area in items:
        if board is None:
            continue
        price, currency, _ = price_of(resolved, board, made)
        over = 1.0
        if resolved.money is not None:
            each = on_floor(resolved, board, made.thickness)
            over = each.bought if area == resolved.area and floor.board is not None else 1.0
            price = OPEN if each.price is None else each.price / each.bought
            currency = resolved.money.currency
        words = f"{say.typed(Measure(made.thickness, made.typed), 'm', resolved.system)} {board.label}"
        key = (board.key, made.typed)
        before = found.get(key)
        found[key] = Bought(board, made, words, price, area * over + (before.area if before else 0.0), currency)
    return list(found.values())


def _summed(found: list[Weighed]) -> Weighed:
    if not found:
        return NOTHING
    value, low, high = (sum(each.carbon[n] for each in found) for n in range(3))
    days, currencies = ([each.day for each in found if each.day], [each.currency for each in found if each.currency])
    return Weighed(
        sum(each.first for each in found),
        (value, low, high),
        min(days, default=""),
        currencies[0] if currencies else "",
    )


def price_of(resolved: Resolved, board: Board, made: Made) -> tuple[float, str, str]:
    """A square metre of one thickness made by its record, its currency and day; not a number where it has none."""
    if not resolved.products.has(board.key):
        return OPEN, "", ""
    product = resolved.products.product(board.key)
    day = product.priced or resolved.products.line_of(board.key).line.priced
    same = next((each for each in product.made if abs(each.thickness.si - made.thickness) < 1e-6), None)
    typed = (same.price if same else "") or product.price
    if not typed or day is None:
        return OPEN, "", ""
    try:
        read = money_per_unit(typed)
    except Mistake:
        return OPEN, "", ""
    times = {"m²": 1.0, "m³": made.thickness}.get(read.per)
    return (OPEN, "", "") if times is None else (read.amount * times, read.currency, day.isoformat())
