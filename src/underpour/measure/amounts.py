"""Areas, volumes and amounts of heat.

Factors: NIST SP 811 appendix B.8 (from memory), in ``units.toml``. Ranges: practice. A number without a unit,
an unknown unit, a comma and a unit of another kind are refused everywhere, with what to type instead.
"""

from __future__ import annotations

from .measured import Measure
from .read import read


def area(typed: str) -> Measure:
    """An area; not below zero. [m²]

    >>> round(area("1000 sq ft").si, 5)
    92.90304
    """
    return read(typed, "area")


def volume(typed: str) -> Measure:
    """A volume; a gallon is the US one unless it says imp; not below zero. [m³]

    >>> round(volume("13 yd³").si, 3)
    9.939
    """
    return read(typed, "volume")


def energy(typed: str) -> Measure:
    """An amount of heat or electricity; Btu and therm are of the International Table. [J]

    >>> energy("1 kWh").si
    3600000.0
    """
    return read(typed, "energy")


def time(typed: str) -> Measure:
    """A length of time, 0 to 1000 years. [s]

    >>> time("2 d").si
    172800.0
    """
    return read(typed, "time")
