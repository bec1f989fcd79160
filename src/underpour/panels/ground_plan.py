"""A floor turned so that rows run along x, cut into columns in which its upper and lower sides do not change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import asin, atan2, cos, pi, radians, sin, sqrt

from ..outlines.floor import Floor
from ..outlines.outline import Outline
from ..outlines.side import Point, Side

SAME = 1e-9  # m; nearer than this two places are one


@dataclass(frozen=True, slots=True)
class Rise:
    """Part of a side from left to right that neither turns back nor changes between rising and falling. [m]"""

    x0: float
    y0: float
    x1: float
    y1: float
    cx: float = 0.0  # middle of the arc's circle
    cy: float = 0.0
    radius: float = 0.0  # below nought where the arc lies under the middle; nought is straight

    def at(self, x: float) -> float:
        """Height there. [m]

        >>> Rise(0, 0, 4, 2).at(1), Rise(0, 5, 5, 0, 0, 0, 5).at(3)
        (0.5, 4.0)
        """
        if x <= self.x0:
            return self.y0
        if x >= self.x1:
            return self.y1
        if self.radius:
            up = sqrt(max(self.radius**2 - (x - self.cx) ** 2, 0.0))
            return self.cy + (up if self.radius > 0.0 else -up)
        return self.y0 + (self.y1 - self.y0) * (x - self.x0) / (self.x1 - self.x0)

    def reaches(self, y: float) -> float:
        """Where it is so high, for a height between those of its ends. [m]"""
        if self.radius:
            along = sqrt(max(self.radius**2 - (y - self.cy) ** 2, 0.0))
            x = self.cx + (along if self.x0 + self.x1 > 2.0 * self.cx else -along)
            return min(max(x, self.x0), self.x1)
        return self.x0 + (self.x1 - self.x0) * (y - self.y0) / (self.y1 - self.y0)

    def area(self, left: float, right: float) -> float:
        """Between it and y = 0. [m²]

        >>> round(Rise(0, 5, 5, 0, 0, 0, 5).area(0, 5) / (pi * 25 / 4), 12)  # a quarter of a circle
        1.0
        """
        if not self.radius:
            return (self.at(left) + self.at(right)) / 2.0 * (right - left)
        r = abs(self.radius)
        cut = self._under(right - self.cx, r) - self._under(left - self.cx, r)
        return self.cy * (right - left) + (cut if self.radius > 0.0 else -cut)

    @staticmethod
    def _under(x: float, r: float) -> float:
        x = min(max(x, -r), r)
        return 0.5 * (x * sqrt(r * r - x * x) + r * r * asin(x / r))


@dataclass(frozen=True, slots=True)
class Column:
    """Between two x, the floor from each lower side to the upper one above it."""

    x0: float
    x1: float
    spans: tuple[tuple[Rise, Rise], ...]  # from below upwards


@dataclass(frozen=True, slots=True)
class GroundPlan:
    """The floor less what stands in it, with x along the rows."""

    columns: tuple[Column, ...]
    levels: tuple[float, ...]  # heights of corners and of the lowest and highest points of arcs, m

    @property
    def area(self) -> float:
        """[m²]"""
        return sum(
            high.area(each.x0, each.x1) - low.area(each.x0, each.x1)
            for each in self.columns
            for low, high in each.spans
        )

    @property
    def bottom(self) -> float:
        return self.levels[0]

    @property
    def top(self) -> float:
        return self.levels[-1]


def ground_plan(floor: Floor, angle: float) -> GroundPlan:
    """The floor seen along rows that run at an angle.

    Arguments
    ---------
    floor
        Outline, holes and obstacles; what goes through the floor is no place for a panel. [m]
    angle
        Of the rows, anticlockwise from x. [degrees]

    >>> from underpour.outlines.outline import straight
    >>> plan = ground_plan(Floor(straight([(0, 0), (4, 0), (4, 3), (0, 3)])), 90.0)
    >>> round(plan.area, 9), round(plan.top - plan.bottom, 9)
    (12.0, 4.0)
    """
    whole = list(_rises(floor.outline, angle))
    taken = [
        rise for ring in (*floor.holes, *(each.outline for each in floor.obstacles)) for rise in _rises(ring, angle)
    ]
    breaks = _apart(x for rise in (*whole, *taken) for x in (rise.x0, rise.x1))
    columns = tuple(
        Column(left, right, spans)
        for left, right in pairwise(breaks)
        if (spans := tuple(_spans(whole, taken, (left + right) / 2.0)))
    )
    return GroundPlan(columns, tuple(_apart(y for rise in (*whole, *taken) for y in (rise.y0, rise.y1))))


def _spans(whole: list[Rise], taken: list[Rise], x: float) -> Iterator[tuple[Rise, Rise]]:
    """The floor's stretches over x: inside the outline and in nothing that is taken out."""
    there = sorted(
        ((rise.at(x), cut, rise) for cut, rises in ((0, whole), (1, taken)) for rise in rises if rise.x0 < x < rise.x1),
        key=lambda each: each[:2],
    )
    inside, out, low = False, False, None
    for _, cut, rise in there:
        was = inside and not out
        if cut:
            out = not out  # rings that are taken out lie apart
        else:
            inside = not inside
        now = inside and not out
        if now and not was:
            low = rise
        elif was and not now and low is not None:
            yield low, rise


def _rises(ring: Outline, angle: float) -> Iterator[Rise]:
    for side in ring.sides:
        yield from _parts(Side(turned(side.start, angle), turned(side.end, angle), side.bulge))


def turned(point: Point, angle: float) -> Point:
    """A point of the plan as it lies along rows at an angle. [m, degrees]

    >>> turned((3.0, 1.0), 90.0)
    (1.0, -3.0)
    """
    turn = radians(angle)
    c, s = cos(turn), sin(turn)
    if abs(angle % 90.0) < 1e-12:  # so that a right angle stays one to the last digit
        c, s = float(round(c)), float(round(s))
    return point[0] * c + point[1] * s, point[1] * c - point[0] * s


def _parts(side: Side) -> Iterator[Rise]:
    (x0, y0), (x1, y1) = side.start, side.end
    if not side.bulge:
        if abs(x1 - x0) > SAME:
            yield Rise(x0, y0, x1, y1) if x0 < x1 else Rise(x1, y1, x0, y0)
        return
    (cx, cy), r = side.centre, side.radius
    points = [side.start, *_extremes(side), side.end]
    for (ax, ay), (bx, by) in pairwise(points):
        if abs(bx - ax) > SAME:
            bent = r if ay + by > 2.0 * cy else -r
            yield Rise(ax, ay, bx, by, cx, cy, bent) if ax < bx else Rise(bx, by, ax, ay, cx, cy, bent)


def _extremes(side: Side) -> Iterator[Point]:
    """The rightmost, highest, leftmost and lowest points that the arc goes through, on its way."""
    (cx, cy), r = side.centre, side.radius
    first = atan2(side.start[1] - cy, side.start[0] - cx)
    sweep = side.sweep
    found = []
    for quarter, (ux, uy) in enumerate(((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))):
        gone = (quarter * pi / 2.0 - first) % (2.0 * pi)
        gone = gone if sweep > 0.0 else 2.0 * pi - gone
        if 1e-12 < gone < abs(sweep) - 1e-12:
            found.append((gone, (cx + r * ux, cy + r * uy)))
    yield from (point for _, point in sorted(found))


def _apart(places: Iterable[float]) -> list[float]:
    """In order, each place once."""
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > SAME:
            kept.append(place)
    return kept
