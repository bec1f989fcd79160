"""Greenhouse gas of making foam, film and what is poured and spread, with its range and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass

from ..catalogue.embodied import EmbodiedRow, embodied_concrete, embodied_of
from ..catalogue.records import Board, Quantity
from ..findings import Seen
from ..resolve import Money, Resolved


@dataclass(frozen=True, slots=True)
class Made:
    """Of one cubic metre, or one square metre, as the caller asked."""

    value: float  # kgCO2e
    low: float
    high: float
    source: str  # in words
    path: str  # in the brief or the catalogue
    seen: Seen

    def times(self, amount: float) -> Made:
        """Of so many of them."""
        return Made(self.value * amount, self.low * amount, self.high * amount, self.source, self.path, self.seen)


def of_board(resolved: Resolved, money: Money | None, board: Board) -> Made | None:
    """Of a cubic metre of a board: as the brief declares, by its record, else by its foam; None where the gas decides.

    The density is that of its record or class.
    """
    if board.density is None:
        return None
    density = board.density.value
    if money is not None and board.key in money.embodied:
        each = money.embodied[board.key] * density
        return Made(
            each, each, each, "its maker's declaration, as the brief says", f"money.embodied.{board.key}", "document"
        )
    if resolved.products.has(board.key):
        told = resolved.products.product(board.key).embodied
        if told is not None:
            path = f"catalogue.product.{board.key}.embodied"
            return Made(told.value * density, told.low * density, told.high * density, told.basis, path, "practice")
    row = embodied_of(board.material)
    if row is None or row.by_mass is None:
        return None
    return _of(row.by_mass).times(density)


def of_bulk(kind: str, strength: float | None) -> Made | None:
    """Of a cubic metre of concrete, screed, gravel or sand; concrete by the strength of its cylinder. [MPa]"""
    row = embodied_concrete(strength) if kind == "concrete" else embodied_of(kind)
    return _of(row.by_volume) if row is not None and row.by_volume is not None else None


def of_film(thickness: float) -> Made | None:
    """Of a square metre of film. [m]"""
    row: EmbodiedRow | None = embodied_of("film")
    if row is None or row.by_mass is None or row.density is None:
        return None
    return _of(row.by_mass).times(row.density.value * thickness)


def _of(number: Quantity) -> Made:
    return Made(
        number.value, number.low, number.high, f"{number.source.title}: {number.where}", number.path, number.seen
    )
