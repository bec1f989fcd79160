"""Whole floors as one plate, against exact patches, against a library's cubic elements, and by equilibrium.

The library is scikit-fem with Bogner, Fox and Schmit's element: another assembly, other sums, every load and every
change of slab or bed on lines of its own grid, no spreading over cells and nothing by closed forms.
"""

from itertools import pairwise

import numpy as np
import pytest
import skfem
from pytest import approx
from skfem.helpers import dd, ddot, eye, trace

from underpour.physics.plates import patches, springs, whole
from underpour.physics.plates.slab import Joint, Pressed, Region, Slab, inside
from underpour.physics.plates.whole import WITHIN, Case, stood

MODULUS, POISSON, THICKNESS, FOUNDATION, HEAVY = 30e9, 0.2, 0.15, 26e6, 24e3
RADIUS = springs.radius_of_relative_stiffness(springs.plate_stiffness(MODULUS, THICKNESS, POISSON), FOUNDATION)


def box(x0, y0, x1, y1):
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def post(x, y, side=0.2, force=50e3):
    half = side / 2.0
    return Pressed(box(x - half, y - half, x + half, y + half), force / side**2)


def forgotten():
    stood.cache_clear()
    whole._worked.cache_clear()


def slab(outline, **more):
    return Slab(outline, THICKNESS, MODULUS, POISSON, FOUNDATION, **more)


def peer(of, loads, heavy=0.0):
    """Settlement of the library's plate as a function of places; springs that pull as they press."""
    every = [of.outline, *(r.outline for r in (*of.thickened, *of.otherwise_borne)), *(load.outline for load in loads)]
    lines = []
    for axis in (0, 1):
        ends = np.asarray(of.outline)[:, axis]
        kept = sorted({round(float(p[axis]), 9) for ring in every for p in ring})
        kept = [each for each in kept if ends.min() <= each <= ends.max()]
        fine = [np.linspace(a, b, max(int(np.ceil((b - a) / 0.2)), 1) + 1)[:-1] for a, b in pairwise(kept)]
        lines.append(np.append(np.concatenate(fine), ends.max()))
    basis = skfem.Basis(skfem.MeshQuad.init_tensor(*lines), skfem.ElementQuadBFS(), intorder=6)

    @skfem.BilinearForm
    def stiff(u, v, w):
        x, y = w.x
        bends = springs.plate_stiffness(of.modulus, of.thickness_at(x, y), of.poisson)
        moment = bends * ((1.0 - of.poisson) * dd(u) + of.poisson * eye(trace(dd(u)), 2))
        return ddot(moment, dd(v)) + of.foundation_at(x, y) * u * v

    @skfem.LinearForm
    def pushed(v, w):
        x, y = w.x
        push = heavy * of.thickness_at(x, y)
        return (push + sum(load.pressure * inside([load.outline], x, y) for load in loads)) * v

    found = skfem.solve(stiff.assemble(basis), pushed.assemble(basis))
    return lambda places: basis.probes(np.asarray(places, float).T) @ found


def test_neighbours_far_from_edges_do_what_their_exact_patches_do_together():
    """Three posts 1.1 m and 2.7 m apart, 6 radii from every edge: settlement to 1 %, tension to 6 %."""
    loads = (post(6.03, 5.61), post(7.13, 5.61), post(6.03, 8.31))
    places = np.array([load.middle for load in loads])
    (found,) = stood(slab(box(0.0, 0.0, 13.0, 13.0)), HEAVY, 0.0, (Case(loads),), tuple(map(tuple, places)))
    exact = [patches.patch(p.pressure, p.outline, RADIUS, FOUNDATION, POISSON, places) for p in loads]
    assert found.settlement[:3] == approx(sum(each.settlement for each in exact), rel=0.01)
    middle = sum(each.moment_x + each.moment_y for each in exact) / 2.0
    apart = np.hypot(sum(e.moment_x - e.moment_y for e in exact) / 2.0, sum(e.moment_xy for e in exact))
    assert found.below[:3] == approx(6.0 * (middle + apart) / THICKNESS**2, rel=WITHIN)


def test_a_floor_with_thickened_edges_and_soft_ground_does_what_the_library_s_plate_does():
    """Wall strips on two thickened edges, a bay of softer ground, a post inside and one in a corner; 2 %."""
    edges = (Region(box(0.0, 0.0, 0.5, 6.0), 0.35), Region(box(0.0, 0.0, 8.0, 0.5), 0.35))
    soft = (Region(box(5.0, 3.0, 8.0, 6.0), 9e6), Region(box(0.0, 0.0, 8.0, 0.5), 40e6))
    of = slab(box(0.0, 0.0, 8.0, 6.0), thickened=edges, otherwise_borne=soft)
    wall = Pressed(box(0.0, 0.0, 8.0, 0.25), 20e3 / 0.25)
    loads = (wall, post(2.9, 3.3), post(7.8, 5.8, 0.4, 20e3))
    places = ((4.0, 0.1), (2.9, 3.3), (7.8, 5.8), (5.0, 3.0), (0.05, 5.9), (6.5, 4.5))
    (ours,) = stood(of, HEAVY, 0.0, (Case(loads),), places)
    assert not ours.lifted
    theirs = peer(of, loads)(places)
    assert ours.settlement[:6] == approx(theirs, rel=0.02, abs=0.01 * theirs.max())
    weighed = peer(of, loads, HEAVY)(places)
    k = of.foundation_at(*np.array(places).T)
    assert ours.pressure[:6] == approx(k * weighed, rel=0.02, abs=0.01 * (k * weighed).max())


