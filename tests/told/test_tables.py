"""``underpour catalogue import`` and ``export``: what they say, what they end with, what they leave as it was."""

from __future__ import annotations

import csv
import datetime
import io
import re
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.comments import Comment

from underpour.catalogue.line_file import read_line
from underpour.catalogue.products import SHIPPED
from underpour.cli import main
from underpour.tabled import START, table_of

DAY = ("--date", "2026-11-27")
START_LINE = read_line(START.read_text("utf-8"))
FEW = ("row", "key", "maker.name", "priced", "name", "kind", "sizes", "price", "thickness", "property", "value", "unit",
       "method", "date", "to-order")  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def contents(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in folder.rglob("*") if path.is_file()}


def plain(text: str) -> str:
    return " ".join(text.split())


def few(*rows: str, heading: tuple[str, ...] = FEW) -> str:
    """A small table: rows as "evidence b-1 property=strength value=16.4"."""
    made = io.StringIO(newline="")
    written = csv.writer(made)
    written.writerow(heading)
    for row in rows:
        word, key, *said = re.split(r"\s*\|\s*", row)
        cells = dict(each.split("=", 1) for each in said)
        assert set(cells) <= set(heading), row
        written.writerow([word, key, *(cells.get(name, "") for name in heading[2:])])
    return made.getvalue()


LINE = "line||maker.name=A maker|priced=2026-06-01"
BOARD = "product|b-1|name=Board 1|kind=board|sizes=4 ft x 8 ft"
TEST = "evidence|b-1|property=strength|value=16.4|unit=psi|method=ASTM D1621|date=2025-03-18"
GOOD = few(LINE, BOARD, "made|b-1|thickness=2 in", TEST)


def was(old: str, new: str) -> bytes:
    assert GOOD.count(old) == 1, old
    return GOOD.replace(old, new).encode()


