"""Joints in the slab."""

from __future__ import annotations

from typing import Literal

from .. import kinds
from .table import Table, key


class Joint(Table):
    """A joint in the slab, or a grid of them."""

    kind: Literal["control", "construction"] = key(
        "Sawn or formed so that the slab cracks there, or where one pour ends and the next begins.",
        "control",
        "construction",
        default="control",
    )
    from_: str | None = key(
        "Where it begins on the plan, x and y; along x or along y, to an edge or to another joint.",
        "20 0",
        default=None,
    )
    to: str | None = key("Where it ends.", "20 28", default=None)
    spacing: kinds.Extent | None = key(
        "In the place of from and to: joints at most so far apart, all bays alike.", "15 ft", "4.5 m", default=None
    )
    along: Literal["x", "y"] | None = key(
        "With spacing: which way they lie; both ways unless it is said.", "x", "y", default=None
    )
    transfer: Literal["none", "dowels", "keyed", "aggregate"] | None = key(
        "What hands a load on from one side to the other: dowels, a key, the broken faces of a narrow crack, nothing.",
        "dowels",
        "none",
        default=None,
    )
    share: kinds.Share | None = key(
        "How far the unloaded side goes down with the loaded one, as tested or as the maker of the dowels says.",
        "85 %",
        default=None,
    )
