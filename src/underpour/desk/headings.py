"""What a brief is listed by, read from its text however unfinished it is."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from typing import Any

from ..book import Heading

LONGEST = 200  # letters of a title as it is listed
LONGEST_NAME = 60  # letters of a file's name


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


def file_name(of: Heading, otherwise: str) -> str:
    """What a file of this brief is called, in letters that every system takes.

    >>> file_name(Heading("Größe, north / shore"), "brief-7")
    'groe-north-shore'
    """
    plain = unicodedata.normalize("NFKD", of.title).encode("ascii", "ignore").decode().lower()
    return "-".join(re.findall("[a-z0-9]+", plain))[:LONGEST_NAME].strip("-") or otherwise


def _words(read: dict[str, Any], table: str, key: str) -> str:
    held = read.get(table)
    typed = held.get(key) if isinstance(held, dict) else None
    return " ".join(typed.split())[:LONGEST] if isinstance(typed, str) else ""
