"""Two sets of films are solved at the same time; each answer is, to the last bit, the one it has alone."""

from __future__ import annotations

import numpy as np
import pytest

from sections_at_random import CLIMATES, FILMS, MOULD, drawn_at_random
from underpour.physics.conduction.solve import Solved, solve, solve_each


def same(one: Solved, other: Solved) -> bool:
    pairs = ((one.coarse, other.coarse), (one.fine, other.fine))
    return all(np.array_equal(a.mean, b.mean) and np.array_equal(a.swing, b.swing) for a, b in pairs)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_each_set_of_films_has_the_answer_that_it_has_alone(seed):
    made = drawn_at_random(seed)
    alone = solve(made.parts, made.airs, FILMS, CLIMATES)
    for _ in range(4):
        beside, still = solve_each(made.parts, made.airs, [FILMS, MOULD], CLIMATES)
        assert same(beside, alone)
        assert not same(still, alone)
