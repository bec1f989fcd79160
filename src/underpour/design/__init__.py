"""Design values of a board: its records and classes put through formulas, each value with its evidence."""

from __future__ import annotations

from .held import Held, LongTerm
from .long_term import long_term
from .stiffness import Modulus, Stiffness, stiffness

__all__ = ["Held", "LongTerm", "Modulus", "Stiffness", "long_term", "stiffness"]
