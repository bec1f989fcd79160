"""What moved against the last revision: typed, assumed, found."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from dossier_cases import DOSSIER

from underpour.answer import answer
from underpour.brief import reads
from underpour.cli import main
from underpour.dossier import Change, Dossier
from underpour.dossier_json import as_json
from underpour.mistakes import Mistake
from underpour.revisions import earlier, moved, of_this_slab

BRIEF = """\
[project]
title = "Workshop"
use   = "workshop"

[site]
place = "Duluth, MN"

[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit    = "ft"

[floor]
inside   = "68 F"
humidity = "40 %"
available-depth = "12 in"
build-up = [
  { concrete = "4 in" },
  { board = "plain-25", thickness = "2 in" },
  { gravel = "4 in" },
]

[[edge]]
sides  = "all"
kind   = "frost-wall"
depth  = "60 in"
ground = "-8 in"

[handover]
number   = "26-0412"
revision = "A"
"""
PLACE = 'place = "Duluth, MN"'
OUTLINE = '["0 0", "40 0", "40 28", "0 28"]'
THICKER = BRIEF.replace('"2 in" }', '"3 in" }').replace('revision = "A"', 'revision = "B"')


MONTHS = "month,temperature C\n" + "".join(
    f"{n},{t:.1f}\n" for n, t in enumerate((-12, -10, -4, 4, 11, 16, 19, 18, 13, 7, -1, -9), start=1)
)


@cache
def answered(text: str) -> Dossier:
    return answer(reads(text))


def since(was: str, now: str):
    dossier = answered(now)
    return moved(earlier(as_json(answered(was)), "last.json"), dossier), dossier


def test_nothing_moves_against_the_same_brief():
    told, _ = since(BRIEF, BRIEF)
    assert (told.since, told.typed, told.assumed, dict(told.findings)) == ("A", (), (), {})


def test_a_changed_thickness_shows_what_was_typed_and_what_moved():
    told, _ = since(BRIEF, THICKER)
    assert told.since == "A"
    assert told.typed == (Change("floor.build-up.2.thickness", "2 in", "3 in"),)
    height = told.findings["height.total", frozenset()]
    assert height.was.replace("\u2009", " ") == "10 in (254 mm)"
    assert height.now.replace("\u2009", " ") == "11 in (279 mm)"
    assert height.by.replace("\u2009", " ") == "up by 1 in"
    by = {(id, dict(at).get("distance")): change.by for (id, at), change in told.findings.items()}
    assert by["heat.floor-coldest", 1.0].startswith("up by")
    assert by["heat.loss-mean", None].startswith("down by")


def test_a_verdict_that_turned_is_in_words():
    told, _ = since(BRIEF, THICKER.replace("12 in", "10.5 in"))
    change = told.findings["height.depth", frozenset()]
    assert change.was.endswith("meets")
    assert change.now.endswith("falls short")


def test_what_is_new_and_what_is_gone_are_told_apart():
    told, _ = since(BRIEF, BRIEF.replace('humidity = "40 %"\n', ""))
    assert Change("floor.humidity", "40 %", "") in told.typed
    assert [(c.what, c.was) for c in told.assumed] == [("floor.humidity", "")]
    back, _ = since(BRIEF.replace('humidity = "40 %"\n', ""), BRIEF)
    assert [(c.what, c.now) for c in back.assumed] == [("floor.humidity", "")]
    told, _ = since(BRIEF, BRIEF.replace('sides  = "all"', 'sides  = "all"\nname = "door side"'))
    gone = [c for (_, at), c in told.findings.items() if ("edge", "A") in at]
    new = [c for (_, at), c in told.findings.items() if ("edge", "door side") in at]
    assert gone and all(c.now == "" for c in gone)
    assert new and all(c.was == "" for c in new)


def test_another_weather_file_of_the_same_name_is_told_by_its_months(tmp_path):
    Path(tmp_path, "months.csv").write_text(MONTHS, "utf-8")
    text = BRIEF.replace('place = "Duluth, MN"', 'weather = "months.csv"')
    file = str(tmp_path / "brief.toml")
    last = json.loads(as_json(answer(reads(text, file))))
    assert moved(last, answer(reads(text, file))).assumed == ()
    Path(tmp_path, "months.csv").write_text(MONTHS.replace("1,-12.0", "1,-16.0"), "utf-8")
    told = moved(last, answer(reads(text, file)))
    assert told.typed == ()
    assert any("−12.0" in c.was and "−16.0" in c.now for c in told.assumed)
    assert told.findings


def test_a_number_has_moved_only_where_its_print_has():
    last = json.loads(as_json(answered(BRIEF)))
    for finding in last["alternatives"][0]["findings"]:
        if finding["unit"] == "degC":
            finding["value"] += 1e-4
    told = moved(last, answered(BRIEF))
    assert not [id for id, _ in told.findings if id.startswith("heat.") and id != "heat.floor-coldest"]
    for finding in last["alternatives"][0]["findings"]:
        if finding["unit"] == "degC":
            finding["value"] += 1.0
    told = moved(last, answered(BRIEF))
    assert all(c.by.replace("\u2009", " ").startswith("down by 1.8 °F") for c in told.findings.values())


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("soup", "This is no JSON."),
        ("[]", "It has no format"),
        ('{"format": "findings/9"}', "Its format is findings/9; findings/1 is read."),
        ('{"format": "findings/1", "alternatives": []}', "does not hold the brief"),
        ('{"format": "findings/1", "alternatives": [], "brief": "a = ", "made_by": {"version": "1"}}', "last.json"),
        ("[" * 100_000, "Its brackets stand too deep in one another."),
    ],
)
def test_what_is_no_last_revision_is_told(text, words):
    with pytest.raises(Mistake) as told:
        earlier(text, "last.json")
    assert words in str(told.value)
    assert "last.json" in str(told.value)


@pytest.mark.parametrize(
    "gone",
    [
        {"made_by": 5},
        {"made_by": {}},
        {"alternatives": []},
        {"alternatives": [{}]},
        {"alternatives": [{"findings": [{"id": "heat.u-floor"}]}]},
        {"assumed": [{"path": "site.ground"}]},
        {"notes": [3]},
        {"handover": "B"},
    ],
    ids=str,
)
def test_a_kept_revision_that_somebody_changed_is_told(gone):
    kept = json.loads(as_json(answered(BRIEF)))
    assert earlier(json.dumps(kept), "last.json") == kept
    with pytest.raises(Mistake, match=r"last\.json\n  Parts of what was kept are gone, or were changed by hand\."):
        earlier(json.dumps(kept | gone), "last.json")


@pytest.mark.parametrize("changed", [{"unit": "furlong"}, {"value": "warm"}, {"at": {"edge": ["A"]}}], ids=str)
def test_a_kept_finding_that_somebody_changed_is_told(changed):
    kept = json.loads(as_json(answered(BRIEF)))
    kept["alternatives"][0]["findings"][0] |= changed
    with pytest.raises(Mistake, match="changed by hand"):
        earlier(json.dumps(kept), "last.json")


def test_the_last_revision_is_read_before_the_brief_is_answered(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    Path("brief.toml").write_text(BRIEF, "utf-8")
    assert main(["submittal", "brief.toml", "-o", "slab.pdf", "--since", "gone.json"]) == 2
    assert "gone.json\n  There is no such file." in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["brief.toml"]


def test_a_dossier_as_json_holds_its_brief_and_its_first_sheet():
    kept = json.loads(as_json(answered(BRIEF)))
    assert kept["brief"] == BRIEF
    assert kept["handover"]["number"] == "26-0412"
    assert "references" not in kept["handover"]
    assert json.loads(as_json(replace(DOSSIER, brief_text="")))["brief"] == ""


@pytest.mark.parametrize(
    ("was", "refused"),
    [
        (THICKER, False),
        (THICKER.replace('"Workshop"', '"Shed"'), False),
        (THICKER.replace(OUTLINE, '["0 0", "9 0", "9 9", "0 9"]'), False),
        (THICKER.replace('"Workshop"', '"Shed"').replace(OUTLINE, '["0 0", "9 0", "9 9", "0 9"]'), True),
        (THICKER.replace('"Workshop"', '"Shed"').replace(PLACE, f'{PLACE}\nzip = "55802"'), False),
        (THICKER.replace('"Workshop"', '"Shed"').replace(PLACE, 'zip = "33131"'), True),
    ],
    ids=[
        *("thicker", "another title", "another outline", "another title and outline"),
        *("another title, and the ZIP of the place", "another title, and a ZIP for the place"),
    ],
)
def test_what_was_kept_of_another_slab_is_refused(was, refused):
    last = {"brief": was}
    if not refused:
        of_this_slab(last, BRIEF, "last.json")
        return
    with pytest.raises(Mistake) as told:
        of_this_slab(last, BRIEF, "last.json")
    assert "It answers another slab, “Shed”; this brief is “Workshop”." in str(told.value)
    assert "last.json" in str(told.value)


def test_a_submittal_marked_against_another_slab_is_not_made(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    Path("brief.toml").write_text(BRIEF, "utf-8")
    other = BRIEF.replace('title = "Workshop"', 'title = "Shed"').replace(OUTLINE, '["0 0", "9 0", "9 9", "0 9"]')
    kept = json.loads(as_json(answered(BRIEF))) | {"brief": other}
    Path("shed.json").write_text(json.dumps(kept), "utf-8")
    assert main(["submittal", "brief.toml", "-o", "slab.pdf", "--since", "shed.json"]) == 2
    assert "shed.json\n  It answers another slab" in capsys.readouterr().err
    assert not Path("slab.pdf").exists()


@pytest.mark.parametrize(
    ("stands", "words"),
    [
        ("soup", "What stands there is no revision that was kept."),
        (as_json, "It keeps revision A; this brief is revision B."),
    ],
)
def test_a_revision_is_kept_over_nothing_but_itself(tmp_path, monkeypatch, capsys, stands, words):
    monkeypatch.chdir(tmp_path)
    Path("brief.toml").write_text(THICKER, "utf-8")
    Path("kept.json").write_text(stands if isinstance(stands, str) else stands(answered(BRIEF)), "utf-8")
    before = Path("kept.json").read_bytes()
    keep = ["submittal", "brief.toml", "-o", "slab.pdf", "--draft", "--keep", "kept.json"]
    assert main(keep) == 2
    said = capsys.readouterr().err
    assert words in said and "name" in said
    assert sorted(path.name for path in tmp_path.iterdir()) == ["brief.toml", "kept.json"]
    assert Path("kept.json").read_bytes() == before
    Path("kept.json").write_text(as_json(answered(THICKER)), "utf-8")
    assert main(keep) == 1  # the workshop falls short; the paper is made
    assert Path("slab.pdf").exists()
