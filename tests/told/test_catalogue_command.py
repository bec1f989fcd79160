"""What ``underpour catalogue`` tells of the tables."""

from __future__ import annotations

from dataclasses import fields

import pytest

from underpour import catalogue
from underpour.catalogue import listing
from underpour.catalogue.records import Quantity
from underpour.cli import main
from underpour.cli.catalogue.lists import HEADS as LISTS
from underpour.cli.catalogue.lists import listed, shelf
from underpour.cli.catalogue.show import shown
from underpour.cli.spoken import SEEN, measured

HELD = catalogue.shipped_products()


def plain(text: str) -> str:
    """The text with every kind of space written as one common space."""
    return " ".join(text.split())


def test_every_list_of_the_catalogue_can_be_asked_for():
    assert set(LISTS) == set(listing.LISTS)


@pytest.mark.parametrize("what", LISTS)
def test_each_entry_of_a_list_can_be_shown_by_its_name(what):
    entries = list(shelf(what, HELD))
    assert entries
    for key, words in entries:
        assert f"  {key}" in listed((what,), HELD, 80)
        assert plain(words) in plain(listed((what,), HELD, 80))
        assert shown(key, HELD, 80)


@pytest.mark.parametrize("width", [60, 80, 100])
def test_no_line_is_wider_than_the_terminal(width):
    texts = [
        listed(tuple(LISTS), HELD, width),
        *(shown(key, HELD, width) for what in LISTS for key, _ in shelf(what, HELD)),
    ]
    assert max(len(line) for text in texts for line in text.splitlines()) <= width


@pytest.mark.parametrize("board", catalogue.shipped_products().boards(), ids=lambda board: board.key)
def test_a_board_shows_every_number_with_range_source_clause_and_how_it_was_seen(board):
    text = plain(shown(board.key, HELD, 80))
    for quantity in (getattr(board, field.name) for field in fields(board)):
        if isinstance(quantity, Quantity):
            for value in (quantity.value, quantity.low, quantity.high):
                assert plain(measured(value, quantity.unit, "SI")) in text
            assert plain(f"{quantity.source.title}, {quantity.where} ({SEEN[quantity.seen]})") in text
    for made in board.made:
        assert plain(made.typed) in text
        assert plain(f"{measured(made.r_label.value, 'm²·K/W', 'SI')} as labelled") in text


def test_two_inches_of_a_board_have_two_r_values():
    line = next(line for line in shown("plain-15", HELD, 80).splitlines() if line.strip().startswith("2 in"))
    assert plain(line) == "2 in RSI 1.43 (R-8.1) as labelled, RSI 1.40 (R-8.0) in place"


def test_the_working_of_the_value_in_place_is_told_once():
    board = catalogue.shipped_products().board("plain-15")
    assert plain(shown("plain-15", HELD, 80)).count(plain(board.in_place_steps)) == 1


def test_what_is_invented_is_said_wherever_it_is_shown():
    for board in catalogue.shipped_products().boards():
        assert ("invented" in shown(board.key, HELD, 80)) == board.invented
        assert ("invented" in dict(shelf("boards", HELD))[board.key]) == board.invented


def test_a_mistyped_name_is_asked_about(capsys):
    assert main(["catalogue", "show", "plian-15"]) == 2
    assert capsys.readouterr().err == (
        "underpour catalogue show plian-15\n"
        "  The catalogue has nothing called plian-15.\n"
        "  Did you mean plain-15? All of them: underpour catalogue list\n"
    )


def test_a_use_is_shown_by_any_word_for_it():
    assert shown("church", HELD, 80) == shown("assembly", HELD, 80)
    assert "Assembly (catalogue.use.assembly)" in shown("church", HELD, 80)


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("properties", ["resistance-24C", "permeance", "ng/(Pa·s·m²) or perm", "ASTM E96", "conditions.thickness"]),
        ("classes", ["ASTM C578 type IX", "CAN/ULC-S701 type 4", "ASTM E1745 class A", "EN 13163"]),
    ],
)
def test_what_a_record_can_say_is_listed(what, said, capsys):
    assert main(["catalogue", "list", what]) == 0
    told = capsys.readouterr().out
    assert all(each in told for each in said)
    assert max(map(len, told.splitlines())) <= 80
