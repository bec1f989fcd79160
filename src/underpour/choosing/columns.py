"""Thousands of candidates as columns: which floor, which edge, and what each has of foam, price and carbon."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..catalogue.records import Board, Made
from ..measure.money import money_per_unit
from ..mistakes import Mistake
from ..resolve import Resolved
from .wanted import Wanted

Array = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Columns:
    """One entry a candidate; floors and edges by their number in what is wanted."""

    floor: Ints
    edge: Ints
    volume: Array  # m³ of foam, floor and edges
    price: Array  # of the foam alone, by the records; not a number where a price is open
    carbon: Array  # (3, candidates) kgCO2e of the foam: value, low, high; not a number where it is open
    height: Array  # m, of the build-up
    currency: str  # "" where no candidate has a price
    day: str  # of the oldest price

    def __len__(self) -> int:
        return len(self.floor)


@dataclass(frozen=True)
class Measured:
    """What a square metre of a product in one thickness costs, and what a cubic metre of it weighs on the climate."""

    price: float  # not a number where it is open
    currency: str
    day: str


def columns(wanted: Wanted) -> Columns:
    """Every floor with every edge of the same product, or of none, or as typed."""
    resolved = wanted.resolved
    keys = [each.board.key if each.board else "" for each in wanted.floors]
    other = [each.board.key if each.board else "" for each in wanted.edges]
    pairs = [(f, e) for f, key in enumerate(keys) for e, at in enumerate(other) if not key or not at or key == at]
    floor, edge = (np.array(each) for each in zip(*pairs, strict=True))
    f_volume = np.array([each.thickness * resolved.area for each in wanted.floors])
    e_volume = np.array([each.volume for each in wanted.edges])
    currency, day = "", ""
    f_price, e_price = [], []
    for each in wanted.floors:
        there = [price_of(resolved, each.board, made) for made in (each.laid.layers if each.laid else ()) if each.board]
        f_price.append(sum(found.price for found in there) * resolved.area)
        currency, day = _currency(currency, day, there)
    for n, at in enumerate(wanted.edges):
        if at.board is None or at.made is None:
            f_or_none = 0.0 if not e_volume[n] else np.nan
            e_price.append(f_or_none)
            continue
        found = price_of(resolved, at.board, at.made)
        e_price.append(found.price * e_volume[n] / at.made.thickness)
        currency, day = _currency(currency, day, [found])
    carbon = np.array([_carbon(resolved, each.board) for each in wanted.floors]).T[:, floor] * f_volume[floor]
    carbon = carbon + np.array([_carbon(resolved, each.board) for each in wanted.edges]).T[:, edge] * e_volume[edge]
    rest = resolved.total - sum(layer.height for layer in resolved.boards)
    return Columns(
        floor,
        edge,
        f_volume[floor] + e_volume[edge],
        np.array(f_price)[floor] + np.array(e_price)[edge],
        carbon,
        rest + np.array([each.thickness for each in wanted.floors])[floor],
        currency,
        day,
    )


def _currency(currency: str, day: str, found: Sequence[Measured]) -> tuple[str, str]:
    for each in found:
        if each.currency and not currency:
            currency = each.currency
        if each.day and (not day or each.day < day):
            day = each.day
    return currency, day


def price_of(resolved: Resolved, board: Board | None, made: Made) -> Measured:
    """What a square metre of one thickness made costs by its record; not a number where that has no price or day."""
    nothing = Measured(float("nan"), "", "")
    if board is None or not resolved.products.has(board.key):
        return nothing
    product = resolved.products.product(board.key)
    day = product.priced or resolved.products.line_of(board.key).line.priced
    same = next((each for each in product.made if abs(each.thickness.si - made.thickness) < 1e-6), None)
    typed = (same.price if same else "") or product.price
    if not typed or day is None:
        return nothing
    try:
        read = money_per_unit(typed)
    except Mistake:
        return nothing
    if read.per == "m³":
        return Measured(read.amount * made.thickness, read.currency, day.isoformat())
    return Measured(read.amount, read.currency, day.isoformat()) if read.per == "m²" else nothing


def _carbon(resolved: Resolved, board: Board | None) -> tuple[float, float, float]:
    """Of a cubic metre: value, low and high. [kgCO2e]"""
    if board is None:
        return 0.0, 0.0, 0.0
    made = resolved.products.product(board.key).embodied if resolved.products.has(board.key) else None
    if made is None or board.density is None:
        return (float("nan"),) * 3
    density = board.density.value
    return made.value * density, made.low * density, made.high * density
