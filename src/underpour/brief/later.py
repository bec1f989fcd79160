"""Keys that a brief may have one day but that nothing answers yet, told as such and not as a misspelling."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources

from ..mistakes import Mistake
from .paths import Path, written

_INSTEAD = "Take it out; the rest of the brief stands."


@cache
def _laid_down() -> dict[str, dict[str, list[str]]]:
    return tomllib.loads(resources.files(__package__).joinpath("later.toml").read_text("utf-8"))


def without_numbers(path: Path) -> str:
    """The path's names alone.

    >>> without_numbers(("edge", 0, "insulation", 1))
    'edge.insulation'
    """
    return ".".join(step for step in path if isinstance(step, str))


def later_key(path: Path, value: object) -> Mistake | None:
    """The mistake for a key that nothing answers yet; None where the key is not one of those."""
    *table, key = path
    if key not in _laid_down()["keys"].get(without_numbers(tuple(table)) or "brief", ()):
        return None
    several = isinstance(value, list) and all(isinstance(entry, dict) for entry in value)
    heading = isinstance(value, dict) and not table
    name = f"[[{without_numbers(path)}]]" if several else f"[{key}]" if heading else str(key)
    return not_yet(written(path), name)


def not_yet(at: str, name: str) -> Mistake:
    return Mistake(at, "", f"Nothing answers {name} in this version yet.", _INSTEAD)
