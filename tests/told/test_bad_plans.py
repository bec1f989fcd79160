"""Plans that cannot be used, the whole way through the command: the words, status 2, and a folder left as it was."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.told.refused import Bad, held_to, spoiled

from underpour.brief import reads
from underpour.mistakes import Mistakes

GOOD = """\
[project]
use = "dwelling"

[site]
place = "Duluth, MN"
ground = "clay-or-silt"

[plan]
unit = "ft"
outline = ["0 0", "40 0", "40 8 rise 3", "40 20", "40 28", "0 28"]

[[plan.hole]]
outline = ["12 10", "20 10", "20 18", "12 18"]

[[plan.hole]]
outline = ["26 10", "30 10", "30 14", "26 14"]

[[plan.obstacle]]
kind = "column"
at = "6 14"
size = "12 in x 16 in"

[[plan.obstacle]]
kind = "drain"
at = "34 6"
size = "4 in"

[[plan.side]]
side = 6
name = "north wall"

[floor]
inside = "68 F"
build-up = [{ concrete = "4 in" }, { board = "plain-25", thickness = "2 in" }, { gravel = "4 in" }]

[[edge]]
sides = ["north wall", { side = 1, from = "4 ft", to = "7 ft" }]
kind = "free-edge"

[[edge]]
sides = ["hole.1", "hole.2.side.1", 3]
kind = "free-edge"

