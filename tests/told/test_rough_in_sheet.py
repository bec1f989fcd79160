"""The rough-in sheet of a submittal: who looks when, and the record that stays with the house."""

from __future__ import annotations

from functools import cache

from ask_cases import bare, gas

from underpour.answer import answer
from underpour.brief import reads
from underpour.catalogue.rough_in import looked_at, rough_in
from underpour.papers.gas_sheet import EMPTY_LINES, gas_sheet

LAID = 'system = "fan"\n\n[[soil-gas.suction]]\nat = "4 4"\n\n[soil-gas.pipe]\nsize = "2 in"\n'
PROVED = (
    '\n[[soil-gas.test]]\nkit = "alpha-track"\nlevel = "80 Bq/m³"\ndays = "91 d"\nplace = "cellar"\n'
    '\n[[soil-gas.test]]\nkit = "charcoal"\nlevel = "90 Bq/m³"\ndays = "1 d"\n'
    '\n[[soil-gas.gauge]]\nvacuum = "220 Pa"\ndate = "2026-11-25"\n'
)


@cache
def sheet(text: str):
    return gas_sheet(answer(reads(text)))


def test_every_item_of_the_edition_stands_under_the_point_at_which_it_is_looked_at():
    made = sheet(gas(LAID + PROVED, code="irc-2021"))
    (one,) = made["lists"]
    rows = [(point["label"], row["asked"]) for point in one["points"] for row in point["rows"]]
    labels = {point.key: point.label for point in looked_at()}
    assert [label for label, _ in rows] == sorted((label for label, _ in rows), key=list(labels.values()).index)
    assert len(rows) == len(rough_in("irc-2021"))
    for item in rough_in("irc-2021"):
        assert any(label == labels[item.when] and asked.startswith(item.says[:-1]) for label, asked in rows)


def test_what_is_laid_otherwise_is_told_beside_what_is_asked_and_by_which_clause():
    rows = [r for p in sheet(gas(LAID + PROVED, code="irc-2021"))["lists"][0]["points"] for r in p["rows"]]
    pipe = next(row for row in rows if row["asked"].startswith("A gas-tight pipe"))
    assert "at least" in pipe["asked"] and pipe["told"].endswith("otherwise") and "AF103.5" in pipe["by"]
    lap = next(row for row in rows if "lapped" in row["asked"])
    assert lap["told"] == "seen on site"


def test_the_record_holds_what_was_measured_and_empty_lines_for_what_will_be():
    record = sheet(gas(LAID + PROVED, code="irc-2021"))["record"]
    assert record[0][0] == "Alpha track detector, 91 days, cellar" and record[0][2] == "counts"
    assert record[1][2].startswith("does not count: it hung 1 day,")
    assert record[2][0] == "Gauge, read on 2026-11-25"
    assert record[3:] == [("", "", "")] * EMPTY_LINES


def test_cautions_stand_at_the_head_of_the_sheet():
    cautions = " ".join(sheet(gas(LAID + PROVED, code="irc-2021"))["cautions"])
    assert "lung cancer" in cautions and "Local code" in cautions


def test_a_floor_of_which_nothing_is_said_has_no_sheet():
    assert sheet(bare("dwelling", "raft")) is None
