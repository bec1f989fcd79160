"""One thing of a drawing as lines and arcs in the plan, in the drawing's own numbers."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, isfinite, radians, sin, tan
from typing import TYPE_CHECKING

from ..outlines.side import Point, Side
from .moved import SEEN_FROM_BELOW, Moved

if TYPE_CHECKING:
    from ezdxf.entities.dxfentity import DXFEntity

LEVEL = 1e-6  # of a plane's upright, or of the length of a line, that it may lean
UPRIGHT = (0.0, 0.0, 1.0)
NEARLY_ROUND = 50.0  # bulge; as in an outline that is typed


class NotInThePlan(Exception):
    """A thing that is no line or arc of a circle, or that leans out of the plan; said in words."""


Curve = tuple[tuple[Side, ...], bool, bool]  # sides, whether they close, whether it has a breadth


def curve(thing: DXFEntity) -> Curve | None:
    """Sides of a line, an arc, a circle or a polyline; None for anything else.

    Raises
    ------
    NotInThePlan
        It leans out of the plan, was smoothed, or is a surface drawn as a polyline.
    """
    match thing.dxftype():
        case "LINE":
            (x0, y0, z0), (x1, y1, z1) = thing.dxf.start, thing.dxf.end
            _finite(x0, y0, z0, x1, y1, z1)
            _level((z0, z1), abs(x1 - x0) + abs(y1 - y0), "a line")
            return _sides([(x0, y0), (x1, y1)], [0.0], closed=False), False, False
        case "ARC":
            return _arc(thing), False, False
        case "CIRCLE":
            return _circle(thing), True, False
        case "ELLIPSE" if abs(thing.dxf.ratio) == 1.0:
            return _round_ellipse(thing)
        case "LWPOLYLINE":
            return _light_polyline(thing)
        case "POLYLINE":
            return _polyline(thing)
    return None


def plane(thing: DXFEntity, what: str) -> Moved:
    """How a thing that is drawn on a plane of its own lies in the plan."""
    x, y, z = thing.dxf.get("extrusion", UPRIGHT)
    _finite(x, y, z)
    if abs(x) > LEVEL * abs(z) or abs(y) > LEVEL * abs(z):
        raise NotInThePlan(f"{what} that leans out of the plan")
    return SEEN_FROM_BELOW if z < 0.0 else Moved()


def _arc(thing: DXFEntity) -> tuple[Side, ...]:
    lies = plane(thing, "an arc")
    (cx, cy, _), r = thing.dxf.center, thing.dxf.radius
    first, last = thing.dxf.start_angle, thing.dxf.end_angle
    _finite(cx, cy, r, first, last)
    sweep = (last - first) % 360.0 or 360.0
    if sweep == 360.0:
        return _circle(thing)
    if r <= 0.0:
        return ()
    a, b = radians(first), radians(first + sweep)
    ends = [(cx + r * cos(a), cy + r * sin(a)), (cx + r * cos(b), cy + r * sin(b))]
    side = _bent(ends[0], ends[1], tan(radians(sweep) / 4.0))
    return (lies.side(side),)


def _circle(thing: DXFEntity) -> tuple[Side, ...]:
    lies = plane(thing, "a circle")
    (cx, cy, _), r = thing.dxf.center, thing.dxf.radius
    _finite(cx, cy, r)
    if r <= 0.0:
        return ()
    return tuple(map(lies.side, _round(cx, cy, r)))


def _round_ellipse(thing: DXFEntity) -> Curve:
    """An ellipse as broad as it is long is a circle, or an arc of one."""
    (cx, cy, _), (ax, ay, az) = thing.dxf.center, thing.dxf.major_axis
    _finite(cx, cy, ax, ay, az, thing.dxf.start_param, thing.dxf.end_param)
    _, _, z = thing.dxf.get("extrusion", UPRIGHT)
    plane(thing, "an ellipse")
    _level((0.0, az), abs(ax) + abs(ay), "an ellipse")
    turn = (thing.dxf.end_param - thing.dxf.start_param) % radians(360.0)
    way = -1.0 if z < 0.0 else 1.0
    if min(turn, radians(360.0) - turn) < 1e-9:
        return tuple(_round(cx, cy, Side((0.0, 0.0), (ax, ay)).chord)), True, False

    def at(angle: float) -> Point:
        return cx + ax * cos(angle) - way * ay * sin(angle), cy + ay * cos(angle) + way * ax * sin(angle)

    ends = at(thing.dxf.start_param), at(thing.dxf.start_param + turn)
    return (_bent(*ends, way * tan(turn / 4.0)),), False, False


def _round(cx: float, cy: float, r: float) -> tuple[Side, Side]:
    west, east = (cx - r, cy), (cx + r, cy)
    return Side(west, east, 1.0), Side(east, west, 1.0)


def _light_polyline(thing: DXFEntity) -> Curve:
    lies = plane(thing, "a polyline")
    points = [(float(x), float(y), float(b), max(s, e)) for x, y, s, e, b in thing.get_points("xyseb")]  # type: ignore[attr-defined]
    wide = thing.dxf.get("const_width", 0.0) > 0.0 or any(breadth > 0.0 for *_, breadth in points)
    corners, bulges = [(x, y) for x, y, *_ in points], [b for _, _, b, _ in points]
    closed = bool(thing.closed)  # type: ignore[attr-defined]
    return tuple(map(lies.side, _sides(corners, bulges, closed=closed))), closed, wide


def _polyline(thing: DXFEntity) -> Curve:
    if thing.is_polygon_mesh or thing.is_poly_face_mesh:  # type: ignore[attr-defined]
        raise NotInThePlan("a 3D surface of many faces")
    if thing.dxf.flags & 4 or thing.dxf.get("smooth_type", 0) > 4:
        raise NotInThePlan("a polyline that was smoothed to a spline")
    vertices = [vertex.dxf for vertex in thing.vertices]  # type: ignore[attr-defined]
    places = [tuple(vertex.location) for vertex in vertices]
    closed = bool(thing.is_closed)  # type: ignore[attr-defined]
    corners = [(float(x), float(y)) for x, y, _ in places]
    if thing.is_3d_polyline:  # type: ignore[attr-defined]
        size = max((abs(x) + abs(y) for x, y in corners), default=0.0)
        _level([z for *_, z in places], size, "a 3D polyline")
        return _sides(corners, [0.0] * len(corners), closed=closed), closed, False
    lies = plane(thing, "a polyline")
    bulges = [float(vertex.get("bulge", 0.0)) for vertex in vertices]
    breadths = [thing.dxf.get("default_start_width", 0.0), *(vertex.get("start_width", 0.0) for vertex in vertices)]
    wide = any(breadth > 0.0 for breadth in breadths)
    return tuple(map(lies.side, _sides(corners, bulges, closed=closed))), closed, wide


def _sides(corners: Sequence[Point], bulges: Sequence[float], *, closed: bool) -> tuple[Side, ...]:
    """Sides from corner to corner; corners that lie on one another are one."""
    for corner, bulge in zip(corners, bulges, strict=False):
        _finite(*corner, bulge)
    following = [*corners[1:], corners[0]] if closed and corners else corners[1:]
    ends = zip(corners, following, bulges, strict=False)
    return tuple(_bent(start, end, bulge) for start, end, bulge in ends if start != end)


def _bent(start: Point, end: Point, bulge: float) -> Side:
    if abs(bulge) > NEARLY_ROUND:
        raise NotInThePlan("an arc that comes round nearly to where it began")
    return Side(start, end, bulge)


def _finite(*numbers: float) -> None:
    if not all(isfinite(number) and abs(number) < 1e12 for number in numbers):
        raise NotInThePlan("a thing at a place that is no number, or beyond all drawings")


def _level(heights: Sequence[float], length: float, what: str) -> None:
    if any(abs(one - other) > LEVEL * max(length, 1.0) for one, other in pairwise(heights)):
        raise NotInThePlan(f"{what} that leans out of the plan")
