"""``underpour catalogue validate``: a product line held to its evidence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from ...conformity import Held, ReadLine, RecordFinding, Validation, validation
from ...conformity.rules import rules
from ...findings import Verdict
from ...mistakes import Mistake, Mistakes
from ..days import day
from ..paragraphs import hung, width_of_terminal
from ..parsing import Words
from ..spoken import stands_on
from ..told import Told
from .tables import TABLES, nothing_thrown_away, table_content

EXAMPLE = "underpour catalogue validate my-line.toml"
HELP = """\
underpour catalogue validate [FILE-or-FOLDER] [--wide] [--date DAY] [--json]

Holds a product line to its evidence: which class the records carry, what falls
short of a claim, what is missing, what expires within 90 days, which records
disagree. It changes no file. docs/products.md says what a record holds.

  FILE-or-FOLDER  a product line, or a folder of them; the line that comes
                  with the tool unless you say. A table, CSV or XLSX, is held
                  as it stands, and what is told names its rows
  --wide          the table has one product a row, its tests side by side
  --date DAY      the day that certificates are held to, such as 2026-11-27;
                  today unless you say
  --json          the same as data

For example:

  underpour catalogue validate my-line.toml

It ends with 1 where a record falls short, and with 2 where a file cannot be
read.
"""
COUNTED: tuple[tuple[Verdict, str, str], ...] = (
    ("falls short", "falls short", "fall short"),
    ("cannot tell", "cannot tell", "cannot tell"),
    ("not required, advised", "advised", "advised"),
)
CAUTION = (
    "Validating compares what is typed. It tests no board and opens no certificate: keep the reports, and let whoever"
    " stands behind the product read them."
)


def parser() -> Words:
    words = Words("catalogue validate", EXAMPLE)
    words.add_argument("line", nargs="?")
    words.add_argument("--wide", action="store_true")
    words.add_argument("--date")
    words.add_argument("--json", action="store_true")
    return words


def told(words: Sequence[str]) -> Told:
    """Every product of a line with what its evidence carries."""
    asked = parser()
    given = asked.read(words)
    today = day(given.date)
    lines = lines_read(given.line, wide=given.wide)
    found = validation([each.line for each in lines], today, rules())
    places = {each.line.file: each.places for each in lines}
    status = 1 if found.falls_short else 0
    if given.json:
        import json

        from ...conformity.validation_json import plain

        return Told(json.dumps(plain(found, places), indent=2, ensure_ascii=False) + "\n", status)
    return Told(in_words(found, width_of_terminal(), places), status)


@dataclass(frozen=True)
class Placed:
    """A line that was read, and what its places are called where they are not lines of a TOML file."""

    line: ReadLine
    places: tuple[str, ...] = ()  # of a table, by the number that the line has for each: "row 7"


def lines_read(path: str | None, *, wide: bool = False) -> list[Placed]:
    """The lines in a file, a folder or a table; the line that comes with the tool where none is named.

    Raises
    ------
    Mistakes
        Every file that cannot be read, with file and line, or row and column.
    """
    from ...catalogue.line_file import heads, lines_in, read_line
    from ...catalogue.products import SHIPPED

    if path is not None and Path(path).suffix.lower() in TABLES and not Path(path).is_dir():
        return [_table(path, wide=wide)]
    if wide:
        at = f"underpour catalogue validate {path or ''} --wide".replace("  ", " ")
        raise Mistake(at, "", "Only a table can be wide.", "Leave out --wide, or name a .csv or .xlsx file.")
    found: list[Placed] = []
    wrong: list[Mistake] = []
    for file, text in lines_in(SHIPPED if path is None else Path(path)).items():
        name = SHIPPED.name if path is None else file
        try:
            line = read_line(text, name)
        except Mistakes as mistakes:
            wrong += mistakes
            continue
        rows = sum(len(product.evidence) for product in line.product)
        found.append(Placed(ReadLine(line, name, *map(tuple, heads(text, len(line.product), rows)))))
    if wrong:
        raise Mistakes(wrong)
    return found


def _table(path: str, *, wide: bool) -> Placed:
    """A table as it stands: each place is a number here, and its words are looked up when they are told."""
    from ...tabled import taken_from

    with nothing_thrown_away():
        try:
            taken = taken_from(table_content(path), Path(path).suffix.lower(), wide=wide)
        except Mistakes as wrong:
            raise Mistakes(mistake.placed(file=path) for mistake in wrong) from None
    products = tuple(range(1, len(taken.products) + 1))
    rows = tuple(range(len(products) + 1, len(products) + len(taken.rows) + 1))
    return Placed(ReadLine(taken.line, path, products, rows), (*taken.products, *taken.rows))


def in_words(of: Validation, width: int, places: Mapping[str, Sequence[str]]) -> str:
    """What each product's evidence carries, what is to be known of it, and how many of each there are."""
    lines: list[str] = []
    file = None
    for held in of.products:
        if held.file != file:
            file = held.file
            lines += [*([""] if lines else []), file, ""]
        lines += _product(held, width, places.get(held.file, ()))
    lines += ["", *_closing(of, width)]
    return "\n".join(lines) + "\n"


def _product(held: Held, width: int, places: Sequence[str]) -> Iterator[str]:
    carries = f"stands for {', '.join(held.supports)}" if held.supports else "stands for no class that is held here"
    yield from hung(f"{held.name or held.key}: {carries}", width, 18, f"  {held.key}")
    if held.refused:
        yield from hung(f"Refused: {'; '.join(held.refused)}", width, 18)
    if held.not_held:
        yield from hung(f"Not looked at in its code: {', '.join(dict.fromkeys(held.not_held))}", width, 18)
    for n, finding in enumerate(held.findings):
        if n and _head(finding) == _head(held.findings[n - 1]):
            yield from hung(f"{finding.wrong} {finding.instead}", width, 8)
            continue
        yield ""
        yield from _finding(finding, width, places)
    if held.findings:
        yield ""


def _head(finding: RecordFinding) -> tuple[object, ...]:
    """What stands above the words of a finding; what is missing of one record stands below one such head."""
    return finding.verdict, finding.property, finding.line, finding.read, finding.basis


def _finding(finding: RecordFinding, width: int, places: Sequence[str]) -> Iterator[str]:
    place = "" if not finding.line else places[finding.line - 1] if places else f"line {finding.line}"
    at = f" ({place})" if place else ""
    about = f": {finding.property}" if finding.property else ""
    yield from hung(f"{finding.verdict}{about}{at}", width, 6)
    yield from hung(finding.read, width, 8)
    yield from hung(f"{finding.wrong} {finding.instead}", width, 8)
    if finding.basis is not None:
        yield from hung(stands_on(finding.basis), width, 8)


def _closing(of: Validation, width: int) -> Iterator[str]:
    counts = Counter(finding.verdict for finding in of.findings)
    told = [f"{counts[each]} {one if counts[each] == 1 else many}" for each, one, many in COUNTED if counts[each]]
    told = told if counts["falls short"] else ["nothing falls short", *told]
    number = f"{len(of.products)} product" + ("s" if len(of.products) != 1 else "")
    date = f"{of.date.day} {of.date:%B} {of.date.year}"
    yield from hung(f"{number}, held to {date}: {', '.join(told)}.", width)
    yield from hung(CAUTION, width)
