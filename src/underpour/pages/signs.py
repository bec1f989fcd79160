"""Signs on their way to a page: none that steers a reader, and no line that ends between a number and its unit."""

from __future__ import annotations

import re

from ..papers.letters import ABSENT

# They turn the reading direction or steer a device; a name could look like another one with them.
STEERING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]")


def set_signs(text: str) -> str:
    """The text with spaces before units that no line ends at, as in drawings, and an empty square for what steers.

    >>> set_signs("12.7\\N{THIN SPACE}°C") == "12.7\\N{NO-BREAK SPACE}°C"
    True
    """
    return STEERING.sub(ABSENT, text).replace("\N{THIN SPACE}", "\N{NO-BREAK SPACE}")
