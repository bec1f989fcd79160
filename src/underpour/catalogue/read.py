"""Reading of the catalogue's tables: once, on first use, every number with its source."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any, NoReturn, TypeVar

from .. import mistakes
from .records import Quantity
from .sources import source

FOLDER = Path(__file__).parent
Entry = Mapping[str, Any]
Record = TypeVar("Record")


@cache
def table(name: str) -> Entry:
    """The table of that name as it stands in its file, read once."""
    return tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


def quantity(entry: Entry, path: str) -> Quantity:
    """A number that says everything of itself: value, low, high, unit, source, where."""
    origin = source(entry["source"])
    return Quantity(
        value=float(entry["value"]),
        unit=entry["unit"],
        low=float(entry["low"]),
        high=float(entry["high"]),
        source=origin,
        where=entry["where"],
        seen=entry.get("seen", origin.seen),
        path=path,
        note=entry.get("note", ""),
    )


def cell(columns: Entry, name: str, written: float | Entry, path: str) -> Quantity:
    """A number of a row, whose column says unit and source.

    The row writes a bare number, or a table with ``low``, ``high``, ``record``, ``where`` or ``seen`` of its own. A
    bare number is a printed one and has no range. ``times`` of the column turns what is printed into its unit.
    """
    column = columns[name]
    own: Entry = written if isinstance(written, Mapping) else {"value": written}
    times = column.get("times", 1.0)
    where = own.get("where", column["where"])
    entry = {
        **column,
        "value": own["value"] * times,
        "low": own.get("low", own["value"]) * times,
        "high": own.get("high", own["value"]) * times,
        "where": f"{where}, record {own['record']}" if "record" in own else where,
    }
    if "seen" in own:
        entry["seen"] = own["seen"]
    return quantity(entry, path)


def one(records: Mapping[str, Record], key: str, what: str, listing: str) -> Record:
    """The record of that key, or the Mistake that offers the nearest one."""
    found = records.get(key)
    return found if found is not None else absent(records, key, what, listing)


def absent(records: Mapping[str, object], key: str, what: str, listing: str) -> NoReturn:
    raise mistakes.unknown("", key, list(records), what, f"All of them: underpour catalogue list {listing}")


def keyed(names: Mapping[str, Record], also: Callable[[str], tuple[str, ...]]) -> dict[str, Record]:
    """The records by their key and by every other word for them."""
    return dict(names) | {word: record for key, record in names.items() for word in also(key)}
