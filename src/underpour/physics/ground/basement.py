"""Steady heat loss of basements, heated and not (ISO 13370); for their floors see ``slab.floor_transmittance``."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, above_zero, not_below_zero, plain

AIR = 0.33 * 3600.0  # J/(m³·K): the standard's 0.33 Wh/(m³·K), heat that a volume of air carries


def basement_wall_transmittance(
    depth: Numbers, floor_thickness: Numbers, wall_thickness: Numbers, ground_conductivity: Numbers
) -> Numbers:
    """Steady thermal transmittance of a basement wall against the ground, ground included.

    Parameters
    ----------
    depth : float or ndarray
        Depth z of the floor below the ground outside. [m]
    floor_thickness : float or ndarray, broadcast
        Total equivalent thickness d of the floor. [m]
    wall_thickness : float or ndarray, broadcast
        Total equivalent thickness of the wall, its conductivity times (films and layers). [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        U. [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        An argument not above zero.

    Source
    ------
    ISO 13370:2017, basement walls (from memory, not confirmed by a published value yet).

    Examples
    --------
    z = 2 m, 1.5 W/(m·K), dw = 0.5 m, less than d and so taken for it: 3/(2 pi) (1 + 0.25/2.5) ln 5.

    >>> round(basement_wall_transmittance(2.0, 1.0, 0.5, 1.5), 4)
    0.8453
    """
    above_zero(
        depth=depth,
        floor_thickness=floor_thickness,
        wall_thickness=wall_thickness,
        ground_conductivity=ground_conductivity,
    )
    floor = np.minimum(floor_thickness, wall_thickness)
    return plain(
        2.0
        * ground_conductivity
        / (np.pi * depth)
        * (1.0 + 0.5 * floor / (floor + depth))
        * np.log(depth / wall_thickness + 1.0)
    )


def heated_basement_coupling(
    area: Numbers, floor: Numbers, depth: Numbers, exposed_perimeter: Numbers, wall: Numbers
) -> Numbers:
    """Steady heat transfer coefficient of a heated basement: floor and walls below the ground outside.

    Parameters
    ----------
    area : float or ndarray
        Of the floor. [m²]
    floor : float or ndarray, broadcast
        U of the floor at its depth, ground included. [W/(m²·K)]
    depth : float or ndarray, broadcast
        Depth z of the floor below the ground outside. [m]
    exposed_perimeter : float or ndarray, broadcast
        [m]
    wall : float or ndarray, broadcast
        U of the walls below the ground outside, ground included. [W/(m²·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_g, wall above the ground not counted; over area + depth × perimeter it is the effective U'. [W/K]

    Raises
    ------
    OutOfDomain
        An argument not above zero.

    Source
    ------
    ISO 13370:2017, heated basement (clause: from memory).

    Examples
    --------
    >>> heated_basement_coupling(area=80.0, floor=0.25, depth=2.0, exposed_perimeter=36.0, wall=0.5)
    56.0
    """
    above_zero(area=area, floor=floor, depth=depth, exposed_perimeter=exposed_perimeter, wall=wall)
    return area * floor + depth * exposed_perimeter * wall


def unheated_basement_transmittance(
    floor_above: Numbers, area: Numbers, below: Numbers, walls_above: Numbers, air_flow: Numbers
) -> Numbers:
    """Steady thermal transmittance of the floor between heated rooms and an unheated basement, all below it included.

    Parameters
    ----------
    floor_above : float or ndarray
        U of the floor between the rooms and the basement. [W/(m²·K)]
    area : float or ndarray, broadcast
        [m²]
    below : float or ndarray, broadcast
        What a heated basement of the same make would lose to the ground (``heated_basement_coupling``). [W/K]
    walls_above : float or ndarray, broadcast
        What its walls above the ground pass: height × perimeter × U. [W/K]
    air_flow : float or ndarray, broadcast
        Outdoor air through the basement: air changes × volume. [m³/s]

    Returns
    -------
    float or ndarray, the broadcast shape
        U. [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        The floor's U, the area or the loss below not above zero, or walls or air flow below zero.

    Source
    ------
    ISO 13370:2017, unheated basement (from memory, no published value found).

    Examples
    --------
    Floor of 0.5 W/(m²·K) and 100 m², 50 W/K below, no wall above the ground, no air: 1 / (2 + 2).

    >>> unheated_basement_transmittance(0.5, 100.0, 50.0, 0.0, 0.0)
    0.25
    """
    above_zero(floor_above=floor_above, area=area, below=below)
    not_below_zero(walls_above=walls_above, air_flow=air_flow)
    return 1.0 / (1.0 / floor_above + area / (below + walls_above + AIR * air_flow))
