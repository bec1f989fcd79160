"""The factors that the standard's curve of heated floors is made of, between the printed ones, and its limits."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import cache

from .read import quantity, table
from .records import Quantity


def curve_factors(spacing: float, covering: float) -> tuple[float, float, float]:
    """a_T, a_U and a_D for a spacing and a covering, straight between the printed ones. [m, m²·K/W]

    >>> curve_factors(0.2, 0.05)
    (1.188, 1.041, 1.04)
    """
    coverings, spacings, factors = _curve()
    n, along = _between(coverings, covering)
    m, down = _between(spacings, spacing)

    def at(factor: int) -> float:
        rows = [[factors[i, j][factor] for i in (n, n + 1)] for j in (m, m + 1)]
        one, other = ((1.0 - along) * row[0] + along * row[1] for row in rows)
        return (1.0 - down) * one + down * other

    return at(0), at(1), at(2)


@cache
def _curve() -> tuple[list[float], list[float], dict[tuple[int, int], tuple[float, float, float]]]:
    """The coverings, the spacings, and the three factors by the places of both."""
    rows = table("heated_floor_curve")["row"]
    coverings, spacings = (sorted({row[name] for row in rows}) for name in ("covering", "spacing"))
    factors = {
        (coverings.index(row["covering"]), spacings.index(row["spacing"])): (
            row["by-spacing"],
            row["by-cover"],
            row["by-diameter"],
        )
        for row in rows
    }
    return coverings, spacings, factors


def _between(places: Sequence[float], at: float) -> tuple[int, float]:
    """Which two places it lies between, and how far along. Beyond the ends the end counts."""
    n = min(max(bisect_right(places, at) - 1, 0), len(places) - 2)
    return n, min(max((at - places[n]) / (places[n + 1] - places[n]), 0.0), 1.0)


def above_room(where: str) -> Quantity:
    """How much warmer than its room a heated floor may be: occupied, edge or bathroom. [K]

    >>> above_room("occupied").value
    9.0
    """
    return quantity(table("heated_floors")["limit"][where]["above-room"], f"catalogue.heated-floor.{where}")


def heated_floor_numbers() -> dict[str, Quantity]:
    """Every number that heated floors are worked out with, by its key, each in its own unit."""
    of = table("heated_floors")
    limits = {key: above_room(key) for key in of["limit"]}
    return limits | {"water": warmest_water()} | {key: usual(key) for key in of["usual"]}


def warmest_water() -> Quantity:
    """That concrete and screed of cement stand around tubes. [degC]

    >>> warmest_water().value
    55.0
    """
    return quantity(table("heated_floors")["water"]["concrete"]["limit"], "catalogue.heated-floor.water")


def usual(name: str) -> Quantity:
    """What practice takes of heated floors, by the names of its table; each in its unit.

    >>> usual("pump-head").value
    40.0
    """
    return quantity(table("heated_floors")["usual"][name]["number"], f"catalogue.heated-floor.{name}")
