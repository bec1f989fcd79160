"""Temperatures between two tubes, held to what the cell hands on: the same heat and the same surface."""

from __future__ import annotations

import numpy as np
import pytest

from underpour.physics.domain import OutOfDomain
from underpour.physics.warm_floor.between import Between, between
from underpour.physics.warm_floor.cell import Layer, Tube, cell, solved_twice

LAYERS = (Layer(0.018, 0.06), Layer(0.10, 1.7), Layer(0.076, 0.036), Layer(0.10, 1.5))
TUBE = Tube(0.0159, 0.06, 0.229, 0.12)
FILM, BELOW = 0.0926, 1.4
WATER, ROOM, GROUND = 38.0, 20.0, 9.0


@pytest.fixture(scope="module")
def field() -> Between:
    return between(LAYERS, TUBE, FILM, BELOW)


def on_the_mean(of: Between, row: int) -> float:
    """Of a level, over half the spacing. [degC]"""
    told = of.degrees(WATER, ROOM, GROUND)[row]
    return float(((told[1:] + told[:-1]) / 2.0 * np.diff(of.x)).sum() / (of.x[-1] - of.x[0]))


def test_the_surface_gives_the_room_what_the_cell_says(field):
    made = cell(LAYERS, TUBE, FILM, BELOW)
    assert field.y[-1] == 0.0
    assert (on_the_mean(field, -1) - ROOM) / FILM == pytest.approx(made.up(WATER, ROOM, GROUND), rel=2e-4)


def test_the_underside_gives_the_ground_what_the_cell_says(field):
    made = cell(LAYERS, TUBE, FILM, BELOW)
    assert field.y[0] == pytest.approx(-sum(layer.thickness for layer in LAYERS), abs=1e-6)
    assert (on_the_mean(field, 0) - GROUND) / BELOW == pytest.approx(made.down(WATER, ROOM, GROUND), rel=2e-4)


def test_the_uppermost_level_is_the_surface_of_the_cell(field):
    surface = cell(LAYERS, TUBE, FILM, BELOW).surface
    along = ROOM + surface.by_water * (WATER - ROOM) + surface.by_ground * (GROUND - ROOM)
    told = field.degrees(WATER, ROOM, GROUND)[-1]
    assert np.interp(surface.x, field.x, told) == pytest.approx(along, abs=2e-4)


def test_the_tube_alone_is_empty_and_nothing_is_warmer_than_its_water(field):
    told = field.degrees(WATER, ROOM, GROUND)
    away = np.hypot(field.x[None, :], field.y[:, None] + TUBE.axis)
    assert np.isnan(told[away < 0.8 * TUBE.outside / 2.0]).all()
    assert not np.isnan(told[away > 1.45 * TUBE.outside / 2.0]).any()  # beside its slanted sides nothing is told
    assert np.nanmin(told) > GROUND and np.nanmax(told) < WATER


def test_no_heat_crosses_the_middle_between_two_tubes(field):
    told = field.degrees(WATER, ROOM, GROUND)
    across = (told[:, -1] - told[:, -2]) / (field.x[-1] - field.x[-2])
    assert np.nanmax(np.abs(across)) < 0.02 * np.nanmax(np.abs(np.diff(told, axis=1) / np.diff(field.x)))


def test_grids_that_were_refined_apart_give_one_field():
    """Screed on an old slab without foam: what the ground brings asks for other cells than what the water brings."""
    layers = (Layer(0.0381, 1.4), Layer(0.1016, 1.65), Layer(0.1016, 2.0))
    thin = Tube(0.015875, 0.0269875, 0.2032, 0.1286410494774917)
    solved = solved_twice(layers, thin, FILM, 0.7837554569493362)
    assert len({(len(each.fine.equations.x), len(each.fine.equations.y)) for each in solved}) == 2
    made, whole = (of(layers, thin, FILM, 0.7837554569493362) for of in (cell, between))
    assert whole.by_water.shape == whole.by_ground.shape == (len(whole.y), len(whole.x))
    assert (on_the_mean(whole, -1) - ROOM) / FILM == pytest.approx(made.up(WATER, ROOM, GROUND), rel=3e-4)
    assert (on_the_mean(whole, 0) - GROUND) / 0.7837554569493362 == pytest.approx(
        made.down(WATER, ROOM, GROUND), rel=3e-4
    )


def test_a_tube_that_reaches_out_of_its_layer_is_refused():
    with pytest.raises(OutOfDomain):
        between((Layer(0.05, 1.2),), Tube(0.016, 0.004, 0.2, 0.1), 0.1, 0.5)
