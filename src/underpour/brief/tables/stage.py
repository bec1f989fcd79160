"""Stages of a building that frost meets: how far it stands, and what may go wrong in it."""

from __future__ import annotations

from typing import Literal

from .. import kinds
from .table import Table, key

What = Literal["poured", "roofed", "heated", "heat-out", "vacant"]


class Stage(Table):
    """From a day of the winter on: a stage of the building works, or a time in which the building is not kept warm."""

    what: What = key(
        "poured: the slab lies open; roofed: closed and not heated; heated: in use. heat-out: no heat for 14 days of "
        "a later winter; vacant: kept at 5 °C (41 °F) from that day on.",
        "poured",
        "roofed",
        "heated",
        "heat-out",
        "vacant",
    )
    from_: kinds.Day = key("The day on which it begins.", "15 October", "1 December")
