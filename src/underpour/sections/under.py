"""Where the ground begins under a floor's edge."""

from __future__ import annotations

from collections.abc import Sequence

from .parts import Part, Point

JUST = 1e-6  # m


def under_wall(parts: Sequence[Part], start: float, underside: float) -> Point:
    """The ground at the build-up's underside that lies nearest to a wall, inside of the foam on it. [m]"""
    places = sorted({x for part in parts for x, _ in part.outline if x >= start - JUST})
    for x in places:
        if _lowest_of(parts, x + JUST, underside - JUST) is None:
            return (x, underside)
    return (start, underside)


def under_slab(parts: Sequence[Part], start: float) -> Point:
    """The ground straight below the outer end of a slab: below its layers and whatever hangs from them. [m]"""
    y = 0.0
    while (lower := _lowest_of(parts, start + JUST, y - JUST)) is not None:
        y = lower
    return (start, y)


def _lowest_of(parts: Sequence[Part], x: float, y: float) -> float | None:
    """The lower end at ``x`` of a part that fills the place; None in the ground, which is none of the parts."""
    for part in parts:
        ends = _crossings(part, x)
        for low, high in zip(ends[::2], ends[1::2], strict=True):
            if low < y < high:
                return low
    return None


def _crossings(part: Part, x: float) -> list[float]:
    """Heights at which the part's outline crosses an upright line, lowest first."""
    found = []
    for (xa, ya), (xb, yb) in zip(part.outline, (*part.outline[1:], part.outline[0]), strict=True):
        if min(xa, xb) <= x < max(xa, xb):
            found.append(ya + (yb - ya) * (x - xa) / (xb - xa))
    return sorted(found)
