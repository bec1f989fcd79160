"""Joints that end inside a slab or at another joint, and what share of a settlement a joint hands on."""

import numpy as np
import pytest
from pytest import approx

from underpour.physics.plates import joints, loads, springs
from underpour.physics.plates.lines import lines_of
from underpour.physics.plates.plate import plate
from underpour.physics.plates.slab import Joint, Pressed, Slab

MODULUS, POISSON, THICKNESS, FOUNDATION = 30e9, 0.2, 0.15, 26e6
RADIUS = springs.radius_of_relative_stiffness(springs.plate_stiffness(MODULUS, THICKNESS, POISSON), FOUNDATION)
BEFORE = 1e-9


def box(x0, y0, x1, y1):
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def slab(outline, *parted):
    return Slab(outline, THICKNESS, MODULUS, POISSON, FOUNDATION, joints=parted)


def settlement(of, load, x, y):
    made = plate(of, *lines_of(of, 0.3, at_edges=0.15, beside=[load]))
    return made.answered(made.found(loads.pressed(made, load)), np.array(x, float), np.array(y, float)).settlement


LOAD = Pressed(box(1.6, 0.6, 1.8, 0.8), 1e6)


def test_a_joint_that_ends_at_another_parts_only_its_own_side():
    """A cross without transfer: what lies left of the long joint is a slab of its own, with the short one in it."""
    parted = (Joint("x", 2.0, 0.0), Joint("y", 1.0, 0.0, end=2.0))
    ours = settlement(slab(box(0.0, 0.0, 4.0, 2.0), *parted), LOAD, [1.7, 1.7, 0.2], [1.0 - BEFORE, 1.0 + BEFORE, 0.1])
    alone = settlement(slab(box(0.0, 0.0, 2.0, 1.0)), LOAD, [1.7, 0.2], [1.0 - BEFORE, 0.1])
    assert ours[[0, 2]] == approx(alone, rel=0.01)
    assert abs(ours[1]) < 1e-9  # nothing goes over
    right = Pressed(box(2.5, 0.9, 2.7, 1.1), 1e6)
    sides = settlement(slab(box(0.0, 0.0, 4.0, 2.0), *parted), right, [2.6, 2.6], [1.0 - BEFORE, 1.0 + BEFORE])
    assert sides[0] == approx(sides[1], rel=1e-6)  # the short joint does not reach there


def test_a_joint_that_ends_in_the_slab_is_held_together_beyond_its_end():
    of = slab(box(0.0, 0.0, 4.0, 2.0), Joint("x", 2.0, 0.0, end=1.0))
    across = settlement(of, LOAD, [2.0 - BEFORE, 2.0 + BEFORE] * 3, [0.5, 0.5, 1.0, 1.0, 1.7, 1.7])
    assert across[0] > across[1] + 1e-6
    assert across[2] == approx(across[3], rel=1e-6)
    assert across[4] == approx(across[5], rel=1e-6)
    whole = settlement(slab(box(0.0, 0.0, 4.0, 2.0)), LOAD, [1.7], [0.7])
    through = settlement(slab(box(0.0, 0.0, 4.0, 2.0), Joint("x", 2.0, 0.0)), LOAD, [1.7], [0.7])
    half = settlement(of, LOAD, [1.7], [0.7])
    assert whole[0] < half[0] < through[0]


def test_a_joint_without_length_is_none():
    of = slab(box(0.0, 0.0, 4.0, 2.0), Joint("x", 2.0, 0.0, start=1.0, end=1.0))
    whole = settlement(slab(box(0.0, 0.0, 4.0, 2.0)), LOAD, [1.7, 2.1], [0.7, 0.7])
    assert settlement(of, LOAD, [1.7, 2.1], [0.7, 0.7]) == approx(whole, rel=2e-3)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.7, 0.9])
def test_a_joint_hands_on_the_share_that_its_stiffness_is_reckoned_for(share):
    """Crovetti's fit for a wheel at a joint, against our plate: within 0.04 of the whole.

    Our assumptions: a square of 0.3 m (a / l 0.2, as pavements have it) at a joint of a wide slab, both sides looked at
    beside the middle of the wheel. The fit itself scatters by a few hundredths with the size of the wheel.
    """
    stiff = joints.stiffness_by_transfer(share, FOUNDATION, RADIUS)
    reach = 5.0 * RADIUS
    load = Pressed(box(-0.3, -0.15, 0.0, 0.15), 1e6)
    of = slab(box(-reach, -reach, reach, reach), Joint("x", 0.0, stiff))
    down = settlement(of, load, [-BEFORE, BEFORE], [0.0, 0.0])
    assert down[1] / down[0] == approx(share, abs=0.04)
