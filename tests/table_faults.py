"""Seeded faults in the CSV of a product line: each spoils a sound table and says where it has to be told."""

from __future__ import annotations

import csv
import io
import random
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from underpour.catalogue.line import Line
from underpour.catalogue.line_file import read_line
from underpour.catalogue.products import SHIPPED
from underpour.tabled import table_of
from underpour.tabled.columns import row_kinds
from underpour.tabled.sheets import column_letters

Rows = list[list[str]]
FEW = 4  # products in a table that is spoilt
EACH = 7  # faults of a seed


@dataclass(frozen=True)
class Spoilt:
    """A table with one fault in it."""

    what: str
    content: bytes
    row: int  # as a spreadsheet counts
    columns: frozenset[str]  # by name or letter: in one of them it has to be told


@cache
def whole_line() -> Line:
    return read_line(SHIPPED.read_text("utf-8"))


def line_of_few(chance: random.Random) -> Line:
    """A few products of the shipped line."""
    whole = whole_line()
    return whole.model_copy(update={"product": tuple(chance.sample(whole.product, FEW))})


def rows_of(line: Line) -> Rows:
    return list(csv.reader(io.StringIO(table_of(line, ".csv").decode(), newline="")))


def text(rows: Rows) -> str:
    made = io.StringIO(newline="")
    csv.writer(made, lineterminator="\r\n").writerows(rows)
    return made.getvalue()


def cell(rows: Rows, chance: random.Random, sorts: set[str], kinds: tuple[str, ...] = ()) -> tuple[int, int]:
    """A filled cell of a column of one of these sorts: row from 0, column from 0."""
    found = []
    for n, row in enumerate(rows[1:], 1):
        kind = row_kinds()[row[0]]
        for at, name in enumerate(rows[0]):
            of = kind.columns.get(name)
            if row[at] and of and of.sort in sorts and (not kinds or kind.word in kinds):
                found.append((n, at))
    return chance.choice(found)


def told(what: str, rows: Rows, row: int, *columns: int) -> Spoilt:
    """The spoilt table; the place by heading, and by letter where it is the heading that is spoilt."""
    names = {column_letters(at) for at in columns} | {rows[0][at] for at in columns if row and at < len(rows[0])}
    return Spoilt(what, text(rows).encode(), row + 1, frozenset(names))


def put(what: str, sorts: set[str], spoil: Callable[[str, random.Random], str]) -> Callable[..., Spoilt]:
    """A fault that spoils what stands in one cell."""

    def made(rows: Rows, chance: random.Random) -> Spoilt:
        row, at = cell(rows, chance, sorts)
        rows[row][at] = spoil(rows[row][at], chance)
        return told(what, rows, row, at)

    return made


def shifted(rows: Rows, chance: random.Random) -> Spoilt:
    """Cells of a row pushed one to the right, or drawn one to the left, from a column with a number or a day on."""
    row, at = cell(rows, chance, {"number", "day"})
    end = chance.randrange(at + 1, len(rows[0])) if chance.random() < 0.2 else len(rows[0]) - 1
    if chance.random() < 0.5:
        rows[row][at : end + 1] = ["", *rows[row][at:end]]
    else:
        rows[row][at : end + 1] = [*rows[row][at + 1 : end + 1], ""]
    return told("shifted column", rows, row, *range(at, min(end + 2, len(rows[0]))))


def unit_in_heading(rows: Rows, chance: random.Random) -> Spoilt:
    at = rows[0].index(chance.choice(["value", "thickness", "conditions.thickness"]))
    rows[0][at] += chance.choice([" [psi]", " (in)", "_in", " mm", "[kPa]", " (°F)"])
    return told("unit in the header", rows, 0, at)


def merged(rows: Rows, chance: random.Random) -> Spoilt:
    """Merged in a spreadsheet, saved as CSV: all but the first of them are empty."""
    row = chance.randrange(3, len(rows))
    at = chance.choice([0, 1])
    rows[row][at] = ""
    return told("merged cells", rows, row, at)


