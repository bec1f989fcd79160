"""Large floors by heaps and what heaps leave out, against exact patches added up and a grid fine beside the load."""

import numpy as np
import pytest
from pytest import approx

from underpour.physics.plates import loads, patches, springs
from underpour.physics.plates.lines import lines_of
from underpour.physics.plates.plate import plate
from underpour.physics.plates.slab import Pressed, Slab
from underpour.physics.plates.split import CELLS, heap, left_out

MODULUS, POISSON, THICKNESS, FOUNDATION = 30e9, 0.2, 0.18, 30e6
RADIUS = springs.radius_of_relative_stiffness(springs.plate_stiffness(MODULUS, THICKNESS, POISSON), FOUNDATION)
STEP = 0.5
WIDTH = CELLS * STEP


def box(x0, y0, x1, y1):
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def post(x, y, force=50e3, half=0.075):
    return Pressed(box(x - half, y - half, x + half, y + half), force / (2.0 * half) ** 2)


def floor(wide, long):
    return Slab(box(0.0, 0.0, long, wide), THICKNESS, MODULUS, POISSON, FOUNDATION)


def by_heaps(of, posts, places):
    made = plate(of, *lines_of(of, STEP, at_edges=STEP / 2.0))
    load = sum(loads.heaped(made, each.force, *each.middle, WIDTH) for each in posts)
    found = made.answered(made.found(load), *places.T)
    down, bent = found.settlement, found.moment_x
    for each in posts:
        more = left_out(each, WIDTH, RADIUS, FOUNDATION, POISSON, places)
        down, bent = down + more.settlement, bent + more.moment_x
    return down, bent


def test_four_hundred_posts_do_what_their_exact_patches_do_together():
    """40 m by 60 m, posts set out unevenly; those 5 radii of stiffness and more from an edge, settlement to 0.5 %."""
    random = np.random.default_rng(3)
    posts = [
        post(x + random.uniform(-0.6, 0.6), y + random.uniform(-0.4, 0.4))
        for x in np.linspace(3.0, 57.0, 20)
        for y in np.linspace(2.5, 37.5, 20)
    ]
    places = np.array([posts[20 * column + row].middle for column, row in ((3, 5), (7, 12), (11, 9), (15, 16))])
    assert places[:, 1].min() > 5.0 * RADIUS and 40.0 - places[:, 1].max() > 5.0 * RADIUS
    down, bent = by_heaps(floor(40.0, 60.0), posts, places)
    exact = [patches.patch(each.pressure, each.outline, RADIUS, FOUNDATION, POISSON, places) for each in posts]
    assert down == approx(sum(each.settlement for each in exact), rel=0.005)
    assert bent == approx(sum(each.moment_x for each in exact), rel=0.03)


@pytest.mark.parametrize("from_edge", [1.25, 1.6, 2.3])
def test_a_post_near_an_edge_does_what_a_fine_grid_says(from_edge):
    """Settlement to 1 % and moment to 3 %, from 1.5 radii of stiffness off the edge."""
    of, load = floor(8.0, 12.0), post(6.1, from_edge)
    place = np.array([load.middle])
    fine = plate(of, *lines_of(of, 0.3, at_edges=0.1, beside=[load]))
    right = fine.answered(fine.found(loads.pressed(fine, load)), *place.T)
    down, bent = by_heaps(of, [load], place)
    assert down[0] == approx(right.settlement[0], rel=0.01)
    assert bent[0] == approx(right.moment_x[0], rel=0.03)


@pytest.mark.parametrize("width", [0.2, 0.65, 2.0])
def test_a_heap_on_an_endless_plate_does_what_its_point_loads_do(width):
    line = np.linspace(-6.0, 6.0, 241) * width * RADIUS
    x, y = np.meshgrid(line, line, indexing="ij")
    share = np.exp(-(x**2 + y**2) / (2.0 * (width * RADIUS) ** 2))
    place = np.array([[0.7, 0.3]])
    far = np.hypot(x - 0.7, y - 0.3)
    added = (share * patches.point(1.0, RADIUS, FOUNDATION, far)).sum() / share.sum()
    assert heap(1.0, width * RADIUS, RADIUS, FOUNDATION, POISSON, place).settlement[0] == approx(added, rel=1e-3)


def test_far_off_a_patch_is_a_point():
    load, places = post(0.0, 0.0), np.array([[0.7, 0.1], [0.3, -0.6], [2.0, 1.0]])
    patch = patches.patch(load.pressure, load.outline, RADIUS, FOUNDATION, POISSON, places)
    point = patches.concentrated(load.force, RADIUS, FOUNDATION, POISSON, places)
    largest = patches.patch(load.pressure, load.outline, RADIUS, FOUNDATION, POISSON, np.zeros((1, 2))).moment_x[0]
    assert point.settlement == approx(patch.settlement, rel=0.003)
    assert np.abs(point.moment_x - patch.moment_x).max() < 0.002 * largest
    assert np.abs(point.moment_xy - patch.moment_xy).max() < 0.002 * largest
