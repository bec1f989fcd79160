"""The kinds of value that a key of the brief can hold: measures with their words, and lists of sides and corners."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from .. import measure
from ..measure import Measure
from ..measure.hours import day_of
from ..measure.read import read
from ..mistakes import Mistake, nearest

LOWEST_ROOF = 2.44  # m, 8 ft above the floor: a usual room's ceiling (common practice, no source)
MOST_AIR = 0.3  # m: ISO 6946 tells air up to that thickness
SideName = int | str  # the number of a side of the outline; "hole.1.side.2", "hole.1" for all of its sides, or a name


@dataclass(frozen=True, slots=True)
class Claim:
    """A side, or a part of one, that an edge takes."""

    side: SideName
    start: Measure | None = None  # from the corner where the side begins as typed; None: from there on
    end: Measure | None = None  # None: to its end


Sides = Literal["all", "rest"] | tuple[Claim, ...]
WEAKEST, STRONGEST = 13.5e6, 83e6  # Pa; 2,000 to 12,000 psi, beyond them a unit was mistaken
MOST_INDEX = 6000.0  # K·d: beyond the coldest winters of places where anybody pours a floor
WIDEST_GAP = 0.102  # m, 4 in: between loose ends in a drawing
SMALLEST_OBSTACLE = 0.005  # m; below it a unit was mistaken

RoomAir = Literal["unheated"] | Measure
Neighbour = Literal["outdoors", "heated", "unheated"] | Measure
NEIGHBOURS: tuple[Literal["outdoors", "heated", "unheated"], ...] = ("outdoors", "heated", "unheated")


@dataclass(frozen=True, slots=True)
class Breadth:
    """How broad an obstacle is: one size is a circle's diameter, two are a rectangle's along x and along y."""

    sizes: tuple[Measure, ...]
    typed: str


@dataclass(frozen=True, slots=True)
class DayOfYear:
    """A day, any year."""

    fraction: float  # of a common year that has gone by at its beginning
    typed: str


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
        raise as_error(
            Mistake("", "", "A file is named in quotes.", 'Write its name and ending: "duluth.epw", "plan.dxf".')
        )
    folder = (reading.context or {}).get("folder", Path())
    if folder is None:
        wrong = "This brief stands alone, with no folder beside it in which a file could lie."
        raise as_error(
            Mistake("", value, wrong, "Answer it where the file lies: underpour answer BRIEF. Or leave this key out.")
        )
    return FileBeside(value, folder / value)


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
        instead = f'Give the thickness, or write r = "{words}" in its place: the thinnest that reaches it is taken.'
        raise Mistake("", "", f"{words} says what the foam does, not how thick it is.", instead)
    return measure.thickness(words)


def wanted_resistance(typed: str) -> Measure:
    """A wanted R-value, above zero. What a bare R means is known with the brief's system, later.

    Raises
    ------
    Mistake
        No resistance, below zero, or nothing at all.
    """
    wanted = measure.resistance(typed)
    if wanted.si == 0.0:
        raise Mistake("", "", f"{typed} is nothing.", "Write the R that is wanted, such as R10 or RSI 1.76.")
    return wanted


def air_space(typed: str) -> Measure:
    """Thickness of air that stands still: above zero, up to 300 mm.

    Raises
    ------
    Mistake
        No length, nothing at all, or so thick that air moves about in it.
    """
    thick = measure.depth(typed)
    if thick.si == 0.0:
        raise Mistake("", "", f"{typed} of air is no space.", "Write how thick it is, or take the layer out.")
    if thick.si > MOST_AIR:
        wrong = f"{typed} of air is a crawl space: air moves about in it, whatever its thickness."
        instead = "An air space is at most 300 mm (11-3/4 in) thick. A crawl space is not answered here."
        raise Mistake("", "", wrong, instead)
    return thick


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


def drawing_gap(typed: str) -> Measure:
    """How far ends of lines in a drawing may lie apart: above zero, up to 100 mm.

    Raises
    ------
    Mistake
        No length, nothing at all, or so far that a side would go missing.
    """
    gap = measure.length(typed)
    if gap.si == 0.0:
        raise Mistake("", "", f"{typed} is no gap; ends that meet are joined anyway.", "Take it out, or write 1 mm.")
    if gap.si > WIDEST_GAP:
        wrong = f"Over {typed} whole sides of a floor would go missing."
        raise Mistake("", "", wrong, "Join ends up to 100 mm (4 in), and close wider gaps in the drawing.")
    return gap


def flood_level(typed: str) -> Measure:
    """How high a flood stands above a floor: above zero, below the roof.

    Raises
    ------
    Mistake
        No length, nothing at all, or as high as roofs are.
    """
    stands = measure.depth(typed)
    if stands.si == 0.0:
        raise Mistake("", "", f"A flood of {typed} wets nothing.", "Write how high it stands, or take it out.")
    if stands.si > LOWEST_ROOF:
        wrong = f"A flood that stands {typed} above the floor is above the roof of a room."
        instead = "Write how high it stands above the top of this floor, at most 8 ft (2.4 m); not above the sea."
        raise Mistake("", "", wrong, instead)
    return stands


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


def load_force(value: object, reading: ValidationInfo) -> Measure:
    """A load's force: on each length of a wall or a line, whole of anything else; where no kind is told, either."""
    kind = reading.data.get("kind")
    if kind in ("wall", "line"):
        return typed_measure(wall_force)(value)
    if kind is None and isinstance(value, str):
        try:
            return wall_force(value)
        except Mistake:
            pass
    return typed_measure(whole_force)(value)


