"""The best of a ladder of thicknesses, and how flat it lies there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..physics.domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain


@dataclass(frozen=True, slots=True)
class Flat:
    """The cheapest rung, and those that cost hardly more."""

    at: float  # thickness of the cheapest, m
    cost: float  # there, money
    low: float  # thinnest within the share, m
    high: float  # thickest within the share, m


def best_of(thickness: Numbers, cost: Numbers, share: float = 0.01) -> Flat:
    """The cheapest rung of a ladder, and how far about it costs stay within a share of the least.

    Parameters
    ----------
    thickness : ndarray, (rungs,)
        Rising thicknesses that can be had; 0 for none. [m]
    cost : ndarray, (rungs,)
        Life-cycle cost of each. [money]
    share : float
        How much more than the least is counted as the same. [1]

    Returns
    -------
    Flat
        The cheapest (the thinner of two alike) and the ends of the unbroken stretch about it. [m, money]

    Raises
    ------
    OutOfDomain
        No rungs, thicknesses that do not rise, or a cost that is NaN.

    Source
    ------
    Least of a list; how flat it lies: practice.

    Examples
    --------
    >>> best_of([0.0, 0.05, 0.1, 0.15], [130.0, 100.5, 100.0, 104.0])
    Flat(at=0.1, cost=100.0, low=0.05, high=0.1)
    """
    rungs, costs = np.asarray(thickness, dtype=float), np.asarray(cost, dtype=float)
    if rungs.ndim != 1 or rungs.shape != costs.shape or not len(rungs):
        raise OutOfDomain("thickness and cost must be lists of the same length, not empty")
    if not np.all(np.diff(rungs) > 0.0) or np.isnan(costs).any():
        raise OutOfDomain("thicknesses must rise, and every one needs a cost")
    least = int(costs.argmin())
    within = costs <= costs[least] + abs(costs[least]) * share
    low = high = least
    while low > 0 and within[low - 1]:
        low -= 1
    while high < len(rungs) - 1 and within[high + 1]:
        high += 1
    return Flat(float(rungs[least]), float(costs[least]), float(rungs[low]), float(rungs[high]))


def parabola(known: Numbers, values: Numbers, at: Numbers) -> list[float]:
    """Values between three that are known, by the parabola through them; by a line where two of them are one.

    Parameters
    ----------
    known : sequence of float, (3,)
        Where values are known. [any unit]
    values : sequence of float, (3,)
        What they are there. [any unit]
    at : sequence of float, (n,)
        Where they are wanted. [unit of ``known``]

    Returns
    -------
    list of float, (n,)
        The values there. [unit of ``values``]

    Source
    ------
    Lagrange's interpolation (any handbook).

    Examples
    --------
    >>> [round(each, 9) for each in parabola([0.0, 1.0, 2.0], [0.0, 1.0, 4.0], [3.0])]
    [9.0]
    """
    unlike = len({round(float(each), 6) for each in known})
    fit = np.polynomial.Polynomial.fit(np.asarray(known), np.asarray(values), min(unlike, 3) - 1)
    return [float(fit(each)) for each in at]


def optimum(
    per_thickness: Numbers, yearly_heat: Numbers, conductivity: Numbers, bare: Numbers, worth: Numbers
) -> Numbers:
    """Thickness at which another millimetre saves just what it costs, where heat falls as 1 / (R0 + t/k).

    Parameters
    ----------
    per_thickness : float or ndarray
        Cost of a square metre, for each metre of thickness. [money/m³]
    yearly_heat : float or ndarray, broadcast against all
        Thousands of kelvin hours of the season: a year's heat is this over the resistance. [kK·h]
    conductivity : float or ndarray, broadcast against all
        Of the foam where it lies. [W/(m·K)]
    bare : float or ndarray, broadcast against all
        Resistance of floor and ground without foam. [m²·K/W]
    worth : float or ndarray, broadcast against all
        Present worth of saving one kilowatt hour of heat every year: price times UPV*. [money a/kWh]

    Returns
    -------
    float or ndarray, the broadcast shape
        Thickness; nought where even the first millimetre does not pay. [m]

    Raises
    ------
    OutOfDomain
        A cost or a conductivity that is not above zero; any other number below zero.

    Source
    ------
    Least of c t + w H / (R0 + t/k): t = sqrt(w H k / c) - k R0 (derived).

    Examples
    --------
    >>> round(optimum(per_thickness=100.0, yearly_heat=50.0, conductivity=0.04, bare=1.0, worth=1.0), 4)
    0.1014
    """
    above_zero(per_thickness=per_thickness, conductivity=conductivity)
    not_below_zero(yearly_heat=yearly_heat, bare=bare, worth=worth)
    c, h, k, r0, w = (np.asarray(x, dtype=float) for x in (per_thickness, yearly_heat, conductivity, bare, worth))
    return plain(np.maximum(np.sqrt(w * h * k / c) - k * r0, 0.0))
