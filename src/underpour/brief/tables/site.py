"""Where the slab is poured, and on what."""

from __future__ import annotations

from typing import Annotated

from pydantic import Discriminator, Field, Tag, ValidationInfo, field_validator

from ... import measure
from ...measure import Measure
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

    @field_validator("heat_capacity", mode="plain", json_schema_input_type=str)
    @classmethod
    def _by_volume_or_by_mass(cls, value: object, so_far: ValidationInfo) -> Measure:
        by_mass = so_far.data.get("density") is not None
        return kinds.typed_measure(measure.heat_capacity if by_mass else measure.heat_capacity_by_volume)(value)


def table_or_word(value: object) -> str:
    return "table" if isinstance(value, dict | Table) else "word"


class Site(Table):
    """Where the slab is poured and on what."""

    place: str | None = key(
        "The nearest town, with its state or country.", "Duluth, MN", "Christchurch, NZ", default=None
    )
    monthly: tuple[kinds.Temperature, ...] | None = key(
        "Twelve mean air temperatures, January first, where no place is named.",
        ["-10 C", "-8 C", "-1 C", "7 C", "13 C", "18 C", "21 C", "20 C", "15 C", "9 C", "1 C", "-7 C"],
        default=None,
    )
    weather: kinds.File | None = key(
        "A weather file, from the brief's folder: EPW, TMY3, monthly normals, or a table of months.",
        "duluth.epw",
        "months.csv",
        default=None,
    )
    height: kinds.Altitude | None = key("Height of the site above the sea.", "700 ft", "215 m", default=None)
    ground: (
        Annotated[
            Annotated[str, Tag("word")] | Annotated[TypedGround, Tag("table")],
            Discriminator(table_or_word),
        ]
        | None
    ) = key("The ground under the slab: a name of the catalogue, or its properties.", "silty-clay-moist", default=None)
