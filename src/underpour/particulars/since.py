"""What moved on a data sheet since an older one that was kept."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..mistakes import Mistake
from .mark import NOT_SAID, mark
from .sheet import FORMAT

HOW = "Give what datasheet --keep wrote for the last sheet."
REPEATED = ("short", "open", "label", "statistics", "burns", "why")  # say again what stands elsewhere on the sheet
NAMED_BY = ("thickness", "name", "words", "about", "title")  # what tells one entry of a list from another
SAID = {  # of what is kept under a name that no sheet prints
    "called": "what it is",
    "for": "what it is for",
    "not": "what it is not for",
    "claims": "classes claimed",
    "carried": "classes that the records carry",
    "not_held": "not looked at in its code",
    "made": "thicknesses made",
    "lasting": "what may stand on it for good",
    "figures": "properties",
    "facts": "how it comes",
    "use": "in use",
    "embodied": "embodied carbon",
    "r": "R as labelled",
    "worked": "how it is worked out",
    "governs": "whether it governs",
}


@dataclass(frozen=True, slots=True)
class Moved:
    """One text that is otherwise than on the older sheet; "" where it was not there, or is gone."""

    what: str
    was: str
    now: str


def earlier(text: str, file: str) -> dict[str, Any]:
    """An older sheet, as ``datasheet --keep`` wrote it.

    Raises
    ------
    Mistake
        No JSON, no object of the form datasheet/1, or one that was changed by hand: its mark is another.
    """
    try:
        read = json.loads(text)
    except json.JSONDecodeError as wrong:
        raise Mistake("", "", "This is no JSON.", HOW, file, wrong.lineno) from None
    except RecursionError:
        raise Mistake("", "", "Its brackets stand too deep in one another.", HOW, file) from None
    form = read.get("format") if isinstance(read, dict) else None
    if form != FORMAT:
        said = f"Its format is {form}" if form else "It has no format"
        raise Mistake("", "", f"{said}; {FORMAT} is read.", HOW, file)
    days = [read.get(key) for key in ("day", "issued")]
    if not all(isinstance(each, str) and _is_day(each) for each in days) or read.get("mark") != mark(read):
        raise Mistake("", "", "Parts of what was kept are gone, or were changed by hand.", HOW, file)
    return dict(read)


def _is_day(typed: str) -> bool:
    import datetime

    try:
        datetime.date.fromisoformat(typed)
    except ValueError:
        return False
    return True


def since(last: Mapping[str, Any], now: Mapping[str, Any], file: str) -> tuple[dict[str, Any], tuple[Moved, ...]]:
    """The sheet with the day of its first issue, and what moved on it.

    A sheet of the same mark keeps the day on which it was first issued.

    Raises
    ------
    Mistake
        The older sheet is of another product.
    """
    if last["key"] != now["key"]:
        raise Mistake("", "", f"It is the sheet of {last['key']}, and this is {now['key']}.", HOW, file)
    if last["mark"] == now["mark"]:
        return {**now, "issued": last["issued"]}, ()
    was, is_now = dict(_leaves(last)), dict(_leaves(now))
    names = dict.fromkeys((*is_now, *was))
    moved = (
        Moved(name, was.get(name, ""), is_now.get(name, "")) for name in names if was.get(name) != is_now.get(name)
    )
    return dict(now), tuple(moved)


def _leaves(told: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, str]]:
    """Every text with where it stands, in words; entries of a list by what names them."""
    if isinstance(told, Mapping):
        for key, value in told.items():
            if key not in (REPEATED if path else (*REPEATED, *NOT_SAID)):
                yield from _leaves(value, (*path, str(SAID.get(key, key))))
    elif isinstance(told, list | tuple):
        for number, each in enumerate(told, start=1):
            yield from _leaves(each, (*path, _named(each, number)))
    else:
        yield ", ".join(path), str(told)


def _named(entry: Any, number: int) -> str:
    """What an entry of a list is called: a test by its number on the sheet and its property."""
    if not isinstance(entry, Mapping):
        return str(number)
    if "record" in entry and "name" in entry:
        return f"no. {entry['record']}, {entry['name']}"
    return str(next((entry[key] for key in NAMED_BY if entry.get(key)), number))
