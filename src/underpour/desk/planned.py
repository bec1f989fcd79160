"""A plan as the browser draws it: places in metres, lengths and areas in words that are ready to read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from ..brief.parts import Parts, readable
from ..brief.paths import letter
from ..brief.plans import length_words, readable_floor, unclear_plan
from ..brief.replanned import Replanned
from ..brief.replanned.sketch import Sketch, Spot
from ..brief.replanned.unclear import unclear_in_plan
from ..brief.sides import pieces_of_sides
from ..drawings.plan import DASHES
from ..measure import say as said
from ..measure.table import System
from ..mistakes import Mistake
from ..outlines.floor import Floor, Stretch
from ..outlines.outline import straight
from ..outlines.side import Side
from ..toml_text import read_toml
from .words import say

Point = tuple[float, float]  # m
UNDRAWN = 60.0  # m round a floor that nobody has drawn


@dataclass(frozen=True, slots=True)
class Line:
    """A piece of a side that one edge has, or none."""

    start: Point
    end: Point
    radius: float  # m; 0 where it is straight
    large: bool  # an arc of more than a half circle
    left: bool  # it turns left on its way
    edges: tuple[str, ...]  # letters: none, one, or those that all claim it
    middle: Point
    out: Point  # the way out of the floor there, of length one


@dataclass(frozen=True, slots=True)
class DrawnSide:
    """A side, with the corner that it begins at."""

    number: int
    corner: Point
    corner_words: str  # "12 ft 6 in, 8 ft"
    corner_x: str  # as typed
    corner_y: str
    along: float  # m from corner to corner
    length: str
    bend: str  # "rise 4" as typed; "" where it is straight
    name: str
    middle: Point
    out: Point
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class DrawnRing:
    """The outline, or a hole."""

    sides: tuple[DrawnSide, ...]


@dataclass(frozen=True, slots=True)
class DrawnObstacle:
    kind: str
    at: Point
    at_words: str
    breadth: float  # m along x
    depth: float  # m along y
    circle: bool
    size: str


@dataclass(frozen=True, slots=True)
class DrawnEdge:
    letter: str
    name: str
    words: str  # "frost wall, 120 ft (36.58 m)"
    dashes: str  # its line style: mm of line and gap; "" where it is drawn through


@dataclass(frozen=True, slots=True)
class DrawnChain:
    """What is being drawn and not closed yet."""

    typed: tuple[str, ...]  # as the brief would write it
    corners: tuple[Point, ...]
    lengths: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DrawnPlan:
    """All that the browser draws of a plan, and all that it says."""

    unit: str
    step: float  # m
    step_words: str
    system: str
    rings: tuple[DrawnRing, ...]
    obstacles: tuple[DrawnObstacle, ...]
    edges: tuple[DrawnEdge, ...]
    next_letter: str  # of the edge that would be new; "" where there is none to be like
    chain: DrawnChain
    area: str  # "" where the outline encloses no floor, or crosses itself
    around: str  # the length of the edge all round
    bare: str  # which sides no edge has
    scale: float  # m of the scale's bar
    scale_words: str


@dataclass(frozen=True, slots=True)
class MistakeTold:
    """A mistake in the house's own four parts."""

    line: int  # 0 where it is of no line
    at: str
    typed: str
    wrong: str
    instead: str


def told(mistake: Mistake) -> MistakeTold:
    return MistakeTold(mistake.line, mistake.at, mistake.typed, mistake.wrong, mistake.instead)


def mistakes_of(text: str) -> tuple[MistakeTold, ...]:
    """What is wrong with the plan of a text that is TOML."""
    return tuple(map(told, unclear_in_plan(text, read_toml(text, ""))))


