"""Product lines that can be read and do not hold, typed as a table: the one list of them.

Each row changes one cell of a sound table, as a product manager would, and says what `catalogue validate` tells of it:
the row that was typed, the words, the exit status. Nothing in the folder changes. The same table imported to TOML is
told the same.
"""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from underpour.cli import main
from underpour.tabled import start

DAY = ("--date", "2026-11-27")
SHORT, OPEN = 1, 0  # exit statuses: something falls short; at most something cannot be told, or is advised
HEAD, *SOUND = csv.reader(io.StringIO(start(".csv").decode("utf-8"), newline=""))
RESISTANCE, STRENGTH, FLEXURAL, PERMEANCE, WATER, DENSITY = range(8, 14)  # rows as a spreadsheet counts them
LINE, PRODUCT, THIN, THICK = 2, 3, 4, 5


def table(*changes: tuple[int, str, str], more: tuple[dict[str, str], ...] = ()) -> str:
    """The sound table with cells changed by row and column, and with rows below it."""
    rows = [list(row) for row in SOUND]
    for row, column, typed in changes:
        rows[row - 2][HEAD.index(column)] = typed
    rows += [[each.get(name, "") for name in HEAD] for each in more]
    made = io.StringIO(newline="")
    csv.writer(made).writerows([HEAD, *rows])
    return made.getvalue()


def copied(row: int, **changes: str) -> dict[str, str]:
    """A row of the sound table again, with some of its cells changed."""
    return dict(zip(HEAD, SOUND[row - 2], strict=True)) | {
        key.replace("_", "-"): value for key, value in changes.items()
    }


BAD: list[tuple[str, str, int, tuple[str, ...]]] = [
    # what is wrong, the table, the exit status, what is told
    ("a property without a test", table((STRENGTH, "method", "")), SHORT,
        ("Compressive strength (row 9)", "names no test by its number", "such as ASTM D1621")),
    ("a test in the house", table((STRENGTH, "method", "our own")), SHORT, ("(row 9)", "names no test by its number")),
    ("a test of another property", table((STRENGTH, "method", "ASTM C203")), SHORT,
        ("(row 9)", "ASTM C203 does not give the compressive")),
    ("a property without a unit", table((STRENGTH, "unit", "")), SHORT,
        ("(row 9)", "16.4 of what? The number has no unit.", "kPa or psi")),
    ("a unit of something else", table((STRENGTH, "unit", "perm")), SHORT,
        ("(row 9)", "perm is the unit of a vapour permeance")),
    ("a unit that is none", table((STRENGTH, "unit", "lumps")), SHORT, ("(row 9)", "No unit is written lumps.")),
    ("no number", table((STRENGTH, "value", "")), SHORT, ("(row 9)", "The record has no number.")),
    ("a number below nought", table((DENSITY, "value", "-1.4")), SHORT, ("(row 13)", "cannot be nought or less")),
    ("a share above all", table((WATER, "value", "230")), SHORT, ("(row 12)", "No share is above 100 %.")),
    ("an expired certificate", table((WATER, "expires", "2026-11-26")), SHORT,
        ("Water taken up, by volume (row 12)", "The certificate expired on 26 November 2026.", "Test anew")),
    ("a certificate that expires soon", table((WATER, "expires", "2026-12-24")), OPEN,
        ("advised: Water taken up, by volume (row 12)", "in 27 days", "Order the next test now.")),
    ("a certificate that expired before it was made", table((WATER, "expires", "2024-01-01")), SHORT,
        ("(row 12)", "before it was made")),
    ("a report of tomorrow", table((WATER, "date", "2027-01-04")), SHORT,
        ("(row 12)", "4 January 2027, which is in the future")),
    ("an average for what each specimen keeps", table((STRENGTH, "statistic", "average")), SHORT,
        ("(row 9)", "This is an average; 15 psi wanted at least", "The claim is refused.")),
    ("a claim that its strength does not reach", table((PRODUCT, "claims", "ASTM C578 type IX")), SHORT,
        ("(row 9)", "16.4 psi read; 25 psi wanted at least for ASTM C578 type IX. The claim is refused.",
         "The records carry ASTM C578 type II; claim that")),
    ("water above the class, R as it should be", table((WATER, "value", "4.4")), SHORT,
        ("(row 12)", "4.4 % by volume read; 3.0 % wanted at most")),
    ("a class of another standard's list", table((PRODUCT, "claims", "ASTM C578 type 2")), SHORT,
        ("falls short (row 3)", "2 stands in the list of CAN/ULC-S701, not of ASTM C578.")),
    ("a class of no list", table((PRODUCT, "claims", "ASTM C578 type IXX")), SHORT,
        ("(row 3)", "ASTM C578 has no class IXX.")),
    ("a class of another foam", table((PRODUCT, "claims", "ASTM C578 type IV")), SHORT,
        ("(row 3)", "is for XPS, and this is EPS")),
    ("a list that is not held", table((PRODUCT, "claims", "ASTM C552 type I")), OPEN,
        ("cannot tell (row 3)", "No list of classes is held here for ASTM C552 type I")),
    ("a code that declares nothing", table((PRODUCT, "claims", "EPS EN 13163 L3-W3")), OPEN,
        ("cannot tell (row 3)", "declares nothing that a record can be held against")),
    ("a class by American tests where European ones are asked", table((PRODUCT, "claims", "EPS EN 13163 CS(10)100")),
        SHORT, ("(row 3)", "CS(10)100, compressive strength by EN 826")),
    ("a fresh value of a foam that ages",
        table((PRODUCT, "family", "XPS"), (PRODUCT, "claims", ""), (RESISTANCE, "conditions.age", "fresh")), SHORT,
        ("(row 8)", "This is a fresh value; XPS is rated aged.")),
    ("another mean temperature", table((RESISTANCE, "conditions.mean", "40 F")), SHORT,
        ("(row 8)", "tested at a mean of 40 F", "one is never turned into the other")),
    ("a label far from its record", table((THICK, "r-label", "R9.6")), SHORT,
        ("R as labelled", "disagreement above 2 %")),
    ("R that nothing below concrete has", table((THICK, "r-label", "R40")), SHORT, ("R as labelled", "no air space")),
    ("a record of other thicknesses", table((STRENGTH, "holds-to", "1 in")), SHORT,
        ("(row 9)", "stands for boards to 1 in; 2 in is made too")),
    ("two records too far apart", table(more=(copied(DENSITY, value="1.9", certificate="R-9"),)), SHORT,
        ("(row 14)", "Two records lie", "two laboratories usually agree within")),
    ("two products of one name", table(more=(copied(PRODUCT, key="my-board-16"),)), SHORT,
        ("falls short (row 14)", "2 products are called My board 15.", "Give each its own name.")),
    ("a price in no currency", table((THIN, "price", "0.37 per ft²")), SHORT, ("Price", "0.37 per ft²", "(row 3)")),
    ("a price for nothing", table((THIN, "price", "0.37 USD")), SHORT, ("Price", "0.37 USD", "(row 3)")),
    ("a price with a decimal comma", table((THIN, "price", "0,37 USD/ft²")), SHORT, ("Price", "0,37", "(row 3)")),
    ("a price without a day", table((LINE, "priced", "")), SHORT, ("Price (row 3)", "The price has no day.")),
    ("a price of tomorrow", table((LINE, "priced", "2027-01-01")), SHORT, ("Price (row 3)", "1 January 2027")),
    ("no laboratory", table((WATER, "laboratory", "")), OPEN,
        ("cannot tell: Water taken up, by volume (row 12)", "It does not say the kind of laboratory.",
         "Write laboratory")),
    ("no certificate", table((WATER, "certificate", "")), OPEN, ("cannot tell", "(row 12)", "Write certificate")),
    ("no sizes", table((PRODUCT, "sizes", "")), OPEN, ("cannot tell (row 3)", "Write sizes, such as 4 ft x 8 ft.")),
]  # fmt: skip


