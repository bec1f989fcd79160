"""CSV: commas between cells, UTF-8, quotes round what holds a comma, a quote or a new line (RFC 4180)."""

from __future__ import annotations

import csv
import datetime
import io
from collections.abc import Iterable, Sequence
from itertools import pairwise

from ..mistakes import Mistake, Mistakes
from .cells import GUARD, Cell, Formula, number_words
from .columns import ROW
from .sheets import Sheet, column_letters

BYTES = 20_000_000
LEADS_TO_A_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")  # in one spreadsheet or another
OTHERS = {";": "semicolons", "\t": "tabs", "|": "upright strokes"}
MARK = "\ufeff"


def sheet(content: bytes) -> Sheet:
    """The table in the bytes of a CSV file.

    Raises
    ------
    Mistakes
        Not a table in UTF-8 with commas. What is wrong of a single row stays with the sheet.
    """
    text = text_of(content)
    rows, wrong, torn = _rows(text)
    while rows and not any(rows[-1][1]) and rows[-1][0] not in torn:
        rows.pop()
    if not rows:
        raise Mistakes([Mistake("row 1", "", "The table is empty.", "Its first row is the heading.")])
    _parted_by_commas(rows[0][1] or [""])
    heading = rows[0][1]
    for number, cells in rows[1:]:
        if any(heading) and len(cells) != len(heading) and number not in torn and any(cells):
            wrong.append((number, min(len(cells), len(heading)), _width(cells, heading)))
            torn.add(number)
    kept = [(number, [_cell(words) for words in cells]) for number, cells in rows]
    return Sheet("", tuple(kept), wrong=tuple(wrong), torn=frozenset(torn))


def text_of(content: bytes) -> str:
    """The text, without the mark at its head.

    Raises
    ------
    Mistakes
        Too large, not UTF-8, or with signs that no text holds.
    """
    if len(content) > BYTES:
        wrong = f"The file is larger than {BYTES // 1_000_000} MB."
        raise Mistakes([Mistake("", "", wrong, "A line of 500 products takes 1 MB; is it the right file?")])
    if content[:4] == b"PK\x03\x04":
        raise Mistakes([Mistake("row 1", "", "This is a workbook, not a CSV.", "End its name with .xlsx.")])
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise Mistakes([Mistake("row 1", "", "The text is UTF-16.", "Save the table as CSV in UTF-8.")])
    if b"\0" in content:
        at = content.index(b"\0")
        row = content.count(b"\n", 0, at) + 1
        wrong = "A byte of nothing (NUL) stands in this row: this is not a plain text."
        raise Mistakes([Mistake(_cell_at(content[:at], row), "", wrong, "Save the table as CSV in UTF-8.")])
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as cause:
        row = content.count(b"\n", 0, cause.start) + 1
        line = content[content.rfind(b"\n", 0, cause.start) + 1 :].split(b"\n")[0].decode("latin-1")
        near = content[max(cause.start - 12, 0) : cause.start + 6].decode("latin-1").splitlines()
        wrong = "The text is not UTF-8 here; it may be Latin-1 or the alphabet of Windows."
        typed = f'"{"".join(each for each in near if each in line) or near[-1]}"'
        where = _cell_at(content[: cause.start], row)
        raise Mistakes([Mistake(where, typed, wrong, "Save the table as CSV in UTF-8.")]) from None
    return text.removeprefix(MARK)


def has_mark(content: bytes) -> bool:
    """Whether a byte-order mark stands at the head."""
    return content.startswith(MARK.encode())


def _cell_at(before: bytes, row: int) -> str:
    """The cell that bytes lead up to, by counting commas outside quotes in its line."""
    cells, quoted = 0, False
    for sign in before[before.rfind(b"\n") + 1 :]:
        quoted ^= sign == ord('"')
        cells += sign == ord(",") and not quoted
    return f"row {row}, column {column_letters(cells)}"


