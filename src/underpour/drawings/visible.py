"""Which body shows at a point of the section, where bodies lie over each other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..sections.parts import Outline, Part, Section
from .paper import Frame

NOTHING = -1
WIDE = "M-9999 -9999H9999V9999H-9999z"  # more than any sheet


def drawn_order(parts: Sequence[Part]) -> list[int]:
    """Positions of the parts from the undermost up: the lower priority lies on top, then the later one."""
    return sorted(range(len(parts)), key=lambda k: (-parts[k].priority, k))


def inside(outline: Outline, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether points lie within an outline, by counting its sides to the right of each. [m], any shape"""
    odd = np.zeros(np.shape(x), dtype=bool)
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if y0 == y1:
            continue
        spans = (y0 > y) != (y1 > y)
        odd ^= spans & (x < x0 + (y - y0) * (x1 - x0) / (y1 - y0))
    return odd


def showing(parts: Sequence[Part], x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.intp]:
    """Position in ``parts`` of the body that shows at each point, NOTHING in air. [m], any shape"""
    shown = np.full(np.shape(x), NOTHING, dtype=np.intp)
    for k in drawn_order(parts):
        shown[inside(parts[k].outline, x, y)] = k
    return shown


def covering(parts: Sequence[Part], k: int) -> list[int]:
    """Parts that lie on part ``k`` and may hide some of it (their bounds meet)."""
    order = drawn_order(parts)
    above = order[order.index(k) + 1 :]
    return [j for j in above if _bounds_meet(parts[k].outline, parts[j].outline)]


def cut_outs(section: Section, frame: Frame, prefix: str) -> list[str]:
    """Clips for the defs: ``prefix``-not-k is all but part k, ``prefix``-solid all bodies, ``prefix``-window the frame.

    All that is not air is solid in one piece, so that no seam shows where two bodies touch: everything is wound one
    way, airs the other way, bodies that reach into air the first way again. Several shapes in one clip would have to
    be joined by whoever shows it, and browsers lose some that touch.
    """
    parts = section.parts
    clips = [
        f'<clipPath id="{prefix}-not-{k}"><path clip-rule="evenodd" d="{WIDE}'
        f'{frame.path(part.outline, closed=True)}"/></clipPath>'
        for k, part in enumerate(parts)
        if any(k in covering(parts, j) for j in range(len(parts)))
    ]
    window = f'<rect x="{frame.left:g}" y="{frame.top:g}" width="{frame.width:.4g}" height="{frame.height:.4g}"/>'
    return [
        *clips,
        f'<clipPath id="{prefix}-solid"><path d="{solid(section, frame)}"/></clipPath>',
        f'<clipPath id="{prefix}-window">{window}</clipPath>',
    ]


def solid(section: Section, frame: Frame) -> str:
    """Path data of all that is not air, to be filled by winding."""
    airs = "".join(frame.path(wound(air.outline, clockwise=False), closed=True) for air in section.airs)
    bodies = "".join(frame.path(wound(part.outline, clockwise=True), closed=True) for part in section.parts)
    return f"{WIDE}{airs}{bodies}"


def wound(outline: Outline, *, clockwise: bool) -> Outline:
    """The outline's points in that order, as seen on the sheet.

    >>> wound(((0, 0), (1, 0), (1, 1)), clockwise=True)
    ((1, 1), (1, 0), (0, 0))
    """
    turning = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True))
    return outline[::-1] if (turning > 0.0) == clockwise else outline


def uncovered(drawn: str, hidden_by: Sequence[int], prefix: str) -> str:
    """What is drawn, without the places that the given parts hide."""
    for j in hidden_by:
        drawn = f'<g clip-path="url(#{prefix}-not-{j})">{drawn}</g>'
    return drawn


def _bounds_meet(one: Outline, other: Outline) -> bool:
    (ax, ay), (bx, by) = zip(*one, strict=True), zip(*other, strict=True)
    return bool(min(ax) < max(bx) and min(bx) < max(ax) and min(ay) < max(by) and min(by) < max(ay))
