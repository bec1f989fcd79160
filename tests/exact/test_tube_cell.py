"""The tube cell held to closed forms, to a series of its own and to another library's elements."""

from dataclasses import replace
from math import gamma, pi

import numpy as np
import pytest

from underpour.physics.domain import OutOfDomain
from underpour.physics.shape_factors import pipe_of_a_row
from underpour.physics.warm_floor import cell as cells
from underpour.physics.warm_floor.cell import Layer, Tube, capacity_of_polygon, cell, wall_resistance
from underpour.physics.warm_floor.season import Below, season

NOUGHT = 1e-9  # of resistances that are not there
TIGHT = 1e6  # m²·K/W


def shape_factor(spacing: float, outside: float, depth: float) -> float:
    """Of a row of tubes below a surface of one temperature, in a conductor without end."""
    tube = Tube(outside, depth, spacing, NOUGHT)
    return cell((Layer(depth + 2.0 * spacing, 1.0),), tube, NOUGHT, TIGHT).water_to_room * spacing


def by_images(spacing: float, outside: float, depth: float) -> float:
    """The same by lines of heat and their multipoles on each axis and its image, fitted round the tube's circle."""
    radius = outside / 2.0
    round_it = radius * np.exp(2j * np.pi * np.arange(200) / 200)
    mirrored = np.conj(round_it) + 2j * depth

    def pole(at, order):
        if order == 0:
            return np.log(np.sin(np.pi * at / spacing) + 0j)
        if order == 1:
            return radius * np.pi / spacing / np.tan(np.pi * at / spacing)
        return ((radius / (at[None, :] - np.arange(-4000, 4001)[:, None] * spacing)) ** order).sum(0)

    columns = [np.real(1j**order * (pole(round_it, order) - pole(mirrored, order))) for order in range(8)]
    fitted, *_ = np.linalg.lstsq(np.array(columns).T, np.ones(len(round_it)), rcond=None)
    return float(-2.0 * np.pi * fitted[0])


@pytest.mark.parametrize("spacing, outside, depth", [(0.2, 0.008, 0.1), (0.3, 0.012, 0.09), (0.15, 0.006, 0.075)])
def test_thin_tubes_give_what_the_handbook_s_shape_factor_says(spacing, outside, depth):
    printed = pipe_of_a_row(spacing, outside, depth)
    assert shape_factor(spacing, outside, depth) == pytest.approx(printed, rel=0.005)


@pytest.mark.parametrize(
    "spacing, outside, depth", [(0.2, 0.02, 0.1), (0.15, 0.016, 0.06), (0.3, 0.016, 0.05), (0.1, 0.02, 0.05)]
)
def test_thick_tubes_give_what_lines_of_heat_and_their_images_do(spacing, outside, depth):
    """There the handbook's thin tubes are off by 0.4 to 2.8 %: a tube near its neighbours draws heat unevenly."""
    assert shape_factor(spacing, outside, depth) == pytest.approx(by_images(spacing, outside, depth), rel=2e-4)
    assert pipe_of_a_row(spacing, outside, depth) < 0.997 * by_images(spacing, outside, depth)


def test_tubes_side_by_side_are_a_warm_plane():
    """Ever nearer they come to two resistances, up and down."""
    layers, above, below = (Layer(0.05, 1.2), Layer(0.04, 0.035)), 0.1 + 0.02 / 1.2, 0.03 / 1.2 + 0.04 / 0.035 + 0.5
    dense = cell(layers, Tube(0.004, 0.02, 0.005, NOUGHT), 0.1, 0.5)
    assert dense.water_to_room == pytest.approx(1.0 / above, rel=0.02)
    assert dense.water_to_ground == pytest.approx(1.0 / below, rel=0.02)


def test_without_tubes_the_ground_meets_the_room_through_all_layers():
    """A wall that lets nothing through: the three are then two, through the layers in series."""
    layers = (Layer(0.05, 1.2), Layer(0.04, 0.035))
    shut = cell(layers, Tube(0.004, 0.025, 0.3, 1e9), 0.1, 0.5)
    assert shut.water_to_room == pytest.approx(0.0, abs=1e-6)
    assert shut.ground_to_room == pytest.approx(1.0 / (0.1 + 0.05 / 1.2 + 0.04 / 0.035 + 0.5), rel=1e-3)


def test_what_water_gives_is_what_room_and_ground_take():
    made = cell((Layer(0.1, 1.6), Layer(0.05, 0.035)), Tube(0.016, 0.04, 0.2, 0.1), 0.1, 1.0)
    level = made.floor(20.0, 20.0, 20.0)
    assert level == pytest.approx((20.0, 20.0, 20.0))
    mean, warmest, coolest = made.floor(35.0, 20.0, 8.0)
    assert coolest < mean < warmest
    assert made.surface.x[0] == 0.0
    along = 20.0 + made.surface.by_water * 15.0 - made.surface.by_ground * 12.0
    lengths = np.diff(made.surface.x)
    middle = float(((along[1:] + along[:-1]) / 2.0 * lengths).sum() / lengths.sum())
    assert middle == pytest.approx(mean, abs=0.01)
    up = made.up(35.0, 20.0, 8.0)
    assert made.water_for(up, 20.0, 8.0) == pytest.approx(35.0)


