"""Creep: the line through the logarithms two ways, and what records and readings let stand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx
from scipy.optimize import curve_fit

from boards_spoilt import HOURS, board_of, creep, readings, without
from underpour.catalogue.properties import unit_of
from underpour.catalogue.records import Board
from underpour.design import long_term, stiffness
from underpour.physics.domain import OutOfDomain
from underpour.physics.foam_stress import Findley, carried_forward, findley_fit

YEAR = unit_of("years", "time")
TIMES = np.array(HOURS) * 3600.0


def law(initial: float, factor: float, exponent: float) -> np.ndarray:
    """Strains at TIMES; the first reading is the initial strain."""
    return np.array([initial, *(initial + factor * TIMES[1:] ** exponent)])


@given(st.floats(1e-3, 1e-2), st.floats(1e-6, 1e-4), st.floats(0.05, 0.35))
def test_a_power_law_is_found_again(initial: float, factor: float, exponent: float) -> None:
    found = findley_fit(TIMES, law(initial, factor, exponent))
    assert found.initial == initial
    assert found.factor == approx(factor, rel=1e-6)
    assert found.exponent == approx(exponent, rel=1e-6)
    assert found.determination == approx(1.0, abs=1e-9)


def scattered() -> np.ndarray:
    """Readings as a laboratory takes them: each off the law by up to 6 % of its creep."""
    off = np.random.default_rng(7).uniform(0.94, 1.06, len(TIMES) - 1)
    clean = law(0.0062, 3e-5, 0.28)
    return np.array([clean[0], *(clean[0] + (clean[1:] - clean[0]) * off)])


def test_scattered_readings_give_the_line_of_numpy_s_least_squares() -> None:
    """``numpy.polyfit`` through the logarithms, and the r² of ``numpy.corrcoef``: code that knows nothing of ours."""
    strains = scattered()
    x, y = np.log10(TIMES[1:]), np.log10(strains[1:] - strains[0])
    slope, height = np.polyfit(x, y, 1)
    found = findley_fit(TIMES, strains)
    assert found.exponent == approx(slope, rel=1e-9)
    assert found.factor == approx(10.0**height, rel=1e-9)
    assert found.determination == approx(np.corrcoef(x, y)[0, 1] ** 2, rel=1e-9)
    assert 0.9 < found.determination < 1.0


def test_in_50_years_the_line_lies_within_3_per_cent_of_a_curve_fitted_to_the_strains_themselves() -> None:
    """``scipy.optimize.curve_fit`` on the strains weighs the late readings; the standard's line weighs all alike."""
    strains = scattered()
    found = findley_fit(TIMES, strains)
    (factor, exponent), _ = curve_fit(
        lambda t, m, b: strains[0] + m * t**b, TIMES[1:], strains[1:], p0=(1e-5, 0.3), xtol=1e-14, ftol=1e-14
    )
    other = strains[0] + factor * (50 * YEAR) ** exponent
    assert carried_forward(found, 50 * YEAR, 30.2) == approx(other, rel=0.03)


def test_carried_thirty_times_and_not_a_second_more() -> None:
    fit = Findley(0.006, 1e-5, 0.3, 1.0, 1000.0)
    assert carried_forward(fit, 30_000.0, 30.0) > 0.006
    with pytest.raises(OutOfDomain, match="more than 30 times"):
        carried_forward(fit, 30_000.1, 30.0)


@pytest.mark.parametrize(
    ("times", "strains", "words"),
    [
        ([60.0, 1e3, 1e4], [0.006, 0.007, 0.008], "at least four readings"),
        ([60.0, 1e3, 1e4, 1e5], [0.006, 0.007, 0.008], "at least four readings"),
        ([0.0, 1e3, 1e4, 1e5], [0.006, 0.007, 0.008, 0.009], "first_time must be above zero"),
        ([60.0, 1e4, 1e3, 1e5], [0.006, 0.007, 0.008, 0.009], "times must rise"),
        ([60.0, 1e3, 1e4, 1e5], [0.006, 0.006, 0.008, 0.009], "must lie above the first"),
        ([60.0, 1e3, 1e4, 1e5], [0.006, 0.007, float("nan"), 0.009], "must lie above the first"),
        ([60.0, 1e3, 1e4, 1e5], [0.6, 0.7, 0.9, 1.2], "be at most 1"),
        ([60.0, 1e3, 1e4, 1e5], [0.0, 0.007, 0.008, 0.009], "initial must be above zero"),
    ],
)
def test_readings_that_give_no_line_are_refused(times: list[float], strains: list[float], words: str) -> None:
    with pytest.raises(OutOfDomain, match=words):
        findley_fit(times, strains)