def drawn(plan: Replanned, step: str) -> DrawnPlan:
    """The plan for the browser.

    Parameters
    ----------
    plan : Replanned
        As it stands.
    step : str
        The snap as typed.
    """
    data = read_toml(plan.text, "")
    parts = readable(data)
    floor = None if parts.plan is None else readable_floor(parts.plan)
    system = _system(parts, plan.sketch)
    rings, bare = _rings(plan.sketch, parts, floor, system)
    around = floor.length if floor else 0.0
    clean = floor is not None and parts.plan is not None and not any(unclear_plan(parts.plan))
    scale = _bar(around or UNDRAWN, system)
    return DrawnPlan(
        unit=plan.sketch.unit,
        step=float(plan.step),
        step_words=step,
        system=system,
        rings=rings,
        obstacles=tuple(_obstacles(plan.sketch, parts)),
        edges=tuple(_edges(parts, floor, system, data)),
        next_letter=letter(len(plan.sketch.edges)) if plan.sketch.edges else "",
        chain=_chain(plan.chain, plan.sketch.unit, system),
        area=said.both(floor.area, "m²", system) if floor and clean else "",
        around=said.both(around, "m", system) if floor and clean else "",
        bare=bare,
        scale=scale,
        scale_words=said.value(scale, "m", system),
    )


def spot_words(spot: Spot, unit: str) -> str:
    """A corner as it is read aloud: its figures as typed, each with its unit."""
    return ", ".join(f"{each.words} {unit}" if each.bare else each.words for each in (spot.x, spot.y))


def _system(parts: Parts, sketch: Sketch) -> System:
    if parts.project is not None and parts.project.units is not None:
        return parts.project.units
    return "US" if sketch.unit in ("ft", "in") else "SI"


def _rings(sketch: Sketch, parts: Parts, floor: Floor | None, system: System) -> tuple[tuple[DrawnRing, ...], str]:
    """The outlines, and in words what no edge has."""
    names = {(each.ring, each.side): each.name for each in sketch.names if each is not None}
    pieces: dict[tuple[int, int], list[tuple[Stretch, tuple[int, ...]]]] = {}
    if floor is not None and parts.plan is not None:
        for stretch, edges in pieces_of_sides(parts.sides, floor, parts.plan):
            pieces.setdefault((stretch.ring, stretch.side), []).append((stretch, edges))
    rings = []
    for ring, each in enumerate(sketch.rings):
        outline = floor.rings[ring] if floor else straight([_point(spot) for spot in each.spots])
        left_is_floor = (outline.turned_area >= 0.0) == (ring == 0)
        sides = []
        for number, (spot, side) in enumerate(zip(each.spots, outline.sides, strict=True), start=1):
            if side.chord == 0.0:
                continue
            middle, out = _middle(side, left_is_floor)
            lines = tuple(
                _line(floor.part(stretch), edges, left_is_floor)
                for stretch, edges in pieces.get((ring, number), [])
                if floor is not None
            )
            sides.append(
                DrawnSide(
                    number,
                    _point(spot),
                    spot_words(spot, each.unit),
                    spot.x.words,
                    spot.y.words,
                    side.chord,
                    said.value(side.length, "m", system),
                    spot.bend,
                    names.get((ring, number), ""),
                    middle,
                    out,
                    lines or (_line(side, (), left_is_floor),),
                )
            )
        rings.append(DrawnRing(tuple(sides)))
    return tuple(rings), _bare(pieces, floor, sketch.unit)


def _bare(
    pieces: Mapping[tuple[int, int], list[tuple[Stretch, tuple[int, ...]]]], floor: Floor | None, unit: str
) -> str:
    """What no edge has, in words; "" where each point has one."""
    if floor is None:
        return ""
    bare = [stretch for of_side in pieces.values() for stretch, edges in of_side if not edges]
    listed = [_stretch(each, floor.side(each.ring, each.side).length, unit) for each in bare]
    return say("plan.bare", sides="; ".join(listed)) if listed else ""


