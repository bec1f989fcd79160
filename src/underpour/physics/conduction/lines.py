"""Where the lines of a section's grid are laid: narrow cells where temperatures bend sharply, wide ones elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from . import elements
from .crossing import ALIKE, crossed
from .grid import NOTHING, SAME, Grid, fill_at
from .shapes import Body, Films, Space

if TYPE_CHECKING:
    from .solve import Solution

GROWTH = 4.0  # of cells away from a corner
SHARP, PLAIN = 0.015, 0.3  # m: cell beside a corner at which temperatures bend sharply, and beside any other
POOR = 0.15  # W/(m·K): a poor conductor
LEAST = 1e-3  # m: narrowest first cell beside air
CROSSED = 1e-4  # m: cell beside a corner where two good conductors touch between two poor ones
ASIDE = 1e-5  # m: how far from a corner one looks for what lies around it
OF_ALL = 0.9  # of the difference of two degrees: so much of it lies in cells that are parted
PARTED = 0.25  # of a cell beside a corner: how wide its part at the corner is
NARROWEST = 1e-7  # m: cells are not parted further

Features = dict[float, float]
Array = NDArray[np.float64]


def features(
    bodies: Sequence[Body], spaces: Sequence[Space], films: Sequence[Films], extra: Sequence[float] = ()
) -> tuple[Features, Features]:
    """Every x and every y at which a body or a space has a corner, and how narrow the cells beside it must be.

    What lies in the four directions around a corner decides. A straight joint bends nothing; nor do conductors that
    are nearly alike. Where a poor conductor meets air beside another body the temperature falls over a length of
    conductivity times film: cells are as narrow as that. Where two good conductors touch in a point between two poor
    ones (ground and footing between two boards) cells are ``CROSSED``. At all other corners they are ``SHARP``.

    Parameters
    ----------
    bodies, spaces : sequences
        Outlines. [m]
    films : sequence of Films
        Films of each space. [m²·K/W]
    extra : sequence of float
        Further places x that shall be lines. [m]

    Returns
    -------
    two dicts of float to float
        Places x and y, each with the width of its first cell. [m]

    Source
    ------
    Derived: strength of the corner of two or more conductors; balance of conduction along a body and loss through its
    film. Tried on thirty random sections in studies/2026-11-28-degrees.md.

    Examples
    --------
    Foam upon concrete, both as wide as the section: a straight joint.

    >>> from types import SimpleNamespace
    >>> def slab(y0, y1, k): return SimpleNamespace(
    ...     outline=((0.0, y0), (2.0, y0), (2.0, y1), (0.0, y1)), conductivity=k, priority=1)
    >>> features([slab(0.0, 0.1, 0.035), slab(0.1, 0.2, 2.0)], [], [])
    ({0.0: 0.3, 2.0: 0.3}, {0.0: 0.3, 0.1: 0.3, 0.2: 0.3})
    """
    outlines = [*(body.outline for body in bodies), *(space.outline for space in spaces)]
    corners = [corner for outline in outlines for corner in outline]
    at = np.array(corners, float)
    around = [
        fill_at(at[:, 0] + across * ASIDE, at[:, 1] + up * ASIDE, bodies, spaces)[0]
        for across in (-1, 1)
        for up in (-1, 1)
    ]
    cells = [_first_cell(tuple(map(int, each)), bodies, films) for each in zip(*around, strict=True)]
    xs, ys = ([(corner[axis], cell) for corner, cell in zip(corners, cells, strict=True)] for axis in (0, 1))
    return _narrowest([*xs, *((x, PLAIN) for x in extra)]), _narrowest(ys)


def _first_cell(around: tuple[int, ...], bodies: Sequence[Body], films: Sequence[Films]) -> float:
    """Width of the cells beside a corner, from what fills its four quarters: left below, left above, right of both."""
    low_left, high_left, low_right, high_right = around
    if low_left == high_left == NOTHING:  # at an end of the section it is as in a mirror
        low_left, high_left = low_right, high_right
    elif low_right == high_right == NOTHING:
        low_right, high_right = low_left, high_left
    if low_left == low_right == NOTHING:
        low_left, low_right = high_left, high_right
    elif high_left == high_right == NOTHING:
        high_left, high_right = low_left, low_right
    quarters = (low_left, high_left, low_right, high_right)
    conducts = [bodies[n].conductivity if n >= 0 else float(n) for n in quarters]
    bodily = [k for k in conducts if k > 0.0]
    joint = (conducts[0] == conducts[2] and conducts[1] == conducts[3]) or (
        conducts[0] == conducts[1] and conducts[2] == conducts[3]
    )
    if joint or len(bodily) <= 1 or (len(bodily) == 4 and max(bodily) < ALIKE * min(bodily)):
        return PLAIN
    if crossed(*conducts):
        return CROSSED
    met = [films[-1 - n] for n in quarters if NOTHING < n < 0]
    if met and min(bodily) < POOR and len(set(bodily)) > 1:
        film = min(min(each.up, each.side, each.down) for each in met)
        return min(SHARP, max(min(bodily) * film, LEAST))
    return SHARP


def _narrowest(places: Sequence[tuple[float, float]]) -> Features:
    """Each place once, with the narrowest cell that is asked for there."""
    kept: Features = {}
    last = None
    for place, cell in sorted(places):
        if last is None or place - last > SAME:
            last = float(place)
            kept[last] = cell
        kept[last] = min(kept[last], cell)
    return kept


def shares(grid: Grid, lower: Solution, higher: Solution) -> tuple[Array, Array]:
    """How much two degrees differ, column by column and row by row: the energy of what one lacks of the other.

    Parameters
    ----------
    grid : Grid
        Lines and fill. [m]
    lower, higher : Solution
        Its two solutions. [degC]

    Returns
    -------
    two ndarrays, shapes (nx,) and (ny,)
        By slopes across, and by slopes up; mean and swing together. [W·K/m]

    Source
    ------
    Derived: the heat flow between two airs is the energy of the field, so what it lacks is the energy of the rest.

    Examples
    --------
    See tests/exact/test_condensed.py.
    """
    across, up = np.zeros(len(grid.x) - 1), np.zeros(len(grid.y) - 1)
    old, new = lower.equations, higher.equations
    for low, high in zip(old.pieces, new.pieces, strict=True):
        raised = elements.raised(low.element, old.degree, high.element, new.degree)
        k, a, b = new.conductivity[high.body], high.wide, high.high
        for before, after in ((lower.mean, higher.mean), (lower.swing, higher.swing)):
            lacks = after[high.points] - before[low.points] @ raised.T
            for found, matrix, share, line in (
                (across, high.element.along_x, k * b / a, high.column),
                (up, high.element.along_y, k * a / b, high.row),
            ):
                energy = share * np.einsum("cm,cm->c", lacks.conj(), lacks @ matrix).real
                found += np.bincount(line, energy, len(found))
    return across, up


def closer(
    lines: tuple[Array, Array], differ: tuple[Array, Array], corners: tuple[Sequence[float], ...]
) -> tuple[Array, Array]:
    """More lines where two degrees differ: so many columns and rows are parted that together hold most of it.

    Parameters
    ----------
    lines : two ndarrays
        Rising lines across and up. [m]
    differ : two ndarrays
        Share of each column and of each row; see ``shares``. [W·K/m]
    corners : two sequences of float
        Places beside which temperatures bend sharply: cells are parted near them, others in the middle. [m]

    Returns
    -------
    two ndarrays
        Rising lines, the old ones among them. [m]

    Source
    ------
    Bulk marking, Doerfler 1996 (from memory).

    Examples
    --------
    The second column holds nearly all, and has a corner at its left.

    >>> [each.tolist() for each in closer(
    ...     (np.array([0.0, 1.0, 2.0]), np.array([0.0, 1.0])), (np.array([0.01, 1.0]), np.array([0.0])),
    ...     ([0.0, 1.0, 2.0], [0.0, 1.0]))]
    [[0.0, 1.0, 1.25, 2.0], [0.0, 1.0]]
    """
    every = np.concatenate(differ)
    order = np.argsort(-every, kind="stable")
    count = int(np.searchsorted(np.cumsum(every[order]), OF_ALL * every.sum())) + 1
    marked = np.zeros(len(every), bool)
    marked[order[:count]] = True
    halves = np.split(marked, [len(differ[0])])
    across, up = (_parted(*each) for each in zip(lines, halves, corners, strict=True))
    return across, up


def _parted(lines: Array, marked: NDArray[np.bool_], corners: Sequence[float]) -> Array:
    inner = np.array(sorted(corners)[1:-1])
    sharp = np.abs(lines[:, None] - inner).min(1, initial=np.inf) <= SAME
    low, wide = lines[:-1], np.diff(lines)
    here = marked & (wide > NARROWEST)
    by_low, by_high = here & sharp[:-1], here & sharp[1:]
    middle = here & ~sharp[:-1] & ~sharp[1:]
    parts = [(by_low, PARTED), (by_high, 1.0 - PARTED), (middle, 0.5)]
    return np.unique(np.concatenate([lines, *((low + part * wide)[which] for which, part in parts)]))
