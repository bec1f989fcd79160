"""Ribs: strips in which the slab is thicker, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator

from ..mistakes import Mistake
from ..outlines.floor import Floor
from ..outlines.side import Point
from .corners import read_corner
from .edges import slab_thickness
from .loads import on_the_slab
from .parts import Parts
from .plans import readable_floor
from .tables.rib import Rib

SAME = 1e-3  # m


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
        yield from _lies(rib, at, floor, unit)
        yield from _thick(rib, at, parts)
    if not any(True for _ in on_the_slab(parts.loads)):
        wrong = "A rib is there for what stands on the floor, and the brief has no [[load]] on it."
        yield Mistake("floor.rib.1", "", wrong, "Write what stands on the floor, or take the rib out.")


def _lies(rib: Rib, at: str, floor: Floor | None, unit: str) -> Iterator[Mistake]:
    points = []
    for key, typed in (("from", rib.from_), ("to", rib.to)):
        try:
            point = read_corner(typed, unit)
        except Mistake as mistake:
            yield Mistake(f"{at}.{key}", f'"{typed}"', mistake.wrong, mistake.instead)
            continue
        points.append(point)
        if floor is not None and not floor.holds(point) and _off(floor, point) > SAME:
            wrong = f"{typed} does not lie on the floor."
            yield Mistake(f"{at}.{key}", f'"{typed}"', wrong, "x and y count as in the outline.")
    if len(points) < 2:
        return
    (x0, y0), (x1, y1) = points
    if abs(x0 - x1) <= SAME and abs(y0 - y1) <= SAME:
        yield Mistake(f"{at}.to", f'"{rib.to}"', "The rib ends where it begins.", "Write where it ends.")
    elif abs(x0 - x1) > SAME and abs(y0 - y1) > SAME:
        wrong = "This rib lies askew; ribs are answered along x or along y."
        yield Mistake(f"{at}.to", f'"{rib.to}"', wrong, "Write the two ends with the same x or the same y.")


def _off(floor: Floor, point: Point) -> float:
    return min(side.distance(point) for ring in floor.rings for side in ring.sides)


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
