"""The ledger: each value that somebody else printed, beside what we give, written down while the tests go by.

A test of ``tests/published`` says what it holds by ``held`` (a number), ``between`` (a range or one end of it) or
``told`` (words); each writes down a row and then holds it. Started with ``-p ledger --ledger FILE`` pytest leaves all
rows in that file; without it they are forgotten. The page is made by docs/making/ledger_page.py.
"""

from __future__ import annotations

import csv
import os
from collections.abc import Iterable, Mapping
from dataclasses import astuple, dataclass, fields
from math import floor, inf, isfinite, log10
from pathlib import Path
from typing import Any

SEEN = ("document", "quoted", "memory", "practice", "derived")


@dataclass(frozen=True)
class Row:
    """One value of the ledger, every cell as it is shown."""

    file: str  # "tests/published/test_iso13370.py", "examples/raft-house"
    test: str  # "test_a_slab_on_clay_loses_what_table_c1_prints", "heat.loss-mean"
    case: str  # "P/A 0.1, 0.0"
    printed: str  # empty where the test holds nothing that is printed
    ours: str
    difference: str  # empty for words
    tolerance: str
    unit: str
    source: str
    seen: str


ROWS: list[Row] = []


def held(
    ours: float, printed: float, tolerance: float, unit: str, source: str, seen: str, what: str = "", digits: str = ""
) -> None:
    """Hold a number to the printed one. ``digits`` is the print's own spelling where it is not that of the number."""
    shown = partly(ours - printed, tolerance)
    _write(digits or f"{printed:.10g}", partly(ours, tolerance), shown, f"{tolerance:.3g}", unit, source, seen, what)
    assert abs(ours - printed) <= tolerance, f"ours {ours}, printed {printed} ± {tolerance} {unit} ({source})"


def held_row(row: Mapping[str, Any], ours: float, source: str, what: str = "") -> None:
    """Hold a row of a file of printed values, which has its unit, its tolerance and how it was seen."""
    held(ours, row["value"], row["tolerance"], row["unit"], source, row["seen"], what)


def between(
    ours: float,
    low: float,
    high: float,
    tolerance: float,
    unit: str,
    source: str,
    seen: str,
    what: str = "",
    digits: str = "",
) -> None:
    """Hold a number to a printed range; an end that is not printed is infinite."""
    ends = [f"{end:.10g}" for end in (low, high) if isfinite(end)]
    one_sided = "at least " if high == inf else "at most " if low == -inf else ""
    printed = digits or one_sided + " to ".join(ends)
    beyond = min(ours - low, 0.0) or max(ours - high, 0.0)
    fine = tolerance or 1e-3 * max(abs(end) for end in (low, high) if isfinite(end))
    shown = partly(beyond, fine)
    _write(printed, partly(ours, fine), shown, f"{tolerance:.3g}", unit, source, seen, what)
    assert low - tolerance <= ours <= high + tolerance, f"ours {ours}, printed {printed} ± {tolerance} {unit}"


def told(ours: str, printed: str, source: str, seen: str, what: str = "") -> None:
    """Hold words to the printed ones: a class, a zone, a verdict."""
    _write(printed, ours, "", "", "", source, seen, what)
    assert ours == printed, f"ours {ours}, printed {printed} ({source})"


def partly(value: float, tolerance: float) -> str:
    """A number to two digits of what is allowed, so that a difference is seen before it matters."""
    if not isfinite(value):
        return str(value)
    rounded = round(value, places(tolerance))
    return f"{rounded or 0.0:.12g}"


def places(tolerance: float) -> int:
    """Digits behind the point (below nought: before it) that show two digits of a tolerance."""
    return 1 - floor(log10(tolerance)) if tolerance else 9


def _write(
    printed: str, ours: str, difference: str, tolerance: str, unit: str, source: str, seen: str, what: str
) -> None:
    assert seen in SEEN, f"{seen}: a source is seen as one of {SEEN}"
    assert source, "a printed value has a source"
    file, test, case = current()
    case = ", ".join(filter(None, (case, what)))
    ROWS.append(Row(file, test, case, printed, ours, difference, tolerance, unit, source, seen))


def current() -> tuple[str, str, str]:
    """File, test and case that are being worked through."""
    node = os.environ["PYTEST_CURRENT_TEST"].rpartition(" (")[0]
    file, _, name = node.partition("::")
    test, _, case = name.partition("[")
    return file, test, case.removesuffix("]").encode("latin-1").decode("unicode_escape")


def write(rows: Iterable[Row], file: Path) -> None:
    """Leave rows as a table."""
    with file.open("w", encoding="utf-8", newline="") as out:
        table = csv.writer(out, lineterminator="\n")
        table.writerow(field.name for field in fields(Row))
        table.writerows(astuple(row) for row in rows)


def read(file: Path) -> list[Row]:
    """The rows of a table."""
    with file.open(encoding="utf-8", newline="") as lines:
        return [Row(**row) for row in csv.DictReader(lines)]


def moved(one: Row, other: Row) -> bool:
    """Whether two rows tell different things; our own number may turn over by one in its last digit."""
    if one == other:
        return False
    pair = [(r.file, r.test, r.case, r.printed, r.tolerance, r.unit, r.source, r.seen) for r in (one, other)]
    if pair[0] != pair[1] or not one.tolerance:
        return True
    step = 10.0 ** -places(float(one.tolerance)) if float(one.tolerance) else 0.0
    return abs(float(one.ours) - float(other.ours)) > 1.001 * step


# What makes this file a plugin of pytest.


def pytest_addoption(parser) -> None:
    parser.addoption("--ledger", help="leave the rows of the ledger in this file")


def pytest_runtest_teardown(item) -> None:
    """A test that holds nothing printed is written down too, so that it is seen to be one."""
    file, test, _ = current()
    if not any((row.file, row.test) == (file, test) for row in reversed(ROWS)):
        ROWS.append(Row(file, test, "", "", "", "", "", "", "", ""))


def pytest_sessionfinish(session) -> None:
    if session.config.getoption("--ledger"):
        write(ROWS, Path(session.config.getoption("--ledger")))
