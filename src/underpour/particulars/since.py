"""What moved on a page of a product since an older one that was kept: a data sheet, a guide, a comparison."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..mistakes import Mistake
from .comparison import NONE, NOT_MADE
from .figures import STANDS
from .mark import NOT_SAID, mark

REPEATED = ("short", "open", "label", "statistics", "burns", "why")  # say again what stands elsewhere on the sheet
EMPTY = (NOT_MADE, NONE)  # cells of a comparison that say nothing of their product
NAMED_BY = (
    "thickness",
    "name",
    "words",
    "about",
    "title",
    "what",
    "look_at",
)  # what tells one entry of a list from another
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
    "usual": "the usual order",
    "works": "in what order",
    "how": "how it is done",
    "mind": "what to mind",
    "stops": "whether someone looks before the next step",
    "points": "what to look at",
}


@dataclass(frozen=True, slots=True)
class Form:
    """A kind of page whose words can be kept."""

    format: str  # "datasheet/1"
    called: str  # "sheet"
    command: str  # that keeps it

    @property
    def how(self) -> str:
        return f"Give what {self.command} --keep wrote for the last {self.called}."


SHEET = Form("datasheet/1", "sheet", "datasheet")
GUIDE = Form("guide/1", "guide", "guide")
COMPARISON = Form("comparison/1", "comparison", "catalogue compare")


@dataclass(frozen=True, slots=True)
class Moved:
    """One text that is otherwise than on the older page; "" where it was not there, or is gone."""

    what: str
    was: str
    now: str


def earlier(text: str, file: str, form: Form = SHEET) -> dict[str, Any]:
    """An older page, as ``--keep`` wrote it.

    Raises
    ------
    Mistake
        No JSON, no object of that form, or one that was changed by hand: its mark is another.
    """
    try:
        read = json.loads(text)
    except json.JSONDecodeError as wrong:
        raise Mistake("", "", "This is no JSON.", form.how, file, wrong.lineno) from None
    except RecursionError:
        raise Mistake("", "", "Its brackets stand too deep in one another.", form.how, file) from None
    told = read.get("format") if isinstance(read, dict) else None
    if told != form.format:
        said = f"Its format is {told}" if told else "It has no format"
        raise Mistake("", "", f"{said}; {form.format} is read.", form.how, file)
    days = [read.get(key) for key in ("day", "issued")]
    if not all(isinstance(each, str) and _is_day(each) for each in days) or read.get("mark") != mark(read):
        raise Mistake("", "", "Parts of what was kept are gone, or were changed by hand.", form.how, file)
    return dict(read)


def _is_day(typed: str) -> bool:
    import datetime

    try:
        datetime.date.fromisoformat(typed)
    except ValueError:
        return False
    return True


def since(
    last: Mapping[str, Any], now: Mapping[str, Any], file: str, form: Form = SHEET
) -> tuple[dict[str, Any], tuple[Moved, ...]]:
    """The page with the day of its first issue, and what moved on it.

    A page of the same mark keeps the day on which it was first issued.

    Raises
    ------
    Mistake
        The older page is of another product; a comparison may be of others than the last one.
    """
    if last.get("key") != now.get("key"):
        raise Mistake("", "", f"It is the {form.called} of {last['key']}, and this is {now['key']}.", form.how, file)
    if last["mark"] == now["mark"]:
        return {**now, "issued": last["issued"]}, ()
    if form == COMPARISON:
        both = set(_compared(last)) & set(_compared(now))
        was, is_now = dict(_cells(last, both)), dict(_cells(now, both))
    else:
        was, is_now = dict(_leaves(last)), dict(_leaves(now))
    names = dict.fromkeys((*is_now, *was))
    moved = (
        Moved(name, was.get(name, ""), is_now.get(name, "")) for name in names if was.get(name) != is_now.get(name)
    )
    return dict(now), tuple(moved)


def _compared(told: Mapping[str, Any]) -> list[str]:
    """The keys of the products in a comparison."""
    return [each["key"] for table in told["tables"] for each in table["products"]]


def _cells(told: Mapping[str, Any], both: Collection[str]) -> Iterator[tuple[str, str]]:
    """The products of a comparison, and every cell of those that another one has too, by product and row.

    A word stands before a number that does not stand by itself.
    """
    for key in _compared(told):
        yield key, "compared"
    for table in told["tables"]:
        keys = [each["key"] for each in table["products"]]
        for group in table["groups"]:
            for row in group["rows"]:
                name = ", ".join(filter(None, (row["name"], row["terms"])))
                for key, cell in zip(keys, row["cells"], strict=True):
                    if key not in both or cell["standing"] == "missing" or cell["words"] in EMPTY:
                        continue  # a row may stand there for the sake of another product
                    standing = "" if cell["standing"] == STANDS else f"{cell['standing']}: "
                    evidence = f"; {cell['evidence']}" if cell["evidence"] else ""
                    yield f"{key}, {name}", f"{standing}{cell['words']}{evidence}"
    for note in told["notes"]:
        yield f"why a number does not stand plain: {note}", "said"
    yield "closing words", told["closing"]


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
