"""Loads that no plate carries: straight through, or spread at an angle; and what concrete bears before it breaks."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain


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
        whole = whole + np.asarray(thickness) * density * 9.80665
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
    >>> by_angle(40000.0, 0.1, 0.1, 0.05)  # 40 kN on 0.2 m by 0.2 m
    1000000.0
    """
    above_zero(load=load, length=length, width=width)
    not_below_zero(depth=depth, run=run)
    grown = 2.0 * np.asarray(depth) * run
    # hundredths of a millimetre are no length of a slab: so that 0.1 + 0.1 is 0.2 on paper
    return plain(np.round(np.asarray(load) / ((length + grown) * (width + grown)), 6))


def stationary(stress: Numbers, foundation: Numbers, thickness: Numbers, modulus: Numbers) -> Numbers:
    """Even load beside an unloaded aisle that brings the slab's top to a stress, the aisle being as wide as is worst.

    Parameters
    ----------
    stress : float or ndarray
        Tension that the concrete may have. [Pa]
    foundation : float or ndarray, broadcast
        k of what lies below. [N/m³]
    thickness : float or ndarray, broadcast
        Of the slab. [m]
    modulus : float or ndarray, broadcast
        Young's modulus of the concrete. [Pa]

    Returns
    -------
    float or ndarray, the broadcast shape
        Load on each area. [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    UFC 3-320-06A (TM 5-809-12), section on stationary live loads, from Hetenyi's beam: 257.876 s sqrt(k h / E) in psf,
    psi, pci and inches; 257.876/144 without a unit (from memory).

    Examples
    --------
    325 psi, 100 pci, 6 in, 4,000,000 psi: 1026 psf, in psi 7.13.

    >>> round(stationary(325.0, 100.0, 6.0, 4e6) * 144.0)
    1026
    """
    above_zero(stress=stress, foundation=foundation, thickness=thickness, modulus=modulus)
    return plain(
        257.876 / 144.0 * np.asarray(stress) * np.sqrt(np.asarray(foundation) * thickness / np.asarray(modulus))
    )


def ultimate(positive: Numbers, negative: Numbers, ratio: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """Load at which a slab on the ground breaks below a point load in the middle, at an edge and at a corner.

    For plausibility only: the ground below cracks open long before, and foam below is not what the fits were tried on.

    Parameters
    ----------
    positive, negative : float or ndarray
        Moments at which it yields, tension below and above. [N·m/m]
    ratio : float or ndarray, broadcast
        Radius of the load over the radius of relative stiffness. [1]

    Returns
    -------
    three floats or ndarrays, the broadcast shape
        In the middle, at an edge, at a corner. [N]

    Raises
    ------
    OutOfDomain
        Moments not above zero, or a ratio outside of 0 to 1.

    Source
    ------
    Meyerhof 1962 as Concrete Society TR34, 4th edition, uses it (from memory): between the ratios 0 and 0.2 by a line.

    Examples
    --------
    >>> [round(each / 1e3, 2) for each in ultimate(7500.0, 7500.0, 0.25)]
    [205.63, 92.55, 40.0]
    """
    above_zero(positive=positive, negative=negative)
    if not np.all((np.asarray(ratio) >= 0.0) & (np.asarray(ratio) < 1.0)):
        raise OutOfDomain(f"ratio must lie from 0 to below 1, got {ratio!r}")
    both = np.asarray(positive) + negative
    share = np.clip(np.asarray(ratio) / 0.2, 0.0, 1.0)
    far = np.maximum(ratio, 0.2)

    def between(sharp, spread):
        return plain(sharp + share * (spread - sharp))

    return (
        between(2.0 * np.pi * both, 4.0 * np.pi * both / (1.0 - far / 3.0)),
        between(
            np.pi * both / 2.0 + 2.0 * np.asarray(negative),
            (np.pi * both + 4.0 * np.asarray(negative)) / (1.0 - 2.0 * far / 3.0),
        ),
        between(2.0 * np.asarray(negative), 4.0 * np.asarray(negative) / (1.0 - far)),
    )
