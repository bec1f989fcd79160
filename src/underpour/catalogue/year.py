"""The year's wave in twelve monthly means."""

from __future__ import annotations

from cmath import exp
from collections.abc import Sequence
from math import pi, sin

from ..mistakes import Mistake


def harmonic(months: Sequence[float]) -> tuple[float, complex]:
    """Mean and first annual harmonic of a temperature that is known by its monthly means.

    The temperature at the fraction f of the year, counted from the start of January, is
    ``mean + Re(swing · exp(2πi f))``; its amplitude is ``abs(swing)``. Months are taken as equal twelfths. A mean over
    a twelfth of the year flattens the wave by sin(π/12)/(π/12) = 0.9886, which is put back here. The amplitude that is
    usually quoted is that of the twelve means as they stand (Minneapolis 15.9 K); the wave that has those means swings
    by 16.1 K.

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
    Fourier series; the averaging of a wave over an interval.

    Examples
    --------
    >>> mean, swing = harmonic([-8.5, -7.2, 0.6, 8.0, 15.2, 21.0, 23.4, 21.7, 17.6, 9.8, 2.1, -5.7])
    >>> round(mean, 1), round(abs(swing), 1)
    (8.2, 16.1)
    """
    if len(months) != 12:
        wrong = f"{len(months)} monthly means are given."
        raise Mistake("site.monthly", "", wrong, "Give twelve, January first.")
    twelfth = 1.0 / 12.0
    flattened = sin(pi * twelfth) / (pi * twelfth)
    turned = sum(value * exp(-2j * pi * (month + 0.5) * twelfth) for month, value in enumerate(months))
    return sum(months) / 12.0, complex(2.0 * twelfth * turned / flattened)
