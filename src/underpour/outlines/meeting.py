"""Whether two sides meet, straight or curved, by closed forms."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot, sqrt

from .side import Point, Side

JUST = 1e-5  # m; nearer than this is together
AT_CORNER = 1e-3  # m; sides that share a corner are not asked nearer to it


def meet(one: Side, other: Side, shared: tuple[Point, ...] = ()) -> bool:
    """Whether two sides share a point other than the corners that they have in common.

    Sides that only touch meet too. Where one lies along the other, an end of one is on the other.
    """
    ends = [(end, other) for end in (one.start, one.end)] + [(end, one) for end in (other.start, other.end)]
    if any(side.distance(end) <= JUST and not _near(end, shared) for end, side in ends):
        return True
    if len(shared) == 2 and _middle_on(one, other):
        return True
    return any(
        side_holds(one, point) and side_holds(other, point) and not _near(point, shared)
        for point in _crossings(one, other)
    )


def meeting_place(one: Side, other: Side) -> Point | None:
    """A point that two sides share, a crossing before an end; None where they share none.

    >>> meeting_place(Side((0, 0), (4, 4)), Side((0, 4), (4, 0)))
    (2.0, 2.0)
    """
    for point in _crossings(one, other):
        if side_holds(one, point) and side_holds(other, point):
            return point
    ends = [(end, other) for end in (one.start, one.end)] + [(end, one) for end in (other.start, other.end)]
    return next((end for end, side in ends if side_holds(side, end)), None)


def side_holds(side: Side, point: Point) -> bool:
    """Whether a point lies on a side."""
    return side.distance(point) <= JUST


def _near(point: Point, corners: tuple[Point, ...]) -> bool:
    return any(hypot(point[0] - x, point[1] - y) <= AT_CORNER for x, y in corners)


def _middle_on(one: Side, other: Side) -> bool:
    """Whether two sides between the same corners are one and the same."""
    return side_holds(other, one.at(one.length / 2.0))


def _crossings(one: Side, other: Side) -> Iterator[Point]:
    """Points where the lines or circles of two sides cross or touch; none where they are the same."""
    if one.bulge and other.bulge:
        return _of_circles(one.centre, one.radius, other.centre, other.radius)
    if one.bulge or other.bulge:
        arc, straight = (one, other) if one.bulge else (other, one)
        return _of_line_and_circle(straight, arc.centre, arc.radius)
    return _of_lines(one, other)


def _of_lines(one: Side, other: Side) -> Iterator[Point]:
    (ax, ay), (cx, cy) = one.start, other.start
    ux, uy = one.end[0] - ax, one.end[1] - ay
    vx, vy = other.end[0] - cx, other.end[1] - cy
    cross = ux * vy - uy * vx
    if abs(cross) > 1e-12 * one.chord * other.chord:
        along = ((cx - ax) * vy - (cy - ay) * vx) / cross
        yield ax + along * ux, ay + along * uy


def _of_line_and_circle(straight: Side, centre: Point, radius: float) -> Iterator[Point]:
    (x0, y0), c = straight.start, straight.chord
    ux, uy = (straight.end[0] - x0) / c, (straight.end[1] - y0) / c
    foot = (centre[0] - x0) * ux + (centre[1] - y0) * uy
    off = abs((centre[0] - x0) * uy - (centre[1] - y0) * ux)
    if off > radius + JUST:
        return
    half = sqrt(max(radius * radius - off * off, 0.0))
    for along in (foot - half, foot + half):
        yield x0 + along * ux, y0 + along * uy


def _of_circles(one: Point, r: float, other: Point, q: float) -> Iterator[Point]:
    dx, dy = other[0] - one[0], other[1] - one[1]
    apart = hypot(dx, dy)
    if apart <= JUST or apart > r + q + JUST or apart < abs(r - q) - JUST:
        return
    along = (r * r - q * q + apart * apart) / (2.0 * apart)
    half = sqrt(max(r * r - along * along, 0.0))
    x, y = one[0] + along * dx / apart, one[1] + along * dy / apart
    for side in (half, -half):
        yield x - side * dy / apart, y + side * dx / apart
