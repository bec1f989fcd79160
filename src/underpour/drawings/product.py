"""A product cut through, to a scale of details: how boards meet, what stands on a panel or is cut out below it."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from math import sqrt
from typing import TYPE_CHECKING, Any

from ..catalogue.read import table
from ..measure import length, say
from ..measure.table import System
from . import hatch
from .chains import LEADING, Stretch, level, level_high, upright
from .lettering import LETTER, wrapped
from .paper import FINE, HAIR, HEAVY, INK, LINE, Frame, letters, line, mm, picture, stroke
from .to_scale import Scaled

if TYPE_CHECKING:
    from ..catalogue.line import Edge, Made, Product

WIDE = 170.0  # mm
APART = 8.0  # mm between two details
GUTTER = 21.0  # mm at the left of a detail, for its heights
HIGHEST = 24.0  # mm of product on paper
FOOT = 1.5  # mm from the product to the line of the chain below
SCALED = 34.0  # mm at the right of the first line, for the scale
NAMED = 1.6 * LETTER  # mm of the name above a detail
SAME = 1e-9  # m
BREAK = 1.6  # mm, half of the zigzag where a piece goes on
USUAL = 0.0508  # m: of the thicknesses made, the one nearest to 2 in is drawn
KNOBS = 5  # drawn beside each other
SHOWN_OF_A_LAP = 2.5  # laps drawn on either side of a film's lap
Outline = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Body:
    """Foam of one piece. [m]"""

    outline: Outline
    hatch: str


@dataclass(frozen=True, slots=True)
class Detail:
    """One cut, its origin at the upper side of the foam's foot. [m]"""

    name: str
    wide: float  # that has to be shown, from x = 0
    bottom: float
    top: float
    bodies: tuple[Body, ...]
    heights: tuple[tuple[float, float, str], ...]  # bottom, top, words
    lengths: tuple[tuple[float, float, str], ...]  # left, right, words
    films: tuple[Outline, ...] = ()
    tubes: tuple[tuple[float, float, float], ...] = ()  # x, y, radius
    ends: tuple[float, ...] = ()  # x of the broken ends, 0 and ``wide`` of those that go on
    beyond: bool = False  # whether it may be drawn longer than ``wide``, where the paper has room


def product_section(product: Product, system: System, *, width: float = WIDE) -> Scaled | None:
    """The cuts through a product at the largest scale of details for which the paper has room.

    Parameters
    ----------
    product : Product
        A record of the line.
    system : "US" or "SI"
        Which scales.
    width : float
        The room on paper. [mm]

    Returns
    -------
    Scaled or None
        None where the record says too little to draw: no thickness, or a product without a shape of its own.
    """
    details = _details(product)
    if not details:
        return None
    each = (width - APART * (len(details) - 1)) / len(details)
    room = each - GUTTER - BREAK - 0.6
    scales = _scales()[f"{system}-detail"]
    row = next((r for r in scales if all(_fits(d, r["ratio"], room) for d in details)), scales[-1])
    ratio, words = int(row["ratio"]), str(row["words"])
    defs: list[str] = []
    body: list[str] = []
    high = 0.0
    rooms = [*[each] * (len(details) - 1), each - SCALED]
    names = [wrapped(detail.name, room) for detail, room in zip(details, rooms, strict=True)]
    top = NAMED + (max(map(len, names)) - 1) * LEADING
    for n, detail in enumerate(details):
        left = n * (each + APART)
        body += [letters(left, (line + 0.8) * LEADING, said) for line, said in enumerate(names[n])]
        drawn = _drawn(detail, (left, top), each, ratio, f"product-{product.key}-{n}")
        defs += drawn[0]
        body += drawn[1]
        high = max(high, drawn[2])
    title = f"{product.name or product.key}, scale {words}"
    body.append(letters(width, 0.8 * LEADING, f"Scale {words}", anchor="end"))
    named = "; ".join(detail.name for detail in details)
    svg = picture(
        wide=width,
        high=high,
        title=title,
        description=f"Cut to the scale {words}: {named}.",
        defs=defs,
        body=body,
    )
    return Scaled(svg, ratio, words)


@cache
def _scales() -> dict[str, list[dict[str, Any]]]:
    return tomllib.loads((files(__package__) / "scales.toml").read_text(encoding="utf-8"))


def _fits(detail: Detail, ratio: int, room: float) -> bool:
    return detail.wide * 1000.0 / ratio <= room and (detail.top - detail.bottom) * 1000.0 / ratio <= HIGHEST


def _details(product: Product) -> list[Detail]:
    if product.kind == "film" and product.lap is not None:
        return [_film_lap(product.lap.si, product.lap.typed)]
    if not product.made or product.family is None:
        return []
    made = min(product.made, key=lambda each: abs(each.thickness.si - USUAL))
    figure = str(table("foams")[product.family]["hatch"])
    if product.pattern:
        return [_knobs(product, made, figure)]
    if product.channels:
        return [_channels(product, made, figure)]
    drawable = [edge for edge in product.edges if edge.profile == "square" or edge.lap or edge.loses]
    return [_joint(product, made, edge, figure) for edge in drawable[:2]]


