"""Buoyancy: how hard water lifts what stands in it."""

from __future__ import annotations

from .bearing import GRAVITY
from .domain import above_zero, not_below_zero

WATER = 1000.0  # kg/m³


def lift(above: float) -> float:
    """Pressure of still water from below.

    Parameters
    ----------
    above : float
        How far the water stands above the underside that it presses on. [m]

    Returns
    -------
    float
        [Pa]

    Raises
    ------
    OutOfDomain
        The height is below zero.

    Source
    ------
    Hydrostatics: density of water times gravity times height.

    Examples
    --------
    >>> lift(0.5)
    4903.325
    """
    not_below_zero(above=above)
    return WATER * GRAVITY * above


def ballast(thickness: float, density: float, liquid: float = WATER) -> float:
    """What must lie on each area of a board so that it does not float when a liquid stands all round it.

    Parameters
    ----------
    thickness, density : float
        Of the board. [m, kg/m³]
    liquid : float
        Density of the liquid: water, or wet concrete. [kg/m³]

    Returns
    -------
    float
        Pressure; nought for a board heavier than the liquid. [Pa]

    Raises
    ------
    OutOfDomain
        A thickness or density not above zero.

    Source
    ------
    Archimedes: (density of the liquid − that of the board) times thickness times gravity.

    Examples
    --------
    >>> round(ballast(0.05, 30.0) / 9.80665, 6)  # kg/m²
    48.5
    """
    above_zero(thickness=thickness, density=density, liquid=liquid)
    return max(liquid - density, 0.0) * thickness * GRAVITY
