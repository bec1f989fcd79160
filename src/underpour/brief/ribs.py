"""Ribs: strips in which the slab is thicker, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator

from ..mistakes import Mistake
from ..outlines.side import Point
from .corners import read_corner
from .edges import slab_thickness
from .loads import on_the_slab
from .parts import Parts
from .plans import readable_floor
from .straight import misplaced
from .tables.rib import Rib


def ends_of_rib(rib: Rib, unit: str) -> tuple[Point, Point]:
    """Where the middle line of a rib begins and ends, in which nothing is wrong. [m]"""
    return read_corner(rib.from_, unit), read_corner(rib.to, unit)


def unclear_ribs(parts: Parts) -> Iterator[Mistake]:
    """Ribs off the floor, without length, askew, or no thicker than the slab."""
    if parts.floor is None or not parts.floor.rib:
        return
    floor = readable_floor(parts.plan) if parts.plan is not None else None
    unit = parts.plan.unit if parts.plan is not None else "m"
    for number, rib in enumerate(parts.floor.rib, start=1):
        at = f"floor.rib.{number}"
        yield from misplaced({"from": rib.from_, "to": rib.to}, at, floor, unit, "rib")
        yield from _thick(rib, at, parts)
    if not any(True for _ in on_the_slab(parts.loads)):
        wrong = "A rib is there for what stands on the floor, and the brief has no [[load]] on it."
        yield Mistake("floor.rib.1", "", wrong, "Write what stands on the floor, or take the rib out.")


def _thick(rib: Rib, at: str, parts: Parts) -> Iterator[Mistake]:
    slab = slab_thickness(parts.layers)
    if slab is not None and rib.thickness.si <= slab.si:
        wrong = f"{rib.thickness.typed} is no thicker than the slab of {slab.typed}."
        instead = "Write how thick the concrete is there in all, or take the rib out."
        yield Mistake(f"{at}.thickness", f'"{rib.thickness.typed}"', wrong, instead)
    foam = any(layer is not None and layer.board is not None for layer in parts.layers)
    if rib.lies_on is not None and not foam:
        wrong = f"lies-on says {rib.lies_on}, and no foam lies below this floor."
        yield Mistake(f"{at}.lies-on", f'"{rib.lies_on}"', wrong, "Take lies-on out.")
    if rib.lies_on is None and foam:
        wrong = "This rib does not say whether the foam is led on below it."
        yield Mistake(
            f"{at}.lies-on", "", wrong, 'Write lies-on = "foam", or "ground" where the foam ends at its sides.'
        )
