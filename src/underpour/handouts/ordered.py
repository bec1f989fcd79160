"""What a submittal says of the order: the takeoff of the brief as briefed, with a plan of each layer."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..brief import Reading
    from ..papers import Picture
    from ..takeoff import Takeoff

WIDE, HIGH = 170.0, 118.0  # mm, a plan across a sheet, and the floor in it


def order_of(reading: Reading) -> Takeoff:
    """The takeoff of a brief as briefed."""
    from ..resolve import resolve
    from ..takeoff import taken_off

    return taken_off(resolve(reading.brief, products=reading.products))


def panel_plans(takeoff: Takeoff) -> tuple[Picture, ...]:
    """Each layer of panels from above, then each film."""
    from ..drawings.film_plan import film_picture
    from ..drawings.panel_plan import panel_plan
    from ..papers import Picture

    system = takeoff.system
    panels = [
        Picture(
            layer.words,
            panel_plan(layer.plan, layer, system, width=WIDE, height=HIGH, worded=False),
            "Sawn pieces are shaded; a number is the row and the place in it. The heavy line is where the crew begins.",
            f"Plan of {layer.layout.panels} panels in rows, sawn pieces shaded and numbered.",
            headed=True,
            wide=WIDE,
        )
        for layer in takeoff.layers
    ]
    films = [
        Picture(
            film.words,
            film_picture(film.plan, film, system, width=WIDE, height=HIGH, worded=False),
            "Strips with number and length; laps lie between the dashed lines.",
            f"Plan of {len(film.strips)} strips of film with their laps.",
            headed=True,
            wide=WIDE,
        )
        for film in takeoff.films
    ]
    return (*panels, *films)
