"""A product line goes into a table and comes back the same: the shipped one, and lines made at random."""

from __future__ import annotations

import csv
import datetime
import io
import string
import zipfile
from functools import cache
from typing import Annotated, Any

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from underpour.catalogue.line import Conditions, Line, Maker, Table, families
from underpour.catalogue.line_file import read_line
from underpour.catalogue.line_toml import line_toml
from underpour.catalogue.products import SHIPPED
from underpour.catalogue.properties import properties
from underpour.mistakes import Mistakes
from underpour.tabled import line_in, start, table_of
from underpour.tabled.cells import NUMBER, guarded, list_items, read, written
from underpour.tabled.columns import KEY, ROW, Column, _rows_of, _table_of, alias, headings, row_kinds
from underpour.tabled.comma_separated import LEADS_TO_A_FORMULA

ENDINGS = [".csv", ".xlsx"]

# What spreadsheets, CSV and TOML each treat in a way of their own.
AWKWARD = ["=1+1", "+4", "-4", "@here", "'", "''", " a ", "a\n\nb", "\t", '"', '""', "a;b", ";", "a,b", "\\", "\u00a0",
           "\ufeff", "Â²", "_x0041_", "TRUE", "1e5", "007", "1/2", "2025-03-18", "03/04/05", "#REF!", "http://a.b",
           "{=1}", "-1+cmd|' /C calc'!A0", "＝1", "\u200f\u05d0", "😀", "a" * 300]  # fmt: skip
WORDS = st.sampled_from(AWKWARD) | st.text(
    st.characters(codec="utf-8", exclude_categories=["Cc", "Zl", "Zp"], exclude_characters="\ufffe\uffff"), max_size=12
)
MEASURES = ["2 in", "50 mm", "-65 F", "75 F", "180 d", "25 years", "fresh", "R8.1", "RSI 1.43", "30 %", "90 kPa",
            "0.02 m/s", "4 ft x 8 ft", "1-1/2 in", "2\u00a0in", " 2 in ", "1200 mm × 2400 mm", "2″"]  # fmt: skip
KEYS = st.text(string.ascii_lowercase + string.digits, min_size=1, max_size=6)


ADAPTERS: dict[int, TypeAdapter[Any]] = {}


def taken(field: FieldInfo, value: object) -> bool:
    """Whether a key of a model takes a value."""
    try:
        _adapter(field).validate_python(value, strict=True)
    except ValidationError:
        return False
    return True


def _adapter(field: FieldInfo) -> TypeAdapter[Any]:
    if id(field) not in ADAPTERS:
        of = Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation
        ADAPTERS[id(field)] = TypeAdapter(of)
    return ADAPTERS[id(field)]


def one(field: FieldInfo, column: Column) -> st.SearchStrategy[Any]:
    """Values that a key takes."""
    listed = column.sort == "list"
    sort = column.items if listed else column.sort
    wrapped = (lambda value: (value,)) if listed else (lambda value: value)
    if sort == "number":
        found: st.SearchStrategy[Any] = st.floats(allow_nan=False, allow_infinity=False).map(
            lambda value: float(f"{value:.12g}")
        )
    elif sort == "whole":
        found = st.sampled_from([int(word) for word in column.among]) if column.among else st.integers(1, 10**9)
    elif sort == "yes or no":
        found = st.booleans()
    elif sort == "day":
        found = st.dates(datetime.date(1, 1, 1))
    elif column.among:
        found = st.sampled_from(column.among)
    elif taken(field, wrapped("any words\u00a0;")):
        found = WORDS
    else:
        known = [word for word in [*MEASURES, *properties(), *families()] if taken(field, wrapped(word))]
        assert known, f"no value is known for {column.name}"
        found = st.sampled_from(known)
    return st.lists(found, max_size=3).map(tuple) if listed else found


