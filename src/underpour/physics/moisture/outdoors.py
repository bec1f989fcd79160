"""Vapour of the open air, from temperatures and relative humidities."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Sequence

from ..domain import OutOfDomain
from .air import saturation_over_water

LEAP = 8784


def vapour_pressure(temperature: float, humidity: float) -> float:
    """Pressure of the vapour in moist air.

    Parameters
    ----------
    temperature : float
        Of the air, -100 to 100. [degC]
    humidity : float
        Relative, 0 to 1, over water in frost too. [1]

    Returns
    -------
    float
        [Pa]

    Raises
    ------
    OutOfDomain
        A temperature or a humidity outside its range.

    Source
    ------
    ISO 13788:2012, annex E, formula over water, times the humidity: stations tell it over water below 0 °C too
    (WMO No. 8, annex 4.A, from memory).

    Examples
    --------
    >>> round(vapour_pressure(20.0, 0.5))
    1168
    """
    if not 0.0 <= humidity <= 1.0 or not -100.0 <= temperature <= 100.0:
        raise OutOfDomain(f"humidity must lie from 0 to 1 and temperature from -100 to 100 degC, got {humidity!r}")
    return humidity * saturation_over_water(temperature)


def months_of_hours(
    temperatures: Sequence[float], humidities: Sequence[float]
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Vapour of a year of hours: the mean of each calendar month, and its most humid day.

    Parameters
    ----------
    temperatures, humidities : sequences of 8760 or 8784 floats
        Hour by hour. [degC] and [1]

    Returns
    -------
    two tuples of 12 floats
        Mean of the month, and highest mean of one day in it. [Pa]

    Raises
    ------
    OutOfDomain
        No whole year of either.

    Source
    ------
    Definition.

    Examples
    --------
    >>> mean, day = months_of_hours([20.0] * 8760, [0.5] * 8760)
    >>> round(mean[6]), round(day[6])
    (1168, 1168)
    """
    hours = len(temperatures)
    if hours not in (LEAP, LEAP - 24) or len(humidities) != hours:
        raise OutOfDomain(f"a whole year of hours is wanted, got {hours} and {len(humidities)}")
    each = [vapour_pressure(t, h) for t, h in zip(temperatures, humidities, strict=True)]
    days = [sum(each[n : n + 24]) / 24.0 for n in range(0, hours, 24)]
    means, highest, first = [], [], 0
    for month in range(1, 13):
        last = first + monthrange(2000 if hours == LEAP else 2001, month)[1]
        means.append(sum(days[first:last]) / (last - first))
        highest.append(max(days[first:last]))
        first = last
    return tuple(means), tuple(highest)
