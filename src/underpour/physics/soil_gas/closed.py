"""Closed forms of the flow to a pit in a wide layer: without leaks, and with leaks all over."""

from __future__ import annotations

from math import pi

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain
from .hydraulics import Hydraulics


def radial_fall(flow: Numbers, hydraulics: Hydraulics, near: Numbers, far: Numbers) -> Numbers:
    """Fall of pressure towards a round pit between two distances from its middle, nothing leaking in between.

    Parameters
    ----------
    flow : float or ndarray
        To the pit. [m³/s]
    hydraulics : Hydraulics
        [Pa·s/m³] and [Pa·s²/m⁵]
    near, far : float or ndarray
        Distances from the pit's middle. [m]

    Returns
    -------
    float or ndarray
        [Pa]

    Raises
    ------
    OutOfDomain
        A distance of nought.

    Source
    ------
    Darcy with Forchheimer's term, integrated over a ring (derived).

    Examples
    --------
    >>> round(radial_fall(2 * 3.141592653589793, Hydraulics(2.0, 3.0), near=1.0, far=3.0), 6)  # 2 ln 3 + 3 (1 - 1/3)
    4.197225
    """
    above_zero(near=near, far=far)
    width = flow / (2.0 * pi)
    slow = hydraulics.viscous * width * np.log(np.asarray(far) / near)
    fast = hydraulics.inertial * width * abs(width) * (1.0 / np.asarray(near) - 1.0 / np.asarray(far))
    return plain(slow + fast)


def reach(hydraulics: Hydraulics, leakage: float) -> float:
    """Length over which leaks take the suction away: 1/e of it is left that far along a straight layer of slow flow.

    Parameters
    ----------
    hydraulics : Hydraulics
        Its slow flow. [Pa·s/m³]
    leakage : float
        Air that leaks in by area and suction. [m/(s·Pa)]

    Returns
    -------
    float
        [m]

    Raises
    ------
    OutOfDomain
        Nothing that leaks.

    Source
    ------
    Leaky layer, sqrt(k H / (μ g)) (derived).

    Examples
    --------
    >>> reach(Hydraulics(4.0, 0.0), leakage=0.01)
    5.0
    """
    above_zero(leakage=leakage)
    return float(1.0 / np.sqrt(hydraulics.viscous * leakage))


def leaky_suction(distance: Numbers, suction: float, radius: float, reach: float, rim: float | None = None) -> Numbers:
    """Suction in a leaky layer of slow flow round a pit.

    Parameters
    ----------
    distance : float or ndarray
        From the pit's middle. [m]
    suction : float
        In the pit. [Pa]
    radius : float
        Of the pit. [m]
    reach : float
        As ``reach`` gives it. [m]
    rim : float or None
        Radius at which the layer ends and nothing comes in; None where it goes on for ever. [m]

    Returns
    -------
    float or ndarray
        [Pa]

    Raises
    ------
    OutOfDomain
        A place within the pit or beyond the rim.

    Source
    ------
    Modified Bessel functions, as of a leaky aquifer (Jacob 1946, from memory).

    Examples
    --------
    >>> round(leaky_suction(0.15, suction=250.0, radius=0.15, reach=20.0), 6)
    250.0
    """
    above_zero(radius=radius, reach=reach)
    if np.any(np.asarray(distance) < radius) or (rim is not None and np.any(np.asarray(distance) > rim)):
        raise OutOfDomain("the place lies within the pit or beyond the rim")
    return plain(suction * _shape(np.asarray(distance), reach, rim) / _shape(np.asarray(radius), reach, rim))


def leaky_flow(
    suction: float, radius: float, hydraulics: Hydraulics, leakage: float, rim: float | None = None
) -> float:
    """Flow to a pit in a leaky layer of slow flow.

    Parameters
    ----------
    suction : float
        In the pit. [Pa]
    radius : float
        Of the pit. [m]
    hydraulics : Hydraulics
        Its slow flow. [Pa·s/m³]
    leakage : float
        Air that leaks in by area and suction. [m/(s·Pa)]
    rim : float or None
        Radius at which the layer ends; None where it goes on for ever. [m]

    Returns
    -------
    float
        [m³/s]

    Raises
    ------
    OutOfDomain
        Suction below nought, no radius.

    Source
    ------
    Modified Bessel functions, as of a leaky aquifer (Jacob 1946, from memory).

    Examples
    --------
    A reach far beyond the rim: all that leaks in over the ring, at nearly the pit's suction.

    >>> flow = leaky_flow(10.0, 0.1, Hydraulics(1e-3, 0.0), leakage=1e-6, rim=1.1)
    >>> round(flow / (10.0 * 1e-6 * 3.14159265 * (1.1**2 - 0.1**2)), 6)
    1.0
    """
    from scipy.special import i0, i1, k0, k1

    above_zero(radius=radius)
    not_below_zero(suction=suction)
    long = reach(hydraulics, leakage)
    a = radius / long
    if rim is None:
        share = k1(a) / k0(a)
    else:
        b = rim / long
        share = (k1(a) * i1(b) - i1(a) * k1(b)) / (k0(a) * i1(b) + i0(a) * k1(b))
    return float(2.0 * pi * radius / hydraulics.viscous * suction / long * share)


def _shape(distance: Numbers, reach: float, rim: float | None) -> Numbers:
    from scipy.special import i0, i1, k0, k1

    r = distance / reach
    if rim is None:
        return k0(r)
    return k0(r) * i1(rim / reach) + i0(r) * k1(rim / reach)
