"""The legend: one short row of the tints with the values between them; and the key of materials."""

from __future__ import annotations

from collections.abc import Iterable

from ..measure import say
from ..sections.parts import Section
from . import hatch
from .bodies import water_mark
from .frost import EVERY, FREEZING, TICK, TWIN
from .lettering import LETTER, cut_to, width
from .paper import BOLD, FINE, HAIR, HEAVY, LINE, letters, line, rectangle, stroke
from .scale import Scale

HIGH = 3.2  # mm, the row of tints
LEGEND_HIGH = HIGH + LETTER + 1.0
SWATCH = (9.0, 4.4)  # mm
FROST_WIDE = 66.0  # mm
FROST = ("frost line, ticks on the frozen side,", "double in ground that can heave")
WATER = ("water", "Water table")
ROW = 6.2  # mm from one row of the key to the next
FROST_HIGH = ROW + 1.25 * LETTER  # mm, two lines of letters


def legend(scale: Scale, left: float, top: float, room: float) -> str:
    """The row of tints, its values below, at most ``room`` wide. [mm]"""
    unit = say.name("degC", scale.system)
    wide = min(8.0, (room - width(unit) - 6.0) / len(scale.tints))
    widest = max(width(_said(mark)) for mark in scale.marks) + 1.2
    every = next(n for n in (1, 2, 5, 10, 50) if n * wide > widest or n == 50)
    drawn = [rectangle(left + k * wide, top, wide, HIGH, tint) for k, tint in enumerate(scale.tints)]
    right = left + wide * len(scale.tints)
    drawn.append(stroke(f"M{left:g} {top:g}H{right:.2f}V{top + HIGH:.2f}H{left:g}z", HAIR))
    base = top + HIGH + 0.8 * LETTER
    for k, mark in enumerate(scale.marks[1:-1], start=1):
        drawn.append(line(left + k * wide, top, left + k * wide, top + HIGH, LINE if scale.is_heavy(mark) else HAIR))
        if (mark // scale.spacing) % every == 0:
            drawn.append(letters(left + k * wide, base, _said(mark), anchor="middle"))
    drawn.append(letters(right + 1.5, top + HIGH - 0.4, unit))
    return "".join(drawn)


def frost_key(scale: Scale, left: float, top: float) -> str:
    """What the frost line is, for the legend; "" where nothing freezes. [mm]"""
    if not scale.levels[0] < FREEZING < scale.levels[-1]:
        return ""
    y = top + HIGH / 2
    places = [
        left + 1.2 + EVERY * k + aside for k in range(4) for aside in ((0.0,) if k < 2 else (-TWIN / 2, TWIN / 2))
    ]
    ticks = "".join(f"M{x:.2f} {y:.2f}v{-TICK:g}" for x in places)
    drawn = line(left, y, left + SWATCH[0], y, HEAVY) + stroke(ticks, LINE)
    return drawn + "".join(
        letters(left + SWATCH[0] + 1.6, y + 1.2 + n * 1.25 * LETTER, words) for n, words in enumerate(FROST)
    )


def materials(sections: Iterable[Section]) -> list[tuple[str, str]]:
    """Hatch and name of every material and film, each once, as first met; ground and ground water last."""
    met: dict[tuple[str, str], None] = {}
    for section in sections:
        met |= dict.fromkeys((part.hatch, part.label) for part in section.parts)
        met |= dict.fromkeys(("film", film.label) for film in section.films)
        if section.water_level is not None and section.water_level > section.window[2]:
            met[WATER] = None
    return sorted(met, key=lambda m: hatch.is_ground(m[0]) + 2 * (m == WATER))


def key(rows: list[tuple[str, str]], left: float, top: float, room: float, prefix: str) -> tuple[list[str], str, float]:
    """Swatches with their names in columns: what goes into the defs, what is drawn, and its height. [mm]"""
    wide = max((width(label) for _, label in rows), default=0.0) + SWATCH[0] + 6.0
    columns = max(1, min(len(rows), int(room / wide)))
    column = room / columns
    down = -(-len(rows) // columns)
    defs, drawn = [], []
    for n, (kind, label) in enumerate(rows):
        x, y = left + (n // down) * column, top + (n % down) * ROW
        filled, drawn_swatch = swatch(kind, f"{prefix}-key-{n}", x, y)
        defs.append(filled)
        drawn.append(drawn_swatch)
        said = cut_to(label, column - SWATCH[0] - 3.0)
        drawn.append(letters(x + SWATCH[0] + 1.6, y + 3.4, said))
    return defs, "".join(drawn), down * ROW


def swatch(kind: str, name: str, x: float, y: float) -> tuple[str, str]:
    """A small body of one material: its pattern, called ``name``, for the defs, and what is drawn. [mm]"""
    filled = hatch.pattern(kind, name, x + SWATCH[0] / 2, y + SWATCH[1] / 2, SWATCH[1])
    return filled, _swatch(kind, name if filled else "", x, y)


def _swatch(kind: str, fill: str, x: float, y: float) -> str:
    wide, high = SWATCH
    if kind == WATER[0]:
        return water_mark(x + wide / 2, y + high / 2)
    if kind == "film":
        return line(x, y + high / 2, x + wide, y + high / 2, HEAVY, extra=' stroke-dasharray="3.6 1"')
    box = f"M{x:.2f} {y:.2f}h{wide:g}v{high:g}h-{wide:g}z"
    inner = f'<path d="{box}" fill="url(#{fill})"/>' if fill else ""
    if hatch.is_ground(kind):
        if fill:
            return inner + stroke(box, HAIR)
        strokes = "".join(f"M{x + 2 + 0.9 * k:.2f} {y + 1:.2f}l1.3 1.8" for k in range(3))
        return line(x, y + 1, x + wide, y + 1, LINE) + stroke(strokes, HAIR)
    if kind == "concrete-old":
        return inner + stroke(box, BOLD, extra=hatch.BROKEN)
    return inner + stroke(box, BOLD if kind in ("concrete", "masonry") else FINE)


def _said(mark: int) -> str:
    return str(mark).replace("-", "\u2212")
