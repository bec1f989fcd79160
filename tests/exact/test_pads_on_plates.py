"""A slab that is thicker below a load: by elements, against stiff pads by closed forms."""

from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import kei, keip, ker, kerp

from underpour.physics.plates import felt, loads
from underpour.physics.plates.lines import lines_of
from underpour.physics.plates.pads import over_pad
from underpour.physics.plates.plate import Answered, plate
from underpour.physics.plates.slab import Pressed, Region, Ring, Slab
from underpour.physics.plates.springs import plate_stiffness, radius_of_relative_stiffness

E, NU, K, H = 21.5e9, 0.15, 14e6, 0.1
HALF = 0.6  # m
POST = Pressed(((-0.3, -0.3), (0.3, -0.3), (0.3, 0.3), (-0.3, 0.3)), 30e3 / 0.36)


def stiff_round_pad(force: float, radius: float) -> float:
    """How far it settles: w = A ker(r/l) + B kei(r/l) outside, level at the rim; the springs carry the force."""
    d = plate_stiffness(E, H, NU)
    far = radius_of_relative_stiffness(d, K)
    at = radius / far
    a = -keip(at) / kerp(at)  # w' = 0
    rim = a * ker(at) + kei(at)
    outside, _ = quad(lambda r: (a * ker(r / far) + kei(r / far)) * 2.0 * pi * r, radius, radius + 15.0 * far)
    scale = force / (K * (rim * pi * radius**2 + outside))
    return scale * rim


def slab(half: float = HALF) -> tuple[Slab, Ring]:
    x = half + 6.0 * float(radius_of_relative_stiffness(plate_stiffness(E, H, NU), K))
    ring = ((-half, -half), (half, -half), (half, half), (-half, half))
    return Slab(((-x, -x), (x, -x), (x, x), (-x, x)), H, E, NU, K), ring


def linear(half: float, load: Pressed) -> Answered:
    """In the middle of a pad of 1 m, and 1 mm beside it; springs that pull as well, as in the closed forms."""
    thin, pad = slab(half)
    thicker = replace(thin, thickened=(Region(pad, 1.0),))
    made = plate(thicker, *lines_of(thicker, 0.3, at_edges=0.05, beside=[load]))
    bent = made.found(loads.pressed(made, load))
    return made.answered(bent, np.array([0.0, half + 1e-3]), np.zeros(2))


def test_a_stiff_square_pad_settles_between_round_ones_of_its_area_and_of_its_rim():
    found = linear(HALF, POST).settlement[0]
    same_area, same_rim = (stiff_round_pad(30e3, each) for each in (2.0 * HALF / sqrt(pi), 4.0 * HALF / pi))
    assert same_rim < found < same_area < 1.15 * same_rim


def test_beside_a_wide_stiff_pad_the_slab_is_bent_as_a_strip_that_is_held_level():
    """Hetenyi: w = w0 exp(-βx) (cos βx + sin βx), so the moment at the rim is 2 β² E I w0 = D w0 / l²."""
    half = 3.0
    pad = slab(half)[1]
    found = linear(half, Pressed(pad, 1e4))
    stiffness = plate_stiffness(E, H, NU)
    strip = stiffness * found.settlement[1] / radius_of_relative_stiffness(stiffness, K) ** 2
    assert found.tension_below[1] * H**2 / 6.0 == pytest.approx(strip, rel=0.03)


def test_a_pad_hardly_thicker_than_the_slab_is_the_slab():
    plain, (thin, pad) = felt.endless((POST,), H, E, NU, K), slab()
    same = over_pad(replace(thin, thickened=(Region(pad, H * (1.0 + 1e-6)),)), (POST,), 2400.0)
    assert same.pressure == pytest.approx(plain.pressure, rel=0.01)
    assert same.below == pytest.approx(plain.below, rel=0.02)


def test_a_pad_as_wide_as_a_load_is_felt_is_a_thicker_slab():
    thick, (thin, pad) = felt.endless((POST,), 0.2, E, NU, K), slab(5.0)
    wide = over_pad(replace(thin, thickened=(Region(pad, 0.2),)), (POST,), 2400.0)
    assert wide.pressure == pytest.approx(thick.pressure, rel=0.01)
    assert wide.below == pytest.approx(thick.below, rel=0.02)


def test_a_stiff_pad_that_is_a_point_is_a_point_load():
    far = float(radius_of_relative_stiffness(plate_stiffness(E, H, NU), K))
    assert stiff_round_pad(1e4, 1e-3 * far) == pytest.approx(1e4 / (8.0 * K * far**2), rel=1e-3)
