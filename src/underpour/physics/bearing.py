"""Bearing: how hard foam is pressed, and how hard it may be pressed for good."""

from __future__ import annotations

from .domain import above_zero

GRAVITY = 9.80665  # m/s², standard acceleration of free fall


def strip_weight(width: float, height: float, density: float) -> float:
    """Weight of a strip footing on each metre of its length.

    Parameters
    ----------
    width, height : float
        Of the strip's cross-section. [m]
    density : float
        Of what it is made of. [kg/m³]

    Returns
    -------
    float
        Weight by length. [N/m]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    Weight is mass times 9.80665 m/s² (ISO 80000-3, from memory).

    Examples
    --------
    >>> round(strip_weight(0.5, 0.25, 2400.0), 2)  # 0.125 m² × 2400 × 9.80665
    2941.99
    """
    above_zero(width=width, height=height, density=density)
    return width * height * density * GRAVITY


def thrust_at_foot(pressure: float, height: float) -> float:
    """Push of the ground on a wall that it stands against, all of it, as if nothing but its foot were held.

    Parameters
    ----------
    pressure : float
        What the ground presses with for each metre of depth. [N/m³]
    height : float
        Of the ground over what holds the foot. [m]

    Returns
    -------
    float
        Push by length. [N/m]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    A pressure that grows with depth: the area of its triangle. A floor above takes a third of it where the ground
    reaches up to that floor, and less where it does not.

    Examples
    --------
    >>> thrust_at_foot(10e3, 2.0)  # 20 kPa at the foot, over two metres
    20000.0
    """
    above_zero(pressure=pressure, height=height)
    return pressure * height**2 / 2.0


def strip_pressure(load: float, weight: float, width: float) -> float:
    """Even pressure below a stiff strip footing that is loaded in its middle.

    Parameters
    ----------
    load : float
        Force on the top of the footing by length. [N/m]
    weight : float
        The footing's own, by length. [N/m]
    width : float
        What the strip bears on, the narrower of footing and foam. [m]

    Returns
    -------
    float
        Pressure. [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    Equilibrium of forces: a strip that is stiff and loaded in its middle presses evenly.

    Examples
    --------
    >>> strip_pressure(20e3, 3e3, 0.5)  # 23 kN/m on half a metre
    46000.0
    """
    above_zero(load=load, weight=weight, width=width)
    return (load + weight) / width
