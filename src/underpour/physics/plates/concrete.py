"""Concrete in bending: at what tension it cracks, how stiff it is, and at what load a slab of it breaks."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, plain

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


def coverages(safety: Numbers) -> Numbers:
    """How often a wheel may pass before half of the slabs it rolls over have cracked.

    Parameters
    ----------
    safety : float or ndarray
        Rupture of the concrete over the tension that the wheel brings. [1]

    Returns
    -------
    float or ndarray, the same shape
        Passes over one place. [1]

    Raises
    ------
    OutOfDomain
        The factor is zero, negative or NaN.

    Source
    ------
    Parker, Barker, Gunkel and Odom 1979, full-scale tests of the Corps of Engineers:
    factor = 0.58901 + 0.35486 log10 of the passes (from memory).

    Examples
    --------
    >>> round(coverages(0.58901 + 2.0 * 0.35486), 6)
    100.0
    """
    above_zero(safety=safety)
    return plain(10.0 ** ((np.asarray(safety) - 0.58901) / 0.35486))


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


def _of_root(times: float, strength: Numbers) -> Numbers:
    above_zero(strength=strength)
    return plain(times * np.sqrt(np.asarray(strength) / PSI) * PSI)
