"""From a resolved edge to its section: ground, layers, wall, footing, foam and air as polygons."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import inf

from ..measure import System, say
from ..mistakes import Mistake
from ..resolve import WALL_SHOWN, Resolved, ResolvedEdge, Slice
from ..resolve.resolved import Ledge, Stratum
from .dimensions import angles, dimensions
from .foam import box, outlines
from .levels import Levels, Slope, levels
from .parts import Air, Film, Outline, Part, Section
from .under import under_slab, under_wall

# Lower wins. Bodies that the user drew go before all others, whatever priority they carry among themselves.
DRAWN, FOAM, LEDGE, WALL, FOOTING, LAYERS, GROUND = -1000, 10, 90, 100, 110, 200, 900
POURED = ("concrete", "screed", "old-slab")
LEAST_BAND = 0.01  # m of ground at the end of the section that is not worth a band of its own
FROST_SHOWN = 1.2  # m of ground worth drawing below a slab outdoors, so that the frost line is in sight
CHANGE_SHOWN, FAR_BELOW = 0.35, 2.0  # m of ground to show below a change of it; a change deeper than that is not shown
WALLED = (
    "footing-wall",
    "frost-wall",
    "ledge",
    "threshold",
    "drawn",
)  # a body of the edge may reach down past the build-up


def section(resolved: Resolved, edge: ResolvedEdge) -> Section:
    """The cut through one edge. Raises Mistake where something does not fit."""
    at = levels(resolved, edge)
    foam = list(_foam(edge, at, resolved.system))
    inside_face = max(
        (p.outline[1][0] for p in foam if p.outline[0][0] == 0.0 and p.outline[2][1] > 1e-6 and p.outline[0][1] < 1e-6),
        default=0.0,
    )
    ground = list(_ground(resolved.strata, edge, at))
    parts = [
        *_layers(resolved, at),
        *_walls(resolved, edge, at),
        *foam,
        *(_part(d.slice, d.outline, DRAWN + d.priority) for d in edge.drawn),
    ]
    outer, inner = at.door or (at.start, at.inner)
    inside_face = inner if at.door else max(inside_face, inner)
    airs = (
        Air("outdoors" if resolved.outdoors else "room", box(inner, at.half_width, 0.0, at.top)),
        Air("outdoors", box(-at.reach, outer, edge.ground, at.top)),
    )
    walled = edge.kind in WALLED and not resolved.outdoors
    lowest = min(y for part in parts for _, y in part.outline)
    widest = min(x for part in parts for x, _ in part.outline)
    return Section(
        edge=edge.letter,
        kind=edge.kind,
        parts=(*ground, *parts),
        airs=airs,
        films=tuple(_films(resolved, at)),
        dimensions=tuple(dimensions(resolved, edge, at, parts)),
        extent=(-at.reach, at.half_width, -at.reach, at.top),
        window=(
            min(widest - 0.7, -1.3),
            min(max(1.8, at.slope.top + at.slope.below + 0.6) if at.slope else 1.8, at.half_width),
            _shown_down_to(min(lowest, edge.ground), resolved, edge),
            max(edge.ground, 0.0) + 0.7 * WALL_SHOWN,
        ),
        ground_level=edge.ground,
        water_level=_water_level(resolved, edge, at),
        beside=resolved.air_beside(edge).name,
        corner=(inside_face, 0.0),
        floor=(inside_face, at.half_width),
        underside=at.build_up_bottom,
        under_edge=under_wall(parts, at.start, at.build_up_bottom) if walled else under_slab(parts, at.start),
        angles=tuple(angles(edge, at)),
    )


def _shown_down_to(lowest: float, resolved: Resolved, edge: ResolvedEdge) -> float:
    """Lower end of the picture: some ground below everything, and where it changes unless that is far below. [m]"""
    enough = lowest - (FROST_SHOWN if resolved.outdoors else 0.55)
    changes = [edge.ground - stratum.top - CHANGE_SHOWN for stratum in resolved.strata[1:]]
    return min([enough, *(level for level in changes if level > lowest - FAR_BELOW)])


def _part(made_of: Slice, outline: Outline, priority: int) -> Part:
    return Part(
        made_of.words, made_of.hatch, outline, made_of.conductivity, made_of.heat_capacity, priority, made_of.path
    )


def over_moving_water(resolved: Resolved, edge: ResolvedEdge, made: Section) -> tuple[tuple[Part, ...], Air] | None:
    """The section's parts with the ground ending at the ground water, and the water; None where none is in reach.

    Water that moves takes the place of the ground below it, at a temperature of its own.
    """
    if made.water_level is None:
        return None
    at = levels(resolved, edge)
    others = [part for part in made.parts if part.priority != GROUND]
    ground = _ground(resolved.strata, edge, at, made.water_level)
    return (*ground, *others), Air("water", ground_band(edge, at, made.water_level, -at.reach))


def _water_level(resolved: Resolved, edge: ResolvedEdge, at: Levels) -> float | None:
    level = resolved.water_level(edge)
    return level if level is not None and level > -at.reach + LEAST_BAND else None


def _ground(strata: Sequence[Stratum], edge: ResolvedEdge, at: Levels, lowest: float | None = None) -> Iterator[Part]:
    """Each stratum, level from undisturbed ground to the middle of the floor; what lies too deep to matter is none."""
    end = -at.reach if lowest is None else lowest
    tops = [inf, *(edge.ground - stratum.top for stratum in strata[1:])]
    for stratum, top, bottom in zip(strata, tops, [*tops[1:], end], strict=True):
        if min(top, max(edge.ground, at.build_up_bottom)) > end + LEAST_BAND:
            outline = ground_band(edge, at, top, bottom if bottom > end + LEAST_BAND else end)
            yield replace(_part(stratum.slice, outline, GROUND), heaves=stratum.slice.heaves)


def ground_band(edge: ResolvedEdge, at: Levels, top: float, bottom: float) -> Outline:
    """The ground between two levels, as far as it reaches: up to the finished ground, and below the build-up. [m]"""
    outside, inside = min(top, edge.ground), min(top, at.build_up_bottom)
    if inside <= bottom:
        return box(-at.reach, at.start, bottom, outside)
    if outside <= bottom:
        return box(at.start, at.half_width, bottom, inside)
    if outside == inside == top:
        return box(-at.reach, at.half_width, bottom, inside)
    return (
        (-at.reach, bottom),
        (at.half_width, bottom),
        (at.half_width, inside),
        (at.start, inside),
        (at.start, outside),
        (-at.reach, outside),
    )


def _layers(resolved: Resolved, at: Levels) -> Iterator[Part]:
    top = 0.0
    for n, layer in enumerate(resolved.floor):
        if layer.thickness > 0.0:
            bottom = top - layer.thickness
            part = _part(layer, box(at.reaches(top, bottom), at.half_width, bottom, top), LAYERS + n)
            if at.slope and layer.kind in POURED and abs(bottom - at.slab_bottom) < 1e-9:
                part = _thickened(part, at, at.slope, top)
            yield part
            top = bottom


def _thickened(slab: Part, at: Levels, slope: Slope, top: float) -> Part:
    """The lowest concrete of the floor with its thickening: the two are poured as one."""
    added = (
        (at.start, at.footing_bottom),
        (slope.foot, at.footing_bottom),
        (slope.top, at.foam_bottom),
        (slope.top, at.slab_bottom),
    )
    corners = (*added, (at.half_width, at.slab_bottom), (at.half_width, top), (at.start, top))
    # A slope without rise, or a floor without foam, has fewer corners.
    return replace(slab, outline=tuple(dict.fromkeys(corners)), thickening=added[:3])


def _walls(resolved: Resolved, edge: ResolvedEdge, at: Levels) -> Iterator[Part]:
    if edge.wall:
        top = at.top if edge.kind == "footing-wall" else at.slab_bottom if at.door else at.sill
        yield from _upright(edge.wall, at.footing_top, top, WALL)
        yield _part(
            edge.footing_slice, box(at.footing_left, at.footing_right, at.footing_bottom, at.footing_top), FOOTING
        )
    if edge.kind in ("frost-wall", "ledge", "raft", "thickened-edge"):
        yield from _upright(edge.above, at.sill, at.top, WALL + 5, at.inner)
    if edge.ledge:
        yield from _brick(edge.ledge, at, edge, resolved.system)
    if at.door:
        yield from _upright(edge.above, 0.0, at.top, WALL + 5, at.door[1])


def _brick(ledge: Ledge, at: Levels, edge: ResolvedEdge, system: System) -> Iterator[Part]:
    """The brick leaf on its ledge, and the air between it and the wall behind."""
    if -ledge.below < at.footing_top + 1e-6:
        said = say.both(-at.footing_top, "m", system)
        raise Mistake(
            f"{edge.path}.ledge.below",
            "",
            f"This ledge, {ledge.below_words} down, lies below the top of the footing, which is {said} down.",
            "Write below smaller than that; it counts from the top of the floor.",
        )
    behind = -at.wall + ledge.brick.thickness
    yield _part(ledge.brick, box(-at.wall, behind, -ledge.below, at.top), LEDGE)
    yield _part(ledge.air_in_step, box(behind, -at.wall + ledge.width, -ledge.below, at.sill), LEDGE + 1)
    yield _part(ledge.air, box(behind, behind + ledge.air.thickness, at.sill, at.top), LEDGE + 1)


def _upright(wall: tuple[Slice, ...], bottom: float, top: float, priority: int, x: float = 0.0) -> Iterator[Part]:
    """Layers from their room side at ``x`` outwards."""
    for n, leaf in enumerate(wall):
        yield _part(leaf, box(x - leaf.thickness, x, bottom, top), priority + n)
        x -= leaf.thickness


def _foam(edge: ResolvedEdge, at: Levels, system: System) -> Iterator[Part]:
    outside = max(
        (
            p.board.thickness
            for p in edge.pieces
            if p.face == "outside" or (p.face == "slab-edge" and edge.kind in ("raft", "thickened-edge", "free-edge"))
        ),
        default=0.0,
    )
    for n, piece in enumerate(edge.pieces):
        for outline in outlines(piece, f"{edge.path}.insulation.{n + 1}", edge, at, outside, system):
            yield _part(piece.board, outline, FOAM + n)


def _films(resolved: Resolved, at: Levels) -> Iterator[Film]:
    y = 0.0
    for layer in resolved.floor:
        if layer.thickness == 0.0:
            yield Film(layer.label, (*_film_ends(at, y), (at.half_width, y)), layer.path)
        y -= layer.thickness


def _film_ends(at: Levels, y: float) -> Outline:
    """Where a film at one level goes at the edge: below a thickening it follows the concrete's underside."""
    if at.slope is None or y > at.slab_bottom + 1e-9:
        return ((0.0 if at.old_slab is not None and y > at.old_slab - 1e-9 else at.start, y),)
    if y < at.foam_bottom - 1e-9:
        run = at.slope.top - at.slope.foot
        down = min((at.foam_bottom - y) / (at.foam_bottom - at.footing_bottom), 1.0)
        return ((at.slope.top - down * run if y > at.footing_bottom else at.start, y),)
    return (
        (at.start, at.footing_bottom),
        (at.slope.foot, at.footing_bottom),
        (at.slope.top, at.foam_bottom),
        (at.slope.top, y),
    )


