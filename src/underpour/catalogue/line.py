"""A product line as it is typed: what each record may say. Read with `underpour.catalogue.line_file`.

The models are strict, frozen and hold no logic beyond reading. What a record lacks, or says wrongly of its evidence, is
not refused here: `underpour.conformity` finds it and says so, all at once.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, get_args

from pydantic import BaseModel, ConfigDict, Field, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from .. import measure
from ..measure import Measure
from ..measure.read import read
from ..mistakes import Mistake, nearest
from .properties import properties
from .read import table

Kind = Literal[
    "board", "faced-board", "tube-panel", "soil-gas-panel", "film", "tape", "edge-strip", "gravel", "drain", "clip"
]
Statistic = Literal["each", "average", "90/90"]
Laboratory = Literal["third party", "third party, accredited", "maker's own", "not told"]


@dataclass(frozen=True, slots=True)
class Size:
    """Width and length of one piece or roll."""

    width: float  # m
    length: float  # m
    typed: str  # "4 ft x 8 ft"


def size(typed: str) -> Size:
    """Width and length, with an x between them.

    >>> size("4 ft x 8 ft").length
    2.4384
    """
    parts = re.split(r"\s*[x×]\s*", typed.strip())
    if len(parts) != 2:
        raise Mistake("", f'"{typed}"', "Two lengths are wanted, width first.", 'Write "4 ft x 8 ft".')
    width, length = (measure.length(part).si for part in parts)
    return Size(width, length, typed.strip())


def _typed(read_one: Callable[[str], Any], made: type) -> PlainValidator:
    kept = cache(read_one)  # a line says the same few measures hundreds of times

    def reader(value: object) -> object:
        if isinstance(value, made):
            return value
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            wrong = Mistake("", "", "A measure is wanted here.", 'Write a number with its unit in quotes: "2 in".')
            raise PydanticCustomError("mistake", "a mistake", {"mistakes": (wrong,)})
        try:
            return kept(str(value))
        except Mistake as mistake:
            raise PydanticCustomError("mistake", "a mistake", {"mistakes": (mistake,)}) from None

    return PlainValidator(reader)


def _of(kind: str) -> PlainValidator:
    return _typed(lambda typed: read(typed, kind), Measure)


def _shown(*examples: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": list(examples)})


def _age(typed: str) -> Measure:
    """Time since the foam was made; "fresh" is none."""
    return Measure(0.0, typed) if typed.strip() == "fresh" else read(typed, "time")


def _known(listed: Callable[[], list[str]], what: str, told: str = "") -> PlainValidator:
    """A word of a list that stands in a table; ``told`` says where its words are explained."""

    def reader(value: object) -> str:
        if isinstance(value, str) and value in listed():
            return value
        near = nearest(str(value), listed())
        hint = f"The nearest is {near[0]}." if near else f"To choose from: {', '.join(listed())}."
        wrong = Mistake("", f'"{value}"', f"No {what} is called {value}.", f"{hint} {told}".strip())
        raise PydanticCustomError("mistake", "a mistake", {"mistakes": (wrong,)})

    return PlainValidator(reader)


def families() -> list[str]:
    """The foams and minerals whose behaviour the catalogue knows."""
    return [key for key in table("foams") if key != "reference"]


def _property_keys() -> list[str]:
    return list(properties())


Length = Annotated[Measure, _of("length"), _shown("1/2 in", "12 mm")]
Thickness = Annotated[Measure, _of("thickness"), _shown("2 in", "50 mm")]
Temperature = Annotated[Measure, _of("temperature"), _shown("75 F", "24 C")]
Time = Annotated[Measure, _of("time"), _shown("608 d", "50 years")]
Pressure = Annotated[Measure, _of("pressure"), _shown("90 kPa")]
Speed = Annotated[Measure, _of("speed"), _shown("0.02 m/s")]
Resistance = Annotated[Measure, _of("resistance"), _shown("R8.1", "RSI 1.43")]
Share = Annotated[Measure, _of("share"), _shown("30 %")]
Age = Annotated[Measure, _typed(_age, Measure), _shown("180 d", "25 years", "fresh")]
Sized = Annotated[Size, _typed(size, Size), _shown("4 ft x 8 ft")]
EXPLAINED = "What each is: underpour catalogue list properties"
PropertyKey = Annotated[str, _known(_property_keys, "property", EXPLAINED), _shown("strength")]
Family = Annotated[str, _known(families, "foam"), _shown("EPS", "XPS")]


def _key(description: str, *examples: object, default: Any = ...) -> Any:
    return Field(default=default, description=description, examples=list(examples) or None)


class Table(BaseModel):
    """A table of the file."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        strict=True,
        allow_inf_nan=False,
        alias_generator=lambda name: name.rstrip("_").replace("_", "-"),
        arbitrary_types_allowed=True,
    )


