"""A patch on an endless plate on springs, held to other ways: a circle's closed form, sums of point loads, balance."""

import numpy as np
import pytest
from pytest import approx
from scipy.special import keip, ker

from underpour.physics.domain import OutOfDomain
from underpour.physics.plates import concrete, patches, spread, westergaard

PRESSURE, RADIUS, FOUNDATION, POISSON = 1e5, 0.8, 3e7, 0.2
RECTANGLE = [(0.0, 0.0), (0.4, 0.0), (0.4, 0.2), (0.0, 0.2)]
L_SHAPE = [(0.0, 0.0), (0.6, 0.0), (0.6, 0.2), (0.2, 0.2), (0.2, 0.5), (0.0, 0.5)]


def under(outline, places, poisson=POISSON):
    return patches.patch(PRESSURE, outline, RADIUS, FOUNDATION, poisson, np.asarray(places, float))


def test_many_sides_do_what_a_circle_does():
    sides, contact = 360, 0.3
    turn = 2.0 * np.pi * np.arange(sides) / sides
    same_area = contact * np.sqrt(2.0 * np.pi / (sides * np.sin(2.0 * np.pi / sides)))
    outline = list(zip(same_area * np.cos(turn), same_area * np.sin(turn), strict=True))
    found = under(outline, [(0.0, 0.0)])
    down, moment = patches.circle(PRESSURE, contact, RADIUS, FOUNDATION, POISSON)
    assert found.settlement[0] == approx(down, rel=1e-7)
    assert found.moment_x[0] == found.moment_y[0] == found.largest_moment[0] == approx(moment, rel=1e-6)


@pytest.mark.parametrize("place", [(0.6, 0.3), (1.5, -0.7), (-0.3, 0.1), (0.2, 0.9), (0.1, 0.05)])
def test_a_rectangle_does_what_its_point_loads_do_together(place):
    """60 by 60 point loads; below the patch the moments' influence is sharp, so that only settlement is compared."""
    at, share = np.polynomial.legendre.leggauss(60)
    x, y = np.meshgrid(0.2 + 0.2 * at, 0.1 + 0.1 * at, indexing="ij")
    load = np.outer(0.2 * share, 0.1 * share) * PRESSURE
    far = np.hypot(x - place[0], y - place[1])
    way = np.arctan2(y - place[1], x - place[0])
    found = under(RECTANGLE, [place])
    each = patches.point(1.0, RADIUS, FOUNDATION, far)
    assert found.settlement[0] == approx((load * each).sum(), rel=1e-6)
    if place == (0.1, 0.05):
        return
    both = (1.0 + POISSON) / (2.0 * np.pi) * (load * ker(far / RADIUS)).sum()
    apart = (1.0 - POISSON) / (2.0 * np.pi) * load * (ker(far / RADIUS) - 2.0 * keip(far / RADIUS) / (far / RADIUS))
    assert found.moment_x[0] == approx((both + (apart * np.cos(2.0 * way)).sum()) / 2.0, rel=1e-9)
    assert found.moment_y[0] == approx((both - (apart * np.cos(2.0 * way)).sum()) / 2.0, rel=1e-9)
    assert found.moment_xy[0] == approx((apart * np.sin(2.0 * way)).sum() / 2.0, rel=1e-9, abs=1e-9)


def test_far_off_a_patch_is_a_point():
    """50 kN on 150 mm by 150 mm, four sizes off and more: settlement to 0.3 %, moment to 0.2 % of the largest."""
    outline = [(-0.075, -0.075), (0.075, -0.075), (0.075, 0.075), (-0.075, 0.075)]
    places = np.array([[0.7, 0.1], [0.3, -0.6], [2.0, 1.0]])
    patch, middle = under(outline, places), under(outline, [(0.0, 0.0)])
    point = patches.concentrated(PRESSURE * 0.15**2, RADIUS, FOUNDATION, POISSON, places)
    largest = middle.moment_x[0]
    assert point.settlement == approx(patch.settlement, rel=0.003)
    assert np.abs(point.moment_x - patch.moment_x).max() < 0.002 * largest
    assert np.abs(point.moment_xy - patch.moment_xy).max() < 0.002 * largest


