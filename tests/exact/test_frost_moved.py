"""Frost of a brief with something changed in it: what is told quickly is what all is told on fine cells."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from underpour.answer import findings
from underpour.ask.asking import left_open
from underpour.brief import reads
from underpour.checks.frozen import Reach, Wintered
from underpour.cut import settled_edges
from underpour.resolve import resolve
from underpour.trying import Taken, as_taken, named, with_change
from underpour.wintering import moved_winters, winters
from underpour.wintering.moved import SURE

DRIVE = """\
[project]
use = "drive"

[site]
place = "Buffalo, NY"
humidity = ["72 %"]
ground = "silty-clay-moist"
freezing-index = "1300 °F·d"
fines = "20 %"
water-table = "6 ft"
drained-layer = "16 in"

[plan]
outline = ["0 0", "30 0", "30 12", "0 12"]
unit = "ft"

[floor]
build-up = [{ concrete = "5 in" }, { board = "c578-iv", thickness = "1 in" }, { gravel = "4 in" }]

[[edge]]
sides = "all"
kind = "free-edge"
ground = "-2 in"
"""


@cache
def taken() -> Taken:
    return as_taken(reads(DRIVE))


def ends() -> list[tuple[str, float]]:
    tried = (
        "site.ground.conductivity",
        "site.ground.water",
        "site.ground.frozen-conductivity",
        "site.surface.freezing",
    )
    return [
        (e.path, v) for e in left_open(taken()) if e.path in tried for v in (e.low, e.high) if v not in (None, e.value)
    ]


def test_every_end_gives_the_verdicts_and_about_the_depths_that_fine_cells_give():
    """A depth that was moved is off by no more than the error that it had before."""
    tried = 0
    for path, value in ends():
        resolved = resolve(taken().brief, {path: value}, taken().resolved.products)
        quickly = with_change(taken(), resolved)
        wholly = named(findings(resolved, settled_edges(resolved, taken().edges)))
        for name, finding in wholly.items():
            if name[0] in ("frost.depth", "frost.heave"):
                assert quickly[name].verdict == finding.verdict, (path, value, name)
        moved, _ = moved_winters(taken().wintered, taken().wintered_roughly, winters(resolved, taken().sketched))
        for one, other in zip(moved, winters(resolved, taken().edges), strict=True):
            for place, reach in one.reaches.items():
                assert abs(reach.deepest - other.reaches[place].deepest) <= max(reach.within, 0.02), (
                    path,
                    value,
                    place,
                )
        tried += 1
    assert tried >= 6


def frozen_to(deepest: float, within: float, stop: float = 0.5) -> tuple[Wintered, ...]:
    none = np.zeros(1, np.float32)
    reach = Reach("footing", 0.0, stop, none, deepest, 0.1, within)
    return (Wintered("A", "in use", 1e8, none, {"footing": reach}, none, none, none),)


@pytest.mark.parametrize(
    ("before", "after", "deepest", "doubted"),
    [
        (0.30, 0.30, 0.32, False),  # nothing moves: what was sure or not stays so
        (0.30, 0.34, 0.36, False),  # 0.14 from the footing, the error 0.05
        (0.30, 0.37, 0.39, False),  # just outside of the bound, which is 0.10
        (0.30, 0.40, 0.42, True),
        (0.30, 0.60, 0.62, True),  # past it, and moved by 0.30, which is no small step: 0.15
        (0.30, 0.90, 0.92, True),
    ],
)
def test_a_depth_near_what_does_harm_is_in_doubt(before, after, deepest, doubted):
    moved, told = moved_winters(frozen_to(0.32, 0.05), frozen_to(before, 0.16), frozen_to(after, 0.16))
    assert moved[0].reaches["footing"].deepest == pytest.approx(deepest)
    assert told == ({("A", "in use")} if doubted else set())
    assert SURE == 2.0


def test_a_winter_that_was_not_there_before_is_in_doubt():
    new = tuple(replace(each, stage="vacant") for each in frozen_to(0.1, 0.16))
    moved, told = moved_winters(frozen_to(0.1, 0.02), frozen_to(0.1, 0.16), new)
    assert moved == new and told == {("A", "vacant")}
