"""A wall that stands on foam: what can be typed of its load, and what is told of the foam below its footing."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import paper_cases as cases
import pytest
from refused import Bad, held_to

from underpour.brief import reads
from underpour.checks import bearing
from underpour.cli import main
from underpour.findings import Finding
from underpour.papers.asked import asked
from underpour.resolve import resolve

LOAD = """
[[load]]
kind = "wall"
at = "edge A"
force = "1500 lb/ft"
"""
WITHOUT = """\
[project]
use = "workshop"

[site]
place = "Duluth, MN"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"

[floor]
inside = "68 F"
humidity = "40 %"
build-up = [{ concrete = "4 in" }, { board = "plain-15", thickness = "2 in" }, { gravel = "4 in" }]

[[edge]]
name = "lake side"
sides = [1, 2]
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
footing = { width = "20 in", height = "10 in" }
insulation = [{ board = "plain-40", thickness = "2 in", face = "below-footing" }]

[[edge]]
sides = [3]
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"

[[edge]]
sides = [4]
kind = "raft"
ground = "-8 in"
"""
GOOD = (WITHOUT + LOAD).replace('"edge A"', '"lake side"')
FORCE, AT, KIND = 'force = "1500 lb/ft"', 'at = "lake side"', 'kind = "wall"'

BAD = [
    Bad("an edge nobody knows", AT, 'at = "edge D"', ("brief.toml:39  load.1.at", "No edge is called D.", '"edge A"')),
    Bad("a name that is nearly one", AT, 'at = "edge lake sied"', ("load.1.at", "The nearest is edge lake side.")),
    Bad("a place that is no edge", AT, 'at = "2 m, 3 m"', ("load.1.at", "No edge is called 2 m, 3 m.")),
    Bad("a place that is no word", AT, "at = 2", ("load.1.at", "at is a word in quotes", 'Write at = "edge A".')),
    Bad("no place", f"{AT}\n", "", ("brief.toml:37  load.1.at", "A load needs at", 'Write at = "edge A".')),
    Bad("no force", f"{FORCE}\n", "", ("load.1.force", "A load needs force", 'Write force = "1500 lb/ft".')),
    Bad("no kind", f"{KIND}\n", "", ("load.1.kind", "A load needs kind", 'Write kind = "wall".')),
    Bad("a force that is not by length", FORCE, 'force = "1500 lb"',
        ("brief.toml:40  load.1.force", "1500 lb is a force; a force on each foot or metre is wanted.", "lb/ft")),
    Bad("a pressure", FORCE, 'force = "1500 psf"', ("load.1.force", "1500 psf is a pressure", "lb/ft")),
    Bad("a force without its unit", FORCE, 'force = "1500"', ("load.1.force", "1500 of what?", "1500 lb/ft")),
    Bad("no force at all", FORCE, 'force = "0 kN/m"', ("load.1.force", "0 kN/m is no load.", "1500 lb/ft or 20 kN/m")),
    Bad("a force that lifts", FORCE, 'force = "-20 kN/m"', ("load.1.force", "-20 kN/m is below zero")),
    Bad("a force beyond any wall", FORCE, 'force = "200000 kN/m"', ("load.1.force", "200000 kN/m")),
    Bad("two pieces below one footing", 'face = "below-footing" }', 'face = "below-footing" },\n'
        '{ board = "plain-40", thickness = "1 in", face = "below-footing" }',
        ("edge.A.insulation.2.face", "Piece 1 lies below this footing already.", "the thickness of both")),
    Bad("two loads at one edge", FORCE, f'{FORCE}\n[[load]]\nkind = "wall"\nat = "edge A"\nforce = "2 kN/m"',
        ("brief.toml:43  load.2.at", "Edge lake side carries load 1 already.", "Add the two up")),
    Bad("a wall on a raft", AT, 'at = "edge C"',
        ("load.1.at", "Nothing answers a wall's load on a raft in this version yet.")),
    Bad("a wall beside a heated room", "sides = [1, 2]", 'sides = [1, 2]\nbeside = "heated"',
        ("load.1.at", "Edge lake side lies beside a heated room", "name an edge that faces outdoors")),
    Bad("a key that no wall has", FORCE, f'{FORCE}\nfource = "2 kN/m"', ("load.1.fource", "A load has no key fource.")),
    Bad("a key of loads on slabs", FORCE, f'{FORCE}\nplate = "4 in"',
        ("load.1.plate", "A wall on its footing has no plate")),
    Bad("loads that are no list", LOAD.replace("edge A", "lake side"), '\n[load]\nkind = "wall"\n',
        ("There may be several of load.", "Write the heading with two brackets: [[load]].")),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_bad_input_is_told_with_the_way_out_and_nothing_is_touched(
    bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    held_to(GOOD, bad, tmp_path, capsys)


def findings(text: str, alternative: str = "") -> list[Finding]:
    reading = reads(text)
    brief = dict(reading.alternatives)[alternative] if alternative else reading.brief
    made = resolve(brief)
    return [finding for edge in made.edges for finding in bearing.below_footing(made, edge)]


@pytest.mark.parametrize("at", ["lake side", "edge lake side", "edge A", "A"])
def test_an_edge_is_named_by_its_letter_or_its_name(at: str) -> None:
    (found,) = findings(GOOD.replace(AT, f'at = "{at}"'))
    assert found.at == {"edge": "lake side", "load": "wall"}


def test_without_a_load_it_asks_for_the_table_and_with_it_tells() -> None:
    """The words of the missing table, typed as they stand, give another verdict."""
    (asked,) = findings(WITHOUT)
    assert (asked.verdict, asked.missing) == ("cannot tell", "load")
    for words in ("[[load]]", "the earth on the footing's top", KIND, 'at = "edge lake side"', FORCE):
        assert words in asked.words
    typed = "\n".join(("[[load]]", KIND, 'at = "edge lake side"', FORCE))
    (told,) = findings(f"{WITHOUT}\n{typed}\n")
    assert told.verdict == "meets"


@pytest.mark.parametrize(
    ("board", "force", "verdict", "words"),
    [
        ("plain-40", "1500 lb/ft", "meets", "three tenths of the strength at 10 % strain, the smallest of the bases"),
        ("plain-25", "2000 lb/ft", "falls short", "Those who go by the resistance at 1 % strain would allow it."),
        ("plain-25", "1850 lb/ft", "falls short", "Those who go by a third of the strength would allow it."),
        ("plain-15", "3000 lb/ft", "falls short", "may stand, or a wider footing."),
        ("c578-iv", "1500 lb/ft", "meets", "a third of the strength, the only basis with evidence."),
    ],
)
def test_the_board_decides_and_the_words_say_how_sure_it_is(board: str, force: str, verdict: str, words: str) -> None:
    """At 1500 lb/ft 49 kPa, at 1850 and 2000 lb/ft 59 and 64 kPa, against 56 kPa, 62 kPa and 78 kPa of plain-25."""
    (found,) = findings(GOOD.replace("plain-40", board).replace("1500 lb/ft", force))
    assert found.verdict == verdict
    assert words in found.words
    assert found.value is not None and found.limit is not None


def test_on_the_limit_it_meets() -> None:
    (found,) = findings(GOOD)
    assert found.limit is not None
    width, weight = 20 * 0.0254, 20 * 10 * 0.0254**2 * 2403 * 9.80665
    force = found.limit * 1000 * width - weight
    assert findings(GOOD.replace("1500 lb/ft", f"{force - 0.01:.3f} N/m"))[0].verdict == "meets"
    assert findings(GOOD.replace("1500 lb/ft", f"{force + 0.01:.3f} N/m"))[0].verdict == "falls short"


def test_every_number_can_be_opened() -> None:
    (found,) = findings(GOOD)
    assert [step.symbol for step in found.steps] == ["g", "p", *["p_long"] * 5]
    assert "21.89 + 3.04" in found.steps[1].numbers
    shares = {"catalogue.foam.plain-40.strength", "catalogue.long-term.three-tenths"}
    assert {"load.1.force", "edge.lake side.footing.width", *shares} <= set(found.rests_on)
    assert any("EN 13163" in basis.source for basis in found.basis)


def test_a_load_where_no_foam_lies_below_does_not_apply_and_an_edge_without_either_is_silent() -> None:
    told = findings(GOOD.replace(AT, 'at = "edge B"'))
    assert [(found.at["edge"], found.verdict) for found in told] == [
        ("lake side", "cannot tell"),
        ("B", "does not apply"),
    ]
    assert "no foam lies below this footing" in told[1].words


@pytest.mark.parametrize(
    ("change", "verdict"),
    [
        ('remove = ["load"]', "cannot tell"),
        ('remove = ["load.1"]', "cannot tell"),
        ('remove = ["board"]', "does not apply"),
        ('remove = ["edge.A.insulation"]', "does not apply"),
        ('set = { "load.1.force" = "60 kN/m" }', "falls short"),
        ('set = { "edge.A.footing.width" = "12 in" }', "meets"),
        ('set = { "edge.A.footing.width" = "9 in" }', "falls short"),
    ],
)
def test_an_alternative_can_change_the_load_the_foam_and_the_footing(change: str, verdict: str) -> None:
    (found,) = findings(f'{GOOD}\n[[alternative]]\nname = "other"\n{change}\n', "other")
    assert found.verdict == verdict


def test_an_alternative_that_leaves_the_load_nothing_to_stand_on_is_a_mistake(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    other = '\n[[alternative]]\nname = "other"\nset = { "load.1.at" = "edge Z" }\n'
    (tmp_path / "brief.toml").write_text(GOOD + other, "utf-8")
    assert main(["answer", "brief.toml"]) == 2
    assert 'alternative "other": load.1.at' in capsys.readouterr().err


def test_the_loads_stand_in_what_is_asked_as_they_were_typed() -> None:
    told = replace(cases.dossier(), brief_text=GOOD + LOAD.replace("edge A", "edge B").replace("1500 lb/ft", "9 kN/m"))
    words = {row["name"]: row["words"] for row in asked(told, {})}
    assert words["Loads"] == "kind wall, at lake side, force 1500 lb/ft; kind wall, at edge B, force 9 kN/m"


@pytest.mark.parametrize(("text", "status"), [(WITHOUT, 0), (GOOD, 0), (GOOD.replace("plain-40", "plain-15"), 1)])
def test_the_engineer_is_named_beside_the_finding_and_the_status_follows(
    text: str, status: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    insulated = '{ board = "plain-15", thickness = "2 in", face = "outside", from = "12 in", down = "60 in" }'
    one_edge = text[: text.index("[[edge]]\nsides = [3]")] + text[len(WITHOUT) :]
    warm = one_edge.replace("sides = [1, 2]", 'sides = "all"').replace(
        '"below-footing" }', f'"below-footing" }}, {insulated}'
    )
    (tmp_path / "brief.toml").write_text(warm, "utf-8")
    assert main(["answer", str(tmp_path / "brief.toml"), "--json"]) == status
    found = json.loads(capsys.readouterr().out)["alternatives"][0]["findings"]
    (told,) = [finding for finding in found if finding["id"] == "bearing.foam-long"]
    assert "A structural engineer must size this footing and sign for it." in told["caution"]
    assert told["unit"] == "kPa"
