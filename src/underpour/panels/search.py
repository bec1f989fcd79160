"""The plan of panels that takes the fewest of them, among directions, places of the rows and starts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import atan2, ceil, degrees
from random import Random

from ..outlines.floor import Floor
from . import bounds
from .assemble import Rows, assembled, near_joints, packed
from .bond import half_bond
from .ground_plan import SAME, GroundPlan, ground_plan
from .layout import Layout, laid
from .panel import Rules
from .rows import rows as strips_of

OFFSETS = 24  # places of the rows in one panel's width that are looked at, beside those at corners
FEW, MANY = 300, 1500  # columns over which the floor's heights are taken
NEAR = 2.0  # panels; places that ask for more than the least and this are not looked at again
KEPT = 8  # of them that are filled
TURNS = 30  # fillings of each, at the most
CUTS = 24_000  # pieces cut in all those fillings, at the most; each place is filled twice whatever that takes


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


@dataclass(frozen=True, slots=True)
class Found:
    """The best plan so far, and how much of the looking is done."""

    done: float  # 0 to 1
    panels: int
    broken: int  # rules that it could not keep: joints too near, pieces too short
    place: Place
    rows: Rows
    starts: tuple[float, ...]
    bounds: Bounds

    def layout(self) -> Layout:
        return laid(self.rows, self.starts, self.place.angle, self.place.offset)


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


def improving(floor: Floor, rules: Rules, angles: Sequence[float] = (), cuts: int = CUTS) -> Iterator[Found]:
    """Better and better plans; whoever asks may stop at any.

    Arguments
    ---------
    floor
        Outline, holes and what stands in the floor. [m]
    rules
        The panel and what a crew keeps to.
    angles
        Directions of the rows; none given: along x, along y and along every straight side. [degrees]
    cuts
        Pieces to cut in trying, at the most: the measure of the work, so that every machine finds the same plan.
    """
    every, least = places(floor, rules, angles or directions(floor))
    reached = least.by_strips if rules.interlock else least.by_area
    chance = Random(1)
    best: Found | None = None
    rows: dict[int, Rows] = {}
    cut, whole = 0, TURNS * min(KEPT, len(every))

    def better(number: int, place: Place, chosen: Sequence[float], done: float) -> Found | None:
        nonlocal best
        panels = packed(rows[number], chosen)[0].opened
        broken = near_joints(rows[number], chosen) + rows[number].short(chosen)
        if best is None or (broken, panels, rows[number].narrow) < (best.broken, best.panels, best.rows.narrow):
            best = Found(done, panels, broken, place, rows[number], tuple(chosen), least)
            return best
        return None

    for turn, (number, place) in product(range(TURNS), enumerate(every[:KEPT])):
        if best and ((best.broken, best.panels, best.rows.narrow) == (0, reached, 0) or (turn > 1 and cut > cuts)):
            break
        if number not in rows:
            rows[number] = Rows(strips_of(place.plan, rules.width, place.offset, rules.length / 2.0), rules)
        share, jitter = (chance.uniform(0.4, 1.0), chance.uniform(0.0, 0.3)) if turn else (0.8, 0.0)
        filling = assembled(rows[number], chance, share, jitter, down=bool(turn % 2))
        cut += filling.cuts
        done = max((turn * min(KEPT, len(every)) + number + 1) / whole, min(cut / cuts, 1.0))
        if found := better(number, place, filling.starts, done):
            yield found
    for number, place in enumerate(corners(every, rules), start=KEPT):
        rows[number] = Rows(strips_of(place.plan, rules.width, place.offset, rules.length / 2.0), rules)
        for from_right in (False, True):
            if found := better(number, place, half_bond(rows[number], from_right), 1.0):
                yield found


def corners(every: Sequence[Place], rules: Rules) -> Iterator[Place]:
    """Of each direction the rows that begin at the lowest place, and those that end at the highest."""
    plans = {place.angle: place.plan for place in every}
    for angle, plan in plans.items():
        for level in (plan.bottom, plan.top):
            yield Place(0.0, angle, level % rules.width, plan)


def fewest_panels(floor: Floor, rules: Rules, angles: Sequence[float] = (), cuts: int = CUTS) -> Found:
    """The last of `improving`.

    >>> from underpour.outlines.outline import straight
    >>> floor = Floor(straight([(0, 0), (12.192, 0), (12.192, 7.3152), (0, 7.3152)]))  # 40 by 24 ft
    >>> fewest_panels(floor, Rules(2.4384, 1.2192, kerf=0.0)).panels
    30
    """
    *_, last = improving(floor, rules, angles, cuts)
    return last
