"""Tables of one product a row, its tests side by side: read, held to their evidence, told by row and column."""

from __future__ import annotations

import csv
import io
import random
import re
from pathlib import Path

import openpyxl
import pytest

from underpour.catalogue.line_file import read_line
from underpour.catalogue.properties import properties
from underpour.cli import main
from underpour.tabled import START, start, taken_from
from underpour.tabled.columns import row_kinds
from underpour.tabled.wide_heading import usual_headings

DAY = ("--date", "2026-11-27")
HEADS = ("key", "name", "kind", "maker.name", "family", "sizes", "thickness", "r-label", "price", "priced",
         "strength [psi] ASTM D1621", "strength [kPa] EN 826", "strength ASTM D1621.certificate", "water (% by volume)",
         "water.method", "water.date", "water.conditions.note", "laboratory", "statistic")  # fmt: skip
ONE = ("b-1", "Board 1", "board", "A maker", "EPS", "4 ft x 8 ft", "1 in; 2 in", "R4.1; R8.1",
       "0.4 USD/ft²; 0.8 USD/ft²", "2026-06-01", "16.4", "113", "C-1", "2.3", "ASTM C272", "2025-03-18", "wet",
       "third party", "each")  # fmt: skip
TWO = ("b-2", "Board 2", "board", "A maker", "EPS", "4 ft x 8 ft", "", "", "9 USD/piece", "", "26.4", "", "", "", "",
       "", "", "", "each")  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def plain(text: str) -> str:
    return " ".join(text.split())


def table(*rows: tuple[str, ...]) -> str:
    made = io.StringIO(newline="")
    csv.writer(made).writerows(rows)
    return made.getvalue()


def with_(column: str, value: str, *, row: int = 1, heading: str = "") -> str:
    """The sound table with one cell changed, or one heading."""
    rows = [list(HEADS), list(ONE), list(TWO)]
    rows[row][HEADS.index(column)] = value
    if heading:
        rows[0][HEADS.index(column)] = heading
        rows[row][HEADS.index(column)] = value
    return table(*map(tuple, rows))


GOOD = table(HEADS, ONE, TWO)


def test_each_number_becomes_a_record_with_its_unit_test_and_what_is_said_of_it():
    made = taken_from(GOOD.encode(), ".csv", wide=True)
    one, two = made.line.product
    assert made.line.maker.name == "A maker"
    assert [(m.thickness.typed, m.r_label.typed, m.price) for m in one.made] == [
        ("1 in", "R4.1", "0.4 USD/ft²"),
        ("2 in", "R8.1", "0.8 USD/ft²"),
    ]
    said = [(e.property, e.value, e.unit, e.method, e.certificate, e.laboratory, e.statistic) for e in one.evidence]
    assert said == [
        ("strength", 16.4, "psi", "ASTM D1621", "C-1", "third party", "each"),
        ("strength", 113.0, "kPa", "EN 826", "", "third party", "each"),
        ("water", 2.3, "% by volume", "ASTM C272", "", "third party", "each"),
    ]
    assert (str(one.evidence[2].date), one.evidence[2].conditions.note) == ("2025-03-18", "wet")
    assert [(e.property, e.value) for e in two.evidence] == [("strength", 26.4)]
    assert (two.made, two.price) == ((), "9 USD/piece")
    assert (made.products, made.rows) == (("row 2", "row 3"), ("row 2", "row 2", "row 2", "row 3"))


@pytest.mark.parametrize("ending", [".csv", ".xlsx"])
def test_the_wide_table_to_begin_with_is_the_long_one(ending):
    long = read_line(START.read_text("utf-8"))
    made = taken_from(start(ending, wide=True), ending, wide=True).line
    (ours,) = made.product
    (theirs,) = long.product
    assert ours == theirs.model_copy(update={"priced": long.priced, "edges": ()})
    assert made.maker == long.maker


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_from_a_wide_table_to_begin_with_to_a_validated_line(ending, folder, capsys):
    assert main(["catalogue", "export", "--start", "--wide", "-o", f"line.{ending}"]) == 0
    assert f"Next: underpour catalogue import line.{ending} --wide -o my-line.toml" in capsys.readouterr().out
    assert main(["catalogue", "validate", f"line.{ending}", "--wide", *DAY]) == 0
    assert "stands for ASTM C578 type II" in plain(capsys.readouterr().out)
    assert main(["catalogue", "import", f"line.{ending}", "--wide", "-o", "my-line.toml"]) == 0
    assert main(["catalogue", "validate", "my-line.toml", *DAY]) == 0


