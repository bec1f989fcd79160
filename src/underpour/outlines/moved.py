"""A floor whose sides are moved in or out, each by its own distance; arcs stay arcs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import atan2, copysign, dist, hypot, pi, radians, sqrt, tan

from .floor import Floor, Stretch, rings_meeting
from .outline import Outline
from .side import Point, Side

MITRED = radians(22.5)  # where two stretches turn by less and move by two distances, one ends in a step
SAME = 1e-9  # m


@dataclass(frozen=True, slots=True)
class Moved:
    """The floor with its sides moved, and where each stretch lies on it."""

    floor: Floor
    stretches: tuple[tuple[Stretch, ...], ...]  # for each stretch that was given; a step belongs to the one before it


def moved(floor: Floor, stretches: Sequence[tuple[Stretch, float]]) -> Moved | None:
    """The floor with each stretch of its edge moved in, or out below nought; None where that leaves no such floor.

    Corners are where the moved sides meet. Between two stretches of one side, and where a side runs on nearly
    straight, one of two that move differently ends in a step. What stands in the floor stays.

    Parameters
    ----------
    floor : Floor
        As it is. [m]
    stretches : sequence of (Stretch, float)
        Every stretch of every ring once, and how far it moves in. [m]

    Examples
    --------
    A square of 10 m, half a metre out all round:

    >>> from .outline import straight
    >>> square = Floor(straight([(0, 0), (10, 0), (10, 10), (0, 10)]))
    >>> moved(square, [(Stretch(0, n, 0.0, 10.0), -0.5) for n in (1, 2, 3, 4)]).floor.area
    121.0
    """
    rings: list[Outline] = []
    found: list[tuple[Stretch, ...]] = [()] * len(stretches)
    for number, outline in enumerate(floor.rings):
        mine = [n for n, (stretch, _) in enumerate(stretches) if stretch.ring == number]
        mine.sort(key=lambda n: (stretches[n][0].side, stretches[n][0].start))
        if all(abs(stretches[n][1]) < SAME for n in mine):
            rings.append(outline)
            for n in mine:
                found[n] = (stretches[n][0],)
            continue
        inside = 1.0 if (outline.turned_area > 0.0) == (number == 0) else -1.0
        made = _ring([(floor.part(stretches[n][0]), inside * stretches[n][1]) for n in mine])
        if made is None:
            return None
        sides: list[Side] = []
        for n, pieces in zip(mine, made, strict=True):
            first = len(sides) + 1
            found[n] = tuple(Stretch(number, first + k, 0.0, each.length) for k, each in enumerate(pieces))
            sides += pieces
        ring = Outline(tuple(sides))
        if ring.turned_area * outline.turned_area <= 0.0:
            return None
        rings.append(ring)
    made_floor = replace(floor, outline=rings[0], holes=tuple(rings[1:]))
    return None if next(rings_meeting(made_floor), None) else Moved(made_floor, tuple(found))


def _ring(pieces: Sequence[tuple[Side, float]]) -> list[list[Side]] | None:
    """Each piece moved to its left and run on to its neighbours, with the step behind it; None where one vanishes."""
    shifted = [_to_the_left(side, by) for side, by in pieces]
    if any(each is None for each in shifted):
        return None
    sides = [each for each in shifted if each is not None]
    ends: list[tuple[Point, Point]] = []  # of each corner: where the piece before ends, where the next begins
    for n, (side, by) in enumerate(pieces):
        following, next_by = pieces[(n + 1) % len(pieces)]
        turn = _turn(side.direction(side.length), following.direction(0.0))
        apart = abs(by - next_by) > SAME
        here, there = sides[n], sides[(n + 1) % len(pieces)]
        if len(pieces) == 1 or (abs(turn) < MITRED and (apart or dist(here.end, there.start) < SAME)):
            ends.append((here.end, there.start))
            continue
        meeting = _meeting(here, there, side.end)
        if meeting is None:
            return None
        ends.append((meeting, meeting))
    made = []
    for n, side in enumerate(sides):
        start, (end, onward) = ends[n - 1][1], ends[n]
        trimmed = _between(side, start, end)
        if trimmed is None:
            return None
        made.append([trimmed, *([Side(end, onward)] if dist(end, onward) > SAME else [])])
    return made


def _to_the_left(side: Side, by: float) -> Side | None:
    """A side moved to the left of its way; an arc keeps its centre and vanishes where that is passed. [m]"""
    if side.bulge and by * copysign(1.0, side.bulge) >= side.radius - SAME:
        return None
    (ax, ay), (bx, by_) = side.direction(0.0), side.direction(side.length)
    start = side.start[0] - ay * by, side.start[1] + ax * by
    end = side.end[0] - by_ * by, side.end[1] + bx * by
    return Side(start, end, side.bulge)


def _turn(one: Point, other: Point) -> float:
    return atan2(one[0] * other[1] - one[1] * other[0], one[0] * other[0] + one[1] * other[1])


def _between(side: Side, start: Point, end: Point) -> Side | None:
    """The side from one point of its line or circle to another; None where it would run backwards."""
    if not side.bulge:
        ahead = (end[0] - start[0]) * (side.end[0] - side.start[0]) + (end[1] - start[1]) * (
            side.end[1] - side.start[1]
        )
        return Side(start, end) if ahead > 0.0 else None
    cx, cy = side.centre
    turn = atan2(end[1] - cy, end[0] - cx) - atan2(start[1] - cy, start[0] - cx)
    sweep = side.sweep + (turn - side.sweep + pi) % (2.0 * pi) - pi
    return Side(start, end, tan(sweep / 4.0)) if sweep * side.sweep > 0.0 else None


def _meeting(one: Side, other: Side, near: Point) -> Point | None:
    """Where the lines or circles of two sides meet, nearest to a point; None where they do not."""
    if one.bulge and other.bulge:
        found = _circles(one, other)
    elif one.bulge or other.bulge:
        found = _line_and_circle(*((other, one) if one.bulge else (one, other)))
    else:
        found = _lines(one, other)
    return min(found, key=lambda point: dist(point, near), default=None)


def _lines(one: Side, other: Side) -> Iterator[Point]:
    (ux, uy), (vx, vy) = one.direction(0.0), other.direction(0.0)
    cross = ux * vy - uy * vx
    if abs(cross) > 1e-12:
        wx, wy = other.start[0] - one.start[0], other.start[1] - one.start[1]
        along = (wx * vy - wy * vx) / cross
        yield one.start[0] + along * ux, one.start[1] + along * uy


def _line_and_circle(line: Side, arc: Side) -> Iterator[Point]:
    (ux, uy), (cx, cy) = line.direction(0.0), arc.centre
    wx, wy = cx - line.start[0], cy - line.start[1]
    foot, off = wx * ux + wy * uy, wx * uy - wy * ux
    half = arc.radius**2 - off**2
    if half >= 0.0:
        for along in (foot - sqrt(half), foot + sqrt(half)):
            yield line.start[0] + along * ux, line.start[1] + along * uy


def _circles(one: Side, other: Side) -> Iterator[Point]:
    (ax, ay), (bx, by), r, s = one.centre, other.centre, one.radius, other.radius
    apart = hypot(bx - ax, by - ay)
    if apart > SAME:
        along = (apart**2 + r**2 - s**2) / (2.0 * apart)
        half = r**2 - along**2
        if half >= 0.0:
            ux, uy = (bx - ax) / apart, (by - ay) / apart
            for off in (sqrt(half), -sqrt(half)):
                yield ax + along * ux - off * uy, ay + along * uy + off * ux
