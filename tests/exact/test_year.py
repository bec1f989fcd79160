"""The year's wave in twelve monthly means."""

from cmath import exp, phase, rect
from math import pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from underpour.catalogue import places
from underpour.catalogue.year import harmonic
from underpour.mistakes import Mistake


def means(mean, swing):
    """Monthly means of mean + Re(swing exp(2πi f)), by the integral over each twelfth."""

    def integral(f):
        return mean * f + (swing * exp(2j * pi * f) / (2j * pi)).real

    return [12.0 * (integral((month + 1) / 12.0) - integral(month / 12.0)) for month in range(12)]


@given(st.floats(-20.0, 30.0), st.floats(0.1, 40.0), st.floats(-pi, pi))
def test_a_wave_is_found_again_in_its_monthly_means_flattened_by_the_averaging(mean, amplitude, angle):
    swing = rect(amplitude, angle)
    found = harmonic(means(mean, swing))
    assert found[0] == approx(mean, abs=1e-9)
    assert abs(found[1] - swing * sin(pi / 12.0) / (pi / 12.0)) < 1e-9


@given(st.lists(st.floats(-40.0, 40.0), min_size=12, max_size=12))
def test_the_mean_is_the_mean_of_the_months(months):
    assert harmonic(months)[0] == approx(sum(months) / 12.0)


def test_minneapolis_as_the_list_prints_it():
    """The list of places prints mean 8.2 degC, 15.9 K, coldest on 19 January: the wave of the means as they stand."""
    mean, swing = harmonic(places.find("Minneapolis, MN").months)
    coldest = (0.5 - phase(swing) / (2.0 * pi)) % 1.0
    assert mean == approx(8.2, abs=0.05)
    assert abs(swing) == approx(15.9, abs=0.05)
    assert 365.0 * coldest == approx(19.0, abs=0.5)


def test_eleven_months_are_no_year():
    with pytest.raises(Mistake, match="11 monthly means"):
        harmonic([0.0] * 11)
