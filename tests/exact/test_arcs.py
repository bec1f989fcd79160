"""Sides that are arcs: lengths, areas, corners and crossings against circles, and against fine polygons."""

from __future__ import annotations

from math import asin, cos, pi, radians, sin, sqrt
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from tests.outlines_at_random import star

from underpour.outlines.floor import Floor
from underpour.outlines.meeting import meet
from underpour.outlines.outline import Outline, crossing, straight
from underpour.outlines.side import Side, bulge_of_radius, bulge_through

QUARTER = sqrt(2.0) - 1.0  # bulge of a quarter circle
BULGES = st.floats(-8.0, 8.0).filter(lambda bulge: abs(bulge) > 1e-3)
POINTS = st.tuples(st.floats(-50.0, 50.0), st.floats(-50.0, 50.0))


def circle(radius: float, parts: int = 2) -> Outline:
    around = [(radius * cos(2 * pi * n / parts), radius * sin(2 * pi * n / parts)) for n in range(parts)]
    bulge = (1 - cos(pi / parts)) / sin(pi / parts)  # rise over half the chord
    return Outline(tuple(Side(a, b, bulge) for a, b in zip(around, [*around[1:], around[0]], strict=True)))


def chords(outline: Outline, parts: int) -> Outline:
    """The polygon through points of the sides."""
    return straight([side.at(side.length * n / parts) for side in outline.sides for n in range(parts)])


def bent(seed: int, bow: float) -> Outline:
    random = Random(seed)
    corners = star(random, (0.0, 0.0), 3.0, 8.0)
    return Outline(
        tuple(
            Side(a, b, random.choice((0.0, random.uniform(-bow, bow))))
            for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
        )
    )


@pytest.mark.parametrize("parts", [2, 3, 7])
def test_arcs_that_close_are_a_circle(parts: int) -> None:
    whole = circle(6.0, parts)
    assert whole.area == pytest.approx(pi * 36.0, rel=1e-14)
    assert whole.length == pytest.approx(2.0 * pi * 6.0, rel=1e-14)
    assert Floor(whole).corners == ()


def test_a_bay_of_eight_by_two_is_a_slice_of_a_circle_of_five() -> None:
    """r = (4² + 2²) / (2 · 2) = 5, half angle asin(4/5); the slice by integration of the circle over its chord."""
    bay = Side((0.0, 0.0), (8.0, 0.0), 0.5)
    assert bay.radius == 5.0
    assert bay.length == pytest.approx(2.0 * 5.0 * asin(0.8), rel=1e-14)
    area, _ = quad(lambda x: sqrt(25.0 - (x - 4.0) ** 2) - 3.0, 0.0, 8.0)
    assert bay.segment == pytest.approx(area, rel=1e-9)


def test_a_very_flat_arc_is_two_thirds_of_its_rectangle() -> None:
    """Archimedes: a parabola's slice is two thirds of chord times rise, and a flat arc is one to (rise/chord)²."""
    flat = Side((0.0, 0.0), (10.0, 0.0), 2e-3 / 5.0)  # rise 2 mm over 10 m
    assert flat.segment == pytest.approx(2.0 / 3.0 * 10.0 * 2e-3, rel=1e-6)


@pytest.mark.parametrize("seed", [*range(1, 31), *range(101, 131)])
def test_area_and_length_are_what_ever_finer_polygons_come_to(seed: int) -> None:
    """Polygons of n and 2n chords are off by 1/n²; the two together leave 1/n⁴."""
    outline = bent(seed, 0.9)
    coarse, fine = chords(outline, 256), chords(outline, 512)
    for name in ("turned_area", "length"):
        n, twice = getattr(coarse, name), getattr(fine, name)
        assert getattr(outline, name) == pytest.approx(twice + (twice - n) / 3.0, rel=1e-8)


