"""An edge that an alternative leaves as it is, is solved once; the answer is the same as if it were solved again."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from underpour import cut
from underpour.answer import answer
from underpour.brief import read, reads

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


def test_edges_of_one_kind_are_solved_once_and_keep_their_own_names(monkeypatch):
    solved = []

    def counted(*given, **more):
        solved.append(given)
        return solve_each(*given, **more)

    solve_each = cut.solve_each
    monkeypatch.setattr(cut, "solve_each", counted)
    text = (DOOR.parents[1] / "raft-house" / "brief.toml").read_text("utf-8")
    whole = text[text.index("[[edge]]") :]
    edge = whole.partition("[[alternative]]")[0]
    parted = edge.replace('"all"', "[1, 3]") + edge.replace('"all"', '"rest"')
    two = answer(reads(text[: text.index("[[edge]]")] + parted)).as_briefed
    assert len(solved) == 1
    one = answer(reads(text[: text.index("[[edge]]")] + edge)).as_briefed
    for letter in "AB":
        corner = two.find("heat.corner-coldest", edge=letter)
        assert corner.value == one.find("heat.corner-coldest").value
        assert any(path.startswith(f"edge.{letter}.") for path in corner.rests_on)
        assert two.sections[letter].edge == letter


def test_another_conductivity_is_solved_anew():
    text = DOOR.read_text("utf-8")
    first = answer(reads(text)).as_briefed
    changed = text.replace(
        "[[alternative]]",
        '[[alternative]]\nname = "wetter"\nset = { "site.ground" = "sand-or-gravel" }\n[[alternative]]',
        1,
    )
    wetter = next(a for a in answer(reads(changed)).alternatives if a.name == "wetter")
    for letter in "AB":
        assert (
            wetter.find("heat.corner-coldest", edge=letter).value
            != first.find("heat.corner-coldest", edge=letter).value
        )
