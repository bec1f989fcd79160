"""A table of one product a row, its tests side by side, to a product line.

The columns of the line, of products and of thicknesses made are those of the other tables. A test has a column of its
own, headed by its property, unit and test: `strength [psi] ASTM D1621`. What a record says beside its number stands in
a column for all tests of the row (`laboratory`), or for those of one property (`strength.certificate`).
"""

from __future__ import annotations

import csv
import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from ..mistakes import Mistake, Mistakes
from .cells import NUMBER, NUMBER_AND_UNIT, Cell, is_empty, read, shown
from .columns import KEY, LINE, PRODUCT, Column, row_kinds
from .heading import Heading
from .records import Assembled, Reading, Record, assembled, rows_in
from .sheets import Sheet
from .wide_heading import EDGES, EVIDENCE, MADE, SAID_BY_HEADING, TEST, Headings, Test, headings_of

START = Path(__file__).with_name("wide-start.csv")


def line_of(sheets: Sequence[Sheet]) -> Assembled:
    """The product line that a wide table holds, as `records.line_of` gives that of a long one.

    Raises
    ------
    Mistakes
        All that is wrong, in the order of rows and columns, each with its place.
    """
    if len(sheets) > 1:
        named = ", ".join(sheet.name for sheet in sheets)
        wrong = f"A table of one product a row stands on one sheet; these hold something: {named}."
        raise Mistakes([Mistake("", "", wrong, "Leave one of them, or leave out --wide.")])
    (sheet,) = sheets
    reading = Reading(sheets)
    found = headings_of(sheet)
    reading.headings.append(Heading(found.typed, tuple(found.wrong)))
    for row, column, mistake in sheet.wrong:
        reading.tell(0, row, column, mistake)
    for column, mistake in found.wrong:
        reading.tell(0, sheet.rows[0][0], column, mistake)
    if KEY not in found.words[PRODUCT]:
        reading.unread.add("")
        reading.records[LINE].append(Record(0, sheet.rows[0][0], "", {"maker.name": "not told"}, where={}))
        return assembled(reading)
    key_at = found.words[PRODUCT][KEY]
    line: dict[str, tuple[object, int]] = {}
    for number, cells in rows_in(reading, 0, sheet, key_at, key_at):
        _read_row(_Row(reading, number, cells, found, typed_cells=sheet.typed_cells), line)
    first = min((row for _, row in line.values()), default=sheet.rows[0][0])
    said = {name: value for name, (value, _) in line.items()}
    reading.records[LINE].append(Record(0, first, "", said, where=found.words[LINE]))
    return assembled(reading)


@dataclass
class _Row:
    """One row while it is read."""

    reading: Reading
    number: int
    cells: Sequence[Cell]
    found: Headings
    typed_cells: bool

    def cell(self, at: int) -> Cell:
        return self.cells[at] if at < len(self.cells) else None

    def tell(self, at: int, mistake: Mistake) -> None:
        self.reading.tell(0, self.number, at, mistake)

    def read(self, column: Column, at: int) -> Any:
        """What a cell says; None where it is empty, or told."""
        cell = self.cell(at)
        if is_empty(cell):
            return None
        try:
            return read(column, cell, typed_cells=self.typed_cells)
        except Mistake as mistake:
            self.tell(at, mistake)
            return None

    def said(self, kind: str, columns: Mapping[str, int]) -> dict[str, Any]:
        of = row_kinds()[kind].columns
        told = {name: self.read(of[name], at) for name, at in columns.items() if name != KEY}
        return {name: value for name, value in told.items() if value is not None}


def _read_row(row: _Row, line: dict[str, tuple[object, int]]) -> None:
    found, key_at = row.found, row.found.words[PRODUCT][KEY]
    cell = row.cell(key_at)
    key = cell if isinstance(cell, str) else ""
    if not key:
        wrong = "This row names no product." if is_empty(cell) else "A key is a word."
        instead = "Write the key of the product, like plain-15; cells that were merged have to be parted."
        row.tell(key_at, Mistake("", "" if is_empty(cell) else shown(cell), wrong, instead))
        row.reading.unread.add("")
    _of_the_line(row, line)
    add = row.reading.records
    said = row.said(PRODUCT, found.words[PRODUCT])
    made = _made(row)
    if not made and "price" in found.words[MADE]:
        price = row.read(row_kinds()[MADE].columns["price"], found.words[MADE]["price"])
        said |= {"price": price} if price is not None else {}
    where = {**found.words[PRODUCT], **({"price": found.words[MADE]["price"]} if "price" in said else {})}
    add[PRODUCT].append(Record(0, row.number, key, said, where=where))
    add[MADE] += [Record(0, row.number, key, each, where=found.words[MADE]) for each in made]
    edge = row.said(EDGES, found.words[EDGES])
    if edge:
        add[EDGES].append(Record(0, row.number, key, edge, where=found.words[EDGES]))
    if all(is_empty(row.cell(test.at)) for test in found.tests):
        _of_no_test(row)
    for test in found.tests:
        _test(row, key, test)


