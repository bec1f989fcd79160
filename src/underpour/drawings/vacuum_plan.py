"""Suction below the floor from above: tints and lines of equal vacuum, pits, footings, the weakest corner ringed."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from functools import cache
from importlib.resources import files
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..checks.soil_gas.suction import Rings, Suction
from ..measure import say
from ..measure.table import System
from ..outlines.floor import Floor
from ..outlines.outline import Outline
from ..physics.plates.slab import inside
from .airs import bar_breadth, scale_bar
from .contours import drawn_lines, lines_at, thinned
from .lettering import CAPITAL, HEADING, LETTER, cut_to
from .lettering import width as breadth
from .levels import levels, written
from .paper import BOLD, HAIR, HEAVY, LINE, Box, Frame, letters, mm, path, picture, rectangle, stroke
from .sheet_field import SheetField, carried
from .values import best_place, set_value, with_gap

HIGHEST = 110.0  # mm, of the plan
TITLE = "Suction below the floor, against the room at its worst"
RING = 3.0  # mm, radius of the ring at the weakest corner
SAMPLE = (8.0, 3.5)  # mm, of a tint in the key


def vacuum_plan(floor: Floor, suction: Suction, system: System, *, width: float) -> str:
    """Suction below a floor, as SVG of that breadth. [mm]"""
    left, right, low, high = _bounds(floor)
    scale = min((width - 0.8) / (right - left), HIGHEST / (high - low))
    frame = Frame((width - (right - left) * scale) / 2.0, HEADING * CAPITAL + 5.0, (left, right, low, high), scale)
    field = _laid(suction, frame, system)
    marks, steps = _steps(field)
    base = HEADING * CAPITAL + 1.0
    rings = "".join(frame.path(_chords(ring), closed=True) for ring in floor.rings)
    said = say.value(suction.weakest[2], "Pa", system)
    ring, box = _ringed(frame, suction, said, width)
    taken = [box]
    outlines = [_chords(each) for each in floor.rings]

    def layer(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.int64]:
        """Nought where a point of the sheet lies over the layer, below nought elsewhere."""
        across, up = frame.metres(x, y)
        there = inside(outlines, across, up) & ~_in_any(suction.footings, across, up)
        return np.where(there, 0, -1)

    body = [
        letters(
            0.0, base, cut_to(TITLE, width - bar_breadth(scale, system) - 4.0, HEADING, 600), size=HEADING, weight=600
        ),
        scale_bar(width - 0.4, base, scale, system),
        f'<g clip-path="url(#layer)">{_tinted(field, frame, marks)}{"".join(_lines(field, steps, taken, layer))}</g>',
        *(
            f'<path d="{frame.path(each, closed=True)}" fill="#FFFFFF" stroke="#182A2E" stroke-width="{HAIR:g}"/>'
            for each in suction.footings
        ),
        stroke(rings, HEAVY),
        *(_pit(frame, pit, n) for n, pit in enumerate(suction.pits, start=1)),
        ring,
        *_key(frame.bottom + 4.0, marks, system),
    ]
    clip = f'<clipPath id="layer"><path d="{rings}" clip-rule="evenodd"/></clipPath>'
    return picture(
        wide=width,
        high=frame.bottom + 4.0 + SAMPLE[1] + 1.5 * LETTER,
        title=TITLE,
        description=vacuum_in_words(suction, system),
        defs=[clip],
        body=body,
    )


def vacuum_in_words(suction: Suction, system: System) -> str:
    """What the picture shows, for whoever does not see it."""
    count = len(suction.pits)
    pits = "one pit" if count == 1 else f"{count} pits"
    least = say.both(suction.weakest[2], "Pa", system)
    return f"The floor from above with {pits} and lines of equal suction; the weakest corner has {least}."


@cache
def _tints() -> tuple[str, ...]:
    told = tomllib.loads(files(__package__).joinpath("vacuum.toml").read_text(encoding="utf-8"))
    return tuple(told["tints"])


def _bounds(floor: Floor) -> tuple[float, float, float, float]:
    boxes = [side.box for side in floor.outline.sides]
    return min(b[0] for b in boxes), max(b[1] for b in boxes), min(b[2] for b in boxes), max(b[3] for b in boxes)


def _in_any(rings: Rings, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.bool_]:
    found = np.zeros(np.shape(x), bool)
    for ring in rings:
        found |= inside([ring], x, y)
    return found


def _chords(ring: Outline) -> list[tuple[float, float]]:
    return [
        side.at(side.length * n / parts)
        for side in ring.sides
        for parts in [24 if side.bulge else 1]
        for n in range(parts)
    ]


def _laid(suction: Suction, frame: Frame, system: System) -> SheetField:
    """The field on the sheet in the reader's unit, carried a little over its edge."""
    values = carried(suction.net.T[::-1].astype(float), 4) * say.number(1.0, "Pa", system)
    return SheetField(frame.x(suction.x.astype(float)), frame.y(suction.y.astype(float))[::-1], values)


