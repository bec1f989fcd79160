"""One side of an outline: straight, or an arc of a circle. Lengths in m, points (x, y)."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan, atan2, cos, hypot, pi, sin, tan

Point = tuple[float, float]
Box = tuple[float, float, float, float]  # least x, greatest x, least y, greatest y


@dataclass(frozen=True, slots=True)
class Side:
    """From one corner to the next.

    ``bulge`` is that of drawing files (DXF): the tangent of a quarter of the angle that the arc turns through, above
    zero where it turns left on its way; nought is a straight side, one a half circle. It is also the arc's rise over
    half its chord, so an arc is known by its two ends and this one number.
    """

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def chord(self) -> float:
        """Straight from end to end. [m]"""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def sweep(self) -> float:
        """Angle that the arc turns through, above zero to the left. [rad]"""
        return 4.0 * atan(self.bulge)

    @property
    def radius(self) -> float:
        """Radius of the arc; a straight side has none. [m]

        >>> Side((0, 0), (8, 0), 0.5).radius  # chord 8, rise 2
        5.0
        """
        b = abs(self.bulge)
        return self.chord * (1.0 + b * b) / (4.0 * b)

    @property
    def centre(self) -> Point:
        """Middle of the arc's circle; a straight side has none."""
        (x0, y0), (x1, y1), b = self.start, self.end, self.bulge
        over = (1.0 - b * b) / (4.0 * b)  # to the left of the chord's middle, over the chord
        return (x0 + x1) / 2.0 - (y1 - y0) * over, (y0 + y1) / 2.0 + (x1 - x0) * over

    @property
    def length(self) -> float:
        """Along the side. [m]

        >>> Side((0, 0), (3, 4)).length, Side((-1, 0), (1, 0), 1.0).length == pi
        (5.0, True)
        """
        return self.radius * abs(self.sweep) if self.bulge else self.chord

    @property
    def turned_area(self) -> float:
        """Area between the side and the origin, above zero where the origin lies left of it. [m²]

        Summed round an outline this is the area inside: the triangle of the chord, and the segment that the arc cuts
        off beyond it, r²/2 (φ − sin φ).
        """
        (x0, y0), (x1, y1) = self.start, self.end
        return 0.5 * (x0 * y1 - x1 * y0) + self.segment

    @property
    def segment(self) -> float:
        """Area between chord and arc, above zero where the arc turns left. [m²]"""
        return 0.5 * self.radius**2 * (self.sweep - sin(self.sweep)) if self.bulge else 0.0

    @property
    def box(self) -> Box:
        """The upright rectangle round it."""
        xs, ys = [self.start[0], self.end[0]], [self.start[1], self.end[1]]
        if self.bulge:
            (cx, cy), r = self.centre, self.radius
            for quarter in range(4):
                x, y = cx + r * (1, 0, -1, 0)[quarter], cy + r * (0, 1, 0, -1)[quarter]
                if self.turns_past((x, y)):
                    xs.append(x)
                    ys.append(y)
        return min(xs), max(xs), min(ys), max(ys)

    def at(self, distance: float) -> Point:
        """The point so far along from the start. [m]

        >>> x, y = Side((-1, 0), (1, 0), 1.0).at(pi / 2)  # the lowest point of the half circle
        >>> round(x, 12) + 0.0, round(y, 12)
        (0.0, -1.0)
        """
        half = self.sweep * distance / self.length / 2.0
        reach = 2.0 * self.radius * abs(sin(half)) if self.bulge else distance
        dx, dy = self._heading(half - self.sweep / 2.0)
        return self.start[0] + reach * dx, self.start[1] + reach * dy

    def direction(self, distance: float) -> Point:
        """Which way the side runs so far along, as a vector of length one."""
        return self._heading(self.sweep * (distance / self.length - 0.5))

    def part(self, start: float, end: float) -> Side:
        """The stretch between two distances from the start. [m]"""
        a = self.start if start <= 0.0 else self.at(start)
        b = self.end if end >= self.length else self.at(end)
        whole = start <= 0.0 and end >= self.length
        return self if whole else Side(a, b, tan(self.sweep * (end - start) / self.length / 4.0))

    def back(self) -> Side:
        """The same side run the other way."""
        return Side(self.end, self.start, -self.bulge)

    def distance(self, point: Point) -> float:
        """From a point to the nearest of the side. [m]"""
        x, y = point
        if self.bulge:
            (cx, cy), r = self.centre, self.radius
            if self.turns_past(point):
                return abs(hypot(x - cx, y - cy) - r)
            return min(hypot(x - ex, y - ey) for ex, ey in (self.start, self.end))
        (x0, y0), (x1, y1) = self.start, self.end
        dx, dy = x1 - x0, y1 - y0
        along = min(max(((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy), 0.0), 1.0)
        return hypot(x - x0 - along * dx, y - y0 - along * dy)

    def turns_past(self, point: Point) -> bool:
        """Whether the ray from the arc's centre through a point meets the arc."""
        (cx, cy), turn = self.centre, 1.0 if self.bulge > 0.0 else -1.0
        first = atan2(self.start[1] - cy, self.start[0] - cx)
        return (turn * (atan2(point[1] - cy, point[0] - cx) - first)) % (2.0 * pi) <= abs(self.sweep)

    def _heading(self, turned: float) -> Point:
        """The chord's direction, turned left by an angle (rad)."""
        c = self.chord
        ux, uy = (self.end[0] - self.start[0]) / c, (self.end[1] - self.start[1]) / c
        return ux * cos(turned) - uy * sin(turned), ux * sin(turned) + uy * cos(turned)


def bulge_of_rise(chord: float, rise: float) -> float:
    """Bulge of an arc over a chord, by how far its middle stands off the chord. [m, m]

    >>> bulge_of_rise(chord=8.0, rise=2.0)
    0.5
    """
    return 2.0 * rise / chord


def bulge_of_radius(chord: float, radius: float) -> float:
    """Bulge of the shorter arc of that radius over a chord. [m, m] The radius is at least half the chord.

    >>> round(bulge_of_radius(chord=8.0, radius=5.0), 12)
    0.5
    """
    return tan(asin(min(chord / (2.0 * radius), 1.0)) / 2.0)


def bulge_through(start: Point, point: Point, end: Point) -> float:
    """Bulge of the arc from one end through a point to the other; nought where the three lie on a line.

    >>> round(bulge_through((0, 0), (4, -2), (8, 0)), 12)
    0.5
    """
    ux, uy = point[0] - start[0], point[1] - start[1]
    vx, vy = end[0] - point[0], end[1] - point[1]
    cross = ux * vy - uy * vx
    # by the angle under which the two ends are seen from the point: 1 / tan of half of it
    return (hypot(ux, uy) * hypot(vx, vy) - (ux * vx + uy * vy)) / cross if cross else 0.0
