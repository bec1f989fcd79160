"""A board that a caller proposes: does it belong below a slab, and what would change the answer?"""

from __future__ import annotations

import pytest
from refused import Bad, held_to

from underpour import catalogue
from underpour.brief import reads
from underpour.checks import belonging
from underpour.cli import main
from underpour.findings import Finding
from underpour.resolve import resolve

GOOD = """\
[project]
use = "dwelling"

[site]
place = "Madison, WI"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "36 0", "36 24", "0 24"]
unit = "ft"

[floor]
inside = "68 F"
humidity = "40 %"
build-up = [{ concrete = "4 in" }, { board = "c578-ix", thickness = "2 in" }, { gravel = "4 in" }]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "48 in"
ground = "-8 in"
wall = [{ concrete = "8 in" }]
footing = { width = "16 in", height = "8 in" }
insulation = [{ board = "c578-iv", thickness = "2 in", face = "outside" }]
"""
BOARD = 'board = "c578-ix"'

BAD = [
    Bad(
        "a name that is nearly one",
        BOARD,
        'board = "polyisoo"',
        ("No board is called polyisoo.", "The nearest is polyiso"),
    ),
    Bad(
        "a thickness of nought",
        BOARD,
        'board = "polyiso", conductivity = "0 W/(m·K)"',
        ("floor.build-up.2.conductivity",),
    ),
    Bad("a film product as a board", BOARD, 'board = "sheet-10"', ("no flat board",)),
    Bad("a list of boards", BOARD, 'board = ["polyiso"]', ("floor.build-up.2.board", "a word in quotes")),
]


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_a_proposal_that_cannot_be_read_is_told(bad, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    held_to(GOOD, bad, tmp_path, capsys)


def told(text: str) -> dict[str, Finding]:
    return {str(each.at["product"]): each for each in belonging.boards(resolve(reads(text).brief))}


@pytest.mark.parametrize("board", [each.key for each in catalogue.unsuited()])
def test_a_board_that_does_not_belong_is_answered_with_its_reasons_and_what_would_change_them(board):
    found = told(GOOD.replace("c578-ix", board))[board]
    known = catalogue.belonging(catalogue.shipped_products().board(board))
    assert found.verdict == "falls short"
    assert found.value == len(known.against) >= 2
    assert found.words.startswith(known.says)
    assert known.evidence in found.words
    assert [step.formula for step in found.steps] == [reason.says for reason in known.against]
    assert found.rests_on == ("floor.build-up.2.board",)


@pytest.mark.parametrize("board", ["c578-ix", "c578-iv", "cellglass-85", "graphite-15", "s701-4"])
def test_a_board_that_is_made_for_the_ground_belongs_there(board):
    text = GOOD.replace("c578-ix", board)
    found = told(text)[board]
    assert found.verdict == "meets"
    assert found.words == catalogue.belonging(catalogue.shipped_products().board(board)).says


@pytest.mark.parametrize(
    ("use", "board", "verdict"),
    [
        ("dwelling", "c578-xi", "falls short"),
        ("dwelling", "c578-i", "meets"),
        ("garage", "c578-i", "falls short"),
        ("warehouse", "plain-10", "falls short"),
        ("garage", "c578-ii", "meets"),
        ("warehouse", "c578-ix", "meets"),
    ],
)
def test_a_light_board_belongs_below_people_and_not_below_wheels(use, board, verdict):
    found = told(GOOD.replace('"dwelling"', f'"{use}"').replace("c578-ix", board))[board]
    assert found.verdict == verdict
    assert ("Take a stronger board." in found.words) == (verdict == "falls short")


def test_a_light_board_at_the_face_of_a_wall_carries_nothing():
    text = GOOD.replace('"dwelling"', '"garage"').replace('"c578-iv"', '"c578-i"')
    assert told(text)["c578-i"].verdict == "meets"


def test_a_board_that_lies_in_two_places_is_answered_once():
    found = told(GOOD.replace("c578-iv", "c578-ix"))
    assert list(found) == ["c578-ix"]
    assert found["c578-ix"].rests_on[:2] == ("floor.build-up.2.board", "edge.A.insulation.1.board")


def test_the_rest_of_the_answer_stands_beside_it(tmp_path, capsys):
    (tmp_path / "brief.toml").write_text(GOOD.replace("c578-ix", "fibreglass-batt"), "utf-8")
    assert main(["answer", str(tmp_path / "brief.toml")]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "Batts do not belong below a slab: the slab crushes them flat, and they fill with water." in said
    assert "Coldest where floor and wall meet" in said


def test_the_catalogue_lists_them_apart(capsys):
    assert main(["catalogue", "list", "unsuited"]) == 0
    listed = capsys.readouterr().out
    assert all(each.key in listed for each in catalogue.unsuited())
    assert main(["catalogue", "list", "boards"]) == 0
    assert not [each.key for each in catalogue.unsuited() if each.key in capsys.readouterr().out]
    assert main(["catalogue", "show", "polyiso"]) == 0
    assert "Polyisocyanurate is a board for roofs and walls." in " ".join(capsys.readouterr().out.split())
