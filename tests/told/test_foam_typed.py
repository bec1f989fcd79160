"""What a brief may say of its foam: by which basis it carries, what an engineer lets stand on it, how wet it lies."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from pytest import approx
from refused import Bad, held_to
from test_wall_on_foam import GOOD

from underpour.answer import answer
from underpour.ask import asked
from underpour.brief import reads
from underpour.checks import bearing
from underpour.cli import main
from underpour.cli.questions_text import questions_text
from underpour.findings import Finding
from underpour.resolve import resolve


def with_foam(*lines: str, board: str = "plain-40") -> str:
    return "\n".join([GOOD.replace("plain-40", board), "[foam]", *lines, ""])


def found(text: str) -> Finding:
    made = resolve(reads(text).brief)
    (told,) = (each for edge in made.edges for each in bearing.below_footing(made, edge))
    return told


STRESS = 'long-term-stress = { plain-40 = "12 psi" }'
BAD = [
    Bad("a basis nobody knows", '"creep"', '"crepe"', ("foam.long-term", "No long-term is called crepe.", "creep")),
    Bad("a basis that is no word", '"creep"', "0.3", ("foam.long-term", "long-term is a word in quotes", "one-third")),
    Bad("a stress for no board", STRESS, 'long-term-stress = "12 psi"',
        ("foam.long-term-stress", "is a table", 'long-term-stress = { c578-xiv = "12 psi" }')),
    Bad("a stress of nothing", "12 psi", "0 psi", ("foam.long-term-stress.plain-40", "0 psi is nothing.", "80 kPa")),
    Bad("a stress without its unit", "12 psi", "12", ("foam.long-term-stress.plain-40", "12 of what?", "psi")),
    Bad("a force", "12 psi", "12 lb", ("foam.long-term-stress.plain-40", "12 lb is a", "psi")),
    Bad("a stress below zero", "12 psi", "-12 psi", ("foam.long-term-stress.plain-40", "-12 psi is below zero")),
    Bad("more than the short test bears", "12 psi", "60 psi",
        ("foam.long-term-stress.plain-40", "is tested at 42.5", "in minutes, which is less.")),
    Bad("a board nobody makes", "{ plain-40 =", "{ plian-40 =",
        ("foam.long-term-stress.plian-40", "No board is called plian-40.", "plain-40")),
    Bad("water for no board", 'water = { plain-15 = "4 %" }', 'water = "4 %"',
        ("foam.water", "water is a table", 'water = { c578-ii = "5 %" }')),
    Bad("more water than foam", '"4 %"', '"140 %"', ("foam.water.plain-15", "140 %", "100 %")),
    Bad("water without its unit", '"4 %"', '"4"', ("foam.water.plain-15", "4 of what?", "%")),
    Bad("water in a board nobody makes", "{ plain-15 =", "{ plain-16 =", ("foam.water.plain-16", "No board is called")),
    Bad("a key that foam has not", "water =", "wetness =", ("foam.wetness", "[foam] has no key wetness")),
    Bad("foam as a list", "[foam]", "[[foam]]", ("There is one foam in a brief.", "one bracket: [foam]")),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_bad_input_is_told_with_the_way_out_and_nothing_is_touched(
    bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    good = with_foam('long-term = "creep"', STRESS, 'water = { plain-15 = "4 %" }')
    held_to(good, bad, tmp_path, capsys)


@pytest.mark.parametrize(
    ("board", "basis", "kilopascals", "words"),
    [
        ("plain-25", "smallest", 55.85, "the smallest of the bases with evidence"),
        ("plain-25", "one-third", 62.05, "a third of the strength, the basis that the brief names"),
        ("plain-25", "one-percent", 78.0, "the resistance at 1 % strain, the basis that the brief names"),
        ("xps-40", "smallest", 90.0, "the stress of a creep test that stays small, the smallest"),
        ("xps-40", "one-third", 96.53, "Those who go by"),
        ("xps-40", "cc-code", 90.0, "the stress of the CC code, the basis that the brief names"),
    ],
)
def test_the_basis_that_a_brief_names_governs(board: str, basis: str, kilopascals: float, words: str) -> None:
    """27 psi times 6.8948, 0.30 and a third of it; MB-03-COM at 1 %; 42 psi; MB-16-CRE."""
    force = "3100 lb/ft" if words.startswith("Those") else "1500 lb/ft"
    told = found(with_foam(f'long-term = "{basis}"', board=board).replace("1500 lb/ft", force))
    assert told.limit == approx(kilopascals, abs=0.01)
    assert words in told.words


def test_a_basis_without_evidence_cannot_be_told_and_an_engineer_s_stress_tells_it() -> None:
    """The words, typed as they stand, give a verdict: 55 kPa of the message for 49 kPa of the wall."""
    untold = found(with_foam('long-term = "creep"', board="c578-ix"))
    assert (untold.verdict, untold.missing) == ("cannot tell", "foam.long-term-stress.c578-ix")
    for words in (
        "no creep test",
        "It needs a creep test by EN 1606",
        'a basis with evidence: "three-tenths", "one-third"',
    ):
        assert words in untold.words
    line = untold.words[untold.words.index("long-term-stress =") : untold.words.index(" in [foam]")]
    assert line == 'long-term-stress = { c578-ix = "8 psi" }'
    told = found(with_foam('long-term = "creep"', line, board="c578-ix"))
    assert (told.verdict, told.limit) == ("meets", approx(8 * 6.894757, abs=0.01))
    assert "8 psi" in line and "as the brief types it" in told.words
    assert "foam.long-term-stress.c578-ix" in told.rests_on
    assert (
        found(with_foam('long-term = "creep"', line.replace("8 psi", "6 psi"), board="c578-ix")).verdict
        == "falls short"
    )
    assert found(with_foam('long-term = "one-third"', board="c578-ix")).verdict == "meets"


def test_a_stress_typed_for_another_board_leaves_this_one_as_it_is() -> None:
    with_other = found(with_foam('long-term-stress = { plain-25 = "6 psi" }'))
    assert with_other.limit == found(GOOD).limit
    assert found(with_foam('long-term-stress = { plain-40 = "6 psi" }')).limit == approx(41.37, abs=0.01)


def test_every_basis_stands_among_the_steps_with_its_result_or_why_it_cannot_be_told() -> None:
    steps = [step for step in found(GOOD.replace("plain-40", "xps-25")).steps if step.symbol == "p_long"]
    assert len(steps) == 5
    results = [step.result for step in steps]
    assert results[0].endswith("kPa") and all(result.startswith("cannot tell: ") for result in results[1:])


ONE_EDGE = GOOD[: GOOD.index("[[edge]]")] + ('[[edge]]\nsides = "all"\nkind = "raft"\nground = "-8 in"\n')


def answered(*lines: str) -> dict[tuple[str, str], float]:
    made = answer(reads("\n".join([ONE_EDGE, *lines, ""]))).as_briefed
    return {(each.id, str(dict(each.at))): each.value for each in made.findings if each.value is not None}


def test_typing_the_other_school_s_water_moves_the_resistance_and_the_floor_s_loss() -> None:
    """Plain 15 with 16.2 % in place of 2.3 %: exp(4 · 0.139) = 1.744, so R falls to 57 % and the floor loses more."""
    taken, wet = answered(), answered("[foam]", 'water = { plain-15 = "16.2 %" }')
    in_place = ("heat.resistance", "{'value': 'in place'}")
    loss = ("heat.loss-mean", "{'of': 'floor'}")
    assert taken[in_place] / wet[in_place] == approx(2.718281828 ** (4.0 * (0.162 - 0.023)), rel=1e-4)
    assert wet[loss] > 1.1 * taken[loss]
    label = ("heat.resistance", "{'value': 'as labelled'}")
    assert taken[label] == wet[label]


def test_water_that_nobody_typed_is_listed_with_both_schools_and_typed_it_is_not() -> None:
    made = resolve(reads(ONE_EDGE).brief)
    (assumed,) = (each for each in made.assumed if each.path == "foam.water.plain-15")
    assert (assumed.low, assumed.value, assumed.high, assumed.unit) == (0.0, approx(2.3), approx(4.5), "%")
    for words in ("immersion test", "disputed", "4.8 %", "Moulded foam trade", "16.2 %", "Alaska", "SEI/ASCE 32-01"):
        assert words in assumed.why
    made = resolve(reads(f'{ONE_EDGE}\n[foam]\nwater = {{ plain-15 = "5 %" }}\n').brief)
    assert not any(each.path.startswith("foam.") for each in made.assumed)
    assert "foam.water.plain-15" in made.boards[0].rests_on


def test_a_board_whose_conductivity_is_typed_asks_for_no_water() -> None:
    typed = ONE_EDGE.replace('thickness = "2 in" }', 'thickness = "2 in", conductivity = "0.04 W/(m·K)" }')
    assert not any(each.path.startswith("foam.") for each in resolve(reads(typed).brief).assumed)


def test_how_far_the_resistance_may_be_off_stands_beside_it_with_how_it_was_reached() -> None:
    (told,) = (
        each
        for each in answer(reads(ONE_EDGE)).as_briefed.findings
        if each.id == "heat.resistance" and each.at["value"] == "in place"
    )
    assert told.words.startswith("Between R-") and "as wet as years in the ground may leave it, or dry" in told.words
    assert "exp(0.0036 (0.003 to 0.0048)" in told.steps[1].numbers and "MB-02-WAT" in told.steps[1].numbers


def test_ask_keeps_what_stands_in_the_table_that_it_writes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = with_foam('long-term = "creep"', 'long-term-stress = { plain-25 = "6 psi" }', board="c578-ix")
    (tmp_path / "brief.toml").write_text(text, "utf-8")
    assert main(["ask", str(tmp_path / "brief.toml"), "--json"]) == 0
    questions = json.loads(capsys.readouterr().out)["questions"]
    (asked_for,) = (each for each in questions if each["path"] == "foam.long-term-stress.c578-ix")
    assert asked_for["write"] == {
        "table": "foam",
        "line": 'long-term-stress = { plain-25 = "6 psi", c578-ix = "8.00 psi" }',
        "replaces": '{ plain-25 = "6 psi" }',
        "at_line": text.splitlines().index('long-term-stress = { plain-25 = "6 psi" }') + 1,
    }
    assert "structural engineer" in asked_for["caution"]


def test_ask_writes_the_heading_too_where_the_brief_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """Appended as it stands, the line is read and the water is no longer open."""
    monkeypatch.setattr("underpour.ask.asking.MOST", 99)
    monkeypatch.setattr("underpour.ask.asking.moving_most", list)
    monkeypatch.setattr("underpour.ask.asking._decides", lambda now, then: False)
    (wet,) = (each for each in asked(reads(ONE_EDGE)).questions if each.about.path == "foam.water.plain-15")
    assert (wet.line, wet.table) == ('[foam]\nwater = { plain-15 = "2.3 %" }', "")
    assert "Write at the end of the brief" in questions_text(replace(asked(reads(ONE_EDGE)), questions=(wet,)), 80)
    assert not any(each.path.startswith("foam.") for each in resolve(reads(f"{ONE_EDGE}\n{wet.line}\n").brief).assumed)
