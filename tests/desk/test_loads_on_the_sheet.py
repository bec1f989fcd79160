"""Loads on the desk's sheet: on its plan, among its answers, and asked for in its margin."""

import json

import pytest

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


@pytest.mark.parametrize("stage", ["first", "whole"])
def test_a_load_s_findings_stand_among_the_answers_with_the_engineer_s_caution(desk, stage):
    lines = {line["key"]: line for line in told(desk, BRIEF, stage)["verdicts"]}
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
    asked = desk.ask("POST", "/api/ask", json={"brief": bare})
    assert asked.status_code == 200, asked.text
    assert "load.1.plate" in json.dumps(asked.json()["questions"][0])
