"""Money over years: held to sums year by year, to each other, and to their limits; refusals by name."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from underpour import economy
from underpour.physics.domain import OutOfDomain

rates = st.floats(-0.2, 0.3)
years = st.integers(1, 60)


@given(rates, rates, years)
def test_growing_years_are_the_sum_of_their_payments(discount, growth, n):
    by_hand = sum(((1.0 + growth) / (1.0 + discount)) ** t for t in range(1, n + 1))
    assert economy.present_worth_of_years_growing(discount, growth, n) == approx(by_hand, rel=1e-7)


@given(st.floats(1.0, 1e5), st.floats(1.0, 1e4), rates, rates)
def test_at_the_discounted_payback_the_savings_are_worth_the_outlay(cost, saved, discount, growth):
    n = economy.discounted_payback(cost, saved, discount, growth)
    if not np.isfinite(n):
        forever = saved * economy.present_worth_of_years_growing(discount, growth, 2000.0)
        assert forever <= cost * (1.0 + 1e-6)
    elif n < 500.0:
        assert saved * economy.present_worth_of_years_growing(discount, growth, n) == approx(cost, rel=1e-6)


def test_what_saves_nothing_is_never_won_back_and_what_costs_nothing_at_once():
    assert economy.payback(100.0, 0.0) == economy.payback(100.0, -5.0) == np.inf
    assert economy.discounted_payback(1000.0, 20.0, 0.03, 0.0) == np.inf  # 20 a year for ever is worth 667
    assert economy.payback(0.0, 0.0) == economy.payback(0.0, 10.0) == 0.0


def test_a_life_cycle_is_the_sum_of_every_payment_at_its_year():
    again = [economy.Again(300.0, 10.0), economy.Again(999.0, 31.0)]
    first, yearly, d, e, n, left = 2000.0, 150.0, 0.04, 0.01, 30, 400.0
    by_hand = first + sum(yearly * (1 + e) ** t / (1 + d) ** t for t in range(1, n + 1))
    by_hand += 300.0 / (1 + d) ** 10 - left / (1 + d) ** n  # what falls due in year 31 is left out
    assert economy.life_cycle_cost(first, yearly, d, e, n, again, left) == approx(by_hand, rel=1e-12)


def test_two_life_cycles_differ_by_the_net_saving_between_them():
    """NIST Handbook 135: the least life-cycle cost and the greatest net saving are one choice."""
    d, e, n = 0.03, 0.01, 25
    bare, foam = (economy.life_cycle_cost(c, a, d, e, n) for c, a in ((5000.0, 600.0), (7400.0, 390.0)))
    saved = 210.0 * economy.present_worth_of_years_growing(d, e, n)
    assert bare - foam == approx(economy.net_saving(saved, 2400.0), rel=1e-9)


def test_thousands_are_worked_out_at_once_as_one_by_one():
    costs, saved = np.linspace(100.0, 5000.0, 4000), np.linspace(-20.0, 400.0, 4000)
    together = economy.discounted_payback(costs, saved, 0.03, 0.01)
    alone = [economy.discounted_payback(c, s, 0.03, 0.01) for c, s in zip(costs[::400], saved[::400], strict=True)]
    assert together[::400] == approx(alone)
    whole = economy.life_cycle_cost(costs, saved, 0.03, 0.01, 30)
    assert whole.shape == costs.shape
    assert whole[7] == approx(economy.life_cycle_cost(costs[7], saved[7], 0.03, 0.01, 30))


@given(st.floats(20.0, 400.0), st.floats(5.0, 200.0), st.floats(0.02, 0.05), st.floats(0.1, 4.0), st.floats(0.1, 5.0))
def test_no_thickness_costs_less_than_the_best_one(cost, heat, conductivity, bare, worth):
    best = economy.optimum(cost, heat, conductivity, bare, worth)
    thick = np.linspace(0.0, 3.0, 601)
    of_all = cost * thick + worth * heat / (bare + thick / conductivity)
    at_best = cost * best + worth * heat / (bare + best / conductivity)
    assert at_best <= of_all.min() * (1.0 + 1e-9)


def test_a_ladder_is_flat_as_far_as_costs_stay_within_one_part_in_a_hundred():
    thick = [0.0, 0.025, 0.05, 0.075, 0.1, 0.15]
    flat = economy.best_of(thick, [140.0, 101.1, 100.9, 100.0, 100.5, 100.2])
    assert (flat.at, flat.low, flat.high) == (0.075, 0.05, 0.15)
    assert economy.best_of([0.0], [5.0]).low == 0.0
    alone = economy.best_of(thick, [100.0, 120.0, 100.5, 130.0, 140.0, 150.0])  # 2 in is as cheap, but not beside it
    assert (alone.low, alone.high) == (0.0, 0.0)
    assert economy.best_of([0.0, 0.1], [-100.0, -99.5]).high == 0.1  # costs below nought: the share is of their size


def test_a_parabola_goes_through_what_is_known_and_is_a_line_where_two_places_are_one():
    known, values = [2.0, 5.0, 9.0], [1.0, -3.0, 8.0]
    assert economy.parabola(known, values, known) == approx(values)
    exact = [0.5 * x * x - 2.0 * x + 7.0 for x in (1.0, 3.0, 4.0)]
    assert economy.parabola([1.0, 3.0, 4.0], exact, [2.0])[0] == approx(5.0)
    assert economy.parabola([1.0, 1.0, 3.0], [2.0, 2.0, 6.0], [2.0])[0] == approx(4.0)


@pytest.mark.parametrize(
    ("refused", "told"),
    [
        (lambda: economy.present_worth(-1.0, 5), "discount"),
        (lambda: economy.present_worth(float("nan"), 5), "discount"),
        (lambda: economy.present_worth(0.03, -1), "years"),
        (lambda: economy.present_worth_of_years_growing(0.03, -1.2, 5), "growth"),
        (lambda: economy.discounted_payback(-1.0, 5.0, 0.03, 0.0), "cost"),
        (lambda: economy.saving_to_investment(5.0, 0.0), "cost"),
        (lambda: economy.adjusted_return(-0.1, 0.03, 5), "ratio"),
        (lambda: economy.adjusted_return(1.0, 0.03, 0), "years"),
        (lambda: economy.life_cycle_cost(1.0, 1.0, 0.03, 0.0, 5, residual=-1.0), "residual"),
        (lambda: economy.best_of([], []), "list"),
        (lambda: economy.best_of([0.1, 0.05], [1.0, 2.0]), "rise"),
        (lambda: economy.best_of([0.05, 0.1], [1.0, float("nan")]), "cost"),
        (lambda: economy.optimum(0.0, 1.0, 0.04, 1.0, 1.0), "per_thickness"),
    ],
)
def test_what_cannot_be_is_refused_by_name(refused, told):
    with pytest.raises(OutOfDomain, match=told):
        refused()
