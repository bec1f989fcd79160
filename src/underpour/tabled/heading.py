"""The heading of a table: which column stands where, and what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from ..catalogue.properties import kinds_of, properties
from ..mistakes import Mistake, nearest
from .cells import UNSEEN_SIGN, Cell, Formula, is_empty, shown
from .columns import KEY, ROW, headings, row_kinds
from .sheets import Sheet

BRACKETED = re.compile(r"(.*?)\s*[\[(]\s*(.*?)\s*[\])]")


@dataclass(frozen=True)
class Heading:
    """The columns of a sheet by their number, and what is wrong with its first row."""

    columns: dict[int, str]
    wrong: tuple[tuple[int, Mistake], ...]  # by column

    @property
    def names(self) -> Collection[str]:
        return self.columns.values()


def heading(sheet: Sheet) -> Heading:
    """The heading of a sheet; what cannot be read of it is told and left out."""
    first = sheet.rows[0][1]
    if all(map(is_empty, first)):
        return Heading(
            {}, ((0, Mistake("", "", "The first row is empty.", "It holds the heading: take the row out.")),)
        )
    columns: dict[int, str] = {}
    wrong: list[tuple[int, Mistake]] = []
    for at, cell in enumerate(first):
        if is_empty(cell):
            below = [number for number, cells in sheet.rows[1:] if at < len(cells) and not is_empty(cells[at])]
            if below:
                told = f"This column has no heading, and row {below[0]} says something in it."
                wrong.append((at, Mistake("", "", told, "Write its heading, or take the column out.")))
            continue
        name = cell if isinstance(cell, str) else ""
        if name in columns.values():
            told = f"Two columns have the heading {name}. Is this a second table beside the first?"
            wrong.append((at, Mistake("", shown(cell), told, "Put one table below the other, under one heading.")))
        elif name in headings():
            columns[at] = name
        else:
            wrong.append((at, _unknown(cell)))
    lacking = [name for name in (ROW, KEY) if name not in columns.values()]
    if len(lacking) == 2 and not columns:
        told = "The first row is not the heading of a product table."
        instead = (
            f"It begins with {ROW},{KEY}. To see all of it: underpour catalogue export --start -o my-line.xlsx"
            " A table of one product a row is read with --wide."
        )
        return Heading(
            {}, ((0, Mistake("", next(shown(cell) for cell in first if not is_empty(cell)), told, instead)),)
        )
    meant = {UNSEEN_SIGN.sub("", cell).strip().casefold() for cell in first if isinstance(cell, str)}
    for name in lacking:
        if name in meant:
            continue  # told at its cell
        of = f"what each row is: {', '.join(row_kinds())}" if name == ROW else "the product that each row belongs to"
        wide = " A table of one product a row is read with --wide." if name == ROW else ""
        wrong.append((len(first), Mistake("", "", f"There is no column {name}.", f"It says {of}.{wide}")))
    return Heading(columns, tuple(wrong))


def required_of(sheet: Sheet, found: Heading, words: Collection[str]) -> Iterator[Mistake]:
    """Columns without which no row of a kind that stands in the sheet can be read."""
    for kind in row_kinds().values():
        if kind.word not in words:
            continue
        for column in kind.columns.values():
            if column.required and column.name not in found.names:
                wrong = f"There is no column {column.name}, and no {kind.word} row stands without it."
                example = f" For example: {column.example}" if column.example else ""
                yield Mistake("", "", wrong, f"{column.said}{example}")


def _unknown(cell: Cell) -> Mistake:
    if isinstance(cell, Formula):
        return Mistake("", shown(cell), "A formula stands in the heading.", "Write the name of the column.")
    if not isinstance(cell, str):
        return Mistake("", shown(cell), "A heading is a word.", "docs/products.md tells them all.")
    words = UNSEEN_SIGN.sub(" ", cell).strip()
    if words in headings():
        return Mistake(
            "", shown(cell), "A space, or a sign that is not seen, stands beside the name.", f"Write {words}."
        )
    name, unit = _with_unit(words)
    if unit:
        example = _unit_example(name, unit)
        return Mistake("", shown(cell), f"A unit ({unit}) stands in the heading.", f"Write {name}. {example}")
    if words in properties() or words.replace("_", "-") in properties():
        wrong = f"{words} is a property, not a column."
        instead = "Each test is a row of its own, evidence, with this word under property and its number under value."
        return Mistake("", shown(cell), wrong, instead)
    near = nearest(words, headings()) or nearest(re.sub(r"[ _]+", "-", words), headings())
    hint = f"The nearest is {near[0]}." if near else "docs/products.md tells them all; take out what is not of them."
    return Mistake("", shown(cell), f"No column is called {words}.", hint)


def _with_unit(words: str) -> tuple[str, str]:
    """A column and the unit that stands beside it in the heading; empty where it is not like that."""
    bracketed = BRACKETED.fullmatch(words)
    if bracketed and _column(bracketed[1]):
        return _column(bracketed[1]), bracketed[2]
    for sign in ("_", " ", "-", ",", "/"):
        name, _, unit = words.rpartition(sign)
        if _column(name) and kinds_of(unit.strip()):
            return _column(name), unit.strip()
    return "", ""


def _column(words: str) -> str:
    bare = words.strip().strip(",").casefold()
    return bare if bare in headings() else ""


def _unit_example(name: str, unit: str) -> str:
    sorts = {kind.columns[name].sort for kind in row_kinds().values() if name in kind.columns}
    if sorts == {"number"}:
        return f"The unit stands in each row, under unit: {unit}."
    return f"The unit stands in each cell, beside its number: 2 {unit}."
