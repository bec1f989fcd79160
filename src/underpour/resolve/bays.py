"""Bays in numbers: parts of the floor that lie on something else, each with all that carries a load there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from ..brief.bays import outline_of_bay
from ..brief.model import Brief
from ..brief.tables.layer import Layer
from ..findings import Basis
from ..measure import System, say
from ..outlines.side import Point
from .resolved import Slice
from .support import Support

ONLY_LOADS = (
    "{} of the floor with a build-up or ground of {} own: loads are answered there as typed. Heat, damp and order of "
    "works are answered for the floor's own build-up everywhere."
)


@dataclass(frozen=True, slots=True)
class ResolvedBay:
    """A part of the floor with what carries it."""

    number: str  # "1", as the brief counts
    path: str  # "floor.bay.1"
    outline: tuple[Point, ...]  # m
    support: Support


def resolved_bays(
    brief: Brief,
    own: Support,
    system: System,
    layered: Callable[[Sequence[Layer], str], Sequence[Slice] | None],
    carried: Callable[[Sequence[Slice]], Support | None],
) -> tuple[ResolvedBay, ...]:
    """Every bay: ``layered`` makes its layers, None where one cannot be read, and ``carried`` what they carry."""
    found = []
    for number, bay in enumerate(brief.floor.bay, start=1):
        path, support = f"floor.bay.{number}", own
        if bay.build_up is not None:
            layers = layered(bay.build_up, f"{path}.build-up")
            made = carried(layers) if layers is not None else None
            if made is None:
                continue
            support = made
        if bay.subgrade_modulus is not None:
            si, at = bay.subgrade_modulus.si, f"{path}.subgrade-modulus"
            words = f"{say.typed(bay.subgrade_modulus, 'MN/m³', system)}, as the brief types it for bay {number}"
            basis = (Basis("the brief", at, "document"),)
            ground = replace(support.ground, modulus=si, low=si, high=si, modulus_path=at, words=words, basis=basis)
            support = replace(support, ground=ground)
        found.append(ResolvedBay(str(number), path, outline_of_bay(bay, brief.plan.unit), support))
    return tuple(found)


def bay_notes(bays: Sequence[ResolvedBay]) -> tuple[str, ...]:
    """What is not answered for bays."""
    if not bays:
        return ()
    return (ONLY_LOADS.format(*(("A part", "its") if len(bays) == 1 else (f"{len(bays)} parts", "their"))),)
