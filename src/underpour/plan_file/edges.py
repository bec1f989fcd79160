"""Lines on the layer of an edge, as stretches of the sides along which they lie."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, pi

from ..mistakes import Mistake
from ..outlines.floor import Floor, Stretch
from ..outlines.side import Point, Side
from .limits import limit
from .pieces import Piece, place
from .units import Unit


def stretches(pieces: Sequence[Piece], floor: Floor, unit: Unit) -> tuple[tuple[Stretch, ...], list[Mistake]]:
    """The stretches along which the pieces lie, in the order of rings and sides, and lines that lie along none."""
    found: list[Stretch] = []
    astray: list[Mistake] = []
    for piece in pieces:
        for line in piece.sides:
            along = _along(line, floor)
            found += along
            if sum(each.length for each in along) < line.length - 4.0 * limit("beside-a-side"):
                ends = " to ".join(place(end, unit.metres, unit.short) for end in (line.start, line.end))
                wrong = f"A line does not lie along the outline: {ends} ({piece.origin.words})."
                astray.append(Mistake("", "", wrong, "Draw it on the sides that the edge takes, or leave it out."))
    return tuple(_merged(found)), astray


def _along(line: Side, floor: Floor) -> list[Stretch]:
    near = limit("beside-a-side")
    found = []
    for ring, outline in enumerate(floor.rings):
        for number, side in enumerate(outline.sides, start=1):
            on_side = [along(side, end) for end in (line.start, line.end) if side.distance(end) <= near]
            on_line = [d for d, end in ((0.0, side.start), (side.length, side.end)) if line.distance(end) <= near]
            places = [_snapped(each, side.length, near) for each in (*on_side, *on_line)]
            if not places or max(places) - min(places) <= 2.0 * near:
                continue
            start, end = min(places), max(places)
            if line.distance(side.at((start + end) / 2.0)) <= near:
                found.append(Stretch(ring, number, start, end))
    return found


def along(side: Side, point: Point) -> float:
    """How far along a side the place nearest to a point lies. [m]

    >>> along(Side((0, 0), (10, 0)), (4, 1)), round(along(Side((-1, 0), (1, 0), 1.0), (0, -1)) / pi, 12)
    (4.0, 0.5)
    """
    if side.bulge:
        (cx, cy), turn = side.centre, 1.0 if side.bulge > 0.0 else -1.0
        if not side.turns_past(point):
            ends = [(Side(point, end).chord, d) for end, d in ((side.start, 0.0), (side.end, side.length))]
            return min(ends)[1]
        first = atan2(side.start[1] - cy, side.start[0] - cx)
        return side.radius * ((turn * (atan2(point[1] - cy, point[0] - cx) - first)) % (2.0 * pi))
    (x0, y0), (x1, y1) = side.start, side.end
    share = ((point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)) / side.chord**2
    return min(max(share, 0.0), 1.0) * side.chord


def _snapped(distance: float, length: float, near: float) -> float:
    return 0.0 if distance <= near else length if length - distance <= near else distance


def _merged(found: Sequence[Stretch]) -> list[Stretch]:
    merged: list[Stretch] = []
    for each in sorted(found, key=lambda s: (s.ring, s.side, s.start)):
        last = merged[-1] if merged else None
        if last and (last.ring, last.side) == (each.ring, each.side) and each.start <= last.end + 1e-9:
            merged[-1] = Stretch(last.ring, last.side, last.start, max(last.end, each.end))
        else:
            merged.append(each)
    return merged
