"""What an answer and a comparison look like in a terminal of eighty columns."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from dossier_cases import CORNER, DOSSIER, HUMIDITY, LOSS, MEETS, answer

from underpour.cli.paragraphs import width_of_terminal
from underpour.cli.printing import hand_out
from underpour.cli.side_by_side import comparison_text
from underpour.cli.spoken import doubt, last_words, named
from underpour.cli.terminal import answer_text, answer_text_with_steps, finding_lines, numbered
from underpour.findings import Accepted, Finding
from underpour.papers.counted import counted_aloud

SOURCES = numbered([HUMIDITY])
ANSWER = answer_text(DOSSIER, 80)


def plain(text: str) -> str:
    """The text with every kind of space written as one common space."""
    return " ".join(text.split())


@pytest.mark.parametrize("width", [60, 80, 100])
def test_no_line_is_wider_than_the_terminal(width):
    for text in (answer_text_with_steps(DOSSIER, width), comparison_text(DOSSIER, width)):
        assert max(map(len, text.splitlines())) <= width


def test_the_last_line_counts_aloud():
    last = "1 falls short, 1 cannot tell, 1 meets, 1 is advised, 1 is given without a limit, 1 does not apply."
    assert plain(ANSWER).endswith(f" {last}") and not plain(ANSWER).endswith(f", {last}")


def test_when_nothing_falls_short_the_last_line_says_so():
    assert answer_text(MEETS, 80).splitlines()[-1] == "Nothing falls short: 1 meets, 1 is given without a limit."


def test_the_count_speaks_of_several():
    two = (CORNER, replace(CORNER, at={"edge": "B"}))
    assert counted_aloud(two) == "2 fall short."
    assert counted_aloud([*two, HUMIDITY, HUMIDITY]) == "2 fall short, 2 cannot tell."


def test_what_falls_short_comes_first_and_what_does_not_apply_last():
    heads = ("Falls short", "Cannot tell", "Meets", "Not required, advised", "Stated", "Does not apply")
    places = [ANSWER.index(f"\n{head}") for head in heads]
    assert places == sorted(places)


def test_a_finding_is_said_verdict_first_with_number_limit_margin_words_and_basis():
    lines = finding_lines(CORNER, "US", 80, numbered([CORNER]))
    assert lines[0] == "Falls short  Coldest point where floor and wall meet, edge A, film for heat loss"
    assert plain(lines[1]) == "56.1 °F (13.4 °C) in February; at least 59.0 °F (15.0 °C)"
    assert "▲" in lines[2]
    assert lines[2].endswith("2.9\u2009°F short")
    assert lines[3].strip().startswith("The corner falls to 56 °F in February.")
    assert lines[-1].strip() == "Basis [1]"


def test_each_basis_is_written_out_once_with_clause_and_how_it_was_seen():
    assert ANSWER.count("[1] ISO 13788:2012, 5.3 (from memory)") == 1
    assert ANSWER.count("Basis [1]") == 2
    assert "[2] common sense of the trade (common practice)" in ANSWER


def test_a_place_that_the_title_says_is_not_said_twice_but_edge_and_film_are():
    said = replace(LOSS, title="Heat lost through the floor", at={"of": "floor", "edge": "A", "distance": 1.0})
    assert plain(named(said, "SI")) == "Heat lost through the floor, edge A, distance 1.00 m"


def test_the_brief_in_si_is_answered_in_si_first():
    assert "13.4\u2009°C (56.1\u2009°F)" in answer_text(replace(DOSSIER, units="SI"), 80)


def test_what_cannot_be_told_names_the_one_key_to_give():
    asked = "Give floor.humidity, or a meter's reading."
    assert not any("in the brief" in line for line in finding_lines(replace(HUMIDITY, words=asked), "US", 80, SOURCES))
    assert "Give floor.humidity in the brief." in finding_lines(HUMIDITY, "US", 80, SOURCES)[2]


def test_a_caution_stands_beside_its_finding():
    assert any(
        "The walls above the ground are not in this number." in line
        for line in finding_lines(LOSS, "US", 80, numbered([LOSS]))
    )


def test_cautions_notes_and_credits_are_in_every_text():
    for text in (ANSWER, comparison_text(DOSSIER, 80)):
        for words in (*DOSSIER.cautions, *DOSSIER.notes, *DOSSIER.credits):
            assert words in plain(text)


def test_an_assumed_input_is_told_with_low_high_and_why():
    after = ANSWER.split("What was assumed")[1].split("Mind")[0]
    assert "site.ground.conductivity" in after
    assert "between" in after
    assert "No ground is named." in after
    assert "floor.covering: none." in after


def test_steps_are_written_out_only_when_asked_for():
    assert "How we know" not in ANSWER
    text = answer_text_with_steps(DOSSIER, 80)
    assert "θ = mean + Re(swing · exp(2πi·f))" in text
    assert "= 16.1 + (−2.7)" in text
    assert "Worked out to within 0.02\u2009K." in text
    assert "Rests on edge.A.insulation, site.place." in text


def test_an_error_of_nought_is_not_told_and_a_plain_number_has_no_unit():
    assert doubt(replace(CORNER, within=0.0)) == ""
    assert doubt(replace(HUMIDITY, within=0.0008)) == "0.0008"


def test_a_comparison_shows_what_differs_and_leaves_out_what_does_not():
    table = comparison_text(DOSSIER, 80).split("Side by side")[1].split("What it says")[0]
    assert "56.1\u2009°F, short" in table
    assert "64.2\u2009°F" in table
    assert "Heat loss in the coldest month" in table
    assert "Depth that the build-up takes" not in table


def test_a_comparison_says_the_lesson_of_each_alternative():
    lesson = comparison_text(DOSSIER, 80).split("What it says")[1]
    assert "as briefed\n    The corner falls to 56 °F in February." in lesson
    assert "foam over the footing\n    Foam that runs on over the footing keeps the corner warm." in lesson


def test_many_alternatives_stand_in_several_tables_each_with_as_briefed_first():
    many = [answer(f"variant {n}", replace(CORNER, value=10.0 + n)) for n in range(7)]
    text = comparison_text(replace(DOSSIER, alternatives=(DOSSIER.as_briefed, *many)), 80)
    heads = [line for line in text.splitlines() if line.strip().startswith("as briefed") and "variant" in line]
    assert len(heads) == 4
    assert max(map(len, text.splitlines())) <= 80


def test_three_alternatives_stand_in_one_table_of_eighty_columns():
    three = (*DOSSIER.alternatives, answer("bare", replace(CORNER, value=12.0)))
    head = comparison_text(replace(DOSSIER, alternatives=three), 80).split("Side by side\n")[1].splitlines()[0]
    assert plain(head) == "as briefed foam over the bare"


def test_a_unit_too_long_for_its_column_stands_once_behind_the_name():
    edge = Finding("heat.edge-psi", "Edge", 0.5, "W/(m·K)", at={"edge": "A"})
    two = (answer("as briefed", edge), answer("bare", replace(edge, value=0.7)))
    table = comparison_text(replace(DOSSIER, units="US", alternatives=two), 80).split("Side by side")[1]
    assert "Edge, edge A, Btu/(h·ft·°F)" in table
    assert plain(table.split("°F)")[1]).startswith("0.289 0.404")


def test_a_finding_that_an_alternative_does_not_have_is_said_to_be_not_there():
    text = comparison_text(replace(DOSSIER, alternatives=(DOSSIER.as_briefed, answer("bare", CORNER))), 80)
    assert "not there" in text


class Terminal(io.TextIOWrapper):
    def isatty(self) -> bool:
        return True


def printed(monkeypatch, stream: io.TextIOWrapper, text: str) -> str:
    monkeypatch.setattr("sys.stdout", stream)
    hand_out(text)
    return stream.buffer.getvalue().decode("utf-8")  # type: ignore[attr-defined]


def test_a_terminal_shows_the_verdict_in_colour_unless_none_is_wanted(monkeypatch):
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert "\x1b[1;38;5;166mFalls short\x1b[0m" in printed(monkeypatch, Terminal(io.BytesIO()), ANSWER)
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b" not in printed(monkeypatch, Terminal(io.BytesIO()), ANSWER)


def test_a_file_gets_no_colour(monkeypatch):
    monkeypatch.setenv("TERM", "xterm-256color")
    assert "\x1b" not in printed(monkeypatch, io.TextIOWrapper(io.BytesIO()), ANSWER)


def test_control_letters_of_a_brief_do_not_reach_the_terminal(monkeypatch):
    shown = printed(monkeypatch, io.TextIOWrapper(io.BytesIO()), ANSWER)
    assert "\x1b" in ANSWER
    assert "Daylight basement \ufffd[31m<b>" in shown


def test_the_terminal_gets_utf_8_where_the_locale_has_none(monkeypatch):
    shown = printed(monkeypatch, io.TextIOWrapper(io.BytesIO(), encoding="ascii"), "13.4\u2009°C ▲ \udcff\n")
    assert shown == "13.4\u2009°C ▲ ?\n"


@pytest.mark.parametrize(("columns", "width"), [("80", 80), ("20", 60), ("300", 100), ("", 80)])
def test_lines_fill_the_terminal_within_reason(monkeypatch, columns, width):
    monkeypatch.setenv("COLUMNS", columns)
    monkeypatch.setattr("os.get_terminal_size", lambda *_: (_ for _ in ()).throw(OSError))
    assert width_of_terminal() == width


def test_what_nothing_is_said_of_is_named_before_the_count():
    unsaid = ANSWER.partition("What was not checked")[2]
    assert "Bearing: slab, foam and ground" in unsaid and "Drying: what the build-up" in unsaid
    assert "Moisture:" not in unsaid and "Heat:" not in unsaid


FROST = Finding("heat.ground-temperature", "Ground", -0.9, "degC", at={"edge": "door", "place": "edge"})


def test_frost_below_a_slab_stands_right_before_the_count_and_names_where():
    middle = replace(FROST, at={"edge": "door", "place": "middle"}, value=-2.0)
    other = replace(middle, at={"edge": "walls", "place": "middle"})
    warm = replace(FROST, at={"edge": "walls", "place": "edge"}, value=0.1)
    told = last_words([FROST, middle, other, warm])
    assert told == [
        "The ground freezes under edge door and the middle; no limit is held against that here.",
        "Nothing falls short: 4 are given without a limit.",
    ]
    assert last_words([warm]) == ["Nothing falls short: 1 is given without a limit."]


def test_frost_is_told_in_the_answer_and_side_by_side():
    frozen = replace(MEETS, alternatives=(answer("as briefed", FROST), answer("bare", replace(FROST, value=0.5))))
    frost = "The ground freezes under edge door; no limit is held against that here."
    assert answer_text(frozen, 80).splitlines()[-2:] == [frost, "Nothing falls short: 1 is given without a limit."]
    last = comparison_text(frozen, 200).splitlines()[-2:]
    assert frost in plain(" ".join(last))
    assert "freezes" not in last[1]


def test_side_by_side_says_what_was_not_checked():
    said = comparison_text(DOSSIER, 80)
    assert "What was not checked\n" in said
    assert "Soil gas: radon" in said


def test_a_shortfall_names_itself_for_whom_would_accept_it():
    short = " ".join(finding_lines(CORNER, "US", 80, numbered([CORNER])))
    assert f"Its name in [[accept]]: {CORNER.id}" in short
    taken = replace(CORNER, accepted=Accepted("Boats only.", "A. Owner", "2026-11-20"))
    assert "Its name" not in " ".join(finding_lines(taken, "US", 80, numbered([CORNER])))
