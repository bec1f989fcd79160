"""How few panels a floor can take at the least, by three ways of counting."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from .ground_plan import GroundPlan
from .panel import Rules

LEEWAY = 0.1  # panels, for what lies between two columns

Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Heights:
    """The floor's stretches over evenly spaced columns; a column has as many as the fullest one, empty ones too."""

    x: Numbers  # (n,) m, middles
    step: float  # m
    low: Numbers  # (n, k) m
    high: Numbers  # (n, k) m


def heights(plan: GroundPlan, columns: int) -> Heights:
    left, right = plan.columns[0].x0, plan.columns[-1].x1
    step = (right - left) / columns
    x: Numbers = left + step * (np.arange(columns, dtype=np.float64) + 0.5)
    k = max(len(each.spans) for each in plan.columns)
    low, high = np.zeros((columns, k)), np.zeros((columns, k))
    for each in plan.columns:
        for at in np.nonzero((x > each.x0) & (x < each.x1))[0]:
            for number, (lower, upper) in enumerate(each.spans):
                low[at, number], high[at, number] = lower.at(x[at]), upper.at(x[at])
    return Heights(x, step, low, high)


@dataclass(frozen=True, slots=True)
class Demand:
    """Panels that rows at an offset take at the least, counted in two ways."""

    by_rows: float  # each strip by its length, one lower than a panel by its greatest height
    by_strips: float  # over each column half a panel up to half a panel's height and a whole one above it


def demand(over: Heights, plan: GroundPlan, rules: Rules, offset: float) -> Demand:
    """What one place of the rows asks for.

    Arguments
    ---------
    over
        The floor's stretches over columns.
    plan
        The floor with x along the rows.
    rules
        The panel; one with interlock gives at most two strips of edge rows, one from each of its long sides.
    offset
        Height at which one row begins and another ends. [m]
    """
    width = rules.width
    first = int(np.floor((plan.bottom - offset + 1e-9) / width))
    last = int(np.ceil((plan.top - offset - 1e-9) / width))
    lines = offset + width * np.arange(first, last)[:, None]
    low = [np.clip(each - lines, 0.0, width) for each in over.low.T]
    high = [np.clip(each - lines, 0.0, width) for each in over.high.T]
    height = sum(b - a for a, b in zip(low, high, strict=True))
    share = np.where(height > width / 2.0 + 1e-9, 1.0, np.where(height > 1e-9, 0.5, 0.0))
    lowest = np.minimum.reduce([np.where(b > a, a, width) for a, b in zip(low, high, strict=True)])
    highest = np.maximum.reduce([np.where(b > a, b, 0.0) for a, b in zip(low, high, strict=True)])
    total = 0.0
    for there, bottom, top in zip(height > 0.0, lowest, highest, strict=True):
        ends = np.flatnonzero(np.diff(np.concatenate(([0], there.astype(np.int8), [0]))))
        for left, right in zip(ends[::2], ends[1::2], strict=True):
            total += (right - left) * over.step * (top[left:right].max() - bottom[left:right].min())
    return Demand(total / rules.area, float(share.sum() * over.step / rules.length))


def fewest(value: float) -> int:
    """Whole panels, with what the columns may be off taken off first."""
    return ceil(value - LEEWAY)
