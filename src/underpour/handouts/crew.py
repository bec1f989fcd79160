"""What is handed to a crew: its sheet with plans of panels and film, and a label for each sawn piece."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..laying.sequence import stages
from ..laying.table import caution
from ..laying.things import things
from ..papers.crew_sheet import TALL, WIDE, ForCrew
from ..papers.pictures import Picture
from ..sections.build import section

if TYPE_CHECKING:
    from ..measure.table import System
    from ..resolve import Resolved
    from ..takeoff import LaidLayer, Takeoff

PART = 132.0  # mm, how high a part of a large floor may be
LYING, STANDING = (WIDE, 108.0), (TALL, 172.0)  # mm, a plan on a sheet, and how high the floor in it may be
CAUTIONS = ("lifting", "unloading", "wind", "saw", "hot-wire", "fire", "code")


def for_crew(resolved: Resolved, takeoff: Takeoff) -> ForCrew:
    """Drawings, works in their order and cautions beside what was counted."""
    from ..drawings.film_plan import film_picture
    from ..drawings.over_all import crew_frame

    plan, system = resolved.plan, resolved.system
    wide, high = max(LYING, STANDING, key=lambda sheet: crew_frame(plan.floor, *sheet).scale)
    there = things(resolved, {edge.letter: section(resolved, edge) for edge in resolved.edges})
    panels = [tuple(_panel_plans(layer, system, wide, high)) for layer in takeoff.layers]
    films = [
        Picture(
            film.words,
            film_picture(film.plan, film, system, width=wide, height=high, worded=False),
            "",
            f"Plan of {len(film.strips)} strips of film with their laps.",
            wide=wide,
        )
        for film in takeoff.films
    ]
    works = tuple(stage.work for stage in stages(there, system))
    return ForCrew(resolved, takeoff, works, tuple(panels), tuple(films), tuple(map(caution, CAUTIONS)))


def _panel_plans(layer: LaidLayer, system: System, wide: float, high: float) -> Iterator[Picture]:
    """The whole layer, then each part of it where it is too large to be read on one sheet."""
    from ..drawings.panel_parts import panel_part, windows
    from ..drawings.panel_plan import panel_plan

    every = windows(layer, WIDE, PART)
    whole = panel_plan(layer.plan, layer, system, width=wide, height=high, worded=False, windows=every)
    told = f"Plan of {layer.layout.panels} panels in rows, sawn pieces shaded and numbered."
    yield Picture(layer.words, whole, "", told, wide=wide)
    for number in range(1, len(every) + 1):
        part = panel_part(layer, every, number, system, width=WIDE, height=PART)
        yield Picture(layer.words, part, "", f"Part {number} of {len(every)} of that plan, larger.", wide=WIDE)
