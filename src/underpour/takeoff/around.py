"""How long a strip along an edge is at a distance from the outline: corners are counted once, arcs as arcs."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from math import radians, tan

from ..outlines.floor import Floor, Stretch
from ..resolve import KeyPlan

Polygon = tuple[tuple[float, float], ...]
MITRED = radians(22.5)  # a corner that turns by less is run straight through


@dataclass(frozen=True, slots=True)
class Along:
    """A strip along an edge: its length at the outline, and by how much less it is for each metre further in."""

    length: float  # m
    shorter: float  # 1, of the length for each metre in from the outline; outside of it the strip grows by as much

    def at(self, inward: float) -> float:
        """Its length at a distance in from the outline; out of it below nought. [m -> m]"""
        return self.length - self.shorter * inward

    def volume(self, area: float, moment: float) -> float:
        """Of a body along it, by its section's area and that area's moment about the outline. [m², m³ -> m³]

        A bar of 0.3 by 0.2 m inside a square of 10 m: 10² less 9.4², times 0.2.

        >>> round(Along(40.0, 8.0).volume(0.3 * 0.2, 0.3 * 0.2 * 0.15), 6), round((100.0 - 9.4**2) * 0.2, 6)
        (2.328, 2.328)
        """
        return area * self.length - moment * self.shorter


def box(left: float, right: float, bottom: float, top: float) -> Polygon:
    """An upright rectangle of a section. [m]"""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def volume(plan: KeyPlan, letter: str, section: Polygon, sharing: Collection[str]) -> float:
    """Of a body along an edge. [m³]

    Arguments
    ---------
    plan, letter, sharing
        As of `along`.
    section
        The body cut through: x in from the outline, y up, anticlockwise. [m]
    """
    area = moment = 0.0
    for (x0, y0), (x1, y1) in zip(section, (*section[1:], section[0]), strict=True):
        cross = x0 * y1 - x1 * y0
        area += cross / 2.0
        moment += cross * (x0 + x1) / 6.0
    return along(plan, letter, sharing).volume(area, moment)


def along(plan: KeyPlan, letter: str, sharing: Collection[str]) -> Along:
    """The strip along one edge.

    Arguments
    ---------
    plan
        The floor with every edge's stretches.
    letter
        Of the edge.
    sharing
        Letters of all edges that have such a strip: where two of them meet, each ends at the line that halves the
        corner; beside any other edge it runs on to that edge's line.
    """
    floor = plan.floor
    mine = next((edge.stretches for edge in plan.edges if edge.letter == letter), ())
    shared = [stretch for edge in plan.edges if edge.letter in sharing for stretch in edge.stretches]
    shorter = sum(_turning(floor, each) + _ends(floor, each, shared) for each in mine)
    return Along(sum(each.length for each in mine), shorter)


def _turning(floor: Floor, stretch: Stretch) -> float:
    """What an arc loses for each metre in: the angle that it turns by. [rad]"""
    side = floor.side(stretch.ring, stretch.side)
    return _juts(floor, stretch.ring) * side.sweep * stretch.length / side.length


def _ends(floor: Floor, stretch: Stretch, shared: list[Stretch]) -> float:
    """What both ends lose for each metre in. [1]"""
    return sum(
        tan(turn / 2.0) if meets(shared) else -1.0 / tan(turn)
        for turn, meets in _corners(floor, stretch)
        if abs(turn) >= MITRED
    )


@dataclass(frozen=True, slots=True)
class _Meets:
    """The stretch on the other side of a corner."""

    ring: int
    side: int
    at: float  # m along that side

    def __call__(self, shared: list[Stretch]) -> bool:
        return any(
            each.ring == self.ring and each.side == self.side and each.start - 1e-6 <= self.at <= each.end + 1e-6
            for each in shared
        )


def _corners(floor: Floor, stretch: Stretch) -> Iterator[tuple[float, _Meets]]:
    """Angle by which the outline turns in at each end that is a corner, and what lies beyond it. [rad]"""
    ring, sides = floor.rings[stretch.ring], len(floor.rings[stretch.ring].sides)
    juts, length = _juts(floor, stretch.ring), floor.side(stretch.ring, stretch.side).length
    if stretch.start < 1e-6:
        before = (stretch.side - 2) % sides + 1
        turn = juts * ring.turns[stretch.side - 1]
        yield turn, _Meets(stretch.ring, before, floor.side(stretch.ring, before).length)
    if stretch.end > length - 1e-6:
        after = stretch.side % sides + 1
        yield juts * ring.turns[after - 1], _Meets(stretch.ring, after, 0.0)


def _juts(floor: Floor, ring: int) -> float:
    """1 where a left turn of the ring is a corner that juts out, else -1."""
    return 1.0 if (floor.rings[ring].turned_area > 0.0) == (ring == 0) else -1.0
