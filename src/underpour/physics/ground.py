"""Steady heat loss of floors and basement walls that touch the ground (ISO 13370).

Here only as the U-values that an edge's linear transmittance is taken against.
"""

from __future__ import annotations

import numpy as np

from .domain import above_zero


def characteristic_dimension(area: float, exposed_perimeter: float) -> float:
    """Characteristic dimension of a floor on the ground: its area over half of its exposed perimeter.

    Parameters
    ----------
    area : float
        Floor area inside the walls. [m²]
    exposed_perimeter : float
        Floor edge that faces outdoors; an edge shared with a heated space does not count. [m]

    Returns
    -------
    float
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


def equivalent_thickness(wall: float, ground_conductivity: float, resistance: float) -> float:
    """Thickness of ground with the resistance of the floor's layers and films, and the wall's foot.

    Parameters
    ----------
    wall : float
        Full thickness of the walls. [m]
    ground_conductivity : float
        [W/(m·K)]
    resistance : float
        Layers of the floor with both surface films. [m²·K/W]

    Returns
    -------
    float
        Total equivalent thickness d. [m]

    Raises
    ------
    OutOfDomain
        Conductivity or resistance not above zero.

    Source
    ------
    ISO 13370:2017, total equivalent thickness (clause: from memory).

    Examples
    --------
    >>> equivalent_thickness(wall=0.3, ground_conductivity=2.0, resistance=0.25)
    0.8
    """
    above_zero(ground_conductivity=ground_conductivity, resistance=resistance)
    return wall + ground_conductivity * resistance


def floor_transmittance(dimension: float, thickness: float, ground_conductivity: float, depth: float = 0.0) -> float:
    """Steady thermal transmittance of a floor on the ground, ground included, edges untreated.

    Parameters
    ----------
    dimension : float
        Characteristic dimension B. [m]
    thickness : float
        Total equivalent thickness d. [m]
    ground_conductivity : float
        [W/(m·K)]
    depth : float
        Depth z of a basement floor below the ground outside; 0 for a slab on the ground. [m]

    Returns
    -------
    float
        U. [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        Dimension, thickness or conductivity not above zero.

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
    deep = thickness + depth / 2.0
    if deep < dimension:
        across = np.pi * dimension
        return float(2.0 * ground_conductivity / (across + deep) * np.log(across / deep + 1.0))
    return ground_conductivity / (0.457 * dimension + deep)


def basement_wall_transmittance(
    depth: float, floor_thickness: float, wall_thickness: float, ground_conductivity: float
) -> float:
    """Steady thermal transmittance of a basement wall against the ground, ground included.

    Parameters
    ----------
    depth : float
        Depth z of the floor below the ground outside. [m]
    floor_thickness : float
        Total equivalent thickness d of the floor. [m]
    wall_thickness : float
        Total equivalent thickness of the wall, its conductivity times (films and layers). [m]
    ground_conductivity : float
        [W/(m·K)]

    Returns
    -------
    float
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
    floor = min(floor_thickness, wall_thickness)
    return float(
        2.0
        * ground_conductivity
        / (np.pi * depth)
        * (1.0 + 0.5 * floor / (floor + depth))
        * np.log(depth / wall_thickness + 1.0)
    )


def edge_transmittance(
    coupling: float, half_width: float, floor: float, walls: tuple[tuple[float, float], ...]
) -> float:
    """Linear thermal transmittance of a floor's edge.

    Parameters
    ----------
    coupling : float
        Heat through floor and wall of the section for one kelvin between room and outdoors. [W/(m·K)]
    half_width : float
        Width of floor in the section, half of the characteristic dimension. [m]
    floor : float
        U of the floor, ground included. [W/(m²·K)]
    walls : tuple of (height, U)
        Parts of the wall in the section, inside dimensions. [m, W/(m²·K)]

    Returns
    -------
    float
        psi. [W/(m·K)]

    Source
    ------
    ISO 10211:2017, 10.4, wall and floor junction in contact with the ground (clause: from memory).

    Examples
    --------
    >>> round(edge_transmittance(2.0, 4.0, 0.2, ((1.0, 1.1),)), 3)
    0.1
    """
    return coupling - half_width * floor - sum(height * u for height, u in walls)