class Conditions(Table):
    """What a number of a test holds for. What a property must say of itself stands in properties.toml."""

    thickness: Thickness | None = _key("Thickness of the specimen.", "1 in", default=None)
    mean: Temperature | None = _key("Mean temperature of the test.", "75 F", default=None)
    age: Age | None = _key("Time since the foam was made.", "180 d", "25 years", "fresh", default=None)
    direction: Literal["across", "along"] | None = _key("Through the board, or in its plane.", "across", default=None)
    area: Literal["gross", "feet", "solid"] | None = _key(
        "The area that a strength is counted on: the whole panel, its feet or knobs, or a specimen of solid foam.",
        "gross",
        default=None,
    )
    stress: Pressure | None = _key("Stress that was held.", "90 kPa", default=None)
    share: Share | None = _key("That stress as a share of the strength.", "30 %", default=None)
    lasted: Time | None = _key("How long it was held.", "608 d", default=None)
    reaches: Time | None = _key("The time it was carried forward to.", "50 years", default=None)
    slowest: Speed | None = _key("Least speed of the air.", "0.02 m/s", default=None)
    fastest: Speed | None = _key("Greatest speed of the air.", "0.60 m/s", default=None)
    to: str = _key("What it was tested on or to: the film of a tape.", "polyethylene, 15 mil", default="")
    note: str = _key("Anything else.", "conditioned", default="")


class Evidence(Table):
    """One number of one test."""

    property: PropertyKey = _key("What was tested: a name of underpour catalogue list properties.", "strength")
    value: float | None = _key("The number as the report prints it.", 16.4, default=None)
    unit: str = _key("Its unit as the report prints it.", "psi", default="")
    method: str = _key("The test by its number.", "ASTM D1621", default="")
    statistic: Statistic | None = _key(
        "What the number is: one that each specimen keeps, an average, or 90 % of the make with 90 % confidence.",
        "each",
        default=None,
    )
    conditions: Conditions = _key("What it holds for.", {"thickness": "1 in"}, default=Conditions())
    holds_from: Thickness | None = _key("Thinnest board that it stands for.", "1 in", default=None)
    holds_to: Thickness | None = _key("Thickest board that it stands for.", "6 in", default=None)
    laboratory: Laboratory = _key("The kind of laboratory.", "third party", default="not told")
    date: datetime.date | None = _key("Day of the report.", "2025-03-18", default=None)
    expires: datetime.date | None = _key("Day on which it expires.", "2028-03-18", default=None)
    certificate: str = _key("Its number.", "MB-02-COM", default="")

    def named(self, printed: str) -> str:
        """The property in words, its test and its record; that it is an average, where it is one."""
        average = ", an average" if self.statistic == "average" else ""
        return f"{printed}, {self.method}{average}, record {self.certificate}"


class Made(Table):
    """One thickness in which the product is made."""

    thickness: Thickness = _key("Thickness of the foam; of a shaped panel the solid part; of a film the film.", "2 in")
    height: Thickness | None = _key("Height over all, where a pattern stands beyond it.", "3-1/4 in", default=None)
    r_label: Resistance | None = _key("R as labelled.", "R8.1", default=None)
    price: str = _key("Price with its currency and what it is for.", "0.74 USD/ft²", default="")


class Edge(Table):
    """How boards meet."""

    profile: Literal["square", "ship-lap", "interlock"] = _key("The shape of the edge.", "square")
    sides: Literal[2, 4] | None = _key("On how many sides.", 4, default=None)
    lap: Length | None = _key("How far one lies over the other.", "1/2 in", default=None)
    loses: Length | None = _key("Cover that a panel loses each way.", "1/2 in", default=None)
    from_: Thickness | None = _key("Thinnest board that has it.", "1-1/2 in", default=None)
    to_order: bool = _key("Made to order only.", True, default=False)


class Pack(Table):
    """How it comes."""

    bundle: Length | None = _key("Height of a bundle.", "24 in", default=None)
    pallet: Length | None = _key("Height of a pallet.", "96 in", default=None)
    pieces: Annotated[int, Field(ge=1)] | None = _key("Pieces in a bundle or box, at the thinnest.", 8, default=None)


class Facing(Table):
    """A film or skin on the foam."""

    film: str = _key("What it is.", "polyethylene")
    thickness: Thickness | None = _key("How thick.", "2 mil", default=None)
    faces: Literal["one", "both"] = _key("On which faces.", "both")
    role: str = _key("What it is there for.", "class II vapour retarder with taped joints")
    below_slab_film: Literal["not tested", "tested in part", "tested"] = _key(
        "Whether it was tested as a film below slabs (ASTM E1745).", "not tested", default="not tested"
    )
    tapes: tuple[str, ...] = _key("Keys of the tapes that were tested to it.", ["tape-acrylic"], default=())


