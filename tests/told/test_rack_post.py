"""The rack post of the design, through the commands: what is answered, and what is asked first without its plate."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from underpour.cli import main

from .test_loads_answered import BRIEF, PLATE, PSI


@pytest.fixture
def said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    def said_of(command: str, text: str, *more: str) -> str:
        (tmp_path / "brief.toml").write_text(text, "utf-8")
        main([command, str(tmp_path / "brief.toml"), *more])
        return capsys.readouterr().out

    return said_of


def test_answer_says_that_the_foam_is_not_the_problem(said: Any) -> None:
    """About 1.2 psi on the foam by plate theory, 25 psi by 45 degrees, the concrete near its first crack."""
    found = json.loads(said("answer", BRIEF, "--json"))["alternatives"][0]["findings"]
    by = {(each["id"], each["at"].get("method")): each for each in found if each["id"].startswith("bearing.")}
    assert by["bearing.foam-long", "plate"]["value"] / PSI == pytest.approx(1.2, abs=0.05)
    assert by["bearing.foam-long", "spread-45"]["value"] / PSI == pytest.approx(25.0, abs=0.5)
    bent = by["bearing.bending", "plate"]
    assert bent["verdict"] == "falls short" and 0.75 < bent["value"] / (1.7 * bent["limit"]) < 1.0  # of what cracks it
    assert "The foam is not the problem: the concrete governs." in by["bearing.foam-long", "plate"]["words"]
    least = by["bearing.least-grade", "plate"]["value"], by["bearing.least-grade", "spread-45"]["value"]
    assert least[1] > 4.0 * least[0]


def test_without_its_plate_ask_asks_for_the_plate_first(said: Any) -> None:
    asked = said("ask", BRIEF.replace(PLATE, ""))
    first = asked[asked.index("\n1  ") : asked.index("\n2  ")]
    assert "plate" in first and "load.1" in first
    assert "plate" not in asked[: asked.index("\n1  ")]


def test_the_terminal_lays_the_methods_side_by_side(said: Any) -> None:
    told = said("answer", BRIEF)
    table = told[told.index("What foam each load needs") : told.index("Basis\n")]
    assert "by the plate" in table and "at 45 degrees" in table and "straight through" in table
    assert "none" in table  # straight through
    assert "What another inch of concrete buys" not in told  # the table has it
    assert "6 in (152 mm) of concrete" in " ".join(table.split())
    assert told.index("Does it hold?") < told.index("What foam each load needs")


def test_a_floor_without_loads_has_no_such_table(said: Any) -> None:
    assert "What foam each load needs" not in said("answer", BRIEF.split("[[load]]", maxsplit=1)[0])
