"""Reading of the tables of codes that come with the tool, once, on first use."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, get_args

from ... import measure, mistakes
from ...findings import Seen
from ...measure import Measure
from ...mistakes import Mistake
from ..read import table
from .records import STOPS, Ask, Edition, Row, Subject

FOLDER = Path(__file__).parent
# One file each, in the order in which they are answered.
SUBJECTS = (
    *("slab-edge", "edge-placing", "basement-wall", "under-slab", "heated-slab", "f-factors", "vapour-retarder"),
    *("base-course", "slab-thickness", "frost", "soil-gas", "termite", "foam-fire"),
)
WORDS = (
    *("clause", "seen", "by", "from-memory", "doubtful", "note", "place", "route"),
    *("zones", "when", "unless", "less-below-grade", "edge-stops"),
)
LISTS = {  # keys of a row that are lists, each with a line to write
    "zones": 'zones = ["5", "6A"]',
    "when": 'when = ["heated-slab"]',
    "unless": 'unless = ["heated-slab"]',
    "from-memory": 'from-memory = ["depth"]',
}


@cache
def _table(name: str) -> Mapping[str, Any]:
    return tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


@cache
def asks() -> Mapping[str, Ask]:
    """Every quantity that a row may ask for, by its name."""
    return MappingProxyType(
        {
            key: Ask(key, told["title"], told["unit"], told["sense"], told["compared"], told["reads"])
            for key, told in _table("asks").items()
        }
    )


@cache
def triggers() -> Mapping[str, tuple[str, str]]:
    """Every word that decides whether a row applies: how it is said, and the key of the brief that answers it."""
    return MappingProxyType({word: (told["says"], told["asks"]) for word, told in _table("triggers").items()})


def forms() -> Mapping[str, Any]:
    """What a row on each subject may and must ask for, of the subjects that a finding reads."""
    return _table("forms")


def heated_from() -> float:
    """The winter temperature of a room from which it counts as heated. [degC]"""
    return float(_table("triggers")["conditioned"]["at-least"]["value"])


def unheated_to() -> float:
    """The winter temperature of a room up to which it counts as not heated. [degC]"""
    return float(_table("triggers")["unheated-accessory"]["at-most"]["value"])


def accessory() -> frozenset[str]:
    """The uses of buildings that stand beside a dwelling as its accessories."""
    return frozenset(_table("triggers")["unheated-accessory"]["uses"])


def granular_from() -> float:
    """The thickness of stone from which it counts as the code's granular fill. [m]"""
    return float(_table("triggers")["granular-fill"]["at-least"]["value"])


@cache
def unsaid() -> Mapping[str, str]:
    """What a brief does not have where a word does not hold, for words that are read from what it has."""
    return MappingProxyType({word: told["unsaid"] for word, told in _table("triggers").items() if "unsaid" in told})


@cache
def editions() -> Mapping[str, Edition]:
    """Every edition that comes with the tool, in the order of the file."""
    return MappingProxyType({key: _edition(key, told) for key, told in _table("editions").items()})


def every_edition() -> tuple[Edition, ...]:
    """Every edition that comes with the tool, in the order of the file."""
    return tuple(editions().values())


def _edition(key: str, told: Mapping[str, Any]) -> Edition:
    return Edition(
        key=key,
        title=told["title"],
        publisher=told["publisher"],
        country=told["country"],
        state=told.get("state", ""),
        date=told["date"],
        dated=told["dated"],
        covers=told["covers"],
        carries=told.get("carries", ""),
        amends=told.get("amends", ""),
        clause_of=tuple(told.get("clause-of", {}).items()),
        zones=told["zones"],
        map=told.get("map", ""),
        performance=told.get("performance", ""),
        needs=tuple(told["needs"]),
    )


@cache
def subjects() -> Mapping[str, Subject]:
    """Every subject, with what its file says at its head."""
    return MappingProxyType({key: Subject(key, tuple(_table(key)["when"]), _table(key)["advised"]) for key in SUBJECTS})


