"""Something that swings once a year: when it is lowest, and how low in each month."""

from __future__ import annotations

import cmath
import math
from typing import Literal

YEAR = 365.2425 * 86400.0  # s


def lowest_moment(swing: complex) -> float:
    """Moment of the year at which mean + Re(swing exp(2 pi i f)) is lowest.

    Parameters
    ----------
    swing : complex
        [any unit]

    Returns
    -------
    float
        f, from 0 at the start of January up to 1. [1]

    Source
    ------
    Definition.

    Examples
    --------
    >>> lowest_moment(-3 + 0j)
    0.0
    >>> lowest_moment(3 + 0j)
    0.5
    """
    return ((math.pi - cmath.phase(swing)) / (2.0 * math.pi)) % 1.0


def month_of(year_fraction: float) -> int:
    """Month that a moment of the year falls into, the year cut into twelve equal months.

    Parameters
    ----------
    year_fraction : float
        [1]

    Returns
    -------
    int
        1 to 12. [1]

    Source
    ------
    Definition.

    Examples
    --------
    >>> month_of(0.1)
    2
    """
    return int(year_fraction % 1.0 * 12.0) + 1


def deciding(mean: float, swing: complex, of: Literal["lowest", "highest"]) -> tuple[float, ...]:
    """The lowest, or the highest, moment within each of twelve equal months.

    Parameters
    ----------
    mean : float
        Mean of the year. [any unit]
    swing : complex
        The value is mean + Re(swing exp(2 pi i f)). [unit of ``mean``]
    of : "lowest" or "highest"
        Which moment decides. [1]

    Returns
    -------
    tuple of 12 floats
        [unit of ``mean``]

    Source
    ------
    Definition.

    Examples
    --------
    Lowest on the first of January, which belongs to January and ends December:

    >>> [round(v, 2) for v in deciding(10.0, -10 + 0j, "lowest")][:3]
    [0.0, 1.34, 5.0]
    """
    sign = 1.0 if of == "lowest" else -1.0
    turn = lowest_moment(sign * swing)

    def value(f: float) -> float:
        return sign * (mean + (swing * cmath.exp(2j * math.pi * f)).real)

    worst = []
    for month in range(12):
        start, end = month / 12.0, (month + 1) / 12.0
        holds_turn = start <= turn < end
        worst.append(sign * (sign * mean - abs(swing) if holds_turn else min(value(start), value(end))))
    return tuple(worst)
