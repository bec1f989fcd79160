"""Ribs in numbers: strips in which the slab is thicker, each with what carries it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..brief.model import Brief
from ..brief.ribs import ends_of_rib
from ..measure import System, say
from ..outlines.side import Point
from .support import Support

ONLY_LOADS = (
    "{} in the slab: loads are answered with the concrete as typed there. Heat, damp and the order of works are "
    "answered for the floor's own build-up everywhere."
)


@dataclass(frozen=True, slots=True)
class ResolvedRib:
    """A strip of thicker slab."""

    number: str  # "1", as the brief counts
    path: str  # "floor.rib.1"
    outline: tuple[Point, ...]  # m
    thickness: float  # m, of all the concrete there
    words: str  # "16 in wide, 12 in thick, on foam"
    support: Support


def resolved_ribs(brief: Brief, own: Support, system: System) -> tuple[ResolvedRib, ...]:
    """Every rib."""
    found = []
    for number, rib in enumerate(brief.floor.rib, start=1):
        path = f"floor.rib.{number}"
        (x0, y0), (x1, y1) = ends_of_rib(rib, brief.plan.unit)
        half = rib.width.si / 2.0
        upright = abs(x0 - x1) < abs(y0 - y1)
        dx, dy = (half, 0.0) if upright else (0.0, half)
        low, high = sorted(((x0, y0), (x1, y1)))
        outline = (
            (low[0] - dx, low[1] - dy),
            (high[0] + (-dx if upright else dx), high[1] - dy),
            (high[0] + dx, high[1] + dy),
            (low[0] + (dx if upright else -dx), low[1] + dy),
        )
        words = f"{say.typed(rib.width, 'm', system)} wide, {say.typed(rib.thickness, 'm', system)} thick"
        bare = replace(own, boards=(), loose=0.0, whole_weight=own.own_weight)
        on = {"ground": ", on the ground", "foam": ", on foam", None: ""}[rib.lies_on]
        support = bare if rib.lies_on == "ground" else own
        found.append(ResolvedRib(str(number), path, outline, rib.thickness.si, f"{words}{on}", support))
    return tuple(found)


def rib_notes(ribs: tuple[ResolvedRib, ...]) -> tuple[str, ...]:
    """What is not answered for ribs."""
    if not ribs:
        return ()
    return (ONLY_LOADS.format("A rib" if len(ribs) == 1 else f"{len(ribs)} ribs"),)