def _joint(product: Product, made: Made, edge: Edge, figure: str) -> Detail:
    """Two boards where they meet."""
    thick = made.thickness.si
    reach = edge.lap or edge.loses
    lap = reach.si if reach and edge.profile != "square" else 0.0
    side = max(0.9 * thick, 2.5 * lap)
    x, right, half = side, 2.0 * side + lap, thick / 2.0
    one = ((0.0, 0.0), (x + lap, 0.0), (x + lap, half), (x, half), (x, thick), (0.0, thick))
    other = ((x + lap, 0.0), (right, 0.0), (right, thick), (x, thick), (x, half), (x + lap, half))
    films: tuple[Outline, ...] = ()
    if product.facing:
        films = (((0.0, thick), (right, thick)),)
        films += (((0.0, 0.0), (right, 0.0)),) if product.facing.faces == "both" else ()
    order = ", to order" if edge.to_order else ""
    on = f" on {edge.sides} sides" if edge.sides else ""
    return Detail(
        name=f"{edge.profile.capitalize()}{on}{order}",
        wide=right,
        bottom=0.0,
        top=thick,
        bodies=(Body(one, figure), Body(other, figure)),
        heights=((0.0, thick, made.thickness.typed),),
        lengths=((x, x + lap, f"{'lap' if edge.lap else 'loses'} {reach.typed}"),) if reach and lap else (),
        films=films,
        ends=(0.0, right),
        beyond=True,
    )


def _knobs(product: Product, made: Made, figure: str) -> Detail:
    """A panel with knobs, cut through a row of them; the tube lies between."""
    pattern = product.pattern
    assert pattern is not None
    thick, knob, pitch = made.thickness.si, pattern.knob_height.si, pattern.pitch.si
    half = 0.5 * pitch * sqrt(pattern.knob_share.si)
    right = KNOBS * pitch
    outline: list[tuple[float, float]] = [(0.0, 0.0), (right, 0.0), (right, thick)]
    for n in reversed(range(KNOBS)):
        middle = (n + 0.5) * pitch
        outline += [(middle + half, thick), (middle + half, thick + knob), (middle - half, thick + knob)]
        outline += [(middle - half, thick)]
    outline.append((0.0, thick))
    tube = length(pattern.tubes[-1]).si if pattern.tubes else 0.0
    up = thick + pattern.centre_above_base.si
    tubes = tuple((n * pitch, up, tube / 2.0) for n in range(1, KNOBS, 2)) if tube else ()
    films: tuple[Outline, ...] = (tuple(outline[2:]),) if product.facing else ()
    heights = [(0.0, thick, made.thickness.typed), (thick, thick + knob, pattern.knob_height.typed)]
    middles = 1.5 * pitch, 2.5 * pitch
    return Detail(
        name=f"Through a row of knobs{f', with {pattern.tubes[-1]} tube' if tubes else ''}",
        wide=right,
        bottom=0.0,
        top=thick + knob,
        bodies=(Body(tuple(outline), figure),),
        heights=tuple(heights),
        lengths=((*middles, pattern.pitch.typed),),
        films=films,
        tubes=tubes,
        ends=(0.0, right),
    )


def _channels(product: Product, made: Made, figure: str) -> Detail:
    """A panel with channels, cut across them."""
    channels = product.channels
    assert channels is not None
    thick, deep, pitch, wide = made.thickness.si, channels.depth.si, channels.pitch.si, channels.width.si
    count = KNOBS - 1
    right = count * pitch
    outline: list[tuple[float, float]] = [(0.0, thick), (0.0, -deep)]
    for n in range(count):
        middle = (n + 0.5) * pitch
        outline += [(middle - wide / 2, -deep), (middle - wide / 2, 0.0), (middle + wide / 2, 0.0)]
        outline += [(middle + wide / 2, -deep)]
    outline += [(right, -deep), (right, thick)]
    first = 1.5 * pitch
    return Detail(
        name="Across the channels, which lie below",
        wide=right,
        bottom=-deep,
        top=thick,
        bodies=(Body(tuple(outline), figure),),
        heights=((-deep, 0.0, channels.depth.typed), (0.0, thick, made.thickness.typed)),
        lengths=(
            (first - wide / 2, first + wide / 2, channels.width.typed),
            (first + wide / 2, first + pitch - wide / 2, say.value(pitch - wide, "m", "US")),
        ),
        ends=(0.0, right),
    )


def _film_lap(lap: float, typed: str) -> Detail:
    """Two sheets of film where they lap; their thickness and the gap between them are not to scale."""
    side = SHOWN_OF_A_LAP * lap
    gap = 0.03 * lap
    right = 2.0 * side + lap
    under = ((0.0, 0.0), (side + lap, 0.0))
    over = ((side - 0.4 * lap, 0.0 + gap / 2), (side, gap * 2), (right, gap * 2))
    return Detail(
        name="Lap of two sheets, thickness not to scale",
        wide=right,
        bottom=-0.1 * lap,
        top=0.3 * lap,
        bodies=(),
        heights=(),
        lengths=((side, side + lap, typed),),
        films=(under, over[1:]),
        ends=(0.0, right),
    )


