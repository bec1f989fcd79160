"""Loops of unlike length, and what heats their water: held to closed forms and to balances."""

import numpy as np
import pytest

from underpour.physics.domain import OutOfDomain
from underpour.physics.warm_floor.balance import balance
from underpour.physics.warm_floor.sources import heat_for_electricity, heat_for_fuel
from underpour.physics.warm_floor.water import flow_in_tube

WATER = (992.3, 6.53e-4, 4179.0, 0.63)  # at 40 °C
BORE = 0.012065


@pytest.mark.parametrize("lengths", [(90.0, 45.0), (80.0, 60.0, 40.0)])
def test_in_layers_each_loop_gets_by_one_over_its_length(lengths):
    """Hagen and Poiseuille: the flow is in proportion to pressure over length."""
    made = balance(lengths, 0.0, 8e-6 * len(lengths), BORE, *WATER)
    by_hand = np.array([1.0 / each for each in lengths])
    assert made.left_alone == pytest.approx(8e-6 * len(lengths) * by_hand / by_hand.sum(), rel=2e-3)


def test_in_eddies_all_loops_feel_one_pressure_and_share_all_the_water():
    lengths, whole = (95.0, 88.0, 60.0), 1.2e-4
    made = balance(lengths, 3.0, whole, BORE, *WATER)
    assert sum(made.left_alone) == pytest.approx(whole, rel=2e-3)
    felt = [flow_in_tube(f, BORE, m, *WATER).loss for f, m in zip(made.left_alone, lengths, strict=True)]
    assert felt == pytest.approx([felt[0]] * 3, rel=5e-3)
    assert made.shares[0] < 1.0 < made.shares[2]


def test_with_its_valve_each_loop_takes_as_much_pressure_as_the_longest_and_gets_its_own():
    lengths, leader, whole = (95.0, 88.0, 60.0), 3.0, 1.2e-4
    made = balance(lengths, leader, whole, BORE, *WATER)
    assert sum(made.wanted) == pytest.approx(whole)
    assert made.wanted[0] / made.wanted[2] == pytest.approx(89.0 / 54.0)
    felt = [flow_in_tube(f, BORE, m, *WATER).loss for f, m in zip(made.wanted, lengths, strict=True)]
    evened = [own + valve for own, valve in zip(felt, made.valves, strict=True)]
    assert evened == pytest.approx([felt[0]] * 3, rel=5e-3)
    assert made.valves[0] == 0.0 < made.valves[1] < made.valves[2]


def test_loops_alike_need_no_valve():
    made = balance((80.0, 80.0, 80.0), 3.0, 1.2e-4, BORE, *WATER)
    assert made.shares == pytest.approx((1.0, 1.0, 1.0), rel=2e-3)
    assert made.valves == pytest.approx((0.0, 0.0, 0.0))


def test_a_heat_pump_comes_to_a_share_of_carnot_s():
    """283 K of air less 2, water of 308 K and 2 more: 310.15 K over 29 K."""
    assert heat_for_electricity(0.42, 35.0, 10.0, 2.0) == pytest.approx(0.42 * 310.15 / 29.0)
    assert heat_for_electricity(0.42, 20.0, 25.0, 2.0) == float("inf")


def test_a_boiler_runs_straight_between_its_two_readings_and_no_further():
    told = [heat_for_fuel(back, 55.0, 0.87, 27.0, 0.97) for back in (70.0, 55.0, 41.0, 27.0, 10.0)]
    assert told == pytest.approx([0.87, 0.87, 0.92, 0.97, 0.97])


@pytest.mark.parametrize(
    "refused",
    [
        lambda: balance((), 0.0, 1e-4, BORE, *WATER),
        lambda: balance((5.0, 80.0), 3.0, 1e-4, BORE, *WATER),
        lambda: balance((80.0,), 3.0, 0.0, BORE, *WATER),
        lambda: heat_for_electricity(1.2, 35.0, 0.0, 2.0),
        lambda: heat_for_electricity(0.4, 35.0, 0.0, -2.0),
        lambda: heat_for_fuel(40.0, 55.0, 0.97, 27.0, 0.87),
        lambda: heat_for_fuel(40.0, 27.0, 0.87, 55.0, 0.97),
    ],
    ids=["no loop", "leaders alone", "no water", "better than nature", "apart", "worse when cool", "turned round"],
)
def test_what_cannot_be_is_refused(refused):
    with pytest.raises(OutOfDomain):
        refused()
