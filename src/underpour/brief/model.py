"""The brief as read: what the user typed, every measure in SI with its words, nothing filled in.

Field names are the keys of the file with ``-`` for ``_``; help texts and examples go into the JSON Schema, the
documents and the mistakes.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Annotated, Literal, get_args

from pydantic import (
    BeforeValidator,
    Discriminator,
    Field,
    StrictInt,
    Tag,
    ValidationInfo,
    field_validator,
)
from pydantic.fields import FieldInfo

from .. import measure
from ..measure import Measure
from ..mistakes import Mistake
from . import kinds, layers, outline
from .corners import read_corner
from .handover import Accept, Handover
from .loads import Load
from .outline import Corner
from .table import Table
from .table import key as _key

BULK = layers.BULK
Kind = Literal["footing-wall", "frost-wall", "ledge", "threshold", "thickened-edge", "raft", "free-edge", "drawn"]
Face = Literal["outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "below-slope", "wing"]
LengthUnit = Literal["m", "mm", "cm", "ft", "in"]


def _corners(value: object, unit: str | None) -> tuple[Corner, ...]:
    if not isinstance(value, list | tuple):
        raise kinds.as_error(
            Mistake("", "", "An outline is a list of corners.", 'Write ["0 0", "40 0", "40 28", "0 28"].')
        )
    corners: list[Corner] = []
    found: list[Mistake] = []
    for number, typed in enumerate(value, start=1):
        try:
            corners.append(read_corner(typed, unit or "m"))
        except Mistake as mistake:
            found.append(mistake.placed(at=str(number)))
    if found:
        raise kinds.as_error(*found)
    return tuple(corners)


_CORNERS = {"type": "array", "items": {"type": "string"}, "minItems": 3}


class Project(Table):
    """What the job is called and what the floor is for."""

    title: str = _key("What the job is called; printed on every paper.", "Boat workshop, north shore", default="")
    use: str = _key("What the floor is for.", "dwelling", "basement", "garage", "workshop", "cold-store")
    units: Literal["US", "SI"] | None = _key("The system that answers are printed in first.", "US", "SI", default=None)


class TypedGround(Table):
    """Ground whose properties were measured or are known."""

    conductivity: kinds.Conductivity = _key("Thermal conductivity of the ground.", "1.5 W/(m·K)")
    density: kinds.Density | None = _key(
        "Density, where the heat capacity is given by mass.", "1800 kg/m³", default=None
    )
    heat_capacity: Annotated[Measure, Field(json_schema_extra={"type": "string"})] = _key(
        "Heat capacity by volume; by mass where a density stands beside it.", "3 MJ/(m³·K)", "1000 J/(kg·K)"
    )  # J/(m³·K), or J/(kg·K) together with density

    @field_validator("heat_capacity", mode="plain", json_schema_input_type=str)
    @classmethod
    def _by_volume_or_by_mass(cls, value: object, so_far: ValidationInfo) -> Measure:
        by_mass = so_far.data.get("density") is not None
        return kinds.typed_measure(measure.heat_capacity if by_mass else measure.heat_capacity_by_volume)(value)


def _table_or_word(value: object) -> str:
    return "table" if isinstance(value, dict | Table) else "word"


class Site(Table):
    """Where the slab is poured and on what."""

    place: str | None = _key(
        "The nearest town, with its state or country.", "Duluth, MN", "Christchurch, NZ", default=None
    )
    monthly: tuple[kinds.Temperature, ...] | None = _key(
        "Twelve mean air temperatures, January first, where no place is named.",
        ["-10 C", "-8 C", "-1 C", "7 C", "13 C", "18 C", "21 C", "20 C", "15 C", "9 C", "1 C", "-7 C"],
        default=None,
    )
    weather: kinds.File | None = _key(
        "A weather file, from the brief's folder: EPW, TMY3, monthly normals, or a table of months.",
        "duluth.epw",
        "months.csv",
        default=None,
    )
    height: kinds.Altitude | None = _key("Height of the site above the sea.", "700 ft", "215 m", default=None)
    ground: (
        Annotated[
            Annotated[str, Tag("word")] | Annotated[TypedGround, Tag("table")],
            Discriminator(_table_or_word),
        ]
        | None
    ) = _key("The ground under the slab: a name of the catalogue, or its properties.", "silty-clay-moist", default=None)


class Plan(Table):
    """The floor seen from above."""

    unit: LengthUnit = _key("Unit of the outline's numbers.", "ft", "m")
    corners: tuple[Corner, ...] = _key(
        "The corners in order round the floor, x and y of each.",
        ["0 0", "40 0", "40 28", "0 28"],
        alias="outline",
        json_schema_extra=_CORNERS,
    )  # m, in the typed order; side n runs from corner n to the next

    @field_validator("corners", mode="plain", json_schema_input_type=tuple[str, ...])
    @classmethod
    def _in_the_unit(cls, value: object, so_far: ValidationInfo) -> tuple[Corner, ...]:
        return _corners(value, so_far.data.get("unit"))

    @property
    def outline(self) -> tuple[Corner, ...]:
        """The corners turned anticlockwise, the first typed one first. [m]"""
        return outline.anticlockwise(self.corners)[0]

    @property
    def side_numbers(self) -> tuple[int, ...]:
        """For each side of ``outline`` its number by the typed corners."""
        return outline.anticlockwise(self.corners)[1]

    @property
    def side_lengths(self) -> tuple[float, ...]:
        """Length of side 1, side 2, ... by the typed corners. [m]"""
        return outline.side_lengths(self.corners)

    @property
    def area(self) -> float:
        """Area inside the outline. [m²]"""
        return outline.area(self.corners)


class Layer(Table):
    """One layer. A bulk layer carries its thickness as value; a catalogue layer a name, and the thickness beside it."""

    concrete: kinds.Thickness | None = _key("A layer of concrete, by its thickness.", "4 in", "100 mm", default=None)
    screed: kinds.Thickness | None = _key("A screed, by its thickness.", "2 in", "50 mm", default=None)
    old_slab: kinds.Thickness | None = _key(
        "An old slab that stays below the new floor, by its thickness; the wall stands level with its top.",
        "4 in",
        "100 mm",
        default=None,
    )
    gravel: kinds.Thickness | None = _key("Washed gravel, by its thickness.", "4 in", "100 mm", default=None)
    sand: kinds.Thickness | None = _key("Sand, by its thickness.", "2 in", "50 mm", default=None)
    masonry: kinds.Thickness | None = _key("Masonry of a wall, by its thickness.", "8 in", "200 mm", default=None)
    timber_frame: kinds.Thickness | None = _key(
        "Timber frame of a wall, by its thickness.", "5.5 in", "140 mm", default=None
    )
    board: str | None = _key("A rigid board, by its name in the catalogue.", "plain-15", default=None)
    vapour_retarder: str | None = _key("A vapour retarder, by its name in the catalogue.", "film-15-mil", default=None)
    thickness: kinds.BoardThickness | None = _key("How thick the board is.", "2 in", "50 mm", default=None)
    conductivity: kinds.Conductivity | None = _key(
        "Thermal conductivity, where it is not the catalogue's.", "0.036 W/(m·K)", default=None
    )

    @property
    def kind(self) -> str:
        """What it is, by its key: "concrete", "board", "vapour-retarder"."""
        return next(key for key in layers.LAYERS if getattr(self, key.replace("-", "_")) is not None)


class Seasons(Table):
    """The room's temperature where winter and summer differ."""

    winter: kinds.Temperature = _key("Room temperature in the coldest month.", "68 F", "20 C")
    summer: kinds.Temperature = _key("Room temperature in the warmest month.", "75 F", "24 C")


