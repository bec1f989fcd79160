"""The last stretch to a pit: how far suction still falls between the square that the cells see and the round pit.

The cells take a pit as a square of twice its radius that is held at one suction. How large a round pit that square
stands for, on these lines, is found in a small field round it whose answer is known: radial flow, slow and then fast.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np
from numpy.typing import NDArray

from ..conduction.solve import factor
from ..domain import OutOfDomain
from .cells import GROWTH, Cells, Pit, whole_cells
from .closed import radial_fall
from .hydraulics import Hydraulics
from .summed import summed

ROUND_IT = 7  # cells on each side of the square
FAST = 30.0  # how many times the fast term outweighs the slow one at the pit where the fast one is looked at
MOST_TURNS = 25
SETTLED = 1e-9
Array = NDArray[np.float64]


@dataclass(frozen=True)
class LastStretch:
    """Fall of pressure between the square and the pit: slow · Q + fast · Q²."""

    slow: float  # Pa·s/m³
    fast: float  # Pa·s²/m⁶

    def fall(self, flow: float) -> tuple[float, float]:
        """Fall [Pa] and its slope [Pa·s/m³] at a flow. [m³/s]"""
        return self.slow * flow + self.fast * flow * abs(flow), self.slow + 2.0 * self.fast * abs(flow)


def last_stretch(pit: Pit, x: Array, y: Array, hydraulics: Hydraulics) -> LastStretch:
    """What is left of the way to a pit on these lines.

    Parameters
    ----------
    pit : Pit
        [m]
    x, y : ndarray
        Lines, with the sides of the pit's square among them. [m]
    hydraulics : Hydraulics
        Of the layer at the pit. [Pa·s/m³] and [Pa·s²/m⁵]

    Returns
    -------
    LastStretch
        [Pa·s/m³] and [Pa·s²/m⁶]

    Source
    ------
    The radial closed form as a yardstick of the square (derived).

    Examples
    --------
    The square of 2 m round a pit of 1 m stands for a somewhat larger pit, so some of the fall is still to come.

    >>> lines = np.linspace(-8.0, 8.0, 17)
    >>> 0.1 < last_stretch(Pit(0.0, 0.0, 1.0), lines, lines, Hydraulics(6.2832, 0.0)).slow < 0.3
    True
    """
    grid_x, grid_y = _round_it(x, pit.x, pit.radius), _round_it(y, pit.y, pit.radius)
    slow, fast = _by_terms(tuple(grid_x.tolist()), tuple(grid_y.tolist()), pit.radius)
    return LastStretch(hydraulics.viscous * slow, hydraulics.inertial * fast)


@lru_cache(maxsize=64)
def _by_terms(x: tuple[float, ...], y: tuple[float, ...], radius: float) -> tuple[float, float]:
    """What is left of the fall for each term of the layer's law at a flow of one: the lines alone decide it."""
    grid_x, grid_y = np.array(x), np.array(y)
    slow = _left(grid_x, grid_y, radius, Hydraulics(1.0, 0.0), 1.0)
    fast = Hydraulics(1.0, FAST * 2.0 * pi * radius)
    by_fast = (_left(grid_x, grid_y, radius, fast, 1.0) - slow) / fast.inertial
    return slow, max(by_fast, 0.0)


def _round_it(lines: Array, middle: float, radius: float) -> Array:
    """The lines near a pit as seen from it; where the plan ends they go on, each cell wider than the last."""
    seen = lines - middle
    left, right = seen[seen < -radius * (1.0 - 1e-9)][::-1], seen[seen > radius * (1.0 - 1e-9)]
    within = seen[(seen > -radius * (1.0 - 1e-9)) & (seen < radius * (1.0 - 1e-9))]
    sides = []
    for outward in (-left, right):
        side = outward[: ROUND_IT + 1].tolist()
        while len(side) < ROUND_IT + 1:
            side.append(side[-1] + GROWTH * (side[-1] - side[-2] if len(side) > 1 else radius))
        sides.append(np.array(side))
    return np.concatenate([-sides[0][::-1], within, sides[1]])


def _left(x: Array, y: Array, radius: float, hydraulics: Hydraulics, flow: float) -> float:
    """Fall between the square and the pit, the rim of the box being held at what the closed form says."""
    px, py = np.meshgrid(x, y, indexing="ij")
    away = np.hypot(px, py)
    square = (np.abs(px) <= radius * (1.0 + 1e-9)) & (np.abs(py) <= radius * (1.0 + 1e-9))
    rim = np.zeros_like(square)
    rim[[0, -1]] = rim[:, [0, -1]] = True
    free = ~square & ~rim
    number = np.zeros(px.shape, int)  # the square is one unknown, the first
    number[free] = np.arange(1, int(free.sum()) + 1)
    unknown = int(free.sum()) + 1
    number[rim] = np.arange(unknown, unknown + int(rim.sum()))
    whole = np.ones((len(x) - 1, len(y) - 1), bool)
    cell, places = whole_cells(x, y, whole)
    box = Cells(x, y, whole, cell, *places.T)
    law = (np.full(len(cell), hydraulics.viscous), np.full(len(cell), hydraulics.inertial))
    layer = summed(box, number.ravel(), *law)
    suction = np.zeros(layer.count)
    below = -radial_fall(flow, hydraulics, radius, np.maximum(away, radius))  # against the round pit's suction
    suction[number[free]], suction[number[rim]] = below[free], below[rim]
    for _ in range(MOST_TURNS):
        excess = layer.unbalanced(suction)[:unknown]
        excess[0] -= flow
        step = factor(layer.change(suction)[:unknown, :unknown].tocsc()).solve(excess)
        suction[:unknown] -= step
        if np.abs(step).max() <= SETTLED * np.abs(below).max():
            return -float(suction[0])
    raise OutOfDomain("the way to a pit could not be found on these lines")
