"""Loads: what a brief says of each."""

from __future__ import annotations

from typing import Literal

from .. import kinds
from .table import Table, key


class Load(Table):
    """What stands on the floor or its footing."""

    kind: Literal["wall"] = key("What it is.", "wall")
    at: str = key("The edge it stands at, by its letter or name.", "edge A", "edge door side")
    force: kinds.LineForce = key(
        "What a wall brings to the top of its footing on each length: roof, floors, snow, the wall itself and the "
        "earth on the footing, unfactored.",
        "1500 lb/ft",
        "20 kN/m",
    )