class FloorTable(Table):
    """The room and the layers under it."""

    inside: (
        Annotated[
            Annotated[kinds.Temperature, Tag("word")] | Annotated[Seasons, Tag("table")],
            Discriminator(_table_or_word),
        ]
        | None
    ) = _key(
        "Temperature of the room, through the year or by season.",
        "68 F",
        {"winter": "68 F", "summer": "75 F"},
        default=None,
    )
    humidity: kinds.Humidity | None = _key("Relative humidity of the room in winter.", "50 %", default=None)
    available_depth: kinds.Extent | None = _key(
        "From the top of the finished floor down to the dug ground, or to the top of an old slab that stays.",
        "12 in",
        "300 mm",
        default=None,
    )
    build_up: tuple[Layer, ...] = _key(
        "The layers from the room down to the ground, at the middle of the floor.",
        [{"concrete": "4 in"}, {"board": "plain-15", "thickness": "2 in"}, {"gravel": "4 in"}],
    )


class Insulation(Table):
    """Foam on one face of an edge."""

    board: str = _key("A rigid board, by its name in the catalogue.", "plain-15")
    thickness: kinds.BoardThickness = _key("How thick the board is.", "2 in", "50 mm")
    conductivity: kinds.Conductivity | None = _key(
        "Thermal conductivity, where it is not the catalogue's.", "0.036 W/(m·K)", default=None
    )
    face: Face = _key("Where the foam lies.", "outside", "slab-edge")
    down: kinds.Extent | None = _key(
        "How far it reaches down, from the top of the slab unless `from` says otherwise.",
        "48 in",
        "1.2 m",
        default=None,
    )
    from_: kinds.WallTopOrLevel | None = _key(
        "Its upper end: a level above (+) or below (-) the top of the floor, or the top of the wall.",
        "wall-top",
        "-4 in",
        default=None,
    )
    out: kinds.Extent | None = _key("A wing's width, away from the building.", "24 in", "600 mm", default=None)
    top: Literal["bare", "covered"] | None = _key(
        "Upper end of foam between slab and wall: bare, or covered by the wall above, which stands in over it.",
        "covered",
        "bare",
        default=None,
    )
    at: kinds.Depth | None = _key(
        "Depth of a wing's upper side below the top of the floor.", "12 in", "300 mm", default=None
    )


