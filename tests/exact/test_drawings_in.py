"""Drawings read, held to exact geometry: areas and lengths to a part in a thousand million, arcs as arcs."""

from __future__ import annotations

from math import cos, hypot, pi, radians, sin
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pytest import approx
from tests.drawings import FEET, FLOOR, METRES, MM, box, drawing, loose, ring, saved
from tests.outlines_at_random import plan

from underpour.outlines.floor import Floor
from underpour.outlines.outline import straight
from underpour.outlines.side import Side
from underpour.plan_file import Asked, read

EXACT = 1e-9


def test_a_polyline_with_a_half_round_end_has_the_area_of_both_parts(tmp_path: Path) -> None:
    """12 m by 8 m and half a circle of 4 m: 96 + 8 π m², 32 m of straight sides and 4 π m round."""
    made = drawing(MM)
    ring(made.modelspace(), [(0, 0), (12000, 0, 1.0), (12000, 8000), (0, 8000)])
    floor = read(saved(made, tmp_path / "a.dxf"), Asked()).floor
    assert floor.area == approx(96.0 + 8.0 * pi, rel=EXACT)
    assert floor.length == approx(32.0 + 4.0 * pi, rel=EXACT)


def test_loose_lines_and_an_arc_enclose_the_same(tmp_path: Path) -> None:
    made = drawing(METRES)
    place = made.modelspace()
    place.add_arc((12, 4), 4, -90, 90, dxfattribs=FLOOR)
    for ends in (((0, 8), (12, 8)), ((0, 0), (12, 0)), ((0, 8), (0, 0))):
        place.add_line(*ends, dxfattribs=FLOOR)
    found = read(saved(made, tmp_path / "a.dxf"), Asked())
    assert found.floor.area == approx(96.0 + 8.0 * pi, rel=EXACT)
    assert found.counted.joints == 4
    assert found.counted.widest < 1e-9


def test_a_circle_is_a_round_floor_and_a_round_column(tmp_path: Path) -> None:
    made = drawing(FEET)
    made.modelspace().add_circle((10, 10), 20, dxfattribs=FLOOR)
    made.modelspace().add_circle((12, 8), 0.5, dxfattribs={"layer": "Columns"})
    floor = read(saved(made, tmp_path / "a.dxf"), Asked()).floor
    assert floor.area == approx(pi * (20 * 0.3048) ** 2, rel=EXACT)
    assert floor.length == approx(2.0 * pi * 20 * 0.3048, rel=EXACT)
    (column,) = floor.obstacles
    assert (column.kind, column.circle) == ("column", True)
    assert column.at == approx((12 * 0.3048, 8 * 0.3048), rel=EXACT)
    assert column.size[0] == approx(0.3048, rel=EXACT)


@pytest.mark.parametrize("seed", range(12))
def test_outlines_and_holes_with_arcs_come_back_from_loose_lines_in_any_order(seed: int, tmp_path: Path) -> None:
    """Area and length of seeded stars with arcs, held to their own sums of triangles and segments."""
    rings = plan(seed).rings
    made = drawing(METRES)
    random = Random(seed)
    every = [side if random.random() < 0.5 else side.back() for each in rings for side in each.sides]
    random.shuffle(every)
    loose(made.modelspace(), every)
    floor = read(saved(made, tmp_path / "a.dxf"), Asked()).floor
    assert floor.area == approx(Floor(rings[0], rings[1:]).area, rel=EXACT)
    assert floor.length == approx(sum(each.length for each in rings), rel=EXACT)
    assert len(floor.holes) == len(rings) - 1


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    radii=st.lists(st.floats(2.0, 9.0), min_size=3, max_size=9),
    gap=st.floats(0.0, 9e-4),
    order=st.randoms(use_true_random=False),
)
def test_a_ring_of_loose_lines_is_found_whatever_their_order_and_direction(
    radii: list[float], gap: float, order: Random, tmp_path: Path
) -> None:
    """Each end is off its corner by less than half the gap that is closed; the area moves by less than that strip."""
    count = len(radii)
    corners = [(r * cos(2 * pi * n / count), r * sin(2 * pi * n / count)) for n, r in enumerate(radii)]
    whole = straight(corners)

    def off(point: tuple[float, float]) -> tuple[float, float]:
        turn = order.uniform(0.0, 2.0 * pi)
        return point[0] + 0.499 * gap * cos(turn), point[1] + 0.499 * gap * sin(turn)

    sides = [Side(off(side.start), off(side.end)) for side in whole.sides]
    sides = [side if order.random() < 0.5 else side.back() for side in sides]
    order.shuffle(sides)
    made = drawing(METRES)
    loose(made.modelspace(), sides)
    found = read(saved(made, tmp_path / "a.dxf"), Asked(layers=(("floor", ("floor-outline",)),)))
    assert len(found.floor.outline.sides) == count
    assert found.floor.area == approx(whole.area, abs=gap * whole.length + 1e-9)
    assert found.counted.widest <= gap + 1e-12
    shares = sorted(found.floor.outline.lengths)
    assert shares == approx(sorted(whole.lengths), abs=2.0 * gap + 1e-9)