def _stretch(stretch: Stretch, whole: float, unit: str) -> str:
    """A side, or the piece of it, in words."""
    named = _named(stretch.ring, stretch.side)
    if stretch.start <= 0.0 and stretch.end >= whole:
        return named
    start, end = (length_words(each, unit) for each in (stretch.start, stretch.end))
    return say("plan.stretch", side=named, start=start, end=end)


def _named(ring: int, side: int) -> str:
    return say("plan.side-of-hole-name" if ring else "plan.side-name", n=side, ring=ring)


def _line(side: Side, edges: tuple[int, ...], left_is_floor: bool) -> Line:
    middle, out = _middle(side, left_is_floor)
    radius = side.radius if side.bulge else 0.0
    letters = tuple(dict.fromkeys(letter(edge) for edge in edges))
    return Line(side.start, side.end, radius, abs(side.bulge) > 1.0, side.bulge > 0.0, letters, middle, out)


def _middle(side: Side, left_is_floor: bool) -> tuple[Point, Point]:
    """The middle of a side, and the way out there."""
    half = side.length / 2.0
    dx, dy = side.direction(half)
    return side.at(half), ((dy, -dx) if left_is_floor else (-dy, dx))


def _point(spot: Spot) -> Point:
    return float(spot.x.metres), float(spot.y.metres)


def _obstacles(sketch: Sketch, parts: Parts) -> Iterator[DrawnObstacle]:
    typed = parts.plan.obstacle if parts.plan is not None else ()
    for n, each in enumerate(sketch.obstacles):
        sizes = typed[n].size.sizes if len(typed) == len(sketch.obstacles) else ()
        across = (sizes[0].si, sizes[-1].si) if sizes else (0.1, 0.1)
        yield DrawnObstacle(
            each.kind, _point(each.at), spot_words(each.at, each.unit), *across, len(sizes) != 2, each.size
        )


def _edges(parts: Parts, floor: Floor | None, system: System, data: Any) -> Iterator[DrawnEdge]:
    pieces = pieces_of_sides(parts.sides, floor, parts.plan) if floor is not None and parts.plan is not None else ()
    for n, typed in enumerate(parts.typed_edges):
        long = sum(stretch.length for stretch, edges in pieces if n in edges)
        kind = str(typed.get("kind", "")).replace("-", " ")[:40]
        name = typed.get("name")
        dashes = " ".join(f"{size}mm" for size in DASHES[n % len(DASHES)].split())
        words = (
            say("plan.edge", kind=kind, length=said.both(long, "m", system))
            if long
            else say("plan.edge-without", kind=kind)
        )
        yield DrawnEdge(letter(n), name if isinstance(name, str) else "", words, dashes)


def _chain(spots: tuple[Spot, ...], unit: str, system: System) -> DrawnChain:
    corners = tuple(_point(spot) for spot in spots)
    lengths = tuple(said.value(Side(a, b).chord, "m", system) for a, b in pairwise(corners))
    return DrawnChain(tuple(spot.words for spot in spots), corners, lengths)


def _bar(around: float, system: System) -> float:
    """A round length for the scale's bar: about a sixth of the way across. [m]"""
    one = 0.3048 if system == "US" else 1.0
    wanted = around / 24.0 / one
    return next((size for size in (1, 2, 5, 10, 20, 50, 100, 200, 500) if size >= wanted), 1000) * one


def act_words(done: str, plan: DrawnPlan, ring: int, number: int) -> str:
    """One sentence that tells what was done, for those who do not see it, and the floor as it is now."""
    side = None
    if 0 <= ring < len(plan.rings):
        side = next((each for each in plan.rings[ring].sides if each.number == number), None)
    words = say(
        f"plan.done.{done}",
        side=_named(ring, number),
        corner=number,
        place=side.corner_words if side else "",
        length=side.length if side else "",
        edges=" ".join(edge for line in (side.lines if side else ()) for edge in line.edges),
    )
    words = words[:1].upper() + words[1:]
    return f"{words} {say('plan.floor', area=plan.area)}" if plan.area else words
