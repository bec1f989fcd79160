"""The slab under one load as a plate: endless where it stands far from all edges, by elements where it does not."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ... import catalogue
from ...outlines.floor import Floor
from ...outlines.side import Side
from ...physics.domain import OutOfDomain
from ...physics.plates import concrete, felt, springs
from ...physics.plates.felt import Felt
from ...physics.plates.pads import over_pad
from ...physics.plates.plate import StillLifting
from ...physics.plates.slab import Pressed, Region, Ring, Slab
from ...resolve import Resolved, ResolvedEdge, ResolvedLoad, Support

ON_THE_SLAB = ("raft", "thickened-edge")  # edges whose wall stands on the slab
NEAR = 2.0  # radii of relative stiffness: nearer to an edge than that, a load feels it
ARC = 0.3  # m: an arc of the outline becomes straight pieces of about that length


@dataclass(frozen=True, slots=True)
class Plate:
    """What is carried, by which way of working it out."""

    felt: Felt
    radius: float  # of relative stiffness, m
    words: str  # "an endless plate on springs"
    near_edge: bool


def radius(support: Support, foundation: float) -> float:
    """Radius of relative stiffness of the floor's slab. [m]"""
    return float(springs.radius_of_relative_stiffness(_stiffness(support), foundation))


def modulus(support: Support) -> float:
    """Young's modulus of the slab's concrete. [Pa]"""
    return float(concrete.elasticity_aci(support.concrete.strength))


def slab_weight(support: Support) -> float:
    """Own weight of the slab. [Pa]"""
    density = catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    return support.concrete.thickness * density.value * 9.80665


def _stiffness(support: Support) -> float:
    poisson = catalogue.of_slabs("poisson").value
    return float(springs.plate_stiffness(modulus(support), support.concrete.thickness, poisson))


def counts_together(resolved: Resolved) -> bool:
    """Whether the plan says more of its loads than each does by itself: several places, joints, bays, ribs."""
    here = sum(load.place == "plan" and not load.missing and not load.before_pour for load in resolved.loads)
    walls = sum(edge.load is not None and edge.kind in ON_THE_SLAB for edge in resolved.edges)
    return here + walls > 1 or (here + walls == 1 and bool(resolved.joints or resolved.bays or resolved.ribs))


def by_itself(resolved: Resolved, load: ResolvedLoad) -> bool:
    """Whether a load is looked at alone as a check only, since the plate of the plan has it with all others."""
    return load.place == "plan" and counts_together(resolved)


def plate_under(resolved: Resolved, support: Support, load: ResolvedLoad, foundation: float) -> Plate | None:
    """What the slab feels of the load; None where the load turns the slab over, or reaches beside it."""
    far = radius(support, foundation)
    if endless_there(resolved, load, far):
        pressed = pressed_by(support, load)
        common = (support.concrete.thickness, modulus(support), catalogue.of_slabs("poisson").value, foundation)
        return Plate(felt.endless(pressed, *common), far, "a plate without edges, exact for its patches", False)
    slab, pressed = slab_under(resolved, support, load, foundation)
    try:
        if load.pad is not None:
            found = over_pad(slab, pressed, slab_weight(support))
            near = not _off_all_edges(resolved, load, far)
            return Plate(found, far, "a plate by elements, thicker below the load", near)
        found = felt.with_edges(slab, pressed, slab_weight(support))
    except (OutOfDomain, StillLifting):
        return None
    return Plate(found, far, "a plate by elements with its free edges", True)


def endless_there(resolved: Resolved, load: ResolvedLoad, far: float) -> bool:
    """Whether the slab below the load is like one without edges; ``far`` is the radius of relative stiffness."""
    return load.pad is None and _off_all_edges(resolved, load, far)


def _off_all_edges(resolved: Resolved, load: ResolvedLoad, far: float) -> bool:
    if load.place == "middle":
        return _roomy(resolved.plan.floor, far)
    if by_itself(resolved, load):
        return True  # a check only, on a slab without edges
    return load.place == "plan" and _off_edges(resolved.plan.floor, load) > NEAR * far


def slab_under(
    resolved: Resolved, support: Support, load: ResolvedLoad, foundation: float
) -> tuple[Slab, tuple[Pressed, ...]]:
    """The piece of slab that feels the load, with its free edges, and the load where it stands on that piece.

    A pad below it is the last of the parts in which the slab is thicker; far from edges the piece ends where nothing
    of the load is left.
    """
    pressed, far = pressed_by(support, load), radius(support, foundation)
    outline, holes, thickened, at = _piece(resolved, load, pressed, far)
    if load.pad is not None:
        if _off_all_edges(resolved, load, far):
            x, y = (abs(each) + felt.REACH * far for each in load.pad.outline[0])
            outline, holes, thickened, at = ((-x, -y), (x, -y), (x, y), (-x, y)), (), (), (0.0, 0.0)
        thickened = (*thickened, Region(_put(load.pad.outline, at), thickness_under(support, load)))
    moved = tuple(Pressed(_put(each.outline, at), each.pressure) for each in pressed)
    return plain_slab(support, foundation, outline, holes, thickened), moved


