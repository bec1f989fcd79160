"""Parts of the floor that lie on something else."""

from __future__ import annotations

from .. import kinds
from .layer import Layer
from .table import Table, key


class Bay(Table):
    """A part of the floor with a build-up or a ground of its own."""

    outline: tuple[str, ...] = key(
        "Its corners in order, x and y in the plan's unit.", ["0 0", "12 0", "12 10", "0 10"]
    )
    build_up: tuple[Layer, ...] | None = key(
        "Its layers from the room down, where they are not the floor's. Loads are answered on them; heat is not.",
        [{"concrete": "8 in"}, {"board": "plain-40", "thickness": "2 in"}, {"gravel": "4 in"}],
        default=None,
    )
    subgrade_modulus: kinds.SubgradeModulus | None = key(
        "How stiff the ground is below it, where that was tested apart: fill, or a soft spot.", "50 pci", default=None
    )
