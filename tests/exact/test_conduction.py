"""Conduction in sections against closed forms, against stepping through time, against itself turned and mirrored."""

from functools import cache
from itertools import pairwise
from math import pi, radians

import numpy as np
import pytest
from pytest import approx

from bodies import PRESCRIBED, body, box, of_space, space
from sections_at_random import CLIMATES, FILMS, drawn_at_random, edge_of, floor_of, foam, slice_of
from underpour.physics.conduction.assemble import FACINGS
from underpour.physics.conduction.sample import sampled
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import YEAR, Climate, Gap, Overlap, factor, solve
from underpour.sections.build import section

PLAIN = Films(0.13, 0.13, 0.13)
OUTER = Films(0.04, 0.04, 0.04)
BOTH = {"room": PLAIN, "outdoors": OUTER}
STEADY = {"room": Climate(20.0), "outdoors": Climate(-5.0)}
SEEDS = range(1, 11)


@cache
def at_random(seed):
    """A random section to one part in a hundred."""
    made = drawn_at_random(seed)
    return solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.01)


def two_leaves():
    """A wall of 0.1 m foam outside and 0.2 m concrete inside, 1 m high; the room is on the right."""
    leaves = [body(box(0.0, 0.1, 0.0, 1.0), 0.035), body(box(0.1, 0.3, 0.0, 1.0), 1.7)]
    return leaves, [space("room", box(0.3, 1.0, 0.0, 1.0)), space("outdoors", box(-1.0, 0.0, 0.0, 1.0))]


def test_a_plain_wall_is_exact():
    """Flow = difference over sum of resistances; each temperature falls with the resistance before it. Derived."""
    solved = solve(*two_leaves(), BOTH, STEADY)
    resistances = np.array([0.13, 0.2 / 1.7, 0.1 / 0.035, 0.04])
    flow = 25.0 / resistances.sum()
    assert solved.flow(of_space(0)).mean == approx(flow, rel=1e-9)
    expected = 20.0 - flow * np.cumsum(resistances)[:3]
    assert [solved.temperature(x, 0.0).mean for x in (0.3, 0.1, 0.0)] == approx(expected, rel=1e-9)


def test_a_drawn_wall_has_straight_temperatures():
    """Sampled between the corners: linear in each leaf, not a number in the air. Derived."""
    field = sampled(solve(*two_leaves(), BOTH, STEADY), (-0.2, 0.6, 0.0, 1.0), (0.3, 0.3))
    wall = (field.x >= 0.0) & (field.x <= 0.3)
    flow = 25.0 / (0.13 + 0.2 / 1.7 + 0.1 / 0.035 + 0.04)
    outer = -5.0 + flow * 0.04
    expected = outer + flow * np.where(field.x < 0.1, field.x / 0.035, 0.1 / 0.035 + (field.x - 0.1) / 1.7)
    assert field.mean[:, wall] == approx(
        np.tile(expected[wall], (len(field.y), 1)), abs=1e-4
    )  # kept in single precision
    assert np.isnan(field.mean[:, ~wall]).all()


@pytest.mark.parametrize("resistance", [1e-8, 0.04, 0.5])
def test_thick_ground_under_a_film_swings_as_a_half_space(resistance):
    """T = A exp(-g z) / (1 + R k g), g = (1 + i) / penetration. Carslaw and Jaeger, half-space, from memory."""
    conductivity, capacity, depth = 1.5, 3.0e6, 1.5
    ground = [
        body(box(0.0, 1.0, -depth, 0.0), conductivity, heat_capacity=capacity),
        body(box(0.0, 1.0, -40.0, -depth), conductivity, heat_capacity=capacity),
    ]
    films = {"outdoors": Films(resistance, resistance, resistance)}
    swing = -12.0 + 5.0j
    solved = solve(ground, [space("outdoors", box(0.0, 1.0, 0.0, 1.0))], films, {"outdoors": Climate(8.0, swing)})
    g = (1 + 1j) / (YEAR * conductivity / (pi * capacity)) ** 0.5
    surface = swing / (1.0 + resistance * conductivity * g)
    assert abs(solved.flow(of_space(0)).swing / (surface * conductivity * g) - 1.0) < 0.005
    assert abs(solved.temperature(0.0, 0.0).swing / surface - 1.0) < 0.005
    assert abs(solved.temperature(0.0, -depth).swing / (surface * np.exp(-g * depth)) - 1.0) < 0.005


