"""The list of named places: what is in it, and which of them a typed name can mean."""

from __future__ import annotations

import csv
import unicodedata
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache

from .read import FOLDER, table

COLUMNS = (
    *("place", "admin", "country", "lat", "lon", "elev_m", "elev_source", "grid_orog_m"),
    *("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"),
)
BARE = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "æ": "ae", "œ": "oe", "ı": "i", "’": "'", "–": "-"})


@dataclass(frozen=True, slots=True)
class Entry:
    """A named place as the list has it."""

    name: str  # "Minneapolis"
    state: str  # "MN"; "" outside the United States and Canada
    country: str  # two letters
    latitude: float  # degrees north
    longitude: float  # degrees east
    height: float  # m above the sea
    surveyed: bool  # height of an airport near by, rather than of the terrain around
    months: tuple[float, ...]  # twelve means at that height, degC

    @property
    def title(self) -> str:
        return f"{self.name}, {self.state or self.country}"


def entries() -> tuple[Entry, ...]:
    """Every named place, in the order of the lists."""
    return tuple(_entry(row) for rows in _by_name().values() for row in rows)


def meant(name: str, qualifiers: tuple[str, ...] = ()) -> tuple[Entry, ...]:
    """The places of that name, of those states or countries; accents, case and "St." for "Saint" do not matter.

    >>> [entry.title for entry in meant("duluth", ("Minnesota",))]
    ['Duluth, MN']
    """
    called = map(_entry, _by_name().get(folded(name), ()))
    return tuple(entry for entry in called if all(folded(word) in _regions(entry) for word in qualifiers))


def within(words: tuple[str, ...]) -> tuple[Entry, ...]:
    """Every place of a state or country, in the order of the lists; none where no word is given."""
    return tuple(entry for entry in entries() if words and all(folded(word) in _regions(entry) for word in words))


def near_by_name(name: str, count: int = 3) -> tuple[Entry, ...]:
    """The places whose names look most like the typed one."""
    close = get_close_matches(folded(name), _by_name(), n=count, cutoff=0.6)
    return tuple(_entry(row) for each in close for row in _by_name()[each])


def folded(name: str) -> str:
    """A name without case, accents and abbreviations, to be compared.

    >>> folded("St. John's"), folded("Łódź"), folded("Zürich")
    ("saint john's", 'lodz', 'zurich')
    """
    plain = name.casefold()
    if not plain.isascii():
        apart = unicodedata.normalize("NFKD", plain.translate(BARE))
        plain = "".join(letter for letter in apart if not unicodedata.combining(letter))
    words = plain.split()
    return " ".join("saint" if word in ("st.", "st") else word for word in words)


@cache
def _by_name() -> dict[str, list[list[str]]]:
    """The rows of the lists by folded name; a row becomes an Entry when it is asked for."""
    called: dict[str, list[list[str]]] = {}
    for name in ("places.csv", "places_world.csv"):
        with (FOLDER / "climate" / name).open(encoding="utf-8", newline="") as lines:
            rows = csv.reader(line for line in lines if not line.startswith("#"))
            if tuple(next(rows)[: len(COLUMNS)]) != COLUMNS:
                raise ValueError(f"{name}: other columns than {COLUMNS}")
            for row in rows:
                called.setdefault(folded(row[0]), []).append(row)
    return called


def _regions(entry: Entry) -> set[str]:
    """Every word that may stand behind the name: state or country, by letters or by name."""
    words = {entry.state, entry.country, *table("climate/regions")["country"][entry.country]}
    words.add(table("climate/regions")["state"].get(entry.country, {}).get(entry.state, ""))
    return {folded(word) for word in words if word}


def _entry(row: list[str]) -> Entry:
    name, state, country, latitude, longitude, height, seen = row[:7]
    return Entry(
        name=name,
        state=state,
        country=country,
        latitude=float(latitude),
        longitude=float(longitude),
        height=float(height),
        surveyed=seen.startswith("airport"),
        months=tuple(map(float, row[8 : len(COLUMNS)])),
    )
