"""The floor seen from above."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import ConfigDict, ValidationInfo, field_validator

from ...mistakes import Mistake
from ...outlines.side import Point
from ...plan_file import Asked
from .. import kinds
from ..corners import TypedCorner, read_corner
from .outline import BENT_SCHEMA, LengthUnit, bent_corners
from .table import Table, key

ObstacleKind = Literal["column", "pipe", "drain", "post", "pit"]


class Hole(Table):
    """A place inside the outline that is no floor: an open court, a stair well, a pit with its own floor."""

    unit: LengthUnit | None = key("Unit of its numbers, where it is not the plan's.", "m", default=None)
    corners: tuple[TypedCorner, ...] = key(
        "Its corners in order; its sides are hole.1.side.1, hole.1.side.2, ...",
        ["12 10", "20 10", "20 18", "12 18"],
        alias="outline",
        json_schema_extra=BENT_SCHEMA,
    )

    @field_validator("corners", mode="plain", json_schema_input_type=tuple[str, ...])
    @classmethod
    def _in_the_unit(cls, value: object, so_far: ValidationInfo) -> tuple[TypedCorner, ...]:
        return bent_corners(value, so_far.data.get("unit"))


class Obstacle(Table):
    """Something that stands in the floor or goes through it."""

    unit: LengthUnit | None = key("Unit of `at`, where it is not the plan's.", "m", default=None)
    kind: ObstacleKind = key("What it is.", "column", "pipe", "drain", "post", "pit")
    at: Point = key("Its middle, x and y.", "12 14", json_schema_extra={"type": "string"})  # m
    size: kinds.ObstacleSize = key("Its diameter, or its breadth along x and along y.", "4 in", "12 in x 16 in")

    @field_validator("at", mode="plain", json_schema_input_type=str)
    @classmethod
    def _in_the_unit(cls, value: object, so_far: ValidationInfo) -> Point:
        try:
            return read_corner(value, so_far.data.get("unit") or "m")
        except Mistake as mistake:
            raise kinds.as_error(mistake) from None


class NamedSide(Table):
    """A name for a side, to be called by in an edge."""

    side: kinds.SideTyped = key("The side: its number, or a hole's.", 3, "hole.1.side.2")
    name: str = key("What to call it.", "north wall")


class DrawingLayers(Table):
    """What lies on which layers of a drawing, where their names do not say it."""

    floor: kinds.Words = key("Layers with what encloses the floor, and its holes.", "A-SLAB", default=())
    column: kinds.Words = key("Layers of columns.", "S-COLS", ["S-COLS", "steel"], default=())
    pipe: kinds.Words = key("Layers of pipes.", "P-PIPE", default=())
    drain: kinds.Words = key("Layers of drains.", "P-DRAIN", default=())
    post: kinds.Words = key("Layers of posts.", "posts", default=())
    pit: kinds.Words = key("Layers of pits.", "lift", default=())


class DrawingIn(Table):
    """A drawing from which the floor is read, and how its numbers and layers are meant."""

    unit: LengthUnit | None = key("Unit of the outline's numbers.", "ft", "m", default=None)
    dxf: kinds.File | None = key(
        "A drawing (DXF) from which outline, holes and obstacles are read in the place of a typed outline, from the "
        "brief's folder.",
        "plan.dxf",
        default=None,
    )
    dxf_unit: LengthUnit | None = key(
        "Unit of the drawing's numbers, where its header is wrong, or another than that of the numbers typed here.",
        "mm",
        default=None,
    )
    dxf_gap: kinds.LooseEnds | None = key(
        "How far ends of loose lines may lie apart and still be joined; 1 mm unless typed.", "5 mm", default=None
    )
    dxf_layers: DrawingLayers = key(
        "What lies on which layers, where their names do not say it.",
        {"floor": "A-SLAB", "column": "S-COLS"},
        default_factory=DrawingLayers,
    )

    @property
    def asked_of_drawing(self) -> Asked:
        layers = ((what, getattr(self.dxf_layers, what)) for what in DrawingLayers.model_fields)
        gap = None if self.dxf_gap is None else self.dxf_gap.si
        return Asked(self.unit, self.dxf_unit, gap, tuple((what, names) for what, names in layers if names))


def _typed_or_drawn(schema: dict[str, Any]) -> None:
    """A plan needs an outline with its unit, or a drawing."""
    del schema["required"]
    schema["anyOf"] = [{"required": ["unit", "outline"]}, {"required": ["dxf"]}]


class Plan(DrawingIn):
    """The floor seen from above."""

    model_config = ConfigDict(json_schema_extra=_typed_or_drawn)

    unit: LengthUnit = key(
        "Unit of the outline's numbers, and of places typed elsewhere; a drawing that says its own needs none.",
        "ft",
        "m",
    )
    corners: tuple[TypedCorner, ...] = key(
        "The corners in order round the floor, x and y of each, where no drawing has them; behind a corner the arc "
        "that begins there: how far it bows out (`rise`, below nought where it bows in), its `radius`, a point that it "
        "goes `through`, or the `bulge` of a drawing file.",
        ["0 0", "40 0", "40 28", "0 28"],
        ["0 0", "40 0 rise 3", "40 12", "40 28", "0 28"],
        alias="outline",
        json_schema_extra=BENT_SCHEMA,
    )  # m, in the typed order; side n runs from corner n to the next
    hole: tuple[Hole, ...] = key("Places inside the outline that are no floor.", default=())
    obstacle: tuple[Obstacle, ...] = key("What stands in the floor or goes through it.", default=())
    side: tuple[NamedSide, ...] = key("Names of sides.", default=())

    @field_validator("corners", mode="plain", json_schema_input_type=tuple[str, ...])
    @classmethod
    def _in_the_unit(cls, value: object, so_far: ValidationInfo) -> tuple[TypedCorner, ...]:
        return bent_corners(value, so_far.data.get("unit"))

    @field_validator("hole", "obstacle", mode="before")
    @classmethod
    def _with_the_unit(cls, value: object, so_far: ValidationInfo) -> object:
        """Each table with the plan's unit, where it has none of its own."""
        unit = so_far.data.get("unit")
        if not isinstance(value, list) or unit is None:
            return value
        return [{"unit": unit, **entry} if isinstance(entry, dict) else entry for entry in value]
