"""A load on the slab seen from above: how far the floor goes down around it, and what the foam below feels."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil
from random import Random

import numpy as np
from numpy.typing import NDArray

from ..checks.bearing import Around, Borne
from ..measure import say
from ..measure.table import System
from ..physics.plates.slab import Ring
from . import colours
from .airs import bar_breadth, scale_bar
from .carried_words import plan_in_words, worst_place
from .contours import drawn_lines, lines_at
from .lettering import CAPITAL, HEADING, LETTER, cut_to, width, wrapped
from .levels import levels, written
from .paper import BOLD, HAIR, HEAVY, INK, LINE, Box, Frame, letters, mm, picture, stroke
from .sheet_field import SheetField
from .values import best_place, set_value, with_gap

BETWEEN = 5.0  # mm from one plan to the other
HIGHEST = 62.0  # mm, one plan
LINES = 7  # contours, about
FINE_STEP = 0.8  # mm, of the grid that is drawn
DENSE = 0.92  # mm from dot to dot where the foam feels most
EVEN = 1.324717957244746  # root of x³ = x + 1: its powers give points that never crowd (Roberts 2018, from memory)
DOT = 0.34  # mm
SAMPLE = (0.25, 0.5, 1.0)  # of the largest pressure, in the key
KEY = (9.0, 4.6)  # mm, a sample of the dots
ROW = LETTER * 1.25  # mm
NOTE = "Lines of equal value; the worst place ringed; denser dots press harder."


@dataclass(frozen=True, slots=True)
class _Panel:
    """One of the two plans on the sheet."""

    frame: Frame
    field: SheetField  # in the reader's unit
    unit: str


def carried_plan(borne: Borne, system: System, *, width: float) -> str:
    """Settlement and pressure on the foam around one load, beside each other.

    Parameters
    ----------
    borne : Borne
        A load that has been worked out.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. Settlement as contours; pressure as dots, denser is more, with contours of
        its own and the worst place ringed. The free edge of the slab is a heavy line.
    """
    around = borne.around
    assert around is not None
    window = _window(around)
    wide, stacked = _breadth(window, width)
    scale = min(wide / (window[1] - window[0]), HIGHEST / (window[3] - window[2]))
    head = _head(borne, width)
    top = len(head) * ROW + HEADING * CAPITAL + 3.0 + ROW + 1.6
    first = Frame(0.4, top, window, scale)
    second = Frame(first.left, first.bottom + ROW + 4.0, window, scale) if stacked else _beside(first, wide)
    down = _Panel(first, _laid(around.soft.settlement * 1000.0, around, first, "mm", system), "mm")
    foam = _Panel(second, _laid(around.stiff.pressure / 1000.0, around, second, "kPa", system), "kPa")
    base, bar = HEADING * CAPITAL + 1.0, bar_breadth(scale, system)
    body = [
        letters(
            0.0,
            base,
            cut_to(f"Load {borne.number} seen from above", width - bar - 4.0, HEADING, 600),
            size=HEADING,
            weight=600,
        ),
        scale_bar(width - 0.4, base, scale, system),
        *(letters(0.0, base + 2.0 + (n + 1) * ROW, said) for n, said in enumerate(head)),
        *_down(down, around, system),
        *_on_foam(foam, borne, around, system),
    ]
    foot = second.bottom + 4.0
    body += _key(around, system, foot, width - 0.8, limit=_limit(borne, foam, system))
    return picture(
        wide=width,
        high=foot + KEY[1] + 2.0 * ROW + 1.6,
        title=f"Load {borne.number} seen from above",
        description=plan_in_words(borne, system),
        defs=[_clip("down", first), _clip("foam", second)],
        body=body,
    )


def _head(borne: Borne, room: float) -> list[str]:
    where = f", {borne.where}" if borne.where else ""
    return wrapped(f"{borne.words}{where}.", room)


def _window(around: Around) -> tuple[float, float, float, float]:
    """What is shown: where the field is known. [m]"""
    x, y = around.stiff.x.astype(float), around.stiff.y.astype(float)
    soft_x, soft_y = around.soft.x.astype(float), around.soft.y.astype(float)
    # the stiffer bed has the smaller field; the softer one is cut to it
    return (
        float(max(x[0], soft_x[0])),
        float(min(x[-1], soft_x[-1])),
        float(max(y[0], soft_y[0])),
        float(min(y[-1], soft_y[-1])),
    )


def _breadth(window: tuple[float, float, float, float], width: float) -> tuple[float, bool]:
    """Breadth of one plan, and whether the two stand below each other: whichever draws them larger. [mm]"""
    across, up = window[1] - window[0], window[3] - window[2]
    half = (width - BETWEEN) / 2.0 - 0.4
    beside, below = min(half / across, HIGHEST / up), min((width - 0.8) / across, HIGHEST / up)
    return (width - 0.8, True) if below > 1.6 * beside else (half, False)


def _beside(first: Frame, wide: float) -> Frame:
    return Frame(first.left + max(wide, first.width) + BETWEEN, first.top, first.window, first.scale)


def _laid(values: NDArray[np.float32], around: Around, frame: Frame, unit: str, system: System) -> SheetField:
    """A field on fine lines of the sheet, in the reader's unit; smooth between its own lines."""
    field = around.soft if unit == "mm" else around.stiff
    x = np.linspace(frame.left, frame.right, ceil(frame.width / FINE_STEP) + 1)
    y = np.linspace(frame.top, frame.bottom, ceil(frame.height / FINE_STEP) + 1)
    across, up = frame.metres(x, y)
    return SheetField(x, y, say.number(1.0, unit, system) * field.between(values, across, up[::-1])[::-1])


