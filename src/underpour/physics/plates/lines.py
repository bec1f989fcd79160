"""Where the lines of the plate's cells lie: on every straight feature, close beside loads and free edges."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from .slab import Pressed, Ring, Slab

SAME = 1e-6  # m: features nearer than this are one line
GROWTH = 1.7  # from one cell to the next


def lines_of(
    slab: Slab, widest: float, *, at_edges: float, beside: Sequence[Pressed] = ()
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Lines across and up for a slab.

    Parameters
    ----------
    slab : Slab
        [m]
    widest : float
        No cell is wider. [m]
    at_edges : float
        Width of the cells beside free edges, thickenings and joints. [m]
    beside : sequence of Pressed
        Loads whose sides shall be lines, with cells of a third of their size beside them. [m]

    Returns
    -------
    two ndarrays, shape (n,)
        Rising. [m]

    Source
    ------
    Common practice for elements, no source; tried in tests/exact/test_plates_by_elements.py.

    Examples
    --------
    >>> square = Slab([(0, 0), (4, 0), (4, 1), (0, 1)], 0.1, 3e10, 0.2, 1e7)
    >>> [len(lines) for lines in lines_of(square, 1.0, at_edges=1.0)]
    [5, 2]
    """
    found = []
    for axis in (0, 1):
        wanted: dict[float, float] = {}
        for ring in (slab.outline, *slab.holes, *(region.outline for region in _regions(slab))):
            _want(wanted, _straight(ring, axis), at_edges)
        _want(wanted, [joint.at for joint in slab.joints if joint.across == "xy"[axis]], at_edges)
        ends_of_joints = [
            each for joint in slab.joints if joint.across != "xy"[axis] for each in (joint.start, joint.end)
        ]
        _want(wanted, [each for each in ends_of_joints if np.isfinite(each)], at_edges)
        for load in beside:
            corners = np.asarray(load.outline, float)[:, axis]
            _want(wanted, _straight(load.outline, axis), max(float(np.ptp(corners)) / 3.0, SAME))
        ends = np.asarray(slab.outline, float)[:, axis]
        _want(wanted, [float(ends.min()), float(ends.max())], at_edges)
        found.append(graded(wanted, widest, (float(ends.min()), float(ends.max()))))
    return found[0], found[1]


def _regions(slab: Slab):
    return (*slab.thickened, *slab.otherwise_borne)


def _want(wanted: dict[float, float], places: Iterable[float], width: float) -> None:
    for place in places:
        wanted[place] = min(width, wanted.get(place, width))


def _straight(ring: Ring, axis: int) -> list[float]:
    """Places of the sides that run along a line of cells."""
    corners = np.asarray(ring, float)
    after = np.roll(corners, -1, axis=0)
    return [float(a[axis]) for a, b in zip(corners, after, strict=True) if abs(a[axis] - b[axis]) <= SAME]


def graded(
    wanted: Mapping[float, float], widest: float, ends: tuple[float, float], growth: float = GROWTH
) -> NDArray[np.float64]:
    """Lines through every place that is wanted, narrow beside it and growing away from it.

    Parameters
    ----------
    wanted : mapping of float to float
        Places, with the width of the cells beside each. [m]
    widest : float
        No cell is wider. [m]
    ends : pair of float
        Places beyond them are left out. [m]
    growth : float
        From one cell to the next. [1]

    Returns
    -------
    ndarray, shape (n,)
        Rising. [m]

    Source
    ------
    Common practice for elements, no source.

    Examples
    --------
    >>> graded({0.0: 1.0, 4.0: 1.0}, widest=1.0, ends=(0.0, 4.0)).tolist()
    [0.0, 1.0, 2.0, 3.0, 4.0]
    """
    kept: list[tuple[float, float]] = []
    for place in sorted(each for each in wanted if ends[0] - SAME <= each <= ends[1] + SAME):
        if kept and place - kept[-1][0] <= SAME:
            kept[-1] = (kept[-1][0], min(kept[-1][1], wanted[place]))
        else:
            kept.append((place, wanted[place]))
    lines = [kept[0][0]]
    for (start, first), (end, last) in pairwise(kept):
        widths = _widths(end - start, min(first, widest), min(last, widest), widest, growth)
        lines += [*(start + np.cumsum(widths)[:-1]), end]
    return np.array(lines, float)


def _widths(length: float, first: float, last: float, widest: float, growth: float) -> NDArray[np.float64]:
    """Widths that begin and end narrow, grow towards the middle and add up to a length; none is above the widest."""
    low, high = [min(first, length)], [min(last, length)]
    if low[0] + high[0] >= length:
        count = max(1, round(length / ((first + last) / 2.0)))
        return np.full(count, length / count)
    while sum(low) + sum(high) < length:
        shorter = low if low[-1] <= high[-1] else high
        shorter.append(min(shorter[-1] * growth, widest))
    widths = np.array([*low, *high[::-1]])
    return widths * (length / widths.sum())
