"""A floor seen from above: its outline less its holes, what stands in it, and its corners."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import degrees, pi

from .meeting import meet
from .outline import Outline, near_pairs, straight
from .side import Point, Side

STRAIGHT_ON = 1.0  # degrees; a corner that turns by less is none
LEEWAY = 1e-3  # m that an obstacle may reach into what it touches


@dataclass(frozen=True, slots=True)
class Obstacle:
    """Something that goes through the floor: a rectangle along x and y, or a circle."""

    kind: str  # column, pipe, drain, post, pit
    at: Point  # its middle
    size: tuple[float, float]  # m, along x and along y; a circle's diameter twice
    circle: bool

    @property
    def area(self) -> float:
        """What it takes of the floor. [m²]

        >>> round(Obstacle("column", (2, 3), (0.3, 0.3), True).area, 6)
        0.070686
        """
        return (pi / 4.0 if self.circle else 1.0) * self.size[0] * self.size[1]

    @property
    def outline(self) -> Outline:
        return self.shrunk(0.0)

    def shrunk(self, by: float) -> Outline:
        """Its outline, drawn in by so much all round. [m]"""
        (x, y), w, h = self.at, self.size[0] / 2.0 - by, self.size[1] / 2.0 - by
        if self.circle:
            return Outline((Side((x - w, y), (x + w, y), 1.0), Side((x + w, y), (x - w, y), 1.0)))
        return straight([(x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h)])


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the plan where the edge turns."""

    ring: int  # 0 of the outline, n of hole n
    number: int  # side of this number begins here
    point: Point
    angle: float  # degrees, inside the floor: below 180 where the floor juts out, above where it turns in

    @property
    def reentrant(self) -> bool:
        return self.angle > 180.0


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of one side, in m from the corner where the side begins as typed."""

    ring: int  # 0 of the outline, n of hole n
    side: int
    start: float
    end: float

    @property
    def length(self) -> float:
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class Floor:
    """An outline, the holes in it and what stands in it."""

    outline: Outline
    holes: tuple[Outline, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()

    @property
    def rings(self) -> tuple[Outline, ...]:
        """The outline, then each hole."""
        return (self.outline, *self.holes)

    @property
    def area(self) -> float:
        """Area of the floor, holes taken off; what stands in it is not. [m²]

        >>> court = straight([(4, 4), (6, 4), (6, 6), (4, 6)])
        >>> Floor(straight([(0, 0), (10, 0), (10, 10), (0, 10)]), (court,)).area
        96.0
        """
        return self.outline.area - sum(hole.area for hole in self.holes)

    @property
    def length(self) -> float:
        """Length of the edge all round, that of holes too. [m]"""
        return sum(ring.length for ring in self.rings)

    @property
    def corners(self) -> tuple[Corner, ...]:
        """Each corner where the edge turns, with its angle inside the floor, none where it runs on straight."""
        every = (corner for ring in range(len(self.rings)) for corner in self._corners(ring))
        return tuple(corner for corner in every if abs(corner.angle - 180.0) >= STRAIGHT_ON)

    def side(self, ring: int, number: int) -> Side:
        return self.rings[ring].sides[number - 1]

    def part(self, stretch: Stretch) -> Side:
        """The stretch as a side of its own."""
        return self.side(stretch.ring, stretch.side).part(stretch.start, stretch.end)

    def holds(self, point: Point) -> bool:
        """Whether a point lies on the floor: inside the outline and in no hole."""
        return self.outline.holds(point) and not any(hole.holds(point) for hole in self.holes)

    def _corners(self, ring: int) -> Iterator[Corner]:
        outline = self.rings[ring]
        floor_is_left = (outline.turned_area > 0.0) == (ring == 0)
        for number, (point, turn) in enumerate(zip(outline.corners, outline.turns, strict=True), start=1):
            yield Corner(ring, number, point, 180.0 - degrees(turn if floor_is_left else -turn))


def rings_meeting(floor: Floor) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    """Two sides of different outlines that cross or touch, one pair for each two outlines: (ring, side) of each."""
    places = [(ring, side) for ring, outline in enumerate(floor.rings) for side in range(1, len(outline.sides) + 1)]
    sides = [floor.side(*place) for place in places]
    told: set[tuple[int, int]] = set()
    for one, other in sorted(near_pairs(sides)):
        (ring, _), (further, _) = places[one], places[other]
        if ring != further and (ring, further) not in told and meet(sides[one], sides[other]):
            told.add((ring, further))
            yield places[one], places[other]


def stands_on(floor: Floor, obstacle: Obstacle) -> bool:
    """Whether the whole obstacle stands on the floor; it may touch a side."""
    within = obstacle.shrunk(LEEWAY)
    return (
        floor.holds(obstacle.at)
        and not any(within.holds(ring.corners[0]) for ring in floor.rings)
        and not any(_meet(within, ring) for ring in floor.rings)
    )


def overlap(one: Obstacle, other: Obstacle) -> bool:
    """Whether two obstacles take the same place; they may touch."""
    a, b = one.shrunk(LEEWAY), other.shrunk(LEEWAY)
    return a.holds(other.at) or b.holds(one.at) or _meet(a, b)


def _meet(one: Outline, other: Outline) -> bool:
    return any(meet(a, b) for a in one.sides for b in other.sides)
