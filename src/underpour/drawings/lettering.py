"""How wide words come out in the drawing letter, so that they can be set into gaps and kept off each other."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

CAPITAL = 0.655  # height of a capital over the size of the type
LETTER = 2.5 / CAPITAL  # mm, size whose capitals are 2.5 mm high
HEADING = 3.5 / CAPITAL  # mm, size whose capitals are 3.5 mm high
UNKNOWN = 0.6  # of the size, for a character that the table does not hold


def width(words: str, size: float = LETTER, weight: int = 400) -> float:
    """Width of the words on paper. [mm]

    >>> round(width("0", 10.0), 2)
    4.46
    """
    column = 1 if weight >= 600 else 0
    table = _widths()
    return size * sum(table[c][column] if c in table else UNKNOWN for c in words)


def wrapped(words: str, room: float, size: float = LETTER, weight: int = 400) -> list[str]:
    """The words in lines no wider than ``room`` (mm); a word that is wider than that is cut where it must be."""
    lines: list[str] = []
    line = ""
    for word in words.split():
        while width(word, size, weight) > room:
            cut = max(1, next(n for n in range(1, len(word) + 1) if width(word[:n], size, weight) > room) - 1)
            lines += [line] if line else []
            lines.append(word[:cut])
            word, line = word[cut:], ""
        longer = f"{line} {word}".strip()
        if line and width(longer, size, weight) > room:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line] if line else lines


def cut_to(words: str, room: float, size: float = LETTER, weight: int = 400) -> str:
    """The words, shortened with an ellipsis where they are wider than ``room``. [mm]"""
    if width(words, size, weight) <= room:
        return words
    while words and width(words + "…", size, weight) > room:
        words = words[:-1]
    return words.rstrip() + "…"


@cache
def _widths() -> dict[str, tuple[float, float]]:
    text = (files(__package__) / "lettering.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return {chr(int(row["character"][2:], 16)): (float(row["regular"]), float(row["semibold"])) for row in rows}
