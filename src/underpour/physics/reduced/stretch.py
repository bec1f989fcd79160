"""Sections that differ in lengths only: one grid, whose columns and rows are stretched."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from ..conduction.grid import LEAST_CELL, RATIO, SAME, Grid, crossed, features_of, fill, finer, graded, within
from ..conduction.shapes import Body, Films, Space
from ..domain import OutOfDomain

Array = NDArray[np.float64]
Cut = Callable[[Array], tuple[Sequence[Body], Sequence[Space]]]
LEAST_SHARE = (
    0.02  # a row or column that shrinks to less of its length at the reference passes through zero, as good as
)


class Unstretched(OutOfDomain):
    """The sections of a family cannot be made from one another by stretching; says why."""


@dataclass(frozen=True)
class Lines:
    """Lines of one direction: each place is its place at the reference plus slopes times what the lengths differ."""

    features: Array  # (m,) m, at the reference
    slopes: Array  # (m, lengths) 1

    def at(self, difference: Array) -> Array:
        """Features (cases, m) where the lengths differ by so much (cases, lengths) from the reference. [m]"""
        return np.asarray(self.features + difference @ self.slopes.T)

    def moved(self, places: Array, difference: Array) -> Array:
        """Where the grid lines of the reference come to lie, for one case (lengths,). [m]"""
        return np.interp(places, self.features, self.at(difference))

    def band(self, places: Array) -> NDArray[np.int64]:
        """Number of the stretch between two features that each place lies in."""
        found = np.searchsorted(self.features, places, side="right") - 1
        return np.clip(found, 0, len(self.features) - 2)


@dataclass(frozen=True)
class Stretched:
    """The reference's grid and the finer one, and how both are stretched."""

    across: Lines
    up: Lines
    grid: Grid
    finer: Callable[[], Grid]
    bodies: Sequence[Body]  # at the reference
    spaces: Sequence[Space]


def stretched(
    cut: Cut, low: Array, high: Array, films: Sequence[Films], lines_x: Sequence[float] = (), narrowed: float = 1.0
) -> Stretched:
    """How the sections between two ends of their lengths follow from the one in the middle.

    Every line through a corner must move in proportion to the lengths, lines must keep their order, and each cell must
    keep its body. That is looked at in the middle, at each end and in every corner of the box.

    Parameters
    ----------
    cut : callable
        Lengths (lengths,) to bodies and spaces, always as many and in one order. [m]
    low, high : ndarray, shape (lengths,)
        Ends of the lengths; the middle is geometric. [m]
    films : sequence of Films
        Films of each space. [m²·K/W]
    lines_x : sequence of float
        Further places x that shall be lines; they stay. [m]
    narrowed : float
        What the cells beside a corner are narrowed by, against a full solve's first grid. [1]

    Returns
    -------
    Stretched
        [m]

    Raises
    ------
    Unstretched
        A length that is nought or less, lines that change their order, slanted sides that move.

    Source
    ------
    Definition.

    Examples
    --------
    A wall from 0.1 to 0.4 m thick between two airs: its outer line moves, and the air beyond it.

    >>> from types import SimpleNamespace as S
    >>> def box(x0, x1): return ((x0, 0.0), (x1, 0.0), (x1, 1.0), (x0, 1.0))
    >>> def wall(t): return ([S(outline=box(0, t[0]), conductivity=1.0, heat_capacity=2e6, priority=1)],
    ...     [S(where="room", outline=box(t[0], t[0] + 1.0)), S(where="outdoors", outline=box(-1.0, 0.0))])
    >>> made = stretched(wall, np.array([0.1]), np.array([0.4]), [Films(0.1, 0.1, 0.1)] * 2)
    >>> made.across.features.round(3).tolist(), made.across.slopes.ravel().round(3).tolist()
    ([-1.0, 0.0, 0.2, 1.2], [0.0, 0.0, 1.0, 1.0])
    """
    if not (np.all(low > 0.0) and np.all(high >= low)):
        raise Unstretched("a length of nought cannot be stretched")
    middle = np.sqrt(low * high)
    bodies, spaces = cut(middle)
    features = features_of(bodies, spaces, films, lines_x)
    stretches = crossed(bodies, spaces)
    ends = _ends(low, high, middle)
    cuts = [cut(end) for end in ends]
    places = [[np.array(sorted(each)) for each in features_of(*made, films, lines_x)] for made in cuts]
    axes = []
    for axis in (0, 1):
        at_middle = np.array(sorted(features[axis]))
        if any(len(at_end[axis]) != len(at_middle) for at_end in places):
            raise Unstretched("lines meet or part: a stretch passes through zero")
        axes.append(_lines(at_middle, [at_end[axis] for at_end in places], ends - middle))
    narrow = [{at: max(cell * narrowed, LEAST_CELL) for at, cell in each.items()} for each in features]
    x, y = (
        lines[~(np.array(within(lines, spare), bool) & ~np.isin(lines, list(wanted)))]
        for lines, wanted, spare in ((graded(f, RATIO), f, s) for f, s in zip(narrow, stretches, strict=True))
    )
    grid, _ = fill(x, y, bodies, spaces)
    for end, made in zip(ends, cuts, strict=True):
        _alike(grid, axes, end - middle, *made)
    kept = [[f for f in sorted(fs) if not within([f], s)[0]] for fs, s in zip(features, stretches, strict=True)]

    def twice() -> Grid:
        slanted = any(stretches)
        first = (grid.x, grid.y) if slanted else (x, y)
        return fill(finer(first[0], kept[0]), finer(first[1], kept[1]), bodies, spaces)[0]

    return Stretched(axes[0], axes[1], grid, twice, bodies, spaces)


