"""Levels and places that every part of a section refers to. [m]"""

from __future__ import annotations

from dataclasses import dataclass

from ..resolve import WALL_SHOWN, Resolved, ResolvedEdge

OUTER = 2.5  # the ground reaches this many floor widths out and down (ISO 10211:2017, 7.2, from memory)
LEAST_GROUND = 12.0  # m: beyond it the year's swing has died away whatever the floor's width


@dataclass(frozen=True)
class Levels:
    """Where things stand in one section."""

    half_width: float  # the middle of the floor
    reach: float  # ground outside and below
    top: float  # of the section
    slab_bottom: float  # underside of the lowest concrete of the floor, old or new
    poured_bottom: float  # underside of what is poured now; an old slab's top where nothing is
    old_slab: float | None  # top of an old slab that stays; None where there is none
    sill: float  # where the wall that stands on foundation or slab begins: the floor's top, or the old slab's
    foam_bottom: float  # underside of the lowest board, or of the concrete
    build_up_bottom: float
    wall: float  # thickness of the structural wall below the floor
    start: float  # x at which the floor's layers begin
    footing_top: float
    footing_bottom: float
    footing_left: float
    footing_right: float


def levels(resolved: Resolved, edge: ResolvedEdge) -> Levels:
    """Work out the levels of one edge's section."""
    depth = slab = poured = foam = 0.0
    old: float | None = None
    for layer in resolved.floor:
        depth -= layer.thickness
        if layer.kind in ("concrete", "screed"):
            slab = poured = depth
        if layer.kind == "old-slab":
            old, slab = depth + layer.thickness, depth
            poured = poured or old
        if layer.kind == "board":
            foam = depth
    wall = sum(w.thickness for w in edge.wall)
    standing = sum(w.thickness for w in edge.above)
    width, height = edge.footing
    drawn_to = max((y for body in edge.drawn for _, y in body.outline), default=0.0)
    return Levels(
        half_width=resolved.half_width,
        reach=max(OUTER * 2.0 * resolved.half_width, LEAST_GROUND),
        top=max(edge.ground + WALL_SHOWN, WALL_SHOWN, drawn_to),
        slab_bottom=slab,
        poured_bottom=poured,
        old_slab=old,
        sill=old or 0.0,
        foam_bottom=min(foam, slab),
        build_up_bottom=depth,
        wall=wall if edge.wall and edge.kind != "raft" else standing,
        start=-standing if edge.kind == "raft" else 0.0,
        footing_top=-edge.depth + height,
        footing_bottom=-edge.depth,
        footing_left=-wall / 2 - width / 2,
        footing_right=-wall / 2 + width / 2,
    )
