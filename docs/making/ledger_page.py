"""Writes docs/ledger.csv and docs/ledger.md, every value that somebody else printed beside ours, from the tests.

.venv/bin/python docs/making/ledger_page.py           works through tests/published, and through the examples whose
                                                      held.toml has changed
.venv/bin/python docs/making/ledger_page.py --anew    works through all examples too (minutes)
"""

import ast
import os
import subprocess
import sys
import tempfile
import tomllib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from itertools import groupby
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
PAGE, TABLE = ROOT / "docs" / "ledger.md", ROOT / "docs" / "ledger.csv"
sys.path[:0] = [str(ROOT / "tests"), str(ROOT / "src")]

import ledger  # noqa: E402
from ledger import SEEN, Row, partly  # noqa: E402
from underpour.answer import answer  # noqa: E402
from underpour.brief import read as read_brief  # noqa: E402
from underpour.dossier import Dossier  # noqa: E402

FOLDERS = sorted(path for path in ROOT.glob("examples/*") if path.is_dir())

HEAD = """\
# The ledger

Every value that somebody else printed and that our tests hold, beside what we give. How a value was seen stands with
it: read in the `document`, `quoted` by somebody else, from `memory`, common `practice` without a source, or `derived`:
worked out from a cited equation, or by a second method that knows nothing of ours. A value from memory proves less than
one that was read; it stands here so that it can be laid beside the print. Our own earlier numbers are not here: they
show a change and prove nothing.

Made from the tests by `docs/making/ledger_page.py`; the same rows are in [ledger.csv](ledger.csv), for a spreadsheet.
`allowed` is what the test allows, from the digits of the print or from how far it says that it may be off; `ours` is
shown to two digits of that. Where words are compared there is no difference to tell.
"""

EXAMPLES = """\
## Numbers of the examples

Numbers of the briefs in `examples/`, found another way than by this tool's own way through the section: a formula on
paper, a source, or a second method. Each brief's `held.toml` says them; `how` is that file's own word.
"""

SILENT = """\
## Tests beside these that hold nothing printed

They hold what is refused, or that what is printed is complete.
"""


def page(rows: Iterable[Row]) -> str:
    """The whole page."""
    published, of_briefs, silent = parted(rows)
    lines = [HEAD, *summary(published, of_briefs)]
    for file, of_file in groupby(published, lambda row: row.file):
        lines += ["", f"## {title(file)}", "", f"`{file}`"]
        for test, of_test in groupby(of_file, lambda row: row.test):
            lines += ["", *table(test, list(of_test))]
    lines += ["", EXAMPLES, *numbers_of(of_briefs), "", SILENT]
    lines += [f"- {sentence(row.test)} (`{row.file}`)" for row in silent]
    return "\n".join([*lines, ""])


def parted(rows: Iterable[Row]) -> tuple[list[Row], list[Row], list[Row]]:
    """The rows of published values, those of examples, and tests without a printed value."""
    rows = list(rows)
    of_briefs = [row for row in rows if row.file.startswith("examples/")]
    others = [row for row in rows if not row.file.startswith("examples/")]
    return [row for row in others if row.printed], of_briefs, [row for row in others if not row.printed]


def summary(published: list[Row], of_briefs: list[Row]) -> Iterator[str]:
    counted = Counter(row.seen for row in published)
    yield (
        f"{len(published)} published values of {len({row.source for row in published})} sources, "
        f"{counted['memory']} of them from memory; {len(of_briefs)} numbers of examples."
    )
    yield ""
    yield "| | " + " | ".join(SEEN) + " | all |"
    yield "| --- " + "| ---: " * (len(SEEN) + 1) + "|"
    for file, of_file in groupby(published, lambda row: row.file):
        yield counts(title(file), list(of_file))
    yield counts("all", published)
    close = [row for row in published if row.tolerance not in ("", "0") and row.difference]
    far = [row for row in close if abs(float(row.difference)) > 0.8 * float(row.tolerance)]
    yield ""
    yield f"Of {len(close)} numbers with a tolerance, {len(far)} use more than four fifths of it."


def counts(name: str, rows: list[Row]) -> str:
    counted = Counter(row.seen for row in rows)
    return f"| {cell(name)} | " + " | ".join(str(counted[how]) for how in SEEN) + f" | {len(rows)} |"


def title(file: str) -> str:
    """What a file of tests says of itself first, up to its first full stop or colon."""
    told = ast.get_docstring(ast.parse((ROOT / file).read_text(encoding="utf-8"))) or file
    first = " ".join(told.split("\n\n")[0].split())
    for stop in (". ", ": ", "; "):
        first = first.partition(stop)[0]
    return first.removesuffix(".")


