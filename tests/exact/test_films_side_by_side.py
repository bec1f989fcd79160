"""Two sets of films are solved at the same time; each answer is, to the last bit, the one it has alone."""

from __future__ import annotations

from pathlib import Path

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


def test_solving_again_and_again_keeps_no_memory():
    """Factors made in one thread and let go in another stay for good: eight of the demo held 8 GB of addresses."""
    status = Path("/proc/self/status")
    if not status.exists():
        pytest.skip("this system does not tell how much memory a process has")
    made = drawn_at_random(3)

    def held() -> int:
        for _ in range(4):
            solve_each(made.parts, made.airs, [FILMS, MOULD], CLIMATES, tolerance=1.0)
        line = next(line for line in status.read_text().splitlines() if line.startswith("VmSize"))
        return int(line.split()[1])  # kB

    held()
    before = held()
    assert held() - before < 300_000
