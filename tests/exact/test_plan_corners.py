"""Plain floor and wall, edges and corners of the plan make up the whole, by inside and by outside dimensions.

Outside dimensions are found a second way here: every arc as many chords, every chord moved out with its wall, the
moved lines met, and the area of what they enclose summed from corner to corner.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi
from pathlib import Path
from random import Random
from types import SimpleNamespace
from typing import Any

import pytest
from pytest import approx
from tests.outlines_at_random import plan as random_plan

from underpour.brief import read, reads
from underpour.checks.edge_psi import Balance, by_inside_dimensions, by_outside_dimensions, linear_transmittance
from underpour.checks.edge_psi import plain_parts as plain_of
from underpour.checks.solved import SolvedEdge, floor_faces, summed, wall_faces
from underpour.cut import sketched_edges
from underpour.outlines.floor import Floor, Stretch
from underpour.outlines.outline import straight
from underpour.outlines.outside import MITRED, outside
from underpour.outlines.side import Side
from underpour.physics.conduction.solve import Told
from underpour.resolve import Resolved, resolve
from underpour.sections.levels import levels

EXAMPLES = Path(__file__).parents[2] / "examples"
SEEDS = [*range(1, 31), *range(101, 131)]
BRIEF = """
[project]
use = "dwelling"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
[floor]
inside = "68 F"
build-up = [{ concrete = "4 in" }, { board = "plain-25", thickness = "2 in" }]
[[edge]]
sides = "rest"
kind = "frost-wall"
depth = "60 in"
insulation = [{ board = "plain-25", thickness = "2 in", face = "outside", down = "36 in" }]
[[edge]]
sides = [1, { side = 3, to = "1 m" }]
kind = "raft"
[[edge]]
sides = [2]
kind = "raft"
beside = "45 F"
"""
SQUARE = '[plan]\nunit = "m"\noutline = ["0 0", "10 0", "10 10", "0 10"]\n'
ALL_ROUND = BRIEF.partition("[[edge]]\nsides = [1")[0].replace('"rest"', '"all"')
CHORDS = 600

Point = tuple[float, float]


def unsolved(made: Resolved, seed: int) -> tuple[SolvedEdge, ...]:
    """Edges whose sections are not solved: each is told some flow, for the balance must hold whatever it is."""
    random = Random(seed)
    return tuple(_unsolved(made, edge, random.uniform(-5.0, 40.0)) for edge in made.edges)


def _unsolved(made: Resolved, edge: Any, flow: float) -> SolvedEdge:
    heat: Any = SimpleNamespace(flow=lambda chosen: Told(flow, 0j, 0.0))
    return SolvedEdge(edge, SimpleNamespace(), levels(made, edge), heat, heat)  # type: ignore[arg-type]


def chords(side: Side) -> list[Point]:
    """Closer towards the ends, so that the first and the last point along the arc there."""
    many = CHORDS if side.bulge else 1
    return [side.at(side.length * (1.0 - cos(pi * n / many)) / 2.0) for n in range(many)] + [side.end]


def moved_out(floor: Floor, walls: dict[tuple[int, int], list[tuple[Stretch, float]]]) -> tuple[dict, float]:
    """Length of each stretch along its outer face, and the whole area inside of the outer faces. [m, m²]"""
    lengths: dict[Stretch, float] = {}
    area = 0.0
    for ring, outline in enumerate(floor.rings):
        out = 1.0 if (outline.turned_area > 0.0) == (ring == 0) else -1.0  # to the right of the way, or to the left
        moved: list[tuple[Stretch, Point, Point]] = []
        away: list[tuple[Point, Point, float]] = []  # of each chord where it ends, the way out, and the wall
        for number in range(1, len(outline.sides) + 1):
            for stretch, wall in sorted(walls[ring, number], key=lambda each: each[0].start):
                for (x0, y0), (x1, y1) in pairwise(chords(floor.part(stretch))):
                    long = hypot(x1 - x0, y1 - y0)
                    nx, ny = (y1 - y0) * out / long, (x0 - x1) * out / long
                    moved.append((stretch, (x0 + wall * nx, y0 + wall * ny), (x1 + wall * nx, y1 + wall * ny)))
                    away.append(((x1, y1), (nx, ny), wall))
        corners = []
        for n in range(len(moved)):
            after = (n + 1) % len(moved)
            meeting = _met(moved[n][1:], moved[after][1:])
            corners += [meeting, meeting] if meeting else _step(away[n], away[after])
        corners = [corners[-1], *corners[:-1]]
        for (stretch, start, end), a, b in zip(moved, corners[::2], corners[1::2], strict=True):
            along = ((b[0] - a[0]) * (end[0] - start[0]) + (b[1] - a[1]) * (end[1] - start[1])) / hypot(
                end[0] - start[0], end[1] - start[1]
            )
            lengths[stretch] = lengths.get(stretch, 0.0) + along
        enclosed = 0.5 * sum(
            a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
        )
        area += enclosed * (1.0 if outline.turned_area > 0.0 else -1.0) * (1.0 if ring == 0 else -1.0)
    return lengths, area


def _met(one: tuple[Point, Point], other: tuple[Point, Point]) -> Point | None:
    """Where two lines meet; None where they turn little."""
    ((ax, ay), (bx, by)), ((cx, cy), (dx, dy)) = one, other
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    turned = atan2(ux * vy - uy * vx, ux * vx + uy * vy)
    if abs(degrees(turned)) < MITRED:
        return None
    t = ((cx - ax) * vy - (cy - ay) * vx) / (ux * vy - uy * vx)
    return ax + t * ux, ay + t * uy


def _step(one: tuple[Point, Point, float], other: tuple[Point, Point, float]) -> list[Point]:
    """Where each of two walls ends at the line that halves the corner between them."""
    (corner, (ax, ay), wall), (_, (bx, by), next_wall) = one, other
    over = 1.0 + ax * bx + ay * by
    return [(corner[0] + (ax + bx) * w / over, corner[1] + (ay + by) * w / over) for w in (wall, next_wall)]


def of_seed(seed: int) -> Resolved:
    return resolve(reads(f"{random_plan(seed).text}{BRIEF}").brief)


@pytest.mark.parametrize("seed", SEEDS)
def test_outside_dimensions_are_those_of_the_moved_lines(seed: int) -> None:
    """Derived, to a tenth of a millimetre."""
    made = of_seed(seed)
    thick = {"A": 0.3, "B": 0.14, "C": 0.2}
    placed = [(stretch, thick[edge.letter]) for edge in made.plan.edges for stretch in edge.stretches]
    walls: dict[tuple[int, int], list[tuple[Stretch, float]]] = {}
    for stretch, wall in placed:
        walls.setdefault((stretch.ring, stretch.side), []).append((stretch, wall))
    lengths, area = moved_out(made.plan.floor, walls)
    found = outside(made.plan.floor, placed)
    assert found.area == approx(area, rel=1e-5)
    for (stretch, _), length in zip(placed, found.lengths, strict=True):
        assert length == approx(lengths[stretch], rel=0.0, abs=1e-4)


@pytest.mark.parametrize("seed", SEEDS)
def test_area_edges_and_corners_are_the_whole_by_either_dimensions(seed: int) -> None:
    made = of_seed(seed)
    edges = unsolved(made, seed)
    whole = sum(solved.heat.flow(floor_faces).mean * solved.edge.length for solved in edges)
    inside, out = by_inside_dimensions(made, edges), by_outside_dimensions(made, edges)
    assert inside.whole == approx(whole, rel=1e-9, abs=1e-6)
    assert out.whole == approx(whole, rel=1e-9, abs=1e-6)
    assert inside.corners == 0.0
    assert abs(out.edges - inside.edges) > 1.0 and abs(out.area - inside.area) > 1.0


def square(flow: float) -> tuple[Resolved, tuple[SolvedEdge, ...]]:
    made = resolve(reads(SQUARE + ALL_ROUND).brief)
    return made, (_unsolved(made, made.edges[0], flow),)


def test_the_parts_of_a_square_are_what_paper_makes_of_them() -> None:
    """10 x 10 m, 0.2508 m of wall and foam: 10.5016 m a side outside. Derived."""
    made, edges = square(30.0)
    plain, apart = plain_of(made, edges[0]), made.room.mean - made.outdoor_mean
    wall = 0.2 + 0.0508
    assert plain.outwards == approx(wall)
    assert plain.below == approx(0.1016 + 0.0508)
    psi_out = 30.0 / apart - (2.5 + wall) * plain.floor - (1.0 + plain.below) * plain.walls[0].transmittance
    out = by_outside_dimensions(made, edges)
    side = 10.0 + 2.0 * wall
    up = (1.0 + plain.below) * plain.walls[0].transmittance
    assert out.area == approx((side**2 * plain.floor + 4.0 * side * up) * apart)
    assert out.edges == approx(4.0 * side * psi_out * apart)
    each = -wall * (2.0 * 30.0 / apart - (5.0 + wall) * plain.floor)
    assert out.corners == approx(4.0 * each * apart)


def test_a_round_floor_has_no_corners_and_its_wall_is_longer_outside() -> None:
    """Radius 5 m, wall 0.3 m: 2 pi 5.3 m, and pi 5.3² m². Derived."""
    circle = [(-5.0, 0.0), (5.0, 0.0)]
    from underpour.outlines.outline import Outline

    floor = Floor(Outline((Side(circle[0], circle[1], 1.0), Side(circle[1], circle[0], 1.0))))
    found = outside(floor, [(Stretch(0, n, 0.0, 5.0 * pi), 0.3) for n in (1, 2)])
    assert found.lengths == (approx(5.3 * pi), approx(5.3 * pi))
    assert found.area == approx(pi * 5.3**2)


def test_a_hole_and_a_corner_that_turns_in_are_shorter_outside() -> None:
    """A court of 4 m a side: its walls stand in the court. An L: five corners out, one in. Derived."""
    ring = straight([(0, 0), (10, 0), (10, 10), (0, 10)])
    court = straight([(3, 3), (7, 3), (7, 7), (3, 7)])
    stretches = [(Stretch(r, n, 0.0, (10.0, 4.0)[r]), 0.5) for r in (0, 1) for n in (1, 2, 3, 4)]
    found = outside(Floor(ring, (court,)), stretches)
    assert found.lengths == tuple(approx(each) for each in [11.0] * 4 + [3.0] * 4)
    assert found.area == approx(121.0 - 9.0)
    shape = straight([(0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)])
    sides = [(Stretch(0, n, 0.0, length), 0.5) for n, length in enumerate(shape.lengths, start=1)]
    assert outside(Floor(shape), sides).lengths == tuple(approx(each) for each in (11, 5, 6, 6, 5, 11))


def test_walls_of_two_thicknesses_meet_where_their_outer_faces_do() -> None:
    """A party wall takes nothing: beside it the other walls end at the inner face. Derived."""
    floor = Floor(straight([(0, 0), (10, 0), (10, 10), (0, 10)]))
    found = outside(floor, [(Stretch(0, n, 0.0, 10.0), wall) for n, wall in ((1, 0.4), (2, 0.2), (3, 0.0), (4, 0.2))])
    assert found.lengths == tuple(approx(each) for each in (10.4, 10.4, 10.4, 10.4))
    assert found.area == approx(10.4 * 10.4)
    split = [(Stretch(0, 1, 0.0, 4.0), 0.4), (Stretch(0, 1, 4.0, 10.0), 0.2)]
    rest = [(Stretch(0, n, 0.0, 10.0), 0.2) for n in (2, 3, 4)]
    stepped = outside(floor, [*split, *rest])
    assert stepped.lengths[:2] == (approx(4.2), approx(6.2))
    assert stepped.area == approx(10.4**2 + 4.2 * 0.2)


@pytest.mark.parametrize("name", ["court-and-bay-house", "daylight-basement", "drawn-haunch", "free-edge-warehouse"])
def test_the_whole_is_what_the_sections_lose(name: str) -> None:
    """Solved: floor and wall of every section times its length. The two psi are not the same, the whole is."""
    made = resolve(read(EXAMPLES / name / "brief.toml").brief)
    edges = sketched_edges(made)
    whole = summed(edges, floor_faces).mean + summed(edges, wall_faces).mean
    parts: list[Balance] = [by_inside_dimensions(made, edges), by_outside_dimensions(made, edges)]
    assert [each.whole for each in parts] == [approx(whole, rel=1e-9)] * 2
    for solved in edges:
        plain = plain_of(made, solved)
        told = linear_transmittance(made, solved)
        inside, out = (float(step.result.partition(" ")[0].replace("−", "-")) for step in told.steps[-2:])
        assert told.value == approx(inside, abs=6e-5)
        assert inside - out == approx(plain.outside - plain.inside, abs=2e-4)
        assert (inside == out) == (plain.outwards == 0.0 and not plain.walls)


def test_a_wall_drawn_by_hand_has_the_psi_of_the_same_wall_by_its_kind() -> None:
    """A raft, then the same bodies as shapes of a drawn edge."""
    raft = resolve(reads(SQUARE + RAFT).brief)
    drawn = resolve(reads(SQUARE + RAFT.replace('kind = "raft"', 'kind = "drawn"').replace(ABOVE, SHAPES)).brief)
    one, other = (linear_transmittance(each, sketched_edges(each)[0]) for each in (raft, drawn))
    assert one.value is not None and other.value is not None
    assert other.value == approx(one.value, abs=2e-3)
    u_one, u_other = (next(step for step in found.steps if step.symbol == "U_w") for found in (one, other))
    assert u_one == u_other


ABOVE = 'above = [{ timber-frame = "140 mm" }, { masonry = "100 mm" }]'
RAFT = f"""
[project]
use = "dwelling"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
[floor]
inside = "68 F"
build-up = [{{ concrete = "100 mm" }}]
[[edge]]
sides = "all"
kind = "raft"
ground = "-100 mm"
{ABOVE}
"""
SHAPES = """
[[edge.shape]]
unit = "mm"
outline = ["-240 -100", "0 -100", "0 0", "-240 0"]
material = "concrete"
[[edge.shape]]
unit = "mm"
outline = ["-140 0", "0 0", "0 1000", "-140 1000"]
material = "timber-frame"
[[edge.shape]]
unit = "mm"
outline = ["-240 0", "-140 0", "-140 1000", "-240 1000"]
material = "masonry"
"""


@pytest.mark.parametrize("apart", [0.4, -0.4])
def test_air_as_warm_as_the_room_leaves_nothing_to_divide_by(apart: float) -> None:
    made, edges = square(3.0)
    made = replace(made, room=replace(made.room, mean=made.outdoor_mean + apart))
    told = linear_transmittance(made, edges[0])
    assert (told.value, told.verdict) == (None, "does not apply")
    assert told.words.endswith("there is nothing to divide by.")


def test_a_slanted_wall_is_cut_at_the_top_of_the_section() -> None:
    """A leaf that leans: 0.3 m thick at the floor, 0.1 m at the cut, 1 m up. Derived."""
    from underpour.checks.edge_psi import wall_at_the_cut

    part = SimpleNamespace(
        outline=((-0.3, 0.0), (0.0, 0.0), (0.0, 1.0), (-0.1, 1.0)),
        priority=-999,
        conductivity=0.5,
        path="edge.A.shape.1",
    )
    cut: Any = SimpleNamespace(parts=(part,), extent=(-10.0, 5.0, -10.0, 1.0))
    ((x0, x1, conductivity),) = wall_at_the_cut(cut)
    assert (x0, x1, conductivity) == (approx(-0.1, abs=1e-5), 0.0, 0.5)
