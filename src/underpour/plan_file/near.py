"""Points that lie near one another, found by cells of a grid."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from math import floor, hypot

from ..outlines.side import Point


def near_points(points: Sequence[Point], within: float) -> Iterator[tuple[int, int]]:
    """Places of all two points that lie no farther apart than ``within`` (m), the lower place first.

    >>> list(near_points([(0.0, 0.0), (5.0, 5.0), (0.0, 0.5)], 0.5))
    [(0, 2)]
    """
    cells: defaultdict[tuple[int, int], list[int]] = defaultdict(list)
    for number, (x, y) in enumerate(points):
        column, row = floor(x / within), floor(y / within)
        for around in ((column + i, row + j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            for other in cells.get(around, ()):
                if hypot(points[other][0] - x, points[other][1] - y) <= within:
                    yield other, number
        cells[column, row].append(number)


def together(points: Sequence[Point], within: float) -> list[int]:
    """For each point the first of those that it hangs together with, near by near.

    >>> together([(0.0, 0.0), (9.0, 0.0), (0.4, 0.0), (0.8, 0.0)], 0.5)
    [0, 1, 0, 0]
    """
    first = list(range(len(points)))

    def root(number: int) -> int:
        while first[number] != number:
            first[number] = first[first[number]]
            number = first[number]
        return number

    for one, other in near_points(points, within):
        a, b = sorted((root(one), root(other)))
        first[b] = a
    return [root(number) for number in range(len(points))]
