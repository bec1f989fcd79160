"""A product line written down as TOML, as a person would type it; `line_file.read_line` gives the same line back."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterator
from functools import cache
from typing import Any

from .line import Line, Table

WIDTH = 120
HEADED = ("product", "evidence")  # lists whose tables have headings of their own, by which messages find their line
HEAD = "# docs/products.md says what each key means; underpour catalogue validate holds each record to its evidence.\n"


def line_toml(line: Line) -> str:
    """A product line as text: what was typed of each record, in the order of the models."""
    parts = [HEAD, *_keys(line, "")]
    parts += ["\n[maker]\n", *_keys(line.maker, "")]
    for product in line.product:
        parts += ["\n[[product]]\n", *_keys(product, "")]
        for row in product.evidence:
            parts += ["  [[product.evidence]]\n", *_keys(row, "  ")]
    return "".join(parts)


def _keys(record: Table, indent: str) -> Iterator[str]:
    for key, value in _typed(record):
        if key in HEADED or (isinstance(value, Table) and isinstance(record, Line)):
            continue
        short = f"{indent}{key} = {_value(value)}"
        of_tables = isinstance(value, tuple) and len(value) > 2 and isinstance(value[0], Table)
        if isinstance(value, tuple) and (of_tables or len(short) > WIDTH):
            inner = "".join(f"{indent}  {_value(each)},\n" for each in value)
            yield f"{indent}{key} = [\n{inner}{indent}]\n"
        else:
            yield f"{short}\n"


def _typed(record: Table) -> Iterator[tuple[str, Any]]:
    """Keys and values that were typed of a record."""
    for name, field in type(record).model_fields.items():
        value = getattr(record, name)
        if value is not None and name in record.model_fields_set:
            yield str(field.alias or name), value


def _value(value: Any) -> str:
    if isinstance(value, Table):
        inner = ", ".join(f"{key} = {_value(each)}" for key, each in _typed(value))
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, tuple):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        words = repr(value)
        return words[:-2] if words.endswith(".0") and value else words
    if isinstance(value, int):
        return str(value)
    if isinstance(value, datetime.date):
        return value.isoformat()
    # JSON's way to write a text is TOML's too, but for one control character
    return _text().encode(getattr(value, "typed", value)).replace("\x7f", "\\u007f")


@cache
def _text() -> json.JSONEncoder:
    return json.JSONEncoder(ensure_ascii=False)
