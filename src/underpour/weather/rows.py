"""What the readers of rows have in common."""

from __future__ import annotations

import csv
from collections.abc import Sequence

from ..mistakes import Mistake
from .hours import Year
from .text import shown

_LONGEST = 100_000  # letters of a heading; the longest, of normals, has ten thousand


def cells(line: str, mark: str = ",") -> list[str]:
    """The fields of one line, without the blanks and quotes around them.

    >>> cells('"USW00094846", "-6.1","CHICAGO, IL"')
    ['USW00094846', '-6.1', 'CHICAGO, IL']
    """
    row = next(csv.reader([line[:_LONGEST]], delimiter=mark, skipinitialspace=True), [])
    return [cell.strip() for cell in row] or [""]


def first_cells(line: str, count: int) -> list[str]:
    """The first fields of a line of numbers; quick, because a year has thousands of such lines."""
    return cells(line) if '"' in line else line.split(",", count)


def number(typed: str, what: str, file: str, line: int, most: float) -> float:
    """A number of a heading, between plus and minus ``most``.

    Raises
    ------
    Mistake
        It is none, or too large.
    """
    try:
        value = float(typed)
    except ValueError:
        raise Mistake(
            "", "", f'The {what} is written "{shown(typed)}".', "A number belongs there.", file, line
        ) from None
    if not abs(value) <= most:
        wrong = f"A {what} of {shown(typed)} is not on the map."
        raise Mistake("", "", wrong, f"It is between -{most:.0f} and {most:.0f}.", file, line)
    return value


def unread(typed: Sequence[str], what: str, file: str, line: int) -> Mistake:
    """The mistake for a row whose date cannot be read."""
    wrong = f'"{shown(", ".join(word.strip() for word in typed))}" cannot be read as {what}.'
    return Mistake("", "", wrong, "Take the file as it was made; a spreadsheet may have changed its dates.", file, line)


def left_out(year: Year) -> tuple[str, ...]:
    """A line on hours without a temperature, and one on a leap day; nothing where there are none."""
    missing = sum(year.missing)
    said = []
    if missing:
        most = max(year.missing)
        said.append(
            f"{missing} of its hours have no temperature and are left out of their month's mean, at most {most} in "
            "one; hour by hour they lie on a line between their neighbours."
        )
    if year.hours > 8760:
        said.append("29 February stands in it and counts to February's mean.")
    return tuple(said)
