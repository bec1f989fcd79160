"""Conductivity in place: the rule on paper, and on the boards of the catalogue."""

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from underpour import catalogue
from underpour.catalogue.in_place import Coefficient, Measured, Water, at_temperature, in_place, with_water
from underpour.catalogue.read import table

DRY, WET = Water(0.01, "tested"), Water(0.05, "after years")
share = st.floats(0.0, 0.2)


WARM = Coefficient(0.0036, 0.0030, 0.0048)  # EPS
FIXED, WETS_BY_FOUR = Coefficient(0.0036, 0.0036, 0.0036), Coefficient(4.0, 4.0, 4.0)


def test_a_graded_board_worked_out_by_hand():
    """Marlpit Plain 25: R 4.67 an inch at 40 °F, 1.5 % of water, 3.2 % after frost; 0.0036 and 4 for EPS.

    The ends take the ends of the coefficients' ranges: 0.0030 dry, 0.0048 and 5 wet.
    """
    tested = 0.0254 / (4.67 * 0.1761102)
    dry, least, most = (tested * exp(each * (10.0 - 40.0 / 9.0)) for each in (0.0036, 0.0030, 0.0048))
    found = catalogue.shipped_products().board("plain-25").conductivity_in_place
    assert found.low == approx(least, rel=1e-4)
    assert found.value == approx(dry * exp(4.0 * 0.015), rel=1e-4)
    assert found.high == approx(most * exp(5.0 * 0.032), rel=1e-4)


def test_the_test_nearest_to_the_ground_s_temperature_is_taken():
    warm, cold = Measured(0.040, 24.0, "warm"), Measured(0.030, 4.4, "cold")
    assert "cold" in in_place((warm, cold), DRY, WET, None, 10.0, FIXED, WETS_BY_FOUR).steps
    assert "warm" in in_place((warm, cold), DRY, WET, None, 20.0, FIXED, WETS_BY_FOUR).steps


def test_a_declared_value_above_the_wet_one_is_the_high_one():
    test = (Measured(0.030, 10.0, "test"),)
    assert in_place(test, DRY, WET, 0.050, 10.0, FIXED, WETS_BY_FOUR).high == 0.050
    assert in_place(test, DRY, WET, 0.031, 10.0, FIXED, WETS_BY_FOUR).high == approx(0.030 * exp(0.2))


@given(tested=share, long=share, coefficient=st.floats(0.0, 6.0), mean=st.floats(-10.0, 40.0))
def test_low_value_and_high_stand_in_that_order(tested, long, coefficient, mean):
    """Above the reference and below it: the temperature's coefficient then pulls the other way."""
    wets = Coefficient(coefficient, 0.8 * coefficient, 1.2 * coefficient)
    test = (Measured(0.03, mean, "test"),)
    found = in_place(test, Water(tested, "a"), Water(long, "b"), None, 10.0, WARM, wets)
    assert found.low <= found.dry <= found.value <= found.high


def test_the_age_of_the_foam_at_its_test_is_told_where_it_ages():
    products = catalogue.shipped_products()
    assert (products.board("xps-40").age, products.board("plain-25").age) == ("aged 180 days", "")
    assert "MB-16-THE, aged 180 days)" in products.board("xps-40").in_place_steps
    assert products.board("c578-iv").age == "aged 180 days, as the class asks"


@given(st.floats(-20.0, 60.0), st.floats(-20.0, 60.0))
def test_there_and_back_gives_the_same_conductivity(here, there):
    assert at_temperature(at_temperature(0.03, here, there, 0.0036), there, here, 0.0036) == approx(0.03)


def test_cellular_glass_does_not_care_for_water():
    assert with_water(0.04, 0.05, table("foams")["cellular glass"]["water"]["value"]) == 0.04


@pytest.mark.parametrize("board", catalogue.shipped_products().boards(), ids=lambda board: board.key)
def test_the_steps_say_the_numbers(board):
    found = board.conductivity_in_place
    for number in (found.low, found.value, found.high):
        assert f"{number:.4f}" in board.in_place_steps


def test_a_stronger_board_of_moulded_foam_never_conducts_better_as_labelled():
    order = ["c578-xi", "c578-i", "c578-viii", "c578-ii", "c578-ix", "c578-xiv", "c578-xv"]
    labelled = [catalogue.shipped_products().board(key).r_label_per_metre.value for key in order]
    assert labelled == sorted(labelled)
