"""What the ground is, told by name, by its properties, or as a soils report has it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field, StrictBool, Tag, ValidationInfo, field_validator, model_validator

from ... import measure
from ...measure import Measure
from ...mistakes import Mistake
from .. import kinds
from .table import Table, key


class TypedGround(Table):
    """Ground whose properties were measured or are known."""

    conductivity: kinds.Conductivity = key("Thermal conductivity of the ground.", "1.5 W/(m·K)")
    density: kinds.Density | None = key(
        "Density, where the heat capacity is given by mass.", "1800 kg/m³", default=None
    )
    heat_capacity: Annotated[Measure, Field(json_schema_extra={"type": "string"})] = key(
        "Heat capacity by volume; by mass where a density stands beside it.", "3 MJ/(m³·K)", "1000 J/(kg·K)"
    )  # J/(m³·K), or J/(kg·K) together with density
    saturated_conductivity: kinds.Conductivity | None = key(
        "Its thermal conductivity below the water table; as above it unless typed.", "1.8 W/(m·K)", default=None
    )
    saturated_heat_capacity: kinds.HeatCapacity | None = key(
        "Its heat capacity by volume below the water table; as above it unless typed.", "3.1 MJ/(m³·K)", default=None
    )

    water: kinds.Density | None = key(
        "Water in it that can freeze, by volume of ground.", "450 kg/m³", "28 pcf", default=None
    )
    frozen_conductivity: kinds.Conductivity | None = key(
        "Its thermal conductivity where that water is ice.", "2.5 W/(m·K)", default=None
    )

    @field_validator("heat_capacity", mode="plain", json_schema_input_type=str)
    @classmethod
    def _by_volume_or_by_mass(cls, value: object, so_far: ValidationInfo) -> Measure:
        by_mass = so_far.data.get("density") is not None
        return kinds.typed_measure(measure.heat_capacity if by_mass else measure.heat_capacity_by_volume)(value)


class Soil(Table):
    """Ground as a soils report states it; how it conducts is worked out (Johansen 1975)."""

    dry_density: kinds.Density = key("Dry density of the soil.", "1600 kg/m³", "100 pcf")
    moisture: kinds.Share = key("Water in the soil, as a share of the mass of its dry part.", "15 %")
    kind: Literal["fine", "coarse"] = key(
        "Whether it is fine (clay, silt, loam) or coarse (sand, gravel).", "fine", "coarse"
    )
    quartz: kinds.Share | None = key("Share of quartz in its grains.", "50 %", default=None)
    frozen: StrictBool = key("Whether the ground stays frozen all year.", True, default=False)

    @model_validator(mode="before")
    @classmethod
    def _told_once(cls, value: object) -> object:
        """How the ground conducts is typed or worked out, never both."""
        twice = [
            key for key in ("conductivity", "heat-capacity", "density") if isinstance(value, dict) and key in value
        ]
        if twice:
            wrong = f"{' and '.join(twice)} beside dry density, moisture and kind is told twice: it follows from them."
            instead = 'Keep one: { conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" } if it was measured.'
            raise kinds.as_error(Mistake(twice[0], "", wrong, instead))
        return value


def form_of_ground(value: object) -> str:
    """Which of the three ways of telling the ground this is: by name, by its properties, or by a soils report."""
    if isinstance(value, Soil):
        return "soil"
    if isinstance(value, dict):
        return "soil" if {"dry-density", "moisture", "kind", "quartz", "frozen"} & value.keys() else "table"
    return "table" if isinstance(value, Table) else "word"


Ground = Annotated[
    Annotated[str, Tag("word")] | Annotated[TypedGround, Tag("table")] | Annotated[Soil, Tag("soil")],
    Discriminator(form_of_ground),
]


class GroundLayer(Table):
    """A layer of the ground, all over the site."""

    ground: Ground = key("The ground of this layer, told as under site.ground.", "sand-or-gravel")
    thickness: kinds.Extent | None = key("How thick it is; the deepest goes on, and has none.", "3 ft", default=None)
