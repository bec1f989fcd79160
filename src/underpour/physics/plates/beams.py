"""Strips of slab below lines of load, as long beams on springs."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, above_zero, not_below_zero, plain


def decay(foundation: Numbers, stiffness: Numbers) -> Numbers:
    """How fast what a beam on springs feels dies away from its load.

    Parameters
    ----------
    foundation : float or ndarray
        Spring of each length of the beam: k times its breadth. [N/m²]
    stiffness : float or ndarray, broadcast
        E I. [N·m²]

    Returns
    -------
    float or ndarray, the broadcast shape
        β. [1/m]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    Hetenyi 1946, Beams on elastic foundation: (k / 4 E I)^(1/4) (quoted by Boresi and Schmidt).

    Examples
    --------
    >>> decay(4.0, 1.0)
    1.0
    """
    above_zero(foundation=foundation, stiffness=stiffness)
    return plain((np.asarray(foundation) / (4.0 * np.asarray(stiffness))) ** 0.25)


def settlement(load: Numbers, foundation: Numbers, decay: Numbers, distance: Numbers) -> Numbers:
    """Settlement of an endless beam at a distance from a load across it.

    Parameters
    ----------
    load : float or ndarray
        [N]
    foundation : float or ndarray, broadcast
        Spring of each length of the beam. [N/m²]
    decay : float or ndarray, broadcast
        β. [1/m]
    distance : float or ndarray, broadcast
        [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        y. [m]

    Raises
    ------
    OutOfDomain
        Foundation or decay not above zero, or a distance below zero.

    Source
    ------
    Hetenyi 1946: P β / 2k e^(−βz) (sin βz + cos βz) (quoted by Boresi and Schmidt).

    Examples
    --------
    >>> settlement(2.0, 1.0, 1.0, 0.0)
    1.0
    """
    above_zero(foundation=foundation, decay=decay)
    not_below_zero(distance=distance)
    z = np.asarray(decay) * distance
    return plain(np.asarray(load) * decay / (2.0 * np.asarray(foundation)) * np.exp(-z) * (np.sin(z) + np.cos(z)))


def moment(load: Numbers, decay: Numbers, distance: Numbers) -> Numbers:
    """Moment of an endless beam at a distance from a load across it.

    Parameters
    ----------
    load : float or ndarray
        [N]
    decay : float or ndarray, broadcast
        β. [1/m]
    distance : float or ndarray, broadcast
        [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        M, positive with tension below. [N·m]

    Raises
    ------
    OutOfDomain
        Decay not above zero, or a distance below zero.

    Source
    ------
    Hetenyi 1946: P / 4β e^(−βz) (cos βz − sin βz) (quoted by Boresi and Schmidt).

    Examples
    --------
    >>> moment(4.0, 1.0, 0.0)
    1.0
    """
    above_zero(decay=decay)
    not_below_zero(distance=distance)
    z = np.asarray(decay) * distance
    return plain(np.asarray(load) / (4.0 * np.asarray(decay)) * np.exp(-z) * (np.cos(z) - np.sin(z)))


def settlement_of_end(load: Numbers, foundation: Numbers, decay: Numbers) -> Numbers:
    """Settlement of the free end of a long beam that is loaded there: four times that of one without end.

    Parameters
    ----------
    load : float or ndarray
        [N]
    foundation : float or ndarray, broadcast
        Spring of each length of the beam. [N/m²]
    decay : float or ndarray, broadcast
        β. [1/m]

    Returns
    -------
    float or ndarray, the broadcast shape
        y. [m]

    Raises
    ------
    OutOfDomain
        Foundation or decay not above zero.

    Source
    ------
    Hetenyi 1946: 2 P β / k (from memory).

    Examples
    --------
    >>> settlement_of_end(1.0, 1.0, 1.0)
    2.0
    """
    above_zero(foundation=foundation, decay=decay)
    return plain(2.0 * np.asarray(load) * decay / foundation)


def moment_near_end(load: Numbers, decay: Numbers) -> Numbers:
    """Largest moment of a long beam that is loaded at its free end: a quarter of a wave inwards, tension above.

    Parameters
    ----------
    load : float or ndarray
        [N]
    decay : float or ndarray, broadcast
        β. [1/m]

    Returns
    -------
    float or ndarray, the broadcast shape
        M, negative for tension above. [N·m]

    Raises
    ------
    OutOfDomain
        Decay not above zero.

    Source
    ------
    Hetenyi 1946: −P / β e^(−π/4) sin(π/4) = −0.3224 P / β (from memory).

    Examples
    --------
    >>> round(moment_near_end(1.0, 1.0), 4)
    -0.3224
    """
    above_zero(decay=decay)
    return plain(-np.asarray(load) / decay * np.exp(-np.pi / 4.0) * np.sin(np.pi / 4.0))


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
