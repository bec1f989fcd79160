"""Refusals that every kernel shares, and what a kernel takes and gives."""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np

Numbers: TypeAlias = Any  # a float, or an array that broadcasts against its neighbours; the docstring says which


class OutOfDomain(ValueError):
    """A number lies where the formula does not hold."""


def above_zero(**named: object) -> None:
    """Refuse any named value (float or array) that is not above zero; NaN is refused too."""
    for name, value in named.items():
        if not np.all(np.asarray(value) > 0.0):
            raise OutOfDomain(f"{name} must be above zero, got {value!r}")


def not_below_zero(**named: object) -> None:
    """Refuse any named value (float or array) that is below zero; NaN is refused too."""
    for name, value in named.items():
        if not np.all(np.asarray(value) >= 0.0):
            raise OutOfDomain(f"{name} must not be below zero, got {value!r}")


def plain(values: Numbers) -> Numbers:
    """Single numbers as Python's own, arrays as they are."""
    return np.asarray(values).item() if np.ndim(values) == 0 else values
