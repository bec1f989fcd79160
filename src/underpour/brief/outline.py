"""The floor's outline: its area, sides and turning, and whether it crosses itself. Lengths in m, corners (x, y)."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

Corner = tuple[float, float]
Corners = Sequence[Corner]


def turned_area(corners: Corners) -> float:
    """Area inside, above zero where the corners run anticlockwise, below where they run clockwise. [m²]

    >>> turned_area([(0, 0), (4, 0), (4, 3), (0, 3)])
    12.0
    """
    return 0.5 * sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in _sides(corners))


def area(corners: Corners) -> float:
    """Area inside. [m²]"""
    return abs(turned_area(corners))


def side_lengths(corners: Corners) -> tuple[float, ...]:
    """Length of each side; side n runs from corner n to the next. [m]

    >>> side_lengths([(0, 0), (4, 0), (4, 3)])
    (4.0, 3.0, 5.0)
    """
    return tuple(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in _sides(corners))


def perimeter(corners: Corners) -> float:
    """Length of all sides. [m]"""
    return sum(side_lengths(corners))


def anticlockwise(corners: Corners) -> tuple[tuple[Corner, ...], tuple[int, ...]]:
    """The corners turned anticlockwise, and for each of their sides the number it has by the typed corners.

    The first corner stays first.

    >>> anticlockwise([(0, 0), (0, 3), (4, 3), (4, 0)])
    (((0, 0), (4, 0), (4, 3), (0, 3)), (4, 3, 2, 1))
    """
    numbers = tuple(range(1, len(corners) + 1))
    if turned_area(corners) >= 0.0:
        return tuple(corners), numbers
    first, *others = corners
    return (first, *reversed(others)), numbers[::-1]


def repeated(corners: Corners) -> tuple[int, int] | None:
    """Numbers of the first two corners that lie on one point (within a hundredth of a millimetre); None without."""
    seen: dict[tuple[float, float], int] = {}
    for number, (x, y) in enumerate(corners, start=1):
        point = (round(x, 5), round(y, 5))
        if point in seen:
            return seen[point], number
        seen[point] = number
    return None


def crossing(corners: Corners) -> tuple[int, int] | None:
    """Numbers of the first two sides that cross, touch or run back on each other; None where the outline is clean.

    Sides are taken from left to right, each held only against those that overlap it in x.

    >>> crossing([(0, 0), (4, 3), (4, 0), (0, 3)])
    (1, 3)
    """
    sides = _sides(corners)
    left = [min(start[0], end[0]) for start, end in sides]
    found: list[tuple[int, int]] = []
    open_sides: list[int] = []
    for side in sorted(range(len(sides)), key=left.__getitem__):
        open_sides = [other for other in open_sides if max(sides[other][0][0], sides[other][1][0]) >= left[side]]
        found += [(min(side, other), max(side, other)) for other in open_sides if _collide(sides, side, other)]
        open_sides.append(side)
    if not found:
        return None
    first, second = min(found)
    return first + 1, second + 1


def _collide(sides: Sequence[tuple[Corner, Corner]], one: int, other: int) -> bool:
    """Whether two sides share more than the corner between neighbours."""
    if (one + 1) % len(sides) == other:
        return _runs_back(*sides[one], sides[other][1])
    if (other + 1) % len(sides) == one:
        return _runs_back(*sides[other], sides[one][1])
    return _meet(sides[one], sides[other])


def _sides(corners: Corners) -> list[tuple[Corner, Corner]]:
    return list(pairwise([*corners, corners[0]])) if corners else []


def _turn(a: Corner, b: Corner, c: Corner) -> int:
    """1 where c lies left of the line from a to b, -1 where right, 0 where on it (to rounding)."""
    left, right = (b[0] - a[0]) * (c[1] - a[1]), (b[1] - a[1]) * (c[0] - a[0])
    if abs(left - right) <= 1e-12 * (abs(left) + abs(right)):
        return 0
    return 1 if left > right else -1


def _runs_back(a: Corner, b: Corner, c: Corner) -> bool:
    """Whether the side from b to c lies along the one from a to b, in the other direction."""
    forward = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
    return _turn(a, b, c) == 0 and forward < 0.0


def _meet(one: tuple[Corner, Corner], other: tuple[Corner, Corner]) -> bool:
    (a, b), (c, d) = one, other
    turns = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    ends = ((a, b, c), (a, b, d), (c, d, a), (c, d, b))
    return any(turn == 0 and _within(*points) for turn, points in zip(turns, ends, strict=True))


def _within(a: Corner, b: Corner, c: Corner) -> bool:
    """Whether c, on the line through a and b, lies between the two."""
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])
