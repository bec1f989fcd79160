"""What heats the water: what a heat pump and a condensing boiler make of theirs, by how warm the water must be."""

from __future__ import annotations

from math import inf

from ..domain import OutOfDomain, above_zero, not_below_zero

ZERO = 273.15


def heat_for_electricity(share: float, supply: float, air: float, apart: float) -> float:
    """Heat that a heat pump gives for its electricity, as a share of the best that nature allows.

    Parameters
    ----------
    share : float
        Of that best, above 0 to 1. [1]
    supply, air : float
        Water that leaves it, air that it takes heat from. [degC]
    apart : float
        How much warmer than the water what gives it its heat is, and how much cooler than the air what takes it. [K]

    Returns
    -------
    float
        Infinite where the air is as warm as what warms the water: there any machine does. [1]

    Raises
    ------
    OutOfDomain
        A share outside 0 to 1, or ``apart`` below zero.

    Source
    ------
    Carnot's limit; that machines reach a steady share of it is practice.

    Examples
    --------
    Half of 300 K over 30 K.

    >>> round(heat_for_electricity(0.5, 26.85, -3.15, 0.0), 6)
    5.0
    """
    not_below_zero(apart=apart)
    if not 0.0 < share <= 1.0:
        raise OutOfDomain(f"a share of the best lies between 0 and 1, got {share!r}")
    lift = supply - air + 2.0 * apart
    return share * (supply + apart + ZERO) / lift if lift > 0.0 else inf


def heat_for_fuel(back: float, dew: float, at_dew: float, cool: float, at_cool: float) -> float:
    """Heat that a condensing boiler gives for its fuel, by how cool the water comes back to it.

    Parameters
    ----------
    back : float
        Water that comes back. [degC]
    dew : float
        Warmth from which on nothing condenses. [degC]
    at_dew : float
        What it gives there, of the fuel's higher heating value. [1]
    cool : float
        Warmth of another reading, below ``dew``; cooler water gives no more than this. [degC]
    at_cool : float
        What it gives there. [1]

    Returns
    -------
    float
        Straight between the two readings. [1]

    Raises
    ------
    OutOfDomain
        A second reading that is not cooler and better, or a share that is not above zero.

    Source
    ------
    Two readings of a boiler's curve; that it runs straight between them is practice.

    Examples
    --------
    Halfway.

    >>> round(heat_for_fuel(40.0, 55.0, 0.87, 25.0, 0.97), 6)
    0.92
    """
    above_zero(at_dew=at_dew)
    if not (cool < dew and at_cool >= at_dew):
        raise OutOfDomain(f"the second reading must be cooler and no worse, got {cool!r} °C and {at_cool!r}")
    along = min(max((dew - back) / (dew - cool), 0.0), 1.0)
    return at_dew + along * (at_cool - at_dew)
