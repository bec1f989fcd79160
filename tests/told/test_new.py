"""``underpour new``: what it writes, what it never does, and what is said to a wrong word."""

from __future__ import annotations

import errno
import os
from dataclasses import dataclass
from pathlib import Path

import pytest

from underpour.brief import read
from underpour.catalogue import places
from underpour.cli import files, main
from underpour.mistakes import Mistake
from underpour.starters import starters


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_without_a_word_all_of_them_are_listed_and_nothing_is_written(folder, capsys):
    assert main(["new"]) == 0
    said = capsys.readouterr().out
    for each in starters():
        for word in (each.key, *each.words):
            assert word in said
    assert not list(folder.iterdir())


def test_a_minus_prints_the_same_that_is_written(folder, capsys):
    assert main(["new", "garage", "-"]) == 0
    printed = capsys.readouterr().out
    assert not list(folder.iterdir())
    assert main(["new", "garage", "my garage.toml"]) == 0
    assert (folder / "my garage.toml").read_text(encoding="utf-8") == printed
    assert "underpour answer 'my garage.toml'" in capsys.readouterr().out


@pytest.mark.parametrize(
    "title",
    [
        'The "Old" barn', "back\\slash", "two\nlines", "#[link]$x^2$", "=cmd|' /C calc'!A0", "Ærø, Δέλτα, Дом",
        "tab\tand del\x7f", "'''", "\\u0041", "title = 3",
    ],
)  # fmt: skip
def test_a_title_stays_one_string_whatever_it_holds(title, folder):
    assert main(["new", "barn", "--title", title, "--place", "Duluth, MN", "--units", "SI"]) == 0
    project = read(folder / "barn.toml").brief.project
    assert (project.title, project.units) == (title, "SI")
    assert places.find(read(folder / "barn.toml").brief.site.place).name == "Duluth, MN"


def test_title_place_and_units_change_their_lines_and_no_other(folder):
    assert main(["new", "church"]) == 0
    assert main(["new", "church", "other.toml", "--title", "Hall", "--place", "Turku, FI", "--units", "US"]) == 0
    one, two = ((folder / name).read_text(encoding="utf-8").splitlines() for name in ("church.toml", "other.toml"))
    changed = [b.split("#")[0].split() for a, b in zip(one, two, strict=True) if a != b]
    assert changed == [["title", "=", '"Hall"'], ["units", "=", '"US"'], ["place", "=", '"Turku,', 'FI"']]


@dataclass(frozen=True)
class Bad:
    what: str
    words: str
    says: tuple[str, ...]


BAD = [
    Bad(
        "an unknown use",
        "garrage",
        (
            "underpour new",
            "No starter brief is called garrage.",
            "The nearest is garage.",
            "All of them: underpour new",
        ),
    ),
    Bad("a use like no other", "qqqq", ("No starter brief is called qqqq.", "All of them: underpour new")),
    Bad(
        "a file that stands",
        "garage stands.toml",
        ("stands.toml", "There is such a file, and it stays as it is.", "underpour new garage stands-2.toml"),
    ),
    Bad(
        "a town that is not in the list of its state",
        "church --place Truro,NS",
        ("--place", "No place is called Truro in NS.", "Known there: Dartmouth, NS; Halifax, NS"),
    ),
    Bad(
        "a town misspelt in a state of many",
        "church --place Duluht,Minnesota",
        ("--place", "Nearest by name: Duluth, MN. Known there: ", " more."),
    ),
    Bad("the usual file stands", "barn", ("barn.toml", "There is such a file, and it stays as it is.")),
    Bad("a link to a file that stands", "garage linked.toml", ("linked.toml", "There is such a file")),
    Bad("a folder", "garage inner", ("That is a folder; a file is wanted.",)),
    Bad("a folder that is missing", "garage gone/garage.toml", ("There is no folder gone.", "Make it first")),
    Bad("a folder that is a file", "garage stands.toml/garage.toml", ("stands.toml is a file, not a folder.",)),
    Bad("another ending", "garage garage.json", ("What is written here is TOML.", "End the name with .toml.")),
    Bad("no ending", "garage slab", ("End the name with .toml.",)),
    Bad("an unknown place", "garage --place Dulluth", ("--place", "No place is called Dulluth.", "Duluth, MN")),
    Bad("an empty place", "garage --place=", ("--place",)),
    Bad("an empty title", "garage --title=", ("--title", "The title is empty.")),
    Bad("a title that is not text", "garage --title=\udcff", ("--title", "These letters are not text.")),
    Bad("a system that is none", "garage --units metric", ("--units metric", "To choose from: US, SI.")),
    Bad("an option without its word", "garage --title", ("--title", "Something has to follow it.")),
    Bad("an unknown option", "garage --titel Hall", ("--titel", "Did you mean --title?")),
    Bad("a word too many", "garage one.toml two.toml", ("two.toml", "The command does not take this.")),
]


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_bad_input_is_told_with_a_way_out_and_the_folder_stays_as_it_was(bad, folder, capsys):
    for name in ("stands.toml", "barn.toml"):
        (folder / name).write_text("mine\n", encoding="utf-8")
    (folder / "linked.toml").symlink_to("stands.toml")
    (folder / "inner").mkdir()
    before = {path.name: path.is_dir() or path.read_bytes() for path in folder.iterdir()}
    assert main(["new", *bad.words.split(" ")]) == 2
    out, said = capsys.readouterr()
    assert out == ""
    for words in bad.says:
        assert words in said.replace("\N{THIN SPACE}", " ")
    assert {path.name: path.is_dir() or path.read_bytes() for path in folder.iterdir()} == before


def test_a_folder_in_which_nothing_may_be_written_is_told(folder, monkeypatch, capsys):
    monkeypatch.setattr(os, "access", lambda path, mode: False)
    assert main(["new", "garage"]) == 2
    assert "Nothing may be written there." in capsys.readouterr().err
    assert not list(folder.iterdir())


def test_a_file_that_came_this_moment_is_not_written_over(folder):
    (folder / "late.toml").write_text("mine\n", encoding="utf-8")
    with pytest.raises(Mistake, match="There is such a file"):
        files.write_new(folder / "late.toml", b"ours", "late.toml")
    assert (folder / "late.toml").read_text(encoding="utf-8") == "mine\n"
    assert [path.name for path in folder.iterdir()] == ["late.toml"]


def test_a_disk_without_hard_links_is_written_to_all_the_same(folder, monkeypatch):
    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "link", refuse)
    files.write_new(folder / "new.toml", b"ours", "new.toml")
    assert (folder / "new.toml").read_bytes() == b"ours"
    with pytest.raises(Mistake, match="There is such a file"):
        files.write_new(folder / "new.toml", b"other", "new.toml")
    assert [path.name for path in folder.iterdir()] == ["new.toml"]


def test_a_full_disk_is_told_and_leaves_nothing(folder, monkeypatch):
    def full(self: Path, content: bytes) -> int:
        self.touch()
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(Mistake, match="could not be written: No space left"):
        files.write_new(folder / "new.toml", b"ours", "new.toml")
    assert not list(folder.iterdir())


def test_the_file_may_stand_behind_the_options(folder, capsys):
    assert main(["new", "church", "--place", "Halifax, NS", "hall.toml"]) == 0
    assert [path.name for path in folder.iterdir()] == ["hall.toml"]
    assert "underpour ask hall.toml" in capsys.readouterr().out
