"""Closed forms of the ground against limits, against one another and against what they refuse. All derived."""

from math import acosh, gamma, inf, nan, pi, sqrt

import numpy as np
import pytest
from pytest import approx

from underpour.physics import ground, shape_factors
from underpour.physics.domain import OutOfDomain
from underpour.physics.frost import depth as frost

YEAR_ROUND = np.linspace(0.0, 1.0, 8, endpoint=False)


def test_the_two_branches_meet_where_thickness_equals_dimension():
    """0.457 makes the formulas for less and for more foam join, to 2 parts in 10 000."""
    below, above = ground.floor_transmittance(5.0, 5.0 * np.array([1.0 - 1e-9, 1.0]), 1.5)
    assert below != above
    assert below == approx(above, rel=2e-4)


@pytest.mark.parametrize("depth", [0.0, 1.0])
def test_a_basement_floor_is_a_slab_whose_ground_is_half_as_deep_again(depth):
    assert ground.floor_transmittance(8.0, 1.0, 2.0, depth) == ground.floor_transmittance(8.0, 1.0 + depth / 2.0, 2.0)


def test_more_resistance_never_loses_more_heat():
    """Across both branches, for every kind, steady and swinging."""
    thickness = np.linspace(0.5, 30.0, 400)
    falls = [
        ground.floor_transmittance(6.0, thickness, 2.0),
        ground.floor_transmittance(6.0, thickness, 2.0, 2.5),
        ground.basement_wall_transmittance(2.0, 40.0, thickness, 2.0),
        ground.floor_internal(80.0, thickness, 3.0, 2.0),
        ground.floor_external(36.0, thickness, 3.0, 2.0),
        ground.heated_basement_internal(80.0, 2.0, 36.0, thickness, thickness, 3.0, 2.0),
        ground.heated_basement_external(36.0, 2.0, thickness, thickness, 3.0, 2.0),
    ]
    for values in falls[1:]:
        assert (np.diff(values) < 0.0).all()
    assert (np.diff(falls[0]) < 2e-4 * falls[0][:-1]).all()  # the branches join to so much


def test_a_basement_of_little_depth_has_the_wall_of_its_films_and_layers():
    """z to 0: with d_w at most d, U_bw tends to 2/pi (1 + 1/2) conductivity / d_w."""
    thin = ground.basement_wall_transmittance(1e-6, 1.0, 1.0, 2.0)
    assert thin == approx(2.0 / pi * 1.5 * 2.0, rel=1e-5)


def test_a_wall_better_than_the_floor_is_taken_with_the_floors_thickness_and_no_better():
    assert ground.basement_wall_transmittance(2.0, 1.0, 3.0, 2.0) < ground.basement_wall_transmittance(
        2.0, 3.0, 3.0, 2.0
    )
    assert ground.basement_wall_transmittance(2.0, 9.0, 3.0, 2.0) == ground.basement_wall_transmittance(
        2.0, 3.0, 3.0, 2.0
    )


def test_an_unheated_basement_is_as_warm_as_the_balance_of_its_air():
    """Two ways: the standard's U, and the temperature of the basement's air solved for."""
    above, area, below, walls, air = 0.6, 90.0, 40.0, 25.0, 0.01
    carried = 0.33 * 3600.0 * air
    theta = (area * above * 20.0 + (below + walls + carried) * -5.0) / (area * above + below + walls + carried)
    u = ground.unheated_basement_transmittance(above, area, below, walls, air)
    assert area * u * 25.0 == approx(area * above * (20.0 - theta), rel=1e-12)


def test_upright_foam_counts_as_a_level_strip_twice_as_wide():
    assert ground.vertical_edge_transmittance(0.6, 0.7, 2.0, 1.5) == ground.horizontal_edge_transmittance(
        1.2, 0.7, 2.0, 1.5
    )
    assert ground.vertical_edge_external(30.0, 0.7, 2.0, 0.6, 2.2, 1.5) == ground.horizontal_edge_external(
        30.0, 0.7, 2.0, 1.2, 2.2, 1.5
    )


def test_an_edge_strip_of_no_width_or_no_resistance_saves_nothing():
    assert ground.horizontal_edge_transmittance(1e-9, 0.7, 2.0, 1.5) == approx(0.0, abs=1e-8)
    assert ground.horizontal_edge_transmittance(1.0, 0.7, 1e-9, 1.5) == approx(0.0, abs=1e-8)
    assert ground.horizontal_edge_external(30.0, 0.7, 2.0, 1e-9, 2.2, 1.5) == approx(
        ground.floor_external(30.0, 0.7, 2.2, 1.5), rel=1e-8
    )


