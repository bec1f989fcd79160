"""Workbooks (XLSX): one sheet for each kind of row, or all on one; read by openpyxl, written by XlsxWriter."""

from __future__ import annotations

import datetime
import io
import warnings
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from ..mistakes import Mistake, Mistakes
from .cells import EARLIEST, Broken, Cell, Formula, is_empty, number_words
from .columns import row_kinds
from .rows import Row, headings_of
from .sheets import Sheet, column_letters, stretches, without_empty_end

BYTES = 20_000_000
UNPACKED = 100_000_000
ROWS, COLUMNS = 100_000, 500
CELL = 32_767  # letters that a cell of a workbook holds
OLE = b"\xd0\xcf\x11\xe0"  # head of a file of the older kind; a locked workbook is one too
MADE = datetime.datetime(2000, 1, 1)  # said of every workbook, so that one line gives the same bytes twice
SAVE_ANEW = "Open it in your spreadsheet and save it anew as .xlsx."


def sheets(content: bytes) -> list[Sheet]:
    """The tables in the bytes of a workbook, one for each sheet that holds something.

    Raises
    ------
    Mistakes
        Not a workbook, a locked or damaged one, or one that unpacks to too much. What is wrong of single cells and rows
        stays with their sheet.
    """
    _looked_through(content)
    book = _opened(content, data_only=False)
    found = [_sheet(each) for each in book.worksheets if each.sheet_state == "visible"]
    wrong = [_hidden(each.title) for each in book.worksheets if each.sheet_state != "visible" and _holds(each)]
    if wrong:
        raise Mistakes(wrong)
    found = [each for each in found if each.rows]
    if not found:
        raise Mistakes([Mistake("row 1", "", "The workbook is empty.", "The first row of a sheet is its heading.")])
    if any(isinstance(cell, Formula) for sheet in found for _, cells in sheet.rows for cell in cells):
        found = _with_stored(found, _opened(content, data_only=True))
    return found


def _looked_through(content: bytes) -> None:
    """Refuse what is no workbook, before a library opens it."""
    if len(content) > BYTES:
        wrong = f"The workbook is larger than {BYTES // 1_000_000} MB."
        raise Mistakes([Mistake("", "", wrong, "A line of 500 products takes 1 MB; is it the right file?")])
    if content.startswith(OLE):
        if "EncryptedPackage".encode("utf-16-le") in content:
            wrong, instead = "The workbook is locked with a password.", "Save it without a password, then import it."
        else:
            wrong, instead = "This is a workbook of the older kind (.xls).", SAVE_ANEW
        raise Mistakes([Mistake("", "", wrong, instead)])
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            entries = packed.infolist()
            if sum(entry.file_size for entry in entries) > UNPACKED:
                wrong = f"The workbook unpacks to more than {UNPACKED // 1_000_000} MB."
                raise Mistakes([Mistake("", "", wrong, "Take out what is not of the table, and save it anew.")])
            if not any(entry.filename.startswith("xl/") for entry in entries):
                wrong = "This is not a workbook."
                raise Mistakes([Mistake("", "", wrong, "Save the table as .xlsx or as CSV.")])
            for entry in entries:
                if entry.filename.endswith((".xml", ".rels")) and b"<!DOCTYPE" in packed.read(entry)[:2000]:
                    wrong = "The workbook declares a document type, which no spreadsheet writes."
                    raise Mistakes([Mistake("", "", wrong, SAVE_ANEW)])
    except (zipfile.BadZipFile, EOFError, ValueError, NotImplementedError, RuntimeError, OSError):
        raise _damaged() from None
    except Exception as cause:
        if type(cause).__module__ in ("zlib", "lzma"):
            raise _damaged() from None
        raise


def _damaged() -> Mistakes:
    return Mistakes([Mistake("", "", "The workbook is damaged and cannot be read.", SAVE_ANEW)])


