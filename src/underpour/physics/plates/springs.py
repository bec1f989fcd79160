"""What a slab lies on as springs: layers one below another, and how far a slab's stiffness carries a load."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, plain

PLATE_OF_THE_TEST = 0.762  # m, 30 in: the plate by which the modulus of subgrade reaction is defined


def layer_modulus(modulus: Numbers, thickness: Numbers) -> Numbers:
    """Spring of a layer that cannot spread sideways: pressure for each length by which it gives way.

    Parameters
    ----------
    modulus : float or ndarray
        Young's modulus of the layer, of the time for which the load stands. [Pa]
    thickness : float or ndarray, broadcast
        [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        k. [N/m³]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    Hooke's law for one direction; Winkler's springs.

    Examples
    --------
    >>> layer_modulus(5e6, 0.1)  # 5 MPa over 100 mm
    50000000.0
    """
    above_zero(modulus=modulus, thickness=thickness)
    return plain(np.asarray(modulus) / thickness)


def in_series(*moduli: Numbers) -> Numbers:
    """Spring of layers one below another: each carries the whole pressure, and their settlements add up.

    Parameters
    ----------
    *moduli : floats or ndarrays that broadcast
        k of each layer, the ground's own last. [N/m³]

    Returns
    -------
    float or ndarray, the broadcast shape
        k of all together, below the softest of them. [N/m³]

    Raises
    ------
    OutOfDomain
        No layer, or one that is zero, negative or NaN.

    Source
    ------
    Winkler's springs in series: 1/k = sum of 1/k_i.

    Examples
    --------
    >>> round(in_series(50e6, 54e6))  # 50 × 54 / 104
    25961538
    """
    if not moduli:
        raise OutOfDomain("no layer to stand on")
    for modulus in moduli:
        above_zero(modulus=modulus)
    return plain(1.0 / sum(1.0 / np.asarray(modulus) for modulus in moduli))


def by_smaller_plate(modulus: Numbers, diameter: Numbers) -> Numbers:
    """Modulus of subgrade reaction of the 762 mm plate from a test with a smaller or larger one on sand or gravel.

    Parameters
    ----------
    modulus : float or ndarray
        Pressure over settlement as tested. [N/m³]
    diameter : float or ndarray, broadcast
        Of the plate of the test. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        k of the 762 mm plate. [N/m³]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    Terzaghi 1955, Evaluation of coefficients of subgrade reaction (from memory): for sand k falls as
    ((B + 0.305 m) / (2 B))² from the plate of 0.305 m.

    Examples
    --------
    A plate of 0.305 m: 0.4903 = (0.762 + 0.305)² / (2 × 0.762)² of what it gave.

    >>> round(by_smaller_plate(100e6, 0.305) / 1e6, 1)
    49.0
    """
    above_zero(modulus=modulus, diameter=diameter)
    return plain(np.asarray(modulus) * _against_a_foot(PLATE_OF_THE_TEST) / _against_a_foot(diameter))


def _against_a_foot(breadth: Numbers) -> Numbers:
    return ((np.asarray(breadth) + 0.305) / (2.0 * np.asarray(breadth))) ** 2


def plate_stiffness(modulus: Numbers, thickness: Numbers, poisson: Numbers) -> Numbers:
    """Stiffness of a plate against bending.

    Parameters
    ----------
    modulus : float or ndarray
        Young's modulus of the concrete. [Pa]
    thickness : float or ndarray, broadcast
        Of the plate. [m]
    poisson : float or ndarray, broadcast
        Poisson's ratio. [1]

    Returns
    -------
    float or ndarray, the broadcast shape
        D. [N·m]

    Raises
    ------
    OutOfDomain
        Modulus or thickness not above zero; a ratio outside of 0 to 0.5.

    Source
    ------
    Kirchhoff's plate: E h³ / (12 (1 − ν²)).

    Examples
    --------
    >>> round(plate_stiffness(30e9, 0.15, 0.2))  # 30e9 × 0.003375 / 11.52
    8789062
    """
    above_zero(modulus=modulus, thickness=thickness)
    if not np.all((np.asarray(poisson) >= 0.0) & (np.asarray(poisson) < 0.5)):
        raise OutOfDomain(f"poisson must lie from 0 to below 0.5, got {poisson!r}")
    return plain(np.asarray(modulus) * np.asarray(thickness) ** 3 / (12.0 * (1.0 - np.asarray(poisson) ** 2)))


def radius_of_relative_stiffness(stiffness: Numbers, foundation: Numbers) -> Numbers:
    """How far a plate on springs carries a load: the length in which all of its formulas count.

    Parameters
    ----------
    stiffness : float or ndarray
        D of the plate. [N·m]
    foundation : float or ndarray, broadcast
        k of what lies below. [N/m³]

    Returns
    -------
    float or ndarray, the broadcast shape
        l. [m]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    Westergaard 1926, Stresses in concrete pavements computed by theoretical analysis: l = (D / k)^(1/4).

    Examples
    --------
    >>> radius_of_relative_stiffness(81e6, 1e6)  # the fourth root of 81
    3.0
    """
    above_zero(stiffness=stiffness, foundation=foundation)
    return plain((np.asarray(stiffness) / foundation) ** 0.25)
