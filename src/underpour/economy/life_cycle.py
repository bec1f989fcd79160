"""What something costs over all its years, today's worth: first cost, energy, what is bought again, what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..physics.domain import Numbers, not_below_zero, plain
from .present import present_worth, present_worth_of_years_growing


@dataclass(frozen=True, slots=True)
class Again:
    """Something that is bought again once."""

    cost: float  # at today's price, money
    after: float  # a


def life_cycle_cost(
    first: Numbers,
    yearly: Numbers,
    discount: Numbers,
    growth: Numbers,
    years: Numbers,
    again: Sequence[Again] = (),
    residual: Numbers = 0.0,
) -> Numbers:
    """Present worth of everything that is paid over the years.

    Parameters
    ----------
    first : float or ndarray
        Paid today. [money]
    yearly : float or ndarray, broadcast against ``first``
        Paid for energy each year, at today's price. [money/a]
    discount : float or ndarray, broadcast against all
        Rate of discount a year. [1/a]
    growth : float or ndarray, broadcast against all
        By how much the price of energy grows a year; what is bought again does not grow. [1/a]
    years : float or ndarray, broadcast against all
        How many are looked at. [a]
    again : sequence of Again
        What is bought again, each at today's price; what falls due after the last year is left out. [money, a]
    residual : float or ndarray, broadcast against all
        What is left of it at the end of the years, at today's price. [money]

    Returns
    -------
    float or ndarray, the broadcast shape
        C + A UPV* + sum of R SPV(t) - residual SPV(n). [money]

    Raises
    ------
    OutOfDomain
        A first cost or a residual below zero; a discount or a growth of -100 % or less; years below zero.

    Source
    ------
    NIST Handbook 135, life-cycle cost (from memory).

    Examples
    --------
    >>> round(life_cycle_cost(1000.0, 100.0, 0.0, 0.0, 20, [Again(200.0, 10)], 50.0), 2)
    3150.0
    """
    not_below_zero(first=first, residual=residual)
    over_the_years = present_worth_of_years_growing(discount, growth, years)
    total = np.asarray(first, dtype=float) + np.asarray(yearly) * over_the_years
    for each in again:
        due = np.asarray(each.after) <= np.asarray(years)
        total = total + np.where(due, each.cost * np.asarray(present_worth(discount, each.after)), 0.0)
    return plain(total - np.asarray(residual) * present_worth(discount, years))
