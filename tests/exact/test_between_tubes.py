"""Temperatures between two tubes, held to what the cell hands on: the same heat and the same surface."""

from __future__ import annotations

import numpy as np
import pytest

from underpour.physics.domain import OutOfDomain
from underpour.physics.warm_floor.between import Between, between
from underpour.physics.warm_floor.cell import Layer, Tube, cell

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
    """Thick tubes a foot apart in the floor of a hall: what the ground brings asks for other cells than water."""
    layers = (Layer(0.1524, 1.9), Layer(0.0762, 0.031), Layer(0.2032, 1.6))
    hall = Tube(0.02222, 0.0873, 0.3048, 0.09)
    made, whole = cell(layers, hall, FILM, 2.9), between(layers, hall, FILM, 2.9)
    assert whole.by_water.shape == whole.by_ground.shape == (len(whole.y), len(whole.x))
    assert (on_the_mean(whole, -1) - ROOM) / FILM == pytest.approx(made.up(WATER, ROOM, GROUND), rel=3e-4)
    assert (on_the_mean(whole, 0) - GROUND) / 2.9 == pytest.approx(made.down(WATER, ROOM, GROUND), rel=3e-4)


def test_a_tube_that_reaches_out_of_its_layer_is_refused():
    with pytest.raises(OutOfDomain):
        between((Layer(0.05, 1.2),), Tube(0.016, 0.004, 0.2, 0.1), 0.1, 0.5)
