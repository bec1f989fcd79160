"""The tube in a heated slab, its water and what the floor is to give."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from .. import kinds
from .table import Table, key


class Tube(Table):
    """Tube in a heated slab: how it lies, what fills it, and the heat that the room wants of the floor."""

    heat: Literal["water", "electric"] | None = key(
        "What warms the floor: water in tubes, or electric cables.", "water", "electric", default=None
    )
    size: str | None = key("The tube's nominal size; of electric cable its diameter.", "1/2 in", "16 mm", default=None)
    spacing: kinds.Thickness | None = key("From one tube to the next.", "9 in", "200 mm", default=None)
    depth_from_top: kinds.Thickness | None = key(
        "From the top of the slab to the top of the tube: what may be drilled into.", "2 in", "60 mm", default=None
    )
    fluid: str | None = key(
        "The fluid in it; glycol by its share of the mass.", "water", "propylene-glycol-30", default=None
    )
    load: kinds.HeatFlux | None = key(
        "Heat that the room wants of each square metre of floor on its coldest day.",
        "12 Btu/h·ft²",
        "40 W/m²",
        default=None,
    )
    drop: kinds.Drop | None = key("How much cooler the water comes back, on that day.", "10 F", "5 K", default=None)
    leader: kinds.Extent | None = key(
        "From the manifold to where a loop begins, one way, on the mean.", "10 ft", "3 m", default=None
    )
    loop_limit: kinds.LoopLength | None = key(
        "The longest that a loop may be, leaders counted.", "300 ft", "90 m", default=None
    )
    loops: int | None = Field(
        default=None,
        ge=1,
        le=200,
        strict=True,
        description="How many loops it is laid in; unless typed as many as keep each below its limit.",
        examples=[4],
    )
    warm_within: kinds.Time | None = key(
        "How soon, from ten degrees cooler, the floor shall give nine tenths of its load.", "6 h", default=None
    )
    loop_lengths: tuple[kinds.LoopLength, ...] | None = key(
        "Each loop's length as laid, leaders counted; then what each gets of the water is told.",
        ["268 ft", "272 ft", "255 ft"],
        ["82 m", "70 m"],
        default=None,
    )
    coil: kinds.LoopLength | None = key(
        "How long the coils are that the tube is bought in; unless typed those of the usual ones that leave least.",
        "300 ft",
        "120 m",
        default=None,
    )
    ties: kinds.Extent | None = key(
        "From one tie, staple or clip to the next along the tube.", "2 ft", "600 mm", default=None
    )
    source: Literal["boiler", "heat-pump"] | None = key("What heats the water.", "boiler", "heat-pump", default=None)
    panel: str | None = key(
        "A panel whose knobs hold the tube; its solid foam stands in the build-up, right below what the tube lies in.",
        "knob-15",
        default=None,
    )
    edge_spacing: kinds.Thickness | None = key(
        "From one tube to the next in the strip along outer walls, where they lie closer.",
        "6 in",
        "100 mm",
        default=None,
    )
    covered: kinds.Share | None = key(
        "How much of the floor the furnishing covers; unless typed what is usual of each thing is counted once.",
        "20 %",
        default=None,
    )
    coldest: kinds.Temperature | None = key(
        "The coldest that what is in the tubes may get: in a building left without heat, or on its way outdoors.",
        "-10 F",
        "-20 C",
        default=None,
    )
    heat_after: kinds.Time | None = key("From the pour until the first heat.", "28 d", default=None)
    rest: kinds.Time | None = key(
        "How long the heat rests at a time: a night, a week-end; then the way back is told.", "8 h", "2 d", default=None
    )
    set_back: kinds.Drop | None = key("How far the room falls meanwhile.", "5 F", "3 K", default=None)
    back_within: kinds.Time | None = key(
        "How soon after a rest the floor shall give nine tenths of its load again.", "3 h", default=None
    )
