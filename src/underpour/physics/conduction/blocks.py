"""A section of upright and level sides as blocks: the fewest lines between which one thing fills each block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from .grid import NOTHING, SAME
from .shapes import Body, Space

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Blocks:
    """Lines and what fills each block between them, as ``Grid`` counts it; lines that part nothing are left out."""

    x: Array  # (nx + 1,) m
    y: Array  # (ny + 1,) m
    fill: NDArray[np.int64]  # (nx, ny)
    kind: Array  # (nx, ny) conductivity in W/(m·K), or the fill where it is no body


def blocks(bodies: Sequence[Body], spaces: Sequence[Space]) -> tuple[Blocks | None, list[tuple[int, int]]]:
    """Lay the fewest lines through a section, and say which bodies contradict each other.

    Parameters
    ----------
    bodies : sequence of Body
        Lower priority wins; outlines in m. [m]
    spaces : sequence of Space
        Air; any body wins over it. [m]

    Returns
    -------
    Blocks or None, list of pairs of int
        None where a side slopes; pairs of bodies of one priority that both claim a place where neither is hidden. [m]

    Source
    ------
    Even-odd rule, common practice, no source.

    Examples
    --------
    Fill upon ground of the same conductivity, a room above: one line is left, at its floor.

    >>> from types import SimpleNamespace as S
    >>> def box(y0, y1): return ((0.0, y0), (4.0, y0), (4.0, y1), (0.0, y1))
    >>> ground = S(outline=box(-2.0, -0.2), conductivity=2.0, heat_capacity=2e6, priority=9)
    >>> upon = S(outline=box(-0.2, 0.0), conductivity=2.0, heat_capacity=2e6, priority=8)
    >>> made, _ = blocks([ground, upon], [S(where="room", outline=box(0.0, 1.0))])
    >>> made.y.tolist(), made.kind.tolist()
    ([-2.0, 0.0, 1.0], [[2.0, -1.0]])
    """
    outlines = [*(body.outline for body in bodies), *(space.outline for space in spaces)]
    counts = [len(outline) for outline in outlines]
    starts = np.cumsum([0, *counts[:-1]])
    ends = np.array([corner for outline in outlines for corner in outline], float)
    begins = np.array([corner for outline in outlines for corner in (outline[-1], *outline[:-1])], float)
    across, up = np.abs(ends - begins).T
    if np.minimum(across, up).max() > SAME:
        return None, []
    x, y = (_distinct(ends[:, axis]) for axis in (0, 1))
    middle_x, middle_y = (x[1:] + x[:-1]) / 2, (y[1:] + y[:-1]) / 2
    low, high = np.minimum(begins[:, 1:], ends[:, 1:]), np.maximum(begins[:, 1:], ends[:, 1:])
    passed = ends[:, :1] > middle_x, (low < middle_y) & (high > middle_y)
    inside = np.logical_xor.reduceat(passed[0][:, :, None] & passed[1][:, None, :], starts)
    after_all = max((body.priority for body in bodies), default=0) + 1
    ranks = [*(body.priority for body in bodies), *(after_all + n for n in range(len(spaces), 0, -1))]
    claims = np.where(inside, np.array(ranks)[:, None, None], after_all + len(spaces) + 1)
    wins = claims.argmin(0)
    fill = np.where(wins < len(bodies), wins, len(bodies) - 1 - wins)
    fill[~inside.any(0)] = NOTHING
    conductivity = np.array([*(body.conductivity for body in bodies), 0.0])
    made = _merged(x, y, fill, np.where(fill >= 0, conductivity[np.maximum(fill, -1)], fill))
    return made, _clashes(bodies, claims[: len(bodies)] == claims.min(0))


def _distinct(places: Array) -> Array:
    rising = np.sort(places)
    return rising[np.concatenate([[True], np.diff(rising) > SAME])]


def _merged(x: Array, y: Array, fill: NDArray[np.int64], kind: Array) -> Blocks:
    """Without lines on whose two hands everything is alike."""
    columns = np.concatenate([[True], (kind[1:] != kind[:-1]).any(1)])
    rows = np.concatenate([[True], (kind[:, 1:] != kind[:, :-1]).any(0)])
    return Blocks(
        np.concatenate([x[:-1][columns], x[-1:]]),
        np.concatenate([y[:-1][rows], y[-1:]]),
        fill[columns][:, rows],
        kind[columns][:, rows],
    )


def _clashes(bodies: Sequence[Body], best: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Pairs of unlike bodies that are both best at one place. ``best`` holds for no body where none is."""
    if not (best.sum(0) > 1).any():
        return []
    return [
        (n, m)
        for n, m in combinations(range(len(bodies)), 2)
        if (best[n] & best[m]).any()
        and (bodies[n].conductivity, bodies[n].heat_capacity) != (bodies[m].conductivity, bodies[m].heat_capacity)
    ]
