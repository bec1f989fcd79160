"""Writes fonts/covered.txt, the code points that the bundled fonts draw. For developers: needs fontTools."""

from __future__ import annotations

import unicodedata
from itertools import groupby
from pathlib import Path

FONTS = Path(__file__).parent / "fonts"


def spans() -> str:
    """One line a span, hexadecimal: "0041-005A". Controls and marks that turn the reading direction stay out."""
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    drawn: set[int] = set()
    for file in FONTS.glob("*.ttf"):
        with TTFont(file) as font:
            drawn |= set(font.getBestCmap())
    fit = sorted(code for code in drawn if unicodedata.category(chr(code)) != "Cc" and not _steers(chr(code)))
    lines = []
    for _, run in groupby(enumerate(fit), key=lambda pair: pair[1] - pair[0]):
        codes = [code for _, code in run]
        lines.append(f"{codes[0]:04X}" if len(codes) == 1 else f"{codes[0]:04X}-{codes[-1]:04X}")
    return "\n".join(lines) + "\n"


def _steers(letter: str) -> bool:
    return unicodedata.category(letter) == "Cf" and letter not in "\N{SOFT HYPHEN}\N{ZERO WIDTH SPACE}"


if __name__ == "__main__":
    (FONTS / "covered.txt").write_text(spans(), encoding="utf-8", newline="\n")