def test_the_flow_by_month_leads_the_room_and_follows_outdoors():
    """A room warmest in July and nothing outdoors; outdoors coldest in January and a room that stands still."""
    by_room = ground.monthly_flow(1.0, 1.0, 1.0, (0.0, 5.0), (0.0, 0.0), 1.0, 1.0, 0.0)
    by_outdoors = ground.monthly_flow(1.0, 1.0, 1.0, (0.0, 0.0), (0.0, 5.0), 1.0, 0.0, 1.0)
    assert int(by_room.argmax()) + 1 == 6  # a month before July
    assert int(by_outdoors.argmax()) + 1 == 2  # a month after January
    assert by_room.max() == approx(5.0)
    assert by_outdoors.max() == approx(5.0)


def test_the_flow_by_month_broadcasts():
    """Two floors, three climates: (2, 3, 12), each as it is alone."""
    steady, amplitude = np.array([[10.0], [20.0]]), np.array([4.0, 8.0, 12.0])
    together = ground.monthly_flow(steady, 2.0, 3.0, (20.0, 1.0), (8.0, amplitude), 1.5, 0.3, 1.2)
    assert together.shape == (2, 3, 12)
    alone = ground.monthly_flow(20.0, 2.0, 3.0, (20.0, 1.0), (8.0, 12.0), 1.5, 0.3, 1.2)
    assert together[1, 2] == approx(alone, rel=1e-14)


def test_single_numbers_come_out_as_pythons_own():
    for value in (
        ground.floor_transmittance(6.0, 1.0, 2.0),
        ground.basement_wall_transmittance(2.0, 1.0, 1.0, 2.0),
        ground.horizontal_edge_external(30.0, 0.7, 2.0, 1.0, 2.2, 1.5),
        ground.undisturbed_temperature(1.0, 0.1, 10.0, 5.0, 0.05, 1e-6),
        frost.stefan_depth(2.0, 1e8, 1e8),
        shape_factors.buried_cylinder(0.1, 1.0),
    ):
        assert type(value) is float


def test_undisturbed_ground_obeys_the_heat_equation():
    """Differences in depth and time: dT/dt = a d²T/dz², to a part in ten thousand of the swing's own rate."""
    a, year, z, f, dz, df = 7e-7, 3.15e7, 1.7, YEAR_ROUND, 1e-3, 1e-5

    def at(depth, moment):
        return ground.undisturbed_temperature(depth, moment, 9.0, 12.0, 0.08, a, year)

    rate = (at(z, f + df) - at(z, f - df)) / (2.0 * df * year)
    bend = (at(z + dz, f) - 2.0 * at(z, f) + at(z - dz, f)) / dz**2
    assert rate == approx(a * bend, abs=1e-4 * 12.0 * 2.0 * pi / year)


def test_a_step_is_the_step_under_no_film():
    depth = np.array([0.02, 0.1, 0.4])
    bare = ground.stepped_temperature(depth, 86400.0, 0.0, 1.0, 7.5e-7)
    assert ground.step_under_a_film(depth, 86400.0, 1.5, 2.0e6, 1e-9) == approx(bare, abs=1e-6)


def test_a_step_under_a_film_gives_the_surface_the_heat_it_takes_in():
    """Conductivity times the slope at the surface is what the film lets through, (1 - share) / film."""
    d = 1e-4
    near = ground.step_under_a_film(np.array([0.0, d, 2.0 * d]), 3600.0, 1.5, 2.0e6, 0.1)
    slope = (3.0 * near[0] - 4.0 * near[1] + near[2]) / (2.0 * d)
    assert 1.5 * slope == approx((1.0 - near[0]) / 0.1, rel=1e-4)


@pytest.mark.parametrize("pieces", [1, 2, 7])
def test_cutting_a_layer_leaves_the_swing_as_it_is(pieces):
    whole = ground.admittance([(0.2, 1.5, 2.2e6), (0.1, 0.035, 4e4)], 2.0, 2e6, 0.17, 86400.0)
    cut = ground.admittance([(0.2 / pieces, 1.5, 2.2e6)] * pieces + [(0.1, 0.035, 4e4)], 2.0, 2e6, 0.17, 86400.0)
    assert cut == approx(whole, rel=1e-12)


def test_a_layer_like_the_ground_is_ground():
    assert ground.admittance([(0.7, 2.0, 2e6)], 2.0, 2e6, 0.1, 3e7) == approx(
        ground.admittance([], 2.0, 2e6, 0.1, 3e7), rel=1e-12
    )


