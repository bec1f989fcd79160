"""A product line held to its evidence, in words."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from ..conformity import Held, ReadLine, RecordFinding, Validation, validation
from ..findings import Verdict
from ..mistakes import Mistake, Mistakes
from .paragraphs import hung
from .spoken import stands_on

COUNTED: tuple[tuple[Verdict, str, str], ...] = (
    ("falls short", "falls short", "fall short"),
    ("cannot tell", "cannot tell", "cannot tell"),
    ("not required, advised", "advised", "advised"),
)
CAUTION = (
    "Validating compares what is typed. It tests no board and opens no certificate: keep the reports, and let whoever"
    " stands behind the product read them."
)


def validated(path: str | None, today: datetime.date) -> Validation:
    """The line in a file or folder held to its evidence; the line that comes with the tool where none is named.

    Raises
    ------
    Mistakes
        Every file that cannot be read, with file and line.
    """
    from ..catalogue.line_file import heads, lines_in, read_line
    from ..catalogue.products import SHIPPED
    from ..conformity.rules import rules

    found: list[ReadLine] = []
    wrong: list[Mistake] = []
    for file, text in lines_in(SHIPPED if path is None else Path(path)).items():
        name = SHIPPED.name if path is None else file
        try:
            line = read_line(text, name)
        except Mistakes as mistakes:
            wrong += mistakes
            continue
        rows = sum(len(product.evidence) for product in line.product)
        found.append(ReadLine(line, name, *map(tuple, heads(text, len(line.product), rows))))
    if wrong:
        raise Mistakes(wrong)
    return validation(found, today, rules())


def day(typed: str | None) -> datetime.date:
    """The day that certificates are held to: as typed, or today."""
    if typed is None:
        return datetime.date.today()
    try:
        return datetime.date.fromisoformat(typed)
    except ValueError:
        instead = "Write it year first: --date 2026-11-27"
        raise Mistake(f"--date {typed}", "", f"{typed} is not a day that can be read.", instead) from None


def in_words(of: Validation, width: int) -> str:
    """What each product's evidence carries, what is to be known of it, and how many of each there are."""
    lines: list[str] = []
    file = None
    for held in of.products:
        if held.file != file:
            file = held.file
            lines += [*([""] if lines else []), file, ""]
        lines += _product(held, width)
    lines += ["", *_closing(of, width)]
    return "\n".join(lines) + "\n"


def _product(held: Held, width: int) -> Iterator[str]:
    carries = f"stands for {', '.join(held.supports)}" if held.supports else "stands for no class that is held here"
    yield from hung(f"{held.name or held.key}: {carries}", width, 18, f"  {held.key}")
    if held.refused:
        yield from hung(f"Refused: {'; '.join(held.refused)}", width, 18)
    if held.not_held:
        yield from hung(f"Not looked at in its code: {', '.join(dict.fromkeys(held.not_held))}", width, 18)
    for finding in held.findings:
        yield ""
        yield from _finding(finding, width)
    if held.findings:
        yield ""


def _finding(finding: RecordFinding, width: int) -> Iterator[str]:
    at = f" (line {finding.line})" if finding.line else ""
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