@pytest.mark.parametrize(
    ("mean", "swing", "diffusivity", "depth", "day", "coldest", "expected"),
    [
        (10.0, 12.0, 0.05, 1.0, 15.0, 35.0, 4.2513),
        (8.0, 14.0, 0.06, 3.0, 200.0, 20.0, 9.715),
        (10.0, 12.0, 0.05, 0.0, 35.0, 35.0, -2.0),
    ],
)
def test_undisturbed_ground_is_as_warm_as_kusuda_and_achenbach_say(
    mean, swing, diffusivity, depth, day, coldest, expected
):
    """Kusuda and Achenbach 1965, ASHRAE Transactions 71(1), 61-74: formula quoted, values derived from it.

    Diffusivity in m² a day, days of a year of 365; the wave is laid over our year of 365.2425 days by its share of the
    year. Solved with the surface held at the air's temperature. The tolerance is 0.5 % of the swing.
    """
    capacity = 2.0e6
    conductivity = diffusivity * capacity / 86400.0 * 365.0 / (YEAR / 86400.0)
    levels = sorted({-40.0, -depth, 0.0})
    ground = [body(box(0.0, 1.0, low, high), conductivity, heat_capacity=capacity) for low, high in pairwise(levels)]
    wave = -swing * np.exp(-1j * radians(360.0 * coldest / 365.0))
    solved = solve(
        ground,
        [space("outdoors", box(0.0, 1.0, 0.0, 1.0))],
        {"outdoors": PRESCRIBED},
        {"outdoors": Climate(mean, wave)},
    )
    told = solved.temperature(0.0, -depth)
    ours = told.mean + (told.swing * np.exp(1j * radians(360.0 * day / 365.0))).real
    assert ours == approx(expected, abs=0.005 * swing)


def test_ground_far_from_a_building_swings_as_undisturbed_ground():
    """At the outer end of a section the swing is that of a half-space under the film, to 0.5 %. Derived."""
    made = section(
        floor_of(slice_of("concrete", 0.1, 1.7), foam(0.05), half_width=3.0), edge_of("footing-wall", ground=0.6)
    )
    solved = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=1.0)
    equations = solved.fine.equations
    level = equations.y[np.abs(equations.y + 1.0).argmin()]  # about 1.6 m below the ground outside
    g = (1 + 1j) / (YEAR * 1.5 / (pi * 3.0e6)) ** 0.5
    surface = CLIMATES["outdoors"].swing / (1.0 + 0.04 * 1.5 * g)
    ours = solved.temperature(made.extent[0], level).swing
    assert abs(ours / (surface * np.exp(-g * (made.ground_level - level))) - 1.0) < 0.005


@pytest.mark.parametrize("seed", SEEDS)
def test_heat_that_goes_in_comes_out(seed):
    """Sum of all flows against the largest, ten sections drawn at random. Derived: nothing is lost in conduction."""
    assert at_random(seed).imbalance < 1e-8


@pytest.mark.parametrize("seed", SEEDS)
def test_no_place_is_warmer_or_colder_than_all_air(seed):
    """Maximum principle, for the mean and for the size of the swing, on both grids. Derived.

    Cells of 0.1 m on thin foam between room and outdoors broke this by 0.10 K in seed 9.
    """
    for grid in (at_random(seed).coarse, at_random(seed).fine):
        assert CLIMATES["outdoors"].mean <= grid.mean.min()
        assert grid.mean.max() <= CLIMATES["room"].mean
        assert np.abs(grid.swing).max() <= abs(CLIMATES["outdoors"].swing)


def test_a_wall_turned_by_45_degrees_loses_as_much():
    """Thickness sqrt(2), length 3 sqrt(2); its ends are closed by bodies that conduct next to nothing. Derived."""
    wall = body(((1.0, 0.0), (4.0, 3.0), (3.0, 4.0), (0.0, 1.0)), 1.2)
    ends = [body(((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)), 1e-12), body(((4.0, 3.0), (4.0, 4.0), (3.0, 4.0)), 1e-12)]
    spaces = [
        space("room", ((1.0, 0.0), (4.0, 0.0), (4.0, 3.0))),
        space("outdoors", ((0.0, 1.0), (3.0, 4.0), (0.0, 4.0))),
    ]
    solved = solve([wall, *ends], spaces, BOTH, STEADY)
    root = 2.0**0.5
    assert solved.flow(of_space(0)).mean == approx(3.0 * root * 25.0 / (0.13 + root / 1.2 + 0.04), rel=1e-8)


def test_a_slanted_joint_between_equal_materials_changes_nothing():
    """A wall of two wedges of one material is that wall. Derived."""
    wedges = [
        body(((0.0, 0.0), (0.1, 0.0), (0.2, 1.0), (0.0, 1.0)), 1.2),
        body(((0.1, 0.0), (0.3, 0.0), (0.3, 1.0), (0.2, 1.0)), 1.2),
    ]
    solved = solve(wedges, two_leaves()[1], BOTH, STEADY)
    assert solved.flow(of_space(0)).mean == approx(25.0 / (0.13 + 0.3 / 1.2 + 0.04), rel=1e-9)


