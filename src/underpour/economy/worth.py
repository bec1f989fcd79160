"""What an outlay earns: net saving, saving over investment, and the rate of return that this is."""

from __future__ import annotations

import numpy as np

from ..physics.domain import Numbers, above_zero, not_below_zero, plain
from .refusals import above_total_loss


def net_saving(saved: Numbers, cost: Numbers) -> Numbers:
    """What is left of the present worth of all savings once the outlay is paid.

    Parameters
    ----------
    saved : float or ndarray
        Present worth of what is saved. [money]
    cost : float or ndarray, broadcast against ``saved``
        Outlay today. [money]

    Returns
    -------
    float or ndarray, the broadcast shape
        Net saving; below zero where the outlay is never won back. [money]

    Source
    ------
    NIST Handbook 135, net savings (from memory).

    Examples
    --------
    >>> net_saving(3656.76, 2400.0)
    1256.7600000000002
    """
    return plain(np.asarray(saved, dtype=float) - np.asarray(cost, dtype=float))


def saving_to_investment(saved: Numbers, cost: Numbers) -> Numbers:
    """Present worth of the savings over the outlay (SIR).

    Parameters
    ----------
    saved : float or ndarray
        Present worth of what is saved. [money]
    cost : float or ndarray, broadcast against ``saved``
        Outlay today. [money]

    Returns
    -------
    float or ndarray, the broadcast shape
        Ratio; above 1 the outlay pays. [1]

    Raises
    ------
    OutOfDomain
        No outlay: there is nothing to hold savings against.

    Source
    ------
    NIST Handbook 135, savings-to-investment ratio (from memory).

    Examples
    --------
    >>> saving_to_investment(3600.0, 2400.0)
    1.5
    """
    above_zero(cost=cost)
    return plain(np.asarray(saved, dtype=float) / np.asarray(cost, dtype=float))


def adjusted_return(ratio: Numbers, discount: Numbers, years: Numbers) -> Numbers:
    """Rate of return on the outlay if what is saved is laid out again at the rate of discount (AIRR).

    Parameters
    ----------
    ratio : float or ndarray
        Saving over investment; not below zero. [1]
    discount : float or ndarray, broadcast against ``ratio``
        Rate of discount a year. [1/a]
    years : float or ndarray, broadcast against both
        How many. [a]

    Returns
    -------
    float or ndarray, the broadcast shape
        (1 + d) SIR^(1/n) - 1. [1/a]

    Raises
    ------
    OutOfDomain
        A ratio below zero, a discount of -100 % or less, or no years.

    Source
    ------
    NIST Handbook 135, adjusted internal rate of return (from memory).

    Examples
    --------
    >>> round(100 * adjusted_return(1.5236504, 0.03, 25), 3)
    4.75
    """
    above_total_loss(discount=discount)
    not_below_zero(ratio=ratio)
    above_zero(years=years)
    root = np.asarray(ratio, dtype=float) ** (1.0 / np.asarray(years, dtype=float))
    return plain((1.0 + np.asarray(discount, dtype=float)) * root - 1.0)
