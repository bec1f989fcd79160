"""Typed text with its typographic signs turned into plain ones."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

LONGEST = 80  # signs; no measure is longer, and what is need not be searched

_SIGNS = str.maketrans(
    {
        **dict.fromkeys("′’‘ʹ´`", "'"),
        **dict.fromkeys("″”“ʺ", '"'),
        **dict.fromkeys("−–—‐‑﹣－⁻", "-"),
        **dict.fromkeys("⋅∙•‧×*", "·"),
        **dict.fromkeys("⁄∕÷", "/"),
        **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("\u200b\u2060\ufeff", None),  # signs without a width
        **{chr(0x2080 + n): str(n) for n in range(10)},
        **dict(zip("⁰¹²³⁴", "01234", strict=True)),
        "μ": "µ",
        "℃": "°C",
        "℉": "°F",
    }
)


@cache
def _grouped() -> re.Pattern[str]:
    return re.compile("(?<=[0-9])[\u2009\u202f](?=[0-9]{3}(?![0-9/]))")


def plain(typed: str) -> str:
    """The text with plain quotes, minus signs, fractions and single spaces.

    A thin space between groups of three digits, as we print it ourselves, is taken out; any other space stays.

    >>> plain("11′ 6⅞″")
    '11\\' 6 7/8"'
    """
    text = _grouped().sub("", typed).translate(_SIGNS).replace("''", '"')
    if not text.isascii():
        text = "".join(_fraction(sign) for sign in text)
    return " ".join(text.split())


def _fraction(sign: str) -> str:
    """½ as " 1/2"; the space keeps 2½ from becoming 21/2."""
    if sign.isascii() or not unicodedata.decomposition(sign).startswith("<fraction>"):
        return sign
    return " " + unicodedata.normalize("NFKD", sign).replace("⁄", "/")
