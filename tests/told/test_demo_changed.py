"""What someone sees who opens the demo brief, changes the place or the foam, and answers again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from underpour.cli import main

DEMO = (Path(__file__).parents[2] / "examples/daylight-basement/brief.toml").read_text("utf-8")
PLACE, BOARD, THICK = '"Minneapolis, MN"', '"plain-15"', '"2 in"'


@pytest.fixture
def seen(tmp_path, capsys):
    """What the changed demo says of the corner [degC] and of the heat lost through floor and wall [W], as briefed."""

    def answer(*changes: tuple[str, str]) -> dict[str, float]:
        text = DEMO
        for was, typed in changes:
            assert was in text, was
            text = text.replace(was, typed)
        brief = tmp_path / "brief.toml"
        brief.write_text(text, "utf-8")
        status = main(["answer", str(brief), "--json"])
        told = capsys.readouterr()
        assert status in (0, 1), told.err
        found = json.loads(told.out)["alternatives"][0]["findings"]
        lost = [each["value"] for each in found if each["id"] == "heat.loss-mean"]
        (corner,) = [each["value"] for each in found if each["id"] == "heat.corner-coldest"]
        (depth,) = [each["verdict"] for each in found if each["id"] == "height.depth"]
        return {"corner": corner, "lost": sum(lost), "depth": depth}

    return answer


def test_a_colder_place_a_thicker_foam_and_a_better_foam_move_the_answer_as_one_expects(seen):
    demo = seen()
    colder, warmer = seen((PLACE, '"Duluth, MN"')), seen((PLACE, '"Atlanta, GA"'))
    assert colder["corner"] < demo["corner"] < warmer["corner"] < 20.0
    assert colder["lost"] > demo["lost"] > warmer["lost"] > 0.0

    thicker, thinner = seen((THICK, '"3 in"')), seen((THICK, '"1-1/2 in"'))
    assert thicker["corner"] > demo["corner"] > thinner["corner"]
    assert thicker["lost"] < demo["lost"] < thinner["lost"]
    assert (thinner["depth"], demo["depth"], thicker["depth"]) == ("meets", "meets", "falls short")

    better = seen((BOARD, '"xps-25"'))
    assert better["corner"] > demo["corner"]
    assert better["lost"] < demo["lost"]
    assert better["depth"] == "meets"


def test_foam_that_stops_at_the_footing_is_said_to_be_worse_than_none(tmp_path, capsys):
    """The lesson of the demo, in its own words."""
    brief = tmp_path / "brief.toml"
    brief.write_text(DEMO, "utf-8")
    assert main(["answer", str(brief), "--json"]) == 0
    briefed, bare, short = json.loads(capsys.readouterr().out)["alternatives"]

    def corner(alternative):
        return next(each for each in alternative["findings"] if each["id"] == "heat.corner-coldest")

    assert corner(short)["value"] < corner(bare)["value"] < corner(briefed)["value"]
    assert "colder than none" in corner(short)["words"]
