"""The use of the floor, and whether the room's temperature and the edges go with it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .. import catalogue
from ..catalogue.records import Use
from ..measure import Measure
from ..mistakes import Mistake
from .model import Project
from .paths import letter
from .tables.edge import Edge, Kind
from .tables.floor import FloorTable, Seasons

UNDER_THE_SKY: tuple[Kind, ...] = ("free-edge", "thickened-edge", "drawn")  # edges that ask for no wall
_WARMEST_ROOM = 40.0  # degC; above it a unit was mistaken, not a room kept


def unknown_use(project: Project) -> Iterator[Mistake]:
    """A use that the catalogue does not know."""
    try:
        catalogue.use(project.use)
    except Mistake as mistake:
        yield Mistake("project.use", mistake.typed, mistake.wrong, mistake.instead)


def unlikely_room(project: Project, floor: FloorTable) -> Iterator[Mistake]:
    """A room below 0 °C in a use that is no cold floor, too hot for any, or colder in summer than in winter.

    Nothing where the use is unknown.
    """
    try:
        use = catalogue.use(project.use)
    except Mistake:
        return
    if use.room is None:
        return
    let_go = nobody_heats(floor, use)
    if floor.inside == "unheated" or let_go:
        yield from _kept_all_the_same(use.cold_floor, _article(use.label), floor.cooled)
    if floor.cooled is False and use.cold_floor:
        wrong = f"{_article(use.label)} is kept cold all year."
        yield Mistake("floor.cooled", "", wrong, "Take cooled out, or write the use of a room that is let go.")
    if isinstance(floor.inside, Seasons) and floor.inside.winter.si > floor.inside.summer.si:
        winter, summer = floor.inside.winter.typed, floor.inside.summer.typed
        wrong = f"The two cross: this room would be kept at {summer} in summer, colder than at {winter} in winter."
        instead = "Swap them, or write the one temperature that it has all year."
        yield Mistake("floor.inside.summer", f'"{summer}"', wrong, instead)
    for at, room in _temperatures(floor):
        wrong = f"{_article(use.label)} is not kept at {room.typed}."
        if room.si < 0.0 and not use.cold_floor and not let_go:
            yield Mistake(at, "", wrong, 'A floor that is kept frozen is a cold store or a rink: use = "cold-store".')
        elif room.si > _WARMEST_ROOM:
            yield Mistake(at, "", wrong, "Write the room's usual temperature, such as 68 F or 20 C.")


def nobody_heats(floor: FloorTable, use: Use) -> bool:
    """Whether the room is let go in winter: so it is typed, or it freezes in winter and thaws in summer."""
    if use.room is None or use.cold_floor:
        return False
    inside = floor.inside
    return inside == "unheated" or (isinstance(inside, Seasons) and inside.winter.si < 0.0 <= inside.summer.si)


def _kept_all_the_same(cold_floor: bool, label: str, cooled: bool | None) -> Iterator[Mistake]:
    """A room that is said to be unheated and is kept at a temperature of its own."""
    if cold_floor:
        wrong = f"{label} is kept cold all year."
        yield Mistake("floor.inside", '"unheated"', wrong, "Write the temperature that it is kept at.")
    elif cooled:
        wrong = "A room that is kept cool in summer is kept at a temperature."
        instead = 'Take cooled out, or write inside = { winter = "40 F", summer = "75 F" }.'
        yield Mistake("floor.cooled", "", wrong, instead)


def _article(label: str) -> str:
    """
    >>> _article("Ice rink"), _article("Garage")
    ('An ice rink', 'A garage')
    """
    return f"{'An' if label[0] in 'AEIOU' else 'A'} {label[0].lower()}{label[1:]}"


def no_room_over_it(project: Project, floor: FloorTable | None, edges: Sequence[Edge | None]) -> Iterator[Mistake]:
    """What a slab outdoors cannot have: a room's air, and edges that stand under a wall."""
    try:
        use = catalogue.use(project.use)
    except Mistake:
        return
    if use.room is not None:
        return
    lies = f"A {use.label.lower()} lies outdoors"
    if floor is not None and floor.inside is not None:
        yield Mistake(
            "floor.inside",
            "",
            f"{lies}; there is no room over it to be kept warm.",
            "Take inside out, or write the use of the room, such as garage.",
        )
    if floor is not None and floor.humidity is not None:
        yield Mistake(
            "floor.humidity",
            "",
            f"{lies}; no room's humidity is asked for.",
            "Take humidity out, or write the use of the room, such as garage.",
        )
    if floor is not None and floor.summer_humidity is not None:
        yield Mistake(
            "floor.summer-humidity",
            "",
            f"{lies}; no room's humidity is asked for.",
            "Take summer-humidity out, or write the use of the room, such as garage.",
        )
    if floor is not None and floor.furnishing is not None:
        yield Mistake(
            "floor.furnishing",
            "",
            f"{lies}; nothing is asked of what stands on it.",
            "Take furnishing out, or write the use of the room, such as basement.",
        )
    if floor is not None and floor.cooled is not None:
        yield Mistake(
            "floor.cooled",
            "",
            f"{lies}; there is no room over it to be kept cool.",
            "Take cooled out, or write the use of the room, such as garage.",
        )
    for index, edge in enumerate(edges):
        if edge is not None and edge.kind not in UNDER_THE_SKY:
            yield Mistake(
                f"edge.{letter(index)}.kind",
                "",
                f"A {edge.kind} stands under a wall. {lies} and bears none.",
                f'Write kind = "free-edge". Edges without a wall: {", ".join(UNDER_THE_SKY)}.',
            )
        elif edge is not None and edge.beside not in ("outdoors", "heated"):
            yield Mistake(
                f"edge.{letter(index)}.beside",
                "",
                f"{lies}; the air beside it is that over it.",
                'Take beside out, or write beside = "heated" where the slab ends at a warm building.',
            )
        elif edge is not None and edge.above is not None:
            yield Mistake(
                f"edge.{letter(index)}.above",
                "",
                f"{lies}; no wall stands on its edge.",
                "Take above out, or write the use of the room, such as garage.",
            )


def _temperatures(floor: FloorTable) -> list[tuple[str, Measure]]:
    match floor.inside:
        case None | "unheated":
            return []
        case Seasons(winter=winter, summer=summer):
            return [("floor.inside.winter", winter), ("floor.inside.summer", summer)]
    return [("floor.inside", floor.inside)]
