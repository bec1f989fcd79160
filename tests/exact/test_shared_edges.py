"""An edge that an alternative leaves as it is, is solved once; the answer is the same as if it were solved again."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from underpour import cut
from underpour.answer import answer
from underpour.brief import read

DOOR = Path(__file__).parents[2] / "examples" / "workshop-door" / "brief.toml"


def test_an_edge_left_as_it_is_is_solved_once_and_answered_alike(monkeypatch):
    solved = []

    def counted(*given, **more):
        solved.append(given)
        return solve_each(*given, **more)

    solve_each = cut.solve_each
    monkeypatch.setattr(cut, "solve_each", counted)
    reading = read(DOOR)
    shared = answer(reading)
    assert len(solved) == 3  # the walls once, the door as briefed, the door with its break

    solved.clear()
    monkeypatch.setattr("underpour.answer.solved_edges", lambda resolved, before: cut.solved_edges(resolved))
    again = answer(reading)
    assert len(solved) == 4
    for one, other in zip(shared.alternatives, again.alternatives, strict=True):
        assert one.findings == other.findings
        for edge, field in one.fields.items():
            assert np.array_equal(field.mean, other.fields[edge].mean, equal_nan=True)
            assert np.array_equal(field.swing, other.fields[edge].swing, equal_nan=True)
