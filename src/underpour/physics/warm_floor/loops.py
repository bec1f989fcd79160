"""Loops before they are drawn: how many, how long, and how much water, by area and spacing alone."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from ..domain import OutOfDomain, above_zero, not_below_zero


@dataclass(frozen=True, slots=True)
class Loops:
    """Loops of one floor, all alike."""

    count: int
    mean_length: float  # m, each with its leaders
    tube: float  # m, of all


def loops(area: float, spacing: float, leader: float, longest: float, count: int | None = None) -> Loops:
    """How many loops a floor needs so that none is longer than the longest allowed, or how long so many are.

    Parameters
    ----------
    area : float
        With tubes in it. [m²]
    spacing : float
        From tube to tube. [m]
    leader : float
        From the manifold to the loop's field, one way. [m]
    longest : float
        That a loop may be, leaders counted. [m]
    count : int or None
        How many there are; None for as few as stay below the longest. [1]

    Returns
    -------
    Loops
        [1, m]

    Raises
    ------
    OutOfDomain
        Area, spacing or longest not above zero, a leader below zero, leaders that take the whole loop.

    Source
    ------
    Geometry; common practice, no source. Nothing is drawn: turns, walls and posts are not seen.

    Examples
    --------
    100 m² spaced by 0.2 m are 500 m; with 2 times 5 m of leaders and 90 m at most seven loops of 81.4 m.

    >>> made = loops(100.0, 0.2, 5.0, 90.0)
    >>> made.count, round(made.mean_length, 1)
    (7, 81.4)
    """
    above_zero(area=area, spacing=spacing, longest=longest)
    not_below_zero(leader=leader)
    field = longest - 2.0 * leader
    if not field > 0.0:
        raise OutOfDomain(f"leaders of {leader} m take the whole of a loop of {longest} m")
    laid = area / spacing
    count = count or ceil(laid / field - 1e-9)
    return Loops(count, laid / count + 2.0 * leader, laid + 2.0 * leader * count)


def flow(power: float, drop: float, density: float, heat_capacity: float) -> float:
    """Water that carries so much heat while it cools by so much.

    Parameters
    ----------
    power : float
        [W]
    drop : float
        [K]
    density : float
        [kg/m³]
    heat_capacity : float
        By mass. [J/(kg·K)]

    Returns
    -------
    float
        [m³/s]

    Raises
    ------
    OutOfDomain
        A number not above zero.

    Source
    ------
    Balance of energy.

    Examples
    --------
    >>> flow(4000.0, 1.0, 1000.0, 4000.0)
    0.001
    """
    above_zero(power=power, drop=drop, density=density, heat_capacity=heat_capacity)
    return power / (drop * density * heat_capacity)


def spread(lengths: tuple[float, ...]) -> float:
    """How unlike the loops of one manifold are: longest less shortest over their mean.

    Parameters
    ----------
    lengths : tuple of float
        [m]

    Returns
    -------
    float
        [1]

    Raises
    ------
    OutOfDomain
        No loop, or one without length.

    Source
    ------
    Common practice, no source: equal within 5 %, where valves do not even them.

    Examples
    --------
    >>> round(spread((90.0, 100.0, 110.0)), 3)
    0.2
    """
    if not lengths:
        raise OutOfDomain("there are no loops")
    above_zero(lengths=lengths)
    return (max(lengths) - min(lengths)) * len(lengths) / sum(lengths)
