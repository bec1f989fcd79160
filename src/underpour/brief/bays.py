"""Bays: parts of the floor that lie on something else, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator

from ..mistakes import Mistake
from ..outlines.floor import Floor
from ..outlines.meeting import meet
from ..outlines.outline import Outline, crossing, repeated, straight
from ..outlines.side import Point, Side
from .corners import read_corner
from .edges import slab_thickness
from .layers import floor_layers
from .loads import THINNEST, on_the_slab
from .parts import Parts, tables_in
from .plans import readable_floor
from .tables.bay import Bay

SAME = 1e-3  # m


def outline_of_bay(bay: Bay, unit: str) -> tuple[Point, ...]:
    """Corners of a bay in which nothing is wrong. [m]"""
    return tuple(read_corner(corner, unit) for corner in bay.outline)


def unclear_bays(parts: Parts) -> Iterator[Mistake]:
    """Bays without an outline, off the floor, over one another, or that are as the floor is."""
    if parts.floor is None or not parts.floor.bay:
        return
    floor = readable_floor(parts.plan) if parts.plan is not None else None
    unit = parts.plan.unit if parts.plan is not None else "m"
    known: list[tuple[int, Outline]] = []
    for number, bay in enumerate(parts.floor.bay, start=1):
        at = f"floor.bay.{number}"
        yield from _built(parts, bay, number, at)
        found: list[Mistake] = []
        outline = _outline(bay, unit, at, found)
        yield from found
        if outline is None or floor is None:
            continue
        yield from _on_the_floor(outline, floor, at)
        over = [n for n, other in known if _overlap(outline, other)]
        if over:
            wrong = f"This bay lies over bay {over[0]}: two different grounds at one place."
            yield Mistake(f"{at}.outline", "", wrong, "Move one of the two, or take it out.")
        known.append((number, outline))
    if not any(True for _ in on_the_slab(parts.loads)):
        wrong = "A bay is there for what stands on the floor, and the brief has no [[load]] on it."
        yield Mistake("floor.bay.1", "", wrong, "Write what stands on the floor, or take the bay out.")


def _built(parts: Parts, bay: Bay, number: int, at: str) -> Iterator[Mistake]:
    if bay.build_up is None and bay.subgrade_modulus is None:
        wrong = "This bay does not say what is different in it."
        yield Mistake(at, "", wrong, 'Write its build-up, or subgrade-modulus = "50 pci".')
    if bay.build_up is not None:
        typed = parts.typed_bays[number - 1].get("build-up")
        yield from floor_layers(tables_in(typed) or (), f"{at}.build-up")
        slab = slab_thickness(bay.build_up)
        if slab is None or slab.si < THINNEST:
            wrong = "This bay has no slab that carries anything."
            yield Mistake(f"{at}.build-up", "", wrong, 'Write the slab as its first layer: { concrete = "5 in" }.')


def _outline(bay: Bay, unit: str, at: str, found: list[Mistake]) -> Outline | None:
    points = []
    for number, corner in enumerate(bay.outline, start=1):
        try:
            points.append(read_corner(corner, unit))
        except Mistake as mistake:
            found.append(Mistake(f"{at}.outline.{number}", f'"{corner}"', mistake.wrong, mistake.instead))
    if len(points) < len(bay.outline):
        return None
    same = repeated(points) if len(points) > 1 else None
    if len(points) < 3 or same is not None:
        found.append(Mistake(f"{at}.outline", "", "These corners enclose nothing.", "Write three or more, in order."))
        return None
    outline = straight(points)
    if crossing(outline) is not None or outline.area < SAME:
        found.append(Mistake(f"{at}.outline", "", "This outline crosses itself.", "Write its corners in order."))
        return None
    return outline


def _on_the_floor(outline: Outline, floor: Floor, at: str) -> Iterator[Mistake]:
    for number, corner in enumerate(outline.corners, start=1):
        off = min(side.distance(corner) for ring in floor.rings for side in ring.sides)
        if not floor.outline.holds(corner) and off > SAME:
            wrong = "This corner lies off the floor."
            yield Mistake(f"{at}.outline.{number}", "", wrong, "x and y count as in the plan's outline.")


def _overlap(one: Outline, other: Outline) -> bool:
    """Whether two outlines have more than a line in common: sides that cross, or a place inside both."""
    for inner, outer in ((one, other), (other, one)):
        x, y = _inside(inner)
        if outer.holds((x, y)) and min(side.distance((x, y)) for side in outer.sides) > SAME:
            return True
        if any(
            outer.holds(corner) and min(side.distance(corner) for side in outer.sides) > SAME
            for corner in inner.corners
        ):
            return True
    return any(meet(a, b) and _cross(a, b) for a in one.sides for b in other.sides)


def _cross(a: Side, b: Side) -> bool:
    """Whether two sides go through one another, ends that touch left out."""
    ends = [(a, b.start), (a, b.end), (b, a.start), (b, a.end)]
    return all(side.distance(point) > SAME for side, point in ends)


def _inside(outline: Outline) -> Point:
    """A place inside: beside the middle of the first side, on the floor's side of it."""
    side = outline.sides[0]
    (x0, y0), (x1, y1) = side.start, side.end
    length = side.length
    turn = 1.0 if outline.turned_area > 0.0 else -1.0
    step = 2.0 * SAME
    return (
        (x0 + x1) / 2.0 - turn * step * (y1 - y0) / length,
        (y0 + y1) / 2.0 + turn * step * (x1 - x0) / length,
    )
