"""Channels below panels as one net: which of them reach a suction point, and which panels they leave out."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor, hypot

from ..outlines.floor import Floor
from ..outlines.side import Point
from .ground_plan import SAME, GroundPlan, ground_plan, turned
from .layout import Layout, Piece
from .rows import full_between


@dataclass(frozen=True, slots=True)
class Channels:
    """What a panel has on its underside; a channel lies in the middle of each pitch. [m]"""

    pitch: float
    width: float
    both_ways: bool  # along the panel and across it, not along it only


@dataclass(frozen=True, slots=True)
class Barrier:
    """A footing inside the floor that parts the channels, along x or along y of the plan. [m]"""

    start: Point
    end: Point
    width: float
    ways: tuple[Point, ...] = ()  # pipes through it


@dataclass(frozen=True, slots=True)
class Lane:
    """A channel without a break, through as many panels as it goes."""

    along: bool  # along the rows, not across them
    at: float  # m, its middle
    start: float
    end: float

    @property
    def length(self) -> float:
        """[m]"""
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class Reach:
    """What of the channels is drawn from."""

    lanes: int
    length: float  # m, of all
    reached: float  # m
    nets: int  # parts that do not meet one another
    missed: tuple[Piece, ...]  # pieces through which no channel runs that reaches a suction point
    dry: tuple[Point, ...]  # suction points that meet no channel


def lanes(place: Floor, layout: Layout, channels: Channels, barriers: Sequence[Barrier] = ()) -> list[Lane]:
    """Every channel from where it begins to where the floor, a hole or what stands in it ends it.

    Arguments
    ---------
    place
        The floor. [m]
    layout
        A plan whose panels line up, so that channels go on across joints.
    channels
        Their size.
    barriers
        What parts them beside that.

    Raises
    ------
    ValueError
        The plan has no pitch, or another one: nobody knows where its channels meet.
    """
    if abs(layout.rules.pitch - channels.pitch) > SAME:
        raise ValueError("channels of a plan that was not lined up to their pitch")
    along = ground_plan(place, layout.angle)
    found = list(_lanes(along, True, layout.offset, 1.0, channels))
    if channels.both_ways:
        found += _lanes(ground_plan(place, layout.angle + 90.0), False, layout.phase, -1.0, channels)
    for barrier in barriers:
        found = [part for lane in found for part in _parted(lane, barrier, layout, channels.width)]
    return found


def _parted(lane: Lane, barrier: Barrier, layout: Layout, width: float) -> Iterator[Lane]:
    """What of a lane lies on either side of a footing."""
    ends = [layout.on_plan((x, lane.at) if lane.along else (lane.at, x)) for x in (lane.start, lane.end)]
    (x0, y0), (x1, y1) = ends
    by = barrier.width / 2.0, barrier.width / 2.0
    if abs(barrier.start[0] - barrier.end[0]) > abs(barrier.start[1] - barrier.end[1]):
        by = 0.0, by[1]
    else:
        by = by[0], 0.0
    half = width / 2.0
    inside = 0.0, 1.0
    for a, b, one, other, more in (
        (x0, x1, barrier.start[0], barrier.end[0], by[0]),
        (y0, y1, barrier.start[1], barrier.end[1], by[1]),
    ):
        low, high = min(one, other) - more - half, max(one, other) + more + half
        if abs(b - a) < SAME:
            inside = inside if low < a < high else (1.0, 0.0)
        else:
            shares = sorted(((low - a) / (b - a), (high - a) / (b - a)))
            inside = max(inside[0], shares[0]), min(inside[1], shares[1])
    if inside[0] >= inside[1]:
        yield lane
        return
    for start, end in ((0.0, inside[0]), (inside[1], 1.0)):
        if (end - start) * lane.length > SAME:
            yield Lane(lane.along, lane.at, lane.start + start * lane.length, lane.start + end * lane.length)


def _lanes(plan: GroundPlan, along: bool, line: float, sign: float, channels: Channels) -> Iterator[Lane]:
    """``line`` is where one pitch ends and the next begins; ``sign`` turns what lies across back into along."""
    pitch, half = channels.pitch, channels.width / 2.0
    first = floor((plan.bottom - sign * line) / pitch - 1.0)
    last = ceil((plan.top - sign * line) / pitch + 1.0)
    for number in range(first, last):
        at = sign * line + (number + 0.5) * pitch
        for start, end in full_between(plan, at - half, at + half):
            yield Lane(along, sign * at, start, end)


def reach(
    place: Floor,
    layout: Layout,
    channels: Channels,
    pits: Sequence[tuple[Point, float]] = (),
    barriers: Sequence[Barrier] = (),
) -> Reach:
    """How much of the channels is drawn from.

    Arguments
    ---------
    place
        The floor. [m]
    layout
        A plan whose panels line up.
    channels
        Their size.
    pits
        Middle and breadth of each suction pit; without any the largest net counts as reached. [m]
    barriers
        Footings that part them, with the pipes through.
    """
    every = lanes(place, layout, channels, barriers)
    nets = _nets(every, [pair for each in barriers for pair in _through(each, every, layout, channels)])
    sources, dry = set(), []
    for at, width in pits:
        met = [n for n, lane in enumerate(every) if _meets(lane, turned(at, layout.angle), width, channels)]
        sources |= {nets[n] for n in met}
        dry += [] if met else [at]
    if not pits and every:
        by_net: dict[int, float] = {}
        for lane, net in zip(every, nets, strict=True):
            by_net[net] = by_net.get(net, 0.0) + lane.length
        sources = {max(by_net, key=by_net.__getitem__)}
    drawn = [lane for lane, net in zip(every, nets, strict=True) if net in sources]
    return Reach(
        len(every),
        sum(lane.length for lane in every),
        sum(lane.length for lane in drawn),
        len(set(nets)),
        tuple(_missed(layout, drawn)),
        tuple(dry),
    )


def _through(barrier: Barrier, every: Sequence[Lane], layout: Layout, channels: Channels) -> Iterator[tuple[int, int]]:
    """The channels that a pipe through a footing joins: the nearest at each of its ends."""
    dx, dy = barrier.end[0] - barrier.start[0], barrier.end[1] - barrier.start[1]
    off = barrier.width / 2.0 + channels.pitch / 2.0
    nx, ny = (0.0, off) if abs(dx) > abs(dy) else (off, 0.0)
    for x, y in barrier.ways:
        ends = [
            min(
                ((_away(lane, turned(point, layout.angle)), n) for n, lane in enumerate(every)),
                default=(channels.pitch + 1.0, 0),
            )
            for point in ((x + nx, y + ny), (x - nx, y - ny))
        ]
        if all(far <= channels.pitch for far, _ in ends):
            yield ends[0][1], ends[1][1]


def _away(lane: Lane, at: Point) -> float:
    far, along = (at[1], at[0]) if lane.along else (at[0], at[1])
    return hypot(lane.at - far, max(lane.start - along, along - lane.end, 0.0))


def _nets(every: Sequence[Lane], joined: Sequence[tuple[int, int]]) -> list[int]:
    """The net of each lane, by the number of one of its lanes."""
    across = sorted((lane.at, n) for n, lane in enumerate(every) if not lane.along)
    places = [at for at, _ in across]
    net = list(range(len(every)))

    def root(n: int) -> int:
        while net[n] != n:
            net[n] = net[net[n]]
            n = net[n]
        return n

    for n, lane in enumerate(every):
        if lane.along:
            for _, other in across[bisect_left(places, lane.start) : bisect_right(places, lane.end)]:
                if every[other].start <= lane.at <= every[other].end:
                    net[root(n)] = root(other)
    for one, other in joined:
        net[root(one)] = root(other)
    return [root(n) for n in range(len(every))]


def _meets(lane: Lane, at: Point, width: float, channels: Channels) -> bool:
    """Whether a channel runs into a square pit."""
    far, along = (at[1], at[0]) if lane.along else (at[0], at[1])
    half = width / 2.0
    return abs(lane.at - far) < half + channels.width / 2.0 and lane.start < along + half and lane.end > along - half


def _missed(layout: Layout, drawn: Sequence[Lane]) -> Iterator[Piece]:
    by_way = {
        way: sorted((lane for lane in drawn if lane.along is way), key=lambda each: each.at) for way in (True, False)
    }
    places = {way: [lane.at for lane in every] for way, every in by_way.items()}
    for piece in layout.pieces:
        rows, columns = (piece.y0, piece.y1), (piece.x0, piece.x1)
        for way, (low, high), (start, end) in ((True, rows, columns), (False, columns, rows)):
            near = by_way[way][bisect_left(places[way], low) : bisect_right(places[way], high)]
            if any(lane.start < end - SAME and lane.end > start + SAME for lane in near):
                break
        else:
            yield piece
