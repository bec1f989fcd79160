"""Starter briefs, one for each use: a real job of its kind, commented, to be changed line by line."""

from .fill import filled
from .shelf import Starter, demo_text, plain, starter, starters

__all__ = ["Starter", "demo_text", "filled", "plain", "starter", "starters"]