def _clip(name: str, frame: Frame) -> str:
    box = f'x="{mm(frame.left)}" y="{mm(frame.top)}" width="{mm(frame.width)}" height="{mm(frame.height)}"'
    return f'<clipPath id="{name}"><rect {box}/></clipPath>'


def _down(panel: _Panel, around: Around, system: System) -> list[str]:
    largest = say.value(1000.0 * around.settlement, "mm", system)
    taken = [_box_of(ring, panel.frame) for ring in around.patches]
    return [
        _titled(panel.frame, f"How far the floor goes down: up to {largest}"),
        f'<g clip-path="url(#down)">{"".join(_contours(panel, taken))}</g>',
        *_marks(around, panel.frame),
    ]


def _on_foam(panel: _Panel, borne: Borne, around: Around, system: System) -> list[str]:
    row, column = worst_place(around.stiff.pressure)
    x = float(panel.frame.x(float(around.stiff.x[column])))
    y = float(panel.frame.y(float(around.stiff.y[row])))
    what = "the foam" if any(share.part == "foam" for share in borne.shares) else "the ground"
    taken = [_box_of(ring, panel.frame) for ring in around.patches]
    said = say.value(around.pressure / 1000.0, "kPa", system)
    ring, box = _ringed(x, y, said, panel.frame)
    taken.append(box)
    dots = _stipple(panel)
    lined = _contours(panel, taken, _limit(borne, panel, system))
    return [
        _titled(panel.frame, f"What {what} below feels: up to {said}"),
        f'<g clip-path="url(#foam)">{dots}{"".join(lined)}</g>',
        *_marks(around, panel.frame),
        ring,
    ]


def _limit(borne: Borne, panel: _Panel, system: System) -> float | None:
    """What the foam bears in the reader's unit, where the picture has a place that feels as much."""
    foam = next((share for share in borne.shares if share.part == "foam"), None)
    if foam is None:
        return None
    bears = say.number(foam.bears / 1000.0, "kPa", system)
    return bears if bears < float(np.nanmax(panel.field.degrees)) else None


def _contours(panel: _Panel, taken: list[Box], limit: float | None = None) -> Iterable[str]:
    """Lines of equal value with their values in gaps; what the foam bears as a heavy one."""
    all_levels = levels(float(np.nanmax(panel.field.degrees)), LINES)
    if limit is not None:
        yield _contour(panel, limit, f"bears {limit:.3g}", HEAVY, all_levels[0], taken)
    for n, level in enumerate(all_levels):
        pen = LINE if n % 5 == 4 else HAIR
        yield _contour(panel, level, written(level, all_levels), pen, all_levels[0], taken)


def _contour(panel: _Panel, level: float, words: str, pen: float, step: float, taken: list[Box]) -> str:
    """The lines of one value, with it in a gap where that finds room."""
    lines = lines_at(panel.field, level)
    place = best_place(
        lines,
        words,
        spacing_at=lambda x, y: step / np.maximum(panel.field.steepness(x, y), 1e-12),
        body_at=lambda x, y: _within(panel.frame, x, y),
        taken=taken,
    )
    if place is None:
        return drawn_lines(lines, pen)
    taken.append(place.box)
    lines = [*lines[: place.line], *with_gap(lines[place.line], place.box), *lines[place.line + 1 :]]
    return drawn_lines(lines, pen) + _clear(place.box) + set_value(place, words)


def _within(frame: Frame, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.intp]:
    inside = (x > frame.left) & (x < frame.right) & (y > frame.top) & (y < frame.bottom)
    return np.where(inside, 0, -1)


def _clear(box: Box) -> str:
    """Paper's white behind a value, so that no dot runs into it."""
    leaf = colours.light()["leaf"]
    wide, high = box.right - box.left, box.bottom - box.top
    return f'<rect x="{mm(box.left)}" y="{mm(box.top)}" width="{mm(wide)}" height="{mm(high)}" fill="{leaf}"/>'


def _stipple(panel: _Panel) -> str:
    """Dots as dense as the pressure is large, strewn evenly and always alike."""
    frame, field = panel.frame, panel.field
    number = int(frame.width * frame.height / DENSE**2)
    first, second, third = _strewn(number)
    x, y = frame.left + first * frame.width, frame.top + second * frame.height
    share = np.nan_to_num(field.at(x, y)) / float(np.nanmax(field.degrees))
    kept = share > third
    return _dots(np.stack([x[kept], y[kept]], -1))