@cache
def tables(model: type[Table], kind: str, within: tuple[str, ...] = ()) -> st.SearchStrategy[dict[str, Any]]:
    """Tables of a model, as they are typed: what must stand there and any choice of what may."""
    must: dict[str, st.SearchStrategy[Any]] = {}
    may: dict[str, st.SearchStrategy[Any]] = {}
    for name, field in model.model_fields.items():
        path = (*within, alias(model, name))
        rows, inner = _rows_of(field.annotation), _table_of(field.annotation)
        if path == (KEY,):
            continue
        if rows is not None:
            value: st.SearchStrategy[Any] = st.lists(tables(rows, ".".join(path)), max_size=3).map(tuple)
            if (kind, path) == ("line", ("product",)):
                continue
        elif inner is not None:
            value = tables(inner, kind, path)
        else:
            value = one(field, row_kinds()[kind].columns[".".join(path)])
        (must if field.is_required() else may)[path[-1]] = value
    return st.fixed_dictionaries(must, optional=may)


@st.composite
def lines(draw: st.DrawFn) -> Line:
    keys = draw(st.lists(KEYS, min_size=1, max_size=3, unique=True))
    product = row_kinds()["product"].model
    products = tuple({**draw(tables(product, "product")), "key": key} for key in keys)
    return Line.model_validate({**draw(tables(Line, "line")), "product": products})


MADE = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


@MADE
@given(lines())
def test_any_line_comes_back_from_csv_the_same_and_gives_the_same_bytes_again(line: Line) -> None:
    written = table_of(line, ".csv")
    back = line_in(written, ".csv")
    assert back == line
    assert table_of(back, ".csv") == written


@settings(MADE, max_examples=25)
@given(lines())
def test_any_line_comes_back_from_a_workbook_the_same(line: Line) -> None:
    assert line_in(table_of(line, ".xlsx"), ".xlsx") == line


@MADE
@given(lines())
def test_any_line_comes_back_from_toml_the_same(line: Line) -> None:
    written = line_toml(line)
    assert read_line(written) == line
    assert line_toml(read_line(written)) == written


@MADE
@given(lines())
def test_no_cell_of_a_csv_can_become_a_formula(line: Line) -> None:
    rows = csv.reader(io.StringIO(table_of(line, ".csv").decode(), newline=""))
    assert not [
        cell for row in rows for cell in row if cell.startswith(LEADS_TO_A_FORMULA) and not NUMBER.fullmatch(cell)
    ]


@pytest.mark.parametrize("ending", ENDINGS)
def test_the_shipped_line_comes_back_the_same_and_gives_the_same_bytes_again(ending: str) -> None:
    line = read_line(SHIPPED.read_text("utf-8"))
    written = table_of(line, ending)
    back = line_in(written, ending)
    assert back == line
    assert table_of(back, ending) == written
    assert read_line(line_toml(back)) == line


@pytest.mark.parametrize("ending", ENDINGS)
def test_the_table_to_begin_with_is_read_and_has_every_column(ending: str) -> None:
    line = line_in(start(ending), ending)
    assert len(line.product) == 1
    if ending == ".csv":
        assert start(ending).decode().splitlines()[0] == ",".join(headings())


def test_a_workbook_holds_no_formula_and_no_link() -> None:
    line = read_line(SHIPPED.read_text("utf-8"))
    line = line.model_copy(update={"product": (line.product[0].model_copy(update={"name": "=1+1"}),)})
    written = table_of(line, ".xlsx")
    with zipfile.ZipFile(io.BytesIO(written)) as book:
        parts = {name: book.read(name).decode() for name in book.namelist()}
    assert not [name for name, part in parts.items() if "<f>" in part or "hyperlink" in part]
    (cell,) = (
        cell for row in openpyxl.load_workbook(io.BytesIO(written))["product"] for cell in row if cell.value == "=1+1"
    )
    assert cell.quotePrefix  # it stays text when somebody edits it


