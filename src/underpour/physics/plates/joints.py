"""Joints of slabs: how stiff one is that hands on a share of a load, and what step a filled one bears."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, plain

AGGREGATE = (1.2, 0.849)  # of Crovetti's fit


def stiffness_by_transfer(share: Numbers, foundation: Numbers, radius: Numbers) -> Numbers:
    """Shear stiffness of a joint whose unloaded side goes down by a share of what its loaded side does.

    Parameters
    ----------
    share : float or ndarray
        Settlement of the unloaded side over that of the loaded one, 0 to below 1. [1]
    foundation : float or ndarray, broadcast
        k of what lies below. [N/m³]
    radius : float or ndarray, broadcast
        Of relative stiffness. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        Shear by length of joint and by step of its two sides. [N/m²]

    Raises
    ------
    OutOfDomain
        A share outside of 0 to below 1, foundation or radius not above zero.

    Source
    ------
    Crovetti 1994, fit to plates by elements: share = 1 / (1 + 1.2 (q / (k l))^-0.849) (from memory); the guide to
    mechanistic-empirical design of pavements prints the same turned about.

    Examples
    --------
    A share of 1 / 2.2 is q = k l; nothing handed on is no stiffness.

    >>> round(stiffness_by_transfer(1.0 / 2.2, 3e7, 1.0)), stiffness_by_transfer(0.0, 3e7, 1.0)
    (30000000, 0.0)
    """
    above_zero(foundation=foundation, radius=radius)
    handed = np.asarray(share, float)
    if not np.all((handed >= 0.0) & (handed < 1.0)):
        raise OutOfDomain(f"a joint hands on from 0 to below all of a load, got {share!r}")
    times, power = AGGREGATE
    kept = np.where(handed > 0.0, handed, 0.5)
    stiff = np.where(handed > 0.0, (times * kept / (1.0 - kept)) ** (1.0 / power), 0.0)
    return plain(stiff * np.asarray(foundation) * radius)


def step_borne(width: Numbers, stretch: Numbers) -> Numbers:
    """Step of the two sides of a joint up to which its sealant is stretched by no more than it bears.

    Parameters
    ----------
    width : float or ndarray
        Of the joint. [m]
    stretch : float or ndarray, broadcast
        Share of its width by which the sealant may be longer. [1]

    Returns
    -------
    float or ndarray, the broadcast shape
        [m]

    Raises
    ------
    OutOfDomain
        Width or stretch not above zero.

    Source
    ------
    Pythagoras: the slanted side is (1 + stretch) times the width, as ASTM C1472 has it for shear (from memory).

    Examples
    --------
    A sealant of class 25 in a joint of 12 mm bears a step of three quarters of it.

    >>> round(step_borne(0.012, 0.25), 6)
    0.009
    """
    above_zero(width=width, stretch=stretch)
    return plain(np.asarray(width) * ((1.0 + np.asarray(stretch)) ** 2 - 1.0) ** 0.5)
