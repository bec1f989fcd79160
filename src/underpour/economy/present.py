"""Present worths: one payment later, one every year, and one every year that grows."""

from __future__ import annotations

import numpy as np

from ..physics.domain import Numbers, not_below_zero, plain
from .refusals import above_total_loss

EVEN = 1e-9  # growth over discount this near to one: the years are added as they are


def present_worth(discount: Numbers, years: Numbers) -> Numbers:
    """Present worth of 1 that is paid once, so many years from now (SPV).

    Parameters
    ----------
    discount : float or ndarray
        Rate of discount a year; 0.03 is 3 %. [1/a]
    years : float or ndarray, broadcast against ``discount``
        Until it is paid. [a]

    Returns
    -------
    float or ndarray, the broadcast shape
        Factor (1 + d)^-n. [1]

    Raises
    ------
    OutOfDomain
        A discount of -100 % or less, or years below zero.

    Source
    ------
    NIST Handbook 135 and its annual supplement, single present value (formula: from memory).

    Examples
    --------
    >>> round(present_worth(0.03, 10), 4)
    0.7441
    """
    above_total_loss(discount=discount)
    not_below_zero(years=years)
    return plain((1.0 + np.asarray(discount, dtype=float)) ** -np.asarray(years, dtype=float))


def present_worth_of_years(discount: Numbers, years: Numbers) -> Numbers:
    """Present worth of 1 that is paid at the end of every year (UPV).

    Parameters
    ----------
    discount : float or ndarray
        Rate of discount a year. [1/a]
    years : float or ndarray, broadcast against ``discount``
        How many. [a]

    Returns
    -------
    float or ndarray, the broadcast shape
        Factor (1 - (1 + d)^-n) / d; n where the discount is nought. [1]

    Raises
    ------
    OutOfDomain
        A discount of -100 % or less, or years below zero.

    Source
    ------
    NIST Handbook 135 and its annual supplement, uniform present value (formula: from memory).

    Examples
    --------
    >>> round(present_worth_of_years(0.03, 25), 2)
    17.41
    """
    return present_worth_of_years_growing(discount, 0.0, years)


def present_worth_of_years_growing(discount: Numbers, growth: Numbers, years: Numbers) -> Numbers:
    """Present worth of what is paid at the end of every year and grows, 1 at today's price (UPV*).

    Parameters
    ----------
    discount : float or ndarray
        Rate of discount a year. [1/a]
    growth : float or ndarray, broadcast against ``discount``
        By how much the payment grows a year, beginning today. [1/a]
    years : float or ndarray, broadcast against both
        How many. [a]

    Returns
    -------
    float or ndarray, the broadcast shape
        Sum over t = 1 to n of ((1 + e) / (1 + d))^t, which is x (1 - x^n) / (1 - x). [1]

    Raises
    ------
    OutOfDomain
        A discount or a growth of -100 % or less, or years below zero.

    Source
    ------
    ASTM E917, modified uniform present value; NIST Handbook 135 (formula: from memory).

    Examples
    --------
    >>> round(present_worth_of_years_growing(0.03, 0.01, 25), 4)
    19.5689
    >>> present_worth_of_years_growing(0.03, 0.03, 25)
    25.0
    """
    above_total_loss(discount=discount, growth=growth)
    not_below_zero(years=years)
    n = np.asarray(years, dtype=float)
    x = (1.0 + np.asarray(growth, dtype=float)) / (1.0 + np.asarray(discount, dtype=float))
    even = np.abs(x - 1.0) < EVEN
    apart = np.where(even, 0.5, x)  # any other number: its sum is not taken
    return plain(np.where(even, n, apart * (1.0 - apart**n) / (1.0 - apart)))