@pytest.mark.parametrize("sides, known", [(3, 6.0 * gamma(1.0 / 3.0) ** 3 / (8.0 * pi**2)), (4, 1.1803), (1000, 1.0)])
def test_a_polygon_takes_heat_from_far_away_as_a_known_circle(sides, known):
    assert capacity_of_polygon(sides) == pytest.approx(known, rel=1e-4)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: cell((Layer(0.05, 1.2),), Tube(0.016, 0.004, 0.2, 0.1), 0.1, 0.5),
        lambda: cell((Layer(0.05, 1.2),), Tube(0.016, 0.06, 0.2, 0.1), 0.1, 0.5),
        lambda: cell((Layer(0.025, 1.2), Layer(0.025, 0.04)), Tube(0.016, 0.025, 0.2, 0.1), 0.1, 0.5),
        lambda: cell((Layer(0.05, 1.2),), Tube(0.016, 0.025, 0.016, 0.1), 0.1, 0.5),
        lambda: cell((Layer(0.05, 0.0),), Tube(0.016, 0.025, 0.2, 0.1), 0.1, 0.5),
        lambda: cell((Layer(0.05, 1.2),), Tube(0.016, 0.025, 0.2, 0.0), 0.1, 0.5),
        lambda: wall_resistance(0.016, 0.016, 0.35),
        lambda: capacity_of_polygon(2),
    ],
    ids=["above", "below", "between layers", "touching", "no conductivity", "no wall", "no bore", "two sides"],
)
def test_a_cell_that_cannot_be_is_refused(refused):
    with pytest.raises(OutOfDomain):
        refused()


def test_a_hollow_of_the_slab_s_own_stuff_is_none_and_one_of_air_keeps_heat_back(monkeypatch):
    layers, tube = (Layer(0.1, 1.6), Layer(0.05, 0.035)), Tube(0.016, 0.085, 0.2, 0.1)
    over = replace(tube, hollow=0.004)
    plain, hollow = cell(layers, tube, 0.1, 1.0), cell(layers, over, 0.1, 1.0)
    assert 0.90 * plain.water_to_room < hollow.water_to_room < 0.99 * plain.water_to_room
    monkeypatch.setattr(cells, "STILL_AIR", 1.6)
    anew = cell(layers, over, 0.1 + 1e-9, 1.0)  # another film by a hair: cells are kept by their numbers
    assert anew.water_to_room == pytest.approx(plain.water_to_room, rel=1e-4)


def test_a_hollow_that_reaches_out_of_its_layer_is_refused():
    with pytest.raises(OutOfDomain):
        cell((Layer(0.1, 1.6), Layer(0.05, 0.035)), Tube(0.016, 0.085, 0.2, 0.1, hollow=0.02), 0.1, 1.0)


@pytest.mark.parametrize("other", [4.0, 0.3, -0.2])
def test_a_floor_whose_water_stands_lets_through_what_its_layers_and_the_ground_do(other):
    """Also where edges let so much past the foam that what is left for the ground is less than nothing."""
    layers = (Layer(0.1, 1.6), Layer(0.05, 0.035))
    own = 0.1 + 0.1 / 1.6 + 0.05 / 0.035
    made = cell(layers, Tube(0.016, 0.04, 0.2, 0.1), 0.1, 0.05)
    untouched = 3.0 / (own + other)  # up, from ground of 8 °C into a room of 5
    one_month = np.where(np.arange(12) == 0, untouched, 0.0)
    year = season(made, 0.05, Below(other, 8.0), Below(other, 0j), np.full(12, 5.0), one_month)
    assert year.up == pytest.approx(np.full(12, untouched), rel=0.01)
    assert (year.up + year.down)[1:] == pytest.approx(np.zeros(11), abs=1e-9)
    at_the_place = made.down(float(year.water[3]), 5.0, float(year.below[3]))
    assert at_the_place == pytest.approx(float(year.down[3]), rel=1e-9)


def test_a_hollow_is_as_high_as_told_and_begins_below_the_tube():
    tube = Tube(0.016, 0.085, 0.2, 0.1, hollow=0.004)
    bodies, spaces = cells.drawn((Layer(0.1, 1.6), Layer(0.05, 0.035)), tube)
    (air,) = [each for each in bodies if each.conductivity == cells.STILL_AIR]
    rise, across = ([place[n] for place in air.outline] for n in (1, 0))
    assert max(rise) - min(rise) == pytest.approx(0.004) and min(across) == 0.0
    assert max(rise) == pytest.approx(min(y for _, y in spaces[cells.WATER].outline))
    assert 0.007 < max(across) < 0.008
