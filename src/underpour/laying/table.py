"""Reading of the tables of laying: which rows fit a thing, and texts filled with its words."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from ..measure.table import System
from .things import Thing

Row = Mapping[str, Any]


@cache
def table(name: str) -> Row:
    """The table of that name as it stands in its file, read once."""
    return tomllib.loads((files(__package__) / f"{name}.toml").read_text(encoding="utf-8"))


@cache
def caution(key: str) -> str:
    """One of the cautions that the whole tool says in the same words."""
    text = (files("underpour") / "cautions.toml").read_text(encoding="utf-8")
    return str(tomllib.loads(text)[key])


def asked(row: Row, thing: Thing) -> bool:
    """Whether a row asks for this thing: what it is, and features that must or must not be there."""
    return (
        thing.each == row.get("each", thing.each)
        and ("kinds" not in row or thing.kind in row["kinds"])
        and fits(row, thing.features)
    )


def fits(condition: Row, features: frozenset[str]) -> bool:
    """Whether every feature of ``when`` is there, and none of ``unless``.

    >>> fits({"when": ["a"], "unless": ["b"]}, frozenset({"a"})), fits({"when": ["a"]}, frozenset({"b"}))
    (True, False)
    """
    return features.issuperset(condition.get("when", ())) and features.isdisjoint(condition.get("unless", ()))


def said(texts: Sequence[str | Row], thing: Thing, words: Mapping[str, str]) -> Iterator[str]:
    """The lines that fit the thing, filled. A word that is not there is a KeyError: the table names what is not."""
    for text in texts:
        if isinstance(text, str):
            yield text.format_map(words)
        elif fits(text, thing.features):
            yield str(text["say"]).format_map(words)


def measured(name: str, system: System) -> dict[str, str]:
    """The measures that a table sets itself, round in both systems, the brief's own first."""
    other: System = "SI" if system == "US" else "US"
    return {key: f"{row[system]} ({row[other]})" for key, row in table(name).get("measures", {}).items()}