class Footing(Table):
    """The strip of concrete that the wall stands on."""

    width: kinds.Thickness = _key("Width of the footing.", "20 in", "500 mm")
    height: kinds.Thickness = _key("Height of the footing.", "10 in", "250 mm")


class Thickening(Table):
    """The slab's thickening along a thickened edge: a flat bottom, then a slope up to the floor's own underside."""

    width: kinds.Thickness | None = _key(
        "Width of its flat bottom, from the slab's outer face.", "12 in", "300 mm", default=None
    )
    slope: kinds.Slope | None = _key(
        "Angle of its inner side from the level; the floor's foam ends where the slope begins.",
        "45 deg",
        "90 deg",
        default=None,
    )


class Ledge(Table):
    """The step in a foundation wall's outer face that a brick leaf stands on, with air behind it."""

    width: kinds.Thickness | None = _key("Width of the ledge, from the wall's outer face.", "5 in", default=None)
    below: kinds.Extent | None = _key("Level of the ledge below the top of the floor.", "8 in", default=None)
    brick: kinds.Thickness | None = _key(
        "Thickness of the brick leaf; the rest of the ledge is air.", "3-5/8 in", "90 mm", default=None
    )


class Shape(Table):
    """A body that the user draws himself, in the section's own coordinates."""

    unit: LengthUnit = _key("Unit of the outline's numbers.", "in", "mm")
    outline: tuple[Corner, ...] = _key(
        "The body's corners in order, x into the room and y up from the top of the floor.",
        ["0 0", "8 0", "8 -48", "0 -48"],
        json_schema_extra=_CORNERS,
    )  # m
    material: str | None = _key("A material of the catalogue.", "concrete", default=None)
    board: str | None = _key("A rigid board, by its name in the catalogue.", "plain-15", default=None)
    conductivity: kinds.Conductivity | None = _key(
        "Thermal conductivity, where it is not the catalogue's.", "1.7 W/(m·K)", default=None
    )
    priority: StrictInt = _key("Where bodies overlap the lower number wins.", 1, default=1)

    @field_validator("outline", mode="plain", json_schema_input_type=tuple[str, ...])
    @classmethod
    def _in_the_unit(cls, value: object, so_far: ValidationInfo) -> tuple[Corner, ...]:
        return _corners(value, so_far.data.get("unit"))


