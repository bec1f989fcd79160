"""Loads on the desk's sheet: on its plan, among its answers, and asked for in its margin."""

import json

from underpour.brief import reads
from underpour.brief.tables.joint import Joint
from underpour.brief.tables.load import Load
from underpour.desk import words

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
humidity = "40 %"
available-depth = "18 in"
build-up = [{ concrete = "5 in" }, { board = "plain-25", thickness = "2 in" }, { gravel = "4 in" }]
[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
[[load]]
kind = "rack-post"
force = "6500 lb"
plate = "6 in x 6 in"
at = "20 14"
"""


def told(desk, text, stage="whole"):
    answered = desk.ask("POST", "/api/answer", json={"brief": text, "stage": stage, "sheet": "one"})
    assert answered.status_code == 200 and answered.json()["read"], answered.text
    return answered.json()["sheet"]


def by_key(sheet):
    return {line["key"]: line for line in sheet["verdicts"]}


def test_a_load_s_findings_stand_among_the_answers_with_the_engineer_s_caution(desk):
    lines = by_key(told(desk, BRIEF))
    bent = lines["bearing.bending|load=1|method=plate"]
    assert bent["verdict"] == "falls short" and bent["front"]
    assert "A structural engineer must confirm" in bent["caution"]


def test_the_load_stands_on_the_key_plan_and_what_foam_it_needs_among_the_whole_answer(desk):
    sheet = told(desk, BRIEF)
    assert "Load 1: Rack post" in sheet["plan"]
    assert "bearing.least-grade|load=1|method=plate" in {line["key"] for line in sheet["verdicts"]}


def test_without_its_plate_the_margin_asks_for_it_first(desk):
    bare = BRIEF.replace('plate = "6 in x 6 in"\n', "")
    told(desk, bare)
    assert "load.1.plate" in json.dumps(desk.what_to_ask(bare)["questions"][0])


def test_what_a_load_does_waits_for_the_whole_answer_and_is_marked_till_then(desk):
    before = by_key(told(desk, BRIEF))
    thicker = BRIEF.replace('"2 in"', '"3 in"')
    at_once = by_key(told(desk, thicker, "first"))
    bent = "bearing.bending|load=1|method=plate"
    assert at_once[bent]["unsure"] and at_once[bent]["value"] == before[bent]["value"]
    assert not at_once["height.total"]["unsure"]
    assert not by_key(told(desk, thicker))[bent]["unsure"]


def test_each_key_of_a_load_and_of_a_joint_has_its_words_on_the_sheet():
    named = set(words.table()["sheet"]["floor"]["key"])
    keys = {field.alias or name for table in (Load, Joint) for name, field in table.model_fields.items()}
    assert keys == named


def test_a_load_is_typed_over_where_it_is_told(desk):
    fields = {part["path"]: part for part in told(desk, BRIEF)["on_floor"] if "path" in part}
    assert fields["load.1.force"]["typed"] == "6500 lb"
    assert fields["load.1.kind"]["words"] == "rack post"
    bare = told(desk, BRIEF.replace('plate = "6 in x 6 in"\n', ""))["on_floor"]
    assert {part["path"]: part["state"] for part in bare if "path" in part}["load.1.plate"] == "open"


def test_each_load_and_the_joints_that_a_press_puts_in_can_be_read(desk):
    bare = BRIEF[: BRIEF.index("[[load]]")]
    offers = [offer for part in told(desk, bare)["on_floor"] if "add" in part for offer in part["add"]]
    assert {offer["path"] for offer in offers} == {"load", "joint"} and len(offers) > 8
    for offer in offers:
        changes = [{"path": offer["path"], "added": offer["value"]}]
        put = desk.ask("POST", "/api/edit", json={"brief": bare, "changes": changes}).json()
        assert put["mistakes"] == [] and put["brief"] != bare, offer
        assert reads(put["brief"]), offer


def test_the_reply_does_not_wait_for_what_is_still_to_be_asked(desk):
    bare = BRIEF[: BRIEF.index("[[load]]")]
    first = desk.ask("POST", "/api/reply", json={"brief": bare}).json()
    assert not first["whole"] and first["sentences"][2] == "What I still need is being worked out."
    desk.what_to_ask(bare)
    asked = desk.ask("POST", "/api/reply", json={"brief": bare}).json()
    assert asked["whole"] and asked["sentences"][2] != first["sentences"][2]
