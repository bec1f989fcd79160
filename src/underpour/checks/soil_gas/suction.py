"""Suction below a floor as it is handed on, apart from what finds it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...outlines.side import Point

Rings = tuple[tuple[Point, ...], ...]


@dataclass(frozen=True)
class Suction:
    """Suction of the fan below a floor, against the room at its worst."""

    x: NDArray[np.float32]  # (nx,) m
    y: NDArray[np.float32]  # (ny,) m
    net: NDArray[np.float32]  # (nx, ny) Pa below the room; NaN where there is no layer
    pits: tuple[tuple[float, float, float], ...]  # x, y, radius; m
    footings: Rings  # m, where no air gets through
    weakest: tuple[float, float, float]  # x, y [m]; Pa below the room
