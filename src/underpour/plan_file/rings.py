"""Which ring is the floor's outline and which are holes in it; what cannot be either."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, hypot

from ..mistakes import Mistake
from ..outlines.floor import Floor, rings_meeting
from ..outlines.meeting import meeting_place
from ..outlines.outline import crossing
from .joining import Joined, Open
from .limits import limit
from .pieces import Ring, number, place, shown
from .units import Unit

ALONE = "Leave only what encloses the floor on its layer, or move the floor to a layer floor-outline."
_TOLD = 4  # mistakes of one kind; more are counted
_MOST_ENDS = 400  # each is held against each
_WORTH_CLOSING = 0.1  # m; a wider gap is rather a side that is missing


def floor_of(found: Joined, unit: Unit, *, named: bool) -> tuple[Floor | None, list[Mistake]]:
    """The outline with its holes; None, and what is wrong, where the rings do not say which it is.

    Parameters
    ----------
    found : Joined
        What lies on the floor's layers.
    unit : Unit
        Of the drawing, for what is told.
    named : bool
        Whether the layer is known to hold the floor; otherwise an inner ring round most of it is asked about.
    """
    if len(found.rings) > limit("most-rings"):
        wrong_words = f"{len(found.rings)} rings lie on the floor's layer; at most {limit('most-rings'):.0f} are read."
        return None, [Mistake("", "", wrong_words, ALONE)]
    wrong = [*_crossing(found.rings, unit), *_too_many(found.rings)]
    if wrong:
        return None, wrong
    outer = [
        ring for ring in found.rings if not any(_within(ring, other) for other in found.rings if other is not ring)
    ]
    if len(outer) > 1:
        first, second, *more = sorted(outer, key=lambda ring: -ring.outline.area)
        others = f", and {len(more)} more" if more else ""
        told = f"{_told(first, unit)}; and {_told(second, unit)}{others}"
        wrong_words = f"More than one ring could be the floor's outline: {told}."
        return None, [Mistake("", "", wrong_words, ALONE)]
    (outline,) = outer
    holes = [ring for ring in found.rings if ring is not outline]
    floor = Floor(outline.outline, tuple(hole.outline for hole in holes))
    wrong = [*_meeting(floor, [outline, *holes], unit), *_in_holes(holes, unit)]
    if not named and not wrong:
        wrong = [*_mostly_hole(floor, holes, unit), *_small(holes, unit)]
    return (None, wrong) if wrong else (floor, [])


def unclosed(found: Joined, unit: Unit) -> list[Mistake]:
    """Ways that do not close, with the place of the gap, and places where more than two lines end."""
    told: list[Mistake] = []
    for meeting in found.meetings:
        handles = ", ".join(dict.fromkeys(each.handle for each in meeting.origins))
        layer = shown(meeting.origins[0].layer)
        at = place(meeting.place, unit.metres, unit.short)
        wrong = f"{len(meeting.origins)} lines end at {at} (layer {layer}, handles {handles}): which way does it go on?"
        told.append(Mistake("", "", wrong, "Take out what is no side of the floor, and what lies on another line."))
    if not told:
        told = list(_gaps(found.open, unit))
    more = len(told) - _TOLD
    if more > 0:
        last = told[_TOLD - 1]
        told = [*told[: _TOLD - 1], Mistake("", "", f"{last.wrong[:-1]}; and {more} more such places.", last.instead)]
    return told


def _gaps(ways: Sequence[Open], unit: Unit) -> Iterator[Mistake]:
    """Each free end once, with the free end that is nearest to it."""
    ends = [(way.start, way.first, way) for way in ways] + [(way.end, way.last, way) for way in ways]
    if len(ends) > _MOST_ENDS:
        yield Mistake("", "", f"{len(ways)} ways along the lines of the floor do not close.", ALONE)
        return
    told: set[int] = set()
    pairs = (
        (hypot(a[0][0] - b[0][0], a[0][1] - b[0][1]), one, other)
        for one, a in enumerate(ends)
        for other, b in enumerate(ends[:one])
    )
    for gap, one, other in sorted(pairs):
        if one in told or other in told:
            continue
        told |= {one, other}
        (a, first, _), (b, last, _) = ends[other], ends[one]
        both = f"{place(a, unit.metres, unit.short)} and {place(b, unit.metres, unit.short)}"
        one_line = first.handle == last.handle
        handles = f"handle {first.handle}" if one_line else f"handles {first.handle} and {last.handle}"
        wide = f"{number(gap / unit.metres, unit.metres)} {unit.short}"
        where = f"layer {shown(first.layer)}, {handles}"
        wrong = f"The outline does not close: there are {wide} between {both} ({where})."
        instead = "Draw the side that is missing."
        if gap <= _WORTH_CLOSING:
            instead = (
                f'Close it in the drawing, or let ends that near be joined: dxf-gap = "{ceil(gap * 1000.0 - 1e-3)} mm".'
            )
        yield Mistake("", "", wrong, instead)


def _crossing(rings: Sequence[Ring], unit: Unit) -> Iterator[Mistake]:
    for ring in rings:
        if len(ring.outline.sides) > limit("most-sides"):
            continue
        pair = crossing(ring.outline)
        if pair is None:
            continue
        one, other = (ring.outline.sides[n - 1] for n in pair)
        at = meeting_place(one, other) or one.start
        wrong = f"The outline crosses or touches itself at {place(at, unit.metres, unit.short)} ({ring.origin.words})."
        yield Mistake("", "", wrong, "Draw it once round the floor.")


def _too_many(rings: Sequence[Ring]) -> Iterator[Mistake]:
    for ring in rings:
        many = len(ring.outline.sides)
        if many > limit("most-sides"):
            wrong = f"A ring has {many} sides; at most {limit('most-sides'):.0f} are read ({ring.origin.words})."
            yield Mistake("", "", wrong, "Draw curves as arcs, or draw the floor over the traced picture.")


def _within(ring: Ring, other: Ring) -> bool:
    """Whether a ring lies within another; one that lies beside it, or round it, does not."""
    return other.outline.area > ring.outline.area and other.outline.holds(ring.outline.corners[0])


def _meeting(floor: Floor, rings: Sequence[Ring], unit: Unit) -> Iterator[Mistake]:
    for (one, side), (other, further) in rings_meeting(floor):
        at = meeting_place(floor.side(one, side), floor.side(other, further)) or floor.side(one, side).start
        where = place(at, unit.metres, unit.short)
        first, second = rings[one].origin, rings[other].origin
        wrong = f"Two rings cross or touch at {where} ({first.words}; {second.words})."
        yield Mistake("", "", wrong, "Draw the outline round the hole, or move the hole in.")


def _in_holes(holes: Sequence[Ring], unit: Unit) -> Iterator[Mistake]:
    for hole in holes:
        around = next((other for other in holes if other is not hole and _within(hole, other)), None)
        if around is not None:
            wrong = f"A ring lies in a hole, where there is no floor: {_told(hole, unit)}."
            instead = "Take one of the two off the layer; what stands in the floor lies on a layer column, pipe or pit."
            yield Mistake("", "", wrong, instead)


def _mostly_hole(floor: Floor, holes: Sequence[Ring], unit: Unit) -> Iterator[Mistake]:
    for hole in holes:
        if hole.outline.area > limit("mostly-hole") * floor.outline.area:
            wrong = f"A ring lies within nearly all of the outline, as the inside of walls does: {_told(hole, unit)}."
            layer = shown(hole.origin.layer)
            instead = f'Take one of the two off the layer; if it is a hole, write dxf-layers = {{ floor = "{layer}" }}.'
            yield Mistake("", "", wrong, instead)


def _small(holes: Sequence[Ring], unit: Unit) -> Iterator[Mistake]:
    small = [hole for hole in holes if hole.outline.area < limit("smallest-hole")]
    if small:
        more = f", and {len(small) - 1} more such rings" if len(small) > 1 else ""
        wrong = f"A small ring lies in the floor, on the same layer: {_told(small[0], unit)}{more}. Is it a hole?"
        layer = shown(small[0].origin.layer)
        instead = "What stands in the floor lies on a layer column, pipe, drain, post or pit; for holes, write "
        instead += f'dxf-layers = {{ floor = "{layer}" }}.'
        yield Mistake("", "", wrong, instead)


def _told(ring: Ring, unit: Unit) -> str:
    """A ring in words: "12000 by 8000 mm from 0 0 mm (layer 0, handle 2F)"."""
    (left, right, low, high) = box(ring)
    wide, high_ = (number(each / unit.metres, unit.metres) for each in (right - left, high - low))
    return f"{wide} by {high_} {unit.short} from {place((left, low), unit.metres, unit.short)} ({ring.origin.words})"


def box(ring: Ring) -> tuple[float, float, float, float]:
    """Least x, greatest x, least y and greatest y of a ring. [m]"""
    boxes = [side.box for side in ring.outline.sides]
    left, right, low, high = zip(*boxes, strict=True)
    return min(left), max(right), min(low), max(high)
