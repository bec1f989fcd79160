"""Ribs of the slab."""

from __future__ import annotations

from typing import Literal

from .. import kinds
from .table import Table, key


class Rib(Table):
    """A strip inside the floor in which the slab is thicker: below a wall, a row of posts."""

    from_: str = key("Where its middle line begins on the plan, x and y; along x or along y.", "0 4", "20 0")
    to: str = key("Where it ends.", "10 4", "20 28")
    width: kinds.Extent = key("How wide its bottom is.", "16 in", "400 mm")
    thickness: kinds.Extent = key(
        "How thick the concrete is there, the slab's own thickness with it.", "12 in", "300 mm"
    )
    lies_on: Literal["foam", "ground"] | None = key(
        "What it lies on, where foam lies below the floor: that foam, led on below it, or the ground, the foam ending "
        "at both its sides.",
        "foam",
        "ground",
        default=None,
    )
