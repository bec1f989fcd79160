"""Steady heat loss of floors on the ground: bare, moderately and well insulated (ISO 13370), and Macey's older way."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain

JOINS = 0.457  # makes the two branches meet: pi c + 1 = exp((pi + 1) / (2 (c + 1))) at c = 0.457


def characteristic_dimension(area: Numbers, exposed_perimeter: Numbers) -> Numbers:
    """Characteristic dimension of a floor on the ground: its area over half of its exposed perimeter.

    Parameters
    ----------
    area : float or ndarray
        Floor area inside the walls. [m²]
    exposed_perimeter : float or ndarray, broadcast against ``area``
        Floor edge that faces outdoors; an edge shared with a heated space does not count. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        Characteristic dimension B. [m]

    Raises
    ------
    OutOfDomain
        Either argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, characteristic dimension of floor (clause: from memory).

    Examples
    --------
    >>> characteristic_dimension(area=80.0, exposed_perimeter=40.0)
    4.0
    """
    above_zero(area=area, exposed_perimeter=exposed_perimeter)
    return 2.0 * area / exposed_perimeter


def equivalent_thickness(wall: Numbers, ground_conductivity: Numbers, resistance: Numbers) -> Numbers:
    """Thickness of ground with the resistance of the floor's layers and films, and the wall's foot.

    Parameters
    ----------
    wall : float or ndarray
        Full thickness of the walls; 0 for a wall against the ground, whose foot does not count. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]
    resistance : float or ndarray, broadcast
        Layers of the floor, or of the wall, with both surface films. [m²·K/W]

    Returns
    -------
    float or ndarray, the broadcast shape
        Total equivalent thickness d. [m]

    Raises
    ------
    OutOfDomain
        Conductivity or resistance not above zero, or a wall below zero.

    Source
    ------
    ISO 13370:2017, total equivalent thickness (clause: from memory).

    Examples
    --------
    >>> equivalent_thickness(wall=0.3, ground_conductivity=2.0, resistance=0.25)
    0.8
    """
    above_zero(ground_conductivity=ground_conductivity, resistance=resistance)
    not_below_zero(wall=wall)
    return wall + ground_conductivity * resistance


def floor_transmittance(
    dimension: Numbers, thickness: Numbers, ground_conductivity: Numbers, depth: Numbers = 0.0
) -> Numbers:
    """Steady thermal transmittance of a floor on the ground, ground included, edges untreated.

    Parameters
    ----------
    dimension : float or ndarray
        Characteristic dimension B. [m]
    thickness : float or ndarray, broadcast
        Total equivalent thickness d. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]
    depth : float or ndarray, broadcast
        Depth z of a basement floor below the ground outside; 0 for a slab on the ground. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        U. [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        Dimension, thickness or conductivity not above zero, or a depth below zero.

    Source
    ------
    ISO 13370:2017, slab-on-ground and basement floors: two branches, split where d + z/2 = B (clause: from memory).

    Examples
    --------
    Well insulated, B = 4 m, d = 6 m, 2 W/(m·K): 2 / (0.457 * 4 + 6).

    >>> round(floor_transmittance(4.0, 6.0, 2.0), 4)
    0.2555
    """
    above_zero(dimension=dimension, thickness=thickness, ground_conductivity=ground_conductivity)
    not_below_zero(depth=depth)
    deep = thickness + depth / 2.0
    across = np.pi * dimension
    bare_or_moderate = 2.0 * ground_conductivity / (across + deep) * np.log(across / deep + 1.0)
    well = ground_conductivity / (JOINS * dimension + deep)
    return plain(np.where(deep < dimension, bare_or_moderate, well))


def steady_coupling(area: Numbers, transmittance: Numbers, exposed_perimeter: Numbers, edge: Numbers = 0.0) -> Numbers:
    """Steady heat transfer coefficient of a floor with its edges: what it loses by kelvin on the mean of the year.

    Parameters
    ----------
    area : float or ndarray
        [m²]
    transmittance : float or ndarray, broadcast
        U of the floor, ground included. [W/(m²·K)]
    exposed_perimeter : float or ndarray, broadcast
        [m]
    edge : float or ndarray, broadcast
        Sum of the edge's linear transmittances: of its foam, below zero, and of the junction with the wall. [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_g. [W/K]

    Raises
    ------
    OutOfDomain
        Area, transmittance or perimeter not above zero.

    Source
    ------
    ISO 13370:2017, steady-state ground heat transfer coefficient (clause: from memory).

    Examples
    --------
    >>> steady_coupling(area=100.0, transmittance=0.25, exposed_perimeter=40.0, edge=-0.125)
    20.0
    """
    above_zero(area=area, transmittance=transmittance, exposed_perimeter=exposed_perimeter)
    return area * transmittance + exposed_perimeter * edge


def macey_transmittance(breadth: Numbers, length: Numbers, wall: Numbers, ground_conductivity: Numbers) -> Numbers:
    """Steady thermal transmittance of a bare rectangular floor with four exposed edges, Macey's way.

    Parameters
    ----------
    breadth : float or ndarray
        The shorter side. [m]
    length : float or ndarray, broadcast
        The longer side; infinite for a floor with two exposed edges only. [m]
    wall : float or ndarray, broadcast
        Thickness of the walls. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        U. [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        An argument not above zero, or a breadth above the length.

    Source
    ------
    Macey 1949, Journal of the Institute of Fuel 22, 369 (from memory); CIBSE Guide A3 (quoted).

    Examples
    --------
    An endless floor 8 m wide, walls 0.32 m, 1 W/(m·K): 2/(pi 4) artanh(4/4.16).

    >>> round(macey_transmittance(8.0, float("inf"), 0.32, 1.0), 4)
    0.3129
    """
    above_zero(breadth=breadth, length=length, wall=wall, ground_conductivity=ground_conductivity)
    if np.any(np.asarray(breadth) > np.asarray(length)):
        raise OutOfDomain(f"breadth must be the shorter side, got {breadth!r} by {length!r}")
    half = breadth / 2.0
    shape = np.exp(breadth / (2.0 * np.asarray(length)))
    return plain(2.0 * ground_conductivity * shape / (np.pi * half) * np.arctanh(half / (half + wall / 2.0)))
