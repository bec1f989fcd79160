"""Edges of a brief as families: foam thicker and thinner, materials better and worse, told in microseconds."""

from .cutting import Vary
from .edge import Case, EdgeFamily, family_of

__all__ = ["Case", "EdgeFamily", "Vary", "family_of"]
