"""The year's wave in twelve monthly means."""

from __future__ import annotations

from cmath import exp
from collections.abc import Sequence
from math import pi

from ..mistakes import Mistake


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
    turned = sum(value * exp(-2j * pi * (month + 0.5) * twelfth) for month, value in enumerate(months))
    return sum(months) / 12.0, complex(2.0 * twelfth * turned)
