"""Forces, masses and pressures. ``lb`` is a force or a mass by what is asked for.

Factors: NIST SP 811 appendix B.8 (from memory), in ``units.toml``. Ranges: practice. A number without a unit,
an unknown unit, a comma and a unit of another kind are refused everywhere, with what to type instead.
"""

from __future__ import annotations

from .measured import Measure
from .read import read


def pressure(typed: str) -> Measure:
    """A pressure on a solid: psi, psf, ksf, ksi, Pa, kPa, MPa; not below zero. [Pa]

    >>> round(pressure("25 psi").si)
    172369
    """
    return read(typed, "pressure")


def force(typed: str) -> Measure:
    """A force: lb, kip, N, kN, MN; not below zero. [N]

    >>> round(force("6500 lb").si, 1)
    28913.4
    """
    return read(typed, "force")


def line_force(typed: str) -> Measure:
    """A force on each metre of a line; not below zero. [N/m]

    >>> round(line_force("1400 lb/ft").si, 1)
    20431.5
    """
    return read(typed, "line-force")


def mass(typed: str) -> Measure:
    """A mass: lb, g, kg, t; not below zero. [kg]

    >>> round(mass("110 lb").si, 3)
    49.895
    """
    return read(typed, "mass")
