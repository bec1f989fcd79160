"""The plate by elements against exact patches, Westergaard's edge, the corner's fit, and itself turned about."""

import numpy as np
import pytest
from pytest import approx

from underpour.physics.domain import OutOfDomain
from underpour.physics.plates import loads, patches, springs, westergaard
from underpour.physics.plates.lines import lines_of
from underpour.physics.plates.plate import StillLifting, plate
from underpour.physics.plates.slab import Joint, Pressed, Region, Slab

MODULUS, POISSON, THICKNESS, FOUNDATION = 30e9, 0.2, 0.15, 26e6
STIFFNESS = springs.plate_stiffness(MODULUS, THICKNESS, POISSON)
RADIUS = springs.radius_of_relative_stiffness(STIFFNESS, FOUNDATION)


def box(x0, y0, x1, y1):
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def slab(outline, **more):
    return Slab(outline, THICKNESS, MODULUS, POISSON, FOUNDATION, **more)


def square_load(x, y, side, force=50e3):
    half = side / 2.0
    return Pressed(box(x - half, y - half, x + half, y + half), force / side**2)


def made(of, *beside, widest=0.3, at_edges=0.15):
    return plate(of, *lines_of(of, widest, at_edges=at_edges, beside=beside))


def felt(of, load, x, y):
    found = of.found(loads.pressed(of, load))
    return of.answered(found, np.atleast_1d(np.asarray(x, float)), np.atleast_1d(np.asarray(y, float)))


@pytest.mark.parametrize("share", [0.15, 0.4, 1.0])
def test_a_load_in_the_middle_does_what_an_exact_patch_does(share):
    """A square with the area of a circle of 0.15 thicknesses and more, 6 radii of stiffness from every edge."""
    side = share * THICKNESS * np.sqrt(np.pi)
    reach = 6.0 * RADIUS
    load = square_load(0.0, 0.0, side)
    ours = felt(made(slab(box(-reach, -reach, reach, reach)), load, widest=0.4), load, 0.0, 0.0)
    exact = patches.patch(load.pressure, load.outline, RADIUS, FOUNDATION, POISSON, np.zeros((1, 2)))
    assert ours.settlement[0] == approx(exact.settlement[0], rel=0.01)
    assert ours.pressure[0] == approx(FOUNDATION * exact.settlement[0], rel=0.01)
    assert ours.moment_x[0] == approx(exact.moment_x[0], rel=0.02)


def test_moments_come_right_with_the_second_power_of_the_cells_and_settlement_with_the_fourth():
    """An even load on 2 m by 2 m in the middle of 20 m by 20 m against the endless plate; cells of 1, 1/2, 1/4 m.

    Root of the mean square over 60 places about the load, since within a cell the error of a moment waves.
    """
    load = Pressed(box(-1.0, -1.0, 1.0, 1.0), 50e3)
    places = np.random.default_rng(5).uniform(-2.0, 2.0, (60, 2))
    exact = patches.patch(load.pressure, load.outline, RADIUS, FOUNDATION, POISSON, places)
    errors = []
    for count in (20, 40, 80):
        line = np.linspace(-10.0, 10.0, count + 1)
        of = plate(slab(box(-10.0, -10.0, 10.0, 10.0)), line, line)
        ours = of.answered(of.found(loads.pressed(of, load)), *places.T)
        off = ours.settlement - exact.settlement, ours.moment_x - exact.moment_x
        errors.append([float(np.sqrt(np.mean(each**2))) for each in off])
    down, bent = zip(*errors, strict=True)
    assert np.log2(bent[1] / bent[2]) == approx(2.0, abs=0.5)
    assert np.log2(down[1] / down[2]) == approx(4.0, abs=0.5)


