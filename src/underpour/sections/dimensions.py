"""What is measured on the drawing of a section: thicknesses, levels, depths, widths and slopes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import say
from ..resolve import Resolved, ResolvedEdge
from .levels import Levels
from .parts import Angle, Dimension, Part

OFF = 0.1  # m from what is measured to its dimension line


def dimensions(resolved: Resolved, edge: ResolvedEdge, at: Levels, parts: Sequence[Part]) -> Iterator[Dimension]:
    """The dimension lines of one edge's section; ``parts`` are its bodies but the ground, which lines keep off."""
    x, y = 1.2, 0.0
    for layer in resolved.floor:
        if layer.thickness > 0.0:
            yield Dimension((x, y), (x, y - layer.thickness), layer.words.rsplit(", ", 1)[-1])
            y -= layer.thickness
    if at.old_slab:
        yield Dimension((x + 0.3, 0.0), (x + 0.3, at.old_slab), say.both(-at.old_slab, "m", resolved.system))
    if edge.ground:
        yield Dimension(
            (-at.wall - 0.8, 0.0), (-at.wall - 0.8, edge.ground), say.both(abs(edge.ground), "m", resolved.system)
        )
    if at.door and at.door[0] > -at.wall:
        strip = say.both(at.door[0] + at.wall, "m", resolved.system)
        yield Dimension((-at.wall, 2.5 * OFF), (at.door[0], 2.5 * OFF), strip)
    if edge.ledge:
        out, level = -at.wall - 2.0 * OFF, -edge.ledge.below
        yield Dimension((out, 0.0), (out, level), edge.ledge.below_words)
        under = min(level, edge.ground) - 1.2 * OFF  # where ground leaves room for the words
        yield Dimension((-at.wall, under), (-at.wall + edge.ledge.width, under), edge.ledge.width_words)
    depth = say.both(edge.depth, "m", resolved.system)
    if edge.thickening and at.slope:
        left = min([at.start, *(x for part in parts for x, y in part.outline if y < -OFF)]) - 3 * OFF
        below = min(y for part in parts for _, y in part.outline) - OFF
        yield Dimension((left, 0.0), (left, at.footing_bottom), depth)
        yield Dimension((at.start, below), (at.slope.foot, below), edge.thickening.width_words)
    elif edge.depth:
        right = at.footing_right + 2.5 * OFF
        yield Dimension((right, 0.0), (right, at.footing_bottom), depth)


def angles(edge: ResolvedEdge, at: Levels) -> Iterator[Angle]:
    """The slope of a thickening's inner side, unless it stands upright."""
    if edge.thickening and at.slope and at.slope.top > at.slope.foot:
        yield Angle((at.slope.foot, at.footing_bottom), edge.thickening.slope, edge.thickening.slope_words)