class Pattern(Table):
    """Knobs that hold tube, on top of a panel; concrete fills what lies between them."""

    knob_height: Length = _key("Height of the knobs.", "1-1/4 in")
    pitch: Length = _key("Between tubes at their closest.", "3 in")
    tubes: tuple[str, ...] = _key("Tubes that fit, by their nominal size.", ["1/2 in"])
    centre_above_base: Length = _key("Centre of the tube above the solid foam.", "3/8 in")
    least_bend: Length = _key("Least bend radius.", "6 in")
    knob_share: Share = _key("Knobs by area; the rest is concrete.", "22 %")


class Channels(Table):
    """Channels on the underside of a panel, for soil gas."""

    depth: Length = _key("Depth.", "1-1/2 in")
    width: Length = _key("Width.", "1-5/8 in")
    pitch: Length = _key("From one to the next.", "4 in")
    directions: Literal[1, 2] = _key("Along, or along and across.", 2)
    void_share: Share = _key("Air in the layer of the channels, by volume.", "64 %")
    foot_share: Share = _key("Feet by area.", "36 %")
    aligned: bool = _key("Whether they meet across joints.", True)


class Service(Table):
    """The temperatures it may be used at."""

    low: Temperature = _key("Lowest.", "-65 F")
    high: Temperature = _key("Highest.", "165 F")
    high_loaded: Temperature | None = _key("Highest while it carries load.", "140 F", default=None)


class Tolerance(Table):
    """How far a piece may be off."""

    thickness: Length = _key("Thicker or thinner.", "1/16 in")
    length: Length = _key("Longer or shorter.", "1/8 in")
    width: Length = _key("Wider or narrower.", "1/16 in")
    out_of_square: str = _key("Out of square.", "1/16 in per ft", default="")


class Embodied(Table):
    """Greenhouse gas of its making."""

    value: float = _key("kgCO2e for each kg.", 3.3)
    low: float = _key("Lowest that is plausible.", 2.6)
    high: float = _key("Highest that is plausible.", 4.2)
    basis: str = _key("Where it comes from.", "within published bands")


class GoesWith(Table):
    """Another product that is ordered with this one."""

    for_: Literal["tube", "laps", "pipes", "edge"] = _key(
        "What for: to hold tube on it, for its laps, where pipes go through it, at the edge of the slab on it.", "laps"
    )
    product: str = _key("Its key.", "tape-acrylic")


class Product(Table):
    """One product with its evidence."""

    key: Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$")] = _key("What a brief calls it.", "plain-15")
    name: str = _key("What the maker calls it.", "Marlpit Plain 15", default="")
    kind: Kind = _key("What it is.", *get_args(Kind))
    family: Family | None = _key("The foam or mineral it is made of.", "EPS", default=None)
    material: str = _key("That in the maker's words.", "EPS, moulded", default="")
    note: str = _key("What to know of it.", "the usual board below a house slab", default="")
    claims: tuple[str, ...] = _key("Classes that the maker claims.", ["ASTM C578 type II"], default=())
    sizes: tuple[Sized, ...] = _key("Sizes of a piece or roll, width first.", ["4 ft x 8 ft"], default=())
    made: tuple[Made, ...] = _key("Thicknesses made.", default=())
    edges: tuple[Edge, ...] = _key("How pieces meet.", default=())
    pack: Pack | None = _key("How it comes.", default=None)
    lead_time: Time | None = _key("From order to delivery.", "14 d", default=None)
    priced: datetime.date | None = _key("Day of its prices.", "2026-06-01", default=None)
    price: str = _key("Price where thickness does not set it.", "24 USD/roll", default="")
    facing: Facing | None = _key("Film or skin on the foam.", default=None)
    pattern: Pattern | None = _key("Knobs for tube.", default=None)
    channels: Channels | None = _key("Channels for soil gas.", default=None)
    service: Service | None = _key("Temperatures of use.", default=None)
    tolerance: Tolerance | None = _key("How far a piece may be off.", default=None)
    embodied: Embodied | None = _key("Greenhouse gas of its making.", default=None)
    attacked_by: tuple[str, ...] = _key("What dissolves or softens it.", ["hot bitumen"], default=())
    lap: Length | None = _key("Lap of a film or tape.", "6 in", default=None)
    goes_with: tuple[GoesWith, ...] = _key("Other products that are ordered with it.", default=())
    tubes: tuple[str, ...] = _key("Tubes that a clip holds, by their nominal size.", ["1/2 in"], default=())
    tools: tuple[str, ...] = _key("What it is worked with.", ["hot wire", "fine-toothed saw"], default=())
    evidence: tuple[Evidence, ...] = _key("Tests.", default=())


class Maker(Table):
    """Who makes it."""

    name: str = _key("Name.", "Marlpit Board Works")
    invented: bool = _key("An invented maker: said wherever a product shows.", True, default=False)


class Line(Table):
    """The products of one maker in one file."""

    maker: Maker = _key("Who makes it.")
    priced: datetime.date | None = _key("Day of the prices, where a product says none.", "2026-06-01", default=None)
    stands_alone: bool = _key("Leaves out the line that comes with the tool.", True, default=False)
    product: tuple[Product, ...] = _key("The products.")
