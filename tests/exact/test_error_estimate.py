"""The estimated error of the room's heat against the true one, on sections drawn at random.

The true error is taken against a solution that is at least twenty times surer by its own estimate, on a grid with many
more lines. An estimate below the true error
would be a promise not kept; one above twenty times would have us solve for nothing.
"""

import pytest

from bodies import of_space
from sections_at_random import CLIMATES, FILMS, drawn_at_random
from underpour.physics.conduction.solve import solve

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
