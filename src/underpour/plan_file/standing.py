"""Rings on the layers of columns, pipes and pits, as what stands in the floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from math import hypot

from ..mistakes import Mistake
from ..outlines.floor import Floor, Obstacle, overlap, stands_on
from ..outlines.outline import Outline
from .joining import JUST, Joined
from .limits import limit
from .pieces import Ring, place
from .rings import box
from .units import Unit

_ROUND = 1e-4  # m; all corners of a circle lie so near to it


@dataclass
class Standing:
    """What stands in the floor, and what was done to have it."""

    obstacles: list[Obstacle] = field(default_factory=list)
    wrong: list[Mistake] = field(default_factory=list)
    boxed: list[str] = field(default_factory=list)
    inner: int = 0
    loose: int = 0


def standing(found: Sequence[tuple[str, Joined]], floor: Floor, unit: Unit) -> Standing:
    """Each outermost ring of a kind's layers as one obstacle of that kind; rings inside it are part of it."""
    made = Standing()
    for kind, joined in found:
        made.loose += sum(len(way.sides) for way in joined.open)
        if len(joined.rings) > limit("most-rings"):
            most = f"at most {limit('most-rings'):.0f} are read"
            wrong = f"{len(joined.rings)} rings lie on the layer of what is a {kind}; {most}."
            made.wrong.append(Mistake("", "", wrong, "Leave only what stands in this floor on that layer."))
            continue
        for ring in joined.rings:
            if any(_inside(ring, other) for other in joined.rings if other is not ring):
                made.inner += 1
                continue
            obstacle, shaped = _obstacle(kind, ring)
            if not shaped:
                made.boxed.append(f"{kind} at {place(obstacle.at, unit.metres, unit.short)}")
            if min(obstacle.size) < limit("smallest-obstacle"):
                made.wrong.append(_too_small(kind, obstacle, ring, unit))
                continue
            if not stands_on(floor, obstacle):
                made.wrong.append(_outside(kind, obstacle, ring, floor, unit))
            made.obstacles.append(obstacle)
    made.wrong += _in_one_place(made.obstacles, unit)
    return made


def _in_one_place(obstacles: Sequence[Obstacle], unit: Unit) -> Iterator[Mistake]:
    for one, other in combinations(obstacles, 2):
        near = all(
            abs(a - b) < (s + t) / 2.0 for a, b, s, t in zip(one.at, other.at, one.size, other.size, strict=True)
        )
        if near and overlap(one, other):
            first, second = (place(each.at, unit.metres, unit.short) for each in (one, other))
            wrong = f"The {other.kind} at {second} stands where the {one.kind} at {first} stands already."
            yield Mistake("", "", wrong, "Take one of the two off its layer, or move it.")


def _inside(ring: Ring, other: Ring) -> bool:
    return other.outline.area > ring.outline.area and other.outline.holds(ring.outline.corners[0])


def _obstacle(kind: str, ring: Ring) -> tuple[Obstacle, bool]:
    """The ring as a circle or an upright rectangle, and whether it has just that shape."""
    sides = ring.outline.sides
    if all(side.bulge for side in sides):
        (cx, cy), r = sides[0].centre, sides[0].radius
        if all(hypot(s.centre[0] - cx, s.centre[1] - cy) + abs(s.radius - r) <= _ROUND for s in sides):
            return Obstacle(kind, (cx, cy), (2.0 * r, 2.0 * r), True), True
    left, right, low, high = box(ring)
    at, size = ((left + right) / 2.0, (low + high) / 2.0), (right - left, high - low)
    return Obstacle(kind, at, size, False), _upright(ring.outline)


def _upright(outline: Outline) -> bool:
    """Whether all sides are straight and run along x or y, and enclose a rectangle."""
    level = all(
        not side.bulge and min(abs(side.start[0] - side.end[0]), abs(side.start[1] - side.end[1])) <= JUST
        for side in outline.sides
    )
    return level and sum(abs(turn) > 0.01 for turn in outline.turns) == 4


def _too_small(kind: str, obstacle: Obstacle, ring: Ring, unit: Unit) -> Mistake:
    at = place(obstacle.at, unit.metres, unit.short)
    wrong = f"The {kind} at {at} is too small to be in the way of a floor ({ring.origin.words})."
    return Mistake("", "", wrong, "Draw it at its size, or take it off that layer.")


def _outside(kind: str, obstacle: Obstacle, ring: Ring, floor: Floor, unit: Unit) -> Mistake:
    at = place(obstacle.at, unit.metres, unit.short)
    where = "stands in a hole of the floor" if floor.outline.holds(obstacle.at) else "lies outside the floor"
    if floor.holds(obstacle.at):
        where = "reaches over the edge of the floor"
    wrong = f"The {kind} at {at} {where} ({ring.origin.words})."
    return Mistake("", "", wrong, "Move it in the drawing, or take it off that layer.")