def whole_force(typed: str) -> Measure:
    """A force, above zero.

    Raises
    ------
    Mistake
        No force, below zero, or nothing at all.
    """
    force = measure.force(typed)
    if force.si == 0.0:
        raise Mistake("", "", f"{typed} is no load.", "Write what it presses with, such as 6500 lb or 29 kN.")
    return force


def vacuum(typed: str) -> Measure:
    """How far a pressure of air lies below that around it; told above zero.

    Raises
    ------
    Mistake
        No such pressure, or one below zero: suction is told by its size.
    """
    pressure = measure.gas_pressure(typed)
    if pressure.si < 0.0:
        instead = f'Write "{typed.strip().lstrip("-−").strip()}".'
        raise Mistake("", "", "How strong suction is is told above zero, as a gauge shows it.", instead)
    return pressure


def above_nought(read: Callable[[str], Measure], wrong: str, instead: str) -> Callable[[str], Measure]:
    """A reader that refuses nought, which ``wrong`` tells with {} for what was typed."""

    def reader(typed: str) -> Measure:
        found = read(typed)
        if found.si == 0.0:
            raise Mistake("", "", wrong.format(typed), instead)
        return found

    return reader


def subgrade_modulus(typed: str) -> Measure:
    """A modulus of subgrade reaction, above zero.

    Raises
    ------
    Mistake
        No such modulus, or nothing at all.
    """
    modulus = read(typed, "subgrade-modulus")
    if modulus.si == 0.0:
        raise Mistake("", "", f"Ground of {typed} bears nothing.", "Write what a plate test gave: 100 pci or 27 MN/m³.")
    return modulus


def concrete_class(typed: str) -> Measure:
    """The strength of concrete: a cylinder's, or a class by EN 206, whose first number is the cylinder's in MPa. [Pa]

    Raises
    ------
    Mistake
        Neither, or a strength that no slab's concrete has.
    """
    named = re.fullmatch(r"C\s?(\d+(?:\.\d+)?)(?:/\d+(?:\.\d+)?)?", typed.strip(), re.IGNORECASE)
    strength = Measure(float(named[1]) * 1e6, typed.strip()) if named else measure.pressure(typed)
    if not WEAKEST <= strength.si <= STRONGEST:
        wrong = f"{typed} is no strength of a slab's concrete."
        raise Mistake("", "", wrong, "It lies between 2000 and 12000 psi: 4000 psi, 28 MPa or C25/30.")
    return strength


