"""The colours of the house, read from the one colour file."""

from __future__ import annotations

import csv
import tomllib
from functools import cache
from importlib.resources import files


@cache
def light() -> dict[str, str]:
    """Name to hex colour for light screens and for paper.

    The names are sheet, leaf, shade, rule, frame, ink, note, act, short and tell.
    """
    return _column("light")


@cache
def dark() -> dict[str, str]:
    """The same names for dark screens."""
    return _column("dark")


@cache
def tint_table() -> tuple[str, ...]:
    """The temperature tints from cold to warm, 149 hex colours of even steps (see tints-notice.txt)."""
    text = (files(__package__) / "tints.csv").read_text(encoding="utf-8")
    return tuple(row["tint"] for row in csv.DictReader(text.splitlines()))


def tints(count: int) -> tuple[str, ...]:
    """That many tints, spread evenly from the coldest to the warmest of the table.

    >>> tints(2)
    ('#4075A1', '#FCEBE6')
    """
    table = tint_table()
    last = len(table) - 1
    return tuple(table[round(last * k / max(count - 1, 1))] for k in range(count))


def _column(theme: str) -> dict[str, str]:
    read = tomllib.loads((files(__package__) / "colours.toml").read_text(encoding="utf-8"))
    return {name: row[theme] for name, row in read.items()}
