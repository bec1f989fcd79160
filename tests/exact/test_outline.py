"""Outlines against areas and lengths worked by hand, and against what must hold for any of them."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from underpour.brief import reads
from underpour.brief.plans import floor_of
from underpour.brief.tables.plan import Plan
from underpour.outlines.outline import Outline, crossing, repeated, straight
from underpour.outlines.side import Side

Corners = list[tuple[float, float]]

ELL = [(0.0, 0.0), (40.0, 0.0), (40.0, 28.0), (24.0, 28.0), (24.0, 36.0), (0.0, 36.0)]


def test_the_area_of_an_ell_is_its_two_rectangles() -> None:
    assert straight(ELL).area == 40 * 28 + 24 * 8


def test_a_place_on_the_line_between_two_arcs_lies_inside_them() -> None:
    """A circle of two half circles: both meet in its middle line, which is none of its sides."""
    circle = Outline((Side((4.0, 0.0), (-4.0, 0.0), 1.0), Side((-4.0, 0.0), (4.0, 0.0), 1.0)))
    assert all(circle.holds((x, 0.0)) for x in (-3.9, -1.0, 0.0, 2.0, 3.9))
    assert not circle.holds((4.1, 0.0)) and not circle.holds((-4.1, 0.0))
    ear = Outline(
        (
            Side((0.0, 0.0), (4.0, 0.0), 0.5),
            *straight([(4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]).sides[:2],
            Side((0.0, 3.0), (0.0, 0.0)),
        )
    )
    assert ear.holds((2.0, 0.0)) and not ear.holds((5.0, 0.0))


def test_the_perimeter_of_an_ell_is_that_of_the_rectangle_round_it() -> None:
    assert straight(ELL).length == 2 * (40 + 36)


def test_a_triangle_of_three_four_and_five_has_area_six() -> None:
    corners = [(1.0, 1.0), (5.0, 1.0), (1.0, 4.0)]
    assert straight(corners).area == 6.0
    assert straight(corners).lengths == (4.0, 5.0, 3.0)


def test_corners_typed_clockwise_are_turned_and_sides_keep_their_numbers() -> None:
    clockwise = straight(ELL[::-1])
    turned, numbers = clockwise.anticlockwise()
    assert turned.turned_area > 0.0
    assert turned.corners[0] == clockwise.corners[0]
    assert turned.lengths == tuple(clockwise.lengths[number - 1] for number in numbers)


def test_corners_typed_anticlockwise_stay_as_they_are() -> None:
    assert straight(ELL).anticlockwise() == (straight(ELL), (1, 2, 3, 4, 5, 6))


@pytest.mark.parametrize(
    ("corners", "pair"),
    [
        ([(0, 0), (4, 3), (4, 0), (0, 3)], (1, 3)),  # a bow tie
        ([(0, 0), (4, 0), (4, 3), (2, 0), (0, 3)], (1, 3)),  # a corner on another side
        ([(0, 0), (4, 0), (2, 0), (2, 3)], (1, 2)),  # a side that runs back
        ([(2, 0), (2, 3), (0, 0), (4, 0)], (1, 3)),  # the same, over the first corner
        ([(0, 0), (6, 0), (6, 4), (4, 4), (4, 0), (2, 0), (2, 4), (0, 4)], (1, 4)),  # on the line of side 1
    ],
)
def test_an_outline_that_crosses_or_touches_itself_is_seen(corners: Corners, pair: tuple[int, int]) -> None:
    assert crossing(straight(corners)) == pair


def test_corners_along_one_straight_side_are_no_crossing() -> None:
    assert crossing(straight([(0, 0), (2, 0), (4, 0), (4, 3), (0, 3)])) is None


def test_tenths_of_a_foot_on_one_line_are_no_crossing() -> None:
    along = [(0.1 * n * 0.3048, 0.3 * n * 0.3048) for n in range(30)]
    assert crossing(straight([*along, (-5.0, along[-1][1])])) is None


def test_a_corner_typed_twice_is_seen() -> None:
    assert repeated([(0, 0), (4, 0), (4, 3), (0.000001, 0)]) == (1, 4)
    assert repeated(ELL) is None


@st.composite
def star(draw: st.DrawFn) -> Corners:
    """An outline round the origin: one corner in each of its directions, so it cannot cross itself."""
    radii = draw(st.lists(st.floats(1.0, 20.0), min_size=4, max_size=12))
    step = 2 * pi / len(radii)
    return [(radius * cos(n * step), radius * sin(n * step)) for n, radius in enumerate(radii)]


@given(star(), st.floats(-100, 100), st.floats(-100, 100))
def test_no_outline_round_a_point_crosses_itself_and_its_area_stays_when_moved(
    corners: Corners, right: float, up: float
) -> None:
    assert crossing(straight(corners)) is None
    moved = [(x + right, y + up) for x, y in corners]
    assert straight(moved).area == pytest.approx(straight(corners).area, rel=1e-9)
    assert straight(corners[::-1]).turned_area == pytest.approx(-straight(corners).turned_area, rel=1e-12)


@given(st.integers(4, 12), st.integers(0, 11), st.floats(1.0, 50.0))
def test_two_neighbours_that_change_places_are_seen(count: int, first: int, radius: float) -> None:
    """In a regular outline the sides before and after the two then cross, whichever two they are."""
    corners = [(radius * cos(2 * pi * n / count), radius * sin(2 * pi * n / count)) for n in range(count)]
    one, other = first % count, (first + 1) % count
    corners[one], corners[other] = corners[other], corners[one]
    assert crossing(straight(corners)) is not None


def plan(outline_typed: str, unit: str) -> Plan:
    return reads(
        f"""
        project = {{ use = "workshop" }}
        site = {{ place = "Duluth, MN" }}
        plan = {{ unit = "{unit}", outline = {outline_typed} }}
        floor = {{ build-up = [{{ concrete = "4 in" }}] }}
        edge = [{{ sides = "all", kind = "raft" }}]
        """
    ).brief.plan


def outline_of(typed: str, unit: str) -> Outline:
    return floor_of(plan(typed, unit)).outline


def test_corners_are_read_in_the_unit_of_the_plan() -> None:
    assert outline_of('["0 0", "10 0", "10 5", "0 5"]', "m").area == 50.0
    assert outline_of('["0 0", "10 0", "10 5", "0 5"]', "ft").area == pytest.approx(50.0 * 0.3048**2, rel=1e-12)


def test_corners_may_be_lengths_of_their_own() -> None:
    mixed = outline_of('["0 0", "5m 0", "500cm, 4 m", "0, 4 m"]', "ft")
    assert mixed.corners == ((0.0, 0.0), (5.0, 0.0), (5.0, 4.0), (0.0, 4.0))
