"""Vapour through layers: what condenses where, and whether it dries again within the year (ISO 13788)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain, above_zero, not_below_zero

Array = NDArray[np.float64]

PERMEABILITY_OF_AIR = 2e-10  # kg/(m·s·Pa), ISO 13788: one value for all temperatures
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
A_DAY = 86400.0  # s
SETTLED = 1e-9  # kg/m²: what a year may leave different and still be the settled one
YEARS = 25  # after which what still gathers is told as gathering for good
DROP = 1e-12  # kg/m²: less is dry


def equivalent_air(permeance: float) -> float:
    """Thickness of still air that lets through as much vapour as a layer does.

    Parameters
    ----------
    permeance : float
        [kg/(Pa·s·m²)]

    Returns
    -------
    float
        Its s_d. [m]

    Raises
    ------
    OutOfDomain
        Permeance not above zero.

    Source
    ------
    ISO 13788:2012, 3.1 (from memory).

    Examples
    --------
    One perm is 57.2 ng/(Pa·s·m²):

    >>> round(equivalent_air(57.214e-12), 3)
    3.496
    """
    above_zero(permeance=permeance)
    return PERMEABILITY_OF_AIR / permeance


def permeance_of_laps(height: float, overlap: float, length: float) -> float:
    """What the air in untaped laps of a film lets through, spread over its whole area.

    Parameters
    ----------
    height : float
        Of the air between the two sheets. [m]
    overlap : float
        Breadth of the lap, which is how far vapour goes in it. [m]
    length : float
        Of seam on each square metre. [m/m²]

    Returns
    -------
    float
        [kg/(Pa·s·m²)]

    Raises
    ------
    OutOfDomain
        Height, overlap or length not above zero.

    Source
    ------
    Still air of ISO 13788:2012 between two tight sheets (derived).

    Examples
    --------
    A millimetre of air, 150 mm of lap, 0.35 m of seam on each square metre:

    >>> round(permeance_of_laps(0.001, 0.15, 0.35) * 1e12, 3)
    0.467
    """
    above_zero(height=height, overlap=overlap, length=length)
    return PERMEABILITY_OF_AIR * height / overlap * length


@dataclass(frozen=True, slots=True)
class Flow:
    """Vapour through layers at one moment, from the room on."""

    pressures: tuple[float, ...]  # at each interface, the two faces among them, Pa
    gained: tuple[float, ...]  # what each interface takes in, kg/(m²·s); below zero: it dries
    into: float  # kg/(m²·s) out of the room


def flow(
    air: Sequence[float], saturated: Sequence[float] | Array, room: float, beyond: float, wet: Sequence[bool] = ()
) -> Flow:
    """Vapour through layers whose interfaces cannot hold more than saturation.

    The pressure is the largest convex line below saturation between its two ends; where it touches, water condenses.
    Where an interface is wet it is held at saturation.

    Parameters
    ----------
    air : sequence of n + 1 floats
        How far each interface lies from the room's face, as still air (s_d), not falling. [m]
    saturated : sequence of n + 1 floats
        Saturation pressure at each. [Pa]
    room, beyond : float
        Vapour pressure at the two faces; more than saturation is cut to it. [Pa]
    wet : sequence of n + 1 bools
        Where water already lies; the faces do not count. Left out: nowhere. [1]

    Returns
    -------
    Flow
        Pressures at the interfaces [Pa], what each takes in and what leaves the room [kg/(m²·s)].

    Raises
    ------
    OutOfDomain
        Fewer than two interfaces, depths that fall or do not grow at all, pressures not above zero.

    Source
    ------
    ISO 13788:2012, 6.4 (from memory): Glaser's construction.

    Examples
    --------
    A layer like 1 m of still air between 1000 and 500 Pa lets 1e-7 kg/(m²·s) through:

    >>> round(flow((0.0, 1.0), (2000.0, 2000.0), 1000.0, 500.0).into, 12)
    1e-07
    """
    last = len(air) - 1
    if last < 1 or any(b < a for a, b in pairwise(air)) or air[last] <= air[0]:
        raise OutOfDomain(f"air must be two depths or more that grow, got {air!r}")
    above_zero(saturated=saturated)
    not_below_zero(room=room, beyond=beyond)
    held = [n for n in range(1, last) if wet and wet[n]]
    level = [*saturated]
    level[0], level[last] = min(room, saturated[0]), min(beyond, saturated[last])
    corners = [0]
    for start, stop in zip([0, *held], [*held, last], strict=True):
        corners += _hull(air, level, start, stop)
    pressures = np.interp(air, [air[n] for n in corners], [level[n] for n in corners])
    rates = {(a, b): PERMEABILITY_OF_AIR * (level[a] - level[b]) / (air[b] - air[a]) for a, b in pairwise(corners)}
    gained = [0.0] * (last + 1)
    for before, here, after in zip(corners, corners[1:], corners[2:], strict=False):
        gained[here] = rates[before, here] - rates[here, after]
    return Flow(tuple(float(each) for each in pressures), tuple(gained), rates[corners[0], corners[1]])


def _hull(air: Sequence[float], level: Sequence[float], start: int, stop: int) -> list[int]:
    """Corners after ``start`` of the lower convex line between two interfaces."""
    corners = [start]
    for n in range(start + 1, stop + 1):
        while len(corners) > 1 and _bends_up(air, level, corners[-2], corners[-1], n):
            corners.pop()
        if air[n] > air[corners[-1]]:
            corners.append(n)
        elif level[n] < level[corners[-1]] and corners[-1] != start:
            corners[-1] = n
    if corners[-1] != stop:
        corners[-1] = stop
    return corners[1:]


def _bends_up(air: Sequence[float], level: Sequence[float], a: int, b: int, c: int) -> bool:
    """Whether b lies on or above the line from a to c."""
    return (level[b] - level[a]) * (air[c] - air[a]) >= (level[c] - level[a]) * (air[b] - air[a])


@dataclass(frozen=True, slots=True)
class WetYear:
    """Twelve settled months of water at each interface; where it gathers for good, the first twelve."""

    first: int  # the month that was begun with, 0 to 11: the first in which something condenses
    water: Array  # (12, n + 1) at the end of each calendar month, kg/m²
    gained: Array  # (12, n + 1) in each calendar month, kg/m²; below zero: it dries
    into: Array  # (12,) out of the room in each, kg/m²
    pressures: Array  # (12, n + 1) at its beginning, Pa
    each_year: float  # what one year more adds at all interfaces together, kg/m²; 0 where all of it dries

    @property
    def most(self) -> float:
        """Water at the wettest interface in the wettest month. [kg/m²]"""
        return float(self.water.max())


def wet_year(air: Sequence[float], saturated: Array, room: Sequence[float], beyond: Sequence[float]) -> WetYear:
    """A year of months in which water condenses, stays and dries, begun dry where the first drop falls.

    Parameters
    ----------
    air : sequence of n + 1 floats
        How far each interface lies from the room's face, as still air (s_d). [m]
    saturated : ndarray, (12, n + 1)
        Saturation pressure at each interface, month by month. [Pa]
    room, beyond : sequence of 12 floats
        Vapour pressure at the two faces. [Pa]

    Returns
    -------
    WetYear
        Water at each interface and what passes, month by month. [kg/m²]

    Raises
    ------
    OutOfDomain
        Not twelve months; else as ``flow``.

    Source
    ------
    ISO 13788:2012, 6.4 and 6.5 (from memory). A month in which an interface dries out is parted where it does.

    Examples
    --------
    Warm and moist inside, cold beyond a tight layer, all year: what condenses in the middle stays.

    >>> level = np.tile([2000.0, 800.0, 600.0], (12, 1))
    >>> year = wet_year((0.0, 1.0, 100.0), level, [1500.0] * 12, [500.0] * 12)
    >>> year.each_year > 4.0
    True
    """
    saturated = np.asarray(saturated, dtype=float)
    if saturated.shape != (12, len(air)) or len(room) != 12 or len(beyond) != 12:
        raise OutOfDomain(f"twelve months of {len(air)} interfaces are wanted, got {saturated.shape}")
    dry = [flow(air, saturated[m], room[m], beyond[m]) for m in range(12)]
    wetting = [any(rate > 0.0 for rate in each.gained) for each in dry]
    first = next((m for m in range(12) if wetting[m] and not wetting[m - 1]), 0)
    if not any(wetting):
        nothing = np.zeros_like(saturated)
        into = np.array([each.into * days * A_DAY for each, days in zip(dry, DAYS, strict=True)])
        return WetYear(0, nothing, nothing, into, np.array([each.pressures for each in dry]), 0.0)
    year = begun = _followed(air, saturated, room, beyond, first, np.zeros(len(air)))
    for _ in range(YEARS):
        further = _followed(air, saturated, room, beyond, first, year.water[first - 1])
        if abs(further.each_year) < SETTLED:
            return replace(further, each_year=0.0)
        if abs(further.each_year - year.each_year) < SETTLED:
            break
        year = further
    return replace(begun, each_year=further.each_year)


def _followed(
    air: Sequence[float], saturated: Array, room: Sequence[float], beyond: Sequence[float], first: int, water: Array
) -> WetYear:
    """One year from its first month on, begun with ``water``."""
    begun = water
    ends, gains, pressures = (np.zeros_like(saturated) for _ in range(3))
    into = np.zeros(12)
    for m in [(first + n) % 12 for n in range(12)]:
        start = water
        water, into[m], pressures[m] = _month(air, saturated[m], room[m], beyond[m], start, DAYS[m] * A_DAY)
        ends[m], gains[m] = water, water - start
    return WetYear(first, ends, gains, into, pressures, float(water.sum() - begun.sum()))


def _month(
    air: Sequence[float], saturated: Array, room: float, beyond: float, water: Array, left: float
) -> tuple[Array, float, tuple[float, ...]]:
    """Water at the end of a month, what left the room in it, and the pressures at its beginning."""
    water, into = water.copy(), 0.0
    first: tuple[float, ...] = ()
    while left > 0.0:
        at = flow(air, saturated, room, beyond, [bool(each > 0.0) for each in water])
        first = first or at.pressures
        gained = np.asarray(at.gained)
        drying = (gained < 0.0) & (water > 0.0)
        spans = -water[drying] / gained[drying]
        span = min(left, float(spans.min())) if spans.size else left
        water += gained * span
        if spans.size and span < left:
            water[drying] = np.where(spans <= span, 0.0, water[drying])
        water = np.where(water > DROP, water, 0.0)
        into += at.into * span
        left -= span
    return water, into, first
