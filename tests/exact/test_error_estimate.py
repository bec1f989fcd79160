"""The estimated error of the room's heat against the true one, on sections drawn at random.

The true error is taken against a solution that is at least twenty times surer by its own estimate, on a grid with many
more lines. An estimate below the true error
would be a promise not kept; one above twenty times would have us solve for nothing.
"""

import numpy as np
import pytest

from bodies import of_space
from sections_at_random import CLIMATES, FILMS, drawn_at_random
from underpour.physics.conduction import mean_heat as by_strips
from underpour.physics.conduction.blocks import blocks
from underpour.physics.conduction.solve import Climate, solve
from underpour.physics.conduction.strips import couplings

ROOM = of_space(0)
SMALL = (11, 27, 38)  # three with few unknowns
BELOW = 15_000  # unknowns of the first answer of the long set


def estimated_over_true(seed, solved):
    """Estimated error over true error of the room's heat, mean and swing together."""
    made, unknowns = drawn_at_random(seed), solved.fine.equations.unknowns
    ours = solved.flow(ROOM)
    wanted = ours.within / (abs(ours.mean) + abs(ours.swing)) / 30.0
    true = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=wanted, most_unknowns=400_000).flow(ROOM)
    assert true.within < ours.within / 20.0
    off = abs(ours.mean - true.mean) + abs(ours.swing - true.swing)
    print(f"seed {seed}, {made.kind}: {unknowns} unknowns, estimated {ours.within:.4f} W/m, true {off:.4f} W/m")
    return ours.within / off


def to_one_in_a_hundred(seed):
    made = drawn_at_random(seed)
    return solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.01)


@pytest.mark.parametrize("seed", SMALL)
def test_the_estimate_is_not_below_the_true_error_nor_far_above(seed):
    """Derived."""
    assert 1.0 <= estimated_over_true(seed, to_one_in_a_hundred(seed)) <= 20.0


CROSSED = (20, 22, 101, 128)  # ground and footing touch in a point between two boards
MEANS = {where: Climate(air.mean) for where, air in CLIMATES.items()}


def mean_by_the_finest_strips(seed):
    """Another way through the same section, whatever it tells of itself: elsewhere the two agree to 0.001 %."""
    made, last = drawn_at_random(seed), by_strips.FINENESS[-1]
    laid, _ = blocks(made.parts, made.airs)
    films = np.array([[FILMS[air.where].of(way) for way in ("up", "side", "down")] for air in made.airs])
    strips, degrees = by_strips._laid(laid, by_strips._rows_asked(laid, films.min(1)), last)
    means = np.array([[MEANS[air.where].mean] * 3 for air in made.airs])
    return by_strips._heats(couplings(strips, degrees, 1.0 / films), means, last.times).spaces[0].mean


def told_over_off(seed, tolerance):
    made = drawn_at_random(seed)
    told = solve(made.parts, made.airs, FILMS, MEANS, tolerance=tolerance, most_unknowns=150_000).flow(ROOM)
    return told.within / abs(told.mean - mean_by_the_finest_strips(seed))


@pytest.mark.parametrize(
    ("seed", "tolerance"),
    [(22, 1e-3), (22, 1e-4), (101, 1e-4)]
    + [pytest.param(seed, each, marks=pytest.mark.proof) for seed in CROSSED for each in (1e-3, 1e-4, 1e-5)],
)
def test_where_heat_squeezes_through_a_point_the_estimate_holds_however_fine(seed, tolerance):
    """There a degree more changes a fraction of what is off: 0.4 to 0.9 of it was told before that was counted."""
    assert 1.0 <= told_over_off(seed, tolerance) <= 20.0


def test_only_where_heat_squeezes_through_a_point_more_is_told_than_the_change():
    unseen = {}
    for seed in (2, 11, 22):
        made = drawn_at_random(seed)
        unseen[seed] = solve(made.parts, made.airs, FILMS, CLIMATES).unseen
    assert unseen[2] == unseen[11] == 0.0 < unseen[22]


@pytest.mark.proof
def test_the_estimate_holds_for_six_sections_of_every_size():
    """The first six seeds whose first answer stays below 15 000 unknowns. Derived."""
    ratios = {}
    seed = 0
    while len(ratios) < 6:
        seed += 1
        solved = to_one_in_a_hundred(seed)
        if solved.fine.equations.unknowns < BELOW:
            ratios[seed] = estimated_over_true(seed, solved)
    assert {seed: ratio for seed, ratio in ratios.items() if not 1.0 <= ratio <= 20.0} == {}


@pytest.mark.proof
@pytest.mark.parametrize("seed", [*range(1, 31), *range(101, 131)])
def test_the_estimate_holds_on_sixty_sections(seed):
    """Seeds 1 to 30 to work on, 101 to 130 shown beside and never tuned on; the table is in studies/. Derived."""
    made = drawn_at_random(seed)
    assert 1.0 <= estimated_over_true(seed, solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=1e9)) <= 20.0