def _ends(low: Array, high: Array, middle: Array) -> Array:
    """Each length at its ends, the others in the middle; then every corner of the box. (cases, lengths)"""
    if not len(low):
        return np.empty((0, 0))
    alone = [np.where(np.arange(len(low)) == n, end, middle) for n in range(len(low)) for end in (low, high)]
    corners = [np.where(np.array(which), high, low) for which in product((False, True), repeat=len(low))]
    return np.array([*alone, *corners])


def _lines(middle: Array, ends: Sequence[Array], difference: Array) -> Lines:
    """Slopes from what each length moves alone, held to every end."""
    count = difference.shape[1] if len(ends) else 0
    slopes = np.zeros((len(middle), count))
    for n in range(count):
        span = difference[2 * n + 1, n] - difference[2 * n, n]
        if span > 0.0:
            slopes[:, n] = (ends[2 * n + 1] - ends[2 * n]) / span
    slopes[np.abs(slopes) < 1e-9] = 0.0
    lines = Lines(middle, slopes)
    for end, away in zip(ends, difference, strict=True):
        if np.abs(lines.at(away) - end).max() > 10 * SAME:
            raise Unstretched("lines do not move in proportion to a length")
        if (np.diff(end) < LEAST_SHARE * np.diff(middle)).any():
            raise Unstretched("a stretch comes too near to zero")
    return lines


def _alike(grid: Grid, axes: Sequence[Lines], away: Array, bodies: Sequence[Body], spaces: Sequence[Space]) -> None:
    """Whether each cell of the stretched grid holds what it holds at the reference."""
    moved = [lines.moved(places, away) for lines, places in zip(axes, (grid.x, grid.y), strict=True)]
    other, pairs = fill(moved[0], moved[1], bodies, spaces)
    if pairs or other.first.shape != grid.first.shape:
        raise Unstretched("slanted sides would be stretched")
    same = [
        np.array_equal(one, two)
        for one, two in ((grid.first, other.first), (grid.second, other.second), (grid.split, other.split))
    ]
    if not all(same):
        raise Unstretched("a place changes from one body to another")
    split = np.argwhere(grid.split != 0)
    wide = [np.diff(lines) / np.diff(places) for lines, places in zip(moved, (grid.x, grid.y), strict=True)]
    if len(split) and max(np.abs(w[split[:, axis]] - 1.0).max() for axis, w in enumerate(wide)) > 1e-6:
        raise Unstretched("slanted sides would be stretched")
