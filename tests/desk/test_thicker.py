"""Foam that is drawn: each size by families that were made ready, as the first grid tells it and the whole answer."""

import re

import pytest
from browser.sheets import DEMO, FOAM

from underpour.brief import reads
from underpour.desk.live import Told
from underpour.desk.live.answering import Answering
from underpour.desk.live.first import First
from underpour.desk.live.thicker import as_before, drawn_at, family
from underpour.desk.live.whole import Whole
from underpour.desk.shown import Look
from underpour.resolve import resolve
from underpour.trying import named

TWO = """\
[project]
use = "workshop"
units = "US"
[site]
place = "Duluth, MN"
ground = "silty-clay-moist"
[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"
[floor]
inside = "68 F"
build-up = [{ concrete = "5 in" }, { board = "plain-25", thickness = "2 in" }, { gravel = "4 in" }]
[[edge]]
sides = [1, 2]
kind = "frost-wall"
depth = "60 in"
[[edge]]
sides = [3]
kind = "frost-wall"
depth = "60 in"
[[edge]]
sides = [4]
kind = "raft"
"""


def numbers(text):
    reading = reads(text)
    return resolve(reading.brief, products=reading.products)


def sized(text, words):
    return re.sub(r'(plain-\d+", thickness = )"2 in"', rf'\1"{words}"', text, count=1)


def whole(text):
    told = Whole().told(text, lambda: False)
    assert isinstance(told, Told)
    return told


@pytest.fixture(scope="module")
def drawn():
    """Two walls that are cut alike and a raft, answered; every family that its foam asks for, made ready."""
    last = whole(TWO)
    first = First()
    wanted = first.wanted(last, FOAM)
    made = [family(each) for each in wanted]
    for each in made:
        first.keep(each)
    return first, last, wanted


def test_edges_that_are_cut_alike_are_made_ready_once_and_then_no_more(drawn):
    first, last, wanted = drawn
    assert [each.edge.letter for each in wanted] == ["A", "C"]
    assert first.wanted(last, FOAM) == []
    assert [each.vary.path for each in drawn_at(numbers(TWO), "floor.build-up.3.gravel")] == [
        "floor.build-up.3.gravel"
    ] * 2


@pytest.mark.parametrize("path", ["edge.A.insulation.1.down", "floor.build-up.9.thickness", "site.place", ""])
def test_what_is_no_thickness_of_a_layer_makes_nothing_ready(path):
    assert list(drawn_at(numbers(TWO), path)) == []


def test_a_drawn_size_moves_every_number_as_far_as_the_whole_answer_does(drawn):
    first, last, _ = drawn
    told = first.told(sized(TWO, "2-1/2 in"), "as briefed", last)
    assert isinstance(told, Told)
    ((_, by_family),) = first._before
    assert by_family == {"A", "B", "C"}
    found, then = named(told.answers[0].findings), named(whole(sized(TWO, "2-1/2 in")).answers[0].findings)
    held = [key for key, each in then.items() if each.within and found[key].within]
    assert {"heat.u-floor", "heat.corner-coldest", "heat.edge-psi"} <= {key[0] for key in held}
    for key in held:
        if key not in told.unsure or found[key].value != named(last.answers[0].findings)[key].value:
            assert abs(found[key].value - then[key].value) <= then[key].within, key


def test_an_edge_is_told_by_its_family_in_both_versions_or_in_none(drawn):
    first, last, _ = drawn
    deeper = sized(TWO, "3 in").replace('"60 in"', '"48 in"', 1)
    assert set(as_before(first._told[(TWO, "as briefed")], numbers(deeper))) == {"B", "C"}
    told = first.told(deeper, "as briefed", last)
    assert isinstance(told, Told)
    assert {by_family for _, by_family in first._before} >= {frozenset({"B", "C"})}


def test_what_changes_beside_the_layer_is_no_case_of_any_family(drawn):
    first, _, _ = drawn
    held = first._told[(TWO, "as briefed")]
    assert set(as_before(held, numbers(TWO))) == {"A", "B", "C"}
    assert as_before(held, numbers(TWO.replace("Duluth, MN", "Fargo, ND"))) == {}


def test_a_family_is_made_in_the_gentle_process_and_serves_the_next_size():
    answering = Answering()
    try:
        assert answering.ahead(DEMO, FOAM) is None, "nothing is known of this text yet"
        assert isinstance(answering.whole(DEMO, Look(), "one"), Told)
        answering.ahead(DEMO, FOAM)
        answering._for_ahead.submit(lambda: None).result(60)
        assert isinstance(
            answering.first(DEMO.replace('"2 in" },\n  { gravel', '"3 in" },\n  { gravel'), "as briefed", "one"), Told
        )
        assert [by_family for _, by_family in answering._first._before] == [{"A"}]
    finally:
        answering.close()
