"""The bodies of a section: hatches, outlines, films and the strokes along the ground."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..sections.parts import Part, Section
from . import hatch
from .paper import BOLD, FINE, HAIR, HEAVY, LINE, Frame, path, stroke
from .visible import NOTHING, covering, showing, uncovered

SMALL = 30.0  # mm for each metre; drawings below that take the next thinner pens
STROKE = 1.8  # mm long, along the ground
GROUP = 4.6  # mm from one group of strokes to the next


def is_ground(part: Part) -> bool:
    return hatch.is_ground(part.hatch)


def patterns(section: Section, frame: Frame, prefix: str) -> list[str]:
    """Patterns for the defs, one a body in the order of the parts, "" where a body bears none."""
    return [
        hatch.pattern(part.hatch, f"{prefix}-hatch-{k}", *_seat(part, frame)) for k, part in enumerate(section.parts)
    ]


def hatches(section: Section, frame: Frame, prefix: str, fills: Sequence[str]) -> str:
    """Hatch of each body where it shows, as ``fills`` holds it in the defs."""
    drawn = []
    for k, part in enumerate(section.parts):
        if not fills[k]:
            continue
        body = f'<path d="{frame.path(part.outline, closed=True)}" fill="url(#{prefix}-hatch-{k})"/>'
        drawn.append(uncovered(body, covering(section.parts, k), prefix))
    return "".join(drawn)


def outlines(section: Section, frame: Frame, prefix: str) -> str:
    """Outlines of all bodies but the ground; the cut face of concrete and masonry is the heavier one."""
    drawn = []
    cut = BOLD if frame.scale > SMALL else LINE
    for k, part in enumerate(section.parts):
        if is_ground(part):
            continue
        pen = cut if part.hatch in ("concrete", "concrete-old", "screed", "masonry", "steel") else FINE
        broken = hatch.BROKEN if part.hatch == "concrete-old" else ""
        body = stroke(frame.path(part.outline, closed=True), pen, extra=broken)
        drawn.append((pen, uncovered(body, covering(section.parts, k), prefix)))
    return _strata(section, frame, prefix) + "".join(body for _, body in sorted(drawn, key=lambda d: d[0]))


def _strata(section: Section, frame: Frame, prefix: str) -> str:
    """A broken line where one layer of ground ends and the next begins."""
    drawn = []
    for k, part in list(enumerate(section.parts))[1:]:
        if is_ground(part):
            level = max(y for _, y in part.outline)
            ends = [x for x, y in part.outline if y == level]
            top = stroke(frame.path(((min(ends), level), (max(ends), level)), closed=False), FINE, extra=hatch.BROKEN)
            drawn.append(uncovered(top, covering(section.parts, k), prefix))
    return "".join(drawn)


def films(section: Section, frame: Frame) -> str:
    """Vapour retarders: a heavy line in long dashes."""
    pen = HEAVY if frame.scale > SMALL else BOLD
    return "".join(
        stroke(frame.path(film.line, closed=False), pen, extra=' stroke-dasharray="5 1.2"') for film in section.films
    )


def ground_line(section: Section, frame: Frame) -> str:
    """The finished ground outside with its groups of three strokes, wherever ground meets the air."""
    drawn = []
    level = frame.y(section.ground_level)
    for left, right in _open_ground(section, frame):
        drawn.append(stroke(path([(left, level), (right, level)], closed=False), LINE))
        strokes = []
        for n, start in enumerate(np.arange(left + 0.8, right - STROKE - 1.6, GROUP)):
            for k in range(3):
                x, lean = start + 0.75 * k, STROKE * 0.7
                ends = ((x + lean, level), (x, level + lean)) if n % 2 else ((x, level), (x + lean, level + lean))
                strokes.append(path(ends, closed=False))
        drawn.append(stroke("".join(strokes), HAIR))
    return "".join(drawn)


def _open_ground(section: Section, frame: Frame) -> list[tuple[float, float]]:
    """Stretches of the sheet where the ground's surface lies open. [mm]"""
    x = np.arange(frame.left, frame.right + 0.01, 0.1)
    metres, _ = frame.metres(x, 0.0)
    just = 1e-4
    below = showing(section.parts, metres, np.full_like(metres, section.ground_level - just))
    above = showing(section.parts, metres, np.full_like(metres, section.ground_level + just))
    ground = np.array([is_ground(part) for part in section.parts] + [False])
    is_open = np.r_[False, ground[below] & (above == NOTHING), False]
    turns = np.flatnonzero(np.diff(is_open.astype(int)))
    return [(float(x[a]), float(x[b - 1])) for a, b in zip(turns[::2], turns[1::2], strict=True)]


def water_line(section: Section, frame: Frame) -> str:
    """The ground water's level at the section's outer end: a triangle that stands on its tip, two strokes below it."""
    if section.water_level is None or not frame.top < frame.y(section.water_level) < frame.bottom:
        return ""
    return water_mark(frame.left + 8.0, float(frame.y(section.water_level)))


def water_mark(x: float, y: float) -> str:
    """The mark with its tip at a place on the sheet. [mm]"""
    triangle = path([(x, y), (x - 1.3, y - 2.2), (x + 1.3, y - 2.2)], closed=True)
    lines = path([(x - 3.2, y), (x + 3.2, y)], closed=False)
    lines += path([(x - 1.4, y + 0.8), (x + 1.4, y + 0.8)], closed=False)
    lines += path([(x - 0.6, y + 1.5), (x + 0.6, y + 1.5)], closed=False)
    return stroke(triangle, FINE) + stroke(lines, FINE)


def _seat(part: Part, frame: Frame) -> tuple[float, float, float]:
    """Middle and smaller breadth of a body on the sheet. [mm]"""
    xs, ys = zip(*part.outline, strict=True)
    wide, high = (max(xs) - min(xs)) * frame.scale, (max(ys) - min(ys)) * frame.scale
    return frame.x((min(xs) + max(xs)) / 2), frame.y((min(ys) + max(ys)) / 2), min(wide, high)