def bearing_plate(value: object) -> Breadth:
    """What a load bears on: its length and breadth, or one size of something round; never without an area."""
    example = 'Write both sides, "6 in x 6 in", or a round one\'s diameter, "8 in".'
    if isinstance(value, Breadth):
        return value
    if not isinstance(value, str):
        raise as_error(Mistake("", "", "The size of a plate stands in quotes with its unit.", example))
    words = re.split(r"\s+[x×]\s+", value.strip())
    if len(words) > 2:
        raise as_error(Mistake("", "", f"{value} is more than two sides.", example))
    try:
        sizes = tuple(measure.length(word) for word in words)
    except Mistake as mistake:
        raise as_error(mistake) from None
    if any(size.si < SMALLEST_OBSTACLE for size in sizes):
        raise as_error(Mistake("", "", f"{value} has no area to stand on.", example))
    return Breadth(sizes, value.strip())


def stress(typed: str) -> Measure:
    """A stress that may stand on foam, above zero.

    Raises
    ------
    Mistake
        No pressure, or nothing at all.
    """
    pressure = measure.pressure(typed)
    if pressure.si == 0.0:
        raise Mistake("", "", f"{typed} is nothing.", "Write what may stand on it, such as 12 psi or 80 kPa.")
    return pressure


def water_share(typed: str) -> Measure:
    """Water by volume, from none to all of it."""
    return read(typed, "share")


def wall_top_or_level(value: object) -> Measure | Literal["wall-top"]:
    """Where foam on a wall begins: the word, or a level above (+) or below (-) the top of the floor."""
    return "wall-top" if value == "wall-top" else typed_measure(measure.signed_length)(value)


def air_beside(value: object) -> Neighbour:
    """What lies beyond an edge: a word, or the temperature that it has all year."""
    if isinstance(value, Measure):
        return value
    for word in NEIGHBOURS:
        if value == word:
            return word
    words = 'It is outdoors, heated, unheated, or a temperature: beside = "45 F".'
    if not isinstance(value, str):
        raise as_error(Mistake("", "", "What lies beside an edge is a word or a temperature, in quotes.", words))
    try:
        return measure.temperature(value)
    except Mistake as mistake:
        if re.match(r"\s*[-+−]?\s*[\d.]", value):
            raise as_error(mistake) from None
    near = nearest(value, NEIGHBOURS)
    hint = f"The nearest is {near[0]}. " if near else ""
    raise as_error(Mistake("", "", f"Nothing beside an edge is called {value}.", f"{hint}{words}"))


def room_air(value: object) -> RoomAir:
    """The air over the floor: a temperature that it has all year, or that it is not heated."""
    if value == "unheated":
        return "unheated"
    if isinstance(value, str) and not re.match(r"\s*[-+−]?\s*[\d.]", value):
        near = 'The nearest is "unheated". ' if nearest(value, ("unheated",)) else ""
        words = 'Write a temperature, "68 F", or "unheated".'
        raise as_error(Mistake("", "", f"{value} is no temperature.", f"{near}{words}"))
    return typed_measure(measure.temperature)(value)


def typed_sides(value: object) -> Sides:
    """Which sides an edge takes: "all", "rest", or a list of sides and parts of sides.

    "by-layer" is a list by the time it comes here, if there is a drawing.
    """
    example = 'Write sides = "all", sides = "rest", or a list: sides = [1, 2].'
    if isinstance(value, str):
        if value == "by-layer":
            wrong = "No drawing is named whose layers could say the sides."
            raise as_error(Mistake("", '"by-layer"', wrong, f'Name one, [plan] dxf = "plan.dxf". {example}'))
        if value not in ("all", "rest"):
            if value.strip().casefold().replace(" ", "-") == "by-layer":
                raise as_error(Mistake("", "", f"No sides are called {value}.", 'The nearest is "by-layer".'))
            listed = f'A side that has a name stands in a list: sides = ["{value}"]. {example}'
            raise as_error(Mistake("", "", f"No sides are called {value}.", listed))
        return "all" if value == "all" else "rest"
    if not isinstance(value, list | tuple):
        raise as_error(Mistake("", "", "Sides are named by a word or a list.", example))
    if not value:
        raise as_error(Mistake("", "", "This list names no side.", example))
    claims: list[Claim] = []
    found: list[Mistake] = []
    for number, entry in enumerate(value, start=1):
        try:
            claims.append(_claim(entry))
        except Mistake as mistake:
            found.append(replace(mistake, at=".".join(filter(None, (str(number), mistake.at)))))
    if found:
        raise as_error(*found)
    return tuple(claims)


