"""A table as rows of cells, wherever it was read from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..mistakes import Mistake
from .cells import Cell, is_empty

LETTERS = 26


@dataclass(frozen=True)
class Sheet:
    """One table: its rows by number, the heading first, each as wide as it was written."""

    name: str  # of the sheet in its workbook; "" for CSV
    rows: tuple[tuple[int, Sequence[Cell]], ...]  # numbered as a spreadsheet shows them
    typed_cells: bool = False  # numbers are kept as numbers
    wrong: tuple[tuple[int, int, Mistake], ...] = ()  # row, column from 0, what the file itself tells
    left: tuple[str, ...] = ()  # cells with a note on them, which no record holds
    torn: frozenset[int] = frozenset()  # rows that were not read, since what they hold is not sure

    def at(self, row: int, column: int, heading: str = "") -> str:
        """Where a cell stands: "row 7, column strength", or "evidence!D7, column value"."""
        named = f"column {heading}" if heading else f"column {column_letters(column)}"
        if not self.name:
            return f"row {row}, {named}"
        return f"{self.name}!{column_letters(column)}{row}" + (f", column {heading}" if heading else "")

    def at_row(self, row: int) -> str:
        return f"{self.name}, row {row}" if self.name else f"row {row}"


def column_letters(column: int) -> str:
    """A column as a spreadsheet letters it, counted from 0.

    >>> column_letters(0), column_letters(25), column_letters(26), column_letters(702)
    ('A', 'Z', 'AA', 'AAA')
    """
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, LETTERS)
        letters = chr(ord("A") + rest) + letters
    return letters


def without_empty_end(rows: Sequence[tuple[int, Sequence[Cell]]]) -> tuple[tuple[int, Sequence[Cell]], ...]:
    """Rows without the empty ones after the last that holds something."""
    last = len(rows)
    while last and all(map(is_empty, rows[last - 1][1])):
        last -= 1
    return tuple(rows[:last])


def stretches(numbers: Sequence[int]) -> Iterator[tuple[int, int]]:
    """First and last of each stretch of numbers that follow one another.

    >>> list(stretches([4, 5, 6, 9]))
    [(4, 6), (9, 9)]
    """
    first = before = None
    for number in numbers:
        if first is None or before is None:
            first = number
        elif number != before + 1:
            yield first, before
            first = number
        before = number
    if first is not None and before is not None:
        yield first, before
