"""Edges: how the build-up ends, the foam there, and what stands on it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, StrictInt, Tag, ValidationInfo, field_validator

from ...outlines.side import Point
from .. import kinds
from .floor import Seasons
from .layer import Layer
from .outline import AS_SCHEMA, LengthUnit, typed_corners
from .site import table_or_word
from .table import Table, key

Kind = Literal["footing-wall", "frost-wall", "ledge", "threshold", "thickened-edge", "raft", "free-edge", "drawn"]
Face = Literal["outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "below-slope", "wing"]


class Insulation(Table):
    """Foam on one face of an edge."""

    board: str = key("A rigid board, by its name in the catalogue.", "plain-15")
    thickness: kinds.BoardThickness | None = key("How thick the board is.", "2 in", "50 mm", default=None)
    r: kinds.WantedR | None = key(
        "In the place of thickness: the R-value that the board must reach as labelled, in the thinnest thickness made.",
        "R10",
        "RSI 1.76",
        default=None,
    )
    conductivity: kinds.Conductivity | None = key(
        "Thermal conductivity, where it is not the catalogue's.", "0.036 W/(m·K)", default=None
    )
    face: Face = key("Where the foam lies.", "outside", "slab-edge")
    down: kinds.Extent | None = key(
        "How far it reaches down, from the top of the slab unless `from` says otherwise.",
        "48 in",
        "1.2 m",
        default=None,
    )
    from_: kinds.WallTopOrLevel | None = key(
        "Its upper end: a level above (+) or below (-) the top of the floor, or the top of the wall.",
        "wall-top",
        "-4 in",
        default=None,
    )
    out: kinds.Extent | None = key("A wing's width, away from the building.", "24 in", "600 mm", default=None)
    top: Literal["bare", "covered"] | None = key(
        "Upper end of foam between slab and wall: bare, or covered by the wall above, which stands in over it.",
        "covered",
        "bare",
        default=None,
    )
    at: kinds.Depth | None = key(
        "Depth of a wing's upper side below the top of the floor.", "12 in", "300 mm", default=None
    )


class Footing(Table):
    """The strip of concrete that the wall stands on."""

    width: kinds.Thickness = key("Width of the footing.", "20 in", "500 mm")
    height: kinds.Thickness = key("Height of the footing.", "10 in", "250 mm")


class Thickening(Table):
    """The slab's thickening along a thickened edge: a flat bottom, then a slope up to the floor's own underside."""

    width: kinds.Thickness | None = key(
        "Width of its flat bottom, from the slab's outer face.", "12 in", "300 mm", default=None
    )
    slope: kinds.Slope | None = key(
        "Angle of its inner side from the level; the floor's foam ends where the slope begins.",
        "45 deg",
        "90 deg",
        default=None,
    )


class Ledge(Table):
    """The step in a foundation wall's outer face that a brick leaf stands on, with air behind it."""

    width: kinds.Thickness | None = key("Width of the ledge, from the wall's outer face.", "5 in", default=None)
    below: kinds.Extent | None = key("Level of the ledge below the top of the floor.", "8 in", default=None)
    brick: kinds.Thickness | None = key(
        "Thickness of the brick leaf; the rest of the ledge is air.", "3-5/8 in", "90 mm", default=None
    )


class Shape(Table):
    """A body that the user draws himself, in the section's own coordinates."""

    unit: LengthUnit = key("Unit of the outline's numbers.", "in", "mm")
    outline: tuple[Point, ...] = key(
        "The body's corners in order, x into the room and y up from the top of the floor.",
        ["0 0", "8 0", "8 -48", "0 -48"],
        json_schema_extra=AS_SCHEMA,
    )  # m
    material: str | None = key("A material of the catalogue.", "concrete", default=None)
    board: str | None = key("A rigid board, by its name in the catalogue.", "plain-15", default=None)
    conductivity: kinds.Conductivity | None = key(
        "Thermal conductivity, where it is not the catalogue's.", "1.7 W/(m·K)", default=None
    )
    priority: StrictInt = key("Where bodies overlap the lower number wins.", 1, default=1)

    @field_validator("outline", mode="plain", json_schema_input_type=tuple[str, ...])
    @classmethod
    def _in_the_unit(cls, value: object, so_far: ValidationInfo) -> tuple[Point, ...]:
        return typed_corners(value, so_far.data.get("unit"))


class Edge(Table):
    """How the build-up ends at a stretch of the perimeter."""

    name: str | None = key("What to call the edge in place of its letter.", "door side", default=None)
    sides: kinds.SidesTyped = key(
        'The sides of the outline it takes: "all", "rest" or their numbers; "by-layer" where a drawing has lines for '
        "it, on a layer edge-a, edge-b, ... of its letter or name.",
        "all",
        "rest",
        [1, 2],
        "by-layer",
    )
    kind: Kind = key(
        "What the floor ends at.",
        "footing-wall",
        "frost-wall",
        "ledge",
        "threshold",
        "thickened-edge",
        "raft",
        "free-edge",
    )
    depth: kinds.Extent | None = key(
        "Bottom of the footing, or of the thickening, below the top of the floor.", "60 in", "1.5 m", default=None
    )
    ground: kinds.Level | None = key(
        "Finished ground outside, above (+) or below (-) the top of the floor.", "-8 in", "0.6 m", default=None
    )
    insulation: tuple[Insulation, ...] = key(
        "Foam at this edge.",
        [{"board": "plain-15", "thickness": "2 in", "face": "outside", "down": "48 in"}],
        default=(),
    )
    wall: tuple[Layer, ...] | None = key(
        "The foundation wall's layers, from the room outwards.", [{"concrete": "8 in"}], default=None
    )
    above: tuple[Layer, ...] | None = key(
        "Layers of the wall that stands on it, from the room outwards; at a threshold those of the door's leaf.",
        [{"timber-frame": "5.5 in"}],
        default=None,
    )
    footing: Footing | None = key("The footing's size.", {"width": "20 in", "height": "10 in"}, default=None)
    thickening: Thickening | None = key(
        "How a thickened edge thickens; `depth` says how deep.", {"width": "12 in", "slope": "45 deg"}, default=None
    )
    set_back: kinds.Depth | None = key(
        "At a threshold, how far the leaf's outer face stands in from the foundation wall's outer face.",
        "6 in",
        "150 mm",
        default=None,
    )
    ledge: Ledge | None = key(
        "The ledge of a frost wall that bears brick.", {"width": "5 in", "below": "8 in"}, default=None
    )
    props: Literal["slab", "footing"] | None = key(
        "What holds the foot of a basement's wall against the ground: the slab, or its footing by a key or dowels.",
        "footing",
        "slab",
        default=None,
    )
    gap: kinds.Extent | None = key(
        "Width of the sealed joint between the slab and a wall on a footing of its own.",
        "1/2 in",
        "12 mm",
        default=None,
    )
    beside: Annotated[
        Annotated[kinds.Beside, Tag("word")] | Annotated[Seasons, Tag("table")],
        Discriminator(table_or_word),
    ] = key(
        "What lies on the other side: outdoors, a heated room, which takes the edge out of the perimeter, an unheated "
        "space, or a temperature, through the year or by season.",
        "outdoors",
        "heated",
        "unheated",
        "45 F",
        {"winter": "25 F", "summer": "72 F"},
        default="outdoors",
    )
    shape: tuple[Shape, ...] = key("Bodies of a section that the user draws himself.", default=())
