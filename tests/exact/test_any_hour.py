"""The temperatures of one hour of a weather year, against the year's harmonic, which is found another way."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from pytest import approx

from underpour.answer import answer, solved_brief
from underpour.brief import read
from underpour.checks.at_hour import field_then, flow_then
from underpour.checks.solved import floor_faces, summed, wall_faces
from underpour.physics.conduction.sample import at_places
from weather_files import GOLDEN, tmy3

BRIEF = """
[project]
use = "basement"
units = "SI"
[site]
weather = "golden.csv"
ground = { conductivity = "2 W/(m·K)", heat-capacity = "2 MJ/(m³·K)" }
[plan]
outline = ["0 0", "10 0", "10 8", "0 8"]
unit = "m"
[floor]
inside = "20 C"
humidity = "50 %"
build-up = [{ concrete = "100 mm" }, { board = "xps-25", thickness = "2 in" }]
[[edge]]
sides = [1, 2, 3]
kind = "footing-wall"
depth = "16 in"
ground = "1.2 m"
footing = { width = "24 in", height = "12 in" }
wall = [{ concrete = "8 in" }]
[[edge]]
sides = "rest"
kind = "footing-wall"
depth = "16 in"
ground = "1.2 m"
footing = { width = "24 in", height = "12 in" }
wall = [{ concrete = "8 in" }]
beside = "unheated"
"""


@pytest.fixture(scope="module")
def reading(tmp_path_factory):
    folder = tmp_path_factory.mktemp("any-hour")
    (folder / "golden.csv").write_text(tmy3(GOLDEN, None), encoding="utf-8")
    (folder / "brief.toml").write_text(BRIEF, encoding="utf-8")
    return read(folder / "brief.toml")


@pytest.fixture(scope="module")
def solved(reading):
    return solved_brief(reading, "as briefed", reading.brief)


@pytest.fixture(scope="module")
def fields(reading):
    return answer(reading).as_briefed.fields


def wave(resolved):
    at = (np.arange(8760) + 0.5) / 8760
    return resolved.outdoor_mean + (resolved.outdoor_swing * np.exp(2j * pi * at)).real


@pytest.mark.parametrize("hour", [0, 2000, 5555])
def test_a_year_that_is_one_cosine_has_the_field_of_the_harmonic(solved, fields, hour):
    """Hours that are the harmonic: nothing is left for the response, and the picture is the month's, to rounding."""
    resolved, edges = solved
    cosine = replace(resolved, outdoor_hours=tuple(wave(resolved)))
    for edge in edges:
        field = fields[edge.edge.letter]
        then, now = field_then(cosine, edge, field, hour), (hour + 0.5) / 8760
        assert then.at(0.3) == approx(field.at(now), abs=2e-5, nan_ok=True)
        assert then.floor_at(0.3) == approx(field.floor_at(now), abs=2e-5)
        assert {where: mean for where, mean, _ in then.airs}["room"] == approx(20.0)


@pytest.mark.parametrize("hour", [0, 2000, 5555])
def test_the_same_cosine_all_of_it_through_the_response_is_the_harmonic_again(solved, fields, hour):
    """No swing is left in what is handed in, so modes carry all of it: on their own grid to a millionth.

    Against the picture, which is of the finer grid: 99 in 100 places to 0.2 % of the swing outdoors, all to 3 %, the
    worst beside the corner of the foam. Outdoors alone: the unheated space's swing is not four fifths of that outdoors.
    """
    resolved, edges = solved
    edge = next(each for each in edges if each.edge.beside is None)
    field, grid = fields[edge.edge.letter], edge.heat.coarse
    calm = replace(field, swing=0 * field.swing, floor_swing=0 * field.floor_swing)
    still = replace(resolved, outdoor_swing=0j, outdoor_hours=tuple(wave(resolved)))
    then, now = field_then(still, edge, calm, hour), (hour + 0.5) / 8760
    most, solid = abs(resolved.outdoor_swing), ~np.isnan(field.mean)
    turned = (at_places(grid.equations, grid.swing, field.x, field.y) * np.exp(2j * pi * now)).real
    assert (then.at(0.0) - field.mean)[solid] == approx(turned[solid], abs=1e-5)
    off = np.abs(then.at(0.0) - field.at(now))[solid]
    assert np.quantile(off, 0.99) < 0.002 * most and off.max() < 0.03 * most
    assert np.abs(then.floor_at(0.0) - field.floor_at(now)).max() < 0.002 * most


def test_the_flow_of_an_hour_is_that_of_the_harmonic_in_a_year_of_one_cosine(solved):
    resolved, edges = solved
    cosine = replace(resolved, outdoor_hours=tuple(wave(resolved)))
    whole = [summed(edges, chosen) for chosen in (floor_faces, wall_faces)]
    now = np.exp(2j * pi * 1234.5 / 8760)
    told = sum(each.mean + (each.swing * now).real for each in whole)
    assert flow_then(cosine, edges, 1234) == approx(told, rel=1e-6)


def test_a_grid_gives_what_stands_at_its_own_places(solved):
    _, edges = solved
    grid = edges[0].heat.coarse
    eq = grid.equations
    told = at_places(eq, grid.mean, eq.x.astype(np.float32), eq.y.astype(np.float32))
    known = eq.number.T >= 0
    theirs = grid.mean[np.maximum(eq.number.T, 0)]
    assert told[known] == approx(theirs[known], abs=2e-4)  # places within a cell are kept in single precision
