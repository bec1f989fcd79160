"""Conductivity in place: the rule on paper, and on the boards of the catalogue."""

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from underpour import catalogue
from underpour.catalogue.in_place import Measured, Water, at_temperature, in_place, with_water
from underpour.catalogue.read import table

DRY, WET = Water(0.01, "tested"), Water(0.05, "after years")
share = st.floats(0.0, 0.2)


def test_a_graded_board_worked_out_by_hand():
    """Marlpit Plain 25: R 4.67 an inch at 40 °F, 1.5 % of water, 3.2 % after frost; 0.0036 and 4 for EPS."""
    dry = 0.0254 / (4.67 * 0.1761102) * exp(0.0036 * (10.0 - 40.0 / 9.0))
    found = catalogue.shipped_products().board("plain-25").conductivity_in_place
    assert found.low == approx(dry, rel=1e-4)
    assert found.value == approx(dry * exp(4.0 * 0.015), rel=1e-4)
    assert found.high == approx(dry * exp(4.0 * 0.032), rel=1e-4)


def test_the_test_nearest_to_the_ground_s_temperature_is_taken():
    warm, cold = Measured(0.040, 24.0, "warm"), Measured(0.030, 4.4, "cold")
    assert "cold" in in_place((warm, cold), DRY, WET, None, 10.0, 0.0036, 4.0).steps
    assert "warm" in in_place((warm, cold), DRY, WET, None, 20.0, 0.0036, 4.0).steps


def test_a_declared_value_above_the_wet_one_is_the_high_one():
    test = (Measured(0.030, 10.0, "test"),)
    assert in_place(test, DRY, WET, 0.050, 10.0, 0.0036, 4.0).high == 0.050
    assert in_place(test, DRY, WET, 0.031, 10.0, 0.0036, 4.0).high == approx(0.030 * exp(0.2))


@given(tested=share, long=share, coefficient=st.floats(0.0, 6.0))
def test_low_value_and_high_stand_in_that_order(tested, long, coefficient):
    found = in_place(
        (Measured(0.03, 4.4, "test"),), Water(tested, "a"), Water(long, "b"), None, 10.0, 0.0036, coefficient
    )
    assert found.low <= found.value <= found.high


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