def _opened(content: bytes, *, data_only: bool) -> Any:
    import openpyxl

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of drawings, drop-down lists and the like, which are not the table
        try:
            return openpyxl.load_workbook(io.BytesIO(content), data_only=data_only, keep_links=False)
        except Exception:  # a workbook can be wrong in any part, and the library tells it in as many ways
            raise _damaged() from None


def _holds(sheet: Any) -> bool:
    return sheet.max_row <= ROWS and any(cell is not None for row in sheet.iter_rows(values_only=True) for cell in row)


def _hidden(title: str) -> Mistake:
    wrong = f"The sheet {title} is hidden, and holds something."
    return Mistake(f"{title}!A1", "", wrong, "Show it, or take it out; nothing is read that cannot be seen.")


def _sheet(sheet: Any) -> Sheet:
    if sheet.max_row > ROWS or sheet.max_column > COLUMNS:
        last = f"{column_letters(sheet.max_column - 1)}{sheet.max_row}"
        wrong = f"The sheet {sheet.title} reaches as far as {last}; {ROWS} rows of {COLUMNS} columns are read at most."
        raise Mistakes([Mistake(f"{sheet.title}!{last}", "", wrong, "Delete the rows and columns beyond the table.")])
    read: list[tuple[int, Sequence[Cell]]] = []
    left: list[str] = []
    for number, row in enumerate(sheet.iter_rows(), 1):
        read.append((number, [None if each.value is None else _cell(each) for each in row]))
        left += [f"{sheet.title}!{each.coordinate}" for each in row if each.comment]
    rows = without_empty_end(read)
    if not rows:
        return Sheet(sheet.title, ())
    width = max(column for _, cells in rows for column, cell in enumerate(cells, 1) if not is_empty(cell))
    kept = [(number, cells[:width]) for number, cells in rows]
    told = (*_merged(sheet, kept), *_out_of_sight(sheet, kept))
    return Sheet(sheet.title, _merges_filled(sheet, kept), typed_cells=True, wrong=told, left=tuple(left))


def _cell(cell: Any) -> Cell:
    value = cell.value
    if cell.data_type == "f":
        return Formula(str(getattr(value, "text", value) or "{ }"))
    if cell.data_type == "e":
        return Broken(str(value))
    if isinstance(value, str | int | float | datetime.date | datetime.time | datetime.timedelta):
        return value
    return str(value)


def _merged(sheet: Any, rows: Sequence[tuple[int, Sequence[Cell]]]) -> Iterator[tuple[int, int, Mistake]]:
    for each in sheet.merged_cells.ranges:
        if each.min_row <= rows[-1][0]:
            wrong = f"The cells {each.coord} are merged; only the first of them holds something."
            instead = "Part them, and write in each row what is meant there."
            yield each.min_row, each.min_col - 1, Mistake("", "", wrong, instead)


def _merges_filled(sheet: Any, rows: Sequence[tuple[int, Sequence[Cell]]]) -> tuple[tuple[int, Sequence[Cell]], ...]:
    """Rows with each merged cell saying what the first says, so that one merge is told once and not of each row."""
    filled = {number: list(cells) for number, cells in rows}
    for each in sheet.merged_cells.ranges:
        first = filled.get(each.min_row, [])[each.min_col - 1 : each.min_col]
        for number in range(each.min_row, each.max_row + 1) if each.min_col == each.max_col else ():
            if number in filled and first:
                filled[number][each.min_col - 1] = first[0]
    return tuple(filled.items())