_SIDE = 'Write its number, a name, or a hole\'s: 3, "north wall", "hole.1.side.2".'
_PART = 'Write { side = 3, from = "4 ft", to = "12 ft" }.'


def _claim(entry: object) -> Claim:
    if isinstance(entry, Claim):
        return entry
    if not isinstance(entry, dict):
        return Claim(_side_name(entry))
    for key in entry:
        if key not in ("side", "from", "to"):
            near = nearest(str(key), ("side", "from", "to"))
            hint = f"The nearest is {near[0]}. " if near else ""
            raise Mistake(str(key), "", f"A part of a side has no key {key}.", f"{hint}{_PART}")
    if "side" not in entry:
        raise Mistake("", "", "This part does not say of which side it is.", _PART)
    try:
        side = _side_name(entry["side"])
    except Mistake as mistake:
        raise replace(mistake, at="side") from None
    return Claim(side, _distance(entry, "from"), _distance(entry, "to"))


def _distance(entry: dict[str, object], key: str) -> Measure | None:
    typed = entry.get(key)
    if typed is None:
        return None
    if isinstance(typed, bool) or not isinstance(typed, str | int | float):
        raise Mistake(key, "", "A length is wanted here.", _PART)
    try:
        return measure.length(str(typed))
    except Mistake as mistake:
        raise replace(mistake, at=key) from None


def _side_name(typed: object) -> SideName:
    if isinstance(typed, bool) or not isinstance(typed, int | str) or typed == "":
        raise Mistake("", "", "Sides are whole numbers or names; side 1 runs from corner 1 to corner 2.", _SIDE)
    return typed


def factor(value: object) -> float:
    """A factor of the ground's surface: a plain number above zero, up to 5."""
    try:
        number = float(value) if isinstance(value, str | int | float) and not isinstance(value, bool) else 0.0
    except ValueError:
        number = 0.0
    if not 0.0 < number <= 5.0:
        wrong = "This factor is a plain number above zero, at most 5: the surface's index over the air's."
        raise as_error(Mistake("", "", wrong, "Write 1 where the surface is as the air is."))
    return number


def plain_factor(least: float, most: float, what: str, example: str) -> Callable[[object], float]:
    """Reader of a plain number between two ends."""

    def reader(value: object) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or not least <= value <= most:
            raise as_error(Mistake("", "", f"{what} is a number from {least:g} to {most:g}.", f"Write {example}."))
        return float(value)

    return reader


def typed_side(value: object) -> SideName:
    """One side by its number or its hole's name."""
    try:
        return _side_name(value)
    except Mistake as mistake:
        raise as_error(mistake) from None


def obstacle_size(value: object) -> Breadth:
    """An obstacle's diameter, or its two breadths with an x between."""
    example = 'Write its diameter, "4 in", or both breadths, "12 in x 16 in".'
    if isinstance(value, Breadth):
        return value
    if not isinstance(value, str):
        raise as_error(Mistake("", "", "The size of an obstacle stands in quotes with its unit.", example))
    words = re.split(r"\s+[x×]\s+", value.strip())
    if len(words) > 2:
        raise as_error(Mistake("", "", f"{value} is more than two breadths.", example))
    try:
        sizes = tuple(measure.length(word) for word in words)
    except Mistake as mistake:
        raise as_error(mistake) from None
    if any(size.si < SMALLEST_OBSTACLE for size in sizes):
        raise as_error(
            Mistake("", "", f"{value} is too small to be in the way of a floor.", "Write its size, or take it out.")
        )
    return Breadth(sizes, value.strip())


