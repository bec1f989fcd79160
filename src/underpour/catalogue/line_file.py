"""A file of products: from its text to records, or every mistake at once with its line."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any

from ..mistakes import Mistake, Mistakes, nearest
from ..toml_text import Path, places, read_toml

if TYPE_CHECKING:
    from .line import Line

WANTED = {
    "string_type": ("Words are wanted here.", "They stand in quotes."),
    "float_type": ("A number is wanted here.", "It stands without quotes; its unit stands under unit."),
    "finite_number": ("A number is wanted here.", "Copy it from the report."),
    "int_type": ("A number is wanted here.", "It stands without quotes; its unit stands under unit."),
    "bool_type": ("Yes or no is wanted here.", "Write true or false."),
    "date_type": ("A day is wanted here.", "It stands without quotes, year first: 2026-06-01."),
    "tuple_type": ("A list is wanted here.", "It stands between [ and ]."),
    "model_type": ("A table is wanted here.", "It stands between { and }."),
    "string_pattern_mismatch": ("A key is in lower-case letters, numbers and hyphens.", 'Write it like "plain-15".'),
    "greater_than_equal": ("This is too little.", "It is 1 at least."),
}
TABLES = (".csv", ".xlsx")  # what `underpour catalogue import` makes a product line of


def line_text(path: FilePath) -> str:
    """The text of a file of products.

    Raises
    ------
    Mistake
        It is not there, is a table, may not be read, or is not text in UTF-8.
    """
    if path.suffix.lower() in TABLES and path.is_file():
        instead = f"Import it first: underpour catalogue import {path} -o {path.with_suffix('.toml')}"
        raise Mistake("", "", "This is a table, and a product line is a TOML file.", instead, str(path))
    try:
        return path.read_text("utf-8-sig").replace("\r\n", "\n")
    except FileNotFoundError:
        beside = [each.name for each in path.parent.glob("*.toml")] if path.parent.is_dir() else []
        near = nearest(path.name, beside)
        hint = f"The nearest is {path.with_name(near[0])}." if near else ""
        raise Mistake("", "", "There is no such file or folder.", hint, str(path)) from None
    except UnicodeDecodeError:
        wrong, instead = "This is not a text in UTF-8.", "A product line is plain text; save it as UTF-8."
        raise Mistake("", "", wrong, instead, str(path)) from None
    except OSError as refused:
        why = (refused.strerror or str(refused)).lower()
        raise Mistake("", "", f"The file cannot be read: {why}.", "", str(path)) from None


def lines_in(path: FilePath) -> dict[str, str]:
    """The text of each file of products by its name: of one file, or of every TOML file in a folder.

    Raises
    ------
    Mistakes
        No such file, a folder without one, a file that cannot be read.
    """
    files = sorted(path.glob("*.toml")) if path.is_dir() else [path]
    if not files:
        wrong = "There is no product line in this folder."
        instead = "A product line is a TOML file; see docs/products.md."
        for table in sorted(each for each in path.iterdir() if each.suffix.lower() in TABLES)[:1]:
            instead += f" Import the table: underpour catalogue import {table} -o {table.with_suffix('.toml')}"
        raise Mistakes([Mistake("", "", wrong, instead, str(path))])
    found: dict[str, str] = {}
    wrongs: list[Mistake] = []
    for file in files:
        try:
            found[str(file)] = line_text(file)
        except Mistake as mistake:
            wrongs.append(mistake)
    if wrongs:
        raise Mistakes(wrongs)
    return found


def read_line(text: str, file: str = "") -> Line:
    """The product line in a text.

    Raises
    ------
    Mistakes
        All that cannot be read, in the order of the lines. What can be read but is wrong of a product is not a mistake
        here; `underpour.conformity` says it.
    """
    from pydantic import ValidationError

    from .line import Line

    try:
        written = read_toml(text, file)
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    try:
        return Line.model_validate(_lists_as_tuples(written))
    except ValidationError as wrong:
        raise Mistakes(_placed(wrong.errors(include_url=False), text, file)) from None


def heads(text: str, products: int, rows: int) -> tuple[list[int], list[int]]:
    """The line of each product and of each of its tests, as they are headed in the text; empty where not all are."""
    heading = re.compile(r"^\s*\[\[\s*product\s*(\.\s*evidence\s*)?\]\]", re.MULTILINE)
    of_products: list[int] = []
    of_rows: list[int] = []
    line, done = 1, 0
    for found in heading.finditer(text):
        line += text.count("\n", done, found.end())
        done = found.end()
        (of_rows if found[1] else of_products).append(line)
    complete = len(of_products) == products and len(of_rows) == rows
    return (of_products, of_rows) if complete else ([], [])


def _lists_as_tuples(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _lists_as_tuples(each) for key, each in value.items()}
    return tuple(map(_lists_as_tuples, value)) if isinstance(value, list) else value


def _placed(errors: list[Any], text: str, file: str) -> list[Mistake]:
    where = places(text)
    found = []
    for error in errors:
        path: Path = error["loc"]
        nearest_place = next((where[path[:n]] for n in range(len(path), 0, -1) if path[:n] in where), None)
        own = where.get(path)
        for mistake in _told(path, error):
            typed = mistake.typed or (own.words if own and len(own.words) <= 48 else "")
            at = ".".join(str(step + 1) if isinstance(step, int) else step for step in path)
            line = nearest_place.line if nearest_place else 0
            found.append(Mistake(at, typed, mistake.wrong, mistake.instead, file, line))
    return found


def _told(path: Path, error: Mapping[str, Any]) -> list[Mistake]:
    kind, context = error["type"], error.get("ctx", {})
    if kind == "mistake":
        return list(context["mistakes"])
    if kind == "missing":
        return [Mistake("", "", f"There is no {path[-1]}.", _help(path))]
    if kind == "extra_forbidden":
        near = nearest(str(path[-1]), _keys_beside(path))
        hint = f"The nearest is {near[0]}." if near else f"To choose from: {', '.join(_keys_beside(path))}."
        return [Mistake("", "", f"Nothing here is called {path[-1]}.", hint)]
    if kind == "literal_error":
        return [Mistake("", "", "This is none of the words that can stand here.", f"Write {context['expected']}.")]
    wrong, instead = WANTED.get(kind, ("This cannot be read.", ""))
    return [Mistake("", "", wrong, instead)]


def _help(path: Path) -> str:
    from .line import Line

    entry = _keys_of(Line.model_json_schema(by_alias=True), path[:-1]).get(str(path[-1]), {})
    example = next(iter(entry.get("examples", ())), None)
    shown = f" For example: {path[-1]} = {json.dumps(example, ensure_ascii=False)}" if example is not None else ""
    return f"{entry.get('description', '')}{shown}"


def _keys_beside(path: Path) -> list[str]:
    from .line import Line

    return list(_keys_of(Line.model_json_schema(by_alias=True), path[:-1]))


def _keys_of(schema: Mapping[str, Any], path: Path) -> Mapping[str, Any]:
    """The keys that can stand in the table at a path, with what the schema says of each."""
    here: Mapping[str, Any] = schema
    for step in path:
        here = _entry(schema, here)
        here = here.get("items", {}) if isinstance(step, int) else here.get("properties", {}).get(step, {})
    properties: Mapping[str, Any] = _entry(schema, here).get("properties", {})
    return properties


def _entry(schema: Mapping[str, Any], here: Mapping[str, Any]) -> Mapping[str, Any]:
    """What a reference or a choice with nothing stands for."""
    branches = here.get("anyOf", here.get("allOf", (here,)))
    real = next((branch for branch in branches if branch.get("type") != "null"), here)
    if "$ref" in real:
        found: Mapping[str, Any] = schema["$defs"][real["$ref"].rsplit("/", 1)[-1]]
        return found
    return real
