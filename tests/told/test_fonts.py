"""The bundled fonts draw every letter that our words need."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

import underpour.pages
import underpour.papers
from underpour.pages.write import FONTS as FACES
from underpour.papers.covered import spans
from underpour.papers.letters import ABSENT, BREAK, Letters

FONTS = Path(underpour.papers.__file__).parent / "fonts"
CUT = Path(underpour.pages.__file__).parent / "fonts"
LETTERS = "Aa Zz 0123456789 áéíóúñçãõäöüßåæøłőűšžćğı ÁÉÑÇÖŁŠ αβγδθλμπρσφψω ΑΔΣΦΨΩ абвгджийкщыэюя АБЖЯ"
SIGNS = "° − × ± · ² ³ ½ ¼ ¾ ′ ″ ≥ ≤ ≈ ψ λ θ φ Σ Δ ω – — ‘ ’ “ ” … √ → % / ( ) [ ] { } # * _ = € £ $ ⅛ ⅜ ⅝ ⅞ □"
SPACES = "\N{THIN SPACE}\N{NARROW NO-BREAK SPACE}\N{NO-BREAK SPACE}"


@cache
def drawn_by(name: str) -> frozenset[str]:
    with TTFont(FONTS / name) as font:
        return frozenset(map(chr, font.getBestCmap()))


@pytest.mark.parametrize("letter", sorted(set(LETTERS + SIGNS + SPACES)), ids=lambda c: f"U+{ord(c):04X}")
def test_each_letter_of_the_interface_is_drawn_by_a_bundled_font(letter):
    assert any(letter in drawn_by(file.name) for file in FONTS.glob("*.ttf"))


def test_web_pages_carry_every_letter_too_and_little_else():
    """Cut fonts: the letters of our words, 150 kB in all."""
    drawn: set[int] = set()
    for file in CUT.glob("*.woff2"):
        with TTFont(file) as font:
            drawn |= set(font.getBestCmap())
            assert {"tnum"} <= _features(font) or "Sofia" not in file.name
    assert set(map(ord, LETTERS + SIGNS + SPACES)) - drawn == set()
    assert sum(file.stat().st_size for file in CUT.glob("*.woff2")) < 150_000


def test_cut_fonts_are_cut_from_the_whole_ones():
    """The same glyphs for the same letters; bytes may change with the tool that packs them."""
    for _, _, name in FACES:
        with TTFont(CUT / f"{name}.woff2") as cut, TTFont(FONTS / f"{name}.ttf") as whole:
            assert cut["name"].getDebugName(5) == whole["name"].getDebugName(5)
            wide = whole["hmtx"].metrics
            names = cut.getBestCmap()
            assert all(cut["hmtx"].metrics[glyph] == wide[whole.getBestCmap()[code]] for code, glyph in names.items())


def _features(font: TTFont) -> set[str]:
    return {record.FeatureTag for record in font["GSUB"].table.FeatureList.FeatureRecord} if "GSUB" in font else set()


@pytest.mark.parametrize(
    "file",
    [
        "SofiaSans-Regular",
        "SofiaSans-SemiBold",
        "SofiaSansCondensed-Regular",
        "SofiaSansCondensed-SemiBold",
        "FiraMono-Regular",
    ],
)
def test_words_never_change_their_font_midway(file):
    assert not set(LETTERS + "°−×±·²³½¼¾%€") - drawn_by(f"{file}.ttf")


def test_columns_of_numbers_can_be_set_one_digit_width():
    for file in FONTS.glob("Sofia*.ttf"):
        with TTFont(file) as font:
            features = {record.FeatureTag for record in font["GSUB"].table.FeatureList.FeatureRecord}
        assert {"tnum", "frac"} <= features, file.name


def test_the_list_of_letters_is_the_one_of_the_files():
    assert (FONTS / "covered.txt").read_text("utf-8") == spans(), "python -m underpour.papers.covered"


def test_a_letter_nobody_draws_is_shown_as_an_empty_square():
    letters = Letters()
    assert letters.drawable("漢\N{NULL}\N{RIGHT-TO-LEFT OVERRIDE}a") == ABSENT * 3 + "a"
    assert letters.drawable(BREAK) == BREAK and len(letters.named()) == 3


def test_the_fonts_stay_below_two_megabytes_and_carry_their_licences():
    assert sum(file.stat().st_size for file in FONTS.iterdir()) < 2_000_000
    for licence in ("OFL-SofiaSans.txt", "OFL-NotoSansMath.txt", "OFL-FiraMono.txt"):
        assert "SIL OPEN FONT LICENSE Version 1.1" in (FONTS / licence).read_text("utf-8")
