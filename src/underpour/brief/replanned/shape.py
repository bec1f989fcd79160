"""Corners and sides moved: where they come to lie, exactly, each figure that stays keeping its words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from ...mistakes import Mistake
from .claims import chord
from .figures import Figure, long_words, written
from .sketch import Ring, Spot, Vector

_NEARLY_ALONG = Fraction(1, 1000)  # sine of the angle below which two sides run the same way


def side_moved(ring: Ring, side: int, through: Spot) -> Ring:
    """The ring with a side moved parallel to itself until its line goes through a place.

    Its two corners slide along the sides beside it; where one of those is an arc or runs the same way, the corner goes
    straight across.
    """
    spots = list(ring.spots)
    first, second = side - 1, side % len(spots)
    before, after = spots[first - 1], spots[(second + 1) % len(spots)]
    start, end = spots[first], spots[second]
    direction = _way(start, end)
    slides = ((first, before, bool(before.bend)), (second, after, bool(end.bend)))
    for place, neighbour, curved in slides:
        spot = spots[place]
        way = _less(spot.point, neighbour.point)
        if curved or len(spots) < 3 or _alongside(way, direction):
            way = (-direction[1], direction[0])
        x, y = _crossing(spot.point, way, through.point, direction)
        spots[place] = _placed(spot, x, y, ring.unit, (through, start, end))
    return replace(ring, spots=tuple(spots))


def pushed(ring: Ring, side: int, by: Fraction) -> Spot:
    """The place that a side goes through once it is moved so far, above nought to the right of its way."""
    start, end = ring.spots[side - 1], ring.spots[side % len(ring.spots)]
    dx, dy = _way(start, end)
    long = chord(start, end)
    return moved(start, start.x.metres + dy / long * by, start.y.metres - dx / long * by, ring.unit)


def of_length(ring: Ring, side: int, length: Figure) -> Ring:
    """The ring with a straight side that is so long: its end moves along it, and the next side goes with it."""
    start, end = ring.spots[side - 1], ring.spots[side % len(ring.spots)]
    if start.bend:
        wrong, instead = f"Side {side} is an arc.", "Type how far it bows out, or move its corners."
        raise Mistake("plan.outline", length.words, wrong, instead)
    if len(ring.spots) < 3:
        raise Mistake("plan.outline", length.words, "This outline has two sides only.", "Move its corners.")
    return _brought(ring, side, along(start, end, length, ring.unit), len(ring.spots))


def _brought(ring: Ring, side: int, target: Spot, left: int) -> Ring:
    """The end of a side brought to a place on its line, the next side with it: one in line keeps its length."""
    at = side % len(ring.spots)
    end, after = ring.spots[at], ring.spots[(at + 1) % len(ring.spots)]
    if not left or not straight_on(ring.spots[side - 1], end, after):
        return side_moved(ring, at + 1, target)
    (x, y), (dx, dy) = after.point, _less(target.point, end.point)
    further = _brought(ring, at + 1, moved(after, x + dx, y + dy, ring.unit), left - 1)
    spots = list(further.spots)
    spots[at] = end.at(target.x, target.y)
    return replace(further, spots=tuple(spots))


def along(start: Spot, towards: Spot, length: Figure, unit: str) -> Spot:
    """The place so far from one spot towards another. Raises Mistake where the two are one, or nothing is left."""
    long = chord(start, towards)
    if not long:
        raise Mistake("plan.outline", length.words, "Which way?", "Point there, or press an arrow key, then type.")
    if length.metres <= 0:
        raise Mistake("plan.outline", length.words, "A side is longer than nothing.", "Write its length: 24 ft.")
    dx, dy = _less(towards.point, start.point)
    share = length.metres / long
    x, y = start.x.metres + dx * share, start.y.metres + dy * share
    new = moved(Spot(start.x, start.y), x, y, unit)
    # from nought the length is the figure itself, and keeps the words in which it was typed
    x_words = length if x == length.metres and not start.x.metres else new.x
    y_words = length if y == length.metres and not start.y.metres else new.y
    return Spot(start.x if not dx else x_words, start.y if not dy else y_words)


def on_side(ring: Ring, side: int, distance: Fraction | None) -> tuple[Spot, Fraction]:
    """A place on a straight side, so far from its start or in its middle, and how far that is."""
    start, end = ring.spots[side - 1], ring.spots[side % len(ring.spots)]
    if start.bend:
        wrong = f"Side {side} is an arc, and a corner in it would make two arcs."
        raise Mistake("plan.outline", "", wrong, "Make it straight first, or move its own corners.")
    long = chord(start, end)
    far = long / 2 if distance is None else distance
    if not 0 < far < long:
        raise Mistake("plan.outline", "", "There is no room for a corner there.", "Take a smaller step.")
    if distance is None:
        (ax, ay), (bx, by) = start.point, end.point
        middle = moved(Spot(start.x, start.y), (ax + bx) / 2, (ay + by) / 2, ring.unit)
        return middle, far
    return along(start, end, written(far, ring.unit), ring.unit), far


def square(corner: Spot, before: Spot, by: Fraction, unit: str) -> Spot:
    """A place so far from a corner, at right angles to the way that leads to it; above nought to the left."""
    dx, dy = _way(before, corner)
    long = chord(before, corner)
    return moved(Spot(corner.x, corner.y), corner.x.metres - dy / long * by, corner.y.metres + dx / long * by, unit)


def moved(spot: Spot, x: Fraction, y: Fraction, unit: str) -> Spot:
    return _placed(spot, x, y, unit, (spot,))


def straight_on(before: Spot, spot: Spot, after: Spot) -> bool:
    """Whether the way round does not turn at a corner between two straight sides."""
    return (
        not before.bend
        and not spot.bend
        and _alongside(_less(spot.point, before.point), _less(after.point, spot.point))
    )


def turned_area(spots: Sequence[Spot]) -> Fraction:
    """Area within the corners, above nought where they run anticlockwise; arcs are taken as straight. [m²]"""
    around: Iterable[tuple[Spot, Spot]] = zip(spots, [*spots[1:], *spots[:1]], strict=True)
    cross = sum((a.point[0] * b.point[1] - b.point[0] * a.point[1] for a, b in around), Fraction(0))
    return cross / 2


def bow_words(by: Fraction, unit: str) -> str:
    """The arc that stands so far off its chord, as the brief writes it."""
    rise = written(by, unit)
    return f"rise {rise.words}" if rise.bare else f"rise {long_words(by, unit).words}"


def _placed(spot: Spot, x: Fraction, y: Fraction, unit: str, known: Iterable[Spot]) -> Spot:
    """The spot moved; a coordinate that is one of the known ones takes over its words."""
    known = [spot, *known]
    as_x = next((other.x for other in known if other.x.metres == x), None)
    as_y = next((other.y for other in known if other.y.metres == y), None)
    return spot.at(as_x or written(x, unit), as_y or written(y, unit))


def _crossing(one: Vector, along_one: Vector, other: Vector, along_other: Vector) -> Vector:
    """Where two lines meet that do not run the same way."""
    cross = along_one[0] * along_other[1] - along_one[1] * along_other[0]
    dx, dy = _less(other, one)
    share = (dx * along_other[1] - dy * along_other[0]) / cross
    return one[0] + along_one[0] * share, one[1] + along_one[1] * share


def _alongside(one: Vector, other: Vector) -> bool:
    cross = one[0] * other[1] - one[1] * other[0]
    size = (one[0] ** 2 + one[1] ** 2) * (other[0] ** 2 + other[1] ** 2)
    return cross**2 <= _NEARLY_ALONG**2 * size


def _way(one: Spot, other: Spot) -> Vector:
    """From one corner to another. Raises Mistake where they are one."""
    if one.point == other.point:
        raise Mistake("plan.outline", "", "Two corners lie on one place.", "Move one of them, or take it out.")
    return _less(other.point, one.point)


def _less(one: Vector, other: Vector) -> Vector:
    return one[0] - other[0], one[1] - other[1]
