"""Levels and places that every part of a section refers to. [m]"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, sin, tan

from ..measure import System, say
from ..mistakes import Mistake
from ..resolve import WALL_SHOWN, Resolved, ResolvedEdge
from ..resolve.resolved import Thickening

OUTER = 2.5  # the ground reaches this many floor widths out and down (ISO 10211:2017, 7.2, from memory)
LEAST_GROUND = 12.0  # m: beyond it the year's swing has died away whatever the floor's width
LEAST_FLAT = 0.1  # m of floor that stays between a slope and the middle


@dataclass(frozen=True)
class Slope:
    """The sloped inner side of a thickening, and the foam below it."""

    foot: float  # x at which the flat bottom ends
    top: float  # x at which the floor's own underside begins
    below: float  # how far foam under the slope reaches beyond it, level; 0 where there is none


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
    inner: float = 0.0  # x of the room side of the wall above
    slope: Slope | None = None  # a thickened edge's
    door: tuple[float, float] | None = None  # x of a door leaf's outer and room side; the slab runs out below it

    def begins(self, level: float) -> float:
        """Where a layer with its top at a level begins: a raft's wall stands on an old slab, not on what lies above."""
        if self.door and level > self.slab_bottom + 1e-9:
            return -self.wall  # through the opening, over the lowered foundation wall
        return 0.0 if level > self.sill + 1e-9 else self.start

    def slope_at(self, level: float) -> float:
        """Where a thickening's inner side is at a level; its flat bottom's end below it. [m]"""
        assert self.slope is not None
        rise = self.foam_bottom - self.footing_bottom
        share = min(max((level - self.footing_bottom) / rise, 0.0), 1.0) if rise > 0.0 else 1.0
        return self.slope.foot + share * (self.slope.top - self.slope.foot)

    def reaches(self, top: float, bottom: float) -> float:
        """Where a layer begins, that of a thickened edge that ends at its slope too; in from the outline. [m]"""
        if self.slope is not None and self.foam_bottom - 1e-9 < bottom < top <= self.slab_bottom + 1e-9:
            return self.slope.top
        return self.begins(top)


def levels(resolved: Resolved, edge: ResolvedEdge) -> Levels:
    """Work out the levels of one edge's section. Raises Mistake where a thickening does not fit."""
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
    on_slab = edge.kind in ("raft", "thickened-edge")
    start = -standing if on_slab else 0.0
    foam_bottom = min(foam, slab)
    door = _door(edge, wall, standing, resolved.system) if edge.kind == "threshold" else None
    slope = _slope(resolved, edge, edge.thickening, start, foam_bottom) if edge.thickening else None
    return Levels(
        half_width=resolved.half_width,
        reach=max(OUTER * 2.0 * resolved.half_width, LEAST_GROUND),
        top=max(edge.ground + WALL_SHOWN, WALL_SHOWN, drawn_to),
        slab_bottom=slab,
        poured_bottom=poured,
        old_slab=old,
        sill=old or 0.0,
        foam_bottom=foam_bottom,
        build_up_bottom=depth,
        wall=wall if edge.wall and not on_slab else standing,
        start=start,
        footing_top=-edge.depth + height,
        footing_bottom=-edge.depth,
        footing_left=start if slope else -wall / 2 - width / 2,
        footing_right=slope.foot if slope else -wall / 2 + width / 2,
        inner=_over_foam(edge, standing, resolved.system),
        slope=slope,
        door=door,
    )


def _over_foam(edge: ResolvedEdge, standing: float, system: System) -> float:
    """How far the wall above stands in over foam at the slab's edge: no more than half of it may."""
    if edge.stands_in > 0.5 * standing + 1e-6:
        n = next(n for n, piece in enumerate(edge.pieces, 1) if piece.covered)
        wide, foam = (say.both(x, "m", system) for x in (standing, edge.stands_in))
        raise Mistake(
            f"{edge.path}.insulation.{n}.top",
            "",
            f"The wall above, {wide}, would stand on this foam, {foam}, by more than half.",
            "Take thinner foam there, a thicker wall above, or leave the foam's top bare.",
        )
    return edge.stands_in


def _door(edge: ResolvedEdge, wall: float, leaf: float, system: System) -> tuple[float, float]:
    """Where a door's leaf stands on the slab, which runs out to the foundation wall's outer face."""
    if edge.set_back > wall + 1e-6:
        back, thick = (say.both(x, "m", system) for x in (edge.set_back, wall))
        raise Mistake(
            f"{edge.path}.set-back",
            "",
            f"Set back by {back} this door stands in the room: the foundation wall is {thick} thick.",
            "set-back runs from the foundation wall's outer face in to the leaf's outer face.",
        )
    return (edge.set_back - wall, edge.set_back - wall + leaf)


def _slope(resolved: Resolved, edge: ResolvedEdge, thick: Thickening, start: float, underside: float) -> Slope:
    """Where the slope of a thickening runs: from its flat bottom up to the underside of the floor's foam."""
    system = resolved.system
    if edge.depth < -underside - 1e-6:
        said = say.both(-underside, "m", system)
        raise Mistake(
            f"{edge.path}.depth",
            "",
            f"This thickening ends above the underside of the floor's foam, which lies {said} down.",
            'Make depth larger than that, or write kind = "raft" for a slab that does not thicken.',
        )
    angle = radians(thick.slope)
    rise = edge.depth + underside
    foot = start + thick.width
    top = foot + (0.0 if thick.slope >= 90.0 else rise / tan(angle))
    below = max((p.board.thickness for p in edge.pieces if p.face == "below-slope"), default=0.0) / sin(angle)
    if top + below > resolved.half_width - LEAST_FLAT:
        reach, half = (say.both(x, "m", system) for x in (top + below - start, resolved.half_width - start))
        raise Mistake(
            f"{edge.path}.thickening",
            "",
            f"This thickening reaches {reach} in from the slab's face; the middle of the floor is at {half}.",
            "Take a steeper slope, a narrower bottom or less depth; a slab that is thick all over is a raft.",
        )
    return Slope(foot, top, below)
