"""The edge of a brief as a family: told as the whole solve tells it, and solved wholly where no stretch leads."""

import pickle
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from underpour.answer import findings
from underpour.brief import read
from underpour.checks.solved import ROOM, floor_faces
from underpour.cut import solved_edges
from underpour.families import EdgeFamily, Vary, family_of
from underpour.mistakes import Mistake
from underpour.physics.conduction.sample import sampled
from underpour.physics.domain import OutOfDomain
from underpour.resolve import resolve
from underpour.trying import moved_by_first_grid, named

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
    for which in ("floor", "room", "corner", "behind"):
        one, other = getattr(told, which), getattr(whole, which)
        assert apart(one, other) <= one.within + other.within, which
    assert told.floor.within < 0.006 * abs(told.floor.mean)
    assert max(told.corner.within, told.behind.within) < 0.1, "K"
    assert told.behind.mean - abs(told.behind.swing) < told.corner.mean - abs(told.corner.swing) - 0.2, "K, furniture"


def test_many_cases_are_the_single_ones(workshop):
    cases = at_random(workshop, 3, 104)
    mean, swing, within = workshop.columns(cases)
    for n, told in enumerate(workshop.told(cases)):
        assert (mean[n], swing[n], within[n]) == pytest.approx((told.floor.mean, told.floor.swing, told.floor.within))


def test_the_picture_is_that_of_the_whole_solve(workshop):
    (case,) = at_random(workshop, 1, 105)
    field = workshop.picture(case)
    at, heat, _ = workshop.wholly(case)
    other = sampled(heat, at.section.window, at.section.floor)
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


@pytest.fixture(scope="module")
def thicknesses():
    """The workshop's foam alone, thinner and thicker, and two cases of it as briefs."""
    resolved, edge = taken("frost-wall-workshop")
    foam = foam_of(resolved)
    family = family_of(resolved, edge, [Vary("thickness", foam.path, 0.6 * foam.thickness, 1.6 * foam.thickness)])
    return family, foam.thickness


def test_a_family_is_a_plain_value_that_another_process_tells_alike(thicknesses):
    """Pickled, sent on, and asked there, where nothing was loaded before it came."""
    family, now = thicknesses
    resolved = family.cutting.resolved
    resolved.held.codes.rows("irc-2021", "floor"), resolved.products.products()  # looked up before: stays behind
    sent = pickle.dumps((family, [now]), pickle.HIGHEST_PROTOCOL)
    assert len(sent) < 4e6, "bytes: what only its making needs stays behind"
    there = "import pickle, sys; family, case = pickle.load(sys.stdin.buffer); print(family.told(case))"
    told = subprocess.run([sys.executable, "-c", there], input=sent, capture_output=True, check=True).stdout
    assert told.decode().strip() == repr(family.told([now]))


def sketch_of(family, thickness):
    return family.sketched(*family.cutting.changed(np.array([thickness])))


def test_a_sketch_has_the_heat_and_the_corners_that_the_family_tells(thicknesses):
    """By the field's own flows on the moved grid, and by the couplings with their bound: two ways through one span."""
    family, now = thicknesses
    for share in (0.7, 1.3):
        sketch, (told,) = sketch_of(family, share * now), family.told([[share * now]])
        assert apart(sketch.heat.flow(floor_faces), told.floor) < 1e-6 * abs(told.floor.mean)
        assert apart(sketch.heat.flow(lambda faces: faces.space == ROOM), told.room) < 1e-6 * abs(told.room.mean)
        for solved_so, corner in ((sketch.heat, told.corner), (sketch.mould, told.behind)):
            assert apart(solved_so.temperature(*sketch.section.corner), corner) <= corner.within
        assert sketch.heat.imbalance < 1e-3


def test_numbers_moved_by_two_sketches_are_those_of_two_answers(thicknesses):
    """A brief solved wholly, its foam changed by an eighth: each number moves as far as in another whole answer."""
    family, now = thicknesses
    briefs = [family.cutting.changed(np.array([share * now])) for share in (0.8, 0.9)]
    resolved = [replace(of, edges=(edge,)) for of, edge in briefs]
    before, after = (named(findings(each, (family.sketched(each, each.edges[0]),))) for each in resolved)
    was, then = (named(findings(each, solved_edges(each))) for each in resolved)
    moved = moved_by_first_grid(was, before, after)
    held = [key for key, found in then.items() if found.within and key in moved and moved[key].value is not None]
    assert {"heat.u-floor", "heat.corner-coldest", "moisture.mould"} <= {key[0] for key in held}
    for key in held:
        assert abs(moved[key].value - then[key].value) <= then[key].within, key


def colder(resolved, edge):
    return replace(resolved, outdoor_mean=resolved.outdoor_mean - 1.0), edge


def longer_footing(resolved, edge):
    return resolved, replace(edge, footing=(edge.footing[0] + 0.05, edge.footing[1]))


