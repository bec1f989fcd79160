"""Refusals that the formulas of money share."""

from __future__ import annotations

import numpy as np

from ..physics.domain import OutOfDomain


def above_total_loss(**rates: object) -> None:
    """Refuse a yearly rate of -100 % or less; NaN is refused too."""
    for name, rate in rates.items():
        if not np.all(np.asarray(rate) > -1.0):
            raise OutOfDomain(f"{name} must be above -1, got {rate!r}")
