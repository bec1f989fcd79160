"""From a product line to the rows of its table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ..mistakes import Mistake, Mistakes
from .cells import GUARD, Cell, written
from .columns import KEY, LINE, PRODUCT, ROW, RowKind, alias, headings, row_kinds

if TYPE_CHECKING:
    from ..catalogue.line import Line, Table


@dataclass(frozen=True)
class Row:
    """One row: its kind, the product it belongs to, what it says by column."""

    kind: str
    key: str
    cells: dict[str, Cell]

    def under(self, heading: str) -> Cell:
        return {ROW: self.kind, KEY: self.key}.get(heading, self.cells.get(heading))


def rows_of(line: Line) -> list[Row]:
    """A line as rows: first its own, then each product with what belongs to it.

    Raises
    ------
    Mistakes
        Two products of one key, which a table cannot tell apart; a control character.
    """
    wrong: list[Mistake] = []
    kinds = row_kinds()
    found = [Row(LINE, "", _cells(kinds[LINE], line, "maker", wrong))]
    seen: set[str] = set()
    for product in line.product:
        if product.key in seen:
            instead = "Give one of them another key; rows are told apart by it."
            wrong.append(Mistake(product.key, "", f"Two products have the key {product.key}.", instead))
        seen.add(product.key)
        for kind in kinds.values():
            if kind.word == PRODUCT:
                found.append(Row(PRODUCT, product.key, _cells(kind, product, product.key, wrong)))
            elif kind.within:
                of = _list(product, kind.within)
                found += [Row(kind.word, product.key, _cells(kind, each, product.key, wrong)) for each in of]
    if wrong:
        raise Mistakes(wrong)
    return found


def headings_of(rows: Sequence[Row], *, every_column: bool = False) -> list[str]:
    """The headings that these rows need, or all that rows of their kinds can have."""
    filled = {heading for row in rows for heading in row.cells}
    if every_column:
        filled = {heading for row in rows for heading in row_kinds()[row.kind].columns}
    return [heading for heading in headings() if heading in (ROW, KEY) or heading in filled]


def _cells(kind: RowKind, record: Table, of: str, wrong: list[Mistake]) -> dict[str, Cell]:
    cells: dict[str, Cell] = {}
    for name, value in _typed(record, "", kind):
        try:
            cells[name] = written(kind.columns[name], value) if value is not None else GUARD
        except Mistake as mistake:
            wrong.append(mistake.placed(at=f"{of}, {name}"))
    return cells


def _typed(record: Table, before: str, kind: RowKind) -> Iterator[tuple[str, Any]]:
    """What was typed of a record, by column; None where a table stands and says nothing."""
    from ..catalogue.line import Table

    for name in type(record).model_fields:
        value, column = getattr(record, name), before + alias(type(record), name)
        if value is None or name not in record.model_fields_set or column == KEY:
            continue
        if isinstance(value, Table):
            inner = list(_typed(value, f"{column}.", kind))
            first = next(each for each in kind.columns if each.startswith(f"{column}."))
            yield from inner or [(first, None)]
        elif column in kind.columns:
            yield column, value


def _list(product: Table, within: tuple[str, ...]) -> tuple[Any, ...]:
    here: Any = product
    for step in within:
        if here is None:
            return ()
        here = next(getattr(here, name) for name in type(here).model_fields if alias(type(here), name) == step)
    return tuple(here or ())
