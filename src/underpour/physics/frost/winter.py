"""The design winter: a year that swings as a cosine and is as cold as its freezing index says."""

from __future__ import annotations

from ..domain import OutOfDomain, not_below_zero
from ..ground_surface import seasons
from ..year import YEAR


def index_of(mean: float, amplitude: float) -> float:
    """Freezing index of a year that swings as a cosine.

    Parameters
    ----------
    mean : float
        [degC]
    amplitude : float
        [K]

    Returns
    -------
    float
        Degrees below freezing, summed over the year. [K·s]

    Raises
    ------
    OutOfDomain
        The amplitude is below zero or no number.

    Source
    ------
    Derived: integral of a cosine.

    Examples
    --------
    About the freezing point half of the year is cold, by 2/pi of the amplitude in the mean: 10 K make 1163 K·d.

    >>> round(index_of(0.0, 10.0) / 86400.0)
    1163
    """
    return seasons(mean, amplitude)[0] * YEAR


def amplitude_of(mean: float, index: float) -> float:
    """Amplitude of the year that has this mean and this freezing index.

    Parameters
    ----------
    mean : float
        [degC]
    index : float
        [K·s]

    Returns
    -------
    float
        [K]

    Raises
    ------
    OutOfDomain
        An index below zero, or one so small for so cold a mean that no year has both.

    Source
    ------
    Derived: the inverse of ``index_of``, by halving.

    Examples
    --------
    >>> round(amplitude_of(0.0, 1162.6 * 86400.0), 2)
    10.0
    """
    not_below_zero(index=index)
    if index < -mean * YEAR * (1.0 - 1e-9):
        raise OutOfDomain(f"a year of mean {mean!r} has a larger freezing index than {index!r}")
    low, high = 0.0, abs(mean) + 10.0 + 8.0 * index / YEAR
    for _ in range(200):
        middle = (low + high) / 2.0
        low, high = (middle, high) if index_of(mean, middle) < index else (low, middle)
    return (low + high) / 2.0


def mean_winter(months: tuple[float, ...]) -> float:
    """Freezing index of a year of mean weather, from the means of its months: days scatter about these.

    Parameters
    ----------
    months : tuple of 12 floats
        January first. [degC]

    Returns
    -------
    float
        [K·s]

    Source
    ------
    Days normal about the month's mean with a deviation of 0.6 K + 0.2 of the year's range, 2.5 to 6 K: common practice,
    no source; it followed 29 daily records to about a quarter.

    Examples
    --------
    Where every day freezes the scatter counts for nothing: 12 months of -10 °C.

    >>> round(mean_winter((-10.0,) * 12) / 86400.0)
    3652
    """
    from math import erf, exp, pi, sqrt

    spread = min(max(0.6 + 0.2 * (max(months) - min(months)), 2.5), 6.0)
    total = 0.0
    for mean in months:
        off = mean / spread
        total += spread / sqrt(2.0 * pi) * exp(-(off**2) / 2.0) - mean * (1.0 - erf(off / sqrt(2.0))) / 2.0
    return total / 12.0 * YEAR
