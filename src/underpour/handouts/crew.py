"""What is handed to a crew: its sheet with plans of panels and film, and a label for each sawn piece."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..laying.sequence import stages
from ..laying.table import caution
from ..laying.things import things
from ..papers.crew_sheet import TALL, WIDE, ForCrew
from ..papers.pictures import Picture
from ..sections.build import section

if TYPE_CHECKING:
    from ..resolve import Resolved
    from ..takeoff import Takeoff

LYING, STANDING = (WIDE, 108.0), (TALL, 172.0)  # mm, a plan on a sheet, and how high the floor in it may be
CAUTIONS = ("lifting", "unloading", "wind", "saw", "hot-wire", "fire", "code")


def for_crew(resolved: Resolved, takeoff: Takeoff) -> ForCrew:
    """Drawings, works in their order and cautions beside what was counted."""
    from ..drawings.film_plan import film_picture
    from ..drawings.over_all import crew_frame
    from ..drawings.panel_plan import panel_plan

    plan, system = resolved.plan, resolved.system
    wide, high = max(LYING, STANDING, key=lambda sheet: crew_frame(plan.floor, *sheet).scale)
    there = things(resolved, {edge.letter: section(resolved, edge) for edge in resolved.edges})
    panels = [
        Picture(
            layer.words,
            panel_plan(layer.plan, layer, system, width=wide, height=high, worded=False),
            "",
            f"Plan of {layer.layout.panels} panels in rows, sawn pieces shaded and numbered.",
            wide=wide,
        )
        for layer in takeoff.layers
    ]
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
