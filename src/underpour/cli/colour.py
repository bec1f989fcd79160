"""Colour for the two verdict words that ask for something. The words carry everything without it.

Two of the 256 terminal colours, near the look's own "short" and "tell", that can be read on white and on black.
"""

from __future__ import annotations

import re

SHORT = "\x1b[1;38;5;166m"
TELL = "\x1b[1;38;5;97m"
PLAIN = "\x1b[0m"


def coloured(text: str) -> str:
    """The same text with the verdict words at the head of a line in colour."""
    text = re.sub(r"^Falls short", f"{SHORT}Falls short{PLAIN}", text, flags=re.MULTILINE)
    return re.sub(r"^Cannot tell", f"{TELL}Cannot tell{PLAIN}", text, flags=re.MULTILINE)
