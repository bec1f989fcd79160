"""What the papers say beyond the answer: who hands over to whom, and which shortfalls somebody accepted."""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import PlainValidator, WithJsonSchema

from ...mistakes import Mistake
from ..kinds import as_error
from .table import Table, key


def _one_line(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise as_error(Mistake("", "", "Words are wanted here.", 'Write them in quotes: "Maple County".'))
    return " ".join(value.split())


def _lines(value: object) -> tuple[str, ...]:
    """One line of words, or a list of them."""
    if isinstance(value, str):
        return (_one_line(value),)
    if not isinstance(value, list | tuple):
        raise as_error(Mistake("", "", "Words or a list of them are wanted here.", 'Write ["one line", "another"].'))
    return tuple(_one_line(line) for line in value)


def _day(value: object) -> str:
    """A day of the calendar, typed as a TOML date or in quotes."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    try:
        return datetime.date.fromisoformat(str(value)).isoformat()
    except ValueError:
        raise as_error(Mistake("", "", f"{value} is no day of the calendar.", 'Write it as "2026-11-25".')) from None


def _at(value: object) -> tuple[tuple[str, str | float], ...]:
    """Which one of its kind: a table of words and measures, kept as typed."""
    plain = dict(value) if isinstance(value, tuple) else value
    if not isinstance(plain, dict) or not all(
        isinstance(word, str) or (isinstance(word, int | float) and not isinstance(word, bool))
        for word in plain.values()
    ):
        wrong = "This says which edge, film or distance is meant, as a table."
        raise as_error(Mistake("", "", wrong, 'Write at = { edge = "A" }.'))
    return tuple(plain.items())


Line = Annotated[str, PlainValidator(_one_line), WithJsonSchema({"type": "string", "minLength": 1})]
Lines = Annotated[
    tuple[str, ...],
    PlainValidator(_lines),
    WithJsonSchema({"oneOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}),
]
Day = Annotated[str, PlainValidator(_day), WithJsonSchema({"type": "string", "format": "date"})]
At = Annotated[
    tuple[tuple[str, str | float], ...],
    PlainValidator(_at),
    WithJsonSchema({"type": "object", "additionalProperties": {"type": ["string", "number"]}}),
]


class Handover(Table):
    """What stands on the first sheet of a submittal."""

    number: Line = key("Number of the submittal in your own books.", "26-0412", default="")
    revision: Line = key("Letter of this revision; left out on the first issue.", "B", default="")
    to: Lines = key("Who gets the papers.", "Building office, Maple County", default_factory=tuple)
    from_: Line = key("Which office sends them.", "Technical desk, north depot", default="")
    prepared_by: Line = key("Who made them.", "A. Example", default="")
    references: Lines | None = key(
        "Drawings and parts of the specification that they answer; an empty list says there are none.",
        ["Drawing S-101, revision 2", "Specification 03 30 00"],
        default=None,
    )
    deviations: Lines = key(
        "Where what is proposed departs from what was drawn or specified.",
        ["Foam 3 in, drawn 2 in"],
        default_factory=tuple,
    )
    logo: Line = key("A picture for the first sheet: PNG, JPEG or SVG, beside the brief.", "logo.png", default="")


class Accept(Table):
    """A shortfall that somebody accepted. It shows on every paper; number, verdict and exit status stay."""

    finding: Line = key("The finding's id, as `answer --json` names it.", "heat.floor-coldest")
    at: At = key("Which one of its kind, where there are several.", {"edge": "A"}, default_factory=tuple)
    reason: Line = key("Why it may stay as it is.", "Storage only; nobody sits there.")
    name: Line = key("Who accepted it.", "A. Owner")
    date: Day = key("The day it was accepted.", "2026-11-25")