@pytest.mark.parametrize("seed", range(1, 11))
def test_as_many_points_lie_inside_as_the_area_says(seed: int) -> None:
    """A net of points, each told by itself whether it lies inside; the net is off by a share of its border cells."""
    outline = bent(seed, 0.3)
    assert crossing(outline) is None
    step, start = 0.1, -12.037
    inside = sum(outline.holds((start + step * i, start + step * j)) for i in range(241) for j in range(241))
    assert inside * step * step == pytest.approx(outline.area, rel=0.01)


@pytest.mark.parametrize("seed", [*range(1, 31), *range(101, 131)])
def test_all_turns_round_an_outline_are_one_whole_turn(seed: int) -> None:
    """At the corners and along the arcs, of any outline that does not cross itself."""
    outline = bent(seed, 0.3)
    assert crossing(outline) is None
    assert sum(outline.turns) + sum(side.sweep for side in outline.sides) == pytest.approx(2.0 * pi, abs=1e-9)


@given(POINTS, POINTS, BULGES, st.floats(0.0, 1.0))
def test_a_side_runs_on_its_circle_from_end_to_end(
    start: tuple[float, float], end: tuple[float, float], bulge: float, share: float
) -> None:
    side = Side(start, end, bulge)
    if side.chord < 0.1:
        return
    x, y = side.at(share * side.length)
    cx, cy = side.centre
    assert sqrt((x - cx) ** 2 + (y - cy) ** 2) == pytest.approx(side.radius, rel=1e-6)
    assert side.at(side.length) == pytest.approx(end, abs=1e-7)
    assert side.distance((x, y)) < 1e-5
    left, right, low, high = side.box
    assert left - 1e-7 <= x <= right + 1e-7 and low - 1e-7 <= y <= high + 1e-7
    assert side.back().length == pytest.approx(side.length, rel=1e-12)
    assert side.back().segment == pytest.approx(-side.segment, rel=1e-12)


@given(POINTS, POINTS, BULGES, st.floats(0.05, 0.95))
def test_an_arc_is_known_by_any_point_on_it_and_its_parts_make_it(
    start: tuple[float, float], end: tuple[float, float], bulge: float, share: float
) -> None:
    side = Side(start, end, bulge)
    if side.chord < 0.1:
        return
    cut = share * side.length
    assert bulge_through(start, side.at(cut), end) == pytest.approx(bulge, rel=1e-5)
    first, last = side.part(0.0, cut), side.part(cut, side.length)
    assert first.length + last.length == pytest.approx(side.length, rel=1e-9)
    whole = Outline((first, last, side.back()))
    assert whole.turned_area == pytest.approx(0.0, abs=1e-6)


@given(st.floats(0.1, 100.0), st.floats(1.0, 50.0))
def test_the_shorter_arc_of_a_radius_has_that_radius(chord: float, over: float) -> None:
    bulge = bulge_of_radius(chord, over * chord / 2.0)
    assert 0.0 < bulge <= 1.0
    assert Side((0.0, 0.0), (chord, 0.0), bulge).radius == pytest.approx(over * chord / 2.0, rel=1e-9)


@pytest.mark.parametrize(
    ("what", "one", "other", "told"),
    [
        ("a line through a circle", Side((-2, 0), (2, 0)), Side((0, -1), (0, 1), 1.0), True),
        ("a line past the open half", Side((-2, 0), (0, 0)), Side((0, -1), (0, 1), 1.0), False),
        ("a line that touches", Side((1, -2), (1, 2)), Side((0, -1), (0, 1), 1.0), True),
        ("a line a hair off", Side((1.001, -2), (1.001, 2)), Side((0, -1), (0, 1), 1.0), False),
        ("circles that touch from outside", Side((0, -1), (0, 1), 1.0), Side((2, 1), (2, -1), 1.0), True),
        ("circles that touch from inside", Side((0, -1), (0, 1), 1.0), Side((0.5, -0.5), (0.5, 0.5), 1.0), True),
        ("circles about one middle", Side((0, -1), (0, 1), 1.0), Side((0, -2), (0, 2), 1.0), False),
        ("arcs of one circle, apart", Side((0, -1), (1, 0), QUARTER), Side((0, 1), (-1, 0), QUARTER), False),
        ("arcs of one circle, one over the other", Side((0, -1), (0, 1), 1.0), Side((1, 0), (-1, 0), 1.0), True),
        ("circles far apart", Side((0, -1), (0, 1), 1.0), Side((9, 1), (9, -1), 1.0), False),
    ],
)  # fmt: skip
def test_sides_that_meet_are_seen(what: str, one: Side, other: Side, told: bool) -> None:
    assert meet(one, other) is told, what
    assert meet(other, one) is told, what


