"""The floor seen from above."""

from __future__ import annotations

from pydantic import ValidationInfo, field_validator

from .. import outline
from ..outline import Corner
from .outline import AS_SCHEMA, LengthUnit, typed_corners
from .table import Table, key


class Plan(Table):
    """The floor seen from above."""

    unit: LengthUnit = key("Unit of the outline's numbers.", "ft", "m")
    corners: tuple[Corner, ...] = key(
        "The corners in order round the floor, x and y of each.",
        ["0 0", "40 0", "40 28", "0 28"],
        alias="outline",
        json_schema_extra=AS_SCHEMA,
    )  # m, in the typed order; side n runs from corner n to the next

    @field_validator("corners", mode="plain", json_schema_input_type=tuple[str, ...])
    @classmethod
    def _in_the_unit(cls, value: object, so_far: ValidationInfo) -> tuple[Corner, ...]:
        return typed_corners(value, so_far.data.get("unit"))

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