BAD_CSV: list[tuple[str, bytes | str, tuple[str, ...]]] = [
    # what, the file, what is told
    ("an empty file", b"", ("row 1", "The table is empty.")),
    ("empty rows only", ",,\r\n,,\r\n", ("row 1", "The table is empty.")),
    ("an empty first row", "\r\n" + GOOD, ("row 1, column A", "The first row is empty.", "1 thing is wrong")),
    ("empty cells before the heading", "," * 14 + "\r\n" + GOOD, ("row 1, column A", "The first row is empty.")),
    ("a heading alone", ",".join(FEW), ("There is no line row.",)),
    ("a text that is no table", "Dear desk,\nhere is our line.\n", ("row 1", "not the heading of a product table")),
    ("UTF-16", GOOD.encode("utf-16"), ("row 1", "The text is UTF-16.", "CSV in UTF-8")),
    ("Latin-1", few(LINE, BOARD, TEST.replace("psi", "lb/ft²")).encode("latin-1"),
        ("row 4, column L", 'lb/ft²', "may be Latin-1", "CSV in UTF-8")),
    ("NUL bytes", was("Board 1", "Board\0 1"), ("row 3, column E", "(NUL)")),
    ("semicolons", GOOD.replace(",", ";"), ("row 1, column A", "parted by semicolons; commas are wanted")),
    ("tabs", GOOD.replace(",", "\t"), ("row 1, column A", "parted by tabs")),
    ("a workbook named CSV", table_of(START_LINE, ".xlsx"), ("This is a workbook", "End its name with .xlsx")),
    ("a quote not closed", was("Board 1", '"Board 1'), ("row 3, column name", "opened here and not closed")),
    ("a quote closed by a later one", was("Board 1", '"Board 1').replace(b"ASTM D1621", b'"ASTM D1621"'),
        ("row 3, column name", "opened here and closed 2 lines further on", "1 thing is wrong")),
    ("two marks at the head", b"\xef\xbb\xbf\xef\xbb\xbf" + GOOD.encode(), ("row 1, column A", "1 thing is wrong")),
    ("a quote within a cell", was("Board 1", '"4" board"'),
        ("row 3, column name", "After the closing quote stands  ", 'written twice')),
    ("a shifted column", was("strength,16.4,psi,ASTM D1621,2025-03-18,", "strength,,16.4,psi,ASTM D1621,2025-03-18"),
        ("row 5, column date", "ASTM D1621", "From column value on", "too far to the right")),
    ("shifted to the left", was("strength,16.4,psi,ASTM D1621,2025-03-18,", "16.4,psi,ASTM D1621,2025-03-18,,"),
        ("row 5, column property", "From column property on", "too far to the left")),
    ("a unit in the heading", was(",value,", ",value [psi],"),
        ("row 1, column K", "A unit (psi) stands in the heading", "Write value.", "under unit: psi")),
    ("a unit in the heading of a measure", was(",thickness,", ",thickness_in,"),
        ("row 1, column I", "A unit (in)", "Write thickness.", "beside its number: 2 in")),
    ("a property as a column", was(",to-order", ",strength"),
        ("row 1, column O", "strength is a property, not a column", "row of its own")),
    ("a wide table", "Product,Thickness (in),Strength (psi)\nPlain,2,16.4\n",
        ("row 1, column A", "not the heading of a product table", "underpour catalogue export --start -o my")),
    ("row in capitals", GOOD.replace("row,key", "Row,Key", 1),
        ("row 1, column A", "The nearest is row", "2 things are wrong")),
    ("an unknown column", was(",method,", ",metod,"),
        ("row 1, column M", "No column is called metod", "The nearest is method")),
    ("a missing heading", was(",method,", ",,"), ("row 1, column M", "no heading, and row 5 says something")),
    ("no column key", GOOD.replace(",key,", ",,"), ("There is no column key",)),

           ("no column that a kind needs", few(LINE, "product|b-1|name=Board 1", heading=("row", "key", "maker.name",
         "priced", "name")),
        ("row 1", "There is no column kind, and no product row stands without it.", "For example: board")),
    ("the heading again", GOOD + GOOD.splitlines(keepends=True)[0],
        ("row 6, column row", "The heading stands here again")),
    ("a heading twice", was(",method,", ",unit,"), ("row 1, column M", "Two columns have the heading unit")),
    ("an empty row", GOOD.replace("made,", "," * (len(FEW) - 1) + "\r\nmade,", 1),
        ("row 4, column row", "This row is empty, and others follow")),
    ("a row too long", was("2025-03-18,", "2025-03-18,,x"), ("row 5, column P", "has 16 cells, the heading has 15")),
    ("a row too short", was(",2025-03-18,", ""), ("row 5, column date", "has 13 cells, the heading has 15")),
    ("a decimal comma", was("16.4", '"16,4"'), ('row 5, column value = "16,4"', "has a comma in it", "Write 16.4")),
    ("a decimal comma without quotes", was("16.4", "16,4"), ("row 5", "16,4 reads as two cells", "write 16.4")),
    ("a decimal comma in a measure", was("2 in", '"1,5 in"'), ("row 4, column thickness", "Write 1.5 in.")),
    ("thousands", was("16.4", '"1,000"'), ("row 5, column value", "1,000 has a comma")),
    ("thousands by spaces", was("16.4", "1 000"), ("row 5, column value", "1 000 has a space in it", "Write 1000")),
    ("a unit beside the number", was("16.4", "16.4 psi"),
        ("row 5, column value", "Write 16.4 here, and psi under unit.")),
    ("words for a number", was("16.4", "n/a"), ("row 5, column value", "This is no number.")),
    ("a number beyond all", was("16.4", "1e999"), ("row 5, column value", "A number is wanted here.")),
    ("a measure without its unit", was("2 in", "2"), ("row 4, column thickness", "2 of what?")),
    ("one length for a size", was("4 ft x 8 ft", "4 ft"), ("row 3, column sizes", "Two lengths are wanted")),
    ("an item that is empty", was("4 ft x 8 ft", "4 ft x 8 ft;"),
        ("row 3, column sizes", "An item of this list is empty.")),
    ("a day of three numbers", was("2025-03-18", "03/04/05"),
        ("row 5, column date", "03/04/05 may be 2005-04-03, 2005-03-04 or 2003-04-05.")),
    ("a day by month", was("2025-03-18", "18.3.2025"), ("row 5, column date", "Write 2025-03-18.")),
    ("a year as a number", was("2025-03-18", "2025"), ("row 5, column date", "2025 is a year; a day is wanted.")),
    ("a count of days", was("2025-03-18", "45734"),
        ("row 5, column date", "A number stands here, where a day is wanted")),
    ("no such day", was("2025-03-18", "2025-02-30"), ("row 5, column date", "There is no such day in the calendar")),
    ("a day with a time", was("2025-03-18", "2025-03-18 00:00:00"), ("row 5, column date", "Write 2025-03-18.")),
    ("a formula", was("16.4", "=B2*2"), ("row 5, column value = =B2*2", "A formula stands here")),
    ("a formula for words", was("Board 1", "=HYPERLINK(A1)"),
        ("row 3, column name", "A formula stands here", "apostrophe before it")),
    ("a duplicate id", GOOD + BOARD_AGAIN if (BOARD_AGAIN := "product,b-1,,,Board 2,board,,,,,,,,,\r\n") else "",
        ("row 6, column key", "b-1 stands in row 3 already", "another key")),
    ("evidence of no product", was("evidence,b-1", "evidence,b-11"),
        ("row 5, column key", "No product row has the key b-11.", "The nearest is b-1")),
    ("merged cells, saved as CSV", was("evidence,b-1", "evidence,"),
        ("row 5, column key", "names no product", "merged")),
    ("no such kind of row", was("evidence,b-1", "tests,b-1"), ("row 5, column row", "No kind of row is called tests")),
    ("a row that does not say what it is", was("evidence,b-1", ",b-1"),
        ("row 5, column row", "does not say what it is")),
    ("a cell of another kind of row", was("made,b-1,,,,,,,", "made,b-1,,,Board,,,,"),
        ("row 4, column name", "A made row has no name; a product row has")),
    ("a space after the words", was("ASTM D1621", "ASTM D1621 "),
        ("row 5, column method", "a space after the words", "Write ASTM D1621.")),
    ("a space that does not break", was("ASTM D1621", "ASTM\u00a0D1621"),
        ("row 5, column method", "ASTM\\u00a0D1621", "does not break", "Write ASTM D1621.")),
    ("a byte-order mark within", was("evidence", "\ufeffevidence"), ("row 5, column row", "The nearest is evidence")),
    ("UTF-8 opened as another alphabet", was("Board 1", "Board 1 Â²"),
        ("row 3, column name", "saved in one alphabet and opened in another", "Board 1 ²")),
    ("a key that is none", GOOD.replace("b-1", "B 1"),
        ("row 3, column key", "lower-case letters", "Write b-1, in every row of this product.")),
    ("evidence of no product that is wrong beside",
        few(LINE, BOARD, TEST.replace("b-1", "c-9").replace("strength", "x")),
        ("row 4, column key", "row 4, column property", "2 things are wrong")),
    ("a duplicate id that is wrong beside", few(LINE, BOARD, BOARD.replace("4 ft x 8 ft", "4 ft")),
        ("row 4, column key", "row 4, column sizes", "2 things are wrong")),
    ("no such property", was("strength", "strenth"), ("row 5, column property", "The nearest is strength")),
    ("no such kind of product", was("board", "bord"), ("row 3, column kind", "The nearest is board")),
    ("neither yes nor no", was("2025-03-18,", "2025-03-18,x").replace(b"evidence,b-1,,,,,,,,", b"edges,b-1,,,,,,,,"),
        ("row 5, column to-order", "Yes or no is wanted")),
    ("two line rows", GOOD + GOOD.splitlines(keepends=True)[1],
        ("row 6", "The line stands in row 2 already", "one maker")),
    ("no line row", GOOD.replace(GOOD.splitlines(keepends=True)[1], ""),
        ("row 1", "There is no line row.", "maker.name")),
    ("a line row with a key", was("line,", "line,b-1"), ("row 2, column key", "belongs to no product")),
    ("no product row", few(LINE), ("row 1", "There is no product row.")),
    ("no maker's name", was("A maker", ""), ("row 2, column maker.name", "There is no maker.name.", "For example")),
    ("something else wrong with each row", GOOD.replace("2 in", "2").replace("16.4", "x").replace("A maker", ""),
        ("3 things are wrong", "row 2", "row 4", "row 5")),
    ("too large", b"row,key\r\n" + b"x" * 20_000_000, ("larger than 20 MB",)),
]  # fmt: skip