def day_of_year(value: object) -> DayOfYear:
    """A day of any year by its number and its month."""
    example = 'Write the day and the month: "15 October".'
    if isinstance(value, DayOfYear):
        return value
    if not isinstance(value, str):
        raise as_error(Mistake("", "", "A day stands in quotes.", example))
    if re.fullmatch(r"\s*\d+\s*[-./]\s*\d+.*", value):
        raise as_error(Mistake("", "", f"Of {value} it is not sure which number is the month.", example))
    found = day_of(value)
    if found is None:
        raise as_error(Mistake("", "", f"{value} is no day of the year.", example))
    return DayOfYear(found / 365.0, value.strip())


def freezing_index(typed: str) -> Measure:
    """A freezing index of the air, 0 to 6,000 K·d. [K·d]

    Raises
    ------
    Mistake
        No sum of degree-days, more than any winter has, or words for something else: a depth, degree-hours.
    """
    write = "A design winter's index from the weather service or the building office: 1200 K·d, 2200 °F·d."
    hours = re.fullmatch(r"\s*([\d.,]+)\s*(?:°?\s*[KC])\s*[·.\-* ]?\s*h(?:ours?)?\s*", typed)
    if hours and (number := plain_number(hours[1])) is not None:
        wrong = f"{typed.strip()} counts hours; the index counts days, 24 times fewer."
        raise Mistake("", "", wrong, f'Is {number / 24.0:.0f} K·d meant? Then write "{number / 24.0:.0f} K·d".')
    try:
        measure.depth(typed)
    except Mistake:
        pass
    else:
        wrong = f"{typed.strip()} is a depth, and an index is how cold the winter is."
        raise Mistake(
            "", "", wrong, f'The frost line of the building office goes to frost-depth = "{typed.strip()}". {write}'
        )
    bare = plain_number(typed)
    if bare is not None:
        wrong = f"{typed.strip()} of what? Tables have °F·d, K·d and K·h: from °F·d to K·h it is 13.3 times as much."
        raise Mistake("", "", wrong, f'Write its unit: "{typed.strip()} °F·d" or "{typed.strip()} K·d". {write}')
    try:
        index = measure.degree_days(typed.replace("°C", "K"))
    except Mistake as mistake:
        raise replace(mistake, instead=write) from None
    if index.si > MOST_INDEX:
        as_hours = index.si / 24.0 if "K" in typed or "C" in typed else index.si * 9.0 / 5.0 / 24.0
        as_fahrenheit = f'"{index.si:.0f} °F·d"' if "F" not in typed else ""
        meant = " or ".join(filter(None, (as_fahrenheit, f'"{as_hours:.0f} K·d" (if hours were counted)')))
        wrong = f"{typed.strip()} is colder than any winter: an index lies between 0 and {MOST_INDEX:.0f} K·d."
        raise Mistake("", "", wrong, f"Is {meant} meant?")
    return Measure(index.si, typed.strip())


def plain_number(typed: str) -> float | None:
    """A number without a unit, thousands set off or not; None where something else is typed."""
    try:
        return float(typed.strip().replace(",", ""))
    except ValueError:
        return None


