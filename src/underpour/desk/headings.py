"""What a brief is listed by, read from its text however unfinished it is."""

from __future__ import annotations

import tomllib
from typing import Any

from ..book import Heading

LONGEST = 200  # letters of a title as it is listed


def heading(text: str, before: Heading | None = None) -> Heading:
    """Title, place and use of a text; those from before where it cannot be read as TOML at this moment.

    >>> heading('[project]\\ntitle = "North shore"\\nuse = "workshop"')
    Heading(title='North shore', place='', use='workshop')
    """
    try:
        read = tomllib.loads(text)
    except (ValueError, RecursionError):
        return before or Heading()
    return Heading(*(_words(read, *path) for path in (("project", "title"), ("site", "place"), ("project", "use"))))


def _words(read: dict[str, Any], table: str, key: str) -> str:
    held = read.get(table)
    typed = held.get(key) if isinstance(held, dict) else None
    return " ".join(typed.split())[:LONGEST] if isinstance(typed, str) else ""