def test_a_control_character_comes_back_from_toml() -> None:
    line = read_line(SHIPPED.read_text("utf-8"))
    line = line.model_copy(update={"maker": Maker(name='\x01\x1f\x7f\r\n\t"\\')})
    assert read_line(line_toml(line)) == line


def leaves(schema: dict[str, Any], here: dict[str, Any], path: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """Every key below a table of the schema that holds no table itself, lists of tables marked by []."""
    found = []
    for key, entry in here.get("properties", {}).items():
        real = next((each for each in entry.get("anyOf", [entry]) if each.get("type") != "null"), entry)
        items = real.get("items", {})
        if "$ref" in real:
            found += leaves(schema, schema["$defs"][real["$ref"].rsplit("/", 1)[-1]], (*path, key))
        elif "$ref" in items:
            found += leaves(schema, schema["$defs"][items["$ref"].rsplit("/", 1)[-1]], (*path, key, "[]"))
        else:
            found.append((*path, key))
    return found


def test_every_key_of_a_line_has_its_column() -> None:
    """The schema is a second way through the models."""
    schema = Line.model_json_schema(by_alias=True)
    without = []
    for path in leaves(schema, schema):
        *before, last = ".".join(path).split(".[].")
        kind = before[-1] if before else "line"
        if last not in row_kinds()[kind].columns and (kind, last) != ("product", KEY):
            without.append(path)
    assert not without
    assert len(leaves(schema, schema)) > 70


def test_columns_that_two_kinds_of_row_share_are_not_taken_for_one_another() -> None:
    kinds = row_kinds()
    assert {"price", "lap"} <= set(kinds["product"].columns)
    assert "price" in kinds["made"].columns
    assert ROW not in {name for kind in kinds.values() for name in kind.columns}


@given(st.lists(WORDS, min_size=1, max_size=4))
def test_a_list_comes_back_item_by_item(items: list[str]) -> None:
    column = row_kinds()["product"].columns["claims"]
    cell = written(column, tuple(items))
    assert read(column, cell, typed_cells=False) == tuple(items)


@given(WORDS)
def test_guarded_words_come_back(words: str) -> None:
    column = row_kinds()["product"].columns["note"]
    assert read(column, guarded(words), typed_cells=False) == words


def test_items_of_a_list_that_are_typed_by_hand_are_read() -> None:
    assert list_items('a;b ; "c;d";"e ""f"""; 2" board') == ["a", "b", "c;d", 'e "f"', '2" board']


def test_two_products_of_one_key_are_not_written() -> None:
    line = read_line(SHIPPED.read_text("utf-8"))
    line = line.model_copy(update={"product": (line.product[0], line.product[0])})
    with pytest.raises(Mistakes, match="Two products have the key plain-10"):
        table_of(line, ".csv")


@pytest.mark.parametrize("spoilt", ["a\rb", "a\x00b", "a\x7fb", "a\u2028b"])
def test_a_control_character_is_not_written(spoilt: str) -> None:
    line = read_line(SHIPPED.read_text("utf-8"))
    line = line.model_copy(update={"product": (line.product[0].model_copy(update={"name": spoilt}),)})
    with pytest.raises(Mistakes, match=r"plain-10, name.*\n.*control character"):
        table_of(line, ".csv")


def test_what_no_cell_of_a_workbook_holds_whole_is_not_written() -> None:
    line = read_line(SHIPPED.read_text("utf-8"))
    product = line.product[0]
    row = product.evidence[0].model_copy(update={"value": 0.1 + 0.2, "conditions": Conditions(note="é" * 33_000)})
    line = line.model_copy(update={"product": (product.model_copy(update={"evidence": (row,)}),)})
    with pytest.raises(Mistakes) as told:
        table_of(line, ".xlsx")
    assert "plain-10, value" in str(told.value)
    assert "plain-10, conditions.note" in str(told.value)
    assert line_in(table_of(line, ".csv"), ".csv") == line
