"""What an answer lacks or rests on is typed at the answer: one form for every key, from the brief's own models."""

import tomllib

import pytest
from test_loads_on_the_sheet import told

from underpour.brief import reads
from underpour.brief.alternatives import AS_BRIEFED
from underpour.brief.model import fields
from underpour.brief.retyped import Change, retyped
from underpour.brief.typed import Typed
from underpour.desk.shown.entry import entry, key_of, shape_of
from underpour.desk.shown.fields import YES_NO, Places, choices
from underpour.resolve import resolve

BRIEF = """\
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
build-up = [
  { concrete = "5 in" },
  { board = "c578-vi", thickness = "2 in" },
  { vapour-retarder = "film-6-mil" },
  { gravel = "4 in" },
]
[[edge]]
sides = "all"
kind = "footing-wall"
depth = "12 in"
ground = "84 in"
[[load]]
kind = "rack-post"
force = "6500 lb"
at = "20 14"
"""
LACKED = [  # as findings that cannot tell name them (tests/told/test_ask.py has a brief for each)
    "edge.A.props", "floor.available-depth", "floor.build-up.3.vapour-retarder", "floor.concrete-class",
    "floor.friction", "floor.touched-by", "foam.long-term-stress.c578-vi", "foam.modulus-for-good.c578-vi",
    "foam.modulus.c578-vi", "load", "load.1.anchor-depth", "load.1.plate", "project.heat-recovery", "project.work",
    "site.drain-outlet", "site.fines", "site.freezing-index", "site.frost-depth", "site.ground", "site.humidity",
    "site.soil-gas", "site.termites", "site.water-table", "site.zip", "site.zone", "soil-gas.backdraught-tested",
    "soil-gas.combustion", "soil-gas.communication.flow", "soil-gas.communication.vacuum",
    "soil-gas.outlet.above-roof", "soil-gas.outlet.from-openings", "soil-gas.pipe.falls", "soil-gas.pipe.labelled",
    "soil-gas.pipe.power", "soil-gas.pipe.size", "soil-gas.radon", "soil-gas.sealed", "soil-gas.stone.fines",
    "soil-gas.stone.size", "soil-gas.stone.voids", "soil-gas.suction.1.at", "soil-gas.suction.1.pit-depth",
    "soil-gas.system", "soil-gas.test.1.level", "stage", "snow", "tube.depth-from-top", "tube.heat", "tube.size",
    "tube.spacing", "tube.fluid", "tube.load", "floor.humidity", "floor.covering",
]  # fmt: skip


def places(text=BRIEF):
    reading = reads(text)
    resolved = resolve(reading.brief, products=reading.products)
    return Places(reading.versions[AS_BRIEFED].tree, resolved), choices(reading.products)


def typed(part, listed):
    """The first that it is chosen from, or the first of its examples, as the page sends it."""
    if "add" in part:
        return Change(part["path"], part["add"][0]["value"], "added")
    if "within" in part:
        held = {each["path"].rpartition(".")[2]: typed(each, listed).typed for each in part["within"]}
        return Change(part["path"], held, "added")
    words = listed[part["choices"]][0]["typed"] if part["choices"] else part["examples"][0]
    if part["choices"] == YES_NO:
        return Change(part["path"], words == "true")
    return Change(part["path"], words.split(", ") if part["shape"] == "words" else words)


@pytest.mark.parametrize("path", [each for each in LACKED if key_of(each) in fields()])
def test_a_key_that_an_answer_lacks_is_typed_by_the_first_of_its_ways_and_read(path):
    held, listed = places()
    part = entry(held, path)
    assert part is not None and part["help"]
    after = retyped(BRIEF, [typed(part, listed)])
    assert reads(after) and after != BRIEF
    assert Places(Typed.of(tomllib.loads(after)), held.resolved).plain(part["path"]) is not None


def test_every_key_of_the_brief_but_whole_tables_has_its_help_and_a_way_to_type_it():
    listed = places()[1]
    bare = [
        key
        for key, (_, field) in fields().items()
        if shape_of(field.annotation) != "table" and not (field.description and (field.examples or key in listed))
    ]
    assert bare == []


def test_what_is_no_key_of_the_brief_has_no_field():
    held, _ = places()
    assert entry(held, "catalogue.product.plain-15.water") is None
    assert entry(held, "floor.nothing") is None


SHAPES = [
    ("floor.build-up.2.thickness", "2 in", "one"),
    ("edge.A.sides", "all", "one"),
    ("site.humidity", "", "words"),
    ("load", '[{ kind = "rack-post", force = "6500 lb", at = "20 14" }]', "table"),
    ("soil-gas.suction.at", "", "table"),
]


@pytest.mark.parametrize(("path", "words", "shape"), SHAPES)
def test_it_says_what_is_typed_there_and_of_which_shape_it_is(path, words, shape):
    part = entry(places()[0], path)
    assert part is not None and (part["typed"], part["shape"]) == (words, shape)


def test_an_entry_that_is_still_to_come_asks_for_what_it_cannot_be_without():
    part = entry(places()[0], "stage.1.from")
    assert [each["path"] for each in part["within"]] == ["stage.1.what", "stage.1.from"]
    pit = entry(places()[0], "soil-gas.suction.1.pit-depth")
    assert [each["path"].rpartition(".")[2] for each in pit["within"]] == ["at", "pit-depth"]


def test_a_list_with_nothing_in_it_is_not_a_list_that_is_not_there():
    held, _ = places(BRIEF.replace('inside = "68 F"', 'inside = "68 F"\ntouched-by = []'))
    part = entry(held, "floor.touched-by")
    assert part is not None and part["typed"] == "[]" and part["state"] == "typed"


def test_a_finding_that_cannot_tell_and_one_that_rests_on_a_key_carry_the_field(desk):
    sheet = told(desk, BRIEF)
    lacking = {line["missing"]: line["entry"] for line in sheet["verdicts"] if line["missing"]}
    assert lacking["floor.available-depth"]["help"].startswith("From the top of the finished floor")
    assert {each["path"] for each in lacking.values() if each} >= {"floor.available-depth", "load.1.plate"}
    thick = sheet["keys"]["floor.build-up.2.thickness"]
    assert thick["typed"] == "2 in" and thick["state"] == "typed"
    for line in sheet["verdicts"]:
        assert all(path in sheet["keys"] or entry(places()[0], path) is None or shape(path) for path in line["rests"])


def shape(path):
    part = entry(places()[0], path)
    return part is not None and part["shape"] == "table"