def test_a_joint_that_hands_nothing_on_leaves_each_bay_to_itself():
    """A wheel 0.3 m off a joint: the loaded bay does what the library's plate of that bay alone does; 2 %."""
    of = slab(box(0.0, 0.0, 8.0, 4.0), joints=(Joint("x", 4.0, 0.0),))
    wheel = post(3.7, 2.2, 0.3)
    places = ((4.0 - 1e-6, 2.2), (3.7, 2.2), (4.0 + 1e-6, 2.2))
    (ours,) = stood(of, HEAVY, 0.0, (Case((wheel,)),), places)
    alone = peer(slab(box(0.0, 0.0, 4.0, 4.0)), (wheel,))(places[:2])
    assert not ours.lifted
    assert ours.settlement[:2] == approx(alone, rel=0.02)
    assert abs(ours.settlement[2]) < 1e-9


def test_several_cases_are_what_each_is_by_itself():
    of, one, other = slab(box(0.0, 0.0, 6.0, 5.0)), post(2.0, 2.0), post(4.1, 3.2)
    together = stood(of, HEAVY, 500.0, (Case((one,)), Case((one, other), 2e3)), ())
    (alone,) = stood(of, HEAVY, 500.0, (Case((one, other), 2e3),), ())
    assert together[1].pressure.max() == approx(alone.pressure.max(), rel=1e-9)
    assert together[0].pressure.max() < alone.pressure.max()


def test_what_bears_nothing_lets_the_edge_down_and_what_lifts_is_told():
    hollow = slab(box(0.0, 0.0, 6.0, 5.0), otherwise_borne=(Region(box(0.0, 0.0, 0.4, 5.0), 0.0),))
    load = post(0.3, 2.5, 0.3, 15e3)
    (over,) = stood(hollow, HEAVY, 0.0, (Case((load,)),), ((0.3, 2.5),))
    (borne,) = stood(slab(box(0.0, 0.0, 6.0, 5.0)), HEAVY, 0.0, (Case((load,)),), ((0.3, 2.5),))
    assert over.settlement[0] > 1.3 * borne.settlement[0]
    assert over.pressure[0] == 0.0
    light = slab(box(0.0, 0.0, 3.0, 1.0))
    (up,) = stood(light, 1.0, 0.0, (Case((post(0.2, 0.5),)),), ((2.9, 0.5),))
    assert up.lifted and up.pressure[0] == 0.0 and up.settlement[0] < 0.0


@pytest.mark.parametrize("joints", [(), (Joint("x", 30.0, 3e7), Joint("y", 20.0, 3e7))])
def test_a_floor_of_sixty_metres_with_four_hundred_posts_takes_the_same_way(joints):
    """Where posts stand far from edge and joint, the plate gives their exact patches: settlement 0.5 %, tension 3 %."""
    random = np.random.default_rng(3)
    posts = tuple(
        post(x + random.uniform(-0.6, 0.6), y + random.uniform(-0.4, 0.4), 0.15)
        for x in np.linspace(3.0, 57.0, 20)
        for y in np.linspace(2.5, 37.5, 20)
    )
    places = np.array([posts[20 * column + row].middle for column, row in ((3, 4), (6, 14), (13, 5), (16, 15))])
    of = slab(box(0.0, 0.0, 60.0, 40.0), joints=joints)
    (ours,) = stood(of, HEAVY, 0.0, (Case(posts),), tuple(map(tuple, places)))
    exact = [patches.patch(p.pressure, p.outline, RADIUS, FOUNDATION, POISSON, places) for p in posts]
    assert ours.settlement[:4] == approx(sum(each.settlement for each in exact), rel=0.005)
    middle = sum(each.moment_x + each.moment_y for each in exact) / 2.0
    apart = np.hypot(sum(e.moment_x - e.moment_y for e in exact) / 2.0, sum(e.moment_xy for e in exact))
    assert ours.below[:4] == approx(6.0 * (middle + apart) / THICKNESS**2, rel=0.03)


@pytest.mark.parametrize("off", [0.02, 0.1, 0.2])
def test_a_post_beside_a_joint_of_a_floor_too_large_for_lines_of_its_own_gets_a_piece(monkeypatch, off):
    """Settlement as the library's plate of the bay alone, 2 %; tension as on a floor cut at the post, 6 %."""
    of = slab(box(0.0, 0.0, 14.0, 8.0), joints=(Joint("x", 8.0, 0.0),))
    load = post(8.0 - 0.1 - off, 4.3)
    forgotten()
    (own,) = stood(of, HEAVY, 0.0, (Case((load,)),), (load.middle,))
    monkeypatch.setattr(whole, "MOST_CELLS", 800)
    forgotten()
    (ours,) = stood(of, HEAVY, 0.0, (Case((load,)),), (load.middle, (8.0 + 1e-6, 4.3)))
    forgotten()
    alone = peer(slab(box(0.0, 0.0, 8.0, 8.0)), (load,))([load.middle])
    assert ours.settlement[0] == approx(alone[0], rel=0.02)
    assert abs(ours.settlement[1]) < 0.02 * alone[0]
    assert ours.below.max() == approx(own.below.max(), rel=WITHIN)
    assert ours.pressure.max() == approx(own.pressure.max(), rel=0.02)