def test_two_patches_do_what_the_whole_does():
    """An L and its two rectangles, at places inside, on a shared side, on a corner and outside."""
    places = [(0.1, 0.1), (0.1, 0.2), (0.2, 0.2), (0.0, 0.0), (0.9, 0.7), (0.3, 0.3)]
    parts = [[(0.0, 0.0), (0.6, 0.0), (0.6, 0.2), (0.0, 0.2)], [(0.0, 0.2), (0.2, 0.2), (0.2, 0.5), (0.0, 0.5)]]
    whole, pieces = under(L_SHAPE, places), [under(part, places) for part in parts]
    for name in ("settlement", "moment_x", "moment_y", "moment_xy"):
        added = sum(getattr(piece, name) for piece in pieces)
        assert getattr(whole, name) == approx(added, rel=1e-9, abs=1e-9 * np.abs(added).max()), name


def test_the_ground_bears_what_stands_on_the_plate():
    """Settlement times k, summed over a quarter of 26 m by 26 m of ground, is a quarter of the load."""
    step = 0.2
    line = np.arange(step / 2.0, 13.0, step)
    x, y = np.meshgrid(line + 0.2, line + 0.1, indexing="ij")
    found = under(RECTANGLE, np.column_stack([x.ravel(), y.ravel()]))
    assert FOUNDATION * found.settlement.sum() * step**2 == approx(PRESSURE * 0.08 / 4.0, rel=1e-4)


def test_a_patch_read_the_other_way_round_is_the_same_patch():
    places = [(0.1, 0.1), (0.7, 0.3)]
    one, other = under(L_SHAPE, places), under(L_SHAPE[::-1], places)
    assert one.settlement == approx(other.settlement, rel=1e-12)
    assert one.moment_xy == approx(other.moment_xy, rel=1e-9)


def test_westergaards_settlement_is_the_first_terms_of_the_exact_one():
    for share in (0.05, 0.1, 0.2, 0.3):
        contact = share * RADIUS
        load = PRESSURE * np.pi * contact**2
        exact, _ = patches.circle(PRESSURE, contact, RADIUS, FOUNDATION, POISSON)
        short = westergaard.interior(load, contact, 0.15, POISSON, RADIUS, FOUNDATION).settlement
        assert short == approx(exact, rel=2.0 * share**4)


@pytest.mark.parametrize("outline", [[], [(0.0, 0.0), (1.0, 0.0)], [(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]])
def test_a_patch_without_area_is_refused(outline):
    with pytest.raises(OutOfDomain, match="area"):
        under(outline, [(0.0, 0.0)])


def test_a_load_as_wide_as_the_slab_carries_is_no_point():
    with pytest.raises(OutOfDomain, match="radius of relative stiffness"):
        westergaard.interior(1e4, 0.9, 0.15, 0.2, 0.8, 3e7)


def test_a_spread_that_starts_as_one_ends_as_one():
    assert spread.by_angle(1000.0, 0.2, 0.5, 0.0) == approx(10000.0)
    assert spread.by_angle(1000.0, 0.2, 0.5, 0.1, 0.5) == approx(1000.0 / (0.3 * 0.6))


def test_what_breaks_a_slab_grows_evenly_up_to_a_fifth_of_the_radius():
    sharp, even, spread_out = (concrete.ultimate(5e3, 5e3, ratio) for ratio in (0.0, 0.1, 0.2))
    for low, middle, high in zip(sharp, even, spread_out, strict=True):
        assert middle == approx((low + high) / 2.0)
    assert sharp[0] == approx(2.0 * np.pi * 1e4)