def decimal_comma(rows: Rows, chance: random.Random) -> Spoilt:
    row, at = cell(rows, chance, {"number"})
    number = f"{chance.randint(0, 99)},{chance.randint(0, 99)}"
    if chance.random() < 0.5:
        rows[row][at] = number
        return told("decimal comma", rows, row, at)
    rows[row][at : at + 1] = number.split(",")
    return told("decimal comma without quotes", rows, row, at, at + 1, len(rows[0]))


def mark_within(rows: Rows, chance: random.Random) -> Spoilt:
    row, at = cell(rows, chance, {"words", "one of", "list"})
    rows[row][at] = "\ufeff" + rows[row][at]
    return told("byte-order mark within", rows, row, at)


def other_alphabet(rows: Rows, chance: random.Random) -> Spoilt:
    row, at = cell(rows, chance, {"words"})
    rows[row][at] += chance.choice("²°·é")
    whole = text(rows).encode().splitlines(keepends=True)
    whole[row] = whole[row].decode().encode("latin-1")
    letters = {column_letters(column) for column, words in enumerate(rows[row]) if not words.isascii()}
    return Spoilt("Latin-1", b"".join(whole), row + 1, frozenset(letters))


def opened_in_another(rows: Rows, chance: random.Random) -> Spoilt:
    row, at = cell(rows, chance, {"words"})
    rows[row][at] = (rows[row][at].encode("cp1252", "ignore").decode("cp1252") + "²").encode().decode("cp1252")
    return told("UTF-8 opened as another alphabet", rows, row, at)


def same_key(rows: Rows, chance: random.Random) -> Spoilt:
    products = [n for n, row in enumerate(rows) if row[0] == "product"]
    first, second = sorted(chance.sample(products, 2))
    rows[second][1] = rows[first][1]
    return told("duplicate key", rows, second, 1)


def of_no_product(rows: Rows, chance: random.Random) -> Spoilt:
    row = chance.choice([n for n, row in enumerate(rows) if row[0] == "evidence"])
    rows[row][1] += chance.choice(["x", "-2", "0"])
    return told("evidence of no product", rows, row, 1)


def no_heading(rows: Rows, chance: random.Random) -> Spoilt:
    at = chance.randrange(len(rows[0]))
    rows[0][at] = ""
    return told("missing heading", rows, 0, at, len(rows[0]))


def heading_twice(rows: Rows, chance: random.Random) -> Spoilt:
    if chance.random() < 0.5:
        row = chance.randrange(2, len(rows))
        rows.insert(row, list(rows[0]))
        return told("heading again", rows, row, 0)
    one, other = sorted(chance.sample(range(2, len(rows[0])), 2))
    rows[0][other] = rows[0][one]
    return told("heading twice", rows, 0, other)


def unknown_heading(rows: Rows, chance: random.Random) -> Spoilt:
    at = chance.randrange(2, len(rows[0]))
    rows[0][at] = rows[0][at][:-1] + chance.choice("xzq")
    return told("unknown column", rows, 0, at)


def empty_row(rows: Rows, chance: random.Random) -> Spoilt:
    row = chance.randrange(2, len(rows))
    rows.insert(row, [""] * len(rows[0]))
    return told("empty row", rows, row, 0)


def too_long(rows: Rows, chance: random.Random) -> Spoilt:
    row = chance.randrange(1, len(rows))
    rows[row].append(chance.choice(["", "x"]))
    return told("row too long", rows, row, len(rows[0]))


def too_short(rows: Rows, chance: random.Random) -> Spoilt:
    row = chance.randrange(1, len(rows))
    width = chance.randrange(2, len(rows[0]))
    del rows[row][width:]
    return told("row too short", rows, row, width)


def semicolons(rows: Rows, chance: random.Random) -> Spoilt:
    sign = chance.choice(";\t|")
    made = io.StringIO(newline="")
    csv.writer(made, delimiter=sign).writerows(rows)
    return Spoilt("other signs between cells", made.getvalue().encode(), 1, frozenset("A"))


