"""Air spaces two ways: limits of the formulas, and radiation against the law of the fourth power."""

import math

import pytest
from pytest import approx

from underpour.physics import air_space
from underpour.physics.domain import OutOfDomain

SIGMA = 5.670374419e-8


def test_radiation_is_the_slope_of_the_fourth_power():
    warm, cold = 283.15 + 2.5, 283.15 - 2.5
    exchanged = SIGMA * (warm**4 - cold**4) / (warm - cold)
    assert air_space.radiation(1.0, 1.0, 10.0) == approx(exchanged, rel=1e-4)


def test_two_grey_faces_exchange_what_their_reflections_leave():
    """The series of reflections between two faces, summed, against the closed form."""
    one, other = 0.9, 0.05
    series = sum(one * other * ((1.0 - one) * (1.0 - other)) ** n for n in range(200))
    assert air_space.radiation(one, other, 10.0) / air_space.radiation(1.0, 1.0, 10.0) == approx(series, rel=1e-12)


def test_the_two_branches_of_heat_going_down_meet_where_they_cross():
    """0.12 d^−0.44 is 0.025/d at d = (0.025/0.12)^(1/0.56), 61 mm."""
    crossing = (0.025 / 0.12) ** (1.0 / 0.56)
    assert crossing == approx(0.0607, abs=0.0001)
    assert air_space.convection_down(crossing) == approx(0.025 / crossing, rel=1e-12)
    assert air_space.convection_down(1.1 * crossing) == approx(0.12 * (1.1 * crossing) ** -0.44, rel=1e-12)


def test_air_resists_most_where_heat_goes_down():
    for thickness in (0.02, 0.05, 0.1, 0.3):
        down, sideways, up = (
            way(thickness)
            for way in (air_space.convection_down, air_space.convection_sideways, air_space.convection_up)
        )
        assert down <= sideways <= up
        assert down < up


@pytest.mark.parametrize("thickness", [0.0, -0.01, 0.31, math.nan])
def test_what_is_no_air_space_is_refused(thickness):
    for way in (air_space.convection_down, air_space.convection_sideways, air_space.convection_up):
        with pytest.raises(OutOfDomain):
            way(thickness)


@pytest.mark.parametrize("emissivity", [0.0, -0.1, 1.01, math.nan])
def test_what_is_no_emissivity_is_refused(emissivity):
    with pytest.raises(OutOfDomain):
        air_space.radiation(emissivity, 0.9, 10.0)
