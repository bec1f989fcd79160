"""The use of the floor, and whether the room's temperature goes with it."""

from __future__ import annotations

from collections.abc import Iterator

from .. import catalogue
from ..measure import Measure
from ..mistakes import Mistake
from .model import FloorTable, Project, Seasons

_WARMEST_ROOM = 40.0  # degC; above it a unit was mistaken, not a room kept


def unknown_use(project: Project) -> Iterator[Mistake]:
    """A use that the catalogue does not know."""
    try:
        catalogue.use(project.use)
    except Mistake as mistake:
        yield Mistake("project.use", mistake.typed, mistake.wrong, mistake.instead)


def unlikely_room(project: Project, floor: FloorTable) -> Iterator[Mistake]:
    """A room below 0 °C in a use that is no cold floor, or too hot for any; nothing where the use is unknown."""
    try:
        use = catalogue.use(project.use)
    except Mistake:
        return
    for at, room in _temperatures(floor):
        article = "An" if use.label[0] in "AEIOU" else "A"
        wrong = f"{article} {use.label[0].lower()}{use.label[1:]} is not kept at {room.typed}."
        if room.si < 0.0 and not use.cold_floor:
            yield Mistake(at, "", wrong, 'A floor that is kept frozen is a cold store or a rink: use = "cold-store".')
        elif room.si > _WARMEST_ROOM:
            yield Mistake(at, "", wrong, "Write the room's usual temperature, such as 68 F or 20 C.")


def _temperatures(floor: FloorTable) -> list[tuple[str, Measure]]:
    match floor.inside:
        case None:
            return []
        case Seasons(winter=winter, summer=summer):
            return [("floor.inside.winter", winter), ("floor.inside.summer", summer)]
    return [("floor.inside", floor.inside)]
