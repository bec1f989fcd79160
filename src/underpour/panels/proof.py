"""A plan of panels looked at from outside: by another way than it was made, what of it does not hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from math import acos, atan2, cos, pi, radians, sin
from operator import attrgetter

from ..outlines.floor import Floor
from ..outlines.outline import Outline
from ..outlines.side import Point, Side
from .layout import Layout, Piece
from .panel import ABOVE, BELOW, LEFT, RIGHT

SAME = 1e-7  # m
LOOKED = 40  # places along a piece at which the floor on both sides of a row's line is looked at
CLOSE = 1e-5  # m, how far from the line


def faults(floor: Floor, layout: Layout) -> list[str]:
    """What is wrong with a plan; nothing, if it holds.

    Disjoint rectangles whose shares of the floor add up to the whole floor cover it once everywhere; the shares are
    clipped out of the outline side by side, arcs as arcs.
    """
    return [
        *_apart(layout),
        *_covered(floor, layout),
        *_cut(layout),
        *_held(floor, layout),
        *_staggered(floor, layout),
        *_lined_up(layout),
    ]


def _apart(layout: Layout) -> Iterator[str]:
    width = layout.rules.width
    for row, pieces in _rows(layout).items():
        for piece in pieces:
            line = layout.offset + width * (((piece.y0 + piece.y1) / 2.0 - layout.offset) // width)
            if piece.y0 < line - SAME or piece.y1 > line + width + SAME:
                yield f"row {row}: a piece reaches out of its row at {piece.x0:.3f}"
        for one, other in pairwise(pieces):
            if other.x0 < one.x1 - SAME:
                yield f"row {row}: two pieces lie on each other at {other.x0:.3f}"


def _covered(floor: Floor, layout: Layout) -> Iterator[str]:
    rings = [(ring, 1.0 if number == 0 else -1.0) for number, ring in enumerate(floor.rings)]
    rings += [(each.outline, -1.0) for each in floor.obstacles]
    turned = [(_turned(ring, layout.angle), sign) for ring, sign in rings]
    whole = sum(sign * ring.area for ring, sign in rings)
    total = 0.0
    for piece in layout.pieces:
        box = piece.x0, piece.x1, piece.y0, piece.y1
        own = sum(sign * abs(_inside(sides, box)) for sides, sign in turned)
        total += own
        if abs(own - piece.area) > 1e-9 * layout.rules.area + 1e-12:
            yield f"row {piece.row}: {piece.area:.9f} m² are said to lie at {piece.x0:.3f}, {own:.9f} do"
    if abs(total - whole) > 1e-9 * whole:
        yield f"{total:.9f} m² of {whole:.9f} are covered"


def _cut(layout: Layout) -> Iterator[str]:
    rules = layout.rules
    by_panel: dict[int, list[Piece]] = {}
    for piece in layout.pieces:
        by_panel.setdefault(piece.panel, []).append(piece)
        if (
            min(piece.u, piece.v) < -SAME
            or piece.u + piece.length > rules.length + SAME
            or piece.v + piece.height > rules.width + SAME
        ):
            yield f"panel {piece.panel}: a piece reaches out of it"
    if set(by_panel) != set(range(layout.panels)):
        yield f"{len(by_panel)} panels are cut or laid, {layout.panels} are counted"
    for panel, pieces in by_panel.items():
        for one, other in combinations(pieces, 2):
            along = max(other.u - one.u - one.length, one.u - other.u - other.length)
            across = max(other.v - one.v - one.height, one.v - other.v - other.height)
            if max(along, across) < rules.kerf - SAME:
                yield f"panel {panel}: no saw gets between two of its pieces"
        if not _sawn(pieces):
            yield f"panel {panel}: no straight cuts through part its pieces"


_u, _v, _length, _height = (attrgetter(name) for name in ("u", "v", "length", "height"))


def _sawn(pieces: Sequence[Piece]) -> bool:
    """Whether cuts from side to side of what is left part all pieces."""
    if len(pieces) < 2:
        return True
    for start, length in ((_u, _length), (_v, _height)):
        ordered = sorted(pieces, key=start)
        end = start(ordered[0]) + length(ordered[0])
        for number, piece in enumerate(ordered[1:], start=1):
            if start(piece) >= end - SAME:
                return _sawn(ordered[:number]) and _sawn(ordered[number:])
            end = max(end, start(piece) + length(piece))
    return False


def _held(floor: Floor, layout: Layout) -> Iterator[str]:
    """Where sides hold each other, each that meets another panel is one that left the works."""
    if not layout.rules.interlock:
        return
    rules = layout.rules
    for row, pieces in _rows(layout).items():
        for number, piece in enumerate(pieces):
            sides = 0
            if number and abs(pieces[number - 1].x1 - piece.x0) < SAME:
                sides |= LEFT
            if number + 1 < len(pieces) and abs(pieces[number + 1].x0 - piece.x1) < SAME:
                sides |= RIGHT
            sides |= (BELOW if _goes_on(floor, layout, piece, piece.y0) else 0) | (
                ABOVE if _goes_on(floor, layout, piece, piece.y1) else 0
            )
            cut = (
                (LEFT, piece.u),
                (RIGHT, rules.length - piece.u - piece.length),
                (BELOW, piece.v),
                (ABOVE, rules.width - piece.v - piece.height),
            )
            if any(sides & side and abs(off) > SAME for side, off in cut):
                yield f"row {row}: a sawn side meets a panel at {piece.x0:.3f}"


def _goes_on(floor: Floor, layout: Layout, piece: Piece, y: float) -> bool:
    found = 0
    for part in range(LOOKED):
        x = piece.x0 + (part + 0.5) / LOOKED * piece.length
        found += all(_on(floor, layout.angle, (x, y + by)) for by in (CLOSE, -CLOSE))
    return found > 1 and found / LOOKED * piece.length > 0.02


def _staggered(floor: Floor, layout: Layout) -> Iterator[str]:
    rows = _rows(layout)
    for row, pieces in rows.items():
        joints = [one.x1 for one, other in pairwise(pieces) if abs(one.x1 - other.x0) < SAME]
        above = rows.get(row + 1, [])
        others = [one.x1 for one, other in pairwise(above) if abs(one.x1 - other.x0) < SAME]
        for x in joints:
            for other in others:
                if abs(x - other) < layout.rules.stagger - SAME:
                    yield f"row {row}: a joint at {x:.3f} lies {abs(x - other):.3f} m from one of the next row"


def _lined_up(layout: Layout) -> Iterator[str]:
    """Where there is a pitch, all knobs or channels stand on one grid, whatever panel they are cut from."""
    pitch = layout.rules.pitch
    if not pitch:
        return
    for piece in layout.pieces:
        for way, off in (
            ("along", piece.x0 - piece.u - layout.phase),
            ("across", piece.y0 - piece.v - layout.offset),
        ):
            over = off % pitch
            if min(over, pitch - over) > SAME:
                yield f"row {piece.row}: a piece at {piece.x0:.3f} stands {over:.4f} m off the pitch {way} the row"


def _rows(layout: Layout) -> dict[int, list[Piece]]:
    rows: dict[int, list[Piece]] = {}
    for piece in sorted(layout.pieces, key=lambda each: (each.row, each.x0)):
        rows.setdefault(piece.row, []).append(piece)
    return rows


def _on(floor: Floor, angle: float, point: Point) -> bool:
    back = _turn(point, -angle)
    return floor.holds(back) and not any(each.outline.holds(back) for each in floor.obstacles)


def _turned(ring: Outline, angle: float) -> list[Side]:
    return [Side(_turn(side.start, angle), _turn(side.end, angle), side.bulge) for side in ring.sides]


def _turn(point: Point, angle: float) -> Point:
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] * c + point[1] * s, point[1] * c - point[0] * s


def _inside(sides: Sequence[Side], box: tuple[float, float, float, float]) -> float:
    """Area of a ring within an upright rectangle: cut off at one line after another, the cut closed along it. [m²]"""
    left, right, low, high = box
    for axis, at, keep in ((0, left, 1.0), (0, right, -1.0), (1, low, 1.0), (1, high, -1.0)):
        sides = _kept(sides, axis, at, keep)
    return sum(side.turned_area for side in sides)


def _kept(sides: Sequence[Side], axis: int, at: float, keep: float) -> list[Side]:
    kept: list[Side] = []
    for side in sides:
        for part in _parted(side, axis, at):
            off = (keep * (part.at(share * part.length)[axis] - at) for share in (0.25, 0.5, 0.75))
            if max(off, key=abs) > 0.0:  # an arc may touch the line with its middle
                if kept and _far(kept[-1].end, part.start):
                    kept.append(Side(kept[-1].end, part.start))
                kept.append(part)
    if kept and _far(kept[-1].end, kept[0].start):
        kept.append(Side(kept[-1].end, kept[0].start))
    return kept


def _far(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) > 1e-13


def _parted(side: Side, axis: int, at: float) -> list[Side]:
    """A side in the parts that lie on one side of a line each."""
    cuts = sorted({0.0, *_met(side, axis, at), side.length})
    return [side.part(a, b) for a, b in pairwise(cuts) if b - a > 1e-12]


def _met(side: Side, axis: int, at: float) -> Iterator[float]:
    """Distances along a side at which it meets a line. [m]"""
    if not side.bulge:
        a, b = side.start[axis], side.end[axis]
        if (a - at) * (b - at) < 0.0:
            yield side.length * (at - a) / (b - a)
        return
    centre, r = side.centre, side.radius
    share = (at - centre[axis]) / r
    if abs(share) >= 1.0:
        return
    first = atan2(side.start[1] - centre[1], side.start[0] - centre[0])
    turn = acos(share)
    for angle in (turn, -turn) if axis == 0 else (pi / 2.0 - turn, pi / 2.0 + turn):
        gone = (angle - first) % (2.0 * pi) if side.bulge > 0.0 else (first - angle) % (2.0 * pi)
        if gone < abs(side.sweep):
            yield gone * r
