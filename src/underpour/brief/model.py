"""The brief as read: what the user typed, every measure in SI with its words, nothing filled in.

Field names are the keys of the file with ``-`` for ``_``; DESIGN words. Help texts go into the JSON Schema.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from ..measure import Measure

Kind = Literal["footing-wall", "frost-wall", "raft", "free-edge", "drawn"]
Face = Literal[
    "outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing"
]
BULK = ("concrete", "screed", "gravel", "sand", "masonry", "timber-frame")


class Table(BaseModel):
    """A table of the brief: strict, frozen, keys written with hyphens."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        arbitrary_types_allowed=True,
        alias_generator=lambda name: name.rstrip("_").replace("_", "-"),
    )


class Project(Table):
    title: str = ""
    use: str
    units: Literal["US", "SI"] | None = None


class TypedGround(Table):
    conductivity: Measure
    density: Measure | None = None
    heat_capacity: Measure  # J/(m³·K), or J/(kg·K) together with density


class Site(Table):
    place: str | None = None
    monthly: tuple[Measure, ...] | None = None
    height: Measure | None = None
    ground: str | TypedGround | None = None


class Plan(Table):
    outline: tuple[tuple[float, float], ...]  # m, anticlockwise, in the typed order of corners
    unit: str


class Layer(Table):
    """One layer. A bulk layer carries its thickness as value; a catalogue layer a name, and the thickness beside it."""

    concrete: Measure | None = None
    screed: Measure | None = None
    gravel: Measure | None = None
    sand: Measure | None = None
    masonry: Measure | None = None
    timber_frame: Measure | None = None
    board: str | None = None
    vapour_retarder: str | None = None
    thickness: Measure | None = None
    conductivity: Measure | None = None  # typed over the catalogue's


class Seasons(Table):
    winter: Measure
    summer: Measure


class FloorTable(Table):
    inside: Measure | Seasons | None = None
    humidity: Measure | None = None  # %, of the room
    available_depth: Measure | None = None
    build_up: tuple[Layer, ...]


class Insulation(Table):
    board: str
    thickness: Measure
    conductivity: Measure | None = None
    face: Face
    down: Measure | None = None
    from_: Measure | Literal["wall-top"] | None = None  # level of its upper end, above (+) or below (-) the top of the floor
    out: Measure | None = None
    at: Measure | None = None  # wings: depth of the upper side below the top of the floor


class Footing(Table):
    width: Measure
    height: Measure


class Shape(Table):
    """A body that the user draws himself, in the section's own coordinates."""

    outline: tuple[tuple[float, float], ...]  # m
    unit: str
    material: str | None = None  # a bulk material of the catalogue
    board: str | None = None
    conductivity: Measure | None = None
    priority: int = 1


class Edge(Table):
    name: str | None = None
    sides: Literal["all", "rest"] | tuple[int, ...]
    kind: Kind
    depth: Measure | None = None  # bottom of the footing below the top of the floor
    ground: Measure | None = None  # finished ground outside, above (+) or below (-) the top of the floor
    insulation: tuple[Insulation, ...] = ()
    wall: tuple[Layer, ...] | None = None  # foundation wall, from the room outwards
    above: tuple[Layer, ...] | None = None  # wall that stands on it, from the room outwards
    footing: Footing | None = None
    beside: Literal["outdoors", "heated"] = "outdoors"
    shape: tuple[Shape, ...] = ()


class Alternative(Table):
    name: str
    remove: tuple[str, ...] = ()
    set: Annotated[dict[str, object], Field(default_factory=dict)]
    edge: tuple[dict[str, object], ...] = ()  # as typed; each replaces the edge of the same letter


class Brief(Table):
    project: Project
    site: Site
    plan: Plan
    floor: FloorTable
    edge: tuple[Edge, ...]
    alternative: tuple[Alternative, ...] = ()
