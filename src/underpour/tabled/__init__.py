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
    products: tuple[str, ...]  # where each product stands: "row 7", "product, row 7"
    rows: tuple[str, ...]  # where each test stands, product after product


def taken_from(content: bytes, ending: str, *, wide: bool = False) -> Taken:
    """The product line in the bytes of a table.

    Parameters
    ----------
    content : bytes
        The file as it stands.
    ending : str
        ".csv" or ".xlsx".
    wide : bool
        One row holds a whole product, its tests side by side.

    Raises
    ------
    Mistakes
        Everything that is wrong with the table at once, each with its row and column.
    """
    from . import comma_separated, records, workbook
    from . import wide as side_by_side

    line_of = side_by_side.line_of if wide else records.line_of
    if ending == ".csv":
        mark = "The table begins with a byte-order mark (row 1, column A); it was read over."
        made = line_of([comma_separated.sheet(content)])
        return Taken(made.line, (mark,) if comma_separated.has_mark(content) else (), made.products, made.rows)
    sheets = workbook.sheets(content)
    notes = [cell for sheet in sheets for cell in sheet.left]
    shown = ", ".join(notes[:NOTES]) + (f" and {len(notes) - NOTES} more" if len(notes) > NOTES else "")
    left = f"A note on a cell is no record, and was left behind: {shown}."
    made = line_of(sheets)
    return Taken(made.line, (left,) if notes else (), made.products, made.rows)


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
    from . import columns, comma_separated, rows, workbook

    of = rows.rows_of(line)
    if ending == ".xlsx":
        return workbook.book(of, every_column=every_column)
    headings = columns.headings() if every_column else rows.headings_of(of)
    return comma_separated.text([headings, *([row.under(each) for each in headings] for row in of)]).encode()


def start(ending: str, *, wide: bool = False) -> bytes:
    """A table to begin with: every column there is, and one product as an example.

    A wide one has the columns that its product needs; `docs/products.md` says which others there can be.
    """
    from ..catalogue.line_file import line_text, read_line

    if wide:
        from . import wide as side_by_side

        return side_by_side.start(ending)
    return table_of(read_line(line_text(START)), ending, every_column=True)
