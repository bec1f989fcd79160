"""Bearing: do foam, ground and concrete carry what stands or rolls on them?

Plates and their functions take a tenth of an answer's processor time to load: that is done where a load is.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from .afloat import afloat
from .borne import Around, Borne, Carrier, Layer, Placed, Share, WholeFloor
from .thrust import at_wall_foot
from .walls import below_footing

if TYPE_CHECKING:
    from ...findings import Finding
    from ...resolve import Resolved

__all__ = [
    "Around",
    "Borne",
    "Carrier",
    "Layer",
    "Placed",
    "Share",
    "WholeFloor",
    "afloat",
    "at_wall_foot",
    "below_footing",
    "beside_loads",
    "of_loads",
    "pictured",
    "pictured_together",
]


def of_loads(resolved: Resolved) -> Iterator[Finding]:
    """What every load on the slab does, in the order of the brief."""
    if resolved.loads:
        from . import under_loads

        yield from under_loads.under_loads(resolved)


def beside_loads(resolved: Resolved) -> Iterator[Finding]:
    """What is told beside those findings and has no limit."""
    if resolved.loads:
        from . import under_loads

        yield from under_loads.beside_loads(resolved)


def pictured(resolved: Resolved) -> Iterator[Borne]:
    """Every load on the slab as it is pictured."""
    if resolved.loads:
        from . import shown

        yield from shown.pictured(resolved)


def pictured_together(resolved: Resolved) -> WholeFloor | None:
    """All that stands at places of the plan as it is pictured."""
    if not resolved.loads:
        return None
    from . import shown

    return shown.pictured_together(resolved)