@pytest.mark.parametrize("share", [0.05, 0.1, 0.2, 0.3])
def test_an_edge_is_bent_as_westergaard_says(share):
    """A circle of 48 sides that touches the edge; largest tension along it within 5 %."""
    contact = share * RADIUS
    turn = 2.0 * np.pi * (np.arange(48) + 0.5) / 48
    outline = tuple(zip(contact * np.cos(turn), contact * (1.0 + np.sin(turn)), strict=True))
    load = Pressed(outline, 50e3 / (np.pi * contact**2))
    reach = 6.0 * RADIUS
    beside = Pressed(box(-contact, 0.0, contact, 2.0 * contact), 1.0)
    ours = felt(made(slab(box(-reach, 0.0, reach, reach)), beside, widest=0.4), load, 0.0, 0.0)
    print_ = westergaard.edge(load.force, contact, THICKNESS, POISSON, MODULUS, RADIUS, FOUNDATION)
    assert ours.tension_below[0] == approx(print_.stress, rel=0.05)
    assert ours.settlement[0] == approx(print_.settlement, rel=0.05)


@pytest.mark.parametrize("share", [0.05, 0.1, 0.2])
def test_a_corner_does_what_the_fit_of_1985_says(share):
    """A square in the corner: settlement within 6 %, largest tension above within 10 %."""
    side = share * RADIUS * np.sqrt(np.pi)
    load = Pressed(box(0.0, 0.0, side, side), 50e3 / side**2)
    reach = 6.0 * RADIUS
    of = made(slab(box(0.0, 0.0, reach, reach)), load, widest=0.3, at_edges=0.05)
    along = np.linspace(0.0, 3.0 * RADIUS, 200) / np.sqrt(2.0)
    ours = felt(of, load, along, along)
    print_ = westergaard.corner_1985(50e3, share * RADIUS, THICKNESS, RADIUS, FOUNDATION)
    assert ours.settlement[0] == approx(print_.settlement, rel=0.06)
    assert ours.tension_above.max() == approx(print_.stress, rel=0.10)


def test_a_slab_that_is_turned_is_the_same_slab():
    """An L with a hole, by whole cells and turned by 27 degrees by cut ones: free edges anywhere."""
    l_shape = ((0.0, 0.0), (4.0, 0.0), (4.0, 1.5), (1.5, 1.5), (1.5, 3.0), (0.0, 3.0))
    hole = box(2.5, 0.4, 3.1, 0.9)
    load = Pressed(box(1.8, 0.2, 2.3, 0.7), 1e5)
    places = np.array([[2.05, 0.45], [4.0, 0.0], [0.0, 3.0], [1.5, 1.5], [2.5, 0.65]])
    straight = made(slab(l_shape, holes=(hole,)), load, widest=0.15, at_edges=0.1)
    upright = felt(straight, load, *places.T)

    turn = np.deg2rad(27.0)
    matrix = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])

    def turned(ring):
        return tuple(map(tuple, np.asarray(ring) @ matrix.T))

    line = np.arange(-2.0, 4.5, 0.1)
    slanted = plate(slab(turned(l_shape), holes=(turned(hole),)), line, line)
    ours = felt(slanted, Pressed(turned(load.outline), 1e5), *(places @ matrix.T * (1.0 - 1e-9)).T)
    assert ours.settlement == approx(upright.settlement, rel=2e-3, abs=2e-3 * upright.settlement.max())
    assert ours.principal[0][0] == approx(upright.principal[0][0], rel=0.02)


def test_a_disc_settles_evenly_under_an_even_load():
    turn = 2.0 * np.pi * np.arange(60) / 60
    disc = tuple(zip(2.0 * np.cos(turn), 2.0 * np.sin(turn), strict=True))
    line = np.linspace(-2.0, 2.0, 14)
    of = plate(slab(disc), line, line)
    down = of.answered(of.found(of.weight(2400.0)), np.array([0.0, 1.9, 1.3]), np.array([0.0, 0.0, -1.3]))
    assert down.settlement == approx(0.15 * 2400.0 * 9.80665 / FOUNDATION, rel=1e-6)


def test_the_ground_bears_the_load_and_holds_its_middle():
    load = square_load(1.0, 0.6, 0.3)
    of = made(slab(box(0.0, 0.0, 3.0, 2.0)), load)
    found = of.found(loads.pressed(of, load))
    forces = [(k * places.at(found), places) for k, places in zip(of.strength, of.places, strict=True)]
    assert sum(force.sum() for force, _ in forces) == approx(50e3, rel=1e-9)
    assert sum((force * places.x).sum() for force, places in forces) == approx(50e3 * 1.0, rel=1e-9)
    assert sum((force * places.y).sum() for force, places in forces) == approx(50e3 * 0.6, rel=1e-9)


