"""The year's wave in twelve monthly means."""

from __future__ import annotations

from cmath import exp as complex_exp
from collections.abc import Sequence
from math import erf, exp, pi, sqrt

from ..mistakes import Mistake

DAYS = (31.0, 28.25, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0)  # of the months, leap years shared out


def harmonic(months: Sequence[float]) -> tuple[float, complex]:
    """Mean and first annual harmonic of a temperature that is known by its monthly means.

    The temperature at the fraction f of the year, counted from the start of January, is
    ``mean + Re(swing · exp(2πi f))``; its amplitude is ``abs(swing)``. Months are taken as equal twelfths and each mean
    as the temperature of the month's middle, as ISO 13370 takes the amplitude of monthly means. A wave that has exactly
    those means swings by 1.2 % more, (π/12)/sin(π/12): 16.1 K for the 15.9 K of Minneapolis, less than one year
    differs from the next; it is left out.

    Parameters
    ----------
    months : sequence of 12 floats
        Monthly means, January first. [degC]

    Returns
    -------
    mean : float
        [degC]
    swing : complex
        [K]

    Raises
    ------
    Mistake
        Not twelve months.

    Source
    ------
    Fourier series; ISO 13370:2017, amplitude of the monthly mean outdoor temperatures (from memory).

    Examples
    --------
    >>> mean, swing = harmonic([-8.5, -7.2, 0.6, 8.0, 15.2, 21.0, 23.4, 21.7, 17.6, 9.8, 2.1, -5.7])
    >>> round(mean, 1), round(abs(swing), 1)
    (8.2, 15.9)
    """
    if len(months) != 12:
        wrong = f"{len(months)} monthly means are given."
        raise Mistake("site.monthly", "", wrong, "Give twelve, January first.")
    twelfth = 1.0 / 12.0
    turned = sum(value * complex_exp(-2j * pi * (month + 0.5) * twelfth) for month, value in enumerate(months))
    return sum(months) / 12.0, complex(2.0 * twelfth * turned)


def degree_days(months: Sequence[float], base: float, scatter: float) -> float:
    """Degree-days of a year below a base temperature, from its monthly means.

    The daily means of a month are taken as Normal about the month's mean. Where a month stays far below the base the
    scatter changes nothing; it matters in the months that come near it.

    Parameters
    ----------
    months : sequence of 12 floats
        Monthly means, January first. [degC]
    base : float
        Temperature below which a day counts. [degC]
    scatter : float
        Standard deviation of daily means about their month's mean, above zero. [K]

    Returns
    -------
    float
        Sum over the days of what they lie below the base. [K·d]

    Raises
    ------
    Mistake
        Not twelve months.

    Source
    ------
    Mean of a Normal quantity cut off at a limit, closed form.

    Examples
    --------
    >>> round(degree_days([0.0] * 12, base=18.0, scatter=3.5), 1)  # 365.25 days, 18 K each
    6574.5
    """
    if len(months) != 12:
        wrong = f"{len(months)} monthly means are given."
        raise Mistake("site.monthly", "", wrong, "Give twelve, January first.")
    return sum(days * _below(base - value, scatter) for days, value in zip(DAYS, months, strict=True))


def _below(gap: float, scatter: float) -> float:
    """Mean of what a Normal quantity lies below a limit ``gap`` above its mean, days above counted as nought. [K]"""
    z = gap / scatter
    return gap * 0.5 * (1.0 + erf(z / sqrt(2.0))) + scatter * exp(-0.5 * z * z) / sqrt(2.0 * pi)
