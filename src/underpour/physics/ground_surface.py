"""How warm the surface of the ground is through the year, beside the air: by n-factors, under snow, and in the sun."""

from __future__ import annotations

from cmath import sqrt as complex_root
from math import acos, pi, sin
from typing import TypeVar

from .domain import OutOfDomain, above_zero
from .year import YEAR

Wave = TypeVar("Wave", float, complex)  # a number, or the swing of a wave


def seasons(mean: float, amplitude: float) -> tuple[float, float]:
    """Freezing and thawing index of a year that swings as a cosine, each spread over the whole year.

    Parameters
    ----------
    mean : float
        [degC]
    amplitude : float
        Not below zero. [K]

    Returns
    -------
    tuple of two floats
        Means over the year of how far it lies below freezing, and of how far above; times 365 they are the indices
        in K·d. [K]

    Raises
    ------
    OutOfDomain
        The amplitude is below zero or no number.

    Source
    ------
    Derived: integrals of a cosine.

    Examples
    --------
    A year that swings about the freezing point: half of it is a half wave of mean 2/pi.

    >>> [round(part, 4) for part in seasons(0.0, 10.0)]
    [3.1831, 3.1831]
    """
    if not amplitude >= 0.0:
        raise OutOfDomain(f"amplitude must not be below zero, got {amplitude!r}")
    if mean >= amplitude:
        return 0.0, mean
    if mean <= -amplitude:
        return -mean, 0.0
    half = acos(-mean / amplitude)  # half of the warm season, as an angle
    thawing = (mean * half + amplitude * sin(half)) / pi
    return thawing - mean, thawing


def surface_year(mean: float, amplitude: float, freezing_factor: float, thawing_factor: float) -> tuple[float, float]:
    """Mean and amplitude of the ground's surface whose indices are the air's times a factor each.

    Parameters
    ----------
    mean : float
        Of the air. [degC]
    amplitude : float
        Of the air, above zero. [K]
    freezing_factor, thawing_factor : float
        n-factors of the two seasons: index of the surface over that of the air; above zero. [1]

    Returns
    -------
    tuple of two floats
        Mean [degC] and amplitude [K] of the surface.

    Raises
    ------
    OutOfDomain
        A factor or the amplitude is not above zero; air that never freezes or never thaws, where a factor of a season
        says nothing of the swing.

    Source
    ------
    n-factors: Lunardini 1978 and TM 5-852-6 (from memory). The wave through both indices: derived; the mean follows
    from their difference, and the amplitude is the one whose thawing index fits.

    Examples
    --------
    With both factors one the surface is the air; both alike scale the whole wave.

    >>> [round(part, 6) for part in surface_year(4.0, 15.0, 1.0, 1.0)]
    [4.0, 15.0]
    >>> [round(part, 6) for part in surface_year(4.0, 15.0, 0.5, 0.5)]
    [2.0, 7.5]
    """
    above_zero(amplitude=amplitude, freezing_factor=freezing_factor, thawing_factor=thawing_factor)
    freezing, thawing = seasons(mean, amplitude)
    if freezing <= 0.0 or thawing <= 0.0:
        raise OutOfDomain("n-factors ask for a season that freezes and one that thaws")
    wanted = thawing_factor * thawing
    level = wanted - freezing_factor * freezing
    low, high = abs(level), abs(level) + 4.0 * (wanted + freezing_factor * freezing) + 1.0
    for _ in range(200):
        middle = (low + high) / 2.0
        low, high = (middle, high) if seasons(level, middle)[1] < wanted else (low, middle)
    return level, (low + high) / 2.0


def under_snow(thickness: float, snow_conductivity: float, conductivity: float, heat_capacity: float) -> float:
    """Share of the air's winter that reaches ground under snow: the freezing factor of its surface.

    Parameters
    ----------
    thickness : float
        Of the snow, mean of the winter. [m]
    snow_conductivity : float
        [W/(m·K)]
    conductivity : float
        Of the ground. [W/(m·K)]
    heat_capacity : float
        Of the ground, by volume. [J/(m³·K)]

    Returns
    -------
    float
        From 1 without snow towards 0 under much of it. [1]

    Raises
    ------
    OutOfDomain
        The thickness is below zero or no number; another argument is not above zero.

    Source
    ------
    Derived: the year's wave through a resistance into endless ground of admittance sqrt(i omega k c), in complex
    numbers (textbook conduction). Snow that freezes and thaws, and the heat of that, is not counted.

    Examples
    --------
    >>> under_snow(0.0, 0.2, 1.5, 3e6)
    1.0
    """
    above_zero(snow_conductivity=snow_conductivity, conductivity=conductivity, heat_capacity=heat_capacity)
    if not thickness >= 0.0:
        raise OutOfDomain(f"thickness must not be below zero, got {thickness!r}")
    admittance = complex_root(2j * pi / YEAR * conductivity * heat_capacity)
    return 1.0 / abs(1.0 + thickness / snow_conductivity * admittance)


def sol_air(air: Wave, sun: Wave, absorptance: float, to_sky: float, film: float) -> Wave:
    """Air that would warm a surface as the real air, the sun and the sky do together: its sol-air temperature.

    Parameters
    ----------
    air : float or complex
        Temperature of the air, or the swing of its wave. [degC or K]
    sun : float or complex
        Radiation that falls on the surface, at the same moment or on the same mean; or the swing of its wave. [W/m²]
    absorptance : float
        Share of it that the surface takes up, 0 to 1. [1]
    to_sky : float
        What the surface loses to the sky beyond what the film counts, emissivity in it; not below zero, nought where
        ``air`` is a swing. [W/m²]
    film : float
        Resistance of the outer surface, above zero; the one through which the surface is then solved. [m²·K/W]

    Returns
    -------
    float or complex
        As ``air``. What water takes that dries off the surface is not counted: damp ground stays cooler. [degC or K]

    Raises
    ------
    OutOfDomain
        A share outside 0 to 1, a loss below zero, a film that is not above zero.

    Source
    ------
    ASHRAE Fundamentals, sol-air temperature: t + a I / h - e dR / h; ISO 52016-1, outer surfaces. Both from memory.

    Examples
    --------
    200 W/m² on a surface that takes up 0.6 of it and loses 57 to the sky, h = 25 W/(m²·K): 10 + 120/25 - 57/25.

    >>> round(sol_air(10.0, 200.0, 0.6, 57.0, 0.04), 6)
    12.52
    """
    above_zero(film=film)
    if not 0.0 <= absorptance <= 1.0:
        raise OutOfDomain(f"absorptance must lie between 0 and 1, got {absorptance!r}")
    if not to_sky >= 0.0:
        raise OutOfDomain(f"to_sky must not be below zero, got {to_sky!r}")
    return air + (absorptance * sun - to_sky) * film
