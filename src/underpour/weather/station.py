"""What is taken from a weather file."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Station:
    """A station's air month by month, with where it stands and what of its file was left."""

    file: str  # "duluth.epw"
    kind: str  # "EPW", "TMY3", "monthly normals", "table of months"
    title: str  # "Duluth, MN"; "" where the file does not say
    country: str  # "US" where the file shows it, else ""
    latitude: float | None  # degrees north
    longitude: float | None  # degrees east
    height: float | None  # m above the sea
    months: tuple[float, ...]  # twelve mean air temperatures, degC
    hours: int = 0  # rows that the means were made from; 0 where the file gives months
    temperatures: tuple[float, ...] = ()  # degC, of each of those rows
    humidities: tuple[float, ...] = ()  # 0 to 1, of each of those rows; () where the file does not tell
    years: tuple[int, int] | None = None  # first and last of those that the hours come from
    notes: tuple[str, ...] = ()  # hours left out, letters that may be misspelt
    not_taken: tuple[str, ...] = ()  # what else stands in the file, and why it stays there
