"""Loads that no plate carries: straight through to what lies below, or spread at an angle."""

from __future__ import annotations

import numpy as np

from ..bearing import GRAVITY
from ..domain import Numbers, above_zero, not_below_zero, plain


def straight_through(pressure: Numbers, *layers: tuple[Numbers, Numbers]) -> Numbers:
    """Pressure on what lies below a wide evenly loaded floor: load and weights, with no help from the plate.

    Parameters
    ----------
    pressure : float or ndarray
        On the floor. [Pa]
    *layers : pairs of floats or ndarrays
        Thickness and density of each layer above. [m, kg/m³]

    Returns
    -------
    float or ndarray, the broadcast shape
        Pressure. [Pa]

    Raises
    ------
    OutOfDomain
        A pressure below zero, or a layer's thickness or density not above zero.

    Source
    ------
    Equilibrium of forces; 9.80665 m/s² (ISO 80000-3, from memory).

    Examples
    --------
    >>> round(straight_through(25e3, (0.15, 2400.0)), 1)  # 25,000 + 0.15 × 2400 × 9.80665
    28530.4
    """
    not_below_zero(pressure=pressure)
    whole = np.asarray(pressure, float)
    for thickness, density in layers:
        above_zero(thickness=thickness, density=density)
        whole = whole + np.asarray(thickness) * density * GRAVITY
    return plain(whole)


def by_angle(load: Numbers, length: Numbers, width: Numbers, depth: Numbers, run: Numbers = 1.0) -> Numbers:
    """Pressure at a depth below a loaded rectangle by a spread at an angle: 45 degrees where ``run`` is 1.

    It knows nothing of the slab's stiffness and so asks for foam many times stronger than a stiff slab needs.

    Parameters
    ----------
    load : float or ndarray
        [N]
    length, width : float or ndarray, broadcast
        Of the loaded rectangle. [m]
    depth : float or ndarray, broadcast
        Through which it spreads. [m]
    run : float or ndarray, broadcast
        Sideways for each depth. [1]

    Returns
    -------
    float or ndarray, the broadcast shape
        Even pressure at that depth. [Pa]

    Raises
    ------
    OutOfDomain
        Load, length or width not above zero, depth or run below zero.

    Source
    ------
    Common practice, no source: load over (length + 2 depth)(width + 2 depth).

    Examples
    --------
    >>> round(by_angle(40000.0, 0.1, 0.1, 0.05))  # 40 kN on 0.2 m by 0.2 m
    1000000
    """
    above_zero(load=load, length=length, width=width)
    not_below_zero(depth=depth, run=run)
    grown = 2.0 * np.asarray(depth) * run
    return plain(np.asarray(load) / ((length + grown) * (width + grown)))
