"""Hours one after another: the implicit rules of the textbooks, one factorisation for all hours."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from underpour.physics.year import YEAR

from ..posed import Case
from . import triangles
from .triangles import System

Array = NDArray[np.float64]
HOURS = 8760  # steps of a year


@dataclass(frozen=True)
class Stepping:
    """A section between two hours: what is solved, and what the last hour brings into it."""

    posed: System
    solve: Callable[[Array], Array]
    carried: object  # matrix, W/(m·K)
    theta: float  # 1 for backward Euler, 1/2 for Crank-Nicolson


def stepping(posed: System, theta: float, of_a_year: int = HOURS) -> Stepping:
    stores = posed.storage * (of_a_year / YEAR)  # type: ignore[operator]
    solve = triangles.factored((stores + theta * posed.conduction).tocsc())
    return Stepping(posed, solve, (stores - (1.0 - theta) * posed.conduction).tocsr(), theta)


def hours(case: Case, by: Stepping, air: Array, count: int, start: Array | None = None) -> Array:
    """Heat that the room gives off at each hour, the year of air coming round and round. [W/m]

    It begins, unless ``start`` says otherwise, settled to the mean of the year.
    """
    posed, theta, room = by.posed, by.theta, case.climates["room"].mean
    warm = posed.room * room
    now = start
    if now is None:
        now = triangles.symmetric(posed.conduction, warm + posed.outdoors * case.climates["outdoors"].mean)
    told = np.empty(count)
    offered = posed.room.sum() * room
    for hour in range(count):
        felt = theta * air[(hour + 1) % len(air)] + (1.0 - theta) * air[hour % len(air)]
        now = by.solve(by.carried @ now + warm + posed.outdoors * felt)  # type: ignore[operator]
        told[hour] = offered - posed.room @ now
    return told


def last_year(case: Case, by: Stepping, air: Array, years: int = 2) -> Array:
    """The last of some years from a settled start, hour 0 first. [W/m]"""
    return np.roll(hours(case, by, air, years * len(air))[-len(air) :], 1)
