"""What an edge loses beyond plain floor and plain wall: psi of every kind of edge, by inside and outside dimensions."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..outlines.outline import straight
from ..outlines.outside import outside
from ..physics import ground
from ..physics.conduction.solve import Told
from ..resolve import Resolved
from ..sections.parts import Section
from .basis import basis
from .by_formula import FloorByFormula, floor_beside, floor_by_formula, surface_films
from .solved import SolvedEdge, floor_faces, floor_rests_on, wall_faces

TITLE = "Linear thermal transmittance of the edge"
LEAST_APART = 1.0  # K between the two airs; with less there is nothing to divide by
CUT = 1e-6  # m below the top of a section, where the wall is cut


@dataclass(frozen=True)
class PlainWall:
    """A part of the wall in a section, as if nothing met it."""

    what: str  # "above", "in the ground"
    height: float  # m, inside dimensions
    transmittance: float  # W/(m²·K)
    resistance: float  # m²·K/W, layers alone


@dataclass(frozen=True)
class Plain:
    """What psi is taken against: floor and wall as the standards' formulas have them."""

    half_width: float  # m of floor in the section, inside dimensions: half of B
    by_formula: FloorByFormula
    walls: tuple[PlainWall, ...]  # from the top down
    outwards: float  # m from the floor's outline to the outside of the wall
    below: float  # m from the top of the floor to the underside of its slab and foam

    @property
    def floor(self) -> float:
        """U of the floor, ground included. [W/(m²·K)]"""
        return self.by_formula.transmittance

    @property
    def inside(self) -> float:
        """What plain floor and wall lose, inside dimensions. [W/(m·K)]"""
        return self.half_width * self.floor + sum(wall.height * wall.transmittance for wall in self.walls)

    @property
    def outside(self) -> float:
        """What they lose by outside dimensions: the floor reaches out, the wall down to its underside. [W/(m·K)]"""
        lowest = self.walls[-1].transmittance if self.walls else 0.0
        return self.inside + self.outwards * self.floor + self.below * lowest


@dataclass(frozen=True)
class Balance:
    """What a floor and its walls lose for the degrees beside each edge, part by part, in one convention. [W]"""

    area: float  # plain floor and wall
    edges: float  # psi times length
    corners: float  # what corners and arcs of the plan count twice, or not at all; 0 by inside dimensions

    @property
    def whole(self) -> float:
        return self.area + self.edges + self.corners


def linear_transmittance(resolved: Resolved, solved: SolvedEdge) -> Finding:
    """Linear thermal transmittance of one edge.

    Asks
        How much does this edge add to what the plain floor and wall would lose?
    Why
        Tools that reckon a whole building by areas ask for it, and say by which dimensions.
    Worked out
        Coupling of the section less plain floor (ISO 13370) and wall (ISO 6946), by inside and by outside dimensions.
    Holds for
        Gravel below the slab is counted as ground. An edge that is drawn has for its plain wall what the section's top
        cuts; of one on which no wall stands the floor alone is taken off.
    Source
        ISO 10211, wall and floor junction at the ground; ISO 13370 for U (both from memory).
    """
    beside = resolved.air_beside(solved.edge)
    apart = resolved.room.mean - beside.mean
    side = "outdoors" if solved.edge.beside is None else "beside"
    empty = Finding("heat.edge-psi", TITLE, None, "W/(m·K)", at={"edge": solved.edge.letter})
    if abs(apart) < LEAST_APART:
        words = "Room and air beside this edge are equally warm on the mean of the year; there is nothing to divide by."
        return Finding(
            empty.id, TITLE, None, empty.unit, at=empty.at, no_limit="does not apply", basis=_basis(), words=words
        )
    flow, plain = flow_of(solved), plain_parts(resolved, solved)
    coupling, floor = flow.mean / apart, plain.by_formula
    walls = tuple((wall.height, wall.transmittance) for wall in plain.walls)
    value = ground.edge_transmittance(coupling, plain.half_width, plain.floor, walls)
    outer = coupling - plain.outside
    inside_dimensions = "".join(f" − {fixed(h, 3)} × {fixed(u, 4)}" for h, u in walls)
    stretched = [*walls[:-1], (walls[-1][0] + plain.below, walls[-1][1])] if walls else []
    outside_dimensions = "".join(f" − {fixed(h, 3)} × {fixed(u, 4)}" for h, u in stretched)
    return Finding(
        empty.id,
        TITLE,
        value,
        empty.unit,
        at=empty.at,
        within=flow.within / abs(apart),
        basis=_basis(),
        rests_on=(*floor_rests_on(resolved), *solved.rests_on),
        steps=(
            Step(
                "L2D",
                f"flow of the section, floor and wall / (θ_room − θ_{side})",
                f"{fixed(flow.mean, 3)} / {fixed(apart, 2)}",
                f"{fixed(coupling, 4)} W/(m·K)",
            ),
            Step(
                "U_g",
                f"ISO 13370 floor for B, d, z; gravel counted as ground{_of_layers(resolved)}",
                f"B = {fixed(floor.dimension, 2)} m, d = {fixed(floor.thickness, 3)} m, z = {fixed(floor.depth, 2)} m"
                f"{_mean_of(resolved, floor.conductivity)}",
                f"{fixed(plain.floor, 4)} W/(m²·K)",
            ),
            *(_wall_step(wall) for wall in plain.walls),
            Step(
                "ψ",
                "L2D − B/2 × U_g − sum of height × U of the wall, inside dimensions",
                f"{fixed(coupling, 4)} − {fixed(plain.half_width, 3)} × {fixed(plain.floor, 4)}{inside_dimensions}",
                f"{fixed(value, 4)} W/(m·K)",
            ),
            Step(
                "ψ_e",
                "the same, outside dimensions: floor to the wall's outer face, wall down to the floor's underside",
                f"{fixed(coupling, 4)} − ({fixed(plain.half_width, 3)} + {fixed(plain.outwards, 3)}) × "
                f"{fixed(plain.floor, 4)}{outside_dimensions}",
                f"{fixed(outer, 4)} W/(m·K)",
            ),
        ),
        words=_words(plain, value, say.both(outer, "W/(m·K)", resolved.system)),
    )