def thickness_under(support: Support, load: ResolvedLoad) -> float:
    """Of the concrete right below the load: of its pad, or of the slab. [m]"""
    slab = support.concrete.thickness
    return slab if load.pad is None else max(load.pad.thickness, slab)


def _put(ring: Ring, at: tuple[float, float]) -> Ring:
    return tuple((x + at[0], y + at[1]) for x, y in ring)


def plain_slab(
    support: Support,
    foundation: float,
    outline: Ring,
    holes: tuple[Ring, ...] = (),
    thickened: tuple[Region, ...] = (),
) -> Slab:
    """A piece of the floor's slab on one bed."""
    poisson = catalogue.of_slabs("poisson").value
    thickness = support.concrete.thickness
    return Slab(outline, thickness, modulus(support), poisson, foundation, holes=holes, thickened=thickened)


def pressed_by(support: Support, load: ResolvedLoad) -> tuple[Pressed, ...]:
    """What a load presses on the slab's plane with, seen from its own middle."""
    patches = tuple(Pressed(patch.outline, patch.pressure) for patch in load.patches)
    if load.length:
        return patches
    return tuple(felt.as_wide_as_felt(patch, thickness_under(support, load)) for patch in patches)


def _roomy(floor: Floor, far: float) -> bool:
    """Whether the middle of the floor lies further from its edges than they are felt."""
    return 2.0 * floor.area / floor.length > NEAR * far


def _off_edges(floor: Floor, load: ResolvedLoad) -> float:
    """How far the load stands from the nearest edge. [m]"""
    assert load.at is not None
    x, y = load.at
    corners = [(x + dx, y + dy) for patch in load.patches for dx, dy in patch.outline]
    return min(side.distance(corner) for ring in floor.rings for side in ring.sides for corner in corners)


def _piece(
    resolved: Resolved, load: ResolvedLoad, pressed: tuple[Pressed, ...], far: float
) -> tuple[Ring, tuple[Ring, ...], tuple[Region, ...], tuple[float, float]]:
    """Outline, holes and thickenings of the slab that is worked out, and where on it the load's middle stands."""
    corners = np.array([corner for each in pressed for corner in each.outline])
    low, high = corners.min(axis=0), corners.max(axis=0)
    reach = felt.REACH * far
    if load.place == "corner":
        x, y = float(high[0] - low[0]) + reach, float(high[1] - low[1]) + reach
        return ((0.0, 0.0), (x, 0.0), (x, y), (0.0, y)), (), (), (float(-low[0]), float(-low[1]))
    if load.place == "edge":
        edge = _thickened(resolved, load)
        depth, width = (edge.depth, edge.thickening.width) if edge and edge.thickening else (0.0, 0.0)
        along = float(np.abs(corners[:, 0]).max()) + reach
        outline, strip = felt.edge_strip(along, float(high[1] - low[1]) + reach, depth, width)
        return outline, (), strip, (0.0, float(-low[1]))
    floor = resolved.plan.floor
    ring = straightened(floor.outline.sides)
    holes = tuple(straightened(hole.sides) for hole in floor.holes)
    x0, x1 = min(x for x, _ in ring), max(x for x, _ in ring)
    y0, y1 = min(y for _, y in ring), max(y for _, y in ring)
    return ring, holes, (), load.at or ((x0 + x1) / 2.0, (y0 + y1) / 2.0)


def _thickened(resolved: Resolved, load: ResolvedLoad) -> ResolvedEdge | None:
    """The edge at which the load stands: the one it names, or the one that is thickened least."""
    named = next((edge for edge in resolved.edges if edge.letter == load.edge), None)
    if named is not None or load.edge:
        return named
    return min(resolved.edges, key=lambda edge: edge.depth if edge.thickening is not None else 0.0)


def thickened_there(resolved: Resolved, load: ResolvedLoad) -> bool:
    """Whether the edge at which the load stands is thickened."""
    edge = _thickened(resolved, load) if load.place == "edge" else None
    return edge is not None and edge.thickening is not None


def straightened(sides: tuple[Side, ...]) -> Ring:
    """Corners of an outline whose arcs are cut into straight pieces."""
    found = []
    for side in sides:
        pieces = max(1, round(side.length / ARC)) if side.bulge else 1
        found += [side.at(side.length * n / pieces) for n in range(pieces)]
    return tuple(found)