def test_a_wide_row_of_pipes_is_single_pipes():
    assert shape_factors.pipe_of_a_row(100.0, 0.02, 0.5) == approx(shape_factors.buried_cylinder(0.02, 0.5), rel=1e-3)


def test_a_row_of_pipes_is_its_lines_and_their_images_summed():
    """2001 lines of 2 pi W/m at 1 W/(m·K): the wall of the middle pipe is warm by 2 pi over the shape factor."""
    spacing, radius, depth = 0.2, 0.005, 0.08
    aside = spacing * np.arange(-1000, 1001)
    place = aside + np.where(aside == 0.0, radius, 0.0)
    rise = shape_factors.line_source_rise(2.0 * pi, 1.0, depth, place, depth).sum()
    assert 2.0 * pi / rise == approx(shape_factors.pipe_of_a_row(spacing, 2.0 * radius, depth), rel=1e-3)


def test_a_line_source_warms_a_round_pipe_evenly():
    """Circles of one temperature are eccentric: the line lies at sqrt(z² - r²). All around: acosh(z/r)."""
    r, z = 0.3, 0.5
    turn = np.linspace(0.0, 2.0 * pi, 9)
    rise = shape_factors.line_source_rise(2.0 * pi, 1.0, sqrt(z * z - r * r), r * np.cos(turn), z + r * np.sin(turn))
    assert rise == approx(acosh(z / r), rel=1e-12)
    assert shape_factors.buried_cylinder(2.0 * r, z) == approx(2.0 * pi / acosh(z / r), rel=1e-12)


def test_all_heat_of_a_line_source_leaves_through_the_surface():
    """Summed to 1000 depths on both sides; beyond lies 2/pi of a thousandth."""
    x = np.sinh(np.linspace(-8.0, 8.0, 20001))
    flux = shape_factors.line_source_flux(10.0, 1.0, x)
    assert np.trapezoid(flux, x) == approx(10.0 * 2.0 / pi * np.arctan(x[-1]), rel=1e-5)


def test_a_slender_post_is_half_a_slender_spheroid():
    """Half of a spheroid of half-length L and radius D/2: 2 pi c / artanh(c/L), c² = L² - D²/4, exact."""
    length, diameter = 10.0, 0.5
    c = sqrt(length**2 - diameter**2 / 4.0)
    assert shape_factors.upright_cylinder(length, diameter) == approx(2.0 * pi * c / np.arctanh(c / length), rel=1e-3)


def test_the_square_around_a_pipe_is_a_circle_of_108_hundredths():
    """Conformal radius of a square of side 1: 4 sqrt(pi) / gamma(1/4)² = 0.5394; twice that is the 1.08 of print."""
    twice = 8.0 * sqrt(pi) / gamma(0.25) ** 2
    assert twice == approx(1.0787, abs=5e-5)
    assert shape_factors.circle_in_a_square(1.0, 0.1) == approx(2.0 * pi / np.log(twice / 0.1), rel=1e-3)


def test_berggren_never_goes_deeper_than_stefan():
    factor = frost.berggren_factor(np.linspace(0.0, 3.0, 7)[:, None], np.linspace(0.0, 1.0, 5))
    assert factor.shape == (7, 5)
    assert (factor <= 1.0).all()
    assert frost.berggren_factor(2.0, 0.0) == 1.0


