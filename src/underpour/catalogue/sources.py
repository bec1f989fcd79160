"""The documents that numbers come from, and how each was seen."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

from .. import mistakes
from .records import Source


@cache
def _by_key() -> dict[str, Source]:
    text = Path(__file__).with_name("sources.toml").read_text(encoding="utf-8")
    return {
        key: Source(key, row["title"], row["publisher"], row["year"], row["seen"])
        for key, row in tomllib.loads(text).items()
    }


def sources() -> tuple[Source, ...]:
    """Every source, in the order of the file."""
    return tuple(_by_key().values())


def source(key: str) -> Source:
    """The source of that key.

    >>> source("iso-6946-2017").publisher
    'ISO'
    """
    if key not in _by_key():
        listing = "All of them: underpour catalogue list sources"
        raise mistakes.unknown("", key, list(_by_key()), "source", listing)
    return _by_key()[key]
