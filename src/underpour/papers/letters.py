"""Text made fit for print: letters that the fonts have, and places where a long word may break."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files

ABSENT = "\N{WHITE SQUARE}"
BREAK = "\N{ZERO WIDTH SPACE}"
LONGEST = 24  # letters in a row before a break is offered


@cache
def covered() -> frozenset[int]:
    """Code points that at least one bundled font draws, from fonts/covered.txt."""
    lines = files(__package__).joinpath("fonts", "covered.txt").read_text("utf-8").split()
    spans = (line.partition("-") for line in lines)
    return frozenset(c for low, _, high in spans for c in range(int(low, 16), int(high or low, 16) + 1))


def drawable(text: str) -> str:
    """The text with every letter that no bundled font has replaced by an empty square.

    Examples
    --------
    >>> drawable("2 in ≈ 51 mm")
    '2 in ≈ 51 mm'
    """
    known = covered()
    return "".join(c if c in "\n\t" or ord(c) in known else ABSENT for c in text)


def breakable(text: str) -> str:
    """The same text with breaks offered in words too long for a column; they do not show.

    Examples
    --------
    >>> breakable("short words stay") == "short words stay"
    True
    >>> breakable("x" * 30).split("\\u200b") == ["x" * 24, "x" * 6]
    True
    """
    letter = rf"[^\s{BREAK}-]"  # a line may end at a hyphen without our help
    return re.sub(rf"({letter}{{{LONGEST}}})(?={letter})", rf"\1{BREAK}", text)


def path(text: str) -> str:
    """A path of the brief or catalogue, offered a break after each of its dots.

    Examples
    --------
    >>> path("site.ground").replace("\\u200b", "|")
    'site.|ground'
    """
    return breakable(text.replace(".", f".{BREAK}"))
