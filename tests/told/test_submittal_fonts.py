"""Letters that the bundled fonts lack: listed on the paper and in the terminal, or drawn by a folder of the user's."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import paper_cases as cases
import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from sheets import words

from underpour.cli import main
from underpour.cli.submittal import absent_words
from underpour.mistakes import Mistake
from underpour.papers import submittal
from underpour.papers.letters import Letters
from underpour.papers.typefaces import typefaces

DAY = "2026-11-27"
DEMO = (Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml").read_text("utf-8")
FOREIGN = "漢字 \U00020000"  # two that format 4 of a character map holds, one that only format 12 does
MARKED = "a\N{RIGHT-TO-LEFT OVERRIDE}b\x1b[31mc"


def font(path: Path, letters: str) -> None:
    """A font of one family that draws a square for each of these letters and nothing else."""
    pen = TTGlyphPen(None)
    pen.moveTo((100, 0))
    for corner in ((100, 700), (800, 700), (800, 0)):
        pen.lineTo(corner)
    pen.closePath()
    square, names = pen.glyph(), [f"u{ord(c):X}" for c in letters]
    made = FontBuilder(1000, isTTF=True)
    made.setupGlyphOrder([".notdef", *names])
    made.setupCharacterMap({ord(c): name for c, name in zip(letters, names, strict=True)})
    made.setupGlyf(dict.fromkeys([".notdef", *names], square))
    made.setupHorizontalMetrics(dict.fromkeys([".notdef", *names], (900, 100)))
    made.setupHorizontalHeader(ascent=800, descent=-200)
    made.setupNameTable({"familyName": "Squares of the Test", "styleName": "Regular", "psName": "SquaresOfTheTest"})
    made.setupOS2(sTypoAscender=800, usWinAscent=800, usWinDescent=200)
    made.setupPost()
    made.save(path)


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "fonts").mkdir()
    font(tmp_path / "fonts" / "squares.ttf", FOREIGN.replace(" ", ""))
    return tmp_path / "fonts"


def titled(title: str):
    return replace(cases.dossier(), title=title)


def test_a_users_folder_draws_what_the_bundled_fonts_do_not(folder):
    made = submittal(titled(FOREIGN), cases.pictures(), date=DAY, typefaces=typefaces(str(folder)))
    assert made.absent == () and "漢字" in words(made.pdf)
    without = submittal(titled(FOREIGN), cases.pictures(), date=DAY)
    assert without.absent == tuple(sorted(FOREIGN.replace(" ", ""))) and "□□ □" in words(without.pdf)


def test_what_no_font_draws_is_listed_on_the_paper_by_code_and_name(folder):
    told = " ".join(words(submittal(titled(f"{FOREIGN} \N{SNOWMAN}{MARKED}"), cases.pictures(), date=DAY).pdf).split())
    for said in (
        "Letters that no font here draws",
        "U+6F22",
        "U+2603 snowman",
        "U+202E right-to-left override",
        "U+001B",
    ):
        assert said in told, said


def test_the_terminal_names_them_too_and_never_prints_what_steers_it(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    Path("brief.toml").write_text(DEMO.replace('title = "', 'title = "漢\\u001b[31m\\u202e '), "utf-8")
    assert main(["submittal", "brief.toml", "-o", "a.pdf"]) == 0
    said = capsys.readouterr().out
    assert (
        "No font here draws U+001B, U+202E, 漢 (U+6F22): each stands as □. --fonts FOLDER names fonts that do." in said
    )
    assert "\x1b" not in said and "\u202e" not in said


def test_many_of_them_are_counted():
    assert absent_words("".join(map(chr, range(0x4E00, 0x4E10))))[0].count("U+") == 12
    assert "and 4 more" in absent_words("".join(map(chr, range(0x4E00, 0x4E10))))[0]


@pytest.mark.parametrize(
    ("make", "words_told"),
    [
        (lambda place: None, "There is no such folder."),
        (lambda place: place.write_text("a file"), "That is a file; a folder is wanted."),
        (lambda place: place.mkdir(), "No font is in it."),
        (
            lambda place: (place.mkdir(), (place / "a.ttf").write_bytes(b"no font")),
            "No font can be read from a.ttf.",
        ),
        (
            lambda place: (place.mkdir(), (place / "a.ttc").write_bytes(b"ttcf" + b"\xff" * 40)),
            "No font can be read from a.ttc.",
        ),
        (
            lambda place: (place.mkdir(), [(place / f"{n}.ttf").write_bytes(b"") for n in range(201)]),
            "It holds 201 fonts; 200 are looked at, at most.",
        ),
    ],
)
def test_a_folder_without_a_font_is_told(tmp_path, make, words_told):
    make(tmp_path / "mine")
    with pytest.raises(Mistake) as told:
        typefaces(str(tmp_path / "mine"))
    assert words_told in told.value.wrong and told.value.instead


def test_a_damaged_font_beside_a_whole_one_is_named(folder):
    whole = (folder / "squares.ttf").read_bytes()
    (folder / "cut.ttf").write_bytes(whole[: len(whole) // 2])
    with pytest.raises(Mistake) as told:
        typefaces(str(folder))
    assert told.value.wrong == "No font can be read from cut.ttf."


def test_several_fonts_in_one_file_are_read(folder):
    from fontTools.ttLib import TTCollection

    font(folder / "more.ttf", "字語")
    collection = TTCollection()
    collection.fonts = [TTFont(folder / name) for name in ("squares.ttf", "more.ttf")]
    collection.save(folder / "both.ttc")
    for name in ("squares.ttf", "more.ttf"):
        (folder / name).unlink()
    assert typefaces(str(folder)).drawn >= set(map(ord, FOREIGN.replace(" ", "") + "語"))


def test_marks_that_turn_the_reading_direction_are_never_drawn_by_a_users_font():
    letters = Letters(frozenset({0x202E, 0x6F22}))
    assert letters.drawable("漢\N{RIGHT-TO-LEFT OVERRIDE}") == "漢□" and list(letters.absent) == ["\u202e"]
