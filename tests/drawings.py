"""Drawings in DXF for tests, written by the library that reads them where another program's are not wanted."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees
from pathlib import Path
from typing import Any

import ezdxf
from ezdxf.document import Drawing

from underpour.outlines.outline import Outline
from underpour.outlines.side import Side

MM, FEET, METRES = 4, 2, 6
FLOOR = {"layer": "floor-outline"}
Corner = tuple[float, float]


def drawing(units: int = METRES, version: str = "R2010") -> Drawing:
    made = ezdxf.new(version)
    made.header["$INSUNITS"] = units
    return made


def ring(place: Any, corners: Sequence[tuple[float, ...]], layer: str = "floor-outline", **attributes: Any) -> Any:
    """A closed polyline; each corner is x, y and perhaps the bulge of the side that begins there."""
    return place.add_lwpolyline(
        [(x, y, *(bulge or (0.0,))) for x, y, *bulge in corners],
        format="xyb",
        close=True,
        dxfattribs={"layer": layer, **attributes},
    )


def box(place: Any, left: float, low: float, wide: float, high: float, layer: str = "floor-outline") -> Any:
    return ring(place, [(left, low), (left + wide, low), (left + wide, low + high), (left, low + high)], layer)


def loose(place: Any, sides: Sequence[Side], layer: str = "floor-outline") -> None:
    """Each side as a line or arc of its own; an arc of a drawing always turns left, so it may change its direction."""
    for side in sides:
        if not side.bulge:
            place.add_line(side.start, side.end, dxfattribs={"layer": layer})
            continue
        left = side if side.bulge > 0.0 else side.back()
        cx, cy = left.centre
        first, last = (degrees(atan2(y - cy, x - cx)) for x, y in (left.start, left.end))
        place.add_arc((cx, cy), left.radius, first, last, dxfattribs={"layer": layer})


def saved(made: Drawing, path: Path) -> Path:
    made.saveas(path)
    return path


def outline(corners: Sequence[tuple[float, ...]]) -> Outline:
    ends = zip(corners, [*corners[1:], corners[0]], strict=True)
    return Outline(tuple(Side((a[0], a[1]), (b[0], b[1]), a[2] if len(a) > 2 else 0.0) for a, b in ends))
