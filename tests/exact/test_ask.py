"""What asking says of an answer is what the brief says once it is typed; where a verdict turns is found twice."""

from __future__ import annotations

from functools import cache
from math import exp, log

import pytest
from ask_cases import bare, exactly, with_line

from underpour.answer import answer
from underpour.ask import Asked, Question, asked
from underpour.ask.asking import left_open
from underpour.ask.ends import at_end
from underpour.ask.wording import pattern, wordings
from underpour.brief import reads
from underpour.dossier import Answer
from underpour.resolve import resolve
from underpour.trying import SURE, as_taken, named

OPEN_FLOOR = bare("dwelling", "frost-wall", "footing-wall")
OPEN_RAFT = bare("dwelling", "raft")


def verdicts(found: Answer) -> dict:
    return {name: finding.verdict for name, finding in named(found.findings).items()}


@cache
def answered(text: str) -> Answer:
    return answer(reads(text)).as_briefed


@cache
def questions(text: str) -> Asked:
    return asked(reads(text))


def typed(text: str, path: str, value: float) -> str:
    """The brief with the input at a path typed, and what one line answers with it as taken."""
    found = answer(reads(text)).assumed
    values = {each.path: (each.value, each.unit) for each in found}
    values |= {each.path: (value, each.unit) for each in questions(text).open if each.path == path}
    return with_line(text, wordings()[pattern(path)].table(path), exactly(path, values))


@pytest.mark.parametrize(
    "text", [OPEN_RAFT, pytest.param(OPEN_FLOOR, marks=pytest.mark.proof)], ids=["raft", "two edges"]
)
def test_every_end_of_every_open_input_gives_the_verdicts_that_the_typed_value_gives(text):
    taken = as_taken(reads(text))
    tried = 0
    for each in left_open(taken):
        for value in {each.low, each.high} - {each.value}:
            end = at_end(taken, each.path, value)
            fresh = answered(typed(text, each.path, value))
            expected = verdicts(fresh)
            for name in taken.findings.keys() - end.findings.keys():
                assert expected.pop(name) == "stated", (each.path, name)  # no question turns on it: left out
            assert {name: finding.verdict for name, finding in end.findings.items()} == expected, each.path
            for name, finding in named(fresh.findings).items():
                if finding.value is not None and finding.within and name in end.findings:
                    allowed = SURE / 2.0 * taken.findings[name].within
                    assert end.findings[name].value == pytest.approx(finding.value, abs=allowed), (each.path, name)
            tried += 1
    assert tried >= 10


def test_what_is_said_to_turn_turns_and_nothing_else_does():
    before = verdicts(answered(OPEN_FLOOR))
    for question in questions(OPEN_FLOOR).questions:
        for value, end in ((question.about.low, "at_low"), (question.about.high, "at_high")):
            after = verdicts(answered(typed(OPEN_FLOOR, question.about.path, value)))
            said = {
                name: getattr(turn, end).verdict
                for turn in question.turns
                for name in named([turn.as_taken])
                if getattr(turn, end).verdict != turn.as_taken.verdict
            }
            assert said == {name: verdict for name, verdict in after.items() if verdict != before[name]}


def pressure(celsius: float) -> float:
    """Saturation over water, ISO 13788:2012 equation E.7 (from memory). [Pa]"""
    return 610.5 * exp(17.269 * celsius / (237.3 + celsius))


def dew(pascals: float) -> float:
    """The temperature at which that is the saturation, the same equation turned round. [degC]"""
    return 237.3 * log(pascals / 610.5) / (17.269 - log(pascals / 610.5))


def test_humidity_turns_the_mould_verdict_where_the_saturation_curve_says():
    """The room at 20 degC is typed, the humidity is not: 50 % is taken, 40 to 60 % is plausible.

    The value told is read off a straight line between the margins at 50 and at 40 %, drawn here by the equation for
    saturation; the verdict itself turns where the curve crosses, within a twentieth of the range of that.
    """
    text = with_line(OPEN_RAFT.replace("[[edge]]", BAND), "floor", 'inside = "20 C"')
    finding = answered(text).find("moisture.surface-factor", surface="floor")
    resolved = resolve(reads(text).brief)
    cold = resolved.outdoor_mean - abs(resolved.outdoor_swing)

    def margin(humidity: float) -> float:
        return finding.value - (dew(pressure(20.0) * humidity / 80.0) - cold) / (20.0 - cold)

    crosses = 80.0 * pressure(cold + finding.value * (20.0 - cold)) / pressure(20.0)
    question = of(questions(text), "floor.humidity")
    assert 40.0 < crosses < 50.0 == question.about.value
    assert question.turning == pytest.approx(50.0 - 10.0 * margin(50.0) / (margin(50.0) - margin(40.0)), abs=1e-3)
    assert question.turning == pytest.approx(crosses, abs=20.0 / 20.0)
    assert question.needed == pytest.approx((50.0 - question.turning) / 20.0)
    for humidity, verdict in ((crosses - 0.1, "meets"), (crosses + 0.1, "falls short")):
        fresh = answered(with_line(text, "floor", f'humidity = "{humidity:.4f} %"'))
        assert fresh.find("moisture.surface-factor", surface="floor").verdict == verdict


BAND = '[[edge]]\ninsulation = [{ board = "plain-15", thickness = "2 in", face = "slab-edge" }]'


def of(found: Asked, path: str) -> Question:
    return next(question for question in found.questions if question.about.path == path)


def test_a_missing_depth_parts_its_verdicts_at_the_thickness_of_the_build_up():
    """100 mm and 50.8 mm and 100 mm."""
    question = of(questions(bare("workshop", "raft")), "floor.available-depth")
    assert question.turning == pytest.approx(0.2508, abs=1e-9)
    assert question.needed == 0.0


def test_an_input_that_does_not_move_the_section_is_answered_without_solving(monkeypatch):
    taken = as_taken(reads(OPEN_RAFT))
    monkeypatch.setattr("underpour.cut.sketch_each", None)
    monkeypatch.setattr("underpour.cut.solve_each", None)
    assert at_end(taken, "floor.humidity", 70.0).findings
    assert at_end(taken, "floor.available-depth", 0.3).findings
    with pytest.raises(TypeError):
        at_end(taken, "edge.A.ground", -0.3)


def test_alternatives_change_nothing_that_is_asked():
    other = '\n[[alternative]]\nname = "bare and damp"\nremove = ["board"]\nset = { "edge.A.ground" = "-300 mm" }\n'
    with_ground = with_line(OPEN_RAFT, "edge.A", 'ground = "-200 mm"')
    assert answer(reads(with_ground + other)).alternatives[1].name == "bare and damp"
    assert asked(reads(with_ground + other)) == asked(reads(with_ground))