def _rows(text: str) -> tuple[list[tuple[int, list[str]]], list[tuple[int, int, Mistake]], set[int]]:
    rows: list[tuple[int, list[str]]] = []
    wrong: list[tuple[int, int, Mistake]] = []
    torn: set[int] = set()
    lines = list(io.StringIO(text, newline=""))
    reader = csv.reader(lines, strict=True)
    number, begun = 0, 0
    while True:
        number += 1
        try:
            cells = next(reader)
        except StopIteration:
            break
        except csv.Error:
            wrong.append((number, *_quote("".join(lines[begun:]))))
            torn.add(number)
            rows.append((number, [""]))
            break
        rows.append((number, cells))
        begun = reader.line_num
    return rows, wrong, torn


def _quote(rest: str) -> tuple[int, Mistake]:
    """The column of the quote that spoils a row, and what to say of it."""
    column, opened, began, at, quoted = 0, 0, 0, 0, False
    while at < len(rest):
        sign = rest[at]
        if quoted:
            if sign == '"' and rest[at + 1 : at + 2] == '"':
                at += 1
            elif sign == '"':
                quoted = False
                after = rest[at + 1 : at + 2]
                if after not in ("", ",", "\r", "\n") and "\n" in rest[began:at]:
                    rows = rest.count("\n", began, at)
                    wrong = f"A quote is opened here and closed {rows} {'line' if rows == 1 else 'lines'} further on."
                    instead = "Close it at the end of the cell, or take it out."
                    return opened, Mistake("", "", wrong, instead)
                if after not in ("", ",", "\r", "\n"):
                    wrong = f"After the closing quote stands {after}, where a comma is wanted."
                    instead = 'A quote inside quotes is written twice: "4"" board".'
                    return column, Mistake("", "", wrong, instead)
        elif sign == '"' and (at == 0 or rest[at - 1] == ","):
            quoted, opened, began = True, column, at
        elif sign == ",":
            column += 1
        at += 1
    if not quoted:
        return column, Mistake("", "", "A cell of this row is too long to be read.", "Shorten it.")
    wrong = "A quote is opened here and not closed; nothing after it can be read."
    return opened, Mistake("", "", wrong, "Close it at the end of the cell, or take it out.")


def _parted_by_commas(heading: Sequence[str]) -> None:
    for sign, called in OTHERS.items():
        first = heading[0].lstrip("\"'")
        if first.startswith(f"{ROW}{sign}") or (len(heading) == 1 and heading[0].count(sign) >= 2):
            instead = "Save the table as CSV with commas, or as .xlsx."
            wrong = f"The cells are parted by {called}; commas are wanted."
            raise Mistakes([Mistake("row 1, column A", "", wrong, instead)])


def _width(cells: Sequence[str], heading: Sequence[str]) -> Mistake:
    wrong = f"This row has {len(cells)} cells, the heading has {len(heading)}."
    if len(cells) < len(heading):
        return Mistake("", "", wrong, "Write a comma for each cell that stays empty.")
    instead = "Is there a comma within a cell? Such a cell stands in quotes."
    if any("\n" in cell for cell in cells):
        instead = "A cell of it goes over several lines: is its quote closed where it was meant to be?"
    pairs = pairwise(cells)
    comma = next((f"{one},{two}" for one, two in pairs if one.isdigit() and two.isdigit()), "")
    if comma:
        instead = (
            f"{comma} reads as two cells: write {comma.replace(',', '.')}, or put it in quotes if words are meant."
        )
    return Mistake("", "", wrong, instead)


def _cell(words: str) -> Cell:
    """A cell as it is typed; a formula is known by its first sign."""
    return Formula(words) if words.startswith("=") else words


def text(rows: Iterable[Sequence[Cell]]) -> str:
    """A table as CSV. Text that a spreadsheet may take for a formula has an apostrophe before it."""
    made = io.StringIO(newline="")
    csv.writer(made, lineterminator="\r\n").writerows([_words(cell) for cell in cells] for cells in rows)
    return made.getvalue()


def _words(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, datetime.date):
        return cell.isoformat()
    if isinstance(cell, int | float):
        return number_words(cell)
    assert isinstance(cell, str)
    return GUARD + cell if cell.startswith(LEADS_TO_A_FORMULA) else cell