[[edge]]
sides = "rest"
kind = "raft"
"""
OUTLINE = '["0 0", "40 0", "40 8 rise 3", "40 20", "40 28", "0 28"]'
HOLE, HOLE_2 = '["12 10", "20 10", "20 18", "12 18"]', '["26 10", "30 10", "30 14", "26 14"]'
PART = '{ side = 1, from = "4 ft", to = "7 ft" }'
B, REST = '["hole.1", "hole.2.side.1", 3]', 'sides = "rest"'
RAFT = 'kind = "raft"'
ARC = '"40 8 rise 3"'
BAD = [
    Bad("an arc by no known word", ARC, '"40 8 arch 3"',
        ("brief.toml:10  plan.outline.3", "No arc is told by arch.", '"40 0 rise 3", "40 0 radius 20"')),
    Bad("an arc's word misspelt", ARC, '"40 8 trough 43 14"',
        ("brief.toml:10", "No arc is told by trough.", "The nearest is through.")),
    Bad("an arc told twice", ARC, '"40 8 rise 3 radius 7"',
        ("brief.toml:10", "This corner tells its arc twice, by rise and by radius.", "Keep one of the two")),
    Bad("a number of a side in quotes", "side = 6\n", 'side = "6"\n',
        ("brief.toml:29  plan.side.1.side", "A number stands without quotes: 6.")),
    Bad("an arc without its number", ARC, '"40 8 rise"',
        ("brief.toml:10", "The arc of this corner has no rise.")),
    Bad("an arc through one number", ARC, '"40 8 through 43"',
        ("brief.toml:10", "A corner is two numbers, not one.")),
    Bad("a rise in pounds", ARC, '"40 8 rise 3 lb"',
        ("brief.toml:10", "plan.outline.3", "3 lb")),
    Bad("a bulge with a unit", ARC, '"40 8 bulge 3 ft"',
        ("brief.toml:10", "3 ft is no bulge, which is a bare number.")),
    Bad("an arc without a rise", ARC, '"40 8 rise 0"',
        ("brief.toml:10", "This arc does not bend", "Write the corner alone")),
    Bad("an arc through a point of the straight line", ARC, '"40 8 through 40 14"',
        ("brief.toml:10", "This arc does not bend")),
    Bad("an arc through a point beyond the straight line", ARC, '"40 8 through 40 5"',
        ("brief.toml:10", "This arc comes round to where it began.")),
    Bad("an arc through its own corner", ARC, '"40 8 through 40 20"',
        ("brief.toml:10", "The arc goes through its own corner.")),
    Bad("a radius that does not reach", ARC, '"40 8 radius 5"',
        ("brief.toml:10", "The arc does not reach", "half of the distance between its two corners")),
    Bad("an arc that goes all round", ARC, '"40 8 rise 1000"',
        ("brief.toml:10", "This arc comes round to where it began.", "two half circles")),
    Bad("an arc that crosses the far wall", ARC, '"40 8 rise -60"',
        ("brief.toml:10  plan.outline", "Side 1 meets side 3 where it should not")),
    Bad("an arc that takes everything away", OUTLINE, '["0 0 rise -5", "10 0 rise -5"]',
        ("brief.toml:10", "The outline is turned inside out", "rise 3, rise -3")),
    Bad("two corners without an arc", OUTLINE, '["0 0", "10 0"]',
        ("brief.toml:10", "2 corners enclose nothing.")),
    Bad("a side without length", OUTLINE, '["0 0", "40 0", "40 0", "40 28", "0 28", "0 20"]',
        ("brief.toml:10", "Corner 3 lies on corner 2.")),
    Bad("a hole with a side without length", HOLE, '["12 10", "12 10", "20 18", "12 18"]',
        ("brief.toml:13  plan.hole.1.outline.2", "Corner 2 lies on corner 1.")),
    Bad("a hole that crosses itself", HOLE, '["12 10", "20 18", "20 10", "12 18"]',
        ("brief.toml:13  plan.hole.1.outline", "Side 1 meets side 3")),
    Bad("a hole outside", HOLE_2, '["126 10", "130 10", "130 14", "126 14"]',
        ("brief.toml:16  plan.hole.2.outline", "This hole lies outside the outline.")),
    Bad("a hole that touches the outline", HOLE_2, '["26 10", "30 10", "30 28", "26 28"]',
        ("brief.toml:16  plan.hole.2.outline", "Side 2 of this hole meets side 5 of the outline", "round it instead")),
    Bad("holes that touch", HOLE_2, '["20 10", "30 10", "30 14", "20 14"]',
        ("brief.toml:16  plan.hole.2.outline", "meets hole 1: it crosses or touches it", "as one hole")),
    Bad("a hole in a hole", HOLE_2, '["14 12", "15 12", "15 13", "14 13"]',
        ("brief.toml:16  plan.hole.2.outline", "This hole lies in hole 1, where there is no floor.")),
    Bad("a hole as large as the floor", HOLE, '["0.01 0.01", "39.99 0.01", "39.99 27.99", "0.01 27.99"]',
        ("This hole lies in hole 1", "plan.hole.2.outline")),
    Bad("a hole with no outline", f"outline = {HOLE_2}", "", ("brief.toml:15", "A hole needs outline")),
    Bad("a hole's unit that is none", f"outline = {HOLE_2}", f'outline = {HOLE_2}\nunit = "yd"',
        ("brief.toml:17  plan.hole.2.unit", "No unit is called yd.")),
    Bad("one bracket at a hole", f"[[plan.hole]]\noutline = {HOLE}\n\n[[plan.hole]]\noutline = {HOLE_2}",
        f"[plan.hole]\noutline = {HOLE}\n",
        ("brief.toml:12  plan.hole", "There may be several of plan.hole.", "with two brackets: [[plan.hole]]")),
    Bad("a column outside", 'at = "6 14"', 'at = "60 14"',
        ("brief.toml:20  plan.obstacle.1.at", "The middle of this column lies outside the floor.")),
    Bad("a column in a hole", 'at = "6 14"', 'at = "14 14"',
        ("brief.toml:20  plan.obstacle.1.at", "This column stands in a hole.")),
    Bad("a column half outside", 'at = "6 14"', 'at = "0.4 14"',
        ("brief.toml:20", "This column, 12 in x 16 in, reaches over the edge of the floor.")),
    Bad("two obstacles in one place", 'at = "34 6"', 'at = "6.2 14"',
        ("brief.toml:25  plan.obstacle.2.at", "This drain stands where obstacle 1, a column, stands already.")),
    Bad("an obstacle nobody knows", 'kind = "drain"', 'kind = "drian"',
        ("brief.toml:24  plan.obstacle.2.kind", "No kind is called drian.", "The nearest is drain.")),
    Bad("an obstacle's size without its unit", 'size = "4 in"', 'size = "4"',
        ("brief.toml:26  plan.obstacle.2.size", "4 of what?")),
    Bad("an obstacle of three breadths", 'size = "4 in"', 'size = "4 in x 4 in x 4 in"',
        ("brief.toml:26", "is more than two breadths.", '"12 in x 16 in"')),
    Bad("an obstacle of no size", 'size = "4 in"', 'size = "0 in"',
        ("brief.toml:26", "0 in is too small")),
    Bad("an obstacle without its size", 'size = "4 in"', "",
        ("An obstacle needs size", 'Write size = "4 in".')),
    Bad("a name for a side that there is not", "side = 6\n", "side = 7\n",
        ("brief.toml:29  plan.side.1.side", "The outline has 6 sides; there is no side 7.")),
    Bad("a name for a whole hole", "side = 6\n", 'side = "hole.1"\n',
        ("brief.toml:29", "hole.1 is the whole hole; a name is for one side.", "hole.1.side.1")),
    Bad("a name that means sides by itself", 'name = "north wall"', 'name = "rest"',
        ("brief.toml:30  plan.side.1.name", '"rest" is no name for a side')),
    Bad("a side with two names", "[floor]", '[[plan.side]]\nside = 6\nname = "cold wall"\n\n[floor]',
        ("plan.side.2.side", "Side 6 is called north wall already.", "Keep one of the two names.")),
    Bad("a name given twice", "[floor]", '[[plan.side]]\nside = 5\nname = "north wall"\n\n[floor]',
        ("plan.side.2.name", "Side 6 is called north wall already.", "Give each side its own name.")),
    Bad("an edge on a side nobody named", '"north wall", {', '"nort wall", {',
        ("brief.toml:37  edge.A.sides.1", "No side is called nort wall.", "The nearest is north wall.")),
    Bad("an edge on a hole that there is not", B, '["hole.1", "hole.3.side.1", 3]',
        ("brief.toml:41  edge.B.sides.2", "The plan has 2 holes; there is no hole.3.")),
    Bad("an edge on a side that the hole has not", B, '["hole.1", "hole.2.side.5", 3]',
        ("brief.toml:41", "Hole 2 has 4 sides; there is no hole.2.side.5.")),
    Bad("a name that stands alone", 'sides = "rest"', 'sides = "north wall"',
        ("brief.toml:45", "No sides are called north wall.", 'sides = ["north wall"]')),
    Bad("a part beyond the end", PART, '{ side = 3, from = "4 ft", to = "16 ft" }',
        ("edge.A.sides.2.to", "16 ft lies beyond the end of side 3, which is 13.909 ft long.")),
    Bad("a part that ends before it begins", PART, '{ side = 1, from = "7 ft", to = "4 ft" }',
        ("brief.toml:37", "This part of a side has no length.", "from comes before to")),
    Bad("a part that is not told of which side", PART, '{ from = "4 ft", to = "7 ft" }',
        ("brief.toml:37", "This part does not say of which side it is.")),
    Bad("a part with a key misspelt", PART, '{ side = 1, form = "4 ft" }',
        ("brief.toml:37", "A part of a side has no key form.", "The nearest is from.")),
    Bad("a part of a whole hole", PART, '{ side = "hole.1", from = "1 ft" }',
        ("brief.toml:37", "hole.1 is the whole hole; from and to are for one side.", 'side = "hole.1.side.1"')),
    Bad("a part without a unit", PART, '{ side = 1, from = "4" }',
        ("edge.A.sides.2.from", "4 of what?")),
    Bad("a stretch claimed twice", B, '["hole.1", 3, { side = 1, from = "6 ft", to = "9 ft" }]',
        ("brief.toml:41  edge.B.sides", "Side 1 from 6 ft to 7 ft belongs to edge A already.", "exactly one edge")),
    Bad("a stretch claimed twice by one edge", PART, f'{PART}, {{ side = 1, from = "6 ft", to = "9 ft" }}',
        ("brief.toml:37", "Side 1 from 6 ft to 7 ft belongs to edge A already.")),
    Bad("a hole's side claimed twice", PART, '"hole.1.side.3"',
        ("brief.toml:41", "Side 3 of hole 1 belongs to edge A already.")),
    Bad("stretches that nobody takes", REST, "sides = [2, 4, 5, 6]",
        ("Side 6 belongs to edge A already.", "brief.toml:36  edge",
         "No edge takes side 1 from 0 ft to 4 ft, side 1 from 7 ft to 40 ft, side 2 of hole 2,")),
    Bad("a neighbour that is none", RAFT, 'kind = "raft"\nbeside = "garage"',
        ("brief.toml:47  edge.C.beside", "Nothing beside an edge is called garage.", 'beside = "45 F"')),
    Bad("a neighbour misspelt", RAFT, 'kind = "raft"\nbeside = "unheatd"',
        ("brief.toml:47", "Nothing beside an edge is called unheatd.", "The nearest is unheated.")),
    Bad("a neighbour's temperature without its unit", RAFT, 'kind = "raft"\nbeside = "45"',
        ("brief.toml:47  edge.C.beside", "45 of what?")),
    Bad("a neighbour as a bare number", RAFT, 'kind = "raft"\nbeside = 45',
        ("brief.toml:47", "What lies beside an edge is a word or a temperature, in quotes.")),
    Bad("a neighbour without a summer", RAFT, 'kind = "raft"\nbeside = { winter = "30 F" }',
        ("brief.toml:47  edge.C.beside.summer", "The air beside an edge needs summer")),
    Bad("a neighbour of a season that there is not", RAFT,
        'kind = "raft"\nbeside = { winter = "30 F", sumer = "60 F" }',
        ("edge.C.beside.sumer", "The nearest is summer.")),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_a_plan_that_cannot_be_used_is_told_with_the_way_out(
    bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "folder").mkdir()
    held_to(GOOD, bad, tmp_path, capsys)


def test_the_plan_that_is_spoiled_here_is_good() -> None:
    assert reads(GOOD).brief.plan.hole


def test_all_mistakes_of_a_plan_come_at_once() -> None:
    text = GOOD
    for was, typed in (
        (ARC, '"40 8 radius 5"'),
        (HOLE, '["12 10", "20 18", "20 10", "12 18"]'),
        ('"4 in"\n\n', '"4"\n\n'),
    ):
        text = text.replace(was, typed, 1)
    with pytest.raises(Mistakes) as told:
        reads(text)
    assert [mistake.line for mistake in told.value] == [10, 13, 26]


def test_an_edge_on_a_side_whose_name_is_no_good_is_no_second_mistake() -> None:
    with pytest.raises(Mistakes) as told:
        reads(spoiled(GOOD, Bad("", "side = 6\n", "side = 9\n", ())))
    assert [mistake.at for mistake in told.value] == ["plan.side.1.side"]


def test_a_slab_outdoors_has_no_other_air_beside_it() -> None:
    """The air over it is the air beside it; a heated building there takes the side out of its edge."""
    walk = GOOD.replace('"dwelling"', '"walk"').replace('inside = "68 F"\n', "").replace(RAFT, 'kind = "free-edge"\n{}')
    assert reads(walk.replace("{}", 'beside = "heated"')).brief.edge[2].beside == "heated"
    for typed in ('"unheated"', '"45 F"'):
        with pytest.raises(Mistakes) as told:
            reads(walk.replace("{}", f"beside = {typed}"))
        (mistake,) = told.value
        assert (mistake.at, mistake.wrong) == (
            "edge.C.beside",
            "A walk lies outdoors; the air beside it is that over it.",
        )


def test_what_follows_from_a_hole_that_cannot_be_read_is_not_told() -> None:
    """The edges name sides of a hole whose outline is wrong: that they cannot be found is no second mistake."""
    bad = Bad("", HOLE, '["12 10", "20 ten", "20 18", "12 18"]', ())
    with pytest.raises(Mistakes) as told:
        reads(spoiled(GOOD, bad))
    assert [mistake.at for mistake in told.value] == ["plan.hole.1.outline.2"]
