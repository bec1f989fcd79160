"""Soil gas as typed: where it is drawn off, what stands in the way, and what no pipe and no fan may do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from math import dist

from .. import catalogue
from ..mistakes import Mistake
from ..outlines.floor import Floor, Obstacle
from ..outlines.side import Point
from .corners import read_corner
from .parts import Parts
from .plans import length_words, readable_floor
from .tables.soil_gas import Communication, Fan, GasFooting, GasPipe, SoilGas, Suction

SAME = 1e-3  # m: nearer than this is the same place
USUAL_FOOTING = 0.5  # m: width of a footing that does not say it, as resolving takes it
LIVED_IN = ("living-space", "basement", "crawl-space")  # what leaks out of the pipe beyond the fan is breathed there


def unclear_soil_gas(parts: Parts) -> Iterator[Mistake]:
    """What is wrong with the soil-gas part of a brief, as far as it could be read."""
    gas = parts.soil_gas
    if gas is None:
        return
    if _under_the_sky(parts):
        wrong = "No room lies over this slab, so nobody breathes what comes through it."
        yield Mistake("soil-gas", "", wrong, "Take [soil-gas] out, or write the use of the room, such as garage.")
        return
    yield from _fan_where_none_is(gas)
    if gas.fan is not None:
        yield from _fan(gas.fan)
    if gas.pipe is not None:
        yield from _pipe(gas.pipe)
    if gas.house_vacuum is not None and gas.house_vacuum.si > 50.0:
        wrong = f"No house stands {gas.house_vacuum.typed} below the ground's pressure."
        instead = "Usual are 2 to 10 Pa at its worst."
        yield Mistake("soil-gas.house-vacuum", f'"{gas.house_vacuum.typed}"', wrong, instead)
    if gas.gap is not None and gas.gap.si > 0.05:
        wrong = f"A joint {gas.gap.typed} wide is a trench along the wall."
        yield Mistake("soil-gas.gap", f'"{gas.gap.typed}"', wrong, "Shrinkage opens 0.2 to 3 mm.")
    floor = readable_floor(parts.plan) if parts.plan is not None else None
    if floor is None or parts.plan is None:
        return
    unit = parts.plan.unit
    footings = []
    for number, footing in enumerate(gas.footing, start=1):
        found = list(_footing(footing, f"soil-gas.footing.{number}", floor, unit))
        yield from found
        footings += [] if found else [(number, footing)]
    yield from _suctions(gas.suction, footings, floor, unit)
    yield from _route(gas.pipe, gas.suction, floor, unit)
    if gas.communication is not None:
        yield from _communication(gas.communication, floor, unit)


def point_of(typed: str, unit: str) -> Point:
    """A place on the plan that could be read. [m]"""
    return read_corner(typed, unit)


def width_of(footing: GasFooting) -> float:
    """How wide a footing inside the floor is, a usual one where it does not say. [m]"""
    return footing.width.si if footing.width is not None else USUAL_FOOTING


def _under_the_sky(parts: Parts) -> bool:
    try:
        return parts.project is not None and catalogue.use(parts.project.use).room is None
    except Mistake:
        return False


def _fan_where_none_is(gas: SoilGas) -> Iterator[Mistake]:
    if gas.fan is None or gas.system in (None, "fan"):
        return
    told = {"none": "nothing is laid", "rough-in": "the pipe is capped", "passive": "the pipe draws by itself"}
    assert gas.system is not None
    wrong = f"A fan is told, and system says that {told[gas.system]}."
    yield Mistake("soil-gas.fan", "", wrong, 'Write system = "fan", or take [soil-gas.fan] out.')


def _fan(fan: Fan) -> Iterator[Mistake]:
    """A fan that blows soil gas into rooms, and a curve that no fan has."""
    if fan.at in LIVED_IN:
        wrong = "All pipe beyond the fan is under pressure: what leaks out of it there is breathed."
        instead = 'Set it outside whatever is lived in: at = "attic", "garage" or "outdoors".'
        yield Mistake("soil-gas.fan.at", f'"{fan.at}"', wrong, instead)
    if len(fan.curve) == 1:
        wrong = "One point is no curve."
        yield Mistake("soil-gas.fan.curve", "", wrong, "Write two points or more, the first without flow.")
    for number, (one, other) in enumerate(pairwise(fan.curve), start=2):
        at = f"soil-gas.fan.curve.{number}"
        if other.flow.si <= one.flow.si:
            wrong = f"{other.flow.typed} comes after {one.flow.typed}, and is no more."
            yield Mistake(f"{at}.flow", f'"{other.flow.typed}"', wrong, "Write the points by rising flow.")
        elif other.vacuum.si > one.vacuum.si:
            wrong = f"This curve rises from {one.vacuum.typed} to {other.vacuum.typed}, where a fan moves more air."
            instead = "A fan pulls less the more it moves: look whether flow and vacuum are the right way round."
            yield Mistake(f"{at}.vacuum", f'"{other.vacuum.typed}"', wrong, instead)


def _pipe(pipe: GasPipe) -> Iterator[Mistake]:
    if pipe.falls in ("to-outlet", "level"):
        which = "does not fall" if pipe.falls == "level" else "falls away from the suction point"
        wrong = f"A pipe that {which} keeps the water that condenses in it, and the water closes it."
        instead = 'Let each level stretch fall back to the ground, 1/8 in each foot (1 %): falls = "to-suction".'
        yield Mistake("soil-gas.pipe.falls", f'"{pipe.falls}"', wrong, instead)
    if pipe.slope is not None and pipe.slope.si <= 0.0:
        wrong = f"Stretches that fall by {pipe.slope.typed} lie level: water that condenses stands in them."
        instead = 'Write slope = "1 %", 1/8 in in each foot, and falls = "to-suction".'
        yield Mistake("soil-gas.pipe.slope", f'"{pipe.slope.typed}"', wrong, instead)
    if pipe.size is not None and not 0.03 <= pipe.size.si <= 0.25:
        wrong = f"Pipes for soil gas are not {pipe.size.typed} wide."
        yield Mistake("soil-gas.pipe.size", f'"{pipe.size.typed}"', wrong, "Usual are 3 in and 4 in (75 and 100 mm).")
    if pipe.route and pipe.length is not None:
        wrong = "route and length both say how long the pipe is."
        yield Mistake("soil-gas.pipe.length", f'"{pipe.length.typed}"', wrong, "Take length out; rise comes on top.")


def _read(typed: str, at: str, unit: str) -> Point | Mistake:
    try:
        return point_of(typed, unit)
    except Mistake as mistake:
        return Mistake(at, f'"{typed}"', mistake.wrong, mistake.instead)


def _on_the_floor(typed: str, at: str, what: str, floor: Floor, unit: str) -> Point | Mistake:
    """A place on the floor, its edge counted as floor."""
    point = _read(typed, at, unit)
    if isinstance(point, Mistake) or floor.holds(point) or _from_edge(floor, point) < SAME:
        return point
    wrong = f"{typed} does not lie on the floor, and {what} does."
    return Mistake(at, f'"{typed}"', wrong, "x and y count as in the outline.")


def _from_edge(floor: Floor, point: Point) -> float:
    return min(side.distance(point) for ring in floor.rings for side in ring.sides)


def _footing(footing: GasFooting, at: str, floor: Floor, unit: str) -> Iterator[Mistake]:
    """A footing that lies askew, has no length or lies off the floor; a crossing that is not in it."""
    ends = []
    for key, typed in (("from", footing.from_), ("to", footing.to)):
        point = _on_the_floor(typed, f"{at}.{key}", "a footing inside it", floor, unit)
        if isinstance(point, Mistake):
            yield point
        else:
            ends.append(point)
    if len(ends) < 2:
        return
    (x0, y0), (x1, y1) = ends
    if abs(x0 - x1) <= SAME and abs(y0 - y1) <= SAME:
        yield Mistake(f"{at}.to", f'"{footing.to}"', "The footing ends where it begins.", "Write where it ends.")
        return
    if abs(x0 - x1) > SAME and abs(y0 - y1) > SAME:
        wrong = "This footing lies askew; footings are answered along x or along y."
        yield Mistake(f"{at}.to", f'"{footing.to}"', wrong, "Write the two ends with the same x or the same y.")
        return
    for number, crossing in enumerate(footing.crossing, start=1):
        place = f"{at}.crossing.{number}.at"
        point = _read(crossing.at, place, unit)
        if isinstance(point, Mistake):
            yield point
        elif _beside(point, ends[0], ends[1]) > width_of(footing) / 2.0 + SAME:
            wrong = f"{crossing.at} does not lie in this footing, which goes from {footing.from_} to {footing.to}."
            yield Mistake(place, f'"{crossing.at}"', wrong, "Write a place on its middle line.")


def _beside(point: Point, start: Point, end: Point) -> float:
    """How far a place lies from the line between two others. [m]"""
    (x, y), (x0, y0), (x1, y1) = point, start, end
    along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2)
    share = min(max(along, 0.0), 1.0)
    return dist(point, (x0 + share * (x1 - x0), y0 + share * (y1 - y0)))


def _suctions(
    suctions: Sequence[Suction], footings: Sequence[tuple[int, GasFooting]], floor: Floor, unit: str
) -> Iterator[Mistake]:
    """A suction point off the floor, in what stands in it, or where another is."""
    placed: list[tuple[int, Point]] = []
    for number, suction in enumerate(suctions, start=1):
        at = f"soil-gas.suction.{number}.at"
        point = _read(suction.at, at, unit)
        if isinstance(point, Mistake):
            yield point
            continue
        wrong = _in_the_way(point, suction, footings, floor, unit)
        if wrong:
            yield Mistake(at, f'"{suction.at}"', *wrong)
        else:
            placed.append((number, point))
    for (first, one), (number, other) in combinations(placed, 2):
        if dist(one, other) < 0.3:
            wrong_words = f"Suction point {first} is there already."
            yield Mistake(f"soil-gas.suction.{number}.at", "", wrong_words, "Keep one of the two, or move one.")


def _in_the_way(
    point: Point, suction: Suction, footings: Sequence[tuple[int, GasFooting]], floor: Floor, unit: str
) -> tuple[str, str] | None:
    """What is wrong with where a suction point lies, and what to do; None where nothing is."""
    if not floor.outline.holds(point):
        return f"{suction.at} lies outside the floor.", "x and y count as in the outline."
    if not floor.holds(point):
        return f"{suction.at} lies in a hole of the plan, where there is no floor.", "Move it under the floor."
    half = suction.pit.si / 2.0 if suction.pit is not None else 0.0
    away = _from_edge(floor, point)
    if away < max(half, 0.15):
        near = f"It lies {length_words(away, unit)} from the edge, where the footing is."
        return near, "Move it in: a pit takes half of its width, and 6 in (150 mm) at the least."
    for number, footing in footings:
        ends = point_of(footing.from_, unit), point_of(footing.to, unit)
        if _beside(point, *ends) < width_of(footing) / 2.0:
            wrong = f"It lies in footing {number}, where there is no stone to draw from."
            return wrong, "Move it beside the footing."
    for thing in floor.obstacles:
        if thing.kind in ("column", "pit") and _covers(thing, point):
            return f"A {thing.kind} stands there.", "Move it beside."
    return None


def _covers(thing: Obstacle, point: Point) -> bool:
    """Whether something that stands in the floor stands over a place."""
    if thing.circle:
        return dist(thing.at, point) < thing.size[0] / 2.0
    return all(abs(thing.at[axis] - point[axis]) < thing.size[axis] / 2.0 for axis in (0, 1))


def _route(pipe: GasPipe | None, suctions: Sequence[Suction], floor: Floor, unit: str) -> Iterator[Mistake]:
    """Bends that cannot be read; a route that begins nowhere near a suction point."""
    if pipe is None or not pipe.route:
        return
    points = [_read(typed, f"soil-gas.pipe.route.{n}", unit) for n, typed in enumerate(pipe.route, start=1)]
    wrong = [each for each in points if isinstance(each, Mistake)]
    yield from wrong
    starts = [_read(each.at, "", unit) for each in suctions]
    known = [each for each in starts if not isinstance(each, Mistake)]
    first = points[0]
    if wrong or not known or isinstance(first, Mistake):
        return
    if min(dist(first, each) for each in known) > 0.5:
        told = f"The route begins at {pipe.route[0]}, and no suction point is there."
        yield Mistake("soil-gas.pipe.route.1", f'"{pipe.route[0]}"', told, f"Begin it at {suctions[0].at}.")


def _communication(test: Communication, floor: Floor, unit: str) -> Iterator[Mistake]:
    """Holes without a place, or of which the place means nothing."""
    at = "soil-gas.communication"
    if test.at is not None:
        point = _on_the_floor(test.at, f"{at}.at", "the hole that air was drawn from", floor, unit)
        if isinstance(point, Mistake):
            yield point
    for number, hole in enumerate(test.hole, start=1):
        here = f"{at}.hole.{number}"
        if hole.at is None and hole.distance is None:
            wrong = "This hole does not say where it is."
            yield Mistake(f"{here}.at", "", wrong, 'Write at = "6 20", or distance = "15 ft".')
        elif hole.at is not None and hole.distance is not None:
            wrong = "at and distance both say where this hole is."
            yield Mistake(f"{here}.distance", f'"{hole.distance.typed}"', wrong, "Keep at: it says more.")
        if hole.at is not None:
            point = _on_the_floor(hole.at, f"{here}.at", "a hole through it", floor, unit)
            if isinstance(point, Mistake):
                yield point
            elif test.at is None:
                wrong = "This hole has a place, and nothing says where air was drawn from."
                yield Mistake(f"{at}.at", "", wrong, 'Write at = "20 14" under [soil-gas.communication].')
        if test.vacuum is not None and hole.vacuum.si > test.vacuum.si:
            wrong = f"{hole.vacuum.typed} is more than the {test.vacuum.typed} in the hole that air was drawn from."
            yield Mistake(
                f"{here}.vacuum", f'"{hole.vacuum.typed}"', wrong, "Look whether two readings changed places."
            )
