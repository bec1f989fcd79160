"""Floors with their sides moved: held to Steiner's formula, to circles, and to the outside dimensions of walls."""

from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from underpour.outlines.floor import Floor, Stretch
from underpour.outlines.moved import moved
from underpour.outlines.outline import Outline, straight
from underpour.outlines.outside import outside
from underpour.outlines.side import Side


def every(floor):
    return [
        Stretch(ring, n + 1, 0.0, side.length)
        for ring, outline in enumerate(floor.rings)
        for n, side in enumerate(outline.sides)
    ]


def by(floor, distance):
    return [(each, distance) for each in every(floor)]


L_SHAPE = [(0, 0), (12, 0), (12, 5), (7, 5), (7, 9), (0, 9)]


@pytest.mark.parametrize("turned", [1, -1])
@pytest.mark.parametrize("distance", [-0.4, 0.3])
def test_an_l_shape_moves_by_its_length_and_its_corners(turned, distance):
    """Five corners out and one in: area − L d + (5 − 1) d² for right angles, whichever way it was typed."""
    floor = Floor(straight(L_SHAPE[::turned]))
    made = moved(floor, by(floor, distance)).floor
    assert made.area == pytest.approx(floor.area - floor.length * distance + 4 * distance**2, rel=1e-12)


def test_a_round_floor_with_a_round_hole_keeps_its_circles():
    def circle(r):
        return Outline((Side((-r, 0.0), (r, 0.0), 1.0), Side((r, 0.0), (-r, 0.0), 1.0)))

    floor = Floor(circle(6.0), (circle(2.0),))
    made = moved(floor, by(floor, 0.5)).floor
    assert made.area == pytest.approx(pi * (5.5**2 - 2.5**2), rel=1e-12)
    assert made.outline.sides[0].radius == pytest.approx(5.5)


def test_a_half_round_end_meets_its_walls_where_their_lines_do():
    """A room of 6 by 8 m with a half circle at one end, 0.3 m out: a wider room with a larger half circle."""
    outline = Outline((Side((0, 0), (6, 0)), Side((6, 0), (6, 8)), Side((6, 8), (0, 8), 1.0), Side((0, 8), (0, 0))))
    floor = Floor(outline)
    made = moved(floor, by(floor, -0.3)).floor
    assert made.area == pytest.approx(6.6 * 8.3 + pi * 3.3**2 / 2.0, rel=1e-12)


def test_an_arc_that_meets_a_wall_at_a_slant_is_cut_where_it_meets_it():
    """A circle's segment: chord 8 m, rise 2 m, radius 5 m; only the chord moves in by 1 m and leaves a rise of 1 m."""
    from math import acos, sqrt

    floor = Floor(Outline((Side((0, 0), (8, 0)), Side((8, 0), (0, 0), 0.5))))
    stretches = every(floor)
    made = moved(floor, [(stretches[0], 1.0), (stretches[1], 0.0)]).floor
    r, h = 5.0, 1.0
    assert made.area == pytest.approx(r * r * acos((r - h) / r) - (r - h) * sqrt(2 * r * h - h * h), rel=1e-9)


def test_two_stretches_of_one_side_meet_in_a_step():
    floor = Floor(straight([(0, 0), (10, 0), (10, 6), (0, 6)]))
    stretches = [(Stretch(0, 1, 0.0, 4.0), -0.5), (Stretch(0, 1, 4.0, 10.0), 0.0)] + [
        (each, 0.0) for each in every(floor)[1:]
    ]
    made = moved(floor, stretches)
    assert made.floor.area == pytest.approx(60.0 + 4.0 * 0.5)
    assert [len(each) for each in made.stretches] == [2, 1, 1, 1, 1]
    assert sum(each.length for each in made.stretches[0]) == pytest.approx(4.5)


def test_a_strip_that_would_vanish_is_no_floor():
    floor = Floor(straight([(0, 0), (10, 0), (10, 1), (0, 1)]))
    assert moved(floor, by(floor, 0.6)) is None


def test_what_does_not_move_is_the_same_floor():
    floor = Floor(straight(L_SHAPE))
    made = moved(floor, by(floor, 0.0))
    assert made.floor == floor
    assert [each for (each,) in made.stretches] == every(floor)


@settings(max_examples=150, deadline=None)
@given(
    st.integers(3, 9),
    st.lists(st.floats(0.0, 0.5), min_size=9, max_size=9),
    st.lists(st.floats(0.75, 1.25), min_size=9, max_size=9),
)
def test_walls_of_any_thickness_reach_as_far_as_their_outside_dimensions_say(corners, walls, radii):
    """Two ways that share no line of code: corners met by lines here, lengths and areas by angles there."""
    points = [
        (10 * radii[n] * cos(2 * pi * n / corners), 10 * radii[n] * sin(2 * pi * n / corners)) for n in range(corners)
    ]
    floor = Floor(straight(points))
    stretches = every(floor)
    made = moved(floor, [(each, -wall) for each, wall in zip(stretches, walls, strict=False)])
    told = outside(floor, list(zip(stretches, walls, strict=False)))
    sharp = all(
        abs(turn) > 0.45 for turn in floor.outline.turns
    )  # else one ends in a step that the other counts otherwise
    if made is not None and sharp:
        assert made.floor.area == pytest.approx(told.area, rel=1e-9)
        assert [side.length for side in made.floor.outline.sides] == pytest.approx(list(told.lengths), rel=1e-9)
