"""What a command hands back: words for the terminal and the exit status."""

from __future__ import annotations

from typing import NamedTuple


class Told(NamedTuple):
    text: str
    status: int = 0