@pytest.mark.parametrize(("content", "words"), [bad[1:] for bad in BAD_CSV], ids=[bad[0] for bad in BAD_CSV])
def test_a_table_that_cannot_be_used_is_told_and_nothing_is_written(
    content: bytes | str, words: tuple[str, ...], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "line.csv").write_bytes(content if isinstance(content, bytes) else content.encode())
    held(folder, "line.csv", words, capsys)


def held(folder: Path, table: str, words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    before = contents(folder)
    status = main(["catalogue", "import", table, "-o", "line.toml"])
    told = capsys.readouterr()
    assert status == 2, told.err
    assert told.out == ""
    assert table in told.err
    for each in words:
        assert plain(each) in plain(told.err)
    assert "Traceback" not in told.err
    assert contents(folder) == before


Spoil = Callable[[Any], object]


def put(sheet: str, at: str, value: object, form: str = "") -> Spoil:
    def made(book: Any) -> None:
        book[sheet][at] = value
        book[sheet][at].number_format = form or book[sheet][at].number_format

    return made


def hide(book: Any, *, sheet: str = "", row: int = 0, column: str = "") -> None:
    if row:
        book[sheet].row_dimensions[row].hidden = True
    elif column:
        book[sheet].column_dimensions[column].hidden = True
    else:
        book[sheet].sheet_state = "hidden"


BAD_BOOKS: list[tuple[str, Spoil, tuple[str, ...]]] = [
    ("merged cells", lambda book: book["evidence"].merge_cells("B2:B4"),
        ("evidence!B2", "The cells B2:B4 are merged", "1 thing is wrong")),
    ("a formula without a stored value", put("evidence", "D2", "=B2*2"),
        ("evidence!D2, column value = =B2*2", "What it gave is not stored")),
    ("a number stored as text", put("evidence", "D2", "4.07"),
        ("evidence!D2, column value", "stored as text", "whole column at once")),
    ("text as a number", put("evidence", "O2", 4711), ("evidence!O2, column certificate = 4711", "noughts in front")),
    ("a year as a number", put("evidence", "M2", 2025, "General"),
        ("evidence!M2, column date", "2025 is a year; a day is wanted")),
    ("a year in a cell of days", put("evidence", "M2", 2025),
        ("evidence!M2, column date", "1905-07-17", "a year typed alone")),
    ("a count of days", put("evidence", "M2", 45734, "General"), ("evidence!M2, column date", "where a day is wanted")),
    ("a day with a time", put("evidence", "M2", datetime.datetime(2025, 3, 18, 9, 30)),
        ("evidence!M2", "A time of day")),
    ("a day for words", put("product", "B2", datetime.datetime(2026, 1, 2)),
        ("product!B2", "A key is a word", "Make the cell a text")),
    ("a day for a method", put("evidence", "F2", datetime.datetime(2026, 1, 2)),
        ("evidence!F2, column method", "takes words such as 1-2 for one")),
    ("a time of day for a unit", put("evidence", "E2", datetime.time(9, 30)),
        ("evidence!E2, column unit = 09:30:00", "A time stands here, where words are wanted")),
    ("a number for a word to choose", put("product", "D2", 0.3), ("product!D2, column kind", "0.3 is none of")),
    ("yes for a number", put("evidence", "D2", True), ("evidence!D2, column value = TRUE", "where a number is wanted")),
    ("a decimal comma", put("evidence", "D2", "4,07"), ("evidence!D2, column value", "Write 4.07")),
    ("what a spreadsheet shows for no value", put("evidence", "D2", "#REF!"),
        ("evidence!D2, column value = #REF!", "it has no value")),
    ("a measure without its unit", put("made", "D2", 2), ("made!D2, column thickness = \"2\"", "2 of what?")),
    ("a space that does not break", put("evidence", "F2", "ASTM\u00a0C518"),
        ("evidence!F2, column method", "does not break")),
    ("a heading with its unit", put("evidence", "D1", "value (psi)"), ("evidence!D1", "A unit (psi)", "Write value.")),
    ("a heading that is a number", put("evidence", "D1", 4), ("evidence!D1 = 4", "A heading is a word")),
    ("a heading that is a formula", put("evidence", "D1", "=A1"), ("evidence!D1", "A formula stands in the heading")),
    ("a hidden sheet", lambda book: hide(book, sheet="evidence"), ("evidence!A1", "The sheet evidence is hidden")),
    ("hidden rows", lambda book: [hide(book, sheet="evidence", row=n) for n in (3, 4)],
        ("evidence!A3", "Rows 3 to 4 are hidden")),
    ("a hidden column", lambda book: hide(book, sheet="evidence", column="D"), ("evidence!D1", "Column D is hidden")),
    ("an empty row", lambda book: book["evidence"].insert_rows(4),
        ("evidence!A4", "This row is empty, and others follow")),

           ("two tables on a sheet",
         lambda book: book["made"].append([]) or book["made"].append([]) or book["made"].append(["row", "key", "name"]),
        ("made!A4", "This row is empty")),
    ("a second table beside", put("made", "H1", "Total"), ("made!H1", "No column is called Total")),
    ("a sheet of other things", lambda book: book.create_sheet("Notes").append(["ask Ana"]),
        ("Notes!A1", "not the heading of a product table")),
    ("a cell far away", put("made", "XFD9", "x"), ("made!XFD9", "reaches as far as XFD9", "500 columns")),
    ("evidence of no product", put("evidence", "B3", "my-board-51"),
        ("evidence!B3, column key", "The nearest is my-board-15")),
    ("an empty first row", lambda book: book["made"].insert_rows(1), ("made!A1", "The first row is empty")),
    ("nothing in it", lambda book: [each.delete_rows(1, 99) for each in book], ("The workbook is empty",)),
]  # fmt: skip


@pytest.mark.parametrize(("spoil", "words"), [bad[1:] for bad in BAD_BOOKS], ids=[bad[0] for bad in BAD_BOOKS])
def test_a_workbook_that_cannot_be_used_is_told_by_sheet_and_cell(
    spoil: Spoil, words: tuple[str, ...], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book = openpyxl.load_workbook(io.BytesIO(table_of(START_LINE, ".xlsx")))
    spoil(book)
    book.save(folder / "line.xlsx")
    held(folder, "line.xlsx", words, capsys)


OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


def spoilt_bytes() -> list[tuple[str, bytes, tuple[str, ...]]]:
    """Files that are no workbook, or a dangerous one."""
    sound = table_of(START_LINE, ".xlsx")
    return [
        ("not a workbook", b"row,key\r\n", ("damaged and cannot be read",)),
        ("nothing at all", b"", ("damaged and cannot be read",)),
        ("cut off", sound[: len(sound) // 2], ("damaged and cannot be read", "save it anew")),
        ("another archive", packed({"a.txt": b"a"}), ("This is not a workbook",)),
        ("a part that is missing", packed({"xl/workbook.xml": b"<x/>"}), ("damaged and cannot be read",)),
        ("a sheet that is spoilt", repacked(sound, "xl/worksheets/sheet5.xml", lambda part: part[: len(part) // 2]),
         ("damaged and cannot be read",)),
        ("bytes that are changed", sound.replace(sound[200:220], b"x" * 20), ("damaged and cannot be read",)),
        ("locked with a password", OLE + b"\0" * 600 + "EncryptedPackage".encode("utf-16-le"),
         ("locked with a password", "without a password")),
        ("the older kind", OLE + b"\0" * 600, ("of the older kind (.xls)",)),
        ("an archive that unpacks without end", packed({"xl/workbook.xml": b"\0" * 100_000_001}),
         ("unpacks to more than 100 MB",)),
        ("entities that grow", repacked(sound, "xl/workbook.xml", with_entities), ("declares a document type",)),
        ("too large", b"PK\x03\x04" + b"\0" * 20_000_000, ("larger than 20 MB",)),
    ]  # fmt: skip


def packed(parts: dict[str, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as target:
        for name, part in parts.items():
            target.writestr(name, part)
    return made.getvalue()


def repacked(book: bytes, name: str, spoil: Callable[[bytes], bytes]) -> bytes:
    with zipfile.ZipFile(io.BytesIO(book)) as was:
        parts = {each: was.read(each) for each in was.namelist()}
    return packed({**parts, name: spoil(parts[name])})


def with_entities(part: bytes) -> bytes:
    grown = b'<!DOCTYPE a [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'
    return part.replace(b"?>", b"?>" + grown, 1)


SPOILT = spoilt_bytes()


@pytest.mark.parametrize(("content", "words"), [bad[1:] for bad in SPOILT], ids=[bad[0] for bad in SPOILT])
def test_what_is_no_sound_workbook_is_told(
    content: bytes, words: tuple[str, ...], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "line.xlsx").write_bytes(content)
    held(folder, "line.xlsx", words, capsys)


def test_a_formula_with_a_stored_value_is_told_with_it(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sound = table_of(START_LINE, ".xlsx")
    number = re.compile(rb'(<c r="D3"[^>]*>)<v>16.4</v>')
    made = repacked(sound, "xl/worksheets/sheet5.xml", lambda part: number.sub(rb"\1<f>8.2*2</f><v>16.4</v>", part))
    (folder / "line.xlsx").write_bytes(made)
    held(folder, "line.xlsx", ("evidence!D3, column value = =8.2*2", "It last gave 16.4."), capsys)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["import"], "Which table?"),
        (["import", "line.csv"], "Where to?"),
        (["import", "lines.csv", "-o", "x.toml"], "The nearest is line.csv."),
        (["import", "none", "-o", "x.toml"], "A table is read from CSV or XLSX."),
        (["import", "line.ods", "-o", "x.toml"], "Save it as .xlsx."),
        (["import", "line.toml", "-o", "x.toml"], "underpour catalogue export line.toml"),
        (["import", "folder.csv", "-o", "x.toml"], "That is a folder; a table is wanted."),
        (["import", "line.csv", "-o", "x.csv"], "End the name with .toml."),
        (["import", "line.csv", "-o", "line.toml"],
         "it stays as it is. Write to another name, or write over it with --over."),
        (["import", "line.csv", "-o", "gone/x.toml"], "There is no folder gone."),
        (["import", "line.csv", "--ovr", "-o", "x.toml"], "--over"),
        (["export"], "Where to?"),
        (["export", "-o", "x.pdf"], "What is written here is CSV or XLSX."),
        (["export", "none.toml", "-o", "x.csv"], "There is no such file or folder."),
        (["export", "lines", "-o", "x.csv"],
         "A table holds one line, and there are several here. Name one of a.toml, b.toml."),
        (["export", "--start", "line.toml", "-o", "x.csv"], "Leave out one of the two."),
        (["export", "spoilt.toml", "-o", "x.csv"], "spoilt.toml:1"),
        (["exprt", "-o", "x.csv"], "Did you mean export?"),
    ],
)  # fmt: skip
def test_words_that_cannot_be_used_are_told(
    words: list[str], told: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "line.csv").write_bytes(table_of(START_LINE, ".csv"))
    (folder / "line.toml").write_text(START.read_text("utf-8"), "utf-8")
    (folder / "spoilt.toml").write_text("[", "utf-8")
    (folder / "folder.csv").mkdir()
    (folder / "lines").mkdir()
    for name in "ab":
        (folder / "lines" / f"{name}.toml").write_text(START.read_text("utf-8"), "utf-8")
    before = contents(folder)
    assert main(["catalogue", *words]) == 2
    assert plain(told) in plain(capsys.readouterr().err)
    assert contents(folder) == before


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_from_a_table_to_begin_with_to_a_validated_line(
    ending: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["catalogue", "export", "--start", "-o", f"line.{ending}"]) == 0
    assert f"Next: underpour catalogue import line.{ending} -o my-line.toml" in capsys.readouterr().out
    assert main(["catalogue", "import", f"line.{ending}", "-o", "my-line.toml"]) == 0
    told = capsys.readouterr().out
    assert "1 product of Write the maker's name here with 6 test records, in my-line.toml." in told
    assert "Next: underpour catalogue validate my-line.toml" in told
    assert main(["catalogue", "validate", "my-line.toml", *DAY]) == 0
    assert "my-board-15 My board 15: stands for ASTM C578 type II" in plain(capsys.readouterr().out)
    assert main(["catalogue", "import", f"line.{ending}", "-o", "my-line.toml", "--over"]) == 0


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_the_shipped_line_is_exported_where_none_is_named(
    ending: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["catalogue", "export", "-o", f"line.{ending}"]) == 0
    assert "products of Marlpit Board Works" in capsys.readouterr().out
    assert main(["catalogue", "import", f"line.{ending}", "-o", "line.toml"]) == 0
    assert read_line((folder / "line.toml").read_text("utf-8")) == read_line(SHIPPED.read_text("utf-8"))


def test_a_mark_at_the_head_is_read_over_and_said(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "line.csv").write_bytes(b"\xef\xbb\xbf" + GOOD.encode())
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 0
    assert "begins with a byte-order mark (row 1, column A)" in capsys.readouterr().out


def test_notes_on_cells_are_left_behind_and_said(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    book = openpyxl.load_workbook(io.BytesIO(table_of(START_LINE, ".xlsx")))
    for cell in ("D2", "D3"):
        book["evidence"][cell].comment = Comment("ask Ana", "A")
    book.save(folder / "line.xlsx")
    assert main(["catalogue", "import", "line.xlsx", "-o", "line.toml"]) == 0
    assert "A note on a cell is no record, and was left behind: evidence!D2, evidence!D3." in capsys.readouterr().out


def test_the_table_that_is_spoilt_here_is_sound(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "line.csv").write_text(GOOD, "utf-8")
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 0, capsys.readouterr().err


def test_rows_and_columns_may_stand_in_any_order(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rows = list(csv.reader(io.StringIO(table_of(START_LINE, ".csv").decode(), newline="")))
    heading, *others = [row[::-1] for row in rows]
    made = io.StringIO(newline="")
    csv.writer(made).writerows([heading, *others[6:], *others[:6]])
    (folder / "line.csv").write_text(made.getvalue(), "utf-8", newline="")
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 0, capsys.readouterr().err
    assert read_line((folder / "line.toml").read_text("utf-8")) == START_LINE


def test_a_csv_that_a_spreadsheet_saved_as_one_sheet_is_read(folder: Path) -> None:
    """Numbers and days are typed there, and empty cells are gone."""
    book = openpyxl.Workbook()
    for row in csv.reader(io.StringIO(table_of(START_LINE, ".csv").decode(), newline="")):
        typed: list[object] = []
        for cell in row:
            if re.fullmatch(r"\d+(\.\d+)?", cell):
                typed.append(float(cell))
            elif re.fullmatch(r"\d{4}-\d\d-\d\d", cell):
                typed.append(datetime.datetime.fromisoformat(cell))
            else:
                typed.append(cell or None)
        book.active.append(typed)
    book.save(folder / "line.xlsx")
    assert main(["catalogue", "import", "line.xlsx", "-o", "line.toml"]) == 0
    assert read_line((folder / "line.toml").read_text("utf-8")) == START_LINE


def test_the_same_mistake_of_many_rows_is_told_once_with_all_of_them(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book = openpyxl.load_workbook(io.BytesIO(table_of(START_LINE, ".xlsx")))
    for row in range(2, 8):
        book["evidence"].cell(row, 4).value = str(book["evidence"].cell(row, 4).value)
    book.save(folder / "line.xlsx")
    held(folder, "line.xlsx", ("1 thing is wrong", "evidence!D2", "The same in rows 3 to 7."), capsys)


WANTING = [
    ("a property without method", TEST.replace("|method=ASTM D1621", ""), "no test by its number"),
    ("a property without unit", TEST.replace("|unit=psi", ""), "no unit"),
    ("a price in no currency", TEST + "\nmade|b-1|thickness=3 in|price=0.74 /ft²", "currency"),
    ("an expired certificate", TEST, "expired"),
]


@pytest.mark.parametrize(("rows", "words"), [each[1:] for each in WANTING], ids=[each[0] for each in WANTING])
def test_what_can_be_read_but_does_not_hold_is_imported_and_told_by_validate(
    rows: str, words: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    heading = (*FEW, "expires")
    rows = rows.replace("date=2025-03-18", "date=2025-03-18|expires=2026-03-18") if words == "expired" else rows
    (folder / "line.csv").write_text(few(LINE, BOARD, *rows.split("\n"), heading=heading), "utf-8", newline="")
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 0, capsys.readouterr().err
    assert main(["catalogue", "validate", "line.toml", *DAY]) == 1
    assert words in plain(capsys.readouterr().out)


def test_a_price_without_a_day_is_imported_and_told_by_validate(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table = few(LINE.replace("|priced=2026-06-01", ""), BOARD, "made|b-1|thickness=2 in|price=0.74 USD/ft²")
    (folder / "line.csv").write_text(table, "utf-8", newline="")
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 0
    assert main(["catalogue", "validate", "line.toml", *DAY]) == 1
    assert "day" in plain(capsys.readouterr().out)


def test_a_disk_that_is_full_leaves_nothing_behind(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / "line.csv").write_text(GOOD, "utf-8")
    before = contents(folder)

    def full(self: Path, content: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 2
    assert "No space left on device" in capsys.readouterr().err
    assert contents(folder) == before


def test_a_csv_needs_no_library_for_workbooks(folder: Path) -> None:
    (folder / "line.csv").write_text(GOOD, "utf-8")
    ask = "import sys; from underpour.cli import main; main(['catalogue', 'import', 'line.csv', '-o', 'line.toml']); "
    ask += "print('loaded', *[name for name in ('openpyxl', 'xlsxwriter', 'numpy') if name in sys.modules])"
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True).stdout
    assert told.splitlines()[-1] == "loaded"


def test_every_column_that_a_pattern_lacks_is_told_at_once(folder, capsys):
    rows = [
        LINE,
        "product|p-1|name=Panel|kind=tube-panel|sizes=4 ft x 8 ft|pattern.pitch=3 in",
        "made|p-1|thickness=2 in",
    ]
    Path("line.csv").write_text(few(*rows, heading=(*FEW, "pattern.pitch")), "utf-8")
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 2
    said = capsys.readouterr().err
    for name in ("knob-height", "tubes", "centre-above-base", "least-bend", "knob-share"):
        assert f"There is no pattern.{name}." in said


@pytest.mark.parametrize(
    "word", [["catalogue", "compare", "--catalogue"], ["catalogue", "thickness", "R10", "--catalogue"]]
)
def test_a_table_in_the_place_of_a_line_is_told_with_the_way_to_import_it(word, folder, capsys):
    Path("line.csv").write_text(GOOD, "utf-8")
    assert main([*word, "line.csv"]) == 2
    assert "underpour catalogue import line.csv -o line.toml" in capsys.readouterr().err
