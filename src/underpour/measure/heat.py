"""Temperatures, and what slows, holds and carries heat.

Factors: NIST SP 811 appendix B.8 and B.9 (from memory), in ``units.toml``. Ranges: practice. A number without a unit,
an unknown unit, a comma and a unit of another kind are refused everywhere, with what to type instead.
"""

from __future__ import annotations

from .measured import Measure
from .read import read
from .table import System


def temperature(typed: str) -> Measure:
    """A temperature from -60 to 80 °C. [°C]

    >>> temperature("68 F").si
    20.0
    """
    return read(typed, "temperature")


def temperature_difference(typed: str) -> Measure:
    """A difference of temperatures, 0 to 140 K; °C is asked about, since it reads as a temperature. [K]

    >>> temperature_difference("9 F").si
    5.0
    """
    return read(typed, "temperature-difference")


def degree_days(typed: str) -> Measure:
    """A sum of degree-days, 0 to 20 000 K·d. [K·d]

    >>> degree_days("7200 F·d").si
    4000.0
    """
    return read(typed, "degree-days")


def resistance(typed: str, system: System = "US") -> Measure:
    """A thermal resistance as R, RSI or with its unit. [m²·K/W]

    A bare R follows ``system``; in "SI", one above 7 is asked about. RSI beside a unit that is not metric is refused.

    >>> round(resistance("R10").si, 4), resistance("R1.5", system="SI").si, resistance("R1.5 m²K/W").si
    (1.7611, 1.5, 1.5)
    """
    return read(typed, "resistance", system)


def resistance_per_length(typed: str) -> Measure:
    """The thermal resistance of each metre of thickness, above zero. [m·K/W]

    >>> round(resistance_per_length("R-4.2/in").si, 3)
    29.121
    """
    return read(typed, "resistance-per-length")


def transmittance(typed: str, system: System = "US") -> Measure:
    """A thermal transmittance as U, USI or with its unit, above zero; a bare U follows ``system``. [W/(m²·K)]

    >>> round(transmittance("U-0.05").si, 4), transmittance("U 0.28 W/(m²·K)").si
    (0.2839, 0.28)
    """
    return read(typed, "transmittance", system)


def conductivity(typed: str) -> Measure:
    """A thermal conductivity, above zero. [W/(m·K)]

    >>> round(conductivity("0.24 Btu·in/(h·ft²·F)").si, 5)
    0.03461
    """
    return read(typed, "conductivity")


def density(typed: str) -> Measure:
    """A density, above zero. [kg/m³]

    >>> round(density("145 pcf").si, 1)
    2322.7
    """
    return read(typed, "density")


def heat_capacity(typed: str) -> Measure:
    """The heat capacity of each kilogram, above zero. [J/(kg·K)]

    >>> round(heat_capacity("0.24 Btu/(lb·F)").si, 3)
    1004.832
    """
    return read(typed, "heat-capacity")


def heat_capacity_by_volume(typed: str) -> Measure:
    """The heat capacity of each cubic metre, above zero. [J/(m³·K)]

    >>> heat_capacity_by_volume("3 MJ/(m³·K)").si
    3000000.0
    """
    return read(typed, "heat-capacity-by-volume")


def power(typed: str) -> Measure:
    """A heat flow. [W]

    >>> round(power("34000 Btu/h").si, 1)
    9964.4
    """
    return read(typed, "power")


def heat_flux(typed: str) -> Measure:
    """A heat flow through each square metre. [W/m²]

    >>> round(heat_flux("20 Btu/h·ft²").si, 2)
    63.09
    """
    return read(typed, "heat-flux")
