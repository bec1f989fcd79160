"""The table of units, read from its file on first use."""

from __future__ import annotations

from functools import cache
from typing import Any, Literal, NamedTuple

from . import spelling
from .words import plain

System = Literal["US", "SI"]


class Unit(NamedTuple):
    """One unit: what one of it is in the unit that its kind is kept in, and who says so."""

    name: str  # as printed
    kind: str
    si: float
    zero: float  # its reading at the SI nought: 32 for °F
    system: Literal["US", "SI", "both"]
    source: str
    where: str
    seen: str


class Kind(NamedTuple):
    """What a measure measures, in the words of a message, and how far it may go."""

    name: str
    called: str
    write: str
    usual: str
    range: tuple[str, str]
    range_us: tuple[str, str]
    above_zero: bool
    like: str  # the kind whose units it takes: a thickness takes those of a length
    bare_r_asked_above: float

    def offer(self, number: str = "") -> str:
        """What to type instead, with the number that was typed or the usual one."""
        return f"Write {self.write.format(number or self.usual)}."


class Table(NamedTuple):
    kinds: dict[str, Kind]
    units: tuple[Unit, ...]
    by_key: dict[spelling.Key, tuple[Unit, ...]]  # "h·ft²·°F/Btu" however it is punctuated
    by_phrase: dict[str, tuple[Unit, ...]]  # "in. w.c.", without spaces, dots and capitals
    letters: dict[str, tuple[str, dict[str, str]]]  # "R" -> resistance and its unit in each system
    atoms: spelling.Atoms
    spelled: dict[str, str]  # every spelling -> the name that is printed
    sources: dict[str, dict[str, str]]
    currency: dict[str, Any]

    def find(self, text: str) -> tuple[Unit, ...]:
        """Every unit that is written so, whatever it measures; empty where none is."""
        key = spelling.key(text, self.atoms)
        by_key = self.by_key.get(key, ()) if key else ()
        by_phrase = self.by_phrase.get(spelling.phrase(text), ())
        return (*by_phrase, *(unit for unit in by_key if unit not in by_phrase))

    def unit(self, name: str, kind: str) -> Unit:
        """The unit of this name that measures this kind."""
        return next(unit for unit in self.find(plain(name)) if unit.kind == kind)

    def units_of(self, kind: Kind) -> tuple[Unit, ...]:
        return tuple(unit for unit in self.units if unit.kind == kind.like)


def _load(name: str) -> dict[str, Any]:
    import tomllib
    from importlib.resources import files

    return tomllib.loads(files(__package__).joinpath(name).read_text(encoding="utf-8"))


@cache
def printed() -> dict[str, dict[str, Any]]:
    """How each unit of a finding is printed (``printed.toml``)."""
    return _load("printed.toml")


@cache
def table() -> Table:
    """The table of units (``units.toml``)."""
    raw = _load("units.toml")
    atoms = spelling.atoms(raw["atom"], raw["atom-as-typed"], raw["short"])
    kinds: dict[str, Kind] = {}
    units: list[Unit] = []
    by_key: dict[spelling.Key, tuple[Unit, ...]] = {}
    by_phrase: dict[str, tuple[Unit, ...]] = {}
    letters: dict[str, tuple[str, dict[str, str]]] = {}
    spelled: dict[str, str] = {word: word for word in (*raw["atom"], *raw["atom-as-typed"])}
    for name, rows in raw["kind"].items():
        kinds[name] = Kind(
            name,
            rows["called"],
            rows["write"],
            rows["usual"],
            (rows["range"][0], rows["range"][1]),
            (rows["range-us"][0], rows["range-us"][1]),
            rows.get("above-zero", False),
            rows.get("like", name),
            rows.get("bare-r-asked-above", float("inf")),
        )
        letters |= {letter: (name, by_system) for letter, by_system in rows.get("letters", {}).items()}
        for row in rows.get("units", ()):
            seen = row.get("seen", raw["source"][row["source"]]["seen"])
            unit = Unit(
                row["name"], name, row["si"], row.get("zero", 0.0), row["system"], row["source"], row["where"], seen
            )
            units.append(unit)
            written = (row["name"], *row.get("also", ()))
            spelled |= dict.fromkeys(written, row["name"])
            # Where a unit is made of atoms, capitals count (mW, MW); only what is not goes by its letters alone.
            by_words = {words: spelling.key(words, atoms) for words in map(plain, written)}
            keys = {key for key in by_words.values() if key is not None}
            phrases = {spelling.phrase(words) for words, key in by_words.items() if key is None}
            for key in keys:
                by_key[key] = (*by_key.get(key, ()), unit)
            for phrase in phrases:
                by_phrase[phrase] = (*by_phrase.get(phrase, ()), unit)
    return Table(kinds, tuple(units), by_key, by_phrase, letters, atoms, spelled, raw["source"], raw["currency"])
