"""Lengths: feet, inches and fractions as a tape shows them, or metric. In metres.

Factors: NIST SP 811 appendix B.8 (from memory), in ``units.toml``. Ranges: practice. A number without a unit,
an unknown unit, a comma and a unit of another kind are refused everywhere, with what to type instead.
"""

from __future__ import annotations

from .measured import Measure
from .read import read


def length(typed: str) -> Measure:
    """A length that is not below zero. [m]

    >>> length("11' 6 7/8\\"").si, length("15/16 in").si
    (3.527425, 0.0238125)
    """
    return read(typed, "length")


def thickness(typed: str) -> Measure:
    """How thick a layer is: above zero and at most 5 m. [m]

    >>> round(thickness("2 in").si, 9)
    0.0508
    """
    return read(typed, "thickness")


def depth(typed: str) -> Measure:
    """How deep something reaches into the ground: not below zero and at most 50 m. [m]

    >>> round(depth("60 in").si, 9)
    1.524
    """
    return read(typed, "depth")


def signed_length(typed: str) -> Measure:
    """A level above (+) or below (-) another, at most 50 m either way. [m]

    >>> round(signed_length("−8 in").si, 9)
    -0.2032
    """
    return read(typed, "signed-length")


def altitude(typed: str) -> Measure:
    """A height above the sea, from the lowest shores to the highest peaks. [m]

    >>> altitude("256 m").si
    256.0
    """
    return read(typed, "altitude")
