"""The floor's slab on its plan: outline, thickened edges, holes, joints and bays, and what stands where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist

import numpy as np
from numpy.typing import NDArray

from ... import catalogue
from ...design import stiffness
from ...outlines.floor import Stretch
from ...outlines.side import Point
from ...physics.plates import felt, joints
from ...physics.plates.slab import Joint, Pressed, Region, Ring, Slab, area, inside
from ...resolve import Bedded, Resolved, ResolvedEdge, ResolvedLoad, Support
from .bed import bed, unknown
from .plates import ON_THE_SLAB, modulus, radius, straightened, thickness_under

THROUGH = ("column", "pit")  # what stands in the floor on a footing of its own
SAME = 1e-9  # m
SMOOTH = 0.3  # sine of an angle between two sides, below which a wall that ends there ends in a step
AT_ONCE = 4  # chords of an arc on which a wall stands as one load


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the floor with all that carries it; without an outline it is the rest."""

    words: str  # "the floor", "bay 1", "the thickened edge A"
    support: Support
    outline: Ring | None
    thickness: float  # m
    path: str


@dataclass(frozen=True, slots=True)
class Placed:
    """What stands at a place on the plan."""

    words: str  # "load 1", "the wall at edge A"
    path: str
    standing: bool
    pressed: tuple[Pressed, ...]


def parts(resolved: Resolved, support: Support) -> tuple[Part, ...]:
    """The floor, its bays, ribs, thickened edges and the pads below loads; where they overlap the last one counts."""
    found = [Part("the floor", support, None, support.concrete.thickness, "floor.build-up")]
    for bay in resolved.bays:
        thickness = bay.support.concrete.thickness
        found.append(Part(f"bay {bay.number}", bay.support, bay.outline, thickness, bay.path))
    for rib in resolved.ribs:
        found.append(Part(f"rib {rib.number}", rib.support, rib.outline, rib.thickness, rib.path))
    for edge, stretch in _stretches(resolved):
        if edge.thickening is None:
            continue
        strip = _strip(resolved, stretch, _out(edge), edge.thickening.width - _out(edge))
        found.append(
            Part(f"the thickened edge {edge.letter}", _below_thickening(edge, support), strip, edge.depth, edge.path)
        )
    for load in resolved.loads:
        if load.pad is not None and load.at is not None:
            x, y = load.at
            ring = tuple((x + dx, y + dy) for dx, dy in load.pad.outline)
            thick = thickness_under(support, load)
            found.append(Part(f"the pad below load {load.number}", support, ring, thick, load.pad.paths[0]))
    return tuple(found)


def unknown_board(every: tuple[Part, ...], standing: bool) -> Bedded | None:
    """The first board of any part of which nobody knows how stiff it is."""
    return next((board for part in every if (board := unknown(part.support, standing)) is not None), None)


def placed(resolved: Resolved) -> tuple[Placed, ...]:
    """Loads at places on the plan, and walls that stand on the slab's own edge."""
    found = []
    for load in resolved.loads:
        if load.place == "plan" and not load.missing and not load.before_pour and load.at is not None:
            found.append(Placed(f"load {load.number}", load.path, load.standing, _pressed(load, resolved)))
    for edge in resolved.edges:
        strips = tuple(_wall(resolved, edge))
        if strips and edge.load is not None:
            found.append(Placed(f"the wall at edge {edge.letter}", edge.load.path, True, strips))
    return tuple(found)


def _pressed(load: ResolvedLoad, resolved: Resolved) -> tuple[Pressed, ...]:
    assert load.at is not None and resolved.support is not None
    x, y = load.at
    thickness = thickness_under(resolved.support, load)
    made = [Pressed(tuple((x + dx, y + dy) for dx, dy in patch.outline), patch.pressure) for patch in load.patches]
    return tuple(made if load.length else (felt.as_wide_as_felt(each, thickness) for each in made))


def _wall(resolved: Resolved, edge: ResolvedEdge) -> Iterator[Pressed]:
    """A wall on the slab's edge as strips, as wide as its layers are thick."""
    wide = _out(edge)
    if edge.load is None or edge.kind not in ON_THE_SLAB or wide <= 0.0:
        return
    for other, stretch in _stretches(resolved):
        if other is edge:
            line = _line(resolved, stretch)
            for first in range(0, len(line) - 1, AT_ONCE):
                piece = line[first : first + AT_ONCE + 1]
                ring = _beside(resolved, stretch, piece, wide, 0.0)
                force = edge.load.force * sum(dist(a, b) for a, b in pairwise(piece))
                yield Pressed(ring, force / abs(area(ring)))


