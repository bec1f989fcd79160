"""The temperature scale that pictures share."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from underpour.drawings import month_middle, shared_scale
from underpour.drawings.scale import lines_between
from underpour.physics.conduction.field import Field


def field(low: float, high: float) -> Field:
    empty = np.zeros(1, np.float32)
    return Field(
        np.array([0.0, 1.0], np.float32),
        np.array([0.0], np.float32),
        np.array([[low, high]], np.float32),
        np.zeros((1, 2), np.complex64),
        empty,
        empty,
        empty.astype(np.complex64),
    )


@given(st.floats(-40, 30), st.floats(17, 90), st.sampled_from(["US", "SI"]))
def test_between_8_and_20_lines_are_drawn(low, reach, system):
    """From 17 K on, in either system, some spacing draws 8 to 20 lines, and the finest such is taken."""
    scale = shared_scale([field(low, low + reach)], 0.0, system)
    assert 8 <= len(scale.tints) - 1 <= 20


@given(st.floats(-40, 30), st.floats(0, 90), st.sampled_from(["US", "SI"]))
def test_the_scale_holds_all_that_is_shown(low, reach, system):
    scale = shared_scale([field(low, low + reach)], 0.0, system)
    assert scale.levels[0] <= low + 1e-4 and scale.levels[-1] >= low + reach - 1e-4
    assert len(scale.levels) == len(scale.tints) + 1


def test_the_scale_spans_every_field_given():
    scale = shared_scale([field(-10, 5), field(0, 20)], 0.0, "SI")
    assert (scale.marks[0], scale.marks[-1], scale.spacing) == (-10, 20, 2)


def test_fahrenheit_lines_stand_on_whole_fahrenheit():
    scale = shared_scale([field(-10, 20)], 0.0, "US")
    assert scale.spacing == 5
    assert scale.marks[:3] == (10, 15, 20)
    assert scale.levels[0] == pytest.approx((10 - 32) / 1.8)


def test_air_is_no_part_of_the_scale():
    scale = shared_scale([field(np.nan, 10.0), field(0.0, 10.0)], 0.0, "SI")
    assert scale.marks[0] == 0


def test_the_moment_counts():
    swinging = replace(field(10, 10), swing=np.array([[-10, 0]], np.complex64))
    assert shared_scale([swinging], 0.0, "SI").marks[0] == 0
    assert shared_scale([swinging], 0.5, "SI").marks[-1] == 20


def test_a_line_on_the_border_of_the_range_is_not_counted():
    assert lines_between(0.0, 10.0, 2) == 4


def test_months_have_their_middle_in_the_middle():
    assert [round(month_middle(m) * 12, 6) for m in (1, 2, 12)] == [0.5, 1.5, 11.5]
