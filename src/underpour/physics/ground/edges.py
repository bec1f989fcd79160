"""Linear transmittance of a floor's edge: of the foam laid there (ISO 13370), and of the junction (ISO 10211)."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain


def added_thickness(resistance: Numbers, thickness: Numbers, ground_conductivity: Numbers) -> Numbers:
    """Thickness of ground that edge foam is worth, beyond the ground or floor whose place it takes.

    Parameters
    ----------
    resistance : float or ndarray
        Of the edge foam. [m²·K/W]
    thickness : float or ndarray, broadcast
        Of the edge foam; 0 counts nothing for the ground it takes the place of. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        Additional equivalent thickness d'. [m]

    Raises
    ------
    OutOfDomain
        Resistance or conductivity not above zero, thickness below zero, or a strip that conducts better than ground.

    Source
    ------
    ISO 13370:2017, slab with edge insulation, d' = (R_n - d_n / lambda) lambda (clause: from memory).

    Examples
    --------
    >>> added_thickness(resistance=1.5, thickness=0.1, ground_conductivity=2.0)
    2.9
    """
    above_zero(resistance=resistance, ground_conductivity=ground_conductivity)
    not_below_zero(thickness=thickness)
    added = resistance * ground_conductivity - thickness
    if not np.all(np.asarray(added) > 0.0):
        raise OutOfDomain(f"edge foam must resist more than the ground in its place, got {resistance!r} m²·K/W")
    return added


def horizontal_edge_transmittance(
    width: Numbers, thickness: Numbers, added: Numbers, ground_conductivity: Numbers
) -> Numbers:
    """What a level strip of foam along the edge takes off a floor's loss, by metre of exposed perimeter.

    Parameters
    ----------
    width : float or ndarray
        Of the strip, from the wall inwards (or outwards). [m]
    thickness : float or ndarray, broadcast
        Total equivalent thickness d of the floor without the strip. [m]
    added : float or ndarray, broadcast
        Additional equivalent thickness d' of the strip. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        psi_g,e, below zero. [W/(m·K)]

    Raises
    ------
    OutOfDomain
        An argument not above zero.

    Source
    ------
    ISO 13370:2017, horizontal edge insulation (clause: from memory).

    Examples
    --------
    D = d = 1 m, d' = 3 m, ground of pi W/(m·K): -(ln 2 - ln 1.25) = -ln 1.6.

    >>> round(horizontal_edge_transmittance(1.0, 1.0, 3.0, np.pi), 4)
    -0.47
    """
    above_zero(width=width, thickness=thickness, added=added, ground_conductivity=ground_conductivity)
    without = np.log(width / thickness + 1.0)
    with_foam = np.log(width / (thickness + added) + 1.0)
    return plain(-ground_conductivity / np.pi * (without - with_foam))


def vertical_edge_transmittance(
    depth: Numbers, thickness: Numbers, added: Numbers, ground_conductivity: Numbers
) -> Numbers:
    """What upright foam along the edge takes off a floor's loss, by metre of exposed perimeter.

    Parameters
    ----------
    depth : float or ndarray
        How far the foam reaches down below the ground outside. [m]
    thickness : float or ndarray, broadcast
        Total equivalent thickness d of the floor without that foam. [m]
    added : float or ndarray, broadcast
        Additional equivalent thickness d' of that foam. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        psi_g,e, below zero. [W/(m·K)]

    Raises
    ------
    OutOfDomain
        An argument not above zero.

    Source
    ------
    ISO 13370:2017, vertical edge insulation: as a level strip twice as wide (clause: from memory).

    Examples
    --------
    >>> round(vertical_edge_transmittance(0.5, 1.0, 3.0, np.pi), 4)  # as the level strip of 1 m
    -0.47
    """
    above_zero(depth=depth)
    return horizontal_edge_transmittance(2.0 * depth, thickness, added, ground_conductivity)


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
