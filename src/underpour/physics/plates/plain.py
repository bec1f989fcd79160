"""What plain concrete bears by the codes that put factors on loads: in bending, and against being punched through."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, plain
from .concrete import PSI

MEGA = 1e6


def bending_aci(strength: Numbers) -> Numbers:
    """Nominal tension in bending of plain concrete by ACI 318, before its factor.

    Parameters
    ----------
    strength : float or ndarray
        Specified compressive strength f'c of the cylinder. [Pa]

    Returns
    -------
    float or ndarray, the same shape
        Mn / S. [Pa]

    Raises
    ------
    OutOfDomain
        The strength is zero, negative or NaN.

    Source
    ------
    ACI 318-19 14.5.2.1a: 5 λ sqrt(f'c) in psi, λ = 1 (from memory).

    Examples
    --------
    >>> round(bending_aci(4000.0 * PSI) / PSI, 1)  # 5 × 63.2456
    316.2
    """
    above_zero(strength=strength)
    return plain(5.0 * np.sqrt(np.asarray(strength) / PSI) * PSI)


def punching_aci(strength: Numbers, ratio: Numbers) -> Numbers:
    """Nominal shear of plain concrete round a load by ACI 318, before its factor, over the whole thickness.

    Parameters
    ----------
    strength : float or ndarray
        Specified compressive strength f'c of the cylinder. [Pa]
    ratio : float or ndarray, broadcast
        Longer over shorter side of what presses. [1]

    Returns
    -------
    float or ndarray, the broadcast shape
        Vn / (b0 h). [Pa]

    Raises
    ------
    OutOfDomain
        The strength is not above zero, or the ratio is below one.

    Source
    ------
    ACI 318-19 Table 14.5.5.1, two-way: (1 + 2/β) (4/3) λ sqrt(f'c), at most 2 (4/3) λ sqrt(f'c) in psi, λ = 1
    (from memory).

    Examples
    --------
    >>> [round(punching_aci(3600.0 * PSI, ratio) / PSI, 1) for ratio in (1.0, 2.0, 4.0)]  # 2, 2 and 1.5 times 80
    [160.0, 160.0, 120.0]
    """
    above_zero(strength=strength)
    if not np.all(np.asarray(ratio) >= 1.0):
        raise OutOfDomain(f"ratio must be one or more, got {ratio!r}")
    times = np.minimum(1.0 + 2.0 / np.asarray(ratio), 2.0) * 4.0 / 3.0
    return plain(times * np.sqrt(np.asarray(strength) / PSI) * PSI)


def tension_en(strength: Numbers) -> Numbers:
    """Mean tensile strength of concrete by EN 1992.

    Parameters
    ----------
    strength : float or ndarray
        Characteristic compressive strength fck of the cylinder, up to 50 MPa. [Pa]

    Returns
    -------
    float or ndarray, the same shape
        fctm; the lowest in twenty, fctk,0.05, is seven tenths of it. [Pa]

    Raises
    ------
    OutOfDomain
        The strength is not above zero, or above 50 MPa.

    Source
    ------
    EN 1992-1-1 Table 3.1: 0.30 fck^(2/3) in MPa (from memory).

    Examples
    --------
    >>> round(tension_en(27e6) / 1e6, 6)  # 0.3 × 9
    2.7
    """
    above_zero(strength=strength)
    if np.any(np.asarray(strength) > 50.0 * MEGA):
        raise OutOfDomain(f"above 50 MPa another formula holds, got {strength!r}")
    return plain(0.30 * np.cbrt(np.asarray(strength) / MEGA) ** 2 * MEGA)


def in_bending_en(tension: Numbers, thickness: Numbers) -> Numbers:
    """Tensile strength in bending by EN 1992, thinner slabs bearing more.

    Parameters
    ----------
    tension : float or ndarray
        In pure tension. [Pa]
    thickness : float or ndarray, broadcast
        Of the slab. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    EN 1992-1-1 3.1.8, (3.23): (1.6 − h / 1000 mm) times it, at least once (from memory).

    Examples
    --------
    >>> in_bending_en(2e6, 0.1), in_bending_en(2e6, 0.8)
    (3000000.0, 2000000.0)
    """
    above_zero(tension=tension, thickness=thickness)
    return plain(np.maximum(1.6 - np.asarray(thickness), 1.0) * np.asarray(tension))


def punching_en(strength: Numbers, depth: Numbers) -> Numbers:
    """Least design shear of a slab without steel against it by EN 1992, at twice the depth from the load.

    Parameters
    ----------
    strength : float or ndarray
        Characteristic compressive strength fck of the cylinder. [Pa]
    depth : float or ndarray, broadcast
        d, that counts. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        v_min; its factor is within. [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    EN 1992-1-1 6.2.2, (6.3N): 0.035 k^(3/2) fck^(1/2) in MPa, k = 1 + sqrt(200 mm / d), at most 2; recommended
    (from memory).

    Examples
    --------
    >>> round(punching_en(25e6, 0.15) / 1e6, 3)  # 0.035 × 2^1.5 × 5
    0.495
    """
    above_zero(strength=strength, depth=depth)
    k = np.minimum(1.0 + np.sqrt(0.2 / np.asarray(depth)), 2.0)
    return plain(0.035 * k**1.5 * np.sqrt(np.asarray(strength) / MEGA) * MEGA)


def crushing_en(strength: Numbers, factor: Numbers) -> Numbers:
    """Most design shear at the face of a load by EN 1992, where the concrete crushes.

    Parameters
    ----------
    strength : float or ndarray
        Characteristic compressive strength fck of the cylinder. [Pa]
    factor : float or ndarray, broadcast
        γC. [1]

    Returns
    -------
    float or ndarray, the broadcast shape
        v_Rd,max. [Pa]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    EN 1992-1-1:2004 with A1:2014, 6.4.5(3): 0.4 ν fck / γC, ν = 0.6 (1 − fck / 250 MPa); recommended (from memory).

    Examples
    --------
    >>> round(crushing_en(25e6, 1.5) / 1e6, 6)  # 0.4 × 0.54 × 25 / 1.5
    3.6
    """
    above_zero(strength=strength, factor=factor)
    mega = np.asarray(strength) / MEGA
    return plain(0.4 * 0.6 * (1.0 - mega / 250.0) * mega / np.asarray(factor) * MEGA)