def sloping(side):
    """Heat from the room above through ground with a slanted wedge of foam; ``side`` -1 is the mirror picture."""

    def laid(*corners):
        return tuple((side * x, y) for x, y in corners)

    blocks = [
        body(laid(*box(0.0, 2.0, -1.0, 1.0)), 1.5, 2),
        body(laid((0.0, 0.25), (1.0, 0.5), (1.0, 0.75), (0.0, 0.5)), 0.035, 1),
    ]
    airs = [space("room", laid(*box(0.0, 2.0, 1.0, 2.0))), space("outdoors", laid(*box(2.0, 3.0, -1.0, 2.0)))]
    return solve(blocks, airs, BOTH, CLIMATES, tolerance=0.01).flow(of_space(0))


def test_a_section_and_its_mirror_picture_agree():
    """Sides that rise to the right and sides that fall: same heat, mean and swing. Derived."""
    right, left = sloping(1.0), sloping(-1.0)
    assert left.mean == approx(right.mean, rel=1e-9)
    assert abs(left.swing - right.swing) < 1e-9 * abs(right.swing)


def test_bodies_that_contradict_each_other_are_named():
    leaves, airs = two_leaves()
    leaves.append(body(box(0.05, 0.15, 0.2, 0.4), 0.5))
    with pytest.raises(Overlap) as raised:
        solve(leaves, airs, BOTH, STEADY)
    assert raised.value.pairs == ((0, 2), (1, 2))


def test_a_hole_is_told_with_its_place():
    leaves, airs = two_leaves()
    leaves[0].outline = box(0.0, 0.1, 0.0, 0.6)
    with pytest.raises(Gap) as raised:
        solve(leaves, airs, BOTH, STEADY)
    assert 0.0 < raised.value.x < 0.1
    assert 0.6 < raised.value.y < 1.0


def stepped(equations, start, years, steps_a_year, ahead_share, films, climates, where):
    """Step through time; last temperatures, and the first harmonic over all steps.

    ``ahead_share`` of each step is taken at its end: 1/2 is Crank and Nicolson, 1 damps whatever is not settled.
    """
    faces = equations.faces
    met = zip(faces.space, faces.facing, strict=True)
    resistance = np.array([films[where[space]].of(FACINGS[facing]) for space, facing in met])
    air = [climates[where[n]] for n in faces.space]
    mean = equations.load(resistance, np.array([one.mean for one in air]))
    swing = equations.load(resistance, np.array([one.swing for one in air], complex))
    step, count, behind_share = YEAR / steps_a_year, years * steps_a_year, 1.0 - ahead_share
    conduction = equations.conduction + equations.films(resistance)
    ahead = factor((equations.storage / step + ahead_share * conduction).tocsc())
    behind = (equations.storage / step - behind_share * conduction).tocsr()
    turn = np.exp(2j * pi / steps_a_year * np.arange(count + 1))
    temperature, harmonic = start, np.zeros(len(start), complex)
    for now, then in pairwise(turn):
        load = mean + (swing * (behind_share * now + ahead_share * then)).real
        temperature = ahead.solve(behind @ temperature + load)
        harmonic += temperature * then.conjugate()
    return temperature, harmonic * 2.0 / count


def test_the_swing_is_what_hourly_stepping_settles_to():
    """Amplitude and phase everywhere within 0.5 % of the swing outdoors, over two settled years. Derived.

    The grid's own matrices; eight years of daily steps from the mean and one year by the hour come first. Where
    something moves by a fifth of the outdoor swing or more, amplitude and phase are held to 0.5 % of themselves.
    """
    bodies = [
        body(((-4.0, -4.0), (2.0, -4.0), (2.0, -0.15), (0.0, -0.15), (0.0, -0.1), (-4.0, -0.1)), 1.5, 9, 3.0e6),
        body(box(0.0, 2.0, -0.1, 0.0), 1.7, 1, 2.2e6),
        body(box(0.0, 2.0, -0.15, -0.1), 0.035, 1, 3.0e4),
    ]
    spaces = [space("room", box(0.0, 2.0, 0.0, 0.5)), space("outdoors", box(-4.0, 0.0, -0.1, 0.5))]
    coarse = solve(bodies, spaces, FILMS, CLIMATES, tolerance=1.0).coarse
    given = (FILMS, CLIMATES, [one.where for one in spaces])
    nearly, _ = stepped(coarse.equations, coarse.mean, 8, 365, 1.0, *given)
    settled, _ = stepped(coarse.equations, nearly, 1, 8766, 0.5, *given)
    after, harmonic = stepped(coarse.equations, settled, 2, 8766, 0.5, *given)
    outdoors = abs(CLIMATES["outdoors"].swing)
    assert np.abs(after - settled).max() < 0.001 * outdoors
    assert np.abs(harmonic - coarse.swing).max() < 0.005 * outdoors
    moving = np.abs(coarse.swing) > 0.2 * outdoors
    assert np.abs(harmonic[moving] / coarse.swing[moving] - 1.0).max() < 0.005
