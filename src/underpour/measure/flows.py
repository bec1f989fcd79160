"""Air, water, vapour and radon.

Factors: NIST SP 811 appendix B.8 (from memory; perm and inch of water seen quoted), in ``units.toml``. Ranges:
practice. A number without a unit, an unknown unit, a comma and a unit of another kind are refused everywhere, with
what to type instead.
"""

from __future__ import annotations

from .measured import Measure
from .read import read


def gas_pressure(typed: str) -> Measure:
    """A pressure of air, gas or water in a pipe against its surroundings; suction is below zero. [Pa]

    Inches and feet of water are the conventional ones (NIST SP 811 B.8).

    >>> round(gas_pressure("0.04 in. w.c.").si, 2)
    9.96
    """
    return read(typed, "gas-pressure")


def flow_of_air(typed: str) -> Measure:
    """A flow of air; not below zero. [m³/s]

    >>> round(flow_of_air("20 cfm").si, 6)
    0.009439
    """
    return read(typed, "flow-of-air")


def flow_of_water(typed: str) -> Measure:
    """A flow of water; gpm is the US gallon's unless it says imp; not below zero. [m³/s]

    >>> round(flow_of_water("1 gpm").si * 1000, 5), round(flow_of_water("1 imp gpm").si * 1000, 5)
    (0.06309, 0.07577)
    """
    return read(typed, "flow-of-water")


def permeance(typed: str) -> Measure:
    """A vapour permeance; the perm is that of 0 °C; not below zero. [ng/(Pa·s·m²)]

    >>> round(permeance("0.1 perm").si, 3)
    5.721
    """
    return read(typed, "permeance")


def permeability(typed: str) -> Measure:
    """A vapour permeability; the perm inch is that of 0 °C; not below zero. [ng/(Pa·s·m)]

    >>> round(permeability("2 perm-in").si, 4)
    2.9064
    """
    return read(typed, "permeability")


def speed(typed: str) -> Measure:
    """A speed of wind; not below zero. [m/s]

    >>> speed("10 mph").si
    4.4704
    """
    return read(typed, "speed")


def radon(typed: str) -> Measure:
    """A radon level in air; not below zero. [Bq/m³]

    >>> radon("4 pCi/L").si
    148.0
    """
    return read(typed, "radon")


def humidity(typed: str) -> Measure:
    """A relative humidity, 0 to 100 %. [fraction, 0 to 1]

    >>> humidity("50 %").si
    0.5
    """
    return read(typed, "humidity")


def share(typed: str) -> Measure:
    """A part of a whole, 0 to 100 %. [fraction, 0 to 1]

    >>> share("15 %").si
    0.15
    """
    return read(typed, "share")
