"""A large floor's plan of panels in parts, each drawn so large that rows can be told and numbers read."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from ..measure.table import System
from ..takeoff import LaidLayer
from .airs import bar_breadth, scale_bar
from .lettering import CAPITAL, HEADING, cut_to
from .over_all import crew_frame, named_obstacles
from .panel_plan import Window, drawn_pieces, drawn_start
from .paper import HEAVY, LINE, Box, Frame, letters, picture, rectangle, stroke
from .plan import floor_path, standing

ROOM = 5.0  # mm, of a row's breadth on paper
TOP = 9.5  # mm above a part


def windows(layer: LaidLayer, width: float, height: float) -> tuple[Window, ...]:
    """The parts that a floor is drawn in, from its lower left corner row by row; none where one plan serves.

    Arguments
    ---------
    layer
        A layer of panels.
    width, height
        Of a part on paper. [mm]
    """
    frame = crew_frame(layer.plan.floor, width, height)
    breadth = min(layer.layout.rules.width, layer.layout.rules.length)
    if frame.scale * breadth >= ROOM:
        return ()
    x0, x1, y0, y1 = frame.window
    across = ceil((x1 - x0) * ROOM / breadth / width)
    up = ceil((y1 - y0) * ROOM / breadth / height)
    dx, dy = (x1 - x0) / across, (y1 - y0) / up
    return tuple(
        (x0 + n * dx, x0 + (n + 1) * dx, y0 + m * dy, y0 + (m + 1) * dy) for m in range(up) for n in range(across)
    )


def panel_part(
    layer: LaidLayer, every: Sequence[Window], number: int, system: System, *, width: float, height: float
) -> str:
    """One part of a layer of panels as SVG.

    Parameters
    ----------
    layer : LaidLayer
        A layer of panels.
    every : sequence of (float, float, float, float)
        All parts, from x to x and from y to y. [m]
    number : int
        Which of them, from 1.
    system : str
        "US" or "SI", for the scale bar.
    width, height : float
        Of the part on paper, at the most. [mm]
    """
    x0, x1, y0, y1 = every[number - 1]
    scale = min((width - 1.0) / (x1 - x0), height / (y1 - y0))
    frame = Frame((width - (x1 - x0) * scale) / 2.0, TOP, (x0, x1, y0, y1), scale)
    floor = layer.plan.floor
    room = Box(frame.left, frame.top, frame.right, frame.bottom)
    pieces, _ = drawn_pieces(floor, layer.layout, frame, named_obstacles(floor, frame), room)
    name = f"{layer.words}, part {number} of {len(every)}"
    base, bar = HEADING * CAPITAL + 1.0, bar_breadth(frame.scale, system)
    body = [
        letters(0.0, base, cut_to(name, width - bar - 4.0, HEADING, 600), size=HEADING, weight=600),
        scale_bar(width - 0.4, base, frame.scale, system),
        f'<g clip-path="url(#part)"><g clip-path="url(#floor)">{"".join(pieces)}{drawn_start(layer.layout, frame)}</g>',
        stroke(floor_path(floor, frame), HEAVY),
        *(standing(each, frame) for each in floor.obstacles),
        "</g>",
        stroke(
            frame.path([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], closed=True), LINE, extra=' stroke-dasharray="1.2 1.2"'
        ),
    ]
    defs = [
        f'<clipPath id="floor"><path d="{floor_path(floor, frame)}" clip-rule="evenodd"/></clipPath>',
        f'<clipPath id="part">{rectangle(frame.left, frame.top, frame.width, frame.height, "none")}</clipPath>',
    ]
    return picture(wide=width, high=frame.bottom + 1.0, title=name, description=name, defs=defs, body=body)
