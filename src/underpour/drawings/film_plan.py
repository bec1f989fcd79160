"""Film seen from above: each strip with its number and length, and every lap."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from ..measure import say
from ..measure.table import System
from ..outlines.floor import Floor
from ..resolve import KeyPlan
from ..takeoff.film_plan import FilmPlan
from . import colours
from .airs import bar_breadth, scale_bar
from .film_laps import lap_lines, turned_back
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .lettering import width as lettering
from .over_all import UNDER, crew_frame, named_obstacles, on_the_floor, over_all
from .paper import HEAVY, LINE, Box, Frame, letters, line, picture, stroke
from .plan import HIGHEST, edge_marks, floor_path, standing

ROW = 5.0  # mm from line to line of the words below
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)  # of a strip's length, where its words may stand
DASHES = ' stroke-dasharray="2.6 1"'


def film_picture(
    plan: KeyPlan, film: FilmPlan, system: System, *, width: float, height: float = HIGHEST, worded: bool = True
) -> str:
    """One film of a floor; takes what `panel_plan` does.

    Laps are shaded between two dashed lines: the edge of the strip below, and that of the strip laid over it.
    """
    frame = crew_frame(plan.floor, width, height)
    base = HEADING * CAPITAL + 1.0
    bar = bar_breadth(frame.scale, system)
    foot = frame.bottom + UNDER
    marks = list(edge_marks(plan, frame, {}))
    taken = [box for _, boxes in marks for box in boxes]
    said = " ".join(film_words(film, system))
    words = wrapped(said, width) if worded else []
    body = [
        letters(0.0, base, cut_to(film.words, width - bar - 4.0, HEADING, 600), size=HEADING, weight=600),
        scale_bar(width - 0.4, base, frame.scale, system),
        f'<g clip-path="url(#floor)">{"".join(_laps(film, frame))}</g>',
        stroke(floor_path(plan.floor, frame), HEAVY),
        *(standing(each, frame) for each in plan.floor.obstacles),
        *(drawn for drawn, _ in marks),
        *_numbers(plan.floor, film, frame, system, [*taken, *named_obstacles(plan.floor, frame)]),
        *over_all(frame, system, taken),
        *(letters(0.0, foot + n * ROW, each) for n, each in enumerate(words)),
    ]
    defs = [f'<clipPath id="floor"><path d="{floor_path(plan.floor, frame)}" clip-rule="evenodd"/></clipPath>']
    return picture(
        wide=width,
        high=foot + len(words) * ROW,
        title=film.words,
        description=said,
        defs=defs,
        body=body,
    )


def film_words(film: FilmPlan, system: System) -> Iterator[str]:
    """What a crew reads beside it, line by line."""
    lap, up = (say.both(each, "m", system) for each in (film.lap, film.up))
    yield (
        f"{len(film.strips)} strips from rolls of {film.size}, laps of {lap} between the dashed lines, "
        f"{up} turned up at the edge and at what stands in the floor."
    )
    yield "Lay strip 1 first, each next one over it. Tape laps, ends and what goes through; mend what is torn."


def _laps(film: FilmPlan, frame: Frame) -> Iterator[str]:
    shade = colours.light()["shade"]
    both = list(lap_lines(film))
    for (a, b), (c, d) in zip(both[::2], both[1::2], strict=True):
        yield f'<path d="{frame.path([a, b, d, c], closed=True)}" fill="{shade}"/>'
    for one, other in both:
        yield line(frame.x(one[0]), frame.y(one[1]), frame.x(other[0]), frame.y(other[1]), LINE, extra=DASHES)


def _numbers(floor: Floor, film: FilmPlan, frame: Frame, system: System, taken: Sequence[Box]) -> Iterator[str]:
    """Number and length of each strip, along it, where nothing else is written."""
    upright, half = film.angle == 90.0, LETTER * CAPITAL / 2.0
    for number, ((x0, x1, low), long) in enumerate(zip(film.strips, film.lengths, strict=True), start=1):
        for said, share in product((f"{number}: {say.value(long, 'm', system)}", str(number)), PLACES):
            at = turned_back((x0 + share * (x1 - x0), low + film.cover / 2.0), film.angle)
            x, y, wide = frame.x(at[0]), frame.y(at[1]), lettering(said) / 2.0
            across, up = (half, wide) if upright else (wide, half)
            if on_the_floor(Box(x - across, y - up, x + across, y + up), floor, frame, taken):
                x, y = (x + half, y) if upright else (x, y + half)
                yield letters(x, y, said, anchor="middle", turned=upright)
                break