def _of_no_test(row: _Row) -> None:
    """What a row says of its tests where it has none would be lost: it is told."""
    for at in row.found.words[EVIDENCE].values():
        if not is_empty(row.cell(at)):
            wrong = "It is said of the tests of this row, and it has none."
            instead = "Write the number of a test, or leave this cell empty."
            row.tell(at, Mistake("", shown(row.cell(at)), wrong, instead))


def _of_the_line(row: _Row, line: dict[str, tuple[object, int]]) -> None:
    """What a row says of the whole line; another row may say it again, and nothing else."""
    for name, value in row.said(LINE, row.found.words[LINE]).items():
        before, at = line.setdefault(name, (value, row.number))
        if before != value:
            column = row.found.words[LINE][name]
            wrong = f"Row {at} says {before}."
            instead = "A table holds the line of one maker; put another into a file of its own."
            row.tell(column, Mistake("", shown(row.cell(column)), wrong, instead))


def _made(row: _Row) -> list[dict[str, Any]]:
    """The thicknesses of a row, each with what stands in the same place of the other lists."""
    kind, columns = row_kinds()[MADE], row.found.words[MADE]
    lists: dict[str, tuple[str, ...]] = {}
    for name, at in columns.items():
        one = kind.columns[name]
        as_list = replace(one, sort="list", items=one.sort) if isinstance(row.cell(at), str) else one
        told = row.read(as_list, at)
        if told is not None:
            lists[name] = told if isinstance(told, tuple) else (told,)
    if "thickness" not in lists:
        for name in lists:
            if name != "price":
                wrong = "No thickness stands beside it."
                instead = "Write the thicknesses made under thickness, parted by semicolons: 1 in; 2 in."
                row.tell(columns[name], Mistake("", shown(row.cell(columns[name])), wrong, instead))
        return []
    number = len(lists["thickness"])
    for name, told in lists.items():
        if len(told) != number:
            wrong = f"{len(told)} stand{'s' if len(told) == 1 else ''} here, for {number} thicknesses."
            instead = "Write one for each thickness, in their order, parted by semicolons."
            row.tell(columns[name], Mistake("", shown(row.cell(columns[name])), wrong, instead))
            return []
    return [{name: told[n] for name, told in lists.items()} for n in range(number)]


def _test(row: _Row, key: str, test: Test) -> None:
    """The record of one test, with what is said of all tests of the row and of this one."""
    found, evidence = row.found, row_kinds()[EVIDENCE].columns
    own = {**found.of_tests.get((test.property, ""), {}), **found.of_tests.get((test.property, test.method), {})}
    cell = row.cell(test.at)
    if is_empty(cell):
        for at in own.values():
            if not is_empty(row.cell(at)):
                wrong = f"No number of {test.property} stands in this row."
                instead = f"Write it under {found.typed[test.at]}, or leave this cell empty."
                row.tell(at, Mistake("", shown(row.cell(at)), wrong, instead))
        return
    beside = NUMBER_AND_UNIT.fullmatch(cell) if isinstance(cell, str) and not NUMBER.fullmatch(cell) else None
    if beside:
        wrong, instead = "The number has its unit beside it.", f"Write {beside[1]} here; the heading says the unit."
        row.tell(test.at, Mistake("", shown(cell), wrong, instead))
        return
    value = row.read(evidence["value"], test.at)
    columns = {**found.words[EVIDENCE], **own}
    said = row.said(EVIDENCE, columns)
    if test.method:
        said["method"] = test.method
    said |= {"property": test.property, "unit": test.unit} | ({"value": value} if value is not None else {})
    where = {**columns, **dict.fromkeys((*SAID_BY_HEADING, *(["method"] if test.method else [])), test.at)}
    row.reading.records[EVIDENCE].append(Record(0, row.number, key, said, where=where))


# ---- a table to begin with ----


def start(ending: str) -> bytes:
    """A wide table with one product as an example, the one of the long table to begin with."""
    content = START.read_bytes()
    if ending == ".csv":
        return content.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")
    import io

    import xlsxwriter

    head, *rows = csv.reader(io.StringIO(content.decode("utf-8"), newline=""))
    made = io.BytesIO()
    book = xlsxwriter.Workbook(made, {"in_memory": True})
    text, day = book.add_format({"num_format": "@"}), book.add_format({"num_format": "yyyy-mm-dd"})
    bold = book.add_format({"bold": True, "bottom": 1})
    sheet = book.add_worksheet("products")
    sheet.freeze_panes(1, 1)
    for column, name in enumerate(head):
        test = TEST.fullmatch(name) and "[" in name
        form = None if test else day if name.rpartition(".")[2] in ("date", "expires", "priced") else text
        sheet.set_column(column, column, min(max(len(name), 8) + 2, 48), form)
        sheet.write_string(0, column, name, bold)
        for number, row in enumerate(rows, 1):
            if test and row[column]:
                sheet.write_number(number, column, float(row[column]))
            elif form is day and row[column]:
                sheet.write_datetime(number, column, datetime.datetime.fromisoformat(row[column]), day)
            elif row[column]:
                sheet.write_string(number, column, row[column], text)
    book.close()
    return made.getvalue()
