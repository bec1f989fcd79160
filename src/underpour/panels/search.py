"""The plan of panels that takes the fewest of them, among directions, places of the rows and starts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from random import Random

from ..outlines.floor import Floor
from ..outlines.side import Point
from .assemble import Rows, assembled, near_joints, packed
from .bond import PARTS, chained, half_bond, running, running_at, running_from
from .ground_plan import GroundPlan, ground_plan
from .layout import Layout, laid
from .over import Below, over
from .panel import Rules
from .places import Bounds, Place, corners, directions, from_corner, on_pitch, places, rows_at

KEPT = 6  # places that are filled, beside those from the lowest and the highest point of each direction
TURNS = 30  # fillings of each, at the most
MATTERS = 1e-6  # m of joints over joints
CUTS = 24_000  # pieces cut in all those fillings, at the most; each place is filled twice whatever that takes


@dataclass(frozen=True, slots=True)
class Wanted:
    """How a crew is told to lay; what is left out is chosen."""

    angles: tuple[float, ...] = ()  # of the rows, degrees; along x, along y and along every straight side without any
    corner: Point | None = None  # of the outline, m, where it begins
    bond: str = ""  # chain, half, third
    below: Below | None = None  # joints of the layer that it lies on


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
    over: float = 0.0  # m of joints that lie over those of the layer below

    def layout(self) -> Layout:
        begins = self.place.begins
        told = (begins.from_top, begins.from_right) if begins else (False, False)
        return laid(self.rows, self.starts, self.place.angle, self.place.offset, *told)


def _never(_done: float) -> bool:
    return False


def improving(
    floor: Floor,
    rules: Rules,
    wanted: Wanted = Wanted(),
    cuts: int = CUTS,
    enough: Callable[[float], bool] = _never,
) -> Iterator[Found]:
    """Better and better plans; whoever asks may stop at any.

    Arguments
    ---------
    floor
        Outline, holes and what stands in the floor. [m]
    rules
        The panel and what a crew keeps to.
    wanted
        Directions, start corner and offset rule, where they are told.
    cuts
        Pieces to cut in trying, at the most: the measure of the work, so that every machine finds the same plan.
    enough
        Asked before each plan with the share of the looking that is done; where it says so, that was the last. [0 to 1]
    """
    angles = wanted.angles or directions(floor)
    every, least = places(floor, rules, angles)
    plans = {angle: ground_plan(floor, angle) for angle in angles}
    reached = least.by_strips if rules.interlock else least.by_area
    best: Found | None = None
    for done, place, rows, starts in _tried(every, plans, rules, wanted, cuts):
        panels = packed(rows, starts)[0].opened
        broken = near_joints(rows, starts) + rows.short(starts)
        if best is None or (broken, panels) <= (best.broken, best.panels):
            doubled = over(rows, starts, wanted.below) if wanted.below else 0.0
            judged = broken, panels, rows.narrow, doubled
            if best is None or judged < (best.broken, best.panels, best.rows.narrow, best.over - MATTERS):
                best = Found(done, panels, broken, place, rows, tuple(starts), least, doubled)
                yield best
        if enough(done) or (best.broken, best.panels, best.rows.narrow, best.over) == (0, reached, 0, 0.0):
            return


Tried = tuple[float, Place, Rows, Sequence[float]]  # share of the looking that is done, then one plan


def _tried(
    every: Sequence[Place], plans: Mapping[float, GroundPlan], rules: Rules, wanted: Wanted, cuts: int
) -> Iterator[Tried]:
    """Plans of all kinds that are asked for; a crew's half bond of every direction and corner beside those searched."""
    lies = wanted.below
    if wanted.corner:
        likely = from_corner(every, rules, wanted.corner)
    else:
        likely = [*on_pitch(every[:KEPT], rules), *corners({each.angle: each.plan for each in every}, rules)]
    if wanted.bond:
        yield from _bonded(likely, rules, wanted.bond, lies)
        return
    yield from _filled(likely, rules, cuts, lies)
    if not wanted.corner:
        for place in corners(plans, rules):
            rows = rows_at(place, rules, lies)
            for from_right in (False, True):
                yield 1.0, place, rows, half_bond(rows, from_right)


def _filled(likely: Sequence[Place], rules: Rules, cuts: int, lies: Below | None) -> Iterator[Tried]:
    """Rows filled one after another, each place again and again by seeded chance."""
    chance = Random(1)
    rows: dict[int, Rows] = {}
    cut, whole = 0, TURNS * len(likely)
    for turn, (number, place) in product(range(TURNS), enumerate(likely)):
        if turn > 1 and cut > cuts:
            return
        if number not in rows:
            rows[number] = rows_at(place, rules, lies)
        share, jitter = (chance.uniform(0.4, 1.0), chance.uniform(0.0, 0.3)) if turn else (0.8, 0.0)
        filling = assembled(rows[number], chance, share, jitter, down=bool(turn % 2))
        cut += filling.cuts
        done = max((turn * len(likely) + number + 1) / whole, min(cut / cuts, 1.0))
        yield done, place, rows[number], filling.starts


def _bonded(likely: Sequence[Place], rules: Rules, bond: str, lies: Below | None) -> Iterator[Tried]:
    """The same offset rule at each place; from a told corner as it comes, elsewhere only where that is no good."""
    for number, place in enumerate(likely, start=1):
        rows, begins = rows_at(place, rules, lies), place.begins
        done = number / len(likely)
        if bond == "chain":
            ways = [(begins.from_right, begins.from_top)] if begins else list(product((False, True), repeat=2))
            for way in ways:
                yield done, place, rows, chained(rows, *way)
            continue
        parts = PARTS[bond]
        if rows.pinned:
            starts = running(rows, parts, running_from(rows, parts))
            yield done, place, rows, starts
            if not rows.short(starts):
                continue
        for at in running_at(rows, parts):
            yield done, place, rows, running(rows, parts, at)


def fewest_panels(floor: Floor, rules: Rules, angles: Sequence[float] = (), cuts: int = CUTS) -> Found:
    """The last of `improving`.

    >>> from underpour.outlines.outline import straight
    >>> floor = Floor(straight([(0, 0), (12.192, 0), (12.192, 7.3152), (0, 7.3152)]))  # 40 by 24 ft
    >>> fewest_panels(floor, Rules(2.4384, 1.2192, kerf=0.0)).panels
    30
    """
    *_, last = improving(floor, rules, Wanted(tuple(angles)), cuts)
    return last
