"""The crew's plan: panels on the floor row by row, sawn pieces by number, the line to start from, edges by letter."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from ..measure import say
from ..measure.table import System
from ..outlines.side import Point
from ..panels.layout import Layout, Piece
from ..resolve import KeyPlan
from ..takeoff import LaidLayer
from ..takeoff.cutting import is_whole, numbered
from . import colours
from .airs import bar_breadth, scale_bar
from .lettering import CAPITAL, HEADING, LETTER, cut_to
from .lettering import width as lettering
from .paper import FINE, HAIR, HEAVY, Frame, letters, line, picture, stroke
from .plan import edge_marks, floor_path, plan_frame, standing

ROW = 5.0  # mm from line to line of the words below
SMALL = LETTER * 0.8  # mm, of numbers in pieces


def panel_plan(plan: KeyPlan, layer: LaidLayer, system: System, *, width: float) -> str:
    """One layer of panels seen from above.

    Parameters
    ----------
    plan : KeyPlan
        Floor and edges.
    layer : LaidLayer
        Its panels.
    system : str
        "US" or "SI", in which lengths are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. Whole panels are white, sawn pieces shaded with their number where it finds
        room; the heavy line is where the first row begins.
    """
    frame = plan_frame(plan.floor, width)
    layout = layer.layout
    base = HEADING * CAPITAL + 1.0
    bar = bar_breadth(frame.scale, system)
    foot = frame.bottom + 16.0
    words = list(_words(layer, system))
    body = [
        letters(0.0, base, cut_to(layer.words, width - bar - 4.0, HEADING, 600), size=HEADING, weight=600),
        scale_bar(width - 0.4, base, frame.scale, system),
        f'<g clip-path="url(#floor)">{"".join(_pieces(layout, frame))}{_start(layout, frame)}</g>',
        stroke(floor_path(plan.floor, frame), HEAVY),
        *(standing(each, frame) for each in plan.floor.obstacles),
        *(drawn for drawn, _ in edge_marks(plan, frame, {})),
        *(letters(0.0, foot + n * ROW, cut_to(each, width, LETTER)) for n, each in enumerate(words)),
    ]
    defs = [f'<clipPath id="floor"><path d="{floor_path(plan.floor, frame)}" clip-rule="evenodd"/></clipPath>']
    return picture(
        wide=width,
        high=foot + len(words) * ROW,
        title=layer.words,
        description=" ".join(words),
        defs=defs,
        body=body,
    )


def _words(layer: LaidLayer, system: System) -> Iterator[str]:
    layout = layer.layout
    fewest, how = layer.bound
    sawn = sum(not is_whole(layout, piece) for piece in layout.pieces)
    yield (
        f"{layout.panels} panels of {layer.size}, {sawn} pieces sawn (shaded), {100 * layout.waste:.1f} % left over. "
        f"No plan in rows takes fewer than {fewest}, counted {how}."
    )
    stagger, least = (say.value(each, "m", system) for each in (layout.rules.stagger, layout.rules.least))
    yield (
        f"Begin at the heavy line. Joints of neighbouring rows lie {stagger} apart or more; "
        f"no piece is shorter than {least}."
    )
    yield "Numbers are row and place in it, as in the cut list. Weigh loose boards down against wind until the pour."


def _pieces(layout: Layout, frame: Frame) -> Iterator[str]:
    leaf, shade = (colours.light()[name] for name in ("leaf", "shade"))
    for number, piece in numbered(layout):
        whole = is_whole(layout, piece)
        corners = [_back(layout, point) for point in _corners(piece)]
        yield (
            f'<path d="{frame.path(corners, closed=True)}" fill="{leaf if whole else shade}" stroke="#182A2E" '
            f'stroke-width="{FINE if whole else HAIR:g}"/>'
        )
        if not whole and _finds_room(number, piece, frame):
            x, y = _back(layout, ((piece.x0 + piece.x1) / 2.0, (piece.y0 + piece.y1) / 2.0))
            yield letters(frame.x(x), frame.y(y) + SMALL * CAPITAL / 2.0, number, size=SMALL, anchor="middle")


def _finds_room(number: str, piece: Piece, frame: Frame) -> bool:
    wide, high = piece.length * frame.scale, piece.height * frame.scale
    return min(wide, high) > SMALL and max(wide, high) > lettering(number, SMALL) and wide > lettering(number, SMALL)


def _start(layout: Layout, frame: Frame) -> str:
    first = [piece for piece in layout.pieces if piece.row == 0]
    y = min(piece.y0 for piece in first)
    a = _back(layout, (min(piece.x0 for piece in first), y))
    b = _back(layout, (max(piece.x1 for piece in first), y))
    return line(frame.x(a[0]), frame.y(a[1]), frame.x(b[0]), frame.y(b[1]), 4.0 * HEAVY)


def _corners(piece: Piece) -> list[Point]:
    return [(piece.x0, piece.y0), (piece.x1, piece.y0), (piece.x1, piece.y1), (piece.x0, piece.y1)]


def _back(layout: Layout, point: Point) -> Point:
    """From along the rows to the plan's own x and y."""
    c, s = cos(radians(layout.angle)), sin(radians(layout.angle))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c