def xps(*records: dict, claims: tuple[str, ...] | None = None) -> Board:
    """The extruded board of the line with these creep records and none of its own."""
    product = without("xps-40", "creep")
    product["evidence"] += list(records)
    if claims is not None:
        product["claims"] = list(claims)
    return board_of(product)


def test_readings_are_carried_to_50_years_and_their_stress_may_stand() -> None:
    """0.6 + 0.03 · t^0.27 in hours: after 438 300 h 0.6 + 0.03 · 33.36 = 1.60 %."""
    board = xps(*readings(0.6, 0.03, 0.27, "95 kPa"))
    held = long_term(board).by("creep")
    assert held.stress == approx(95e3)
    strain = 0.6 + 0.03 * (50 * YEAR / 3600.0) ** 0.27
    assert f"{strain:.2f} % under 95.0 kPa" in held.numbers and "11 readings to 608 d" in held.numbers
    assert "0.600 % + 0.0300 % × t^0.270 (t in h)" in held.numbers
    (after,) = stiffness(board).long
    assert after.value == approx(95e3 / (strain / 100.0), rel=1e-6)


def test_the_highest_stress_below_the_first_that_goes_too_far_may_stand() -> None:
    tests = [
        creep(1.2, stress="60 kPa", lasted="608 d", reaches="50 years"),
        creep(1.9, stress="90 kPa", lasted="608 d", reaches="50 years"),
        creep(2.4, stress="120 kPa", lasted="608 d", reaches="50 years"),
        creep(1.9, stress="150 kPa", lasted="608 d", reaches="50 years"),
    ]
    assert long_term(xps(*tests)).by("creep").stress == approx(90e3)


@pytest.mark.parametrize(
    ("record", "why"),
    [
        (creep(1.8, lasted="608 d", reaches="50 years"), "does not say the stress that was held"),
        (creep(1.8, stress="90 kPa", reaches="50 years"), "does not say how long it lasted"),
        (creep(1.8, stress="90 kPa", lasted="608 d"), "the time it is carried forward to"),
        (creep(1.8, stress="90 kPa", lasted="500 d", reaches="50 years"), "carried forward 37 times its own length"),
        (creep(1.8, stress="90 kPa", lasted="304 d", reaches="25 years"), "reaches 25 years, and 50 are wanted"),
        (creep(2.1, stress="90 kPa", lasted="608 d", reaches="50 years"), "2.10 % under 90.0 kPa in 50 years"),
    ],
)
def test_a_creep_record_that_does_not_carry_a_stress_says_why(record: dict, why: str) -> None:
    held = long_term(xps(record))
    assert held.by("creep").stress is None and why in held.by("creep").why
    assert held.by("cc-code").stress is None and "no creep test carries it" in held.by("cc-code").why
    assert held.smallest.key == "one-third"


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        (
            readings(0.6, 0.03, 0.27, "90 kPa", (1 / 60, 1, 10, 100, 2904)),
            "its creep test lasted 121 d; 50 years are more",
        ),
        (readings(0.6, 0.10, 0.30, "90 kPa"), "is more than the 2 % that may be"),
        (readings(0.6, 0.03, 0.27, "90 kPa", (1 / 60, 1, 10)), "no line goes through its creep readings"),
    ],
)
def test_readings_that_do_not_carry_a_stress_say_why(rows: list[dict], why: str) -> None:
    assert why in long_term(xps(*rows)).by("creep").why


def test_readings_too_far_from_a_line_carry_nothing() -> None:
    rows = readings(0.6, 0.03, 0.27, "90 kPa")
    for n, row in enumerate(rows[1:], start=1):
        row["value"] = 0.6 + (0.4 if n % 2 else 0.05)
    assert "too far from a line" in long_term(xps(*rows)).by("creep").why


@pytest.mark.parametrize(
    ("code", "why"),
    [
        ("XPS EN 13164 T1-CS(10\\Y)250-CC(2/1,5/25)90", "declared for 25 years, and 50 are wanted"),
        ("XPS EN 13164 T1-CS(10\\Y)250-CC(3/2/50)90", "lets the foam lose 3 %, and 2 % is the most"),
        ("XPS EN 13164 T1-CS(10\\Y)250-CC(2/1,5/50)110", "is declared, and no creep test carries it"),
        ("XPS EN 13164 T1-CS(10\\Y)250", "no code of the maker's declares creep"),
    ],
)
def test_a_code_that_lets_nothing_stand_says_why(code: str, why: str) -> None:
    test = creep(1.8, stress="90 kPa", lasted="608 d", reaches="50 years")
    held = long_term(xps(test, claims=(code,))).by("cc-code")
    assert held.stress is None and why in held.why


def test_a_stress_said_as_a_share_of_the_strength_is_that_share_of_it() -> None:
    board = board_of(without("plain-25"))
    held = long_term(board).by("creep")
    assert held.stress == approx(0.30 * board.strength.value * 1000.0)
