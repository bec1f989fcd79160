"""The columns of a product table, walked out of the models of a product line. No second list of them is kept.

A line has rows of several kinds: one for the line itself, one for each product, and one for each entry of a product's
lists of tables (thicknesses made, edges, evidence). A key of a table in a record is a column with a dot in its name.
"""

from __future__ import annotations

import datetime
import types
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any, Literal, Union, get_args, get_origin

from ..measure import Measure

if TYPE_CHECKING:
    from ..catalogue.line import Table

Sort = Literal["words", "one of", "measure", "number", "whole", "yes or no", "day", "list"]
ROW, KEY = "row", "key"  # which kind of row it is, and whose
LINE, PRODUCT = "line", "product"


@dataclass(frozen=True, slots=True)
class Column:
    """What may stand in a cell, and where in its record it belongs."""

    name: str  # "facing.film"
    sort: Sort
    among: tuple[str, ...]  # to choose from; empty where anything of the sort may stand
    items: Sort  # of what a list is a list
    required: bool  # no record of its kind stands without it
    said: str  # what it says
    example: str

    @property
    def path(self) -> tuple[str, ...]:
        """The keys that lead to it in its record."""
        return tuple(self.name.split("."))


@dataclass(frozen=True, slots=True)
class RowKind:
    """A kind of row: the word under `row`, the columns that it fills, the list of a product that it belongs to."""

    word: str
    model: type[Table]
    columns: dict[str, Column]
    within: tuple[str, ...]  # keys from the product to the list; none for the line and for products

    @property
    def article(self) -> str:
        return f"{'an' if self.word[0] in 'aeiou' else 'a'} {self.word} row"


@cache
def row_kinds() -> dict[str, RowKind]:
    """Each kind of row by its word, in the order in which they are written.

    >>> list(row_kinds())
    ['line', 'product', 'made', 'edges', 'goes-with', 'evidence']
    >>> row_kinds()["evidence"].columns["conditions.mean"].sort
    'measure'
    """
    from ..catalogue.line import Line

    (products,) = (name for name, field in Line.model_fields.items() if _rows_of(field.annotation))
    product = _rows_of(Line.model_fields[products].annotation)
    assert product is not None
    kinds = [RowKind(LINE, Line, _columns(Line), ()), RowKind(PRODUCT, product, _columns(product), ())]
    kinds += [RowKind(".".join(within), model, _columns(model), within) for within, model in _lists_within(product, ())]
    for kind in kinds[2:]:
        if any(True for _ in _lists_within(kind.model, ())):
            raise TypeError(f"A list of tables in {kind.word} has no home in a table.")
    return {kind.word: kind for kind in kinds}


@cache
def headings() -> tuple[str, ...]:
    """Every heading there is, in the order in which they are written."""
    return tuple(dict.fromkeys([ROW, KEY, *(name for kind in row_kinds().values() for name in kind.columns)]))


@cache
def kinds_with(heading: str) -> tuple[RowKind, ...]:
    """The kinds of row that a column belongs to."""
    return tuple(kind for kind in row_kinds().values() if heading in kind.columns)


def alias(model: type[Table], name: str) -> str:
    """A key as it is typed, from the name of its attribute."""
    return str(model.model_fields[name].alias or name)


def _columns(model: type[Table]) -> dict[str, Column]:
    return {column.name: column for column in _walked(model, (), required=True) if column.name != KEY}


def _walked(model: type[Table], within: tuple[str, ...], *, required: bool) -> Iterator[Column]:
    for name, field in model.model_fields.items():
        path = (*within, alias(model, name))
        if _rows_of(field.annotation):
            continue
        inner = _table_of(field.annotation)
        needed = required and field.is_required()
        if inner:
            yield from _walked(inner, path, required=needed)
            continue
        sort, among, items = _sort(field.annotation, f"{model.__name__}.{name}")
        examples = field.examples or [None]
        yield Column(".".join(path), sort, among, items, needed, field.description or "", _shown(examples[0]))


def _lists_within(model: type[Table], within: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], type[Table]]]:
    for name, field in model.model_fields.items():
        path = (*within, alias(model, name))
        rows, inner = _rows_of(field.annotation), _table_of(field.annotation)
        if rows:
            yield path, rows
        elif inner:
            yield from _lists_within(inner, path)


def _bare(annotation: Any) -> Any:
    """A type without what is said beside it, and without the None that stands for nothing typed."""
    while get_origin(annotation) in (Annotated, Union, types.UnionType):
        if get_origin(annotation) is Annotated:
            annotation = get_args(annotation)[0]
            continue
        real = [branch for branch in get_args(annotation) if branch is not type(None)]
        if len(real) != 1:
            raise TypeError(f"{annotation} has no home in a table.")
        annotation = real[0]
    return annotation


def _table_of(annotation: Any) -> type[Table] | None:
    from ..catalogue.line import Table

    bare = _bare(annotation)
    return bare if isinstance(bare, type) and issubclass(bare, Table) else None


def _rows_of(annotation: Any) -> type[Table] | None:
    bare = _bare(annotation)
    return _table_of(get_args(bare)[0]) if get_origin(bare) is tuple else None


def _sort(annotation: Any, of: str) -> tuple[Sort, tuple[str, ...], Sort]:
    from ..catalogue.line import Size

    bare = _bare(annotation)
    if get_origin(bare) is tuple and get_args(bare)[1:] == (...,):
        items, among, _ = _sort(get_args(bare)[0], of)
        return "list", among, items
    if get_origin(bare) is Literal:
        among = tuple(map(str, get_args(bare)))
        return ("whole" if all(isinstance(word, int) for word in get_args(bare)) else "one of"), among, "words"
    sorts: dict[Any, Sort] = {
        str: "words",
        bool: "yes or no",
        int: "whole",
        float: "number",
        datetime.date: "day",
        Measure: "measure",
        Size: "measure",
    }
    if bare not in sorts:
        raise TypeError(f"{of} has no home in a table: {bare}.")
    return sorts[bare], (), "words"


def _shown(example: object) -> str:
    """An example as it is typed into a cell."""
    if example is None:
        return ""
    if isinstance(example, bool):
        return "yes" if example else "no"
    if isinstance(example, list | tuple):
        return "; ".join(map(str, example))
    return str(example)
