"""What the plan's script takes a pressed place for, and what a key means, in an engine."""

from __future__ import annotations

import json
import re
from pathlib import Path
from random import Random

import pytest

import underpour.desk

quickjs = pytest.importorskip("quickjs", reason="no ready-built engine for this machine")

PLAN = Path(underpour.desk.__file__).parent / "static" / "plan"


@pytest.fixture(scope="module")
def engine():
    context = quickjs.Context()
    for name in ("frame.js", "snap.js", "keys.js", "drag.js"):
        code = re.sub(r"^import .*?;\n", "", (PLAN / name).read_text("utf-8"), flags=re.M)
        context.eval(re.sub(r"^export ", "", code, flags=re.M))
    return context


@pytest.fixture(scope="module")
def call(engine):
    def called(name: str, *given: object) -> object:
        engine.set("given", json.dumps(given))
        found = engine.eval(f"JSON.stringify({name}(...JSON.parse(given)) ?? null)")
        return json.loads(found)

    return called


SQUARE = [
    {"ring": 0, "corner": n + 1, "x": x, "y": y} for n, (x, y) in enumerate([(0, 0), (6, 0), (6.1, 4.05), (0, 4)])
]


def around(**more: object) -> dict:
    return {"step": 0.5, "reach": 0.2, "corners": SQUARE, **more}


def test_a_place_near_a_corner_is_that_corner(call):
    found = call("snap", 6.0, 4.0, around())
    assert (found["x"], found["y"], found["how"]) == (6.1, 4.05, "corner")
    assert found["where"] == {"x": {"ring": 0, "corner": 3}, "y": {"ring": 0, "corner": 3}}


def test_a_place_in_line_with_a_corner_takes_over_that_figure_and_the_other_from_the_grid(call):
    found = call("snap", 6.13, 1.9, around())
    assert found["where"] == {"x": {"ring": 0, "corner": 3}, "y": {"steps": 4}}
    assert (found["x"], found["y"], found["how"]) == (6.1, 2.0, "line")


def test_a_place_near_nothing_goes_to_the_grid(call):
    chance = Random(5)
    for _ in range(50):
        x, y = chance.uniform(-50, 50), chance.uniform(-50, 50)
        found = call("snap", x, y, around(corners=[]))
        assert found["how"] == "grid"
        assert abs(found["x"] - x) <= 0.25 + 1e-12
        assert found["x"] == found["where"]["x"]["steps"] * 0.5
        assert abs(found["y"] - y) <= 0.25 + 1e-12


def test_behind_a_slanted_side_a_right_angle_is_offered_and_it_is_one(call):
    before, last = {"ring": -1, "corner": 1, "x": 0, "y": 0}, {"ring": -1, "corner": 2, "x": 4, "y": 3}
    found = call("snap", 4 - 0.6 * 2.1 + 0.05, 3 + 0.8 * 2.1, around(corners=[], last=last, before=before))
    assert found["how"] == "square"
    assert found["where"] == {"ring": -1, "corner": 2, "before": 1, "steps": 4}
    assert abs((found["x"] - 4) * 4 + (found["y"] - 3) * 3) < 1e-12
    far = call("snap", 4 - 1.2 + 0.4, 3 + 1.6 + 0.4, around(corners=[], last=last, before=before))
    assert far["how"] != "square"


def test_an_arrow_goes_to_the_next_line_of_the_grid_and_never_stays(call):
    assert call("nextLine", 1.2, 0.5, 1) == 3
    assert call("nextLine", 1.2, 0.5, -1) == 2
    assert call("nextLine", 1.5, 0.5, 1) == 4
    assert call("nextLine", 1.5, 0.5, -1) == 2
    for at in (1.4999999999999998, 1.5000000000000002):  # a line of the grid that binary numbers miss
        assert call("nextLine", at, 0.5, 1) == 4
        assert call("nextLine", at, 0.5, -1) == 2


def test_a_moved_corner_keeps_the_figure_across(call):
    chosen = {"ring": 0, "side": {"number": 3, "corner": [6.1, 4.05], "out": [0, 1]}}
    act = call("cornerMoved", chosen, [1, 0], 0.5)
    assert act["to"] == {"x": {"steps": 13}, "y": {"ring": 0, "corner": 3}}


def test_a_side_moves_across_itself_only(call):
    side = {"number": 2, "corner": [6.1, 0], "out": [1, 0], "bend": ""}
    act = call("sideMoved", {"ring": 0, "side": side}, [1, 0], 0.5)
    assert act["to"] == {"x": {"steps": 13}, "y": {"ring": 0, "corner": 2}}
    assert call("sideMoved", {"ring": 0, "side": side}, [0, 1], 0.5) is None
    slanted = {**side, "out": [0.6, 0.8]}
    assert call("sideMoved", {"ring": 0, "side": slanted}, [0, -1], 0.5)["steps"] == -1


@pytest.mark.parametrize(("wide", "high"), [(1200, 560), (328, 420)])
def test_the_frame_shows_the_whole_plan_and_gives_back_the_place_that_was_pressed(call, wide, high):
    places = [[-3.2, 1.0], [22.0, 1.0], [22.0, 15.5]]
    frame = call("frameOf", places, wide, high, 16)
    for place in places:
        assert call("isShown", frame, place, 40)
        back = call("inPlan", frame, call("onScreen", frame, place))
        assert back == pytest.approx(place, abs=1e-9)


def test_a_dragged_corner_does_not_snap_to_itself(call):
    sides = [
        {"number": each["corner"], "corner": [each["x"], each["y"]], "along": 6, "out": [0, 1], "lines": []}
        for each in SQUARE
    ]
    now = {"plan": {"step": 0.5, "rings": [{"sides": sides}]}, "reach": 10}
    now["frame"] = call("frameOf", [[0, 0], [6, 4]], 800, 600, 16)
    point = call("onScreen", now["frame"], [6.12, 4.02])
    act = call("dragged", {"kind": "corner", "ring": 0, "number": 3, "side": sides[2]}, point, now)
    assert act["to"]["x"] != {"ring": 0, "corner": 3}
    assert act["do"] == "move-corner"
