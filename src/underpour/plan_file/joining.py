"""Loose lines and arcs joined to rings, ends that lie within a stated gap brought together."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import hypot

from ..outlines.outline import Outline
from ..outlines.side import Point, Side
from .limits import limit
from .near import near_points, together
from .pieces import Origin, Piece, Ring

SAME = 1e-4  # m; two lines whose ends and middles lie nearer are one drawn twice
JUST = 1e-5  # m; ends nearer than this meet, and a gap is no wider for it


@dataclass(frozen=True, slots=True)
class Loose:
    """One line or arc with two free ends."""

    side: Side
    origin: Origin


@dataclass(frozen=True, slots=True)
class Open:
    """A way along loose lines that does not close."""

    start: Point
    end: Point
    first: Origin
    last: Origin
    sides: tuple[Side, ...]


@dataclass(frozen=True, slots=True)
class Meeting:
    """A place where more than two lines end, so that nothing says which way an outline goes on."""

    place: Point
    origins: tuple[Origin, ...]


@dataclass
class Joined:
    """Rings, and what was done and left on the way to them."""

    rings: list[Ring] = field(default_factory=list)
    open: list[Open] = field(default_factory=list)
    meetings: list[Meeting] = field(default_factory=list)
    joints: int = 0
    widest: float = 0.0  # m, the widest gap that was closed
    twice: int = 0  # drawn twice, left out
    short: int = 0  # shorter than the gap, left out
    flat: int = 0  # arcs that hardly bend, taken straight


def joined(pieces: Sequence[Piece], gap: float) -> Joined:
    """The rings that closed polylines, circles and loose lines make.

    Parameters
    ----------
    pieces : sequence of Piece
        In the drawing's order; ring and side numbers follow it. [m]
    gap : float
        How far ends may lie apart and still be joined, halfway between them. [m]

    Examples
    --------
    >>> from .pieces import Origin
    >>> corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)]
    >>> lines = [Side(a, b) for a, b in zip(corners, corners[1:] + corners[:1])]
    >>> made = joined([Piece(Origin("0", "1"), (line,), False) for line in lines[::-1]], 0.001)
    >>> [ring.outline.area for ring in made.rings], made.joints
    ([6.0], 3)
    """
    made = Joined()
    for piece in pieces:
        if piece.closed:
            sides = _without_short(piece.sides, gap, made)
            if len(sides) > 1:
                made.rings.append(Ring(Outline(_straightened(sides, made)), piece.origin))
    made.rings = _once(made.rings, made)
    loose = [Loose(side, piece.origin) for piece in pieces if not piece.closed for side in piece.sides]
    _chained(_not_twice(loose, made), gap, made)
    return made


def _without_short(sides: Sequence[Side], gap: float, made: Joined) -> tuple[Side, ...]:
    """The sides of a closed polyline without those that begin and end in one place."""
    kept: list[Side] = []
    for side in sides:
        if side.chord <= gap and abs(side.bulge) <= 1.0:
            made.short += 1
            continue
        kept.append(side)
    linked = zip(kept, [*kept[1:], *kept[:1]], strict=True)
    return tuple(Side(one.start, other.start, one.bulge) for one, other in linked)


def _straightened(sides: Sequence[Side], made: Joined) -> tuple[Side, ...]:
    flat = [0.0 < abs(side.bulge) * side.chord / 2.0 < limit("flat") for side in sides]
    made.flat += sum(flat)
    return tuple(Side(s.start, s.end) if is_flat else s for s, is_flat in zip(sides, flat, strict=True))


def _once(rings: Sequence[Ring], made: Joined) -> list[Ring]:
    """Rings without those that were drawn twice, whichever corner and way round they begin with."""
    gone: set[int] = set()
    for one, other in near_points([_centre(ring) for ring in rings], SAME):
        if one not in gone and other not in gone and _alike(rings[one].outline, rings[other].outline):
            gone.add(other)
    made.twice += len(gone)
    return [ring for number, ring in enumerate(rings) if number not in gone]


def _centre(ring: Ring) -> Point:
    """The middle of the upright rectangle round a ring."""
    left, right, low, high = zip(*(side.box for side in ring.outline.sides), strict=True)
    return (min(left) + max(right)) / 2.0, (min(low) + max(high)) / 2.0


def _alike(one: Outline, other: Outline) -> bool:
    if len(one.sides) != len(other.sides) or abs(one.length - other.length) > SAME * len(one.sides):
        return False
    left = list(other.sides)
    for side in one.sides:
        same = next((n for n, each in enumerate(left) if _same(side, each)), None)
        if same is None:
            return False
        del left[same]
    return True


def _same(one: Side, other: Side) -> bool:
    ends = (one.start, one.end), (one.end, one.start)
    return any(_apart(a, other.start) <= SAME and _apart(b, other.end) <= SAME for a, b in ends) and (
        _apart(_middle(one), _middle(other)) <= SAME
    )


def _not_twice(loose: Sequence[Loose], made: Joined) -> list[Loose]:
    """Loose lines without those that lie on another, or on a side of a ring."""
    of_rings = [side for ring in made.rings for side in ring.outline.sides]
    every = [*of_rings, *(each.side for each in loose)]
    gone: set[int] = set()
    for one, other in near_points([_middle(side) for side in every], SAME):
        if one not in gone and other >= len(of_rings) and _same(every[one], every[other]):
            gone.add(other)
    made.twice += len(gone)
    return [each for number, each in enumerate(loose, start=len(of_rings)) if number not in gone]


def _chained(loose: Sequence[Loose], gap: float, made: Joined) -> None:
    ends = [end for each in loose for end in (each.side.start, each.side.end)]
    at = together(ends, gap + JUST)
    short = {n for n, each in enumerate(loose) if at[2 * n] == at[2 * n + 1] and each.side.length <= 2.0 * gap}
    made.short += len(short)
    meeting: defaultdict[int, list[int]] = defaultdict(list)
    for number, place in enumerate(at):
        if number // 2 not in short:
            meeting[place].append(number)
    for place, there in meeting.items():
        if len(there) > 2:
            made.meetings.append(Meeting(ends[place], tuple(loose[end // 2].origin for end in there)))
    used = set(short)
    starts = sorted(range(len(loose)), key=lambda n: all(len(meeting[at[2 * n + e]]) == 2 for e in (0, 1)))
    for number in starts:  # those with a free end first, so that a way is walked from its end
        if number not in used:
            _walk(number, loose, at, meeting, used, made)


def _walk(
    first: int,
    loose: Sequence[Loose],
    at: Sequence[int],
    meeting: dict[int, list[int]],
    used: set[int],
    made: Joined,
) -> None:
    """The way from one line on, until it closes or ends."""
    forward = len(meeting[at[2 * first + 1]]) == 2 or len(meeting[at[2 * first]]) != 2
    here = 2 * first if forward else 2 * first + 1  # the end at which the way begins
    begins, way = here, []
    while True:
        number = here // 2
        used.add(number)
        way.append(here)
        out = here ^ 1
        there = meeting[at[out]]
        following = next((end for end in there if end != out), None) if len(there) == 2 else None
        if following is None or following // 2 in used:
            closes = following == begins
            break
        here = following
    sides = [loose[end // 2].side if end % 2 == 0 else loose[end // 2].side.back() for end in way]
    origins = [loose[end // 2].origin for end in way]
    if not closes:
        made.open.append(Open(sides[0].start, sides[-1].end, origins[0], origins[-1], tuple(sides)))
        return
    corners = []
    for before, after in zip([sides[-1], *sides[:-1]], sides, strict=True):
        apart = _apart(before.end, after.start)
        made.widest = max(made.widest, apart)
        corners.append(after.start if apart <= 1e-9 else _between(before.end, after.start))
    closed = [
        Side(start, end, side.bulge)
        for start, end, side in zip(corners, [*corners[1:], corners[0]], sides, strict=True)
    ]
    made.joints += len(sides)
    made.rings.append(Ring(Outline(_straightened(closed, made)), origins[0], len(sides)))


def _middle(side: Side) -> Point:
    return side.at(side.length / 2.0)


def _between(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0


def _apart(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])
