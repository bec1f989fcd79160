"""Any act on any example's plan: the rest of the brief stays to the letter, and what is told is true."""

from __future__ import annotations

from pathlib import Path
from random import Random
from typing import Any

import pytest
from pydantic import TypeAdapter

from underpour.brief import reads
from underpour.brief.replanned import Act, replanned
from underpour.brief.replanned.unclear import unclear_in_plan
from underpour.mistakes import Mistakes
from underpour.toml_text import read_toml

ROOT = Path(__file__).parents[2]
DRAWN = ROOT / "examples" / "from-a-drawing" / "brief.toml"  # its floor is no text that an act could change
EXAMPLES = [file for file in sorted((ROOT / "examples").glob("*/brief.toml")) if file != DRAWN]
ACT: TypeAdapter[Any] = TypeAdapter(Act)


def place(chance: Random, rings: list[int]) -> dict:
    def coordinate() -> dict:
        ring = chance.randrange(len(rings))
        return chance.choice(
            [
                {"steps": chance.randrange(-20, 120)},
                {"ring": ring, "corner": chance.randrange(1, rings[ring] + 1)},
                {"typed": chance.choice(["12 ft 6 in", "7.25 m", "3", "14' 3-1/2\"", "4200 mm"])},
            ]
        )

    return {"x": coordinate(), "y": coordinate()}


def act(chance: Random, data: dict) -> dict:
    """Something that can be done to this plan."""
    plan = data["plan"]
    rings = [len(plan["outline"]), *(len(hole["outline"]) for hole in plan.get("hole", ()))]
    ring = chance.randrange(len(rings))
    side = {"ring": ring, "side": chance.randrange(1, rings[ring] + 1)}
    corner = {"ring": ring, "corner": side["side"]}
    edges = "ABCDEFG"[: len(data.get("edge", ())) + 1]
    obstacles = len(plan.get("obstacle", ()))
    offered = [
        {"do": "move-corner", **corner, "to": place(chance, rings)},
        {"do": "add-corner", **side, "steps": chance.choice([None, 3, 7])},
        {"do": "take-corner", **corner},
        {"do": "move-side", **side, "to": place(chance, rings)},
        {"do": "push-side", **side, "steps": chance.randrange(-6, 7)},
        {"do": "length", **side, "typed": chance.choice(["20 ft 3-1/4 in", "6.4 m", "31"])},
        {"do": "bend", **side, "typed": chance.choice(["", "rise 2", "rise -1 ft 6 in"])},
        {"do": "name", **side, "typed": chance.choice(["", "long wall", "sea side"])},
        {"do": "give", "edge": chance.choice(edges), **side},
        {"do": "give", "edge": chance.choice(edges), **side, "start": "2 ft", "end": chance.choice(["", "5 ft"])},
        {"do": "take-edge", "edge": chance.choice(edges)},
        {"do": "stand", "kind": "post", "at": place(chance, rings), "size": "6 in"},
    ]
    if obstacles:
        number = chance.randrange(1, obstacles + 1)
        offered.append({"do": "move-obstacle", "number": number, "to": place(chance, rings)})
        offered.append({"do": "take-obstacle", "number": number})
    if len(rings) > 1:
        offered.append({"do": "take-hole", "ring": chance.randrange(1, len(rings))})
    return chance.choice(offered)


def without_plan(text: str) -> list[str]:
    """The lines of a brief that no act on its plan may touch."""
    lines, inside = [], False
    for line in text.splitlines():
        if line.startswith("["):
            inside = line.lstrip("[").startswith(("plan", "edge"))
        if not inside and line.strip():
            lines.append(line)
    return lines


def comments(text: str) -> set[str]:
    return {line.split("#", 1)[1] for line in text.splitlines() if "#" in line and '"' not in line.split("#", 1)[1]}


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.parent.name)
def test_a_row_of_acts_leaves_the_rest_of_the_brief_to_the_letter(file):
    chance = Random(file.parent.name)
    text = first = file.read_text("utf-8")
    if "[[plan" not in first and "[plan]" not in first:
        pytest.skip("no plan in it")
    done = 0
    for _ in range(25):
        doing = act(chance, read_toml(text, ""))
        try:
            new = replanned(text, ACT.validate_python(doing), "6 in")
        except Mistakes as mistakes:
            assert all(mistake.wrong and mistake.instead for mistake in mistakes), doing
            continue
        assert without_plan(new.text) == without_plan(first), doing
        done += new.text != text
        text = new.text
    assert done >= 5
    assert comments(first) - comments(text) <= comments(first) - comments("\n".join(without_plan(first)))


