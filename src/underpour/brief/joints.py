"""Joints in the slab: where each lies on the plan, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, inf

from ..mistakes import Mistake
from ..outlines.floor import Floor
from ..outlines.side import Point
from .corners import read_corner
from .parts import Parts
from .plans import readable_floor
from .straight import SAME, misplaced
from .tables.joint import Joint

CLOSEST = 0.5  # m: joints nearer to one another are a mistyped unit
Line = tuple[str, float, float, float]  # "x" where x is constant; there, from, to; m


def lines_of_joint(joint: Joint, floor: Floor, unit: str) -> tuple[Line, ...]:
    """Every line of a joint in which nothing is wrong, a grid's too."""
    if joint.from_ is not None and joint.to is not None:
        return (_line(read_corner(joint.from_, unit), read_corner(joint.to, unit)),)
    assert joint.spacing is not None
    found: list[Line] = []
    for across, low, high in _extent(floor):
        if joint.along == across:
            continue  # those across x run along y
        bays = max(ceil((high - low) / joint.spacing.si - SAME), 1)
        found += [(across, low + (high - low) * n / bays, -inf, inf) for n in range(1, bays)]
    return tuple(found)


def _extent(floor: Floor) -> Iterator[tuple[str, float, float]]:
    corners = [corner for side in floor.outline.sides for corner in (side.start, side.at(side.length / 2.0))]
    for axis, across in enumerate("xy"):
        places = [corner[axis] for corner in corners]
        yield across, min(places), max(places)


def _line(start: Point, end: Point) -> Line:
    across = 0 if abs(start[0] - end[0]) <= SAME else 1
    low, high = sorted((start[1 - across], end[1 - across]))
    return "xy"[across], (start[across] + end[across]) / 2.0, low, high


def unclear_joints(parts: Parts) -> Iterator[Mistake]:
    """What is wrong with the joints that could be read."""
    floor = readable_floor(parts.plan) if parts.plan is not None else None
    unit = parts.plan.unit if parts.plan is not None else "m"
    known: list[Line] = []
    for number, joint in enumerate(parts.joints, start=1):
        if joint is None:
            continue
        at = f"joint.{number}"
        told = [*_told(joint, at), *_transfer(joint, at)]
        yield from told
        if told or floor is None:
            continue
        wrong = list(misplaced({"from": joint.from_, "to": joint.to}, at, floor, unit, "joint"))
        yield from wrong
        if not wrong:
            lines = lines_of_joint(joint, floor, unit)
            yield from _twice(lines, known, at)
            known += lines
    if floor is not None:
        yield from _hanging(parts.joints, known, floor, unit)


def _told(joint: Joint, at: str) -> Iterator[Mistake]:
    """A joint that does not say where it lies, or says it twice."""
    line = joint.from_ is not None or joint.to is not None
    if not line and joint.spacing is None:
        wrong, instead = "A joint needs its place.", 'Write from = "20 0" and to = "20 28", or spacing = "15 ft".'
        yield Mistake(f"{at}.from", "", wrong, instead)
    elif line and joint.spacing is not None:
        yield Mistake(f"{at}.spacing", "", "from and to say where it lies.", "Take spacing out.")
    elif line and (joint.from_ is None or joint.to is None):
        one, other = ("from", "to") if joint.to is None else ("to", "from")
        yield Mistake(f"{at}.{one}", "", f"The joint says {one} and not {other}.", f'Write {other} = "20 28" as well.')
    if line and joint.along is not None:
        yield Mistake(f"{at}.along", "", "from and to say which way it lies.", "Take along out.")
    if joint.spacing is not None and joint.spacing.si < CLOSEST:
        wrong = f"Joints {joint.spacing.typed} apart cut a slab to pieces."
        yield Mistake(f"{at}.spacing", f'"{joint.spacing.typed}"', wrong, "Usual are 10 to 18 ft (3 to 5.5 m).")


def _transfer(joint: Joint, at: str) -> Iterator[Mistake]:
    if joint.share is None:
        return
    if joint.transfer in (None, "none"):
        wrong = "A share is told, and not what hands it on."
        yield Mistake(f"{at}.share", f'"{joint.share.typed}"', wrong, 'Write transfer = "dowels", or take share out.')
    elif not 0.0 < joint.share.si < 1.0:
        wrong = f"No joint hands on {joint.share.typed}."
        yield Mistake(f"{at}.share", f'"{joint.share.typed}"', wrong, "Dowels hand on 70 to 95 %.")


def _twice(lines: Sequence[Line], known: Sequence[Line], at: str) -> Iterator[Mistake]:
    for across, there, start, end in lines:
        for other, place, low, high in known:
            if across == other and abs(there - place) <= SAME and min(end, high) - max(start, low) > SAME:
                wrong = "Another joint lies along this line already."
                yield Mistake(at, "", wrong, "Keep one of the two; a grid and a joint in it are told by from and to.")
                return


def _hanging(joints: Sequence[Joint | None], known: Sequence[Line], floor: Floor, unit: str) -> Iterator[Mistake]:
    """A joint that ends in the middle of the slab."""
    for number, joint in enumerate(joints, start=1):
        if joint is None or joint.from_ is None or joint.to is None:
            continue
        for key, typed in (("from", joint.from_), ("to", joint.to)):
            try:
                point = read_corner(typed, unit)
            except Mistake:
                continue
            if floor.holds(point) and not _at_edge(floor, point) and not _at_joint(joint, point, known, unit):
                wrong = "This joint ends in the middle of the slab, and a crack goes on from there."
                yield Mistake(f"joint.{number}.{key}", f'"{typed}"', wrong, "Lead it on to an edge or another joint.")


def _at_edge(floor: Floor, point: Point) -> bool:
    outlines = [*floor.rings, *(obstacle.outline for obstacle in floor.obstacles)]
    return min(side.distance(point) for ring in outlines for side in ring.sides) < SAME


def _at_joint(joint: Joint, point: Point, known: Sequence[Line], unit: str) -> bool:
    assert joint.from_ is not None and joint.to is not None
    try:
        own = _line(read_corner(joint.from_, unit), read_corner(joint.to, unit))
    except Mistake:
        return True
    for across, there, low, high in known:
        axis = "xy".index(across)
        crosses = across != own[0] and abs(point[axis] - there) <= SAME
        if crosses and low - SAME <= point[1 - axis] <= high + SAME:
            return True
        if (
            (across, there) == own[:2]
            and (low, high) != own[2:]
            and min(abs(point[1 - axis] - low), abs(point[1 - axis] - high)) <= SAME
        ):
            return True  # it goes on as another joint
    return False
