"""The frame of a crew's plan, with the floor's length and breadth over all beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import say
from ..measure.table import System
from ..outlines.floor import Floor
from .lettering import LETTER
from .paper import HAIR, LINE, Box, Frame, letters, line
from .plan import AROUND, HEAD, box_of

LEFT, RIGHT, UNDER = 20.0, 21.0, 21.0  # mm beside and below the floor for letters and dimensions
OFF = 2.5  # mm from the letters of edges to a dimension line
END = 0.9  # mm, half of the oblique stroke


def crew_frame(floor: Floor, wide: float, high: float) -> Frame:
    """The floor as large as it fits with what stands around it. [mm]"""
    boxes = [side.box for side in floor.outline.sides]
    x0, x1 = min(box[0] for box in boxes), max(box[1] for box in boxes)
    y0, y1 = min(box[2] for box in boxes), max(box[3] for box in boxes)
    scale = min((wide - LEFT - RIGHT) / (x1 - x0), high / (y1 - y0))
    left = LEFT + (wide - LEFT - RIGHT - (x1 - x0) * scale) / 2.0
    return Frame(left, HEAD + AROUND, (x0, x1, y0, y1), scale)


def over_all(frame: Frame, system: System, taken: Sequence[Box]) -> Iterator[str]:
    """Length and breadth of the floor, below it and at its right, beyond what is taken there already."""
    x0, x1, y0, y1 = frame.window
    base = max([frame.bottom, *(box.bottom for box in taken)]) + OFF
    right = max([frame.right, *(box.right for box in taken)]) + OFF
    yield line(frame.left, base, frame.right, base, HAIR)
    yield line(right, frame.top, right, frame.bottom, HAIR)
    for x in (frame.left, frame.right):
        yield line(x, base - 2.0, x, base + 2.0, HAIR) + line(x - END, base + END, x + END, base - END, LINE)
    for y in (frame.top, frame.bottom):
        yield line(right - 2.0, y, right + 2.0, y, HAIR) + line(right - END, y + END, right + END, y - END, LINE)
    middle = (frame.top + frame.bottom) / 2.0
    yield letters((frame.left + frame.right) / 2.0, base + LETTER, say.both(x1 - x0, "m", system), anchor="middle")
    yield letters(right + LETTER, middle, say.both(y1 - y0, "m", system), anchor="middle", turned=True)


def on_the_floor(box: Box, floor: Floor, frame: Frame, taken: Sequence[Box]) -> bool:
    """Whether words find room there: all of the place is floor, and nothing else is written on it."""
    corners = [frame.metres(x, y) for x in (box.left, box.right) for y in (box.top, box.bottom)]
    return (
        all(floor.holds(corner) for corner in corners)
        and not any(each.outline.holds(corner) for each in floor.obstacles for corner in corners)
        and not any(box.meets(other) for other in taken)
    )


def named_obstacles(floor: Floor, frame: Frame) -> list[Box]:
    """What stands in the floor, with its name."""
    return [box_of(each, frame) for each in floor.obstacles]
