"""The room and the layers under it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, StrictBool, Tag

from .. import kinds
from .bay import Bay
from .layer import Layer
from .rib import Rib
from .site import table_or_word
from .table import Table, key


class Seasons(Table):
    """A temperature where winter and summer differ."""

    winter: kinds.Temperature = key("Temperature in the coldest month.", "68 F", "20 C")
    summer: kinds.Temperature = key("Temperature in the warmest month.", "75 F", "24 C")


class FloorTable(Table):
    """The room and the layers under it."""

    inside: (
        Annotated[
            Annotated[kinds.Inside, Tag("word")] | Annotated[Seasons, Tag("table")],
            Discriminator(table_or_word),
        ]
        | None
    ) = key(
        "Temperature of the room, through the year or by season; or unheated.",
        "68 F",
        {"winter": "68 F", "summer": "75 F"},
        "unheated",
        default=None,
    )
    cooled: StrictBool | None = key(
        "Whether the room is kept cool in summer; one that is let go wants no coolness of the ground.",
        True,
        False,
        default=None,
    )
    humidity: kinds.Humidity | None = key("Relative humidity of the room in winter.", "50 %", default=None)
    summer_humidity: kinds.Humidity | None = key(
        "Relative humidity that the room's air is kept below in summer, by a drier or by cooling.", "55 %", default=None
    )
    furnishing: tuple[str, ...] | None = key(
        "What lies or stands on the floor: rug, bed, wardrobe, ... of catalogue list furnishings; the floor below each "
        "is held to mould as well.",
        ["rug", "bed"],
        ["built-in"],
        default=None,
    )
    touched_by: tuple[str, ...] | None = key(
        "What may get to the foam: fuel, solvent, hot-bitumen, ... of catalogue list agents; [] where nothing does.",
        ["fuel", "salt"],
        [],
        default=None,
    )
    available_depth: kinds.Extent | None = key(
        "From the top of the finished floor down to the dug ground, or to the top of an old slab that stays.",
        "12 in",
        "300 mm",
        default=None,
    )
    concrete_class: kinds.ConcreteClass | None = key(
        "Strength of the slab's concrete: a cylinder's, or its class.", "4000 psi", "C25/30", default=None
    )
    concrete_method: Literal["allowable-stress", "lrfd", "en-1990"] | None = key(
        "How the slab's concrete is held to its loads: by allowable stress, with factors of ACI 318 (lrfd), or with "
        "those of EN 1990. Foam and ground always feel the loads as they are.",
        "lrfd",
        "en-1990",
        default=None,
    )
    friction: kinds.Friction | None = key(
        "Coefficient of friction below the slab, on its film or foam, as it was tested.", 0.4, default=None
    )
    safety_factor: kinds.SafetyFactor | None = key(
        "By allowable stress: the concrete's strength over the tension that it may have.", 2.0, default=None
    )
    finish: Literal["bare", "sheet", "wood", "tile", "stone", "terrazzo"] | None = key(
        "What the floor is finished with, for how much it may tilt beside a load.", "tile", "bare", default=None
    )
    bay: tuple[Bay, ...] = key("Parts of the floor that lie on something else.", default=())
    rib: tuple[Rib, ...] = key("Strips inside the floor in which the slab is thicker.", default=())
    covered_after: kinds.Time | None = key("How long after the pour the covering is laid.", "90 d", default=None)
    covering_limit: kinds.Humidity | None = key(
        "How humid the air in the slab's pores may be when the covering is laid, as its maker says.",
        "80 %",
        default=None,
    )
    build_up: tuple[Layer, ...] = key(
        "The layers from the room down to the ground, at the middle of the floor.",
        [{"concrete": "4 in"}, {"board": "plain-15", "thickness": "2 in"}, {"gravel": "4 in"}],
    )