@cache
def rows() -> tuple[Row, ...]:
    """Every row of every subject, in the order of the files."""
    return tuple(_rows())


def _rows() -> Iterator[Row]:
    counted: dict[tuple[str, str], int] = {}
    for subject in SUBJECTS:
        for told in _table(subject)["row"]:
            of = told["edition"], subject
            counted[of] = counted.get(of, 0) + 1
            plain = {key: value for key, value in told.items() if key != "edition"}
            yield row(plain, told["edition"], subject, f"catalogue.code.{of[0]}.{subject}.{counted[of]}")


def row(told: Mapping[str, Any], edition: str, subject: str, path: str) -> Row:
    """One row as it stands in a file.

    Raises
    ------
    Mistake
        A key, a word or a measure that cannot be used; ``at`` is the key.
    """
    _known(told)
    limit = told.get("less-below-grade")
    return Row(
        edition=edition,
        subject=subject,
        clause=told["clause"],
        asks={key: asked(key, told[key]) for key in told if key in asks()},  # plain: a row is sent between processes
        seen=told["seen"],
        path=path,
        by=told.get("by", ""),
        doubtful=told.get("doubtful", ""),
        note=told.get("note", ""),
        place=told.get("place", ""),
        route=told.get("route", ""),
        from_memory=tuple(told.get("from-memory", ())),
        zones=tuple(told.get("zones", ())),
        when=tuple(told.get("when", ())),
        unless=tuple(told.get("unless", ())),
        less_below_grade=asked("depth", limit) if limit is not None else None,
        edge_stops=told.get("edge-stops", ""),
    )


def _known(told: Mapping[str, Any]) -> None:
    for key in told:
        if key not in WORDS and key not in asks():
            raise mistakes.unknown(key, key, [*WORDS, *asks()], "key of a row")
        _of_its_kind(key, told[key])
    for key in ("when", "unless"):
        for word in told.get(key, ()):
            if word not in triggers():
                listing = f"The triggers: {', '.join(triggers())}."
                raise mistakes.unknown(key, str(word), list(triggers()), "trigger", listing)
    for name in told.get("from-memory", ()):
        if name not in told or name not in asks():
            wrong = f"This row does not ask for {name}."
            raise Mistake("from-memory", f'"{name}"', wrong, "Name what it asks for, as it is called beside it.")
    if "edge-stops" in told and told["edge-stops"] not in STOPS:
        raise mistakes.unknown("edge-stops", str(told["edge-stops"]), list(STOPS), "level")
    if told["seen"] not in get_args(Seen):
        raise mistakes.unknown("seen", str(told["seen"]), list(get_args(Seen)), "way of seeing")
    names = table("climate/zones")["names"]
    known = {zone for whose in ("US", "CA") for zone in names[whose]} | {"7"}  # of the Canadian code 7A and 7B
    for zone in told.get("zones", ()):
        if zone not in known:
            wrong = f"No climate zone is called {zone}."
            raise Mistake("zones", f'"{zone}"', wrong, f"The zones: {', '.join(sorted(known))}.")


def _of_its_kind(key: str, typed: object) -> None:
    """Refuse what is no text, or no list of texts, where one is wanted."""
    if key in LISTS:
        if not isinstance(typed, list) or not all(isinstance(each, str) for each in typed):
            raise Mistake(key, f"{typed}", "A list of words in quotes is wanted here.", f"Write {LISTS[key]}.")
    elif key in WORDS and key != "less-below-grade" and not isinstance(typed, str):
        raise Mistake(key, f"{typed}", "A text is wanted here.", f'Write it in quotes: {key} = "...".')


def asked(key: str, typed: object) -> Measure:
    """A measure that a row asks for, in SI with its words. Raises Mistake."""
    if not isinstance(typed, str):
        raise Mistake(key, str(typed), "A measure is wanted here.", 'Write a number with its unit in quotes: "2 ft".')
    read = getattr(measure, asks()[key].reads)
    try:
        found: Measure = read(typed)
    except Mistake as mistake:
        raise mistake.placed(at=key) from None
    return found
