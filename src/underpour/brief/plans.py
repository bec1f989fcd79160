"""The plan as it is read: outlines that enclose a floor, holes and obstacles in it, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from ..mistakes import Mistake
from ..outlines.floor import Floor, Obstacle, Stretch, overlap, rings_meeting, stands_on
from ..outlines.outline import Outline, crossing, repeated, straight
from ..outlines.side import Point, Side, bulge_of_radius, bulge_of_rise, bulge_through
from .corners import LENGTH_OF_ONE, Bend, TypedCorner
from .tables.edge import Shape
from .tables.plan import Obstacle as TypedObstacle
from .tables.plan import Plan

_SMALLEST, _LARGEST = 1.0, 1.0e6  # m²; beyond them the plan's unit was mistaken
_FLAT = 1e-3  # m; an arc that rises less is straight
_NEARLY_ROUND = 50.0  # bulge; beyond it an arc's ends lie together and it is no side of a floor


def floor_of(plan: Plan) -> Floor:
    """The floor of a plan in which nothing is wrong."""
    outline, *holes = (_bent(corners, "", []) for corners in _typed_rings(plan))
    assert outline is not None
    return Floor(outline, tuple(hole for hole in holes if hole is not None), tuple(map(_obstacle, plan.obstacle)))


def readable_floor(plan: Plan) -> Floor | None:
    """The floor as far as its sides can be counted and measured; None where one of its outlines does not close."""
    found: list[Mistake] = []
    for corners in _typed_rings(plan):
        _bent(corners, "", found)
    return None if found else floor_of(plan)


def unclear_plan(plan: Plan) -> Iterator[Mistake]:
    """An outline that encloses nothing or crosses itself, a hole or an obstacle that is not in the floor."""
    yield from _without_a_drawing(plan)
    found: list[Mistake] = []
    paths = ("plan.outline", *(f"plan.hole.{n}.outline" for n in range(1, len(plan.hole) + 1)))
    clean: list[Outline | None] = []
    for corners, at in zip(_typed_rings(plan), paths, strict=True):
        before = len(found)
        ring = _bent(corners, at, found)
        if ring is not None:
            found += _unclear(ring, at)
        clean.append(ring if len(found) == before else None)
    yield from found
    outline, *holes = clean
    if outline is None:
        return
    yield from _unlikely_size(outline.area, plan)
    floor = Floor(outline, tuple(hole for hole in holes if hole is not None))
    yield from _unclear_holes(floor, [n for n, hole in enumerate(holes, start=1) if hole is not None])
    if all(hole is not None for hole in holes):
        yield from _unclear_obstacles(floor, plan)


def _without_a_drawing(plan: Plan) -> Iterator[Mistake]:
    """What is said of a drawing where none is named."""
    for key in ("dxf-unit", "dxf-gap", "dxf-layers"):
        if plan.dxf is None and key.replace("-", "_") in plan.model_fields_set:
            wrong = f"{key} is told, and no drawing is."
            yield Mistake(f"plan.{key}", "", wrong, 'Write dxf = "plan.dxf" in the place of outline, or take this out.')


def unclear_shape(shape: Shape, at: str) -> Iterator[Mistake]:
    """A drawn body whose outline encloses nothing or crosses itself."""
    corners = [TypedCorner(point) for point in shape.outline]
    found: list[Mistake] = []
    outline = _bent(corners, f"{at}.outline", found)
    yield from found
    if outline is not None:
        yield from _unclear(outline, f"{at}.outline")


def side_words(ring: int, side: int) -> str:
    """A side as it is called in messages.

    >>> side_words(0, 3), side_words(1, 2)
    ('side 3', 'side 2 of hole 1')
    """
    return f"side {side} of hole {ring}" if ring else f"side {side}"


def length_words(length: float, unit: str) -> str:
    """A length in the plan's own unit, for messages.

    >>> length_words(1.2192, "ft")
    '4 ft'
    """
    return f"{round(length / LENGTH_OF_ONE[unit], 3):.10g} {unit}"


def stretch_words(stretch: Stretch, whole: float, unit: str) -> str:
    """A piece of a side, or the whole of it, which is ``whole`` (m) long.

    >>> stretch_words(Stretch(0, 3, 0.0, 1.2192), 4.2672, "ft")
    'side 3 from 0 ft to 4 ft'
    """
    named = side_words(stretch.ring, stretch.side)
    if stretch.start <= 0.0 and stretch.end >= whole:
        return named
    return f"{named} from {length_words(stretch.start, unit)} to {length_words(stretch.end, unit)}"


def _typed_rings(plan: Plan) -> tuple[Sequence[TypedCorner], ...]:
    return (plan.corners, *(hole.corners for hole in plan.hole))


def _obstacle(typed: TypedObstacle) -> Obstacle:
    first, last = typed.size.sizes[0].si, typed.size.sizes[-1].si
    return Obstacle(typed.kind, typed.at, (first, last), len(typed.size.sizes) == 1)


def _bent(corners: Sequence[TypedCorner], at: str, found: list[Mistake]) -> Outline | None:
    """The outline with its arcs; None, and what is wrong in ``found``, where it encloses nothing."""
    points = [corner.point for corner in corners]
    curved = any(corner.bend for corner in corners)
    if len(corners) < (2 if curved else 3):
        has = "One corner encloses" if len(corners) == 1 else f"{len(corners) or 'No'} corners enclose"
        found.append(Mistake(at, "", f"{has} nothing.", "Write at least three, in order round the floor."))
        return None
    same = repeated(points)
    if same is not None:
        closes = " The outline closes by itself." if same == (1, len(corners)) else ""
        wrong = f"Corner {same[1]} lies on corner {same[0]}."
        found.append(Mistake(f"{at}.{same[1]}", "", wrong, f"Take one of the two out.{closes}"))
        return None
    sides = list(straight(points).sides)
    bends = [corner.bend for corner in corners]
    before = len(found)
    for number, (side, bend) in enumerate(zip(sides, bends, strict=True), start=1):
        found += [] if bend is None else _unclear_bend(side, bend, f"{at}.{number}")
    if len(found) > before:
        return None
    # which way out is follows from the way round: of the corners, and of the arcs that do not ask for it
    known = [side if bend is None else _own_way(side, bend) for side, bend in zip(sides, bends, strict=True)]
    turn = -1.0 if Outline(tuple(known)).turned_area < -_FLAT * _FLAT else 1.0
    made = Outline(tuple(_outwards(side, bend, turn) for side, bend in zip(known, bends, strict=True)))
    if turn * made.turned_area < _FLAT * _FLAT and crossing(made) is None:
        wrong = "The outline is turned inside out: its arcs take away more than its corners go round."
        found.append(Mistake(at, "", wrong, "An arc bows out above nought and in below: rise 3, rise -3."))
        return None
    return made


def _own_way(side: Side, bend: Bend) -> Side:
    """The side with its arc where that needs no way out; straight where it does."""
    if bend.kind == "through":
        return Side(side.start, side.end, bulge_through(side.start, bend.point, side.end))
    return Side(side.start, side.end, bend.value if bend.kind == "bulge" else 0.0)


def _outwards(side: Side, bend: Bend | None, turn: float) -> Side:
    """The side with an arc that bows out or in; ``turn`` is 1 where the outline runs anticlockwise, -1 otherwise."""
    if bend is None or bend.kind not in ("rise", "radius"):
        return side
    out = turn if bend.value > 0.0 else -turn
    size = (bulge_of_rise if bend.kind == "rise" else bulge_of_radius)(side.chord, abs(bend.value))
    return Side(side.start, side.end, out * size)


def _unclear_bend(side: Side, bend: Bend, at: str) -> Iterator[Mistake]:
    """An arc that is none, that does not reach, or that closes on itself."""
    if bend.kind == "radius" and abs(bend.value) < side.chord / 2.0 * (1.0 - 1e-9):
        wrong = "The arc does not reach: its radius is less than half of the distance between its two corners."
        yield Mistake(at, "", wrong, "Write a larger radius; rise tells any arc, a half circle and more too.")
        return
    if bend.kind == "through":
        bulge = bulge_through(side.start, bend.point, side.end)
        if min(_apart(bend.point, side.start), _apart(bend.point, side.end)) < _FLAT:
            yield Mistake(at, "", "The arc goes through its own corner.", "Write a point between its two corners.")
            return
        ux, uy = bend.point[0] - side.start[0], bend.point[1] - side.start[1]
        between = ux * (side.end[0] - side.start[0]) + uy * (side.end[1] - side.start[1]) > 0.0
        if bulge == 0.0 and not between:
            bulge = _NEARLY_ROUND * 2.0
    elif bend.kind == "bulge":
        bulge = bend.value
    elif bend.kind == "rise":
        bulge = bulge_of_rise(side.chord, bend.value)
    else:
        bulge = bulge_of_radius(side.chord, abs(bend.value))
    if abs(bulge) * side.chord / 2.0 < _FLAT:
        wrong = "This arc does not bend: it stands off the straight line by less than a millimetre."
        yield Mistake(at, "", wrong, "Write the corner alone, and its side is straight.")
    elif abs(bulge) > _NEARLY_ROUND:
        wrong = "This arc comes round to where it began."
        yield Mistake(at, "", wrong, "A round floor is two corners with an arc each: two half circles.")


def _apart(one: Point, other: Point) -> float:
    return Side(one, other).chord


def _unclear(outline: Outline, at: str) -> list[Mistake]:
    """Sides that meet where they should not."""
    pair = crossing(outline)
    if pair is None:
        return []
    wrong = f"Side {pair[0]} meets side {pair[1]} where it should not: the outline crosses or touches itself."
    return [Mistake(at, "", wrong, "List the corners in order round the floor.")]


def _unlikely_size(area: float, plan: Plan) -> Iterator[Mistake]:
    if _SMALLEST <= area <= _LARGEST:
        return
    small = area < _SMALLEST
    told = f"{area:.2g} m²; no floor is that small." if small else f"{area / 1e6:.3g} km²; no floor is that large."
    instead = f'Its numbers are read in plan.unit, "{plan.unit}".'
    yield Mistake("plan.outline", "", f"The outline encloses {told}", instead)


def _unclear_holes(floor: Floor, numbers: Sequence[int]) -> Iterator[Mistake]:
    """Holes that reach over the outline, lie outside it, or meet one another; ``numbers`` are theirs in the brief."""
    told: set[int] = set()
    for (ring, side), (met, own_side) in rings_meeting(floor):
        other = f"side {side} of the outline" if ring == 0 else f"hole {numbers[ring - 1]}"
        wrong = f"Side {own_side} of this hole meets {other}: it crosses or touches it."
        instead = "Draw the outline round it instead." if ring == 0 else "Draw the two as one hole, or move them apart."
        told.add(met)
        yield Mistake(f"plan.hole.{numbers[met - 1]}.outline", "", wrong, instead)
    for place, hole in enumerate(floor.holes, start=1):
        at = f"plan.hole.{numbers[place - 1]}.outline"
        around = [n for n, other in enumerate(floor.holes, start=1) if n != place and other.holds(hole.corners[0])]
        if place in told:
            continue
        if not floor.outline.holds(hole.corners[0]):
            yield Mistake(at, "", "This hole lies outside the outline.", "Its corners count from the same origin.")
        elif around:
            wrong = f"This hole lies in hole {numbers[around[0] - 1]}, where there is no floor."
            yield Mistake(at, "", wrong, "Take one of the two out; a floor within a hole is another brief.")
    if not told and floor.holes and 0.0 <= floor.area < _SMALLEST <= floor.outline.area:
        wrong = f"The holes leave {floor.area:.2g} m² of floor; no floor is that small."
        yield Mistake("plan.hole", "", wrong, "Holes are taken off the outline's area.")


def _unclear_obstacles(floor: Floor, plan: Plan) -> Iterator[Mistake]:
    made = [_obstacle(typed) for typed in plan.obstacle]
    placed = []
    for number, each in enumerate(made, start=1):
        at = f"plan.obstacle.{number}.at"
        if stands_on(floor, each):
            placed.append((number, each))
        elif not floor.outline.holds(each.at):
            wrong = f"The middle of this {each.kind} lies outside the floor."
            yield Mistake(at, "", wrong, "Its place counts from the same origin as the outline's corners.")
        elif not floor.holds(each.at):
            yield Mistake(at, "", f"This {each.kind} stands in a hole.", "Take it out; there is no floor there.")
        else:
            wrong = f"This {each.kind}, {plan.obstacle[number - 1].size.typed}, reaches over the edge of the floor."
            yield Mistake(at, "", wrong, "Move it in, or lead the outline round it.")
    for (_, one), (number, other) in combinations(placed, 2):
        if overlap(one, other):
            first = next(n for n, each in placed if each is one)
            wrong = f"This {other.kind} stands where obstacle {first}, a {one.kind}, stands already."
            yield Mistake(f"plan.obstacle.{number}.at", "", wrong, "Move one of the two, or take it out.")
