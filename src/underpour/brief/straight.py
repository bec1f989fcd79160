"""A straight line on the floor, typed by its two ends: what is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..mistakes import Mistake
from ..outlines.floor import Floor
from ..outlines.side import Point
from .corners import read_corner

SAME = 1e-3  # m: nearer than this is the same place


def misplaced(ends: Mapping[str, str | None], at: str, floor: Floor | None, unit: str, what: str) -> Iterator[Mistake]:
    """Ends that cannot be read or lie off the floor, a line without length, one that lies askew.

    Arguments
    ---------
    ends
        The two by their keys, "from" and "to", as typed; None where one is not.
    at
        Where the line stands in the brief: "joint.1".
    floor
        None where the plan itself cannot be read.
    what
        It is called: "joint".
    """
    points = []
    for key, typed in ends.items():
        if typed is None:
            continue
        try:
            point = read_corner(typed, unit)
        except Mistake as mistake:
            yield Mistake(f"{at}.{key}", f'"{typed}"', mistake.wrong, mistake.instead)
            continue
        points.append(point)
        if floor is not None and not on_the_floor(floor, point):
            wrong = f"{typed} does not lie on the floor."
            yield Mistake(f"{at}.{key}", f'"{typed}"', wrong, "x and y count as in the outline.")
    if len(points) < 2:
        return
    (x0, y0), (x1, y1) = points
    last = f'"{ends["to"]}"'
    if abs(x0 - x1) <= SAME and abs(y0 - y1) <= SAME:
        yield Mistake(f"{at}.to", last, f"The {what} ends where it begins.", "Write where it ends.")
    elif abs(x0 - x1) > SAME and abs(y0 - y1) > SAME:
        wrong = f"This {what} lies askew; {what}s are answered along x or along y."
        yield Mistake(f"{at}.to", last, wrong, "Write the two ends with the same x or the same y.")


def on_the_floor(floor: Floor, point: Point) -> bool:
    """Whether a place lies on the floor or at its edge."""
    return floor.holds(point) or min(side.distance(point) for ring in floor.rings for side in ring.sides) <= SAME