Day = Annotated[DayOfYear, PlainValidator(day_of_year), _shown("Day of the year", "15 October", "1 December")]
FreezingIndex = Annotated[Measure, _read(freezing_index), _shown("Freezing index", "2200 °F·d", "1200 K·d")]
Depth = Annotated[Measure, _read(measure.depth), _shown("Depth", "60 in", "1.5 m", "4 ft 6 in")]
FloodLevel = Annotated[Measure, _read(flood_level), _shown("How high it stands", "12 in", "0.5 m")]
LooseEnds = Annotated[Measure, _read(drawing_gap), _shown("Gap", "1 mm", "1/4 in")]
Extent = Annotated[Measure, _read(extent), _shown("How far it reaches", "48 in", "1.2 m")]
Level = Annotated[
    Measure, _read(measure.signed_length), _shown("Level above (+) or below (-) the top of the floor", "-8 in", "0.6 m")
]
Slope = Annotated[Measure, _read(measure.slope), _shown("Slope of a face from the level", "45 deg", "60 deg")]
Altitude = Annotated[Measure, _read(measure.altitude), _shown("Height above the sea", "700 ft", "215 m")]
Thickness = Annotated[Measure, _read(measure.thickness), _shown("Thickness", "4 in", "100 mm")]
AirSpace = Annotated[Measure, _read(air_space), _shown("Thickness of an air space", "3/4 in", "20 mm")]
WantedR = Annotated[Measure, _read(wanted_resistance), _shown("Wanted R-value", "R10", "RSI 1.76")]
BoardThickness = Annotated[Measure, _read(board_thickness), _shown("Thickness of a board", "2 in", "50 mm")]
Temperature = Annotated[Measure, _read(measure.temperature), _shown("Temperature", "68 F", "20 C")]
LoadForce = Annotated[
    Measure, PlainValidator(load_force), _shown("Force, or force on each length", "6500 lb", "1500 lb/ft", "20 kN/m")
]
WholeForce = Annotated[Measure, _read(whole_force), _shown("Force", "2000 lb", "9 kN")]
Friction = Annotated[
    float,
    PlainValidator(plain_factor(0.01, 1.5, "A coefficient of friction", "0.3 or what was tested")),
    WithJsonSchema({"type": "number", "minimum": 0.01, "maximum": 1.5, "title": "Coefficient of friction"}),
]
BearingPlate = Annotated[Breadth, PlainValidator(bearing_plate), _shown("Size", "6 in x 6 in", "8 in")]
SubgradeModulus = Annotated[Measure, _read(subgrade_modulus), _shown("Modulus of the ground", "100 pci", "27 MN/m³")]
ConcreteClass = Annotated[Measure, _read(concrete_class), _shown("Strength of concrete", "4000 psi", "C25/30")]
Stress = Annotated[Measure, _read(stress), _shown("Stress", "12 psi", "80 kPa")]
WaterShare = Annotated[Measure, _read(water_share), _shown("Water by volume", "5 %")]
Time = Annotated[Measure, _read(measure.time), _shown("Length of time", "90 d")]
Humidity = Annotated[Measure, _read(measure.humidity), _shown("Relative humidity", "50 %")]
Conductivity = Annotated[Measure, _read(measure.conductivity), _shown("Thermal conductivity", "0.036 W/(m·K)")]
Factor = Annotated[float, PlainValidator(factor), WithJsonSchema({"type": ["number", "string"], "title": "Factor"})]
SafetyFactor = Annotated[
    float,
    PlainValidator(plain_factor(1.0, 5.0, "A factor on the strength of concrete", "1.7 to 2.0, as engineers take it")),
    WithJsonSchema({"type": "number", "minimum": 1.0, "maximum": 5.0, "title": "Factor on the strength"}),
]
LoadFactor = Annotated[
    float,
    PlainValidator(plain_factor(1.0, 3.0, "A factor on a load", "what the force was multiplied by: 1.6, 1.35")),
    WithJsonSchema({"type": "number", "minimum": 1.0, "maximum": 3.0, "title": "Factor on a load"}),
]
LoopLength = Annotated[Measure, _read(measure.length), _shown("Length of a loop", "300 ft", "90 m")]
Drop = Annotated[Measure, _read(measure.temperature_difference), _shown("Difference of temperatures", "10 F", "5 K")]
HeatFlux = Annotated[Measure, _read(measure.heat_flux), _shown("Heat flow by area", "155 W/m²")]
HeatCapacity = Annotated[
    Measure, _read(measure.heat_capacity_by_volume), _shown("Heat capacity by volume", "3 MJ/(m³·K)")
]
Share = Annotated[Measure, _read(measure.share), _shown("Share of a whole", "15 %", "50 %")]
Radon = Annotated[Measure, _read(measure.radon), _shown("Radon in air", "4 pCi/L", "150 Bq/m³")]
GasPermeability = Annotated[
    Measure,
    _read(
        above_nought(
            partial(read, kind_name="gas-permeability"), "Ground of {} lets no gas through.", "Sand has about 1e-11 m²."
        )
    ),
    _shown("Permeability to gas", "1e-11 m²"),
]
AirChanges = Annotated[
    Measure,
    _read(
        above_nought(
            partial(read, kind_name="air-changes"), "{} is no change of air at all.", "Houses have 0.1 to 1.5 1/h."
        )
    ),
    _shown("Changes of air", "0.35 1/h"),
]
Volume = Annotated[
    Measure,
    _read(above_nought(measure.volume, "{} is no room.", "Write the volume of the rooms, such as 500 m³.")),
    _shown("Volume", "500 m³", "18000 ft³"),
]
AirFlow = Annotated[Measure, _read(measure.flow_of_air), _shown("Flow of air", "40 cfm", "20 l/s")]
GasPressure = Annotated[Measure, _read(vacuum), _shown("Suction, told above zero", "1 in. w.c.", "250 Pa")]
ElectricPower = Annotated[
    Measure,
    _read(above_nought(measure.power, "{} is no power.", "Write what it draws, such as 60 W.")),
    _shown("Electric power", "60 W"),
]
Gap = Annotated[Measure, _read(measure.depth), _shown("Width of a joint", "0.5 mm", "1/64 in")]
Density = Annotated[Measure, _read(measure.density), _shown("Density", "1800 kg/m³", "110 pcf")]

