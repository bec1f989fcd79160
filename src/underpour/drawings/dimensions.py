"""Dimension lines, with an oblique stroke at each end, and angles; the words as typed, where they can be read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, hypot, radians, sin

from ..sections.parts import Dimension, Section
from .clear import in_the_clear
from .lettering import LETTER, width
from .paper import HAIR, LINE, Box, Frame, Named, letters, line, mm, stroke

END = 0.9  # mm, half of the oblique stroke
OFF = 1.4  # mm from a line to words beside it
ARC = 9.0  # mm, radius of an angle's arc
LEVEL = 12.0  # mm, the level line that the arc starts from


def dimension_lines(section: Section, frame: Frame, taken: Sequence[Box]) -> Named:
    """The lines with their words, and the room that they take.

    Left out are those that leave the frame, and those whose words already end a body's name: a layer's thickness.
    """
    drawn: list[str] = []
    words: list[Box] = []
    lines: list[Box] = []
    for dimension in section.dimensions:
        (x0, y0), (x1, y1) = ((frame.x(x), frame.y(y)) for x, y in (dimension.start, dimension.end))
        named = any(part.label.endswith(dimension.words) for part in section.parts)
        if named or not all(_within(frame, x, y) for x, y in ((x0, y0), (x1, y1))):
            continue
        drawn.append(line(x0, y0, x1, y1, HAIR))
        drawn += [line(x - END, y + END, x + END, y - END, LINE) for x, y in ((x0, y0), (x1, y1))]
        text, box = _words(dimension, section, frame, (x0, y0, x1, y1), (*taken, *words))
        drawn.append(text)
        words.append(box)
        lines.append(Box(min(x0, x1) - END, min(y0, y1) - END, max(x0, x1) + END, max(y0, y1) + END))
    return Named("".join(drawn), tuple(words), (*words, *lines))


def angle_arcs(section: Section, frame: Frame, taken: Sequence[Box]) -> Named:
    """Each slope's angle: a level line from its foot, an arc up to the slope, and the words where they can be read."""
    drawn: list[str] = []
    words: list[Box] = []
    boxes: list[Box] = []
    for angle in section.angles:
        x, y = frame.x(angle.foot[0]), frame.y(angle.foot[1])
        if not (_within(frame, x, y) and _within(frame, x + LEVEL, y)):
            continue
        turn = radians(angle.degrees)
        arc = f"M{mm(x + ARC)} {mm(y)}A{ARC:g} {ARC:g} 0 0 0 {mm(x + ARC * cos(turn))} {mm(y - ARC * sin(turn))}"
        drawn += [line(x, y, x + LEVEL, y, HAIR), stroke(arc, HAIR)]
        wide = width(angle.words)
        places = [
            Box(x + ARC + OFF, y - OFF - LETTER, x + ARC + OFF + wide, y - OFF),
            *_beside((x, y, x + LEVEL, y), wide),
            *(Box(x + LEVEL + OFF, y + n - LETTER, x + LEVEL + OFF + wide, y + n) for n in range(12)),
        ]
        box = next((place for place in places if in_the_clear(section, frame, place, taken)), places[0])
        drawn.append(letters(box.left, box.bottom - 0.9, angle.words))
        words.append(box)
        boxes += [box, Box(x, y - ARC, x + LEVEL, y + 0.3)]
    return Named("".join(drawn), tuple(words), tuple(boxes))


def _words(
    dimension: Dimension,
    section: Section,
    frame: Frame,
    ends: tuple[float, float, float, float],
    taken: Sequence[Box],
) -> tuple[str, Box]:
    """The words and their box: along the line where they can be read there, else at the clearest place beside it."""
    said, (x0, y0, x1, y1) = dimension.words, ends
    wide, long = width(said), hypot(x1 - x0, y1 - y0)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    level = abs(x1 - x0) >= abs(y1 - y0)
    if level and wide < long - 1.0:
        return letters(x, y - 0.9, said, anchor="middle"), Box(x - wide / 2, y - LETTER, x + wide / 2, y)
    for along in _along(min(y0, y1), max(y0, y1), wide):
        box = Box(x - 0.9 - LETTER, along - wide / 2, x, along + wide / 2)
        if in_the_clear(section, frame, box, taken):
            return letters(x - 0.9, along, said, anchor="middle", turned=True), box
    places = list(_beside(ends, wide))
    box = next((place for place in places if in_the_clear(section, frame, place, taken)), places[0])
    return letters(box.left, box.bottom - 0.9, said), box


def _along(high: float, low: float, wide: float) -> Iterator[float]:
    """Middles of words turned along an upright line: its own middle, then further and further from it."""
    spare = (low - high - wide) / 2 - 0.5
    off = 0.0
    while off <= spare:
        yield from {(low + high) / 2 + off, (low + high) / 2 - off}
        off += 1.0


def _beside(ends: tuple[float, float, float, float], wide: float) -> Iterator[Box]:
    """Boxes for words beside a line: right and left of it from its lower end up, then below, above and at its ends."""
    x0, y0, x1, y1 = ends
    low, high, left, right, middle = max(y0, y1), min(y0, y1), min(x0, x1), max(x0, x1), (x0 + x1) / 2
    base = low
    while base > high:
        yield Box(right + OFF, base - LETTER, right + OFF + wide, base)
        yield Box(left - OFF - wide, base - LETTER, left - OFF, base)
        base -= 1.0
    yield Box(middle - wide / 2, low + OFF, middle + wide / 2, low + OFF + LETTER)
    yield Box(middle - wide / 2, high - OFF - LETTER, middle + wide / 2, high - OFF)
    for away in (2 * OFF, 4 * OFF, 6 * OFF, 8 * OFF):
        for start in (left - away - wide, right + away):
            yield Box(start, high - LETTER / 2, start + wide, high + LETTER / 2)


def _within(frame: Frame, x: float, y: float) -> bool:
    return frame.left - 0.1 <= x <= frame.right + 0.1 and frame.top - 0.1 <= y <= frame.bottom + 0.1