def test_what_is_told_of_a_plan_is_what_the_whole_brief_tells_of_it():
    told = 0
    for file in EXAMPLES:
        chance = Random(str(file.parent.name) + "told")
        text = file.read_text("utf-8")
        for _ in range(4):
            try:
                text = replanned(text, ACT.validate_python(act(chance, read_toml(text, ""))), "6 in").text
            except (Mistakes, KeyError):
                continue
        of_plan = {(m.at, m.wrong, m.line) for m in unclear_in_plan(text, read_toml(text, ""))}
        try:
            reads(text, str(file))
            whole: set[tuple[str, str, int]] = set()
        except Mistakes as mistakes:
            whole = {(m.at, m.wrong, m.line) for m in mistakes}
        assert of_plan <= whole, file
        told += len(of_plan)
    assert told


def test_an_act_and_its_way_back_give_the_same_text():
    text = (ROOT / "examples" / "court-and-bay-house" / "brief.toml").read_text("utf-8")
    pairs = [
        (
            {"do": "move-corner", "ring": 0, "corner": 4, "to": {"x": {"steps": 110}, "y": {"ring": 0, "corner": 4}}},
            {"do": "move-corner", "ring": 0, "corner": 4, "to": {"x": {"steps": 104}, "y": {"ring": 0, "corner": 4}}},
        ),
        ({"do": "push-side", "ring": 0, "side": 4, "steps": 3}, {"do": "push-side", "ring": 0, "side": 4, "steps": -3}),
        ({"do": "add-corner", "ring": 0, "side": 5}, {"do": "take-corner", "ring": 0, "corner": 6}),
        ({"do": "add-corner", "ring": 0, "side": 8}, {"do": "take-corner", "ring": 0, "corner": 9}),
        ({"do": "add-corner", "ring": 1, "side": 4}, {"do": "take-corner", "ring": 1, "corner": 5}),
    ]
    for there, back in pairs:
        moved = replanned(text, ACT.validate_python(there), "6 in").text
        assert moved != text, there
        again = replanned(moved, ACT.validate_python(back), "6 in").text
        assert again == text, there


@pytest.mark.parametrize("doing", [{"do": "take-corner", "ring": 0, "corner": 1}, {"do": "take-edge", "edge": "A"}])
def test_a_floor_that_is_read_from_a_drawing_is_changed_there(doing):
    with pytest.raises(Mistakes) as found:
        replanned(DRAWN.read_text("utf-8"), ACT.validate_python(doing), "6 in")
    (told,) = found.value
    assert (told.at, told.wrong) == ("plan.dxf", "The floor is read from a drawing.")
    assert "Change it there" in told.instead


DOOR = """\
[plan]
unit = "ft"
outline = ["0 0", "4 0", "20 0", "24 0", "24 26", "0 26"]
"""


@pytest.mark.parametrize(
    ("side", "typed", "outline"),
    [
        (1, "6 ft", '["0 0", "6 ft, 0", "22 0", "26 0", "26 26", "0 26"]'),
        (2, "18 ft", '["0 0", "4 0", "22 0", "26 0", "26 26", "0 26"]'),
        (3, "5 ft", '["0 0", "4 0", "20 0", "25 0", "25 26", "0 26"]'),
        (4, "30 ft", '["0 0", "4 0", "20 0", "24 0", "24, 30 ft", "0, 30 ft"]'),
    ],
)
def test_a_length_typed_in_a_wall_of_several_sides_takes_the_others_along_as_long_as_they_are(side, typed, outline):
    """A door between two pieces of wall: the piece before it longer, the door and the piece behind it moved."""
    found = replanned(DOOR, ACT.validate_python({"do": "length", "ring": 0, "side": side, "typed": typed}), "6 in", [])
    assert found.text.splitlines()[-1].removeprefix("outline = ") == outline
