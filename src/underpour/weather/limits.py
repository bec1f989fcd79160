"""The limits of a weather file and the marks of a missing value, from ``weather.toml``."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def table() -> dict[str, Any]:
    return tomllib.loads((files(__package__) / "weather.toml").read_text(encoding="utf-8"))


def limit(key: str) -> float:
    """One limit, in the unit that its table says."""
    return float(table()["limit"][key]["value"])


def missing_between(kind: str) -> tuple[float, float]:
    """The values of a kind of file that stand for "not measured": from and to, both included."""
    marks = table()["missing"][kind]
    return marks.get("from", float("-inf")), marks.get("to", float("inf"))
