"""Drawings of users: the outline of a floor, its holes and what stands in it, and what was taken, in words."""

from __future__ import annotations

from .asked import Asked
from .drawn import Drawn
from .read import read
from .taken import taken

__all__ = ["Asked", "Drawn", "read", "taken"]