def _drawn(
    detail: Detail, corner: tuple[float, float], room: float, ratio: int, prefix: str
) -> tuple[list[str], list[str], float]:
    """Patterns, strokes, and the level of the lowest of it; ``corner`` is its upper left one. [mm]"""
    left, top = corner
    scale = 1000.0 / ratio
    gutter = GUTTER if detail.heights else 2.0
    stretched = _stretched(detail, (room - gutter - BREAK - 0.6) / scale)
    frame = Frame(left + gutter, top, (0.0, stretched.wide, stretched.bottom, stretched.top), scale)
    body = []
    defs = []
    thin = (stretched.top - stretched.bottom) * scale
    for n, each in enumerate(stretched.bodies):
        key = f"{prefix}-{n}"
        defs.append(hatch.pattern(each.hatch, key, frame.left, frame.bottom, thin))
        shape = frame.path(each.outline, closed=True)
        body.append(f'<path d="{shape}" fill="url(#{key})"/>')
        body.append(stroke(_without_ends(each.outline, stretched.ends, frame), LINE))
    body += [_tube(frame, *tube) for tube in stretched.tubes]
    body += [
        stroke(frame.path(film, closed=False), HEAVY, extra=' stroke-dasharray="5 1.2"') for film in stretched.films
    ]
    if stretched.bodies:
        body += [_broken(frame, x, stretched) for x in stretched.ends]
    span = frame.top - 2.0, frame.bottom + 2.0
    if stretched.heights:
        ups = [Stretch(frame.y(high), frame.y(low), (words,)) for low, high, words in stretched.heights]
        body.append(upright(ups, frame.left - 3.4, span, left=True))
    low = frame.bottom
    if stretched.lengths:
        alongs = [Stretch(frame.x(a), frame.x(b), (words,)) for a, b, words in stretched.lengths]
        body.append(level(alongs, frame.bottom + FOOT + 0.9, (frame.left, left + room)))
        low = frame.bottom + FOOT + 0.9 + level_high(alongs)
    return defs, body, low + 2.0


def _stretched(detail: Detail, wide: float) -> Detail:
    """The same with its ends moved out to fill the paper, at most to double its breadth."""
    if not detail.beyond or wide <= detail.wide:
        return detail
    end = min(wide, 2.0 * detail.wide)
    half = (end - detail.wide) / 2.0

    def placed(x: float) -> float:
        return end if abs(x - detail.wide) < SAME else x + half if x > SAME else x

    def moved(outline: Outline) -> Outline:
        return tuple((placed(x), y) for x, y in outline)

    return Detail(
        name=detail.name,
        wide=end,
        bottom=detail.bottom,
        top=detail.top,
        bodies=tuple(Body(moved(each.outline), each.hatch) for each in detail.bodies),
        heights=detail.heights,
        lengths=tuple((placed(a), placed(b), words) for a, b, words in detail.lengths),
        films=tuple(moved(each) for each in detail.films),
        tubes=detail.tubes,
        ends=(0.0, end),
    )


def _without_ends(outline: Outline, ends: Sequence[float], frame: Frame) -> str:
    """The outline without its upright sides where the piece goes on."""
    strokes = []
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if not (abs(x0 - x1) < SAME and any(abs(x0 - end) < SAME for end in ends)):
            strokes.append(f"M{mm(frame.x(x0))} {mm(frame.y(y0))}L{mm(frame.x(x1))} {mm(frame.y(y1))}")
    return "".join(strokes)


def _broken(frame: Frame, x: float, detail: Detail) -> str:
    """The line of practice where a piece goes on: straight, with a zigzag in its middle."""
    at = frame.x(x)
    ys = [y for each in detail.bodies for px, y in each.outline if abs(px - x) < SAME]
    if not ys:
        return ""
    top, foot = frame.y(max(ys)), frame.y(min(ys))
    middle = (top + foot) / 2
    data = (
        f"M{mm(at)} {mm(top - 1.2)}V{mm(middle - BREAK)}L{mm(at + BREAK)} {mm(middle - BREAK / 2)}"
        f"L{mm(at - BREAK)} {mm(middle + BREAK / 2)}L{mm(at)} {mm(middle + BREAK)}V{mm(foot + 1.2)}"
    )
    return stroke(data, HAIR)


def _tube(frame: Frame, x: float, y: float, radius: float) -> str:
    """A tube cut across: its ring, and the cross of its middle."""
    cx, cy, r = frame.x(x), frame.y(y), radius * frame.scale
    ring = f'<circle cx="{mm(cx)}" cy="{mm(cy)}" r="{mm(r)}" fill="none" stroke="{INK}" stroke-width="{FINE}"/>'
    cross = line(cx - 1.3 * r, cy, cx + 1.3 * r, cy, HAIR) + line(cx, cy - 1.3 * r, cx, cy + 1.3 * r, HAIR)
    return ring + cross
