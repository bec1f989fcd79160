"""The kinds of value that a key of the brief can hold: measures with their words, and lists of sides and corners."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Literal

from pydantic import PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from .. import measure
from ..measure import Measure
from ..mistakes import Mistake
from .later import not_yet

Sides = Literal["all", "rest"] | tuple[int, ...]


def as_error(*found: Mistake) -> PydanticCustomError:
    """Mistakes on their way through the schema's library; ``at`` is counted from the key that is being read."""
    return PydanticCustomError("mistake", "a mistake", {"mistakes": found})


@dataclass(frozen=True, slots=True)
class FileBeside:
    """A file that a brief names: as typed, and where it is. A relative path starts from the brief's folder."""

    typed: str
    path: Path


def file_beside(value: object, reading: ValidationInfo) -> FileBeside:
    """A file by its name; the reading's context says the brief's folder."""
    if isinstance(value, FileBeside):
        return value
    if not isinstance(value, str):
        raise as_error(Mistake("", "", "A file is named in quotes.", 'Write its name and ending: "duluth.epw".'))
    return FileBeside(value, (reading.context or {}).get("folder", Path()) / value)


def typed_measure(read: Callable[[str], Measure]) -> Callable[[object], Measure]:
    """Reader of one kind of measure for a key of the brief."""

    def reader(value: object) -> Measure:
        if isinstance(value, Measure):
            return value
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise as_error(
                Mistake("", "", "A measure is wanted here.", 'Write a number with its unit in quotes: "2 in".')
            )
        try:
            return read(str(value))
        except Mistake as mistake:
            raise as_error(mistake) from None

    return reader


def _read(read: Callable[[str], Measure]) -> PlainValidator:
    return PlainValidator(typed_measure(read))


def _shown(what: str, *examples: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "title": what, "examples": list(examples)})


def board_thickness(typed: str) -> Measure:
    """A board's thickness; an R-value typed in its place is told apart.

    Raises
    ------
    Mistake
        No length, or an R-value: what a board is worth at a thickness stands in the catalogue.
    """
    words = typed.strip()
    if re.match(r"(?i)RSI|R[\s-]*\d", words):
        instead = f"Give the thickness; how much of it {words} takes hangs on the board: underpour catalogue show NAME"
        raise Mistake("", "", f"{words} says what the foam does, not how thick it is.", instead)
    return measure.thickness(words)


def extent(typed: str) -> Measure:
    """How far something reaches: above zero, within the depths that a foundation has.

    Raises
    ------
    Mistake
        No length, nothing at all, or too far.
    """
    reach = measure.depth(typed)
    if reach.si == 0.0:
        raise Mistake("", "", f"{typed} is nothing.", "Write how far it reaches, or take it out.")
    return reach


def wall_force(typed: str) -> Measure:
    """A wall's force on each length of its footing, above zero.

    Raises
    ------
    Mistake
        No force by length, below zero, or nothing at all.
    """
    force = measure.line_force(typed)
    if force.si == 0.0:
        raise Mistake("", "", f"{typed} is no load.", "Write what the wall brings, such as 1500 lb/ft or 20 kN/m.")
    return force


def wall_top_or_level(value: object) -> Measure | Literal["wall-top"]:
    """Where foam on a wall begins: the word, or a level above (+) or below (-) the top of the floor."""
    return "wall-top" if value == "wall-top" else typed_measure(measure.signed_length)(value)


def only_told_neighbours(value: object) -> object:
    """Let words through; a temperature typed for the neighbour is told as not answered yet."""
    if isinstance(value, str):
        try:
            measure.temperature(value)
        except Mistake:
            return value
        raise as_error(not_yet("", f'beside = "{value}"'))
    return value


def typed_sides(value: object) -> Sides:
    """Which sides an edge takes: "all", "rest", or a list of numbers."""
    example = 'Write sides = "all", sides = "rest", or a list: sides = [1, 2].'
    if isinstance(value, str):
        if value not in ("all", "rest"):
            raise as_error(Mistake("", "", f"No sides are called {value}.", example))
        return "all" if value == "all" else "rest"
    if not isinstance(value, list | tuple):
        raise as_error(Mistake("", "", "Sides are named by a word or a list.", example))
    if not value:
        raise as_error(Mistake("", "", "This list names no side.", example))
    parts = not_yet("", "a part of a side")
    numbers = Mistake("", "", "Sides are whole numbers; side 1 runs from corner 1 to corner 2.", example)
    for entry in value:
        if isinstance(entry, dict) and "side" in entry:
            raise as_error(Mistake("", "", parts.wrong, "Name whole sides: sides = [1, 2]."))
        if isinstance(entry, bool) or not isinstance(entry, int):
            raise as_error(numbers)
    return tuple(value)


Depth = Annotated[Measure, _read(measure.depth), _shown("Depth", "60 in", "1.5 m", "4 ft 6 in")]
Extent = Annotated[Measure, _read(extent), _shown("How far it reaches", "48 in", "1.2 m")]
Level = Annotated[
    Measure, _read(measure.signed_length), _shown("Level above (+) or below (-) the top of the floor", "-8 in", "0.6 m")
]
Slope = Annotated[Measure, _read(measure.slope), _shown("Slope of a face from the level", "45 deg", "60 deg")]
Altitude = Annotated[Measure, _read(measure.altitude), _shown("Height above the sea", "700 ft", "215 m")]
Thickness = Annotated[Measure, _read(measure.thickness), _shown("Thickness", "4 in", "100 mm")]
BoardThickness = Annotated[Measure, _read(board_thickness), _shown("Thickness of a board", "2 in", "50 mm")]
Temperature = Annotated[Measure, _read(measure.temperature), _shown("Temperature", "68 F", "20 C")]
LineForce = Annotated[Measure, _read(wall_force), _shown("Force on each length", "1500 lb/ft", "20 kN/m")]
Humidity = Annotated[Measure, _read(measure.humidity), _shown("Relative humidity", "50 %")]
Conductivity = Annotated[Measure, _read(measure.conductivity), _shown("Thermal conductivity", "0.036 W/(m·K)")]
Density = Annotated[Measure, _read(measure.density), _shown("Density", "1800 kg/m³", "110 pcf")]

File = Annotated[FileBeside, PlainValidator(file_beside), WithJsonSchema({"type": "string", "title": "File"})]

WallTopOrLevel = Annotated[
    Measure | Literal["wall-top"],
    PlainValidator(wall_top_or_level),
    WithJsonSchema(
        {"type": "string", "title": "Upper end: a level, or the top of the wall", "examples": ["wall-top", "0 in"]}
    ),
]
SidesTyped = Annotated[
    Sides,
    PlainValidator(typed_sides),
    WithJsonSchema(
        {
            "title": "Sides",
            "oneOf": [
                {"enum": ["all", "rest"]},
                {"type": "array", "items": {"type": "integer", "minimum": 1}, "minItems": 1},
            ],
        }
    ),
]
