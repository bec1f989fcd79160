"""The limits of a drawing, the units and layers that it may name, from ``plan_file.toml``."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def table() -> dict[str, Any]:
    return tomllib.loads((files(__package__) / "plan_file.toml").read_text(encoding="utf-8"))


def limit(key: str) -> float:
    """One limit, in the unit that its table says."""
    return float(table()["limit"][key]["value"])
