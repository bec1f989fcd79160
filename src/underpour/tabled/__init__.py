"""A product line as a table, CSV or workbook: rows in, records out, and back. One row a product, one row a test."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from ..mistakes import Mistakes as Mistakes

if TYPE_CHECKING:
    from ..catalogue.line import Line

NOTES = 6  # cells with notes that are listed
START = Path(__file__).with_name("start.toml")


@dataclass(frozen=True)
class Taken:
    """What was taken from a table, and what is to be said of it."""

    line: Line
    said: tuple[str, ...]


def taken_from(content: bytes, ending: str) -> Taken:
    """The product line in the bytes of a table.

    Parameters
    ----------
    content : bytes
        The file as it stands.
    ending : str
        ".csv" or ".xlsx".

    Raises
    ------
    Mistakes
        Everything that is wrong with the table at once, each with its row and column.
    """
    from . import comma_separated, records, workbook

    if ending == ".csv":
        mark = "The table begins with a byte-order mark (row 1, column A); it was read over."
        line = records.line_of([comma_separated.sheet(content)])
        return Taken(line, (mark,) if comma_separated.has_mark(content) else ())
    sheets = workbook.sheets(content)
    notes = [cell for sheet in sheets for cell in sheet.left]
    shown = ", ".join(notes[:NOTES]) + (f" and {len(notes) - NOTES} more" if len(notes) > NOTES else "")
    left = f"A note on a cell is no record, and was left behind: {shown}."
    return Taken(records.line_of(sheets), (left,) if notes else ())


def line_in(content: bytes, ending: str) -> Line:
    """The product line alone, as `taken_from` gives it."""
    return taken_from(content, ending).line


def table_of(line: Line, ending: str, *, every_column: bool = False) -> bytes:
    """A product line as the bytes of a table; `line_in` gives the same line back.

    Columns in which nothing stands are left out, unless every one is asked for.

    Raises
    ------
    Mistakes
        What no table can say: two products of one key, a control character; in a workbook, too long a text.
    """
    from . import comma_separated, rows, workbook

    of = rows.rows_of(line)
    if ending == ".xlsx":
        return workbook.book(of, every_column=every_column)
    headings = rows.headings_of(of, every_column=every_column)
    return comma_separated.text([headings, *([row.under(each) for each in headings] for row in of)]).encode()


def start(ending: str) -> bytes:
    """A table to begin with: every column there is, and one product as an example."""
    from ..catalogue.line_file import line_text, read_line

    return table_of(read_line(line_text(START)), ending, every_column=True)