BAD: list[tuple[str, str, tuple[str, ...]]] = [
    # what, the table, what is told
    ("no key", with_("key", ""), ("row 2, column key", "This row names no product.")),
    ("a key that is none", with_("key", "B 1"), ("row 2, column key", "Write b-1, in every row of this product.")),
    ("a key twice", with_("key", "b-1", row=2), ("row 3, column key", "b-1 stands in row 2 already")),
    ("no such kind", with_("kind", "bord"), ("row 2, column kind", "The nearest is board")),
    ("no kind", with_("kind", ""), ("row 2, column kind", "There is no kind.", "For example: board")),
    ("another maker", with_("maker.name", "B maker", row=2),
        ("row 3, column maker.name", "Row 2 says A maker.", "one maker")),
    ("no maker", GOOD.replace("A maker", ""), ("maker.name", "There is no maker.name.")),
    ("no such foam", with_("family", "ESP"), ("row 2, column family", "The nearest is EPS")),
    ("one length", with_("sizes", "4 ft"), ("row 2, column sizes", "Two lengths are wanted")),
    ("a thickness without its unit", with_("thickness", "1; 2"), ("row 2, column thickness", "1 of what?")),
    ("fewer R than thicknesses", with_("r-label", "R4.1"),
        ("row 2, column r-label", "1 stands here, for 2 thicknesses.", "parted by semicolons")),
    ("more prices than thicknesses", with_("price", "1 USD/ft²; 2 USD/ft²; 3 USD/ft²"),
        ("row 2, column price", "3 stand here, for 2 thicknesses.")),
    ("R without a thickness", with_("r-label", "R4", row=2),
        ("row 3, column r-label", "No thickness stands beside it.")),
    ("an empty item", with_("thickness", "1 in;"), ("row 2, column thickness", "An item of this list is empty.")),
    ("a decimal comma", with_(HEADS[10], "16,4"),
        ("row 2, column strength [psi] ASTM D1621", "has a comma in it", "Write 16.4")),
    ("a unit beside the number", with_(HEADS[10], "16.4 psi"),
        ("row 2, column strength [psi] ASTM D1621", "Write 16.4 here; the heading says the unit.")),
    ("words for a number", with_(HEADS[10], "n/a"), ("row 2, column strength [psi]", "This is no number.")),
    ("a number beyond all", with_(HEADS[10], "1e999"), ("row 2, column strength [psi]", "A number is wanted here.")),
    ("a formula", with_(HEADS[10], "=A1"), ("row 2, column strength [psi]", "A formula stands here")),
    ("a day of three numbers", with_("water.date", "03/04/05"), ("row 2, column water.date", "may be 2005-04-03")),
    ("no such laboratory", with_("laboratory", "ours"), ("row 2, column laboratory", "none of the words")),
    ("a certificate of no number", with_(HEADS[12], "C-2", row=2).replace("26.4", ""),
        ("row 3", "No number of strength stands in this row.", "Write it under strength [psi] ASTM D1621")),
    ("what is said of no test", with_(HEADS[10], "", row=2),
        ("row 3, column statistic", "said of the tests of this row, and it has none", "leave this cell empty")),
    ("a space after the words", with_("name", "Board 1 "), ("row 2, column name", "a space after the words")),
    ("a row too long", GOOD + ",".join(["x"] * 20) + "\r\n", ("row 4, column T", "has 20 cells, the heading has 19")),
    ("an empty row", GOOD + "," * 18 + "\r\n" + table(ONE).replace("b-1", "b-3"),
        ("row 4", "This row is empty, and others follow")),
    ("the heading again", GOOD + table(HEADS), ("row 4, column key", "The heading stands here again")),
    ("a unit that is none", with_("water (% by volume)", "2", heading="water [lumps]"),
        ("row 1, column N", "No unit is written lumps.", "1 thing is wrong", "such as % by volume")),
    ("no unit", with_("water (% by volume)", "2", heading="water []"), ("row 1, column N", "No unit stands in")),
    ("a property without its unit", with_("water (% by volume)", "2", heading="water"),
        ("row 1, column N", "Is it water (water absorption by total immersion)? Write water [% by volume] and")),
    ("a heading of one's own", with_("water (% by volume)", "2", heading="Water absorption (%)"),
        ("row 1, column N", "Is it water", "Write water [%] and the test of its report, such as ASTM C272.")),
    ("the trade's name of a test", with_("water (% by volume)", "2", heading="Compressive Strength (kPa), EN 826"),
        ("row 1, column N", "Write strength [kPa] EN 826.")),
    ("a heading of one's own for a column", with_("name", "Board 1", heading="Trade name"),
        ("row 1, column B", "Is it name? Write name, its cells like Marlpit Plain 15.")),
    ("a heading that means nothing here", with_("name", "red", heading="Xyzzy"),
        ("row 1, column B", "Take the column out, or write one of ours")),
    ("a heading twice", with_("name", "x", heading="kind"), ("row 1, column C", "Two columns have the heading kind.")),
    ("a test twice", with_("water (% by volume)", "2", heading="strength [psi] ASTM D1621"),
        ("row 1, column N", "Two columns have this heading.")),
    ("a column of no test", with_("water (% by volume)", "2", heading="density [lb/ft³] ASTM D1622"),
        ("row 1, column O", "No column holds the numbers of water.")),
    ("a column of two tests", with_(HEADS[12], "C-1", heading="strength.certificate"),
        ("row 1, column M", "2 columns hold numbers of strength",
         "Write strength ASTM D1621.certificate or strength EN 826.certificate.")),
    ("what no test says", with_(HEADS[12], "C-1", heading="water.certificat"),
        ("row 1, column M", "A test says nothing that is called certificat.", "The nearest is certificate.")),
    ("no heading", with_(HEADS[12], "C-1", heading=" ").replace(", ,", ",,", 1),
        ("row 1, column M", "no heading, and row 2 says something")),
    ("a heading that is a formula", with_("name", "x", heading="=A1"), ("row 1, column B", "A heading is a word.")),
    ("no column key", table(HEADS[1:], ONE[1:]), ("There is no column key.", "For example: plain-15")),
    ("no column kind", table((*HEADS[:2], *HEADS[3:]), (*ONE[:2], *ONE[3:])), ("There is no column kind.",)),
    ("a long table", START_CSV if (START_CSV := start(".csv").decode()) else "",
        ("row 1, column A", "says of each row what it is", "Leave out --wide.")),
    ("a heading alone", table(HEADS), ("There is no product row.",)),
    ("nothing", "", ("row 1", "The table is empty.")),
    ("three mistakes", with_("kind", "bord").replace("16.4", "x").replace("26.4", "y"),
        ("3 things are wrong", "row 2, column kind", "row 3, column strength [psi]")),
]  # fmt: skip


