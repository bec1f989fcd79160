"""A changed thickness shows what moved: a part of its own, and the revision's letter in the margin beside each line."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import paper_cases as cases
import pytest
from sheets import sheets, words

from underpour.cli import main
from underpour.papers import submittal
from underpour.papers.content import content
from underpour.papers.revised import path_moved, since_words

DAY = "2026-11-27"
DEMO = (Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml").read_text("utf-8")
HANDED = '[handover]\nrevision = "B"\n'


def moved():
    return replace(cases.dossier(), moved=cases.moved())


def marks(pdf: bytes) -> int:
    """Letters that stand in the margin."""
    return sum(one.sign == "B" and one.right < 19.0 for sheet in sheets(pdf) for one in sheet.letters)


def test_what_changed_is_told_with_was_is_and_how_far():
    told = " ".join(words(submittal(moved(), cases.pictures(), date=DAY).pdf).split())
    assert "What changed since revision A" in told and "It was made by version 0.0.9." in told
    assert "57.2 °F, falls short" in told and "57.4 °F, falls short" in told and "0.2 °F" in told
    assert "2 in 3 in" in told


def test_each_line_that_moved_carries_the_letter_and_no_other_does():
    told = content(moved(), cases.pictures(), DAY)
    assert [f["title"] for f in told["findings"] if f["moved"]] == ["Coldest place where floor and wall meet"]
    assert [row["name"] for row in told["asked"] if row["moved"]] == ["Place", "Humidity of the room"]
    assert [line["moved"] for line in told["proposed"]] == [False, True, False]
    assert [w["moved"] for w in told["works"]] == [False, True]
    assert [p["moved"] for p in told["products"]] == [True, False]
    assert [a["moved"] for a in told["assumed"]] == [False, False, True, False]
    rows = sum(len(table["rows"]) for table in told["changed"]["tables"])
    assert marks(submittal(moved(), cases.pictures(), date=DAY).pdf) == rows + 7


def test_without_an_earlier_revision_nothing_is_marked():
    pdf = submittal(cases.dossier(), cases.pictures(), date=DAY).pdf
    assert marks(pdf) == 0 and "What changed" not in words(pdf)


def test_a_revision_in_which_nothing_moved_says_so():
    still = replace(cases.moved(), typed=(), assumed=(), findings={})
    told = words(submittal(replace(cases.dossier(), moved=still), cases.pictures(), date=DAY).pdf)
    assert "Nothing moved." in told


def test_a_part_of_a_path_is_not_taken_for_the_whole():
    dossier = moved()
    assert path_moved("floor.build-up.2", dossier) and path_moved("floor.build-up.2.thickness", dossier)
    assert not path_moved("floor.build-up.22", dossier) and not path_moved("floor.build-up.1", dossier)


def test_a_first_issue_has_no_letter():
    assert since_words(replace(cases.moved(), since="")) == "What changed since the first issue"


@pytest.fixture
def kept(tmp_path, monkeypatch, capsys):
    """The demo handed over once, its answers kept."""
    monkeypatch.chdir(tmp_path)
    Path("brief.toml").write_text(DEMO, "utf-8")
    assert main(["submittal", "brief.toml", "-o", "a.pdf", "--keep", "a.json"]) == 0
    capsys.readouterr()
    return Path("brief.toml")


def test_a_thicker_board_moves_its_findings_and_no_verdict_is_hidden(kept):
    thicker = DEMO.replace("[handover]\n", HANDED).replace('thickness = "2 in" },', 'thickness = "3 in" },', 1)
    kept.write_text(thicker, "utf-8")
    assert main(["submittal", "brief.toml", "-o", "b.pdf", "--since", "a.json"]) == 1  # it is now too thick to fit
    told = " ".join(words(Path("b.pdf").read_bytes()).split())
    changed = told.rpartition("What changed since the first issue")[2].partition("in the words of the brief")[0]
    assert "floor.build-up.2.thickness" in told.replace("\u200b", "").replace(". ", ".")
    assert "2 in" in changed and "3 in" in changed and "falls short" in changed
    assert marks(Path("b.pdf").read_bytes()) >= 10