def _out(edge: ResolvedEdge) -> float:
    """How far the slab reaches out below the wall that stands on its edge. [m]"""
    return sum(layer.thickness for layer in edge.above) if edge.kind in ON_THE_SLAB else 0.0


def _stretches(resolved: Resolved) -> Iterator[tuple[ResolvedEdge, Stretch]]:
    known = {edge.letter: edge for edge in resolved.edges}
    for on_plan in resolved.plan.edges:
        if on_plan.letter in known:
            for stretch in on_plan.stretches:
                yield known[on_plan.letter], stretch


def _line(resolved: Resolved, stretch: Stretch) -> tuple[Point, ...]:
    """A stretch of a side as the slab has it: straight, or an arc by the chords that ``straightened`` cuts it into."""
    side = resolved.plan.floor.side(stretch.ring, stretch.side)
    if not side.bulge:
        part = resolved.plan.floor.part(stretch)
        return part.start, part.end
    corners = [*straightened((side,)), side.end]
    step = side.length / (len(corners) - 1)

    def on_chord(distance: float) -> Point:
        n = min(int(distance / step), len(corners) - 2)
        share = distance / step - n
        (x0, y0), (x1, y1) = corners[n : n + 2]
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)

    between = [p for n, p in enumerate(corners) if stretch.start + SAME < n * step < stretch.end - SAME]
    return on_chord(stretch.start), *between, on_chord(stretch.end)


def _outwards(resolved: Resolved, stretch: Stretch, start: Point, end: Point) -> Point:
    """The way out of the floor at a straight piece of a stretch."""
    ring = resolved.plan.floor.rings[stretch.ring]
    turn = 1.0 if (ring.turned_area > 0.0) == (stretch.ring == 0) else -1.0
    length = dist(start, end)
    return turn * (end[1] - start[1]) / length, turn * (start[0] - end[0]) / length


def _strip(resolved: Resolved, stretch: Stretch, out: float, within: float) -> Ring:
    """Beside a stretch, so far out of the outline and so far in; at corners as far along as out."""
    line = list(_line(resolved, stretch))
    whole = resolved.plan.floor.side(stretch.ring, stretch.side)
    if stretch.start <= SAME:
        line[0] = _further(line[1], line[0], out)
    if stretch.end >= whole.length - SAME:
        line[-1] = _further(line[-2], line[-1], out)
    return _beside(resolved, stretch, line, out, within)


def _further(start: Point, end: Point, by: float) -> Point:
    """Beyond the end of a line."""
    share = by / dist(start, end)
    return end[0] + share * (end[0] - start[0]), end[1] + share * (end[1] - start[1])


def _beside(resolved: Resolved, stretch: Stretch, line: Sequence[Point], out: float, within: float) -> Ring:
    """Between the lines so far in and so far out of a line of the outline; where it bends they bend with it."""
    ways = [_outwards(resolved, stretch, start, end) for start, end in pairwise(line)]
    inner, outer = [], []
    for (x, y), before, after in zip(line, [ways[0], *ways], [*ways, ways[-1]], strict=True):
        by = 1.0 + before[0] * after[0] + before[1] * after[1]
        nx, ny = (before[0] + after[0]) / by, (before[1] + after[1]) / by
        inner.append((x - within * nx, y - within * ny))
        outer.append((x + out * nx, y + out * ny))
    return (*inner, *reversed(outer))


def _below_thickening(edge: ResolvedEdge, support: Support) -> Support:
    """What carries a thickened edge: foam below its bottom where there is some, and the ground."""
    below = tuple(piece.board for piece in edge.pieces if piece.face == "below-footing")
    boards = []
    for board in below:
        assert board.record is not None  # foam is always of a board
        same = next((each for each in support.boards if each.slice.record is board.record), None)
        known = stiffness(board.record)
        told = (*known.short, *known.long)
        boards.append(
            replace(same, slice=board)
            if same is not None
            else Bedded(
                board,
                known.passing,
                known.standing,
                tuple(dict.fromkeys(each for moduli in told for each in moduli.basis)),
                tuple(dict.fromkeys(path for moduli in told for path in moduli.rests_on)),
                False,
            )
        )
    return replace(support, boards=tuple(boards), loose=0.0, whole_weight=support.own_weight)