def two_tables(rows: Rows, chance: random.Random) -> Spoilt:
    """A second table beside the first, after an empty column."""
    row = chance.randrange(1, len(rows))
    for n, each in enumerate(rows):
        each += ["", chance.choice(["x", "4"]) if n == row else "total" if n == 0 else ""]
    return told("two tables", rows, 0, len(rows[0]) - 1)


def open_quote(rows: Rows, chance: random.Random) -> Spoilt:
    """Nothing after the row holds a quote that could close it."""
    row = max(n for n, each in enumerate(rows) if n == 0 or any("," in words or '"' in words for words in each))
    row = chance.randrange(row + 1, len(rows)) if row + 1 < len(rows) else len(rows) - 1
    rows[row] = [words.replace(",", " ").replace('"', " ") for words in rows[row]]
    at = chance.choice([at for at, words in enumerate(rows[row]) if words])
    lines = text(rows).split("\r\n")
    cells = list(rows[row])
    cells[at] = '"' + cells[at]
    lines[row] = ",".join(cells)
    return Spoilt(
        "quote not closed", "\r\n".join(lines).encode(), row + 1, frozenset({rows[0][at], column_letters(at)})
    )


def nul(rows: Rows, chance: random.Random) -> Spoilt:
    row, at = cell(rows, chance, {"words"})
    rows[row][at] += "\0"
    return told("NUL", rows, row, at)


def wrong_kind(rows: Rows, chance: random.Random) -> Spoilt:
    row = chance.randrange(1, len(rows))
    rows[row][0] = chance.choice(["prodct", "test", "1", "Product", "evidence "])
    return told("no such kind of row", rows, row, 0)


def in_another_row(rows: Rows, chance: random.Random) -> Spoilt:
    """A number or a day in a column that this kind of row does not have."""
    row = chance.choice([n for n, each in enumerate(rows) if each[0] in ("product", "made", "edges")])
    at = rows[0].index(chance.choice(["value", "date", "method"]))
    rows[row][at] = "4"
    return told("cell of another kind of row", rows, row, at)


ANY = {"words", "one of", "number", "day", "measure", "list"}
FAULTS: list[Callable[[Rows, random.Random], Spoilt]] = [
    shifted,
    unit_in_heading,
    merged,
    decimal_comma,
    mark_within,
    put("day of three numbers", {"day"}, lambda was, chance: f"{was[8:]}{chance.choice('/.-')}{was[5:7]}/{was[2:4]}"),
    put("formula", {"number", "words", "measure"}, lambda _, chance: chance.choice(["=B2*2", "=SUM(A1:A4)", "=1+1"])),
    same_key,
    no_heading,
    heading_twice,
    unknown_heading,
    empty_row,
    too_long,
    too_short,
    semicolons,
    put("year for a day", {"day"}, lambda was, _: was[:4]),
    put("count of days", {"day"}, lambda *_: "45734"),
    put("space at an end", ANY, lambda was, chance: chance.choice([f" {was}", f"{was} "])),
    put("space that does not break", ANY, lambda was, _: f"{was}\u00a0"),
    put("thousands", {"number"}, lambda _, chance: chance.choice(["1,000", "1 000", "1'000", "1.000,5", "12,345.6"])),
    put("text for a number", {"number"}, lambda was, chance: chance.choice(["n/a", "-", f"<{was}", f"{was} psi"])),
    put("number for words to choose from", {"one of"}, lambda *_: "7"),
    put("measure without unit", {"measure"}, lambda _, chance: chance.choice(["2", "1.5"])),
    put("measure with a comma", {"measure"}, lambda _, chance: chance.choice(["1,5 in", "2,54 mm"])),
    two_tables,
    of_no_product,
    open_quote,
    nul,
    other_alphabet,
    opened_in_another,
    wrong_kind,
    in_another_row,
]  # fmt: skip


def spoilt(seed: int, n: int) -> Spoilt:
    """One fault in a table of a few products; with the numbers of a seed the kinds of fault come in turn."""
    chance = random.Random(f"{seed} {n}")
    return FAULTS[(seed * EACH + n) % len(FAULTS)](rows_of(line_of_few(chance)), chance)
