"""Where only one edge is shown, it is the one that tells most."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from answered import once
from underpour.cli.pictures import chosen_edge
from underpour.dossier import Dossier
from underpour.drawings.telling import coldest_edge, telling_edge

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def dossier() -> Dossier:
    """Walls that are the same in both alternatives (edge A), and a door that is not (edge B)."""
    return once(EXAMPLES / "workshop-door" / "brief.toml")


def test_alternatives_that_differ_at_the_door_are_drawn_at_the_door():
    assert telling_edge(dossier()) == "B"
    assert chosen_edge(dossier(), None) == "B"
    assert chosen_edge(dossier(), "A") == "A"


def test_without_a_difference_the_first_edge_is_drawn():
    alone = replace(dossier(), alternatives=dossier().alternatives[:1])
    assert telling_edge(alone) == "A"


def test_an_owner_is_shown_the_coldest_edge():
    cold = {edge: dossier().as_briefed.find("heat.corner-coldest", edge=edge).value for edge in "AB"}
    assert cold["B"] < cold["A"]
    assert coldest_edge(dossier().as_briefed) == "B"


@pytest.mark.parametrize("gone", [("heat.corner-coldest",), ("heat.corner-coldest", "heat.ground-temperature")])
def test_edges_of_which_nothing_is_known_leave_the_first(gone):
    briefed = dossier().as_briefed
    bare = replace(briefed, findings=tuple(f for f in briefed.findings if f.id not in gone))
    assert coldest_edge(bare) == "A"
    assert telling_edge(replace(dossier(), alternatives=(bare, bare))) == "A"
