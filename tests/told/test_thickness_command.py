"""``underpour catalogue thickness`` as it reads, and what is typed wrong to it."""

from __future__ import annotations

from pathlib import Path

import pytest

from underpour.cli import main

ROOT = Path(__file__).parents[2]


def said(capsys, *words: str, status: int = 0) -> str:
    assert main(["catalogue", "thickness", *words]) == status
    out, err = capsys.readouterr()
    return " ".join((err if status else out).split())


def test_r_10_of_a_board_and_of_a_panel(capsys):
    text = said(capsys, "R10", "plain-15", "knob-15")
    assert "For R10 (RSI 1.76), as labelled" in text
    assert "plain-15 2-1/2 in (64 mm): R-10.2 as labelled, R-10.0 in place, 0.93 USD/ft²" in text
    assert "knob-15 2-1/2 in (64 mm) of solid foam, 3-3/4 in over all: R-10.1 as labelled" in text
    assert "the joints of each are crossed by the next" in text


def test_every_board_and_panel_is_told_where_none_is_named(capsys):
    text = said(capsys, "R10")
    for key in ("plain-10", "xps-100", "cellglass-85", "c578-ix", "s701-2", "knob-15-low", "gas-25"):
        assert f" {key} " in text
    assert "knob-15-low not reached: the most is 1-1/2 in, R-6.0" in text


def test_what_takes_several_layers_says_so(capsys):
    assert "plain-15 4 in + 2-1/2 in (165 mm): R-26.5 as labelled" in said(capsys, "R25", "plain-15")


def test_a_thinner_stack_is_offered(capsys):
    assert "or thinner, " in said(capsys, "R18", "plain-15")


def test_metric_words_are_answered_in_metric_first(capsys):
    assert "RSI 1.80 as labelled" in said(capsys, "RSI 1.76", "plain-15")


def test_back_from_a_thickness(capsys):
    assert "plain-15 2-1/2 in (64 mm): R-10.2 as labelled" in said(capsys, "2-1/2 in", "plain-15")
    assert "c578-ii 100 mm (3.94 in): RSI 2.77 as labelled" in said(capsys, "100 mm", "c578-ii")


def test_a_u_of_a_whole_floor_is_found_step_by_step(capsys):
    brief = str(ROOT / "examples" / "bubble-sheet-workshop" / "brief.toml")
    text = said(capsys, "U0.05", "--brief", brief)
    assert "2-1/2 in (64 mm), R-10.2 as labelled: U is 0.0541" in text
    assert "3 in (76 mm) is the thinnest made that reaches it; 2-1/2 in (64 mm), the next thinner, falls short." in text


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        ((), "Which R, U or thickness?"),
        (("R", "plain-15"), "R cannot be read as a thermal resistance. Write R10 or RSI 1.76."),
        (("R0", "plain-15"), "R0 is nothing."),
        (("10", "plain-15"), "10 of what? Write 10 in or 10 mm"),
        (("U0.05",), "The U of a whole floor hangs on its size, its edges and the ground. Name the brief"),
        (("3 in",), "A thickness brings another R with each board. Name the board"),
        (("7 in", "plain-15"), "is not made 7 in thick. It is made in 1 in, 1-1/2 in"),
        (("R10", "plian-15"), "No board is called plian-15. The nearest is plain-15."),
        (("R10", "knob-1"), "The nearest is knob-15."),
        (("R10", "tape-acrylic"), "is no board and no panel: it has no R-value."),
        (("R10", "plain-15", "--brief", "nowhere.toml"), "nowhere.toml"),
        (("-R10", "plain-15"), "The command does not take this."),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_what_is_typed_wrong_is_told(capsys, words, wrong):
    assert wrong in said(capsys, *words, status=2)


def test_help_says_what_it_takes(capsys):
    assert main(["catalogue", "thickness", "--help"]) == 0
    assert 'underpour catalogue thickness "2 in" BOARD' in capsys.readouterr().out


def test_a_brief_and_a_line_are_not_both_named(capsys):
    assert main(["catalogue", "thickness", "R10", "--brief", "a.toml", "--catalogue", "b.toml"]) == 2
    assert "Leave --catalogue or --brief out." in capsys.readouterr().err
