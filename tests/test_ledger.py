"""The ledger holds what the tests hold, and the tests hold what it says."""

from math import inf, nan

import ledger_page
import pytest

import ledger
from ledger import Row, between, held, moved, told

ANEW = "This writes the ledger anew: .venv/bin/python docs/making/ledger_page.py"
ROWS = ledger.read(ledger_page.TABLE)


def test_the_page_is_made_from_its_table():
    assert ledger_page.PAGE.read_text(encoding="utf-8") == ledger_page.page(ROWS), ANEW


def test_each_published_value_stands_in_the_ledger_with_what_we_give_now():
    """All of tests/published is worked through by itself (some 10 s); ours may turn over by one in its last digit."""
    now = ledger_page.gone_through()
    kept = [row for row in ROWS if row.file.startswith("tests/")]
    assert [named(row) for row in kept] == [named(row) for row in now], ANEW
    assert not [pair for pair in zip(kept, now, strict=True) if moved(*pair)], ANEW


def test_each_held_number_of_an_example_stands_in_the_ledger():
    """What we give there is held where the examples are answered (tests/test_examples.py)."""
    kept = [(named(row), row.printed, row.tolerance, row.unit, row.source) for row in ROWS if row.file[:2] == "ex"]
    wanted = [row for folder in ledger_page.FOLDERS for row in ledger_page.of_example(folder, ledger_page.left_open)]
    assert kept == [(named(row), row.printed, row.tolerance, row.unit, row.source) for row in wanted], ANEW


def named(row: Row) -> tuple[str, str, str]:
    return row.file, row.test, row.case


@pytest.fixture
def forgotten(monkeypatch):
    """Rows that these tests write down are no rows of the ledger."""
    monkeypatch.setattr(ledger, "ROWS", [])
    return ledger.ROWS


def test_a_number_is_held_up_to_its_tolerance_and_no_further(forgotten):
    held(0.225, 0.22, 0.0051, "m", "A table", "quoted", "a cell")
    assert [(row.printed, row.ours, row.difference, row.tolerance) for row in forgotten] == [
        ("0.22", "0.225", "0.005", "0.0051")
    ]
    for off in (0.2252, 0.2148, nan, inf):
        with pytest.raises(AssertionError, match=r"printed 0\.22 ± 0\.0051 m \(A table\)"):
            held(off, 0.22, 0.0051, "m", "A table", "quoted")


def test_a_range_is_held_at_both_of_its_ends(forgotten):
    between(13.3, 13.7, 14.4, 0.4, "degC", "Trials", "derived")
    between(-7.0, -inf, 0.0, 0.0, "K", "Trials", "derived")
    assert [(row.printed, row.ours, row.difference) for row in forgotten] == [
        ("13.7 to 14.4", "13.3", "-0.4"),
        ("at most 0", "-7", "0"),
    ]
    for off, low, high in ((13.29, 13.7, 14.4), (14.81, 13.7, 14.4), (0.1, -inf, 0.0), (nan, 0.0, 1.0)):
        with pytest.raises(AssertionError):
            between(off, low, high, 0.4 if high > 1.0 else 0.0, "degC", "Trials", "derived")


def test_words_are_held_to_the_letter(forgotten):
    told("6A", "6A", "A table", "quoted")
    with pytest.raises(AssertionError, match="ours 6B, printed 6A"):
        told("6B", "6A", "A table", "quoted")


@pytest.mark.parametrize(("source", "seen"), [("", "quoted"), ("A table", "hearsay")])
def test_a_value_without_its_source_and_how_it_was_seen_is_no_row(forgotten, source, seen):
    with pytest.raises(AssertionError):
        held(1.0, 1.0, 0.1, "m", source, seen)


def test_a_row_has_moved_when_anything_but_our_last_digit_is_another():
    row = Row("f", "t", "c", "0.22", "0.2251", "0.0051", "0.0051", "m", "s", "quoted")
    assert not moved(row, row)
    assert not moved(row, Row("f", "t", "c", "0.22", "0.2252", "0.0052", "0.0051", "m", "s", "quoted"))
    assert moved(row, Row("f", "t", "c", "0.22", "0.2253", "0.0053", "0.0051", "m", "s", "quoted"))
    assert moved(row, Row("f", "t", "c", "0.22", "0.2251", "0.0051", "0.01", "m", "s", "quoted"))
    assert moved(row, Row("f", "t", "c", "0.22", "0.2251", "0.0051", "0.0051", "m", "s", "memory"))
