"""An outline: sides that close, its area and length, whether it crosses itself, and what lies inside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2

from .meeting import meet
from .side import Point, Side

NUDGE = 1e-9  # m, off a line between the ends of an arc


@dataclass(frozen=True, slots=True)
class Outline:
    """Sides in the order in which their corners were typed; side n runs from corner n to the next."""

    sides: tuple[Side, ...]

    @property
    def corners(self) -> tuple[Point, ...]:
        return tuple(side.start for side in self.sides)

    @property
    def turned_area(self) -> float:
        """Area inside, above zero where the sides run anticlockwise, below where they run clockwise. [m²]

        >>> straight([(0, 0), (4, 0), (4, 3), (0, 3)]).turned_area
        12.0
        """
        return sum(side.turned_area for side in self.sides)

    @property
    def area(self) -> float:
        """Area inside. [m²]"""
        return abs(self.turned_area)

    @property
    def length(self) -> float:
        """Length of all sides. [m]"""
        return sum(side.length for side in self.sides)

    @property
    def lengths(self) -> tuple[float, ...]:
        """Length of side 1, side 2, ... [m]

        >>> straight([(0, 0), (4, 0), (4, 3)]).lengths
        (4.0, 3.0, 5.0)
        """
        return tuple(side.length for side in self.sides)

    @property
    def turns(self) -> tuple[float, ...]:
        """Angle by which the way round turns left at each corner. [rad]"""
        before = (self.sides[-1], *self.sides[:-1])
        both = zip(before, self.sides, strict=True)
        return tuple(_turn(old.direction(old.length), new.direction(0.0)) for old, new in both)

    def anticlockwise(self) -> tuple[Outline, tuple[int, ...]]:
        """The outline run anticlockwise, and for each of its sides the number that it has by the typed corners.

        The first corner stays first.

        >>> straight([(0, 0), (0, 3), (4, 3), (4, 0)]).anticlockwise()[1]
        (4, 3, 2, 1)
        """
        numbers = tuple(range(1, len(self.sides) + 1))
        if self.turned_area >= 0.0:
            return self, numbers
        return Outline(tuple(side.back() for side in reversed(self.sides))), numbers[::-1]

    def holds(self, point: Point) -> bool:
        """Whether a point lies inside; one on a side may be told either way.

        The polygon of the chords and the segments of the arcs are counted each: where their number is odd, the point
        lies inside, since the outline is the sum of their borders.
        """
        if any(side.bulge and _on_chord(side, point) for side in self.sides):
            point = point[0] + NUDGE, point[1] + 2.0 * NUDGE  # on the border of both, which is none of the outline's
        x, y = point
        inside = False
        for side in self.sides:
            (x0, y0), (x1, y1) = side.start, side.end
            if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
                inside = not inside
            if side.bulge and _in_segment(side, point):
                inside = not inside
        return inside


def _on_chord(side: Side, point: Point) -> bool:
    """Whether a point lies on the straight line between an arc's ends, and on neither of them."""
    along, up = side.end[0] - side.start[0], side.end[1] - side.start[1]
    x, y = point[0] - side.start[0], point[1] - side.start[1]
    share = (x * along + y * up) / side.chord**2
    return abs(x * up - y * along) < NUDGE * side.chord and 0.0 < share < 1.0


def straight(corners: Sequence[Point]) -> Outline:
    """The outline with straight sides through these corners, in order."""
    return Outline(tuple(Side(a, b) for a, b in pairwise([*corners, corners[0]])) if corners else ())


def repeated(corners: Sequence[Point]) -> tuple[int, int] | None:
    """Numbers of the first two corners that lie on one point (within a hundredth of a millimetre); None without."""
    seen: dict[tuple[float, float], int] = {}
    for number, (x, y) in enumerate(corners, start=1):
        point = (round(x, 5), round(y, 5))
        if point in seen:
            return seen[point], number
        seen[point] = number
    return None


def crossing(outline: Outline) -> tuple[int, int] | None:
    """Numbers of the first two sides that cross, touch or run back on each other; None where the outline is clean.

    >>> crossing(straight([(0, 0), (4, 3), (4, 0), (0, 3)]))
    (1, 3)
    """
    sides, count = outline.sides, len(outline.sides)
    found = []
    for one, other in near_pairs(sides):
        shared = []
        if (one + 1) % count == other:
            shared.append(sides[one].end)
        if (other + 1) % count == one:
            shared.append(sides[one].start)
        if meet(sides[one], sides[other], tuple(shared)):
            found.append((one + 1, other + 1))
    return min(found, default=None)


def near_pairs(sides: Sequence[Side], apart: float = 1e-4) -> list[tuple[int, int]]:
    """Places of all two sides whose boxes come as near as ``apart`` (m), the lower place first.

    Sides are taken from left to right, each held only against those that are still open there.
    """
    boxes = [side.box for side in sides]
    pairs: list[tuple[int, int]] = []
    still_open: list[int] = []
    for side in sorted(range(len(sides)), key=lambda n: boxes[n][0]):
        left, _, low, high = boxes[side]
        still_open = [other for other in still_open if boxes[other][1] >= left - apart]
        pairs += [
            (min(side, other), max(side, other))
            for other in still_open
            if boxes[other][2] <= high + apart and boxes[other][3] >= low - apart
        ]
        still_open.append(side)
    return pairs


def _turn(before: Point, after: Point) -> float:
    return atan2(before[0] * after[1] - before[1] * after[0], before[0] * after[0] + before[1] * after[1])


def _in_segment(side: Side, point: Point) -> bool:
    """Whether a point lies between the arc and its chord."""
    (x0, y0), (x1, y1), (cx, cy), (x, y) = side.start, side.end, side.centre, point
    left = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)  # above zero where the point lies left of the chord
    return (x - cx) ** 2 + (y - cy) ** 2 < side.radius**2 and (left < 0.0) == (side.bulge > 0.0)