def no_foam(resolved, edge):
    return replace(resolved, floor=tuple(layer for layer in resolved.floor if layer.kind != "board")), edge


@pytest.mark.parametrize("changed", [colder, longer_footing, no_foam])
def test_an_edge_that_differs_in_anything_else_is_no_case_of_the_family(thicknesses, changed):
    family, now = thicknesses
    resolved, edge = family.cutting.changed(np.array([now]))
    assert family.sketched(resolved, edge) is not None
    assert family.sketched(*changed(resolved, edge)) is None


def test_a_thickness_beyond_the_ends_or_on_a_meeting_of_lines_is_not_sketched(thicknesses, raft):
    family, now = thicknesses
    assert sketch_of(family, 2.0 * now) is None
    of_raft, here = raft
    assert of_raft.sketched(*of_raft.cutting.changed(np.array([0.03, here, 1.5]))) is None


def test_brick_on_a_ledge_varies_as_any_other_body():
    resolved, edge = taken("brick-ledge-house")
    path = edge.ledge.brick.path
    family = family_of(resolved, edge, [Vary("conductivity", path, 0.6, 1.5)])
    poor, good = family.told([[0.7], [1.4]])
    whole = family.solved_wholly(np.array([1.4]), "")
    assert poor.room.mean < good.room.mean
    assert apart(good.room, whole.room) <= good.room.within + whole.room.within


FOAM = "floor.build-up.2.board"
ENDS = [
    (("thickness", FOAM, -0.01, 0.1), "There is no such thickness.", "Begin at nought."),
    (("thickness", FOAM, 0.1, 0.05), "The ends are the wrong way round.", "Lower end first: 0.05 to 0.1."),
    (("thickness", FOAM, np.nan, 0.05), "An end is no number.", "Give both ends in m."),
    (("thickness", FOAM, 0.05, np.inf), "An end is no number.", "Give both ends in m."),
    (("conductivity", FOAM, 0.0, 0.04), "There is no such conductivity.", "Begin above nought."),
    (("conductivity", FOAM, 0.02, np.inf), "An end is no number.", "Give both ends in W/(m·K)."),
]


@pytest.mark.parametrize(("vary", "wrong", "instead"), ENDS)
def test_ends_between_which_nothing_can_vary_are_told_at_the_path(vary, wrong, instead):
    with pytest.raises(Mistake) as told:
        family_of(*taken("frost-wall-workshop"), [Vary(*vary)])
    assert (told.value.at, told.value.wrong, told.value.instead) == (FOAM, wrong, instead)


def test_what_varies_twice_is_told():
    with pytest.raises(Mistake) as told:
        family_of(*taken("frost-wall-workshop"), [Vary("thickness", FOAM, 0.04, 0.06)] * 2)
    assert told.value.wrong == "Its thickness varies twice."


def test_a_family_from_nought_begins_a_step_above_it_and_nought_itself_is_solved_wholly():
    """A slider from no foam at all to a thickness at which lines meet."""
    family = family_of(*taken("frost-wall-workshop"), [Vary("thickness", FOAM, 0.0, 0.1016)])
    (branch,) = family.branches
    assert branch.ends[0] == pytest.approx(0.001016) and 0.098 < branch.ends[1] < 0.1016
    none, thin = family.told([[0.0], [0.002]])
    assert none.why == "a thickness of zero is no stretch of the others: solved wholly"
    assert thin.why == "" and none.floor.mean > thin.floor.mean
    whole = family.solved_wholly(np.array([0.002]), "")
    assert apart(thin.floor, whole.floor) <= thin.floor.within + whole.floor.within


REFUSED = [
    ([np.nan], "floor.build-up.2.board must be a number, got nan"),
    ([np.inf], "floor.build-up.2.board must be a number, got inf"),
    ([-1.0], "floor.build-up.2.board must be nought or more, got -1"),
    ([0.05, 0.03], "a case of this family has 1 numbers, 2 were given"),
]


@pytest.mark.parametrize(("case", "words"), REFUSED)
def test_a_case_that_is_none_is_refused_in_words(thicknesses, case, words):
    with pytest.raises(OutOfDomain) as refused:
        thicknesses[0].told([case])
    assert str(refused.value) == words


def test_a_case_that_no_ground_reaches_round_is_told_as_an_answer_tells_it(thicknesses):
    with pytest.raises(Mistake) as told:
        thicknesses[0].told([[1e9]])
    assert told.value.at == "edge.A" and told.value.wrong.startswith("Nothing fills the place")


def test_many_cases_beyond_the_ends_have_no_bound(thicknesses):
    family, now = thicknesses
    mean, _, within = family.columns([[now], [0.0], [9.0 * now]])
    assert np.isnan(mean).tolist() == [False, True, True] and np.isinf(within).tolist() == [False, True, True]
