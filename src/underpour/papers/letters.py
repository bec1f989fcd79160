"""Text made fit for print: letters that the fonts have, and places where a long word may break."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any

ABSENT = "\N{WHITE SQUARE}"
THIN, TIED = "\N{THIN SPACE}", "\N{NO-BREAK SPACE}"  # a line never ends between a number and its unit
BREAK = "\N{ZERO WIDTH SPACE}"
LONGEST = 24.0  # letters in a row before breaks are offered, a wide letter counting for more
EVERY = 12.0  # letters from one break to the next
WIDE = 1.5  # letters of plain width that a capital or a letter of another script takes
LATIN = 0x250  # code points from here on are no plain Latin letters
AS_THEY_ARE = ("svg", "logo")  # keys whose text is a drawing


@cache
def covered() -> frozenset[int]:
    """Code points that at least one bundled font draws, from fonts/covered.txt."""
    lines = files(__package__).joinpath("fonts", "covered.txt").read_text("utf-8").split()
    spans = (line.partition("-") for line in lines)
    return frozenset(c for low, _, high in spans for c in range(int(low, 16), int(high or low, 16) + 1))


@dataclass
class Letters:
    """The letters that the fonts at hand draw; it notes those that were asked for and are not among them."""

    more: frozenset[int] = frozenset()  # code points of a user's own fonts
    absent: dict[str, None] = field(default_factory=dict)  # in the order in which they were met

    def drawable(self, text: str) -> str:
        """The text with every letter that no font has replaced by an empty square.

        Examples
        --------
        >>> Letters().drawable("2 in ≈ 51 mm")
        '2 in ≈ 51 mm'
        """
        return "".join(c if c in "\n\t" or self._drawn(c) else self._noted(c) for c in text)

    def fit(self, here: Any, key: str = "") -> Any:
        """Every text of a tree with drawable letters and breakable words; drawings keep their own line breaks."""
        if isinstance(here, dict):
            return {name: self.fit(value, name) for name, value in here.items()}
        if isinstance(here, list | tuple):
            return [self.fit(value, key) for value in here]
        if isinstance(here, str) and key == "svg":
            return self.drawable(here)
        if isinstance(here, str) and key not in AS_THEY_ARE:
            return breakable(self.drawable(here.replace(THIN, TIED)))
        return here

    def named(self) -> list[str]:
        """The letters that no font draws, by code point and name: they cannot be printed themselves."""
        return [f"U+{ord(c):04X} {unicodedata.name(c, 'without a name').lower()}" for c in sorted(self.absent)]

    def _drawn(self, letter: str) -> bool:
        code = ord(letter)
        return code in covered() or (code in self.more and not steers(letter))

    def _noted(self, letter: str) -> str:
        self.absent[letter] = None
        return ABSENT


def steers(letter: str) -> bool:
    """Whether a sign draws nothing and turns or joins what stands around it, or controls a machine."""
    kind = unicodedata.category(letter)
    return kind in ("Cc", "Cs") or (kind == "Cf" and letter not in "\N{SOFT HYPHEN}\N{ZERO WIDTH SPACE}")


def breakable(text: str) -> str:
    """The same text with breaks offered in words too long for a column; they do not show.

    Examples
    --------
    >>> breakable("short words stay") == "short words stay"
    True
    >>> breakable("x" * 30).split("\\u200b") == ["x" * 12, "x" * 12, "x" * 6]
    True
    """
    return re.sub(rf"[^\s{BREAK}-]{{16,}}", lambda word: _broken(word.group()), text)  # a line may end at a hyphen


def _broken(word: str) -> str:
    if sum(map(_breadth, word)) <= LONGEST:
        return word
    pieces, room = [""], EVERY
    for letter in word:
        if room < _breadth(letter) and not unicodedata.combining(letter):
            pieces.append("")
            room = EVERY
        pieces[-1] += letter
        room -= _breadth(letter)
    return BREAK.join(pieces)


def _breadth(letter: str) -> float:
    if unicodedata.combining(letter):
        return 0.0
    return WIDE if letter.isupper() or ord(letter) >= LATIN else 1.0


def path(text: str) -> str:
    """A path of the brief or catalogue, offered a break after each of its dots.

    Examples
    --------
    >>> path("site.ground").replace("\\u200b", "|")
    'site.|ground'
    """
    return breakable(text.replace(".", f".{BREAK}"))