def unbuilt(made: Section, edge: ResolvedEdge, system: System) -> Mistake | None:
    """What only the whole section shows: a room that is open to outdoors, a wing that lies in the footing."""
    return _open_to_outdoors(made, edge, system) or _wing_in_the_footing(made, edge, system)


def _wing_in_the_footing(made: Section, edge: ResolvedEdge, system: System) -> Mistake | None:
    footings = [part.outline for part in made.parts if part.priority == FOOTING]
    for n, piece in enumerate(edge.pieces):
        wings = [part.outline for part in made.parts if piece.face == "wing" and part.priority == FOAM + n]
        for wing, footing in ((wing, footing) for wing in wings for footing in footings):
            across = min(wing[1][0], footing[1][0]) - max(wing[0][0], footing[0][0])
            high = min(wing[2][1], footing[2][1]) - max(wing[0][1], footing[0][1])
            if min(across, high) > 1e-6:
                top, bottom = (say.both(-y, "m", system) for y in (footing[2][1], footing[0][1]))
                return Mistake(
                    f"{edge.path}.insulation.{n + 1}.at",
                    "",
                    f"This wing lies over the footing, which stands out from {top} to {bottom} below the floor.",
                    "Lay it higher, or below the footing.",
                )
    return None


def _open_to_outdoors(made: Section, edge: ResolvedEdge, system: System) -> Mistake | None:
    """A drawn edge must part the room from outdoors; tell where it does not."""
    if edge.kind != "drawn" or made.outdoors:
        return None
    x = 0.0
    top, bottom = made.extent[3], max(0.0, edge.ground)
    shapes = [part for part in made.parts if part.priority < 0]
    for step in range(20):
        y = bottom + (top - bottom) * (step + 0.5) / 20
        if not any(
            min(p[1] for p in s.outline) <= y <= max(p[1] for p in s.outline)
            and min(p[0] for p in s.outline) <= x <= max(p[0] for p in s.outline)
            for s in shapes
        ):
            return Mistake(
                f"{edge.path}.shape",
                "",
                f"The room is open to outdoors {say.both(y, 'm', system)} above the floor.",
                f"Draw the wall up to {say.both(top, 'm', system)} above it; x = 0 is its face towards the room.",
            )
    return None