def _basis() -> tuple[Basis, ...]:
    return (
        basis("iso-10211-2017", "10.4, wall and floor at the ground"),
        basis("iso-13370-2017", "U of floor and wall"),
    )


def _of_layers(resolved: Resolved) -> str:
    """Which conductivity stands for layered ground: ISO 13370:2017, 5.1 (from memory)."""
    return "; λ of the ground is the mean over the depth B below the floor" if len(resolved.strata) > 1 else ""


def _mean_of(resolved: Resolved, k: float) -> str:
    return f", λ = {fixed(k, 3)} W/(m·K)" if len(resolved.strata) > 1 else ""


def _wall_step(wall: PlainWall) -> Step:
    deep = wall.what != "above"
    return Step(
        "U_bw" if deep else "U_w",
        "ISO 13370 wall in the ground, for its height, d and the floor's d" if deep else "1 / (R_si + ΣR + R_se)",
        f"height {fixed(wall.height, 3)} m, ΣR = {fixed(wall.resistance, 3)} m²·K/W",
        f"{fixed(wall.transmittance, 4)} W/(m²·K)",
    )


def _words(plain: Plain, value: float, outer: str) -> str:
    sign = "Negative: this edge loses less than plain floor and wall would. " if value < 0.0 else ""
    against = "floor and wall" if plain.walls else "the floor alone, since no wall stands on this edge"
    return (
        f"{sign}By inside dimensions, against {against}; no inner walls are taken off, so overall inside dimensions "
        f"are the same. By outside dimensions it is {outer}."
    )


def flow_of(solved: SolvedEdge) -> Told:
    """Heat through floor and wall of one edge's section. [W/m]"""
    return solved.heat.flow(lambda faces: floor_faces(faces) | wall_faces(faces))


def plain_parts(resolved: Resolved, solved: SolvedEdge) -> Plain:
    """Floor and wall of one edge's section as the standards' formulas have them."""
    edge, at, films = solved.edge, solved.levels, surface_films()
    if edge.kind == "drawn":
        leaves = wall_at_the_cut(solved.section)
        r_wall = r_upper = sum((x1 - x0) / conductivity for x0, x1, conductivity in leaves)
        outwards = -min((x0 for x0, _, _ in leaves), default=0.0)
        floor = floor_beside(resolved, solved, sum(x1 - x0 for x0, x1, _ in leaves))
        has_upper = has_wall = bool(leaves)
    else:
        foam = sum(piece.board.resistance for piece in edge.pieces if piece.face in ("inside", "outside"))
        wall, upper = edge.wall or edge.above, edge.upper or edge.wall
        r_wall = sum(leaf.resistance for leaf in wall) + foam
        r_upper = sum(leaf.resistance for leaf in upper) + (foam if edge.kind == "footing-wall" else 0.0)
        outside_foam = sum(piece.board.thickness for piece in edge.pieces if piece.face == "outside")
        outwards = max(at.wall, -at.start) + outside_foam
        floor = floor_by_formula(resolved, solved)
        has_upper, has_wall = bool(upper), bool(wall)
    depth, k = floor.depth, floor.conductivity
    walls = []
    if has_upper:
        u_upper = 1.0 / (films["wall"] + r_upper + films["outdoors"])
        walls.append(PlainWall("above", at.top - depth, u_upper, r_upper))
    if depth > 0.0 and has_wall:
        deep = k * (films["wall"] + r_wall + films["outdoors"])
        u_deep = ground.basement_wall_transmittance(depth, floor.thickness, deep, k)
        walls.append(PlainWall("in the ground", depth, u_deep, r_wall))
    return Plain(at.half_width, floor, tuple(walls), outwards, -at.foam_bottom)