File = Annotated[FileBeside, PlainValidator(file_beside), WithJsonSchema({"type": "string", "title": "File"})]


def listed(value: object) -> list[object]:
    """One entry, or a list of them, as a list."""
    return list(value) if isinstance(value, list | tuple) else [value]


def words(value: object) -> tuple[str, ...]:
    """A word in quotes, or a list of them."""
    found = listed(value)
    if not all(isinstance(word, str) and word.strip() for word in found):
        raise as_error(Mistake("", "", "A word in quotes is wanted here, or a list of them.", ""))
    return tuple(str(word) for word in found)


def files_beside(value: object, reading: ValidationInfo) -> tuple[FileBeside, ...]:
    """A file by its name, or a list of them."""
    return tuple(file_beside(each, reading) for each in listed(value))


_ONE_OR_MORE = {"oneOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "minItems": 1}]}
Words = Annotated[tuple[str, ...], PlainValidator(words), WithJsonSchema({"title": "One or more", **_ONE_OR_MORE})]
Files = Annotated[
    tuple[FileBeside, ...], PlainValidator(files_beside), WithJsonSchema({"title": "One or more files", **_ONE_OR_MORE})
]

WallTopOrLevel = Annotated[
    Measure | Literal["wall-top"],
    PlainValidator(wall_top_or_level),
    WithJsonSchema(
        {"type": "string", "title": "Upper end: a level, or the top of the wall", "examples": ["wall-top", "0 in"]}
    ),
]
_ONE_SIDE: dict[str, Any] = {"title": "Side", "oneOf": [{"type": "integer", "minimum": 1}, {"type": "string"}]}
SideTyped = Annotated[SideName, PlainValidator(typed_side), WithJsonSchema(_ONE_SIDE)]
SidesTyped = Annotated[
    Sides,
    PlainValidator(typed_sides),
    WithJsonSchema(
        {
            "title": "Sides",
            "oneOf": [
                {"enum": ["all", "rest", "by-layer"]},
                {
                    "type": "array",
                    "minItems": 1,
                    "items": {
                        "oneOf": [
                            {"type": "integer", "minimum": 1},
                            {"type": "string"},
                            {
                                "type": "object",
                                "properties": {
                                    "side": _ONE_SIDE,
                                    "from": {"type": "string", "examples": ["4 ft"]},
                                    "to": {"type": "string", "examples": ["12 ft"]},
                                },
                                "required": ["side"],
                                "additionalProperties": False,
                            },
                        ]
                    },
                },
            ],
        }
    ),
]
Inside = Annotated[
    RoomAir,
    PlainValidator(room_air),
    WithJsonSchema({"type": "string", "title": "Temperature, or unheated", "examples": ["68 F", "20 C", "unheated"]}),
]
Beside = Annotated[
    Neighbour,
    PlainValidator(air_beside),
    WithJsonSchema({"type": "string", "title": "What lies beside", "examples": [*NEIGHBOURS, "45 F"]}),
]
ObstacleSize = Annotated[Breadth, PlainValidator(obstacle_size), _shown("Size", "4 in", "12 in x 16 in")]
