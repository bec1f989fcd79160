"""The one colour file holds the contrast and the even steps that the house asks of it."""

from __future__ import annotations

from itertools import pairwise

import pytest

from underpour.drawings import colours

GROUNDS = ("sheet", "leaf", "shade")
TEXT = ("ink", "note", "act", "short", "tell")
INK = "#182A2E"


def linear(colour: str) -> list[float]:
    parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    return [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]


def luminance(colour: str) -> float:
    """WCAG 2 relative luminance."""
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear(colour), strict=True))


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def lightness(colour: str) -> float:
    """CIE L* of a grey with the colour's luminance: what is left on a page in grey."""
    y = luminance(colour)
    return 116 * y ** (1 / 3) - 16 if y > 0.008856 else 903.3 * y


@pytest.mark.parametrize("theme", [colours.light, colours.dark])
def test_text_can_be_read_on_every_ground(theme):
    """WCAG 2.2, 1.4.3: 4.5 for text; 1.4.11: 3 for lines that carry meaning (both from memory)."""
    table = theme()
    for ground in GROUNDS:
        assert all(contrast(table[name], table[ground]) >= 4.5 for name in TEXT)
        assert contrast(table["frame"], table[ground]) >= 3.0


def test_both_themes_have_the_same_names():
    assert list(colours.light()) == list(colours.dark())
    assert len(colours.light()) == 10


def test_warmer_is_always_lighter_also_in_grey():
    """Steps of 18 tints in lightness, from 48 to 94."""
    steps = [lightness(tint) for tint in colours.tints(18)]
    assert all(b - a > 1.0 for a, b in pairwise(steps))
    assert 46 < steps[0] < 50 and 92 < steps[-1] < 96


def test_ink_reads_on_every_tint():
    """3.0 at the coldest, 12.9 at the warmest."""
    seen = [contrast(INK, tint) for tint in colours.tint_table()]
    assert min(seen) >= 3.0
    assert seen[-1] == pytest.approx(12.9, abs=0.1)


def test_the_table_holds_149_tints_from_cold_blue_to_warm_rose():
    assert len(colours.tint_table()) == 149
    assert colours.tints(9)[::8] == ("#4075A1", "#FCEBE6")
