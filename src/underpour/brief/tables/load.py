"""Loads: what a brief says of each."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, StrictBool

from .. import kinds
from .table import Table, key

Kind = Literal[
    "wall",
    "uniform",
    "line",
    "wheel",
    "axle",
    "vehicle",
    "rack-post",
    "post",
    "tank",
    "lift",
    "heater",
    "animals",
    "before-pour",
]


class Load(Table):
    """What stands or rolls on the floor, or on a footing."""

    kind: Kind | None = key(
        "What it is; `like` says it too. A wall stands on its footing, a line on the slab.",
        "wall",
        "rack-post",
        "axle",
        default=None,
    )
    like: str | None = key(
        "A usual load by its name, for whatever is not typed beside it: underpour catalogue list loads.",
        "forklift-2",
        "lift-two-post",
        default=None,
    )
    at: str | None = key(
        "Where it stands. A wall: the edge, by its letter or name. Anything else: middle, edge, corner, an edge by its "
        "name, or its middle on the plan, x and y. What rolls or is moved: anywhere, and it is held at its worst "
        "place, on joints too.",
        "edge A",
        "middle",
        "anywhere",
        "12 14",
        "edge door side",
        default=None,
    )
    from_: str | None = key("Where a line of load begins on the plan, x and y.", "4 2", default=None)
    to: str | None = key("Where it ends.", "20 2", default=None)
    everywhere: StrictBool | None = key("Whether it lies all over the floor.", True, default=None)
    force: kinds.LoadForce | None = key(
        "What it presses with, unfactored: a whole axle, a whole vehicle, one post. A wall or a line: on each length, "
        "a wall's at the top of its footing, with roof, floors, snow, the wall itself and the earth on the footing.",
        "1500 lb/ft",
        "6500 lb",
        "20 kN/m",
        default=None,
    )
    pressure: kinds.Stress | None = key("What it presses on each area, unfactored.", "125 psf", "6 kPa", default=None)
    plate: kinds.BearingPlate | None = key(
        "What it bears on: length and breadth, a round one's diameter, a line's width.",
        "6 in x 6 in",
        "8 in",
        default=None,
    )
    pad: kinds.BearingPlate | None = key(
        "A thickened pad of the slab below it, on the same foam: length and breadth. Its middle is the load's.",
        "4 ft x 4 ft",
        "1.2 m x 1.2 m",
        default=None,
    )
    pad_thickness: kinds.Extent | None = key(
        "How thick the concrete is there, the slab's own thickness with it.", "10 in", "250 mm", default=None
    )
    sideways: kinds.WholeForce | None = key(
        "What it pushes sideways with, all of it: brakes, wind, an earthquake, as an engineer says.",
        "2000 lb",
        "9 kN",
        default=None,
    )
    anchor_depth: kinds.Extent | None = key(
        "How deep the holes for its anchors are drilled.", "3 in", "80 mm", default=None
    )
    tyre: kinds.Stress | None = key(
        "Pressure of a tyre, or of a solid one's contact, in the place of a plate.", "100 psi", "7 bar", default=None
    )
    factored: kinds.LoadFactor | None = key(
        "What force or pressure is multiplied by already, where a drawing gives nothing else. Foam and ground feel it "
        "without that factor, the concrete with it.",
        1.6,
        default=None,
    )
    wheels: int | None = Field(
        default=None, ge=1, le=16, strict=True, description="How many wheels an axle has.", examples=[2, 4]
    )
    track: kinds.Extent | None = key(
        "From the middle of an axle's left wheels to that of its right ones.", "6 ft", "1.8 m", default=None
    )
    heavier_axle: kinds.Share | None = key(
        "What share of a vehicle's whole weight its heavier axle carries.", "60 %", default=None
    )
    how_long: Literal["standing", "passing"] | None = key(
        "Whether it stands for years or is passing: foam and ground are softer, and bear less, under what stands.",
        "standing",
        "passing",
        default=None,
    )
    count: int | None = Field(
        default=None, ge=1, le=400, strict=True, description="How many of them stand in a row.", examples=[3]
    )
    spacing: kinds.Extent | None = key("From one to the next in that row.", "8 ft", "2.4 m", default=None)
