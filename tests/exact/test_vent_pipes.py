"""Vent pipe, fan and draught: by their laws the other way round, and where two curves cross."""

import numpy as np
import pytest
from scipy.optimize import brentq

from underpour.physics.soil_gas.cells import Pit
from underpour.physics.soil_gas.draught import (
    air_density,
    by_itself,
    condensate,
    draught,
    pipe_air,
    sag_that_holds,
)
from underpour.physics.soil_gas.fan import fan_curve, of_flow
from underpour.physics.soil_gas.field import Drawn, Leakage, suction_field
from underpour.physics.soil_gas.hydraulics import ergun, layer
from underpour.physics.soil_gas.pipe import Pipe, loss_curve, lost
from underpour.physics.soil_gas.plan import Plan

PLAN = Plan([(0, 0), (9, 0), (9, 7), (0, 7)], layer(*ergun(0.019, 0.4), 0.1))
PIT, LEAKS = Pit(3.0, 3.0, 0.15), Leakage(3e-6, slab=2e-6, edge=1e-5, room=2.0)


def test_fan_and_floor_meet_where_a_search_of_one_number_finds_them():
    """The floor is asked what suction a flow takes; with the pipe's loss that is laid against the fan by brentq."""
    fan, pipe = fan_curve([0.0, 0.03, 0.06], [250.0, 160.0, 0.0]), loss_curve(Pipe(0.1, 9.0, bends=3))

    def over(flow):
        needed = suction_field(PLAN, [Drawn((PIT,), of_flow(flow))], LEAKS).pit_suction[0]
        return fan(flow)[0] - pipe(flow)[0] - needed

    field = suction_field(PLAN, [Drawn((PIT,), fan, (pipe,))], LEAKS)
    assert field.flow == pytest.approx(brentq(over, 1e-3, 0.06, xtol=1e-7), abs=1e-6)


def test_slow_flow_in_a_pipe_is_poiseuille_s():
    pipe = Pipe(0.1, 10.0, entry=False, outlet=False)
    assert lost(1e-4, pipe).along == pytest.approx(128 * 1.81e-5 * 10.0 * 1e-4 / (np.pi * 0.1**4), rel=1e-3)


@pytest.mark.parametrize("flow", [0.008, 0.02, 0.05])
def test_fast_flow_in_a_pipe_is_colebrook_s_within_two_per_cent(flow):
    pipe = Pipe(0.1, 10.0, entry=False, outlet=False)
    found = lost(flow, pipe)

    def colebrook(f):
        return 1.0 / np.sqrt(f) + 2.0 * np.log10(1.5e-5 / 3.7 + 2.51 / (found.reynolds * np.sqrt(f)))

    assert found.friction == pytest.approx(brentq(colebrook, 0.005, 0.1), rel=0.02)


def test_the_open_end_takes_the_head_of_the_speed_and_a_sharp_mouth_half_of_one_or_a_little_more():
    """Bernoulli for what leaves; 0.5 to 0.6 heads for a sharp mouth as handbooks have it (from memory)."""
    head = 1.204 * (0.02 / (np.pi * 0.1**2 / 4.0)) ** 2 / 2.0
    mouth, end = (lost(0.02, Pipe(0.1, 5.0, entry=entry, outlet=not entry)).ends for entry in (True, False))
    assert end == pytest.approx(head, rel=1e-9)
    assert 0.5 * head <= mouth <= 0.6 * head
    assert lost(0.02, Pipe(0.1, 5.0)).ends == pytest.approx(mouth + end, rel=1e-9)


def test_each_bend_takes_as_much_as_some_bores_of_pipe():
    """A quarter bend of one bore's radius: between 10 and 30 bores of straight pipe, as the trade counts it."""
    straight, bent = lost(0.03, Pipe(0.1, 10.0)), lost(0.03, Pipe(0.1, 10.0, bends=1))
    bores = (bent.whole - straight.whole) / (straight.along / 100.0)
    assert 10.0 < bores < 30.0
    half = lost(0.03, Pipe(0.1, 10.0, half_bends=1))
    assert straight.whole < half.whole < bent.whole


def test_a_slope_of_the_loss_is_that_of_its_curve():
    curve = loss_curve(Pipe(0.1, 10.0, bends=2))
    for flow in (0.0, 1e-3, 0.02, -0.02):
        by = max(abs(flow), 1e-8) * 1e-3
        assert curve(flow)[1] == pytest.approx((curve(flow + by)[0] - curve(flow - by)[0]) / (2 * by), rel=1e-3)


def test_a_fan_goes_through_its_points_and_never_rises():
    flows, suctions = [0.0, 0.01, 0.03, 0.05], [300.0, 295.0, 150.0, 20.0]
    curve = fan_curve(flows, suctions)
    assert [curve(flow)[0] for flow in flows] == pytest.approx(suctions)
    seen = [curve(flow)[0] for flow in np.linspace(-0.01, 0.08, 500)]
    assert (np.diff(seen) <= 1e-9).all()


def test_draught_is_the_difference_of_two_columns_summed_in_slices():
    """Air that warms on its way up from 8 °C in a room of 20 °C, by slices of 1 cm against the closed mean."""
    flow, bore, length, u = 0.01, 0.1, 6.0, 5.0
    temperature, column = 8.0, 0.0
    for _ in range(600):
        warmed = u * np.pi * bore * 0.01 * (20.0 - temperature) / (air_density(8.0) * 1006.0 * flow)
        column += (air_density(0.0) - air_density(temperature + warmed / 2.0)) * 9.81 * 0.01
        temperature += warmed
    assert draught(pipe_air(flow, 8.0, 20.0, bore, length, u), 0.0, 6.0) == pytest.approx(column, rel=0.002)


def test_a_pipe_in_the_house_draws_in_winter_and_blows_down_in_summer():
    loss = loss_curve(Pipe(0.1, 8.0, bends=2))

    def month(outdoors):
        pulled = by_itself(12.0, 22.0, outdoors, 6.0, 0.1, 8.0, 5.0, loss)
        return suction_field(PLAN, [Drawn((PIT,), pulled)], Leakage(3e-6))

    winter, summer = month(-5.0), month(28.0)
    assert winter.flow > 0.0 and winter.weakest[2] > 0.5
    assert summer.flow < 0.0 and summer.weakest[2] < 0.0
    for field in (winter, summer):
        assert abs(field.unbalanced) <= 1e-8 * abs(field.flow)


def test_no_water_condenses_in_a_pipe_as_warm_as_the_ground():
    assert condensate(0.02, 10.0, 10.0) == 0.0 == condensate(0.02, 10.0, 15.0)
    assert condensate(0.02, 10.0, -10.0) > condensate(0.02, 10.0, 0.0) > 0.0


def test_water_that_condenses_is_what_the_warm_air_holds_more_than_the_cold_by_a_steam_table():
    """Saturated air holds 9.4 g/m³ at 10 °C and 4.85 g/m³ at 0 °C (steam tables, from memory)."""
    assert condensate(0.02, 10.0, 0.0) * 86400.0 == pytest.approx(0.02 * 86400.0 * (9.40e-3 - 4.85e-3), rel=0.01)


def test_a_pipe_with_that_sag_is_level_at_one_hanger_and_with_more_it_climbs_there():
    apart, slope = 1.8, 0.01
    along = np.linspace(0.0, apart, 2001)

    def lowest(sag):
        height = slope * along - 4.0 * sag * along / apart * (1.0 - along / apart)
        return along[np.argmin(height)]

    holds = sag_that_holds(slope, apart)
    assert lowest(0.99 * holds) == 0.0 < lowest(1.05 * holds)