def test_a_block_in_a_mirrored_block_keeps_its_arc_and_changes_its_side(tmp_path: Path) -> None:
    """An asymmetric floor with an arc, in a block turned and made larger in another that is mirrored.

    Held corner by corner to complex numbers: a turn is a factor, a mirror in the y axis is minus the conjugate. Area
    goes by the square of what the lengths go by, whichever way it lies.
    """
    corners = [(0.0, 0.0, 0.0), (6.0, 0.0, 0.4), (7.0, 3.0, 0.0), (2.0, 4.0, -0.3)]
    made = drawing(METRES)
    inner = made.blocks.new("inner", base_point=(1.0, 1.0))
    ring(inner, corners, layer="0")
    outer = made.blocks.new("outer", base_point=(0.5, -2.0))
    outer.add_blockref("inner", (3.0, 1.0), dxfattribs={"xscale": 1.5, "yscale": 1.5, "rotation": 30.0})
    put = {"xscale": -2.0, "yscale": 2.0, "rotation": 75.0, "layer": "floor-outline"}
    made.modelspace().add_blockref("outer", (20.0, 5.0), dxfattribs=put)
    found = read(saved(made, tmp_path / "a.dxf"), Asked())

    def lies(x: float, y: float) -> complex:
        in_outer = (complex(x, y) - complex(1, 1)) * 1.5 * complex(cos(radians(30)), sin(radians(30))) + complex(3, 1)
        from_base = in_outer - complex(0.5, -2.0)
        return -2.0 * from_base.conjugate() * complex(cos(radians(75)), sin(radians(75))) + complex(20, 5)

    own = found.floor.outline
    for side, (x, y, bulge) in zip(own.sides, corners, strict=True):
        assert complex(*side.start) == approx(lies(x, y), abs=1e-12)
        assert side.bulge == -bulge
    ends = zip(corners, [*corners[1:], corners[0]], strict=True)
    drawn = [Side((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in ends]
    assert own.area == approx(9.0 * abs(sum(side.turned_area for side in drawn)), rel=EXACT)
    assert own.length == approx(3.0 * sum(side.length for side in drawn), rel=EXACT)
    assert found.counted.mirrored == 2  # the outer one, and with it the inner one


def test_a_straight_floor_in_a_block_may_be_larger_one_way_than_the_other(tmp_path: Path) -> None:
    """Twice as long and turned: twice the area; a block in it is larger one way even after a turn, a parallelogram."""
    made = drawing(METRES)
    box(made.blocks.new("bay"), 0, 0, 5, 4, layer="0")
    turned = {"xscale": 1.0, "yscale": 1.0, "rotation": 30.0}
    made.blocks.new("wing").add_blockref("bay", (0, 0), dxfattribs=turned)
    put = {"xscale": 2.0, "yscale": 1.0, "rotation": 40.0, **FLOOR}
    made.modelspace().add_blockref("wing", (3, 1), dxfattribs=put)
    floor = read(saved(made, tmp_path / "a.dxf"), Asked()).floor
    along, up = hypot(2 * 5 * cos(pi / 6), 5 * sin(pi / 6)), hypot(2 * 4 * sin(pi / 6), 4 * cos(pi / 6))
    assert floor.area == approx(40.0, rel=EXACT)
    assert sorted(floor.outline.lengths) == approx(sorted([along, along, up, up]), rel=EXACT)


def test_what_was_drawn_on_a_plane_seen_from_below_lies_mirrored(tmp_path: Path) -> None:
    """Extrusion 0, 0, −1: x of the plan is minus x of the drawing, an arc's sweep turns right."""
    made = drawing(METRES)
    place = made.modelspace()
    below = {**FLOOR, "extrusion": (0, 0, -1)}
    place.add_arc((-12, 4), 4, 90, 270, dxfattribs=below)  # lies right of x = 12
    for ends in (((0, 8), (12, 8)), ((0, 0), (12, 0)), ((0, 8), (0, 0))):
        place.add_line(*ends, dxfattribs=FLOOR)
    ring(place, [(-5, 2), (-3, 2, 1.0), (-3, 4), (-5, 4)], extrusion=(0, 0, -1))
    floor = read(saved(made, tmp_path / "a.dxf"), Asked()).floor
    assert floor.area == approx(96.0 + 8.0 * pi - 4.0 - pi / 2.0, rel=EXACT)
    assert floor.holds((15.9, 4.0))
    assert not floor.holds((2.1, 3.0))  # the half round end of the hole


def test_rows_and_columns_of_a_block_stand_where_they_are_put(tmp_path: Path) -> None:
    made = drawing(METRES)
    box(made.modelspace(), 0, 0, 20, 12)
    post = made.blocks.new("post")
    post.add_circle((0, 0), 0.05)
    grid = {"row_count": 2, "column_count": 3, "row_spacing": 4.0, "column_spacing": 5.0, "rotation": 90.0}
    made.modelspace().add_blockref("post", (16, 1), dxfattribs={"layer": "posts", **grid})
    floor = read(saved(made, tmp_path / "a.dxf"), Asked()).floor
    wanted = [(16.0 - 4.0 * row, 1.0 + 5.0 * column) for row in range(2) for column in range(3)]
    assert sorted(each.at for each in floor.obstacles) == [approx(each) for each in sorted(wanted)]


@pytest.mark.parametrize(
    ("code", "metres"),
    [(1, 0.0254), (2, 0.3048), (4, 0.001), (5, 0.01), (6, 1.0), (10, 0.9144), (14, 0.1), (21, 1200 / 3937)],
)
def test_each_unit_of_a_header_is_what_it_is(code: int, metres: float, tmp_path: Path) -> None:
    made = drawing(code)
    box(made.modelspace(), 0, 0, 12 / metres, 5 / metres)
    found = read(saved(made, tmp_path / "a.dxf"), Asked())
    assert found.floor.area == approx(60.0, rel=1e-12)


def test_a_drawing_that_counts_from_a_survey_keeps_its_lengths(tmp_path: Path) -> None:
    """500 km east and 5,000 km north: a double there knows a nanometre, and x and y count from the floor's corner."""
    made = drawing(METRES)
    ring(made.modelspace(), [(5e5, 5e6), (5e5 + 12, 5e6, 1.0), (5e5 + 12, 5e6 + 8), (5e5, 5e6 + 8)])
    found = read(saved(made, tmp_path / "a.dxf"), Asked())
    assert found.floor.area == approx(96.0 + 8.0 * pi, rel=EXACT)
    assert found.floor.outline.corners[0] == (0.0, 0.0)
    assert found.origin == (5e5, 5e6)


def test_lines_of_an_edge_are_found_along_sides_and_parts_of_sides(tmp_path: Path) -> None:
    """A part of a straight side, a whole side drawn the other way round, and half of an arc."""
    made = drawing(METRES)
    place = made.modelspace()
    ring(place, [(0, 0), (12, 0, 1.0), (12, 8), (0, 8)])
    place.add_line((3, 0.004), (9, 0.004), dxfattribs={"layer": "edge-a"})
    place.add_line((0, 0), (0, 8), dxfattribs={"layer": "EDGE-B"})
    place.add_arc((12, 4), 4, -90, 0, dxfattribs={"layer": "edge-b"})
    edges = dict(read(saved(made, tmp_path / "a.dxf"), Asked()).edges)
    (door,) = edges["edge-a"]
    assert (door.ring, door.side, door.start, door.end) == (0, 1, approx(3.0), approx(9.0))
    half, whole = edges["edge-b"]
    assert (half.side, half.start, half.end) == (2, 0.0, approx(2.0 * pi))
    assert (whole.side, whole.start, whole.end) == (4, 0.0, 8.0)


def test_lines_that_lie_on_one_another_claim_their_side_once(tmp_path: Path) -> None:
    made = drawing(METRES)
    ring(made.modelspace(), [(0, 0), (12, 0), (12, 8), (0, 8)])
    for start, end in (((1, 0), (2, 0)), ((12, 1), (12, 4)), ((12, 6), (12, 3)), ((12, 7), (12, 7.5))):
        made.modelspace().add_line(start, end, dxfattribs={"layer": "edge-a"})
    ((_, stretches),) = read(saved(made, tmp_path / "a.dxf"), Asked()).edges
    assert [(each.side, each.start, each.end) for each in stretches] == [(1, 1.0, 2.0), (2, 1.0, 6.0), (2, 7.0, 7.5)]


def test_one_line_along_two_sides_gives_both(tmp_path: Path) -> None:
    made = drawing(METRES)
    ring(made.modelspace(), [(0, 0), (5, 0), (12, 0), (12, 8), (0, 8)])
    made.modelspace().add_line((2, 0), (12, 0), dxfattribs={"layer": "edge-a"})
    ((_, stretches),) = read(saved(made, tmp_path / "a.dxf"), Asked()).edges
    assert [(each.side, each.start, each.end) for each in stretches] == [(1, 2.0, 5.0), (2, 0.0, 7.0)]


def test_corners_in_figures_of_the_brief_are_those_of_the_drawing(tmp_path: Path) -> None:
    """What is put in the place of a typed outline is typed in twelve figures: a hundredth of a micrometre on 10 m."""
    from underpour.brief import reads
    from underpour.brief.plans import floor_of

    rings = plan(7).rings
    made = drawing(FEET)
    loose(made.modelspace(), [side for each in rings for side in each.sides])
    saved(made, tmp_path / "plan.dxf")
    text = (Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml").read_text("utf-8")
    head, _, rest = text.partition("[plan]")
    _, _, after = rest.partition("[floor]")
    brief = reads(f'{head}[plan]\ndxf = "plan.dxf"\n\n[floor]{_all_sides(after)}', str(tmp_path / "brief.toml")).brief
    floor = floor_of(brief.plan)
    assert brief.plan.unit == "ft"
    assert floor.area == approx(Floor(rings[0], rings[1:]).area * 0.3048**2, rel=EXACT)
    for side, drawn in zip(floor.outline.sides, read(tmp_path / "plan.dxf", Asked()).floor.outline.sides, strict=True):
        apart = hypot(side.start[0] - drawn.start[0], side.start[1] - drawn.start[1])
        assert apart < 1e-10
        assert side.bulge == approx(drawn.bulge, abs=1e-12)


def _all_sides(text: str) -> str:
    """The brief's tables from [floor] on, with its first edge for all sides and no other."""
    before, _, edges = text.partition("[[edge]]")
    first = edges.split("[[")[0]
    kept = "\n".join(line for line in first.splitlines() if not line.startswith("sides"))
    return f'{before}[[edge]]\nsides = "all"\n{kept}\n'