def contents(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in folder.iterdir()}


def plain(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(("content", "status", "words"), [bad[1:] for bad in BAD], ids=[bad[0] for bad in BAD])
def test_a_line_that_does_not_hold_is_told_by_its_rows_and_stays_as_it_is(
    content, status, words, tmp_path, monkeypatch, capsys
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "line.csv").write_bytes(content.encode())
    before = contents(tmp_path)
    assert main(["catalogue", "validate", "line.csv", *DAY]) == status
    told = capsys.readouterr()
    assert told.err == ""
    assert told.out.startswith("line.csv\n")
    for each in words:
        assert plain(each) in plain(told.out), told.out
    assert contents(tmp_path) == before
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 0
    capsys.readouterr()
    assert main(["catalogue", "validate", "line.toml", *DAY]) == status
    of_toml = plain(capsys.readouterr().out)
    for each in words:
        if "(row" not in each:
            assert plain(each) in of_toml


def test_the_table_that_is_spoilt_here_holds(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "line.csv").write_text(table(), "utf-8")
    assert main(["catalogue", "validate", "line.csv", *DAY]) == 0
    assert "nothing falls short." in plain(capsys.readouterr().out)
    assert [row[HEAD.index("property")] for row in SOUND[6:]] == [
        "resistance-24C", "strength", "flexural", "permeance", "water", "density"
    ]  # fmt: skip


@pytest.mark.parametrize("bad", [bad for bad in BAD if bad[2] == SHORT], ids=[bad[0] for bad in BAD if bad[2] == SHORT])
def test_no_data_sheet_is_made_of_what_falls_short(bad, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "line.csv").write_bytes(bad[1].encode())
    assert main(["catalogue", "import", "line.csv", "-o", "line.toml"]) == 0
    before = contents(tmp_path)
    made = ["datasheet", "my-board-15", "--catalogue", "line.toml", "-o", "sheet.pdf", *DAY]
    assert main(made) == 2
    told = capsys.readouterr().err
    assert "Nothing was made" in told and "line.toml" in told
    assert contents(tmp_path) == before
