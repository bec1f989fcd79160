"""What the checks of frost read: one edge taken through one winter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

IN_USE, OPEN = "in use", "open"  # stages that nobody has to type: a heated building's, and a slab's under the sky

Instance = tuple[str, str]  # an edge's letter and a stage


@dataclass(frozen=True)
class Reach:
    """How deep the 0 °C line goes at one place, day by day."""

    place: str  # "footing", "edge", "middle", "open ground"
    top: float  # level from which depth counts: of the ground outside, or of the ground below the build-up. [m]
    stop: float  # depth at which frost does harm there. [m]
    depths: NDArray[np.float32]  # (days,) below ``top``, m; nought where it is not there, below nought above it
    deepest: float  # m
    day: float  # of the deepest, as part of the year that has gone by
    within: float  # m


@dataclass(frozen=True)
class Wintered:
    """One edge through one winter, or through the years where the ground is frozen."""

    edge: str  # letter
    stage: str  # "in use", "open", or what is typed
    index: float  # of the air, K·s
    days: NDArray[np.float32]  # (days,) parts of the year that have gone by, rising past 1
    reaches: Mapping[str, Reach]  # by their place
    x: NDArray[np.float32]  # (nx,) m, where the temperatures are known
    y: NDArray[np.float32]  # (ny,) m, rising
    field: NDArray[np.float32]  # (ny, nx) degC when it is deepest there, or in open ground; not a number in air
    harms_from: float | None = None  # index from which on it would fall short, K·s; None where that was not looked for


@dataclass(frozen=True)
class Thawed:
    """Frozen ground under a heated floor."""

    edge: str
    years: int
    depth: float  # m below the build-up, in the middle of the floor
    within: float  # m
    by_year: NDArray[np.float32]  # (years,) m
