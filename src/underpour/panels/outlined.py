"""The outline of each piece of a plan as it lies: its rectangle less what of it is trimmed, arcs as arcs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from math import atan2, cos, hypot, pi, radians, sin, tan

from ..outlines.floor import Floor
from ..outlines.outline import Outline
from ..outlines.side import Side
from .ground_plan import Rise, ground_plan
from .layout import Layout, Piece
from .rows import Cell, Strip, rows

NEAR = 1e-7  # m; nearer than this two ends are one
Interval = tuple[float, float]


def outlined(floor: Floor, layout: Layout) -> Iterator[tuple[Piece, tuple[Outline, ...]]]:
    """Every piece with its rings in the plan's own x and y: borders run anticlockwise, what is cut out clockwise.

    Arguments
    ---------
    floor
        The floor that the panels lie on. [m]
    layout
        Their plan.

    >>> from underpour.outlines.outline import straight
    >>> from underpour.panels.panel import Rules
    >>> from underpour.panels.search import fewest_panels
    >>> floor = Floor(straight([(0, 0), (4, 0), (2, 1), (0, 1)]))
    >>> layout = fewest_panels(floor, Rules(2.0, 1.0, kerf=0.0), [0.0]).layout()
    >>> round(sum(ring.turned_area for _, rings in outlined(floor, layout) for ring in rings), 9)
    3.0
    """
    rules = layout.rules
    strips = rows(ground_plan(floor, layout.angle), rules.width, layout.offset, rules.length / 2.0)
    c, s = cos(radians(layout.angle)), sin(radians(layout.angle))
    for piece in layout.pieces:
        strip = _strip_of(piece, strips[piece.row])
        rings = _rings(list(strip.among(piece.x0, piece.x1)), piece.x0, piece.x1)
        yield piece, tuple(Outline(tuple(_turned(side, c, s) for side in ring)) for ring in rings)


def _strip_of(piece: Piece, strips: Iterable[Strip]) -> Strip:
    return next(strip for strip in strips if strip.x0 <= piece.x0 + NEAR and piece.x1 <= strip.x1 + NEAR)


def _turned(side: Side, c: float, s: float) -> Side:
    (x0, y0), (x1, y1) = side.start, side.end
    return Side((x0 * c - y0 * s, x0 * s + y0 * c), (x1 * c - y1 * s, x1 * s + y1 * c), side.bulge)


def _rings(cells: list[Cell], left: float, right: float) -> Iterator[list[Side]]:
    """The border of cells that lie side by side or one over another."""
    sides: list[Side] = []
    places: list[float] = []
    rising: dict[float, list[Interval]] = defaultdict(list)
    falling: dict[float, list[Interval]] = defaultdict(list)
    for cell in cells:
        x0, x1 = (_one_of(places, x) for x in (max(cell.x0, left), min(cell.x1, right)))
        if x0 == x1:
            continue
        bottom, top = _along(cell.low, x0, x1), _along(cell.high, x0, x1)
        sides += [bottom, top.back()]
        falling[x0].append((bottom.start[1], top.start[1]))
        rising[x1].append((bottom.end[1], top.end[1]))
    for x in sorted({*rising, *falling}):
        sides += [Side((x, low), (x, high)) for low, high in _less(rising[x], falling[x])]
        sides += [Side((x, high), (x, low)) for low, high in _less(falling[x], rising[x])]
    for ring in _chained([side for side in sides if side.chord > NEAR]):
        yield _joined(ring)


def _one_of(places: list[float], x: float) -> float:
    """The place that is as good as here; a new one where there is none."""
    for place in places:
        if abs(place - x) < NEAR:
            return place
    places.append(x)
    return x


def _along(line: Rise | float, x0: float, x1: float) -> Side:
    """A row's line or a side of the floor from left to right."""
    if not isinstance(line, Rise):
        return Side((x0, line), (x1, line))
    start, end = (x0, line.at(x0)), (x1, line.at(x1))
    if not line.radius:
        return Side(start, end)
    first, last = (atan2(y - line.cy, x - line.cx) for x, y in (start, end))
    sweep = abs(last - first)
    bulge = tan(min(sweep, 2.0 * pi - sweep) / 4.0)
    return Side(start, end, -bulge if line.radius > 0.0 else bulge)


def _less(intervals: list[Interval], taken: list[Interval]) -> Iterator[Interval]:
    """What of some intervals lies in no other."""
    for low, high in intervals:
        at = low
        for start, end in sorted(taken):
            if end > at + NEAR and start < high - NEAR:
                if start > at + NEAR:
                    yield at, start
                at = max(at, end)
        if high > at + NEAR:
            yield at, high


def _chained(sides: list[Side]) -> Iterator[list[Side]]:
    """Sides put end to end until each ring closes."""
    left = list(sides)
    while left:
        ring = [left.pop(0)]
        while hypot(ring[-1].end[0] - ring[0].start[0], ring[-1].end[1] - ring[0].start[1]) > NEAR:
            x, y = ring[-1].end
            after = min(range(len(left)), key=lambda n: hypot(left[n].start[0] - x, left[n].start[1] - y))
            side = left.pop(after)
            ring.append(Side((x, y), side.end, side.bulge))
        yield [*ring[:-1], Side(ring[-1].start, ring[0].start, ring[-1].bulge)]


def _joined(ring: list[Side]) -> list[Side]:
    """The ring with what runs straight on, or on along the same arc, as one side."""
    found: list[Side] = []
    for side in ring:
        one = _as_one(found[-1], side) if found else None
        if one:
            found[-1] = one
        else:
            found.append(side)
    if len(found) > 2 and (one := _as_one(found[-1], found[0])):
        found[0] = one
        found.pop()
    return found


def _as_one(side: Side, after: Side) -> Side | None:
    sweep = side.sweep + after.sweep
    if (side.bulge == 0.0) != (after.bulge == 0.0) or side.bulge * after.bulge < 0.0 or abs(sweep) > pi + 1e-9:
        return None
    (dx, dy), (ex, ey) = side.direction(side.length), after.direction(0.0)
    if abs(dx * ey - dy * ex) > 1e-7 or dx * ex + dy * ey < 0.0:
        return None
    if side.bulge and abs(side.radius - after.radius) > 1e-6:
        return None
    return Side(side.start, after.end, tan(sweep / 4.0))