REFUSED = {
    "a floor without exposed edge": lambda: ground.characteristic_dimension(80.0, 0.0),
    "one floor of several without area": lambda: ground.characteristic_dimension(np.array([80.0, 0.0]), 30.0),
    "a wall below zero": lambda: ground.equivalent_thickness(-0.1, 2.0, 0.2),
    "a basement above the ground": lambda: ground.floor_transmittance(6.0, 1.0, 2.0, -0.5),
    "no number": lambda: ground.floor_transmittance(6.0, nan, 2.0),
    "a floor longer across than along": lambda: ground.macey_transmittance(9.0, 8.0, 0.3, 1.4),
    "edge foam worse than ground": lambda: ground.added_thickness(0.01, 0.1, 2.0),
    "edge foam without width": lambda: ground.horizontal_edge_transmittance(0.0, 0.7, 2.0, 1.5),
    "edge foam without depth": lambda: ground.vertical_edge_transmittance(0.0, 0.7, 2.0, 1.5),
    "edge foam that adds nothing": lambda: ground.horizontal_edge_external(30.0, 0.7, 0.0, 1.0, 2.2, 1.5),
    "upright foam above the ground": lambda: ground.vertical_edge_external(30.0, 0.7, 2.0, -1.0, 2.2, 1.5),
    "a wall of no depth": lambda: ground.basement_wall_transmittance(0.0, 1.0, 1.0, 1.5),
    "a basement of no depth": lambda: ground.heated_basement_coupling(80.0, 0.3, 0.0, 36.0, 0.4),
    "a swing in a basement of no depth": lambda: ground.heated_basement_internal(80.0, 0.0, 36.0, 1.0, 1.0, 2.2, 1.5),
    "a swing above the ground": lambda: ground.heated_basement_external(36.0, -1.0, 1.0, 1.0, 2.2, 1.5),
    "air that blows backwards": lambda: ground.unheated_basement_transmittance(0.5, 80.0, 40.0, 10.0, -0.01),
    "walls that give heat": lambda: ground.unheated_basement_internal(80.0, 0.5, 2.0, 36.0, -1.0, 0.0, 2.2, 1.5),
    "a floor above that is open": lambda: ground.unheated_basement_external(
        80.0, 0.0, 2.0, 36.0, 1.0, 5.0, 0.0, 2.2, 1.5
    ),
    "a floor without area": lambda: ground.steady_coupling(0.0, 0.3, 36.0),
    "ground that stores nothing": lambda: ground.penetration_depth(2.0, 0.0),
    "a floor of no thickness": lambda: ground.lag_behind_outdoors(0.0, 2.0),
    "a year of no depth": lambda: ground.lead_before_room(1.0, 0.0),
    "a floor that loses nothing": lambda: ground.monthly_flow(0.0, 1.0, 1.0, (20.0, 0.0), (9.0, 9.0), 1.0, 0.0, 1.0),
    "a swing below zero": lambda: ground.monthly_flow(1.0, 1.0, -1.0, (20.0, 0.0), (9.0, 9.0), 1.0, 0.0, 1.0),
    "a place in the air": lambda: ground.undisturbed_temperature(-1.0, 0.1, 10.0, 5.0, 0.05, 1e-6),
    "a year that swings backwards": lambda: ground.undisturbed_temperature(1.0, 0.1, 10.0, -5.0, 0.05, 1e-6),
    "before the step": lambda: ground.stepped_temperature(1.0, 0.0, 20.0, 0.0, 1e-6),
    "above the surface": lambda: ground.step_under_a_film(-0.1, 10.0, 1.5, 2e6, 0.1),
    "a layer of no thickness": lambda: ground.admittance([(0.0, 1.5, 2e6)], 2.0, 2e6, 0.1, 3e7),
    "a film below zero": lambda: ground.admittance([], 2.0, 2e6, -0.1, 3e7),
    "ground without water": lambda: frost.latent_heat(1600.0, 0.0),
    "a warm winter": lambda: frost.stefan_depth(1.5, -1.0, 1e8),
    "a winter without frost": lambda: frost.thermal_ratio(5.0, 0.0),
    "no heat to freeze": lambda: frost.fusion_parameter(5.0, 2e6, 0.0),
    "ground below freezing all year": lambda: frost.berggren_factor(-0.1, 0.2),
    "a pipe that shows": lambda: shape_factors.buried_cylinder(1.0, 0.5),
    "pipes that touch": lambda: shape_factors.pipe_of_a_row(0.02, 0.02, 0.5),
    "a stump": lambda: shape_factors.upright_cylinder(1.0, 0.6),
    "no plate": lambda: shape_factors.disk_on_the_surface(0.0),
    "a pipe wider than its trench": lambda: shape_factors.circle_in_a_square(0.1, 0.1),
    "on the line itself": lambda: shape_factors.line_source_rise(10.0, 1.5, 0.5, 0.0, 0.5),
    "above the ground": lambda: shape_factors.line_source_rise(10.0, 1.5, 0.5, 0.0, -0.1),
    "a line on the surface": lambda: shape_factors.line_source_flux(10.0, 0.0, 1.0),
}


@pytest.mark.parametrize("asked", REFUSED.values(), ids=REFUSED)
def test_what_a_formula_does_not_hold_for_is_refused(asked):
    with pytest.raises(OutOfDomain):
        asked()


def test_an_endless_floor_has_two_edges():
    """Macey: twice the length changes little where the length is great; infinite is allowed."""
    assert ground.macey_transmittance(8.0, inf, 0.3, 1.4) == approx(
        ground.macey_transmittance(8.0, 1e9, 0.3, 1.4), rel=1e-8
    )
