"""The ground's surface beside the air: limits of the factors, sums by hand, and which faces feel it."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi
from types import SimpleNamespace

import pytest
from pytest import approx
from test_layered_ground import CLAY, floor, lost

from underpour.checks.solved import wall_faces
from underpour.cut import solved_edges
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, solve
from underpour.physics.domain import OutOfDomain
from underpour.physics.ground_surface import seasons, sol_air, surface_year, under_snow
from underpour.resolve.resolved import Beside


def summed(mean, amplitude, steps=20000):
    """Freezing and thawing index by adding up moments of the year."""
    moments = [mean + amplitude * cos(2.0 * pi * (n + 0.5) / steps) for n in range(steps)]
    return tuple(sum(max(sign * moment, 0.0) for moment in moments) / steps for sign in (-1.0, 1.0))


@pytest.mark.parametrize(("mean", "amplitude"), [(4.0, 15.0), (-6.0, 14.0), (0.0, 9.0), (12.0, 10.0), (-12.0, 10.0)])
def test_the_indices_are_what_the_moments_of_the_year_add_up_to(mean, amplitude):
    assert seasons(mean, amplitude) == approx(summed(mean, amplitude), abs=1e-4)


@pytest.mark.parametrize(("freezing", "thawing"), [(0.5, 1.0), (0.9, 1.6), (0.3, 0.8), (1.0, 1.0)])
@pytest.mark.parametrize(("mean", "amplitude"), [(4.0, 15.0), (-6.0, 14.0), (8.0, 9.0)])
def test_the_surface_has_the_indices_of_the_air_times_the_factors(mean, amplitude, freezing, thawing):
    cold, warm = seasons(*surface_year(mean, amplitude, freezing, thawing))
    assert (cold, warm) == approx((freezing * seasons(mean, amplitude)[0], thawing * seasons(mean, amplitude)[1]))


def test_snow_keeps_off_more_the_deeper_and_looser_it_lies_and_the_better_the_ground_conducts():
    depths = [under_snow(depth, 0.2, 1.5, 3e6) for depth in (0.0, 0.1, 0.3, 1.0, 100.0)]
    assert depths == sorted(depths, reverse=True) and depths[0] == 1.0 and depths[-1] < 0.01
    assert under_snow(0.3, 0.1, 1.5, 3e6) < under_snow(0.3, 0.2, 1.5, 3e6) < under_snow(0.3, 0.2, 0.5, 3e6)


def test_a_place_without_frost_has_no_factor():
    with pytest.raises(OutOfDomain):
        surface_year(15.0, 10.0, 0.5, 1.0)


def test_only_faces_that_look_up_feel_the_surface():
    """A block, its top and one side in the air outdoors: side faces keep the air, the top feels what lies on it."""
    box = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    block = SimpleNamespace(outline=box, conductivity=1.0, heat_capacity=2e6, priority=1)
    above = SimpleNamespace(where="outdoors", outline=((0.0, 1.0), (1.0, 1.0), (1.0, 2.0), (0.0, 2.0)))
    beside = SimpleNamespace(
        where="outdoors", outline=((0.0, 1.0), (1.0, 1.0), (1.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    )
    room = SimpleNamespace(where="room", outline=((-1.0, 0.0), (0.0, 0.0), (0.0, 2.0), (-1.0, 2.0)))
    films = {"room": Films(0.13, 0.13, 0.13), "outdoors": Films(0.04, 0.04, 0.04)}
    warmer, colder = ({"room": Climate(20.0), "outdoors": Climate(mean)} for mean in (10.0, 0.0))
    covered = {"room": Climate(20.0), "outdoors": Climate(0.0, 0j, Climate(10.0))}

    def of(spaces, climates):
        answer = solve([block], spaces, films, climates)
        return answer.flow(lambda faces: faces.space == 0).mean

    assert of([room, above], covered) == approx(of([room, above], warmer), rel=1e-12)
    assert of([room, beside], warmer) < of([room, beside], covered) < of([room, beside], colder)
    alone = SimpleNamespace(where="room", outline=((-1.0, 0.0), (0.0, 0.0), (0.0, 1.0), (-1.0, 1.0)))
    right = SimpleNamespace(where="outdoors", outline=((1.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0)))
    assert of([alone, right], covered) == approx(20.0 / 1.17, rel=1e-6)


def edge_of(more):
    (edge,) = solved_edges(floor(f"ground = {CLAY}", more=more))
    x, y = edge.section.under_edge
    told = edge.heat.temperature(x, y)
    return edge, told.mean - abs(told.swing)


def test_factors_of_one_change_nothing():
    bare, one = floor(f"ground = {CLAY}"), floor(f"ground = {CLAY}", more="surface = { freezing = 1, thawing = 1.0 }")
    assert lost(one).mean == approx(lost(bare).mean, rel=1e-9)
    assert lost(one).swing == approx(lost(bare).swing, rel=1e-9)


def test_snow_and_turf_keep_the_ground_under_the_edge_warmer_and_the_floor_loses_less():
    bare, thin, deep, turf = (edge_of(more) for more in ("", 'snow = "100 mm"', 'snow = "500 mm"', 'surface = "turf"'))
    assert bare[1] < thin[1] < deep[1] and bare[1] < turf[1]
    losses = [lost(floor(f"ground = {CLAY}", more=more)).mean for more in ("", 'snow = "100 mm"', 'snow = "500 mm"')]
    assert losses == sorted(losses, reverse=True) and losses[-1] < 0.97 * losses[0]


def test_paving_in_the_sun_warms_the_ground_on_the_mean_of_the_year():
    assert lost(floor(f"ground = {CLAY}", more='surface = "asphalt"')).mean < lost(floor(f"ground = {CLAY}")).mean


@pytest.mark.parametrize("share", [0.0, 0.4, 1.0])
def test_a_surface_takes_the_same_heat_from_its_sol_air_as_from_air_sun_and_sky(share):
    """At any temperature of the surface: h (t - s) + a I - R is h (t_sol - s)."""
    air, sun, sky, film = 7.0, 180.0, 50.0, 0.05
    for surface in (-10.0, 3.0, 40.0):
        balance = (air - surface) / film + share * sun - sky
        assert (sol_air(air, sun, share, sky, film) - surface) / film == approx(balance)


@pytest.mark.parametrize("bad", [(1.2, 50.0, 0.04), (-0.1, 50.0, 0.04), (0.6, -1.0, 0.04), (0.6, 50.0, 0.0)])
def test_sun_that_no_surface_takes_up_is_refused(bad):
    with pytest.raises(OutOfDomain):
        sol_air(10.0, 100.0, *bad)


def test_the_darker_the_sunny_ground_the_less_the_floor_loses():
    losses = [
        lost(floor(f"ground = {CLAY}", more=f'surface = {{ sun = ["155 W/m²"], absorptance = "{share} %" }}')).mean
        for share in (30, 60, 90)
    ]
    bare = lost(floor(f"ground = {CLAY}")).mean
    assert losses == sorted(losses, reverse=True) and losses[0] > bare > losses[1]


def test_the_wall_above_the_ground_keeps_the_air():
    """High on the wall of a basement heat goes out as before: its uppermost metre feels the ground's surface least."""
    bare, turf = (
        solved_edges(floor(f"ground = {CLAY}", "footing-wall", more=more))[0] for more in ("", 'surface = "turf"')
    )
    top = bare.levels.top

    def upper(faces):
        return wall_faces(faces) & (faces.y > top - 0.2)

    assert turf.heat.flow(upper).mean == approx(bare.heat.flow(upper).mean, rel=0.01)
    assert turf.heat.flow(wall_faces).mean < 0.995 * bare.heat.flow(wall_faces).mean


def test_beside_other_air_than_outdoors_nothing_lies_on_the_ground():
    """A garage next door has no turf in it."""
    resolved = floor(f"ground = {CLAY}", more='snow = "1 m"')
    next_door = replace(
        resolved, edges=tuple(replace(edge, beside=Beside("next door", 5.0, 0j)) for edge in resolved.edges)
    )
    levels = [solved_edges(each)[0].heat.climates[-1].level for each in (resolved, next_door)]
    assert levels == [Climate(resolved.surface.mean, resolved.surface.swing), None]