def _steps(field: SheetField) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Bounds between tints, and the lines; both are of what most of the floor has, not of the pit."""
    usual, low = float(np.nanquantile(field.degrees, 0.9)), float(np.nanmin(field.degrees))
    lines = tuple(level for level in levels(max(usual, 1e-9), 8) if level > low)
    return lines[1::2][: len(_tints()) - 1], lines


def _tinted(field: SheetField, frame: Frame, bounds: tuple[float, ...]) -> str:
    drawn = [rectangle(frame.left, frame.top, frame.width, frame.height, _tints()[0])]
    for bound, tint in zip(bounds, _tints()[1:], strict=False):
        points, offsets = field.contours.filled(bound, np.inf)
        data = "".join(
            path(thinned(ring[a:b]), closed=True)
            for ring, ends in zip(points, offsets, strict=True)
            for a, b in pairwise(ends)
        )
        drawn.append(f'<path d="{data}" fill="{tint}" fill-rule="evenodd"/>')
    return "".join(drawn)


def _lines(
    field: SheetField, steps: tuple[float, ...], taken: list[Box], layer: Callable[[Any, Any], Any]
) -> Iterator[str]:
    for n, level in enumerate(steps):
        pen = LINE if n % 5 == 4 else HAIR
        lines, words = lines_at(field, level), written(level, steps)
        place = best_place(
            lines,
            words,
            spacing_at=lambda x, y: steps[0] / np.maximum(field.steepness(x, y), 1e-12),
            body_at=layer,
            taken=taken,
        )
        if place is None:
            yield drawn_lines(lines, pen)
            continue
        taken.append(place.box)
        lines = [*lines[: place.line], *with_gap(lines[place.line], place.box), *lines[place.line + 1 :]]
        yield drawn_lines(lines, pen) + set_value(place, words)


def _pit(frame: Frame, pit: tuple[float, float, float], number: int) -> str:
    x, y, r = frame.x(pit[0]), frame.y(pit[1]), max(pit[2] * frame.scale, 1.2)
    circle = f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{mm(r)}" fill="#FFFFFF" stroke="#182A2E" stroke-width="{LINE:g}"/>'
    return circle + letters(x + r + 1.0, y + CAPITAL * LETTER / 2.0, f"pit {number}", weight=600)


def _ringed(frame: Frame, suction: Suction, said: str, width: float) -> tuple[str, Box]:
    x, y = float(frame.x(suction.weakest[0])), float(frame.y(suction.weakest[1]))
    words = f"weakest: {said}"
    room = breadth(words, LETTER, 600)
    left = min(max(x - room / 2.0, frame.left + 1.0), frame.right - room - 1.0)
    inward = 1.0 if y < (frame.top + frame.bottom) / 2.0 else -1.0
    base = y + inward * (RING + LETTER) + (CAPITAL * LETTER / 2.0)
    ring = f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{mm(RING)}" fill="none" stroke="#182A2E" stroke-width="{BOLD:g}"/>'
    box = Box(left - 1.0, base - LETTER, left + room + 1.0, base + 1.0)
    return ring + letters(left, base, words, weight=600), box


def _key(top: float, bounds: tuple[float, ...], system: System) -> Iterator[str]:
    unit = say.name("Pa", system)
    for n, tint in enumerate(_tints()[: len(bounds) + 1]):
        left = n * (SAMPLE[0] + 14.0)
        words = f"from {bounds[n - 1]:.3g}" if n else f"below {bounds[0]:.3g}" if bounds else ""
        yield rectangle(left, top, *SAMPLE, tint) + letters(left, top + SAMPLE[1] + LETTER, words)
    yield letters((len(bounds) + 1) * (SAMPLE[0] + 14.0), top + SAMPLE[1] + LETTER, unit)
