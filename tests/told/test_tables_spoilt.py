"""Seeded faults in the CSV of a line: each is told with its row and one of its columns, and no line is made."""

from __future__ import annotations

import io
import random
import re
import zipfile
from collections import Counter

import pytest
from tests.table_faults import EACH, FAULTS, Spoilt, spoilt

from underpour.catalogue.line_file import read_line
from underpour.mistakes import Mistakes
from underpour.tabled import START, line_in, table_of

PLACE = re.compile(r"^(row \d+, column \S+)( = |$)", re.MULTILINE)


def places_told(of: Spoilt) -> set[str]:
    """The places of all that is told of a table; none where it is taken as it is."""
    try:
        line_in(of.content, ".csv")
    except Mistakes as wrong:
        return {place for place, _ in PLACE.findall(str(wrong))}
    return set()


def missed(seeds: range) -> list[str]:
    """Faults whose row and column are not told."""
    found = []
    for seed in seeds:
        for n in range(EACH):
            of = spoilt(seed, n)
            if not places_told(of) & {f"row {of.row}, column {column}" for column in of.columns}:
                found.append(f"seed {seed}, {n}: {of.what} in row {of.row}, one of {sorted(of.columns)}")
    return found


@pytest.mark.parametrize("seeds", [range(1, 31), range(101, 131)], ids=["worked on", "beside, never tuned on"])
def test_each_of_210_seeded_faults_is_told_with_row_and_column(seeds: range) -> None:
    assert len(seeds) * EACH == 210
    assert missed(seeds) == []


def test_every_kind_of_fault_comes_up_in_the_seeds() -> None:
    assert {(seed * EACH + n) % len(FAULTS) for seed in range(1, 31) for n in range(EACH)} == set(range(len(FAULTS)))


@pytest.mark.parametrize("n", range(len(FAULTS)), ids=lambda n: FAULTS[n].__name__ + str(n))
def test_a_fault_of_each_kind_is_told_at_few_places(n: int) -> None:
    """One thing wrong is not told as twenty: what follows from it stays unsaid."""
    seed = next(seed for seed in range(1, 31) for k in range(EACH) if (seed * EACH + k) % len(FAULTS) == n)
    of = spoilt(seed, (n - seed * EACH) % len(FAULTS))
    assert 1 <= len(places_told(of)) <= 4, of.what


JUNK = [b'"', b",", b"\n", b"\r", b"'", b";", b"=", b"\xef\xbb\xbf", b"\xff", b"-", b"1", b" ", b"row", b"\0", b"1e999"]


def at_random(content: bytes, chance: random.Random) -> bytes:
    """Bytes lost, put in, changed or said twice, anywhere."""
    made = bytearray(content)
    for _ in range(chance.randint(1, 3)):
        at, other = chance.randrange(len(made)), chance.randrange(len(made))
        match chance.randrange(4):
            case 0:
                del made[at : at + chance.randint(1, 30)]
            case 1:
                made[at:at] = chance.choice(JUNK)
            case 2:
                made[at] = chance.randrange(256)
            case _:
                made[at:at] = made[other : other + chance.randint(1, 200)]
    return bytes(made)


def test_a_table_that_is_spoilt_anyhow_is_read_or_told_and_never_our_fault() -> None:
    line = read_line(START.read_text("utf-8"))
    ends: Counter[tuple[str, bool]] = Counter()
    for seed in range(240):
        chance = random.Random(seed)
        kind = ("csv", "workbook", "part of a workbook")[seed % 3]
        content = table_of(line, ".csv" if kind == "csv" else ".xlsx")
        content = with_a_part_spoilt(content, chance) if kind == "part of a workbook" else at_random(content, chance)
        try:
            line_in(content, ".csv" if kind == "csv" else ".xlsx")
        except Mistakes as wrong:
            assert all(mistake.wrong for mistake in wrong), seed
            ends[kind, False] += 1
        else:
            ends[kind, True] += 1
    assert ends["csv", False] > 60
    assert ends["part of a workbook", False] > 40


def with_a_part_spoilt(book: bytes, chance: random.Random) -> bytes:
    """A workbook that unpacks well, with something wrong in one of its parts."""
    with zipfile.ZipFile(io.BytesIO(book)) as was:
        parts = {name: was.read(name) for name in was.namelist()}
    name = chance.choice(sorted(name for name in parts if name.startswith("xl/")))
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as target:
        for each, part in parts.items():
            target.writestr(each, at_random(part, chance) if each == name else part)
    return made.getvalue()
