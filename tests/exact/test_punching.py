"""Perimeters of punching: geometry two ways, and which of them is the worst."""

from itertools import pairwise
from math import hypot, inf, pi

import pytest

from underpour.physics.domain import OutOfDomain
from underpour.physics.plates.plain import (
    bending_aci,
    crushing_en,
    in_bending_en,
    punching_aci,
    punching_en,
    tension_en,
)
from underpour.physics.plates.punching import perimeters

PSI = 6894.757293168


@pytest.mark.parametrize("n", range(4))
@pytest.mark.parametrize("rounded", [True, False])
def test_what_a_perimeter_gains_by_moving_out_is_its_own_length(n, rounded):
    """dA = u da, whether its corners are round or straight, and whether it is closed or ends at edges."""
    step = 1e-6

    def at(off):
        return perimeters(0.3, 0.2, off, 0.05, 0.08, rounded)[n]

    gained = (at(0.15 + step).area - at(0.15 - step).area) / (2.0 * step)
    assert gained == pytest.approx(at(0.15).length, rel=1e-6)


def test_a_perimeter_drawn_point_by_point_has_that_length():
    """The closed one with rounded corners, and the one that ends at two edges, as strings of short straight pieces."""
    from math import cos, sin

    length, width, off, along, across = 0.3, 0.2, 0.12, 0.05, 0.08
    turn = [pi / 2.0 * n / 400 for n in range(401)]
    corner = [(length + off * cos(a), width + off * sin(a)) for a in turn]
    drawn = [(length + off, -across), *corner, (-along, width + off)]
    found = sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(drawn))
    assert perimeters(length, width, off, along, across, True)[3].length == pytest.approx(found, rel=1e-5)
    closed = 2.0 * (length + width) + 4.0 * sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(corner))
    assert perimeters(length, width, off, round_corners=True)[0].length == pytest.approx(closed, rel=1e-5)


def test_a_load_far_from_an_edge_is_punched_out_whole_and_one_beside_it_towards_it():
    def worst(along):
        return min(perimeters(0.2, 0.2, 0.1, along), key=lambda each: each.length).edges

    assert worst(inf) == worst(5.0) == 0
    assert worst(0.0) == worst(0.1) == 1
    turns = 0.2 + 2.0 * 0.1  # closed 1.6 m; towards the edge 1.0 m and twice how far that is
    assert perimeters(0.2, 0.2, 0.1, 0.3)[1].length == pytest.approx(perimeters(0.2, 0.2, 0.1)[0].length)
    assert turns == pytest.approx(0.4)


@pytest.mark.parametrize("rounded", [True, False])
def test_an_edge_across_is_an_edge_along_of_the_load_turned(rounded):
    """0.3 m along the edge, 0.2 m off to its far side and 0.05 m to the edge: 0.3 + 2 × 0.25 and two corners."""
    along = perimeters(0.2, 0.3, 0.1, along=0.05, round_corners=rounded)[1]
    across = perimeters(0.3, 0.2, 0.1, across=0.05, round_corners=rounded)[1]
    assert (along.length, along.area) == pytest.approx((across.length, across.area))
    assert across.length == pytest.approx(0.3 + 2.0 * 0.25 + (pi * 0.1 if rounded else 0.4))


def test_in_a_corner_a_quarter_of_the_perimeter_is_left():
    """A square that touches both edges, as a quarter of a square of twice its side."""
    whole, quarter = perimeters(0.4, 0.4, 0.1)[0], perimeters(0.2, 0.2, 0.1, 0.0, 0.0)[3]
    assert quarter.length == pytest.approx(whole.length / 4.0)
    assert quarter.area == pytest.approx(whole.area / 4.0)


@pytest.mark.parametrize("given", [(0.0, 0.2, 0.1), (0.2, -0.2, 0.1), (0.2, 0.2, 0.0), (0.2, 0.2, inf)])
def test_no_perimeter_round_nothing(given):
    with pytest.raises(OutOfDomain):
        perimeters(*given)


def test_plain_concrete_bears_in_bending_by_the_code_two_thirds_of_what_cracks_it():
    """ACI 318-19 (from memory): 5 √f'c against 7.5 √f'c; two-way shear of a square 8/3 √f'c, of a wall 4/3."""
    root = (4000.0) ** 0.5 * PSI
    assert bending_aci(4000.0 * PSI) == pytest.approx(5.0 * root, rel=1e-6)
    assert punching_aci(4000.0 * PSI, 1.0) == pytest.approx(8.0 / 3.0 * root, rel=1e-6)
    assert punching_aci(4000.0 * PSI, 1e9) == pytest.approx(4.0 / 3.0 * root, rel=1e-6)


def test_the_strengths_of_en_1992_are_those_of_its_table():
    """EN 1992-1-1 Table 3.1 (from memory): fctm of C20/25 2.2, of C25/30 2.6, of C30/37 2.9, of C50/60 4.1 MPa."""
    for grade, printed in ((20, 2.2), (25, 2.6), (30, 2.9), (40, 3.5), (50, 4.1)):
        assert tension_en(grade * 1e6) / 1e6 == pytest.approx(printed, abs=0.05)
    assert in_bending_en(2.6e6, 0.6) == pytest.approx(2.6e6)
    assert in_bending_en(2.6e6, 0.2) == pytest.approx(1.4 * 2.6e6)
    assert punching_en(30e6, 0.2) / punching_en(30e6, 0.1) == pytest.approx(1.0)  # k is 2 from 200 mm down
    assert punching_en(30e6, 0.8) / punching_en(30e6, 0.2) == pytest.approx(0.75**1.5)
    assert crushing_en(50e6, 1.5) < 2.0 * crushing_en(25e6, 1.5)
