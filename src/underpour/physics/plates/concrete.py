"""Concrete in bending, from its strength in compression."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, above_zero, plain

PSI = 4.4482216152605 / 0.0254**2  # Pa


def rupture_aci(strength: Numbers) -> Numbers:
    """Modulus of rupture of plain concrete of normal weight by ACI 318.

    Parameters
    ----------
    strength : float or ndarray
        Specified compressive strength f'c of the cylinder. [Pa]

    Returns
    -------
    float or ndarray, the same shape
        Tension in bending at which it cracks. [Pa]

    Raises
    ------
    OutOfDomain
        The strength is zero, negative or NaN.

    Source
    ------
    ACI 318-19 19.2.3.1: 7.5 sqrt(f'c) in psi (quoted; clause from memory).

    Examples
    --------
    >>> round(rupture_aci(4000.0 * PSI) / PSI, 1)  # 7.5 × 63.2456
    474.3
    """
    return _of_root(7.5, strength)


def rupture_ufc(strength: Numbers) -> Numbers:
    """Flexural strength that the army's manual of floor slabs takes: of beams, not of the code's lower bound.

    Parameters
    ----------
    strength : float or ndarray
        Specified compressive strength f'c of the cylinder. [Pa]

    Returns
    -------
    float or ndarray, the same shape
        Flexural strength. [Pa]

    Raises
    ------
    OutOfDomain
        The strength is zero, negative or NaN.

    Source
    ------
    UFC 3-320-06A (TM 5-809-12): 9 sqrt(f'c) in psi (quoted).

    Examples
    --------
    >>> round(rupture_ufc(4000.0 * PSI) / PSI, 1)  # 9 × 63.2456
    569.2
    """
    return _of_root(9.0, strength)


def elasticity_aci(strength: Numbers) -> Numbers:
    """Young's modulus of concrete of normal weight by ACI 318.

    Parameters
    ----------
    strength : float or ndarray
        Specified compressive strength f'c of the cylinder. [Pa]

    Returns
    -------
    float or ndarray, the same shape
        E. [Pa]

    Raises
    ------
    OutOfDomain
        The strength is zero, negative or NaN.

    Source
    ------
    ACI 318-19 19.2.2.1: 57,000 sqrt(f'c) in psi (from memory).

    Examples
    --------
    >>> round(elasticity_aci(4000.0 * PSI) / PSI)  # 57,000 × 63.2456
    3604997
    """
    return _of_root(57000.0, strength)


def _of_root(times: float, strength: Numbers) -> Numbers:
    above_zero(strength=strength)
    return plain(times * np.sqrt(np.asarray(strength) / PSI) * PSI)