def table(test: str, rows: list[Row]) -> Iterator[str]:
    """A table of the rows of one test; what all of them share stands over it."""
    shared = {name for name in ("unit", "source", "seen") if len({getattr(row, name) for row in rows}) == 1}
    said = [f"{name}: {getattr(rows[0], name)}" for name in ("source", "seen", "unit") if name in shared]
    yield f"**{sentence(test)}.** " + "; ".join(each for each in said if not each.endswith(": "))
    yield ""
    shown = [name for name in ("unit", "source", "seen") if name not in shared]
    words = all(not row.difference and not row.tolerance for row in rows)
    numbers = [] if words else ["difference", "tolerance"]
    heads = ["case", "printed", "ours", *(["difference", "allowed"] if numbers else []), *shown]
    yield "| " + " | ".join(heads) + " |"
    yield "| --- | --- | --- " + "| ---: " * len(numbers) + "| --- " * len(shown) + "|"
    for row in rows:
        cells = [row.case, row.printed, row.ours, *(getattr(row, name) for name in (*numbers, *shown))]
        yield "| " + " | ".join(map(cell, cells)) + " |"


def numbers_of(of_briefs: list[Row]) -> Iterator[str]:
    yield "| brief | finding | which | held | ours | difference | allowed | unit | how |"
    yield "| --- | --- | --- | ---: | ---: | ---: | ---: | --- | --- |"
    for row in of_briefs:
        cells = (row.test, row.case, row.printed, row.ours, row.difference, row.tolerance, row.unit, row.source)
        name = row.file.removeprefix("examples/")
        yield f"| [{name}](../{row.file}/README.md) | " + " | ".join(map(cell, cells)) + " |"


def sentence(test: str) -> str:
    return test.removeprefix("test_").replace("_", " ").capitalize()


def cell(text: str) -> str:
    return text.replace("\\", "\\\\").replace("|", "\\|")


def gone_through() -> list[Row]:
    """The rows of the published tests, which all hold."""
    with tempfile.TemporaryDirectory() as folder:
        left = Path(folder) / "rows.csv"
        paths = os.pathsep.join(str(ROOT / part) for part in ("tests", "src"))
        done = subprocess.run(
            [
                *(sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "tests/published"),
                *("-p", "ledger", "--ledger", str(left)),
            ],
            cwd=ROOT,
            env=dict(os.environ, PYTHONPATH=paths),
            capture_output=True,
            text=True,
            encoding="utf-8",
        )
        if done.returncode:
            raise SystemExit(f"{done.stdout[-3000:]}\nThese tests do not hold; no ledger is made of them.")
        return ledger.read(left)


def of_example(folder: Path, ours: Callable[[dict[str, Any]], float | None]) -> list[Row]:
    """The rows of an example; ``ours`` gives our number to a row of its ``held.toml``, or None to leave it open."""
    rows = []
    for row in tomllib.loads((folder / "held.toml").read_text(encoding="utf-8"))["row"]:
        which = [row.get("alternative", "as briefed"), *(f"{key} {value}" for key, value in row.get("at", {}).items())]
        which += ["the limit"] if row.get("number") == "limit" else []
        value, allowed = ours(row), row["tolerance"]
        shown = ["", ""] if value is None else [partly(each, allowed) for each in (value, value - row["value"])]
        case, how = "; ".join(which), " ".join(row["by"].split())
        named = (f"examples/{folder.name}", row["id"], case, f"{row['value']:.10g}")
        rows.append(Row(*named, *shown, f"{allowed:.3g}", row["unit"], how, ""))
    return rows


def given(dossier: Dossier) -> Callable[[dict[str, Any]], float | None]:
    """What an answered example gives for each row of its ``held.toml``."""
    alternatives = {each.name: each for each in dossier.alternatives}

    def ours(row: dict[str, Any]) -> float | None:
        finding = alternatives[row.get("alternative", "as briefed")].find(row["id"], **row.get("at", {}))
        return finding.limit if row.get("number") == "limit" else finding.value

    return ours


def left_open(row: dict[str, Any]) -> None:
    """No number of ours, for a look at what an example holds without answering it."""


def examples(kept: Iterable[Row], *, anew: bool) -> Iterator[Row]:
    """The rows of all examples; of one whose ``held.toml`` says what it said, what is kept."""
    known = list(kept)
    for folder in FOLDERS:
        before = [row for row in known if row.file == f"examples/{folder.name}"]
        as_they_stand = [replace(row, ours="", difference="") for row in before]
        if anew or as_they_stand != of_example(folder, left_open):
            yield from of_example(folder, given(answer(read_brief(folder / "brief.toml"))))
        else:
            yield from before


if __name__ == "__main__":
    kept = ledger.read(TABLE) if TABLE.exists() else []
    rows = [*gone_through(), *examples(kept, anew="--anew" in sys.argv)]
    ledger.write(rows, TABLE)
    PAGE.write_text(page(rows), encoding="utf-8")
