"""When an outlay is won back: as it stands, and with what later years are worth today."""

from __future__ import annotations

import numpy as np

from ..physics.domain import Numbers, not_below_zero, plain
from .present import EVEN
from .refusals import above_total_loss


def payback(cost: Numbers, saved: Numbers) -> Numbers:
    """Years until an outlay is won back, later years worth as much as the first. Carbon is told so too.

    Parameters
    ----------
    cost : float or ndarray
        Outlay today; not below zero. [money or kg]
    saved : float or ndarray, broadcast against ``cost``
        What each year saves. [money/a or kg/a]

    Returns
    -------
    float or ndarray, the broadcast shape
        Years; infinite where nothing is saved and something was laid out, nought where nothing was laid out. [a]

    Raises
    ------
    OutOfDomain
        An outlay below zero.

    Source
    ------
    NIST Handbook 135, simple payback (from memory).

    Examples
    --------
    >>> payback(2400.0, 210.0), payback(2400.0, 0.0)
    (11.428571428571429, inf)
    """
    return discounted_payback(cost, saved, 0.0, 0.0)


def discounted_payback(cost: Numbers, saved: Numbers, discount: Numbers, growth: Numbers) -> Numbers:
    """Years until the present worth of the savings is the outlay.

    Parameters
    ----------
    cost : float or ndarray
        Outlay today; not below zero. [money]
    saved : float or ndarray, broadcast against ``cost``
        What a year saves at today's price. [money/a]
    discount : float or ndarray, broadcast against both
        Rate of discount a year. [1/a]
    growth : float or ndarray, broadcast against all
        By how much the saving grows a year. [1/a]

    Returns
    -------
    float or ndarray, the broadcast shape
        Years, parts of them too; infinite where the outlay is never won back. [a]

    Raises
    ------
    OutOfDomain
        An outlay below zero, a discount or a growth of -100 % or less.

    Source
    ------
    NIST Handbook 135, discounted payback: n of UPV* set to cost over saving,
    n = ln(1 - C (1 - x) / (S x)) / ln x with x = (1 + e) / (1 + d) (from memory; derived).

    Examples
    --------
    >>> round(discounted_payback(2400.0, 210.0, 0.03, 0.0), 3)
    14.204
    """
    not_below_zero(cost=cost)
    above_total_loss(discount=discount, growth=growth)
    given = (np.asarray(each, dtype=float) for each in (cost, saved, discount, growth))
    outlay, yearly, d, e = np.broadcast_arrays(*given)
    x = (1.0 + e) / (1.0 + d)
    even = np.abs(x - 1.0) < EVEN
    apart = np.where(even, 0.5, x)
    with np.errstate(divide="ignore", invalid="ignore"):
        left = 1.0 - outlay * (1.0 - apart) / (yearly * apart)
        years = np.where(even, outlay / yearly, np.log(np.where(left > 0.0, left, np.nan)) / np.log(apart))
    never = (yearly <= 0.0) | np.isnan(years)
    return plain(np.where(outlay == 0.0, 0.0, np.where(never, np.inf, years)))
