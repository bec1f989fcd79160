"""Where rows may lie: directions and offsets, what each asks for at the least, and where a crew begins."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import atan2, ceil, degrees

from ..outlines.floor import Floor
from ..outlines.side import Point
from . import bounds
from .assemble import Rows
from .ground_plan import SAME, GroundPlan, ground_plan, turned
from .over import Below
from .panel import Rules
from .rows import Strip
from .rows import rows as strips_of

OFFSETS = 24  # places of the rows in one panel's width that are looked at, beside those at corners
FEW, MANY = 300, 1500  # columns over which the floor's heights are taken
NEAR = 2.0  # panels; places that ask for more than the least and this are not looked at again


@dataclass(frozen=True, slots=True)
class Bounds:
    """Panels that no plan in rows can do with fewer of; ``by_rows`` and ``by_strips`` for the directions looked at."""

    by_area: int
    by_rows: int  # each strip by its length, one lower than a panel by its height
    by_strips: int  # a panel gives at most two strips of edge rows


@dataclass(frozen=True, slots=True)
class Place:
    """A direction and an offset of the rows, with what they ask at the least."""

    demand: float  # panels
    angle: float  # degrees
    offset: float  # m
    plan: GroundPlan
    phase: float = 0.0  # m, where along the rows a line of the pitch lies
    begins: Begins | None = None


@dataclass(frozen=True, slots=True)
class Begins:
    """Where a crew begins that was told the corner."""

    at: Point  # turned, m
    from_top: bool
    from_right: bool


def directions(floor: Floor) -> list[float]:
    """Along x, along y and along every straight side, each once. [degrees, 0 to 180]

    >>> from underpour.outlines.outline import straight
    >>> directions(Floor(straight([(0, 0), (4, 0), (4, 4)])))
    [0.0, 90.0, 45.0]
    """
    found = [0.0, 90.0]
    for ring in floor.rings:
        for side in ring.sides:
            if not side.bulge:
                angle = degrees(atan2(side.end[1] - side.start[1], side.end[0] - side.start[0])) % 180.0
                if all(min(abs(angle - other), 180.0 - abs(angle - other)) > 0.01 for other in found):
                    found.append(angle)
    return found


def places(floor: Floor, rules: Rules, angles: Sequence[float]) -> tuple[list[Place], Bounds]:
    """Every direction with every offset, the least demanding first, and the bounds that they give.

    All of them are counted over few columns, those that may be the least or may be filled over many.
    """
    plans = [(angle, ground_plan(floor, angle)) for angle in angles]
    few = {angle: bounds.heights(plan, FEW) for angle, plan in plans}
    many = {angle: bounds.heights(plan, MANY) for angle, plan in plans}
    rough = [
        (bounds.demand(few[angle], plan, rules, offset), angle, plan, offset)
        for angle, plan in plans
        for offset in _offsets(plan, rules.width)
    ]
    near = min(each[0].by_rows for each in rough) + NEAR, min(each[0].by_strips for each in rough) + NEAR
    found = []
    for told, angle, plan, offset in rough:
        if told.by_rows <= near[0] or told.by_strips <= near[1]:
            sure = bounds.demand(many[angle], plan, rules, offset)
            found.append((sure, Place(sure.by_strips if rules.interlock else sure.by_rows, angle, offset, plan)))
    by_area = ceil(plans[0][1].area / rules.area - SAME)
    by_rows = bounds.fewest(min(sure.by_rows for sure, _ in found))
    by_strips = bounds.fewest(min(sure.by_strips for sure, _ in found))
    least = Bounds(by_area, max(by_area, by_rows), max(by_area, by_strips))
    return sorted((place for _, place in found), key=lambda each: each.demand), least


def _offsets(plan: GroundPlan, width: float) -> list[float]:
    at_corners = {round(level % width, 9) for level in plan.levels}
    even = {round((plan.bottom + width * part / OFFSETS) % width, 9) for part in range(OFFSETS)}
    return sorted(at_corners | even)


def corners(plans: Mapping[float, GroundPlan], rules: Rules) -> Iterator[Place]:
    """Of each direction the rows that begin at the lowest place, and those that end at the highest."""
    for angle, plan in plans.items():
        for level in (plan.bottom, plan.top):
            yield Place(0.0, angle, level % rules.width, plan, plan.columns[0].x0)


def on_pitch(every: Sequence[Place], rules: Rules) -> list[Place]:
    """Places with their knobs counted in turn from the floor's left end and from its right one; as they are without."""
    if not rules.pitch:
        return list(every)
    ends = [(place.plan.columns[0].x0, place.plan.columns[-1].x1) for place in every]
    return [
        replace(place, phase=round(both[number % 2] % rules.pitch, 9))
        for number, (place, both) in enumerate(zip(every, ends, strict=True))
    ]


def from_corner(every: Sequence[Place], rules: Rules, corner: Point) -> list[Place]:
    """Of each direction the rows of which one begins at a corner of the outline, full width along it."""
    plans = {place.angle: place.plan for place in every}
    found = []
    for angle, plan in plans.items():
        x, y = turned(corner, angle)
        strips = _strips(plan, rules, y % rules.width)
        number, from_right = beginning(strips, (x, y))
        strip = strips[number]
        from_top = abs(strip.high - y) < abs(strip.low - y)
        found.append(Place(0.0, angle, y % rules.width, plan, x, Begins((x, y), from_top, from_right)))
    return found


def beginning(strips: Sequence[Strip], at: Point) -> tuple[int, bool]:
    """The strip that begins at a corner, by its place in the list, and whether it does so at its right end."""

    def far(number: int) -> tuple[float, float, int]:
        strip = strips[number]
        across = min(abs(strip.low - at[1]), abs(strip.high - at[1]))
        return round(across, 6), round(min(abs(strip.x0 - at[0]), abs(strip.x1 - at[0])), 6), strip.row

    number = min(range(len(strips)), key=far)
    return number, abs(strips[number].x1 - at[0]) < abs(strips[number].x0 - at[0])


def rows_at(place: Place, rules: Rules, lies: Below | None = None) -> Rows:
    """The rows of a place, a whole panel in the corner where the crew begins, joints off those of the layer below."""
    strips = _strips(place.plan, rules, place.offset)
    told = (lies.lines, lies.near) if lies else ((), 0.0)
    return Rows([strips], rules, place.phase, _pinned(strips, place, rules), *told)


def _strips(plan: GroundPlan, rules: Rules, offset: float) -> list[Strip]:
    return [strip for row in strips_of(plan, rules.width, offset, rules.length / 2.0) for strip in row]


def _pinned(strips: Sequence[Strip], place: Place, rules: Rules) -> Mapping[int, float]:
    """The start that lays a whole panel in the corner; none where the other end of that row would be too short."""
    if place.begins is None:
        return {}
    number, _ = beginning(strips, place.begins.at)
    length, whole = strips[number].length, rules.length
    rest = length % whole
    if length <= whole + SAME or (SAME < rest < rules.least - SAME):
        return {}
    return {number: rest if place.begins.from_right and rest > SAME else whole}