def _strewn(number: int) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Points of a cube, strewn evenly and always alike: two places on the sheet, and from what share on each shows."""
    n, chance = np.arange(1, number + 1), Random(17)
    shows = np.array([chance.random() for _ in range(number)])
    return (0.5 + n / EVEN) % 1.0, (0.5 + n / EVEN**2) % 1.0, shows


def _dots(places: NDArray[np.float64]) -> str:
    """Dots as one path, each a line without a length, in tenths of a millimetre."""
    data = "".join(f"M{round(10 * x) / 10:g} {round(10 * y) / 10:g}h0" for x, y in places)
    return f'<path d="{data}" stroke="{INK}" stroke-width="{DOT:g}" stroke-linecap="round"/>' if data else ""


def _marks(around: Around, frame: Frame) -> list[str]:
    """Each patch of load as it presses, and the slab's free edge."""
    leaf = colours.light()["leaf"]
    drawn = [
        f'<path d="{frame.path(ring, closed=True)}" fill="{leaf}" fill-opacity="0.55" stroke="{INK}" '
        f'stroke-width="{BOLD:g}"/>'
        for ring in around.patches
    ]
    drawn.append(stroke(frame.path(_corners(frame), closed=True), HAIR, colour=colours.light()["rule"]))
    return drawn + [_edge(ring, frame) for ring in around.edges]


def _edge(ring: Ring, frame: Frame) -> str:
    """The part of a free edge that lies within the window, drawn right up to its border."""
    x0, x1, y0, y1 = frame.window
    data, near = [], 1e-3
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        cut = _cut((ax, ay), (bx, by), (x0 - near, x1 + near, y0 - near, y1 + near))
        if cut is not None:
            data.append(frame.path(cut, closed=False))
    return stroke("".join(data), HEAVY) if data else ""


def _cut(
    start: tuple[float, float], end: tuple[float, float], box: tuple[float, float, float, float]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The part of a straight line within a box, by Liang and Barsky's way; None where there is none."""
    (ax, ay), (bx, by) = start, end
    first, last = 0.0, 1.0
    for begin, change, low, high in ((ax, bx - ax, box[0], box[1]), (ay, by - ay, box[2], box[3])):
        if change == 0.0:
            if not low <= begin <= high:
                return None
            continue
        one, two = sorted(((low - begin) / change, (high - begin) / change))
        first, last = max(first, one), min(last, two)
    if first >= last:
        return None
    return (ax + first * (bx - ax), ay + first * (by - ay)), (ax + last * (bx - ax), ay + last * (by - ay))


def _corners(frame: Frame) -> Sequence[tuple[float, float]]:
    x0, x1, y0, y1 = frame.window
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _box_of(ring: Ring, frame: Frame) -> Box:
    xs = [float(frame.x(x)) for x, _ in ring]
    ys = [float(frame.y(y)) for _, y in ring]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _ringed(x: float, y: float, words: str, frame: Frame) -> tuple[str, Box]:
    """The worst place in a ring, its value beside it on whichever side has room."""
    reach, wide = 2.4, width(words, weight=600)
    right = x + reach + 1.0 + wide < frame.right
    left = x + reach + 1.0 if right else x - reach - 1.0 - wide
    base = min(max(y + LETTER * CAPITAL / 2, frame.top + LETTER), frame.bottom - 0.8)
    box = Box(left - 0.5, base - LETTER * CAPITAL - 0.5, left + wide + 0.5, base + 0.6)
    drawn = f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{reach:g}" fill="none" stroke="{INK}" stroke-width="{BOLD:g}"/>'
    return drawn + _clear(box) + letters(left, base, words, weight=600), box


def _titled(frame: Frame, words: str) -> str:
    return letters(frame.left, frame.top - 1.6, cut_to(words, frame.width, weight=600), weight=600)


def _key(around: Around, system: System, top: float, room: float, *, limit: float | None) -> list[str]:
    """How dense the dots are for what pressure, and what the lines mean."""
    largest = around.pressure / 1000.0
    left, base, drawn = 0.4, top + 3.6, []
    for share in SAMPLE:
        frame = Frame(left, top, (0.0, KEY[0], 0.0, KEY[1]), 1.0)
        first, second, third = _strewn(int(KEY[0] * KEY[1] / DENSE**2))
        kept = share > third
        places = np.stack([frame.left + first[kept] * KEY[0], frame.top + second[kept] * KEY[1]], -1)
        drawn.append(_dots(places))
        drawn.append(stroke(frame.path(_corners(frame), closed=True), HAIR, colour=colours.light()["frame"]))
        words = say.value(share * largest, "kPa", system)
        drawn.append(letters(frame.right + 1.2, base, words))
        left = frame.right + 1.2 + width(words) + 4.0
    heavy = ["the slab's free edge"] if around.edges else []
    if limit is not None:
        heavy.append(f"what the foam bears: {limit:.3g} {say.name('kPa', system)}, exceeded here")
    note = f"{NOTE} Heavy: {', and '.join(heavy)}." if heavy else NOTE
    drawn += [
        letters(0.4, top + KEY[1] + (n + 1) * ROW, said, colour=colours.light()["note"])
        for n, said in enumerate(wrapped(note, room))
    ]
    return drawn