def test_neighbours_that_meet_again_beyond_their_corner_are_seen() -> None:
    bow = Side((0.0, 0.0), (4.0, 0.0), 0.5)
    assert meet(bow, Side((4.0, 0.0), (0.0, -1.5)), ((4.0, 0.0),)), "the line leaves through the arc's side"
    assert not meet(bow, Side((4.0, 0.0), (4.0, 3.0)), ((4.0, 0.0),))
    assert meet(bow, bow.back(), (bow.start, bow.end)), "an arc there and back"
    assert not meet(bow, Side(bow.end, bow.start), (bow.start, bow.end)), "an arc and its chord"


def test_a_side_that_leaves_along_an_arcs_tangent_is_no_crossing() -> None:
    """A round end: two straight sides and two half circles, each straight on at its corners."""
    stadium = Outline(
        (
            Side((0.0, 0.0), (30.0, 0.0)),
            Side((30.0, 0.0), (30.0, 10.0), 1.0),
            Side((30.0, 10.0), (0.0, 10.0)),
            Side((0.0, 10.0), (0.0, 0.0), 1.0),
        )
    )
    assert crossing(stadium) is None
    assert stadium.area == pytest.approx(300.0 + 25.0 * pi, rel=1e-14)
    assert Floor(stadium).corners == ()


@pytest.mark.parametrize("seed", range(1, 201))
def test_crossings_are_those_of_a_fine_polygon(seed: int) -> None:
    """Half of these outlines cross themselves: arcs bow far, in and out. A crossing by a corner needs finer chords."""
    outline = bent(seed, 1.6)
    told = crossing(outline) is not None
    seen = crossing(chords(outline, 96)) is not None
    assert told == (seen or (told and crossing(chords(outline, 2000)) is not None))


def test_corners_turn_by_their_angle_inside_the_floor() -> None:
    """An ell with a square court: six corners of 90 or 270 degrees, and the court's all turn in on the floor."""
    ell = straight([(0, 0), (40, 0), (40, 28), (24, 28), (24, 36), (0, 36)])
    court = straight([(4, 4), (4, 10), (10, 10), (10, 4)])
    corners = Floor(ell, (court,)).corners
    assert [round(corner.angle) for corner in corners if corner.ring == 0] == [90, 90, 90, 270, 90, 90]
    assert [round(corner.angle) for corner in corners if corner.ring == 1] == [270] * 4
    assert [corner.number for corner in corners if corner.reentrant and corner.ring == 0] == [4]
    assert Floor(ell.anticlockwise()[0]).corners == Floor(ell).corners
    mirrored = Floor(straight([(-x, y) for x, y in ell.corners]))
    assert [round(corner.angle) for corner in mirrored.corners] == [90, 90, 90, 270, 90, 90]


def test_a_corner_between_arc_and_wall_turns_by_the_arcs_tangent() -> None:
    """A half disc meets its straight side square; a slice of r = 5 on a chord of 8 at asin(0.8)."""
    half = Floor(Outline((Side((0, 0), (0, 6), 1.0), Side((0, 6), (0, 0)))))
    assert [corner.angle for corner in half.corners] == pytest.approx([90.0, 90.0])
    thin = Floor(Outline((Side((0, 0), (8, 0), 0.5), Side((8, 0), (0, 0)))))
    assert [radians(corner.angle) for corner in thin.corners] == pytest.approx([asin(0.8)] * 2)
