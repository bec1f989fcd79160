"""The edge of a brief as a family: told as the whole solve tells it, and solved wholly where no stretch leads."""

from pathlib import Path

import numpy as np
import pytest

from underpour.brief import read
from underpour.families import EdgeFamily, Vary, family_of
from underpour.mistakes import Mistake
from underpour.physics.conduction.sample import sampled
from underpour.resolve import resolve

EXAMPLES = Path(__file__).parents[2] / "examples"


def taken(name, edge=0):
    reading = read(EXAMPLES / name / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    return resolved, resolved.edges[edge]


def foam_of(resolved):
    return next(layer for layer in resolved.floor if layer.kind == "board")


def made(name, low, high, edge=0):
    resolved, at = taken(name, edge)
    foam = foam_of(resolved)
    ground = resolved.strata[0].slice
    varying = (
        Vary("conductivity", foam.path, 0.025, 0.045),
        Vary("thickness", foam.path, low * foam.thickness, high * foam.thickness),
        Vary("conductivity", ground.path, 0.8, 2.5),
    )
    return family_of(resolved, at, varying), foam.thickness


@pytest.fixture(scope="module")
def workshop():
    return made("frost-wall-workshop", 0.7, 1.5)[0]


@pytest.fixture(scope="module")
def raft():
    return made("raft-house", 0.8, 1.3)


def at_random(family: EdgeFamily, count: int, seed: int):
    low, high = (np.array([getattr(each, end) for each in family.varying]) for end in ("low", "high"))
    return low + (high - low) * np.random.default_rng(seed).random((count, len(low)))


def apart(one, other):
    return abs(one.mean - other.mean) + abs(one.swing - other.swing)


@pytest.mark.parametrize("seed", [101, 102, 103])
def test_heat_and_corner_are_those_of_the_whole_solve(workshop, seed):
    (case,) = at_random(workshop, 1, seed)
    (told,), whole = workshop.told(case), workshop.solved_wholly(case, "")
    assert told.why == ""
    for one, other in ((told.floor, whole.floor), (told.room, whole.room), (told.corner, whole.corner)):
        assert apart(one, other) <= one.within + other.within
    assert told.floor.within < 0.006 * abs(told.floor.mean)
    assert told.corner.within < 0.1, "K"


def test_many_cases_are_the_single_ones(workshop):
    cases = at_random(workshop, 3, 104)
    mean, swing, within = workshop.columns(cases)
    for n, told in enumerate(workshop.told(cases)):
        assert (mean[n], swing[n], within[n]) == pytest.approx((told.floor.mean, told.floor.swing, told.floor.within))


def test_the_picture_is_that_of_the_whole_solve(workshop):
    (case,) = at_random(workshop, 1, 105)
    field = workshop.picture(case)
    solved, section = workshop.solved(case)
    other = sampled(solved, section.window, section.floor)
    x, y = (np.intersect1d(a.round(4), b.round(4)) for a, b in ((field.x, other.x), (field.y, other.y)))
    assert len(x) > 8 and len(y) > 8

    def at(one):
        return one.mean[np.ix_(np.searchsorted(one.y, y - 1e-4), np.searchsorted(one.x, x - 1e-4))]

    one, two = at(field), at(other)
    assert np.array_equal(np.isnan(one), np.isnan(two))
    assert np.nanmax(np.abs(one - two)) < 0.12, "K, no bound: the first grid's, where foam meets open air"


def test_a_thickness_at_which_lines_meet_is_solved_wholly_and_both_sides_are_told(raft):
    family, now = raft
    assert len(family.branches) == 2
    thin, here, thick = family.told([[0.03, t * now, 1.5] for t in (0.85, 1.0, 1.2)])
    assert (thin.why, thick.why) == ("", "")
    assert here.why == (
        "lines of the section meet near this floor.build-up.3.board, no stretch leads there: solved wholly"
    )
    assert thin.floor.mean > here.floor.mean > thick.floor.mean
    assert family.columns([[0.03, now, 1.5]])[2].tolist() == [np.inf]


OUTSIDE = [
    ([0.03, 0.0, 1.5], "a thickness of zero is no stretch of the others: solved wholly"),
    (
        [0.03, 0.1, 1.5],
        "floor.build-up.3.board lies outside of what the family was made for, 0.04 to 0.065: solved wholly",
    ),
    ([0.03, 0.04, 0.5], "site.ground lies outside of what the family was made for, 0.8 to 2.5: solved wholly"),
]


@pytest.mark.parametrize(("case", "why"), OUTSIDE)
def test_what_lies_outside_is_solved_wholly_and_said(raft, case, why):
    family, _ = raft
    (told,) = family.told([case])
    assert told.why == why
    assert told.floor.within > 0.0 and told.room.mean > told.floor.mean > 0.0


UNSTRETCHED = [
    ("thickened-edge-house", "slanted sides would be stretched: solved wholly"),
    ("layered-yard", "no room lies over this slab"),
]


@pytest.mark.parametrize(("name", "why"), UNSTRETCHED)
def test_an_edge_that_cannot_be_stretched_says_why(name, why):
    resolved, edge = taken(name)
    foam = next((layer for layer in resolved.floor if layer.kind == "board"), resolved.floor[0])
    family = family_of(resolved, edge, [Vary("thickness", foam.path, 0.9 * foam.thickness, 1.1 * foam.thickness)])
    assert (family.why, family.branches) == (why, ())
    (told,) = family.told([[foam.thickness]])
    assert told.why == why and told.floor.within > 0.0


def test_slanted_sides_are_no_matter_where_only_conductivities_vary():
    resolved, edge = taken("thickened-edge-house")
    foam = foam_of(resolved)
    family = family_of(resolved, edge, [Vary("conductivity", foam.path, 0.025, 0.045)])
    (told,), whole = family.told([[0.03]]), family.solved_wholly(np.array([0.03]), "")
    assert (family.why, told.why) == ("", "")
    assert apart(told.floor, whole.floor) <= told.floor.within + whole.floor.within


def test_a_path_that_no_body_has_is_told_with_those_that_are_there():
    resolved, edge = taken("raft-house")
    with pytest.raises(Mistake) as wrong:
        family_of(resolved, edge, [Vary("thickness", "floor.build-up.9.board", 0.02, 0.1)])
    assert wrong.value.wrong == "No body of this section has this path."
    assert "floor.build-up.3.board" in wrong.value.instead
