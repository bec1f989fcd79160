"""The soil-gas pipe from its pit to the open air: a diagram of a house cut through, and a line for each thing told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..checks.soil_gas.drawn_off import Fact, Way
from ..measure import say
from ..measure.digits import fixed
from ..measure.table import System
from . import colours
from .lettering import CAPITAL, HEADING, LETTER, wrapped
from .lettering import width as breadth
from .paper import BOLD, FINE, HAIR, INK, LINE, letters, line, mm, path, picture, rectangle, stroke

TITLE = "The pipe's way, from the pit to the open air"
LEAD = LETTER * 1.25
HOUSE = 106.0  # mm, breadth of the diagram; the list stands right of it
INSET = 5.0  # mm, of a line of the list behind its number
KEY = "Not to scale. As typed; underlined with dots: assumed. Not told: nobody says it yet."
# Places of the diagram, mm from its left and from below the heading.
WALLS, EAVES, CEILING, PEAK = (12.0, 84.0), 33.0, 33.0, (48.0, 12.0)
SLAB, STONE, GROUND = 76.0, 79.0, 70.0
PIT, PIT_HALF, PIT_DEEP = 24.0, 6.0, 5.0
LOW, HIGH = 43.0, 39.5  # level stretch at the pit's end and at the other, so that it is seen to fall
INSIDE, OUTSIDE = 58.0, 91.0  # where the pipe climbs
DORMER = (71.0, 23.5, 77.0, 30.0)
FOOT = 88.0
FANS = {"attic": "in the attic", "outdoors": "outdoors", "garage": "in the garage"}
THROUGH = {"heated": "through heated rooms", "unheated": "through unheated rooms", "outdoors": "outdoors"}
RISING = {"fan": "with a fan", "passive": "that draws by itself", "rough-in": "capped for later"}


@dataclass(frozen=True, slots=True)
class Said:
    """One line of the list."""

    number: int  # of the place in the diagram
    words: str
    origin: str  # typed, assumed, open


def pipe_route(way: Way, system: System, *, width: float) -> str:
    """The way of a soil-gas pipe, with what is typed of it and what is assumed.

    Parameters
    ----------
    way : Way
        As the brief tells it.
    system : str
        "US" or "SI", in which lengths are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone, not to scale.
    """
    body, high = route_rows(way, system, width=width)
    told = route_in_words(way, system)
    return picture(wide=width, high=high, title=TITLE, description=told, defs=(), body=[body])


def route_rows(way: Way, system: System, *, width: float) -> tuple[str, float]:
    """What is drawn in the picture, and how high it is, for a sheet that has more on it. [mm]"""
    base = HEADING * CAPITAL + 1.0
    body = [letters(0.0, base, TITLE, size=HEADING, weight=600), *_house(base), *_pipe(way, base, system)]
    top = base + LEAD + 1.0
    last = 0
    for said in route_facts(way, system):
        first = top
        for words in wrapped(said.words, width - HOUSE - INSET):
            body += _listed(HOUSE + INSET, top, words, said.origin)
            top += LEAD
        if said.number != last:
            body.append(_number(HOUSE + 1.6, first - CAPITAL * LETTER / 2.0, said.number))
        last = said.number
    top = max(top, base + FOOT + 1.0 + LEAD)
    for words in wrapped(KEY, width):
        body.append(letters(0.0, top, words, colour=colours.light()["note"]))
        top += LEAD
    return "".join(body), top - LEAD + 1.5


def route_in_words(way: Way, system: System) -> str:
    """What the picture shows, in words."""
    return "; ".join(
        f"{each.words}{', assumed' if each.origin == 'assumed' else ''}" for each in route_facts(way, system)
    )


def route_facts(way: Way, system: System) -> tuple[Said, ...]:
    """Everything that is told or missing of the pipe, from the pit on."""

    def length(fact: Fact) -> str:
        return say.both(float(fact.value), "m", system) if isinstance(fact.value, float) else ""

    def one(number: int, fact: Fact, told: str, missing: str) -> Said:
        return Said(number, told if fact.told else f"{missing}: not told", fact.origin)

    pits = f"{way.pits} pits" if way.pits > 1 else "a pit"
    yes = {True: "", False: "no "}
    bends = "1 bend" if way.bends.value == 1 else f"{way.bends.value:.0f} bends" if way.bends.told else ""
    slope = f"{fixed(100.0 * float(way.slope.value), 1)} %" if isinstance(way.slope.value, float) else ""
    found = [
        one(1, way.pit_width, f"{pits}, {length(way.pit_width)} wide", "the pit"),
        one(1, way.pit_depth, f"{length(way.pit_depth)} deep", "its depth"),
        one(2, way.size, f"a pipe of {length(way.size)}, {RISING[way.system]}", "the pipe"),
        one(3, way.level, f"level stretches: {length(way.level)}", "level stretches"),
        one(3, way.bends, bends, "bends"),
        one(4, way.falls, "they fall to where gas is drawn", "which way they fall"),
        one(4, way.slope, f"by {slope}", "how steeply"),
        one(5, way.rise, f"it climbs {length(way.rise)}", "how high it climbs"),
        one(5, way.through, THROUGH.get(str(way.through.value), ""), "through what"),
        one(6, way.labelled, f"{yes.get(bool(way.labelled.value), '')}label on each storey", "labels on each storey"),
        one(
            7, way.power, f"{yes.get(bool(way.power.value), '')}box for a fan's current beside it", "current for a fan"
        ),
    ]
    if way.system == "fan":
        found.append(
            one(8, way.fan_at, f"the fan stands {FANS.get(str(way.fan_at.value), '')}", "where the fan stands")
        )
    if way.system == "rough-in" and not (way.above_roof.told or way.from_openings.told):
        return tuple(found)
    found.append(
        one(9, way.above_roof, f"its outlet is {length(way.above_roof)} above the roof", "height above the roof")
    )
    if way.above_openings.told:
        found.append(one(9, way.above_openings, f"{length(way.above_openings)} above the nearest opening", ""))
    if way.from_openings.told or not way.above_openings.told:
        found.append(
            one(9, way.from_openings, f"{length(way.from_openings)} from the nearest opening", "distance to openings")
        )
    return tuple(found)


def _outside(way: Way) -> bool:
    return way.through.value == "outdoors" or way.fan_at.value in ("outdoors", "garage")


def _house(base: float) -> Iterator[str]:
    """Walls, roof, slab, stone and a window in the roof."""
    theme = colours.light()
    (left, right), (peak_x, peak_y) = WALLS, PEAK
    over = 4.0  # of the eaves
    drop = over * (EAVES - peak_y) / (peak_x - left)
    yield rectangle(left, base + EAVES, right - left, SLAB - EAVES, theme["shade"])
    yield line(0.0, base + GROUND, left, base + GROUND, LINE) + line(right, base + GROUND, 100.0, base + GROUND, LINE)
    yield stroke(
        f"M{mm(left)} {mm(base + EAVES)}V{mm(base + FOOT)}M{mm(right)} {mm(base + EAVES)}V{mm(base + FOOT)}", BOLD
    )
    roof = [(left - over, EAVES + drop), (peak_x, peak_y), (right + over, EAVES + drop)]
    yield stroke(path([(x, base + y) for x, y in roof], closed=False), BOLD)
    yield line(left, base + CEILING, right, base + CEILING, FINE)
    yield rectangle(left, base + SLAB, right - left, STONE - SLAB, theme["leaf"])
    yield line(left, base + SLAB, right, base + SLAB, LINE) + line(left, base + STONE, right, base + STONE, LINE)
    stones = "".join(f"M{mm(x)} {mm(base + y)}h0" for x, y in _stones(left, right))
    yield stroke(stones, 0.9, colour=theme["frame"], extra=' stroke-linecap="round"')
    x0, y0, x1, y1 = DORMER
    yield (
        f'<rect x="{mm(x0)}" y="{mm(base + y0)}" width="{mm(x1 - x0)}" height="{mm(y1 - y0)}" fill="{theme["leaf"]}" '
        f'stroke="{INK}" stroke-width="{LINE:g}"/>'
    )
    yield line(x0, base + (y0 + y1) / 2.0, x1, base + (y0 + y1) / 2.0, HAIR)


def _stones(left: float, right: float) -> Iterator[tuple[float, float]]:
    for row in range(3):
        x = left + 1.6 + 0.9 * (row % 2)
        while x < right - 1.0:
            if not (abs(x - PIT) < PIT_HALF + 0.6 and row < 2):
                yield x, STONE + 1.6 + 2.0 * row
            x += 2.0


def _roof_at(x: float) -> float:
    return PEAK[1] + abs(x - PEAK[0]) * (EAVES - PEAK[1]) / (PEAK[0] - WALLS[0])


def _pipe(way: Way, base: float, system: System) -> Iterator[str]:
    """The pipe with what stands on it, and the numbers of the list."""
    outside = _outside(way)
    climbs = OUTSIDE if outside else INSIDE
    roof = EAVES - 2.0 if outside else _roof_at(climbs)
    top = roof - 8.0
    theme = colours.light()
    pit = f"M{mm(PIT - PIT_HALF)} {mm(base + STONE)}v{mm(PIT_DEEP)}h{mm(2 * PIT_HALF)}v{mm(-PIT_DEEP)}"
    yield f'<path d="{pit}" fill="{theme["leaf"]}" stroke="{INK}" stroke-width="{LINE:g}"/>'
    way_of_it = [(PIT, STONE + 2.0), (PIT, LOW), (climbs, HIGH), (climbs, top)]
    data = path([(x, base + y) for x, y in way_of_it], closed=False)
    yield stroke(data, 2.6) + stroke(data, 1.7, colour=theme["leaf"])
    if way.system == "rough-in":
        yield line(climbs - 2.0, base + top, climbs + 2.0, base + top, BOLD)
    else:
        yield _arrow(climbs, base + top - 1.0, 0.0, -3.0)
    if way.falls.told:
        yield _arrow(
            0.5 * (PIT + climbs) + 4.0, base + 0.5 * (LOW + HIGH) + 3.2, -8.0, 8.0 * (LOW - HIGH) / (climbs - PIT)
        )
    for x, y in ((PIT, 58.0), *(() if outside else ((climbs, 0.5 * (CEILING + roof) + 3.5),))):
        yield _tag(x, base + y, way.labelled)
    fan_y = (0.5 * (roof + HIGH) - 4.0) if outside else roof + 5.5
    if way.system == "fan":
        yield _fan(climbs, base + fan_y)
    yield from _distances(way, climbs, base + top, base + roof, base, system)
    places = {
        1: (PIT + PIT_HALF + 2.6, STONE + 3.4),
        2: (PIT - 4.0, 66.0),
        3: (PIT + 7.0, LOW - 4.2),
        4: (0.5 * (PIT + climbs) + 8.0, 0.5 * (LOW + HIGH) + 4.6),
        5: (climbs - 4.4, HIGH - 2.2),
        6: (PIT - 5.0, 58.0),
        7: (climbs + 7.6, fan_y + 5.8),
        8: (climbs - 5.4, fan_y),
        9: (climbs - 4.4, top + 1.4),
    }
    for number in {each.number for each in route_facts(way, system)}:
        x, y = places[number]
        yield _number(x, base + y, number)
    if way.power.value is True:
        x, y = climbs + 2.2, base + fan_y + 4.6
        yield f'<rect x="{mm(x)}" y="{mm(y)}" width="2.4" height="2.4" fill="{INK}"/>'


def _distances(way: Way, x: float, top: float, roof: float, base: float, system: System) -> Iterator[str]:
    """Dimension lines: above the roof, and to the nearest opening."""
    if isinstance(way.above_roof.value, float):
        at = x + 3.6
        foot = roof if _outside(way) else base + _roof_at(at)
        yield line(at, top, at, foot, HAIR) + line(x + 1.6, top, at + 1.0, top, HAIR)
        yield line(at - 1.0, foot, at + 1.0, foot, HAIR)
        said = say.value(way.above_roof.value, "m", system)
        yield letters(at + 1.2, 0.5 * (top + foot) + CAPITAL * LETTER / 2.0 + 0.8, said)
    away = way.from_openings if way.from_openings.told else way.above_openings
    if not isinstance(away.value, float):
        return
    end, sill = 0.5 * (DORMER[0] + DORMER[2]), base + DORMER[1]
    side = 1.6 if end > x else -1.6
    yield line(x + side, top, end, top, HAIR) + line(end, top - 1.0, end, sill, HAIR)
    said = say.value(away.value, "m", system)
    if away is way.from_openings:
        yield letters(0.5 * (x + end), top - 1.0, said, anchor="middle")
    else:
        yield letters(end + 1.2, 0.5 * (top + sill) + 1.0, said)


def _number(x: float, y: float, number: int) -> str:
    """A number in a circle with its middle there."""
    leaf = colours.light()["leaf"]
    circle = f'<circle cx="{mm(x)}" cy="{mm(y)}" r="2" fill="{leaf}" stroke="{INK}" stroke-width="{HAIR:g}"/>'
    size = 0.8 * LETTER
    return circle + letters(x, y + size * CAPITAL / 2.0, f"{number}", size=size, anchor="middle", weight=600)


def _listed(x: float, y: float, words: str, origin: str) -> Iterator[str]:
    tell = colours.light()["tell"]
    yield letters(x, y, words, colour=INK if origin == "typed" else tell)
    if origin == "assumed":
        dotted = ' stroke-dasharray="0.1 0.9" stroke-linecap="round"'
        yield line(x, y + 0.9, x + breadth(words, LETTER), y + 0.9, LINE, colour=tell, extra=dotted)


def _arrow(x: float, y: float, dx: float, dy: float) -> str:
    """A line with an open head."""
    long = (dx * dx + dy * dy) ** 0.5
    ux, uy = dx / long, dy / long
    ends = [(x + dx - 1.6 * ux + s * 0.8 * uy, y + dy - 1.6 * uy - s * 0.8 * ux) for s in (1.0, -1.0)]
    head = path([ends[0], (x + dx, y + dy), ends[1]], closed=False)
    return line(x, y, x + dx, y + dy, LINE) + stroke(head, LINE)


def _tag(x: float, y: float, labelled: Fact) -> str:
    """Where a label belongs: filled where it is there, dotted where nobody says so."""
    theme = colours.light()
    fill = INK if labelled.value is True else theme["leaf"]
    extra = "" if labelled.told else ' stroke-dasharray="0.5 0.6"'
    return (
        f'<rect x="{mm(x - 0.8)}" y="{mm(y - 1.6)}" width="1.6" height="3.2" fill="{fill}" stroke="{INK}" '
        f'stroke-width="{FINE:g}"{extra}/>'
    )


def _fan(x: float, y: float) -> str:
    """The sign of a fan: a circle with a triangle that points the way the air goes."""
    leaf = colours.light()["leaf"]
    circle = f'<circle cx="{mm(x)}" cy="{mm(y)}" r="2.6" fill="{leaf}" stroke="{INK}" stroke-width="{BOLD:g}"/>'
    return circle + stroke(path([(x - 1.8, y + 1.4), (x, y - 2.2), (x + 1.8, y + 1.4)], closed=True), LINE)
