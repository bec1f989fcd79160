"""Room and outdoors named where they are, the room's corner with its temperature, and the scale bar."""

from __future__ import annotations

from ..measure import say
from ..measure.table import System
from ..physics.conduction.field import Field, moment
from ..sections.parts import Section
from . import colours
from .lettering import HEADING, LETTER, width
from .paper import FINE, HAIR, LINE, Box, Frame, dot, letters, line, rectangle

FOOT = 0.3048  # m
BARS = {  # lengths of a scale bar (m) with their words; the longest that fits is drawn
    "SI": ((1.0, "1 m"), (0.5, "500 mm"), (0.2, "200 mm"), (0.1, "100 mm")),
    "US": ((3 * FOOT, "3 ft"), (FOOT, "1 ft"), (FOOT / 2, "6 in")),
}
LONGEST = 45.0  # mm


def air_temperature(field: Field, where: str, year_fraction: float) -> float | None:
    """Temperature of the room's or the outdoor air at a moment; None where the field does not tell. [degC]"""
    for name, mean, swing in field.airs:
        if name == where:
            return float(moment(mean, swing, year_fraction))  # type: ignore[arg-type]
    return None


def room_words(field: Field, where: str, year_fraction: float, system: System, name: str = "") -> str:
    """What stands in a space: its name, ``where`` unless it has another, and its temperature where it is known."""
    known = air_temperature(field, where, year_fraction)
    return name or where if known is None else f"{name or where} {say.value(known, 'degC', system)}"


def room_name(section: Section, frame: Frame, words: str) -> tuple[str, tuple[Box, ...]]:
    """The room's words in its upper corner."""
    base, end = frame.top + LETTER + 1.0, frame.right - 1.6
    if not any(air.where == "room" for air in section.airs):
        return "", ()
    return letters(end, base, words, anchor="end"), (Box(end - width(words), base - LETTER, end, base + 1.2),)


def outdoors_name(section: Section, frame: Frame, words: str) -> tuple[str, tuple[Box, ...]]:
    """The words of outdoors, above the ground and above the floor: a dimension may stand between the two."""
    if not any(air.where == "outdoors" for air in section.airs) or frame.y(section.ground_level) < frame.top:
        return "", ()
    higher = min(frame.y(section.ground_level), frame.y(section.corner[1]))
    start, base = frame.left + 1.6, max(higher - 2.0, frame.top + LETTER)
    return letters(start, base, words), (Box(start, base - LETTER, start + width(words), base + 1.2),)


def words_that_fit_outdoors(section: Section, field: Field, frame: Frame, year_fraction: float, system: System) -> str:
    """The longest words of outdoors that end before the wall; "" where not even its name does."""
    reach = [frame.x(max(x for x, _ in air.outline)) for air in section.airs if air.where == "outdoors"]
    offered = (room_words(field, "outdoors", year_fraction, system, section.beside), section.beside)
    room = max(reach, default=frame.left) - frame.left - 2 * 1.6
    return next((words for words in offered if width(words) <= room), "")


def corner_mark(section: Section, frame: Frame, words: str, below: str, colour: str) -> tuple[str, tuple[Box, ...]]:
    """The temperature of the place that is watched, large, with a line to it; ``below`` it what is wrong."""
    x, y = frame.x(section.watched[0]), frame.y(section.watched[1])
    left, base = x + 7.0, frame.y(section.corner[1]) - 7.0
    drawn = line(x, y, left - 1.0, base + 0.8, FINE) + dot(x, y, 0.8)
    drawn += letters(left, base, words, size=HEADING, weight=600, colour=colour)
    drawn += letters(left, base + 1.2 * LETTER, below, colour=colour)
    return drawn, (Box(x, base - HEADING, left + max(width(words, HEADING, 600), width(below)), y),)


def scale_bar(right: float, base: float, scale: float, system: System) -> str:
    """A bar of a round length, ending at ``right`` (mm), at ``scale`` mm for each metre."""
    length, words = _bar(scale, system)
    wide = length * scale
    halves = [(right - wide, colours.light()["ink"]), (right - wide / 2, colours.light()["leaf"])]
    drawn = "".join(rectangle(x, base - 1.1, wide / 2, 1.1, fill) for x, fill in halves)
    drawn += line(right - wide, base - 1.1, right, base - 1.1, HAIR) + line(right - wide, base, right, base, HAIR)
    drawn += line(right, base - 1.8, right, base, LINE) + line(right - wide, base - 1.8, right - wide, base, LINE)
    return drawn + letters(right - wide - 1.2, base, words, anchor="end")


def bar_breadth(scale: float, system: System) -> float:
    """Room that the scale bar takes with its words. [mm]"""
    length, words = _bar(scale, system)
    return length * scale + 1.2 + width(words)


def _bar(scale: float, system: System) -> tuple[float, str]:
    return next((bar for bar in BARS[system] if bar[0] * scale <= LONGEST), BARS[system][-1])