def wall_at_the_cut(section: Section) -> tuple[tuple[float, float, float], ...]:
    """The wall of a drawn edge where the section cuts it off: from and to in x [m], and conductivity [W/(m·K)].

    Of an edge that is drawn, that is the plain wall: what stands there is taken for all of its height.
    """
    y = section.extent[3] - CUT
    drawn = sorted((part for part in section.parts if part.priority < 0), key=lambda part: part.priority)
    outlines = [straight(part.outline) for part in drawn]
    places = sorted({x for part in drawn for x in _crossings(part.outline, y)})
    leaves = []
    for x0, x1 in pairwise(places):
        there = next(
            (part for part, ring in zip(drawn, outlines, strict=True) if ring.holds(((x0 + x1) / 2.0, y))), None
        )
        if there is not None:
            leaves.append((x0, x1, there.conductivity))
    return tuple(leaves)


def _crossings(outline: tuple[tuple[float, float], ...], y: float) -> list[float]:
    """Where the sides of an outline cross a level. [m]"""
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return [x0 + (y - y0) * (x1 - x0) / (y1 - y0) for (x0, y0), (x1, y1) in pairs if (y0 > y) != (y1 > y)]


def by_inside_dimensions(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Balance:
    """Area, edges and corners by inside dimensions, overall inside dimensions being the same here.

    The width of floor in every section is the floor's area over its exposed edge, so the strips make up the floor. A
    point where two edges meet adds nothing: ISO 14683 lets it be neglected, and B of ISO 13370 stands for the corners.
    """
    area = edges_sum = 0.0
    for solved in edges:
        plain, apart = plain_parts(resolved, solved), _apart(resolved, solved)
        area += plain.inside * apart * solved.edge.length
        edges_sum += (flow_of(solved).mean - plain.inside * apart) * solved.edge.length
    return Balance(area, edges_sum, 0.0)


def by_outside_dimensions(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Balance:
    """Area, edges and corners by outside dimensions.

    Areas and lengths run to the outer faces of the walls. Where walls meet at a corner, and round an arc, the outer
    faces are longer than the inner, or shorter where the floor turns in; psi and U times the difference is what the
    corners give back, so that the whole stays what it is.
    """
    of_edge = {solved.edge.letter: (solved, plain_parts(resolved, solved)) for solved in edges}
    placed = [(edge.letter, stretch) for edge in resolved.plan.edges for stretch in edge.stretches]
    walls = [of_edge[letter][1].outwards if letter in of_edge else 0.0 for letter, _ in placed]
    out = outside(resolved.plan.floor, [(stretch, wall) for (_, stretch), wall in zip(placed, walls, strict=True)])
    strips = sum((plain.half_width + plain.outwards) * solved.edge.length for solved, plain in of_edge.values())
    beyond = out.area - strips  # what the corners add to the floor beyond its strips, m²
    area = edges_sum = corners = 0.0
    for letter, (solved, plain) in of_edge.items():
        apart = _apart(resolved, solved)
        length = sum(metres for (of, _), metres in zip(placed, out.lengths, strict=True) if of == letter)
        beside = flow_of(solved).mean - plain.outside * apart  # psi by the degrees, W/m
        walls_alone = (plain.outside - (plain.half_width + plain.outwards) * plain.floor) * apart  # W/m
        own = beyond * solved.edge.length / resolved.perimeter  # m² of the corners' floor that this edge stands for
        strip = (plain.half_width + plain.outwards) * solved.edge.length
        area += (strip + own) * plain.floor * apart + walls_alone * length
        edges_sum += beside * length
        corners -= own * plain.floor * apart + (walls_alone + beside) * (length - solved.edge.length)
    return Balance(area, edges_sum, corners)


def _apart(resolved: Resolved, solved: SolvedEdge) -> float:
    return resolved.room.mean - resolved.air_beside(solved.edge).mean
