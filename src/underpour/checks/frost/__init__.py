"""Frost: how deep it goes in each stage, whether the ground lifts, what the rules ask, and how frozen ground thaws."""

from .depth import depths
from .heave import heave
from .rule import rules
from .thaw import thaw

__all__ = ["depths", "heave", "rules", "thaw"]
