"""``underpour catalogue import`` and ``export``: a product line in and out of tables."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from ...mistakes import Mistake, Mistakes, nearest
from .. import files
from ..parsing import Words
from ..told import Told

if TYPE_CHECKING:
    from ...catalogue.line import Line

HELP = """\
underpour catalogue import TABLE -o LINE.toml [--wide] [--over]
underpour catalogue export [FILE-or-FOLDER] -o TABLE [--over]
underpour catalogue export --start [--wide] -o TABLE

import reads a product line from a table, CSV or XLSX: one row for each product
and each test. All that is wrong with it is told at once, each with its row and
column, and nothing is written then. export writes a line as a table.

  TABLE           a .csv or .xlsx file
  FILE-or-FOLDER  a product line; the line that comes with the tool unless you
                  say
  --start         a table to begin with: every column, and one product as an
                  example
  --wide          a table of one product a row, its tests side by side, each in
                  a column headed by property, unit and test, such as
                  "strength [psi] ASTM D1621" (docs/products.md)
  --over          write over a file that stands there

For example:

  underpour catalogue export --start -o my-line.xlsx
  underpour catalogue import my-line.xlsx -o my-line.toml
"""
IMPORT = "underpour catalogue import my-line.csv -o my-line.toml"
EXPORT = "underpour catalogue export my-line.toml -o my-line.xlsx"
TABLES = (".csv", ".xlsx")
LARGEST = 20_000_000  # bytes; a line of 500 products takes one or two million
OTHER_TABLES = {
    ".xls": "Save it as .xlsx.",
    ".xlsm": "Save it as .xlsx, without its macros.",
    ".ods": "Save it as .xlsx.",
    ".tsv": "Save it as .csv, with commas.",
    ".txt": "Save it as .csv, with commas.",
}


def _words(command: str, example: str) -> Words:
    words = Words(f"catalogue {command}", example)
    words.add_argument("file", nargs="?")
    words.add_argument("-o", dest="to", metavar="FILE")
    words.add_argument("--over", action="store_true")
    words.add_argument("--wide", action="store_true")
    return words


def imported(typed: Sequence[str]) -> Told:
    """A table read, held to the form of a line and written as TOML; or everything that is wrong with it."""
    asked = _words("import", IMPORT)
    given = asked.read(typed)
    table = asked.must(given.file, "Which table? Name a .csv or .xlsx file.")
    to = asked.must(given.to, "Where to? Name the line with -o my-line.toml.")
    ending = _ending(table)
    path = _target(to, ".toml", over=given.over)
    content = table_content(table)

    from ...catalogue.line_toml import line_toml
    from ...tabled import taken_from

    with nothing_thrown_away():
        try:
            taken = taken_from(content, ending, wide=given.wide)
        except Mistakes as wrong:
            raise Mistakes([_nothing_written(len(wrong.found)), *(each.placed(file=table) for each in wrong)]) from None
        written = line_toml(taken.line).encode()
    _write(path, written, to, over=given.over)
    said = [f"{_counts(taken.line)}, in {to}.", *taken.said, f"Next: underpour catalogue validate {to}"]
    return Told("\n".join(said) + "\n")


def exported(typed: Sequence[str]) -> Told:
    """A line written as a table."""
    words = _words("export", EXPORT)
    words.add_argument("--start", action="store_true")
    given = words.read(typed)
    to = words.must(given.to, "Where to? Name the table with -o my-line.csv or -o my-line.xlsx.")
    path = _target(to, TABLES, over=given.over)
    if given.start and given.file is not None:
        wrong = "--start gives a table to begin with; no line is named beside it."
        raise Mistake("underpour catalogue export --start", "", wrong, "Leave out one of the two.")

    if given.wide and not given.start:
        wrong = "A line is exported with one test a row, which holds all of it; a wide table cannot."
        raise Mistake("underpour catalogue export --wide", "", wrong, "Leave out --wide, or add --start.")

    from ...tabled import start, table_of

    if given.start:
        _write(path, start(path.suffix.lower(), wide=given.wide), to, over=given.over)
        wide = " --wide" if given.wide else ""
        said = [
            "A table to begin with, with one product as an example, is in " + to + ".",
            f"Next: underpour catalogue import {to}{wide} -o my-line.toml",
        ]
        return Told("\n".join(said) + "\n")
    line, name = _line(given.file)
    try:
        content = table_of(line, path.suffix.lower())
    except Mistakes as wrong:
        raise Mistakes(mistake.placed(file=name) for mistake in wrong) from None
    _write(path, content, to, over=given.over)
    return Told(f"{_counts(line)}, in {to}.\n")


@contextmanager
def nothing_thrown_away() -> Iterator[None]:
    """Python does not look for what could be thrown away: every cell is needed to the end.

    It would walk all of them again and again as they come, which is a quarter of the time of a large workbook.
    """
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _target(to: str, ending: str | tuple[str, ...], *, over: bool) -> Path:
    path = files.target(to, ending, None)
    if path.exists() and not over:
        wrong = "There is such a file, and it stays as it is."
        raise Mistake(f"-o {to}", "", wrong, "Write to another name, or write over it with --over.")
    return path


def _write(path: Path, content: bytes, to: str, *, over: bool) -> None:
    if over:
        files.replace_whole(path, content, to)
    else:
        files.write_new(path, content, f"-o {to}")


def _ending(table: str) -> str:
    ending = Path(table).suffix.lower()
    if ending in TABLES:
        return ending
    instead = OTHER_TABLES.get(ending, "Name a .csv or .xlsx file.")
    if ending == ".toml":
        instead = f"To write it as a table: underpour catalogue export {table} -o my-line.csv"
    raise Mistake("", "", "A table is read from CSV or XLSX.", instead, table)


def table_content(table: str) -> bytes:
    path = Path(table)
    try:
        if path.is_dir():
            raise Mistake("", "", "That is a folder; a table is wanted.", "Name a file in it.", table)
        if path.exists() and not path.is_file():
            raise Mistake("", "", "That is not an ordinary file.", "Name a .csv or .xlsx file.", table)
        if path.stat().st_size > LARGEST:
            wrong = f"The file is larger than {LARGEST // 1_000_000} MB."
            raise Mistake("", "", wrong, "A line of 500 products takes one or two MB. Is it the right file?", table)
        return path.read_bytes()
    except FileNotFoundError:
        beside = [each.name for each in path.parent.glob("*") if each.suffix.lower() in TABLES]
        near = nearest(path.name, beside)
        hint = f"The nearest is {path.with_name(near[0])}." if near else ""
        raise Mistake("", "", "There is no such file.", hint, table) from None
    except OSError as refused:
        why = (refused.strerror or str(refused)).lower()
        raise Mistake("", "", f"The file cannot be read: {why}.", "", table) from None


def _line(typed: str | None) -> tuple[Line, str]:
    """The line to be exported, with the name of its file; the one that comes with the tool where none is named."""
    from ...catalogue.line_file import lines_in, read_line
    from ...catalogue.products import SHIPPED

    texts = lines_in(SHIPPED if typed is None else Path(typed))
    if len(texts) > 1:
        listed = ", ".join(Path(name).name for name in texts)
        raise Mistake(
            "", "", "A table holds one line, and there are several here.", f"Name one of {listed}.", typed or ""
        )
    ((file, text),) = texts.items()
    name = SHIPPED.name if typed is None else file
    return read_line(text, name), name


def _counts(line: Line) -> str:
    products, tests = len(line.product), sum(len(product.evidence) for product in line.product)
    told = f"{products} product{'s' if products != 1 else ''} of {line.maker.name or 'a maker without a name'}"
    return f"{told} with {tests} test record{'s' if tests != 1 else ''}"


def _nothing_written(wrong: int) -> Mistake:
    told = f"Nothing was written: {wrong} {'thing is' if wrong == 1 else 'things are'} wrong with the table."
    return Mistake("underpour catalogue import", "", told)
