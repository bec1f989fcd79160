"""Dimension lines: a thin line, an oblique stroke at each end, the words as typed."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from ..sections.parts import Dimension
from .lettering import LETTER, width
from .paper import HAIR, LINE, Box, Frame, letters, line

END = 0.9  # mm, half of the oblique stroke


def dimension_lines(dimensions: Sequence[Dimension], frame: Frame) -> tuple[str, tuple[Box, ...]]:
    """The lines with their words, and the room that the words take. Those that leave the frame are left out."""
    drawn, taken = [], []
    for dimension in dimensions:
        (x0, y0), (x1, y1) = ((frame.x(x), frame.y(y)) for x, y in (dimension.start, dimension.end))
        if not all(_within(frame, x, y) for x, y in ((x0, y0), (x1, y1))):
            continue
        drawn.append(line(x0, y0, x1, y1, HAIR))
        drawn += [line(x - END, y + END, x + END, y - END, LINE) for x, y in ((x0, y0), (x1, y1))]
        text, box = _words(dimension.words, x0, y0, x1, y1)
        drawn.append(text)
        taken.append(box)
    return "".join(drawn), tuple(taken)


def _words(words: str, x0: float, y0: float, x1: float, y1: float) -> tuple[str, Box]:
    wide, long = width(words), hypot(x1 - x0, y1 - y0)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    if abs(x1 - x0) >= abs(y1 - y0):
        x = x if wide < long - 1.0 else max(x0, x1) + wide / 2 + 1.6
        y = y - 0.9 if wide < long - 1.0 else y + LETTER / 3
        return letters(x, y, words, anchor="middle"), Box(x - wide / 2, y - LETTER, x + wide / 2, y + 1.0)
    if wide < long - 1.0:
        box = Box(x - 1.0 - LETTER, y - wide / 2, x, y + wide / 2)
        return letters(x - 0.9, y, words, anchor="middle", turned=True), box
    base = y + LETTER / 3
    return letters(x + 1.4, base, words), Box(x + 1.4, base - LETTER, x + 1.4 + wide, base + 1.0)


def _within(frame: Frame, x: float, y: float) -> bool:
    return frame.left - 0.1 <= x <= frame.right + 0.1 and frame.top - 0.1 <= y <= frame.bottom + 0.1