@pytest.mark.parametrize(("content", "words"), [bad[1:] for bad in BAD], ids=[bad[0] for bad in BAD])
def test_a_wide_table_that_cannot_be_used_is_told_and_nothing_is_written(content, words, folder, capsys):
    (folder / "line.csv").write_bytes(content.encode())
    before = contents(folder)
    assert main(["catalogue", "import", "line.csv", "--wide", "-o", "line.toml"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "line.csv  " in told.err
    for each in words:
        assert plain(each) in plain(told.err), told.err
    assert contents(folder) == before
    assert main(["catalogue", "validate", "line.csv", "--wide"]) == 2
    assert plain(words[-1]) in plain(capsys.readouterr().err) or "things are wrong" in words[0]
    assert contents(folder) == before


def test_the_table_that_is_spoilt_here_is_sound(folder, capsys):
    (folder / "line.csv").write_text(GOOD, "utf-8")
    assert main(["catalogue", "import", "line.csv", "--wide", "-o", "line.toml"]) == 0
    assert "2 products of A maker with 4 test records" in capsys.readouterr().out


def test_a_workbook_of_two_sheets_is_no_wide_table(folder, capsys):
    assert main(["catalogue", "export", "--start", "-o", "long.xlsx"]) == 0
    assert main(["catalogue", "import", "long.xlsx", "--wide", "-o", "line.toml"]) == 2
    assert "stands on one sheet" in capsys.readouterr().err


def test_a_number_stored_as_text_in_a_workbook_is_told_at_its_cell(folder, capsys):
    assert main(["catalogue", "export", "--start", "--wide", "-o", "line.xlsx"]) == 0
    book = openpyxl.load_workbook("line.xlsx")
    column = next(cell.column_letter for cell in book.active[1] if cell.value.startswith("strength ["))
    book.active[f"{column}2"] = "16.4"
    book.save("line.xlsx")
    assert main(["catalogue", "import", "line.xlsx", "--wide", "-o", "line.toml"]) == 2
    assert f"products!{column}2, column strength [psi] ASTM D1621" in capsys.readouterr().err


def test_a_wide_table_without_the_word_is_told_which_word(folder, capsys):
    (folder / "line.csv").write_text(GOOD, "utf-8")
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 2
    assert "A table of one product a row is read with --wide." in plain(capsys.readouterr().err)


def test_what_does_not_hold_is_told_by_the_row_of_the_wide_table(folder, capsys):
    (folder / "line.csv").write_text(GOOD.replace("16.4", "-16.4"), "utf-8")
    assert main(["catalogue", "validate", "line.csv", "--wide", *DAY]) == 1
    told = plain(capsys.readouterr().out)
    assert "falls short: Compressive strength (row 2)" in told
    assert "(row 3)" in told and "line " not in told


def test_only_a_table_is_wide(folder, capsys):
    (folder / "line.toml").write_text(START.read_text("utf-8"), "utf-8")
    assert main(["catalogue", "validate", "line.toml", "--wide"]) == 2
    assert "Only a table can be wide." in capsys.readouterr().err
    assert main(["catalogue", "export", "line.toml", "--wide", "-o", "x.csv"]) == 2
    assert "Leave out --wide, or add --start." in capsys.readouterr().err
    assert not (folder / "x.csv").exists()


def test_each_heading_that_is_usual_means_a_column_or_a_property_that_there_is():
    kinds = row_kinds()
    known = {"key", *properties(), *(name for kind in kinds.values() for name in kind.columns)}
    assert set(usual_headings().values()) <= known
    assert all(word == word.casefold() for word in usual_headings())


# ---- seeded faults ----

SPOIL = {
    "decimal comma": lambda cell, chance: cell.replace(".", ",") if re.fullmatch(r"\d+\.\d+", cell) else None,
    "unit beside": lambda cell, chance: f"{cell} kPa" if re.fullmatch(r"[\d.]+", cell) else None,
    "no break": lambda cell, chance: f"{cell}\u00a0" if cell else None,
    "formula": lambda cell, chance: f"=A{chance.randint(1, 9)}" if cell else None,
    "day by month": lambda cell, chance: "03/04/05" if re.fullmatch(r"\d{4}-\d\d-\d\d", cell) else None,
    "control": lambda cell, chance: f"{cell}\x07" if cell else None,
    "thousands": lambda cell, chance: f"1,{cell}" if re.fullmatch(r"\d{3}", cell) else None,
}


@pytest.mark.parametrize("seeds", [range(1, 101), range(501, 601)], ids=["1 to 100", "501 to 600"])
def test_each_of_200_seeded_faults_is_told_with_its_row_and_column(seeds):
    for seed in seeds:
        chance = random.Random(seed)
        rows = [list(HEADS), *([f"b-{n}", *ONE[1:]] for n in range(1, 9))]
        places = [
            (spoil, row, at)
            for name, spoil in SPOIL.items()
            for row in range(1, 9)
            for at in range(len(HEADS))
            if spoil(rows[row][at], random.Random(0)) is not None
        ]
        spoil, row, at = chance.choice(places)
        rows[row][at] = spoil(rows[row][at], chance)
        with pytest.raises(Exception) as told:
            taken_from(table(*map(tuple, rows)).encode(), ".csv", wide=True)
        assert f"row {row + 1}, column {HEADS[at]}" in str(told.value), (seed, rows[row][at], str(told.value))