class Edge(Table):
    """How the build-up ends at a stretch of the perimeter."""

    name: str | None = _key("What to call the edge in place of its letter.", "door side", default=None)
    sides: kinds.SidesTyped = _key(
        'The sides of the outline it takes: "all", "rest" or their numbers.', "all", "rest", [1, 2]
    )
    kind: Kind = _key(
        "What the floor ends at.",
        "footing-wall",
        "frost-wall",
        "ledge",
        "threshold",
        "thickened-edge",
        "raft",
        "free-edge",
    )
    depth: kinds.Extent | None = _key(
        "Bottom of the footing, or of the thickening, below the top of the floor.", "60 in", "1.5 m", default=None
    )
    ground: kinds.Level | None = _key(
        "Finished ground outside, above (+) or below (-) the top of the floor.", "-8 in", "0.6 m", default=None
    )
    insulation: tuple[Insulation, ...] = _key(
        "Foam at this edge.",
        [{"board": "plain-15", "thickness": "2 in", "face": "outside", "down": "48 in"}],
        default=(),
    )
    wall: tuple[Layer, ...] | None = _key(
        "The foundation wall's layers, from the room outwards.", [{"concrete": "8 in"}], default=None
    )
    above: tuple[Layer, ...] | None = _key(
        "Layers of the wall that stands on it, from the room outwards; at a threshold those of the door's leaf.",
        [{"timber-frame": "5.5 in"}],
        default=None,
    )
    footing: Footing | None = _key("The footing's size.", {"width": "20 in", "height": "10 in"}, default=None)
    thickening: Thickening | None = _key(
        "How a thickened edge thickens; `depth` says how deep.", {"width": "12 in", "slope": "45 deg"}, default=None
    )
    set_back: kinds.Depth | None = _key(
        "At a threshold, how far the leaf's outer face stands in from the foundation wall's outer face.",
        "6 in",
        "150 mm",
        default=None,
    )
    ledge: Ledge | None = _key(
        "The ledge of a frost wall that bears brick.", {"width": "5 in", "below": "8 in"}, default=None
    )
    beside: Annotated[Literal["outdoors", "heated"], BeforeValidator(kinds.only_told_neighbours)] = _key(
        "What lies on the other side; a heated neighbour takes the edge out of the perimeter.",
        "outdoors",
        "heated",
        default="outdoors",
    )
    shape: tuple[Shape, ...] = _key("Bodies of a section that the user draws himself.", default=())


class Alternative(Table):
    """A named change to the brief, compared with it."""

    name: str = _key("What to call it.", "bare slab")
    remove: tuple[str, ...] = _key(
        "Kinds of layer, or paths, to take out.", ["board"], ["edge.A.insulation"], default=()
    )
    set: dict[str, object] = _key(
        "Paths, each with what to write there.", {"floor.build-up.2.thickness": "3 in"}, default={}
    )
    edge: tuple[dict[str, object], ...] = _key(
        "Edges, each in place of the one of the same name or letter.", default=()
    )


class Brief(Table):
    """One job: what is asked."""

    project: Project = _key("What the job is called and what the floor is for.")
    site: Site = _key("Where the slab is poured and on what.")
    plan: Plan = _key("The floor seen from above.")
    floor: FloorTable = _key("The room and the layers under it.")
    edge: tuple[Edge, ...] = _key("How the build-up ends, one table for each kind of edge.")
    load: tuple[Load, ...] = _key(
        "What stands on the floor or its footing.",
        [{"kind": "wall", "at": "edge A", "force": "1500 lb/ft"}],
        default=(),
    )
    handover: Handover = _key("What stands on the first sheet of a submittal.", default_factory=Handover)
    accept: tuple[Accept, ...] = _key("Shortfalls that somebody accepted.", default=())
    alternative: tuple[Alternative, ...] = _key("Changes to compare with the brief.", default=())


@cache
def fields() -> dict[str, tuple[type[Table], FieldInfo]]:
    """Every key of the brief by its path without numbers ("edge.insulation.face"): its table and its field."""
    return dict(_fields_of(Brief, ""))


def _fields_of(table: type[Table], above: str) -> Iterator[tuple[str, tuple[type[Table], FieldInfo]]]:
    for field in table.model_fields.values():
        path = f"{above}.{field.alias}" if above else str(field.alias)
        yield path, (table, field)
        for inner in _tables_in(field.annotation):
            yield from _fields_of(inner, path)


def _tables_in(annotation: object) -> Iterator[type[Table]]:
    if isinstance(annotation, type) and issubclass(annotation, Table):
        yield annotation
    for part in get_args(annotation):
        yield from _tables_in(part)


def keys_of(path: str) -> list[str]:
    """The keys that the table at a path without numbers can hold; "" is the brief itself."""
    depth = path.count(".") + 1 if path else 0
    return [
        key.rsplit(".", 1)[-1] for key in fields() if key.startswith(path and f"{path}.") and key.count(".") == depth
    ]