def outline(resolved: Resolved) -> Ring:
    """The slab's outline: the floor's, and out to the outer face of walls that stand on it; arcs by their chords."""
    sides = resolved.plan.floor.outline.sides
    reach = [0.0] * len(sides)
    for edge, stretch in _stretches(resolved):
        if stretch.ring == 0:
            reach[stretch.side - 1] = max(reach[stretch.side - 1], _out(edge))
    if not any(reach):
        return straightened(sides)
    lines = []
    for number, (side, out) in enumerate(zip(sides, reach, strict=True), start=1):
        stretch = Stretch(0, number, 0.0, side.length)
        for start, end in pairwise(_line(resolved, stretch)):
            nx, ny = _outwards(resolved, stretch, start, end)
            lines.append(((start[0] + out * nx, start[1] + out * ny), (-ny, nx), (nx, ny), out))
    found: list[Point] = []
    for (begins, way, outwards, out), (before, way_before, _, other) in zip(
        lines, [lines[-1], *lines[:-1]], strict=True
    ):
        cross = way_before[0] * way[1] - way_before[1] * way[0]
        if abs(cross) < (SMOOTH if out != other else 1e-6):  # a side that runs on, or nearly so where one reaches out
            along = way_before[0] * (begins[0] - before[0]) + way_before[1] * (begins[1] - before[1])
            found.append((before[0] + along * way_before[0], before[1] + along * way_before[1]))
            if abs((found[-1][0] - begins[0]) * outwards[0] + (found[-1][1] - begins[1]) * outwards[1]) > SAME:
                found.append(begins)
            continue
        share = ((begins[0] - before[0]) * way[1] - (begins[1] - before[1]) * way[0]) / cross
        found.append((before[0] + share * way_before[0], before[1] + share * way_before[1]))
    return tuple(found)


def slab(resolved: Resolved, every: tuple[Part, ...], standing: bool, end: str) -> Slab:
    """The slab on its bed, at one end ("soft" or "stiff") of how stiff that may be."""
    first = every[0]
    k = [float(getattr(bed(part.support, standing), end)) for part in every]
    others = tuple(zip(every[1:], k[1:], strict=True))
    floor = resolved.plan.floor
    obstacles = [each.outline for each in floor.obstacles if each.kind in THROUGH]
    far = radius(first.support, k[0])
    return Slab(
        outline(resolved),
        first.thickness,
        modulus(first.support),
        catalogue.of_slabs("poisson").value,
        k[0],
        holes=(*(straightened(hole.sides) for hole in floor.holes), *(straightened(each.sides) for each in obstacles)),
        thickened=tuple(
            Region(part.outline, part.thickness)
            for part, _ in others
            if part.outline is not None and abs(part.thickness - first.thickness) > SAME
        ),
        otherwise_borne=tuple(Region(part.outline, each) for part, each in others if part.outline is not None),
        joints=tuple(
            Joint(across, at, float(joints.stiffness_by_transfer(min(joint.share, 0.999), k[0], far)), low, high)
            for joint in resolved.joints
            for across, at, low, high in joint.lines
        ),
    )


def part_at(every: tuple[Part, ...], x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.int64]:
    """Which part each place lies in, (n,)."""
    found = np.zeros(len(x), np.int64)
    for n, part in enumerate(every):
        if part.outline is not None:
            found[inside([part.outline], x, y)] = n
    return found


def rim(resolved: Resolved, letter: str, apart: float) -> tuple[Point, ...]:
    """Places along one edge, just inside the floor. [m]"""
    found: list[Point] = []
    for edge, stretch in _stretches(resolved):
        if edge.letter != letter:
            continue
        side = resolved.plan.floor.part(stretch)
        count = max(int(side.length / apart), 1)
        for n in range(count):
            distance = side.length * (n + 0.5) / count
            x, y = side.at(distance)
            dx, dy = side.direction(distance)
            nx, ny = _outwards(resolved, stretch, (x, y), (x + dx, y + dy))
            found.append((x - 1e-6 * nx, y - 1e-6 * ny))
    return tuple(each for each in found if resolved.plan.floor.holds(each))


def both_sides(resolved: Resolved, apart: float) -> tuple[tuple[str, Point, Point], ...]:
    """For each joint, by its number, pairs of places at both sides of it. [m]"""
    corners = np.array(outline(resolved))
    (x0, y0), (x1, y1) = corners.min(axis=0), corners.max(axis=0)
    found: list[tuple[str, Point, Point]] = []
    for joint in resolved.joints:
        for across, at, low, high in joint.lines:
            start, end = (max(low, y0), min(high, y1)) if across == "x" else (max(low, x0), min(high, x1))
            count = max(int((end - start) / apart), 1)
            for n in range(count):
                along = start + (end - start) * (n + 0.5) / count
                pair = [(at + step, along) if across == "x" else (along, at + step) for step in (-1e-6, 1e-6)]
                if all(resolved.plan.floor.holds(point) for point in pair):
                    found.append((joint.number, pair[0], pair[1]))
    return tuple(found)