def test_a_joint_without_transfer_is_a_free_edge_and_a_stiff_one_keeps_both_sides_level():
    load = square_load(1.7, 1.0, 0.2)
    whole, left = box(0.0, 0.0, 4.0, 2.0), box(0.0, 0.0, 2.0, 2.0)
    alone = felt(made(slab(left), load), load, 2.0, 1.0).settlement[0]
    free = felt(made(slab(whole, joints=(Joint("x", 2.0, 0.0),)), load), load, 2.0 - 1e-9, 1.0).settlement[0]
    assert free == approx(alone, rel=0.01)
    stiff = made(slab(whole, joints=(Joint("x", 2.0, 1e12),)), load)
    sides = felt(stiff, load, [2.0 - 1e-9, 2.0 + 1e-9], [1.0, 1.0])
    assert sides.settlement[0] == approx(sides.settlement[1], rel=1e-3)
    assert sides.settlement[0] < 0.75 * alone
    assert abs(sides.moment_x).max() < 0.05 * abs(felt(made(slab(whole), load), load, 2.0, 1.0).moment_x[0])


def test_foam_that_ends_short_of_the_edge_lets_the_edge_down_and_a_thicker_edge_holds_it():
    load = square_load(0.1, 1.0, 0.2)
    strip = box(0.0, 0.0, 0.3, 2.0)
    outline = box(0.0, 0.0, 3.0, 2.0)
    plain, hollow, thick = (
        felt(made(each, load), load, 0.0, 1.0).settlement[0]
        for each in (
            slab(outline),
            slab(outline, otherwise_borne=(Region(strip, 0.0),)),
            slab(outline, thickened=(Region(strip, 0.4),)),
        )
    )
    assert hollow > 1.5 * plain
    assert thick < 0.95 * plain


def test_springs_that_only_press_let_a_light_corner_rise():
    """A load at one end of a strip without weight: the far end lifts, what bears carries all, and nothing pulls."""
    load = square_load(0.2, 0.5, 0.2)
    of = made(slab(box(0.0, 0.0, 4.0, 1.0)), load)
    pushed = loads.pressed(of, load)
    found, turns = of.lifting(pushed)
    down = of.answered(found, np.array([0.2, 4.0]), np.array([0.5, 0.5]))
    assert turns > 1
    assert down.settlement[1] < 0.0 < down.settlement[0]
    borne = sum((k * np.maximum(places.at(found), 0.0)).sum() for k, places in zip(of.strength, of.places, strict=True))
    assert borne == approx(50e3, rel=1e-9)


def test_a_slab_that_nothing_holds_down_is_told():
    load = square_load(0.2, 0.5, 0.2)
    of = made(slab(box(0.0, 0.0, 4.0, 1.0)), load)
    with pytest.raises(StillLifting):
        of.lifting(-loads.pressed(of, load))


def test_curling_lifts_edges_and_keeps_the_middle_flat():
    """Hetenyi's beam with a moment at its end: far from corners an edge rises by (1 + ν) κ l²; the middle stays."""
    of = made(slab(box(-7.0, -7.0, 7.0, 7.0)), widest=0.5)
    curvature = 1e-4
    found = of.found(loads.curled(of, curvature))
    ours = of.answered(found, np.array([0.0, 7.0]), np.array([0.0, 0.0]))
    assert ours.settlement[0] == approx(0.0, abs=0.01 * curvature * RADIUS**2)
    assert ours.settlement[1] == approx(-(1.0 + POISSON) * curvature * RADIUS**2, rel=0.01)
    assert abs(ours.moment_x[0]) < 0.02 * STIFFNESS * curvature  # none of bending: what holds it flat is not in it


@pytest.mark.parametrize("x", [-0.05, 3.5])
def test_a_load_that_hangs_over_is_refused(x):
    of = made(slab(box(0.0, 0.0, 3.0, 2.0)))
    with pytest.raises(OutOfDomain, match="stands on the slab with"):
        loads.pressed(of, square_load(x, 1.0, 0.2))
