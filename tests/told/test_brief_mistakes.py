"""What a person reads whose brief cannot be used: the line, the words, the way out; all of it at once."""

from __future__ import annotations

import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest

from underpour.brief import read, reads
from underpour.mistakes import Mistake, Mistakes

GOOD = """\
[project]
use = "workshop"

[site]
place = "Duluth, MN"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"

[floor]
inside = "68 F"
build-up = [
  { concrete = "4 in" },
  { board = "plain-15", thickness = "2 in" },
  { vapour-retarder = "film-15-mil" },
  { gravel = "4 in" },
]

[[edge]]
sides = [1, 3]
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
footing = { width = "20 in", height = "10 in" }
wall = [{ concrete = "8 in" }]
insulation = [{ board = "plain-15", thickness = "2 in", face = "outside", down = "48 in" }]

[[edge]]
sides = "rest"
kind = "raft"
insulation = [{ board = "plain-15", thickness = "2 in", face = "wing", out = "2 ft", at = "12 in" }]

[[alternative]]
name = "bare slab"
remove = ["board"]
"""

BRIEFS = Path(__file__).parent / "briefs"
BAD = tomllib.loads((BRIEFS / "bad.toml").read_text("utf-8"))["bad"]


def changed(old: str, new: str) -> str:
    assert old in GOOD
    return GOOD.replace(old, new, 1)


def mistakes_in(text: str) -> list[Mistake]:
    with pytest.raises(Mistakes) as told:
        reads(text, "brief.toml")
    return list(told.value)


@pytest.mark.parametrize("bad", BAD, ids=[bad["says"][:60] for bad in BAD])
def test_a_bad_brief_is_told_by_line_and_in_words(bad: dict[str, Any]) -> None:
    text = changed(bad["was"], bad["typed"])
    found = mistakes_in(text)
    assert [m.line for m in found] == [bad["line"]], "\n".join(map(str, found))
    assert bad["says"] in f"{found[0].wrong} {found[0].instead}"
    assert found[0].file == "brief.toml"
    assert found[0].typed in text.splitlines()[bad["line"] - 1]


def test_the_brief_that_the_table_spoils_is_good() -> None:
    assert reads(GOOD).brief.project.use == "workshop"


def test_the_demo_brief_can_be_read() -> None:
    reading = read(BRIEFS / "daylight.toml")
    assert [name for name, _ in reading.alternatives] == ["bare slab", "foam stops at the footing"]


def test_all_mistakes_come_at_once_and_in_the_order_of_the_lines() -> None:
    text = GOOD
    for old, new in (
        ('use = "workshop"', 'use = "workshp"'),
        ('ground = "clay-or-silt"', 'groud = "clay-or-silt"'),
        ('"40 0", "40 28"', '"40 28", "40 0"'),
        ('{ concrete = "4 in" }', '{ concrete = "4" }'),
        ("sides = [1, 3]", "sides = [1, 7]"),
        ('kind = "raft"', 'kind = "rafd"'),
        ('remove = ["board"]', 'remove = ["bord"]'),
    ):
        text = text.replace(old, new, 1)
    assert [m.line for m in mistakes_in(text)] == [2, 6, 9, 15, 22, 32, 37]


def test_a_mistake_reads_as_place_words_fault_and_way_out() -> None:
    (mistake,) = mistakes_in(changed('thickness = "2 in" },\n  { vap', 'thickness = "R10" },\n  { vap'))
    assert str(mistake) == (
        'brief.toml:16  floor.build-up.2.thickness = "R10"\n'
        "  R10 says what the foam does, not how thick it is.\n"
        '  Give the thickness, or write r = "R10" in its place: the thinnest that reaches it is taken.'
    )


def test_a_mistake_of_an_alternative_names_it() -> None:
    (mistake,) = mistakes_in(changed('remove = ["board"]', 'remove = ["floor.concrete"]'))
    assert mistake.at == 'alternative "bare slab": floor.build-up'


def test_a_mistake_of_the_brief_is_not_told_again_for_each_alternative() -> None:
    assert len(mistakes_in(changed('{ concrete = "4 in" }', '{ concrete = "4" }'))) == 1


def test_a_mistake_found_later_gets_its_line_and_words() -> None:
    reading = reads(GOOD, "brief.toml")
    later = [Mistake("edge.B.insulation.1.board", "", "Unknown."), Mistake("site.place", "", "Unknown.")]
    placed = list(reading.placed(later))
    assert [(m.line, m.typed) for m in placed] == [(5, '"Duluth, MN"'), (33, '"plain-15"')]


def test_a_mistake_found_later_in_an_alternative_is_placed_where_it_was_typed() -> None:
    text = changed('remove = ["board"]', 'set = { "floor.build-up.2.board" = "plain-99" }')
    (placed,) = reads(text, "brief.toml").placed([Mistake("floor.build-up.2.board", "", "Unknown.")], "bare slab")
    assert (placed.line, placed.typed) == (37, '"plain-99"')
    assert placed.at == 'alternative "bare slab": floor.build-up.2.board'


def test_without_the_grammar_a_mistake_keeps_its_path(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "tree_sitter_toml", None)
    (mistake,) = mistakes_in(changed('{ concrete = "4 in" }', '{ concrete = "4" }'))
    assert str(mistake).startswith('brief.toml  floor.build-up.1.concrete = "4"\n')


STRANGE = ("5", "true", "[]", "{}", '""', "[[]]", "[5, {}]", "1979-05-27", "nan", '{ a = "1" }', '"−½ ″ \\u0000"')


def test_whatever_stands_at_a_key_is_told_with_a_line_and_never_breaks() -> None:
    rows = GOOD.splitlines()
    for number, row in enumerate(rows):
        key, equals, _ = row.partition(" = ")
        if not equals or row.startswith("  ") or row.endswith("["):
            continue
        for value in STRANGE:
            text = "\n".join([*rows[:number], f"{key} = {value}", *rows[number + 1 :]])
            try:
                reads(text)
            except Mistakes as told:
                assert all(m.line and m.wrong for m in told), f"{key} = {value}: {told}"


@pytest.mark.parametrize("word", ["invalid", "error", "Input should", "None", "NoneType", "dict", "tuple"])
def test_no_message_speaks_as_a_program_does(word: str) -> None:
    for bad in BAD:
        assert word not in "\n".join(f"{m.wrong} {m.instead}" for m in mistakes_in(changed(bad["was"], bad["typed"])))


def test_a_folder_is_told_apart_from_a_brief(tmp_path: Path) -> None:
    (tmp_path / "brief.toml").write_text(GOOD)
    with pytest.raises(Mistakes, match=r"This is a folder; a brief is a file\.\n  Write .*brief\.toml"):
        read(tmp_path)


def test_a_missing_file_is_told_with_the_nearest_beside_it(tmp_path: Path) -> None:
    (tmp_path / "garage.toml").write_text(GOOD)
    with pytest.raises(Mistakes, match=r"There is no such file\.\n  The nearest is .*garage\.toml"):
        read(tmp_path / "garag.toml")


def test_a_file_that_is_no_text_is_told(tmp_path: Path) -> None:
    (tmp_path / "brief.toml").write_bytes(b"\xff\xfe[\x00p")
    with pytest.raises(Mistakes, match="This is not a text in UTF-8"):
        read(tmp_path / "brief.toml")


def test_a_brief_saved_on_another_system_reads_the_same(tmp_path: Path) -> None:
    (tmp_path / "brief.toml").write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read(tmp_path / "brief.toml").brief == reads(GOOD).brief
