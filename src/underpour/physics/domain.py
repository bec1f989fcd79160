"""Refusals that every kernel shares."""

from __future__ import annotations

import numpy as np


class OutOfDomain(ValueError):
    """A number lies where the formula does not hold."""


def above_zero(**named: object) -> None:
    """Refuse any named value (float or array) that is not above zero; NaN is refused too."""
    for name, value in named.items():
        if not np.all(np.asarray(value) > 0.0):
            raise OutOfDomain(f"{name} must be above zero, got {value!r}")