def _out_of_sight(sheet: Any, rows: Sequence[tuple[int, Sequence[Cell]]]) -> Iterator[tuple[int, int, Mistake]]:
    last, width = rows[-1][0], len(rows[0][1])
    hidden = sorted(n for n, row in sheet.row_dimensions.items() if n <= last and (row.hidden or row.height == 0))
    for first, end in stretches(hidden):
        which = f"Row {first} is" if first == end else f"Rows {first} to {end} are"
        yield first, 0, Mistake("", "", f"{which} hidden.", "Show them, or delete them; a filter hides rows too.")
    for each in sheet.column_dimensions.values():
        if (each.hidden or each.width == 0) and each.min and each.min <= width:
            wrong = f"Column {column_letters(each.min - 1)} is hidden."
            yield rows[0][0], each.min - 1, Mistake("", "", wrong, "Show it, or delete it.")


def _with_stored(found: Iterable[Sheet], book: Any) -> list[Sheet]:
    """Sheets whose formulas know what was stored of them."""
    made = []
    for sheet in found:
        values = book[sheet.name]
        rows = tuple(
            (
                number,
                [
                    Formula(cell.words, _stored(values.cell(number, column).value))
                    if isinstance(cell, Formula)
                    else cell
                    for column, cell in enumerate(cells, 1)
                ],
            )
            for number, cells in sheet.rows
        )
        made.append(replace(sheet, rows=rows))
    return made


def _stored(value: object) -> str:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return number_words(value)
    return "" if value is None else str(value)


def book(rows: Sequence[Row], *, every_column: bool = False) -> bytes:
    """A workbook with a sheet for each kind of row, text kept as text.

    Parameters
    ----------
    rows : sequence of Row
        The line, as `rows.rows_of` gives it.
    every_column : bool
        Whether a sheet has every column that its rows can have, or those in which something stands.

    Raises
    ------
    Mistakes
        A text or a number that no cell of a workbook holds whole.
    """
    import xlsxwriter

    made, wrong = io.BytesIO(), []
    target = xlsxwriter.Workbook(made, {"in_memory": True})
    target.set_properties({"created": MADE})
    head = target.add_format({"bold": True, "bottom": 1, "quote_prefix": True})
    words = target.add_format({"quote_prefix": True, "num_format": "@"})
    text = target.add_format({"num_format": "@"})
    day = target.add_format({"num_format": "yyyy-mm-dd"})
    for kind in dict.fromkeys(row.kind for row in rows):
        of = [row for row in rows if row.kind == kind]
        headings = headings_of(of, every_column=every_column)
        sheet = target.add_worksheet(kind)
        sheet.freeze_panes(1, 2)
        for column, name in enumerate(headings):
            sheet.write_string(0, column, name, head)
            longest = max((len(str(row.under(name) or "")) for row in of), default=0)
            sort = row_kinds()[kind].columns[name].sort if name in row_kinds()[kind].columns else "words"
            form = {"day": day, "number": None, "whole": None}.get(sort, text)  # of what will be typed below
            sheet.set_column(column, column, min(max(len(name), longest, 6) + 2, 48), form)
        for number, row in enumerate(of, 1):
            for column, name in enumerate(headings):
                cell = row.under(name)
                told = _not_held(cell)
                if told:
                    wrong.append(told.placed(at=f"{row.key}, {name}"))
                elif isinstance(cell, datetime.date) and cell >= EARLIEST:
                    sheet.write_datetime(number, column, datetime.datetime(*cell.timetuple()[:3]), day)
                elif isinstance(cell, int | float):
                    sheet.write_number(number, column, cell)
                elif cell not in (None, ""):
                    sheet.write_string(number, column, str(cell), words)
    if wrong:
        raise Mistakes(wrong)
    target.close()
    return made.getvalue()


def _not_held(cell: Cell) -> Mistake | None:
    if isinstance(cell, str) and len(cell.encode("utf-16-le")) > 2 * CELL:
        return Mistake(
            "", "", f"A cell of a workbook holds {CELL} letters, and this text has more.", "Export it as CSV."
        )
    if isinstance(cell, float) and float(f"{cell:.16G}") != cell:
        wrong = f"{cell!r} has more digits than a workbook keeps."
        return Mistake("", "", wrong, "Export it as CSV, or round it first.")
    return None
