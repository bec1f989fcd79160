"""The crew's plan: panels on the floor row by row, sawn pieces by number, the line to start from, edges by letter."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import product

from ..measure import say
from ..measure.table import System
from ..outlines.floor import Floor
from ..outlines.side import Point
from ..panels.layout import Layout, Piece
from ..resolve import KeyPlan
from ..takeoff import LaidLayer
from ..takeoff.cutting import is_whole, numbered
from . import colours
from .airs import bar_breadth, scale_bar
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .lettering import width as lettering
from .over_all import UNDER, crew_frame, named_obstacles, on_the_floor, over_all
from .paper import FINE, HAIR, HEAVY, INK, LINE, Box, Frame, letters, line, picture, rectangle, stroke
from .plan import HIGHEST, edge_marks, floor_path, standing

Window = tuple[float, float, float, float]  # from x to x, from y to y, m
ROW = 5.0  # mm from line to line of the words below
SIZES = (LETTER * 0.8, LETTER * 0.72)  # mm, of numbers in pieces: those with capitals of 2 mm, or of 1.8
PLACES = ((0.0, 0.0), *((along, up) for along in (0.0, 1.0, -1.0) for up in (0.0, 1.0, -1.0) if along or up))
BEYOND = 3.5  # mm that the string of the first row reaches over the floor


def panel_plan(
    plan: KeyPlan,
    layer: LaidLayer,
    system: System,
    *,
    width: float,
    height: float = HIGHEST,
    worded: bool = True,
    windows: Sequence[Window] = (),
) -> str:
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
    height : float
        Of the floor in it, at the most. [mm]
    worded : bool
        Whether what a crew reads stands below it.
    windows : sequence of (float, float, float, float)
        Parts that are drawn larger elsewhere, from x to x and from y to y; each is framed and numbered here. [m]

    Returns
    -------
    str
        An SVG document that stands alone. Whole panels are white, sawn pieces shaded with their number where it finds
        room; the heavy line is where the first row begins, the line of long dashes is where it ends.
    """
    frame = crew_frame(plan.floor, width, height)
    layout = layer.layout
    base = HEADING * CAPITAL + 1.0
    bar = bar_breadth(frame.scale, system)
    foot = frame.bottom + UNDER
    marks = list(edge_marks(plan, frame, {}))
    taken = [box for _, boxes in marks for box in boxes]
    pieces, unnumbered = drawn_pieces(plan.floor, layout, frame, named_obstacles(plan.floor, frame))
    said = " ".join([*plan_words(layer, system), _key(unnumbered)])
    words = wrapped(said, width) if worded else []
    body = [
        letters(0.0, base, cut_to(layer.words, width - bar - 4.0, HEADING, 600), size=HEADING, weight=600),
        scale_bar(width - 0.4, base, frame.scale, system),
        f'<g clip-path="url(#floor)">{"".join(pieces)}{drawn_start(layout, frame)}</g>',
        stroke(floor_path(plan.floor, frame), HEAVY),
        *(standing(each, frame) for each in plan.floor.obstacles),
        *(drawn for drawn, _ in marks),
        *over_all(frame, system, taken),
        *_first_row(layout, frame, system),
        *_framed(windows, frame),
        *(letters(0.0, foot + n * ROW, each) for n, each in enumerate(words)),
    ]
    defs = [f'<clipPath id="floor"><path d="{floor_path(plan.floor, frame)}" clip-rule="evenodd"/></clipPath>']
    return picture(
        wide=width,
        high=foot + len(words) * ROW,
        title=layer.words,
        description=said,
        defs=defs,
        body=body,
    )


def _framed(windows: Sequence[Window], frame: Frame) -> Iterator[str]:
    """The parts that are drawn larger, each with its number on white."""
    leaf = colours.light()["leaf"]
    for number, (x0, x1, y0, y1) in enumerate(windows, start=1):
        left, right, top, bottom = frame.x(x0), frame.x(x1), frame.y(y1), frame.y(y0)
        corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
        yield stroke(frame.path(corners, closed=True), LINE, extra=' stroke-dasharray="1.2 1.2"')
        x, y, half = (left + right) / 2.0, (top + bottom) / 2.0, lettering(f"part {number}", LETTER, 600) / 2.0 + 1.2
        yield rectangle(x - half, y - 2.6, 2.0 * half, 5.2, leaf)
        yield letters(x, y + LETTER * CAPITAL / 2.0, f"part {number}", weight=600, anchor="middle")


def _key(unnumbered: int) -> str:
    more = f" {unnumbered} find no room for theirs: see the cut list." if unnumbered else ""
    return f"Sawn pieces are shaded; a number behind a point is the place in its row.{more}"


def plan_words(layer: LaidLayer, system: System) -> Iterator[str]:
    """What a crew reads beside the plan of a layer, line by line."""
    layout = layer.layout
    fewest, how = layer.bound
    sawn = sum(not is_whole(layout, piece) for piece in layout.pieces)
    yield (
        f"{layout.panels} panels of {layer.size}, {sawn} pieces sawn, {100 * layout.waste:.1f} % left over. "
        f"No plan in rows takes fewer than {fewest}, counted {how}."
    )
    stagger, least = (say.value(each, "m", system) for each in (layout.rules.stagger, layout.rules.least))
    yield (
        f"Begin at the heavy line; the line of dashes is where the first row ends. "
        f"Joints of neighbouring rows lie {stagger} apart or more; "
        f"no piece is shorter than {least}."
    )
    yield "Numbers are row and place in it, as in the cut list. Weigh loose boards down against wind until the pour."


def drawn_pieces(
    floor: Floor, layout: Layout, frame: Frame, taken: Sequence[Box], room: Box | None = None
) -> tuple[list[str], int]:
    """Every piece, and how many sawn ones find no room for their number.

    Where the whole number finds none, the place in the row stands alone behind its point. With a ``room`` pieces beyond
    it are left out, and words stay within.
    """
    leaf, shade, note = (colours.light()[name] for name in ("leaf", "shade", "note"))
    drawn, unnumbered, named = [], 0, set()

    def clear(box: Box) -> bool:
        inside = room is None or (
            room.left <= box.left and box.right <= room.right and room.top <= box.top and box.bottom <= room.bottom
        )
        return inside and on_the_floor(box, floor, frame, taken)

    for number, piece in numbered(layout):
        corners = [layout.on_plan(point) for point in _corners(piece)]
        if room and not room.meets(_around(corners, frame)):
            continue
        whole = is_whole(layout, piece)
        drawn.append(
            f'<path d="{frame.path(corners, closed=True)}" fill="{leaf if whole else shade}" stroke="#182A2E" '
            f'stroke-width="{FINE if whole else HAIR:g}"/>'
        )
        if whole and piece.row in named:
            continue
        row, place = number.split(".")
        offered = [f"row {row}"] if whole else [number, f".{place}"]
        colour = note if whole else INK
        words = next(filter(None, (_within(said, piece, layout, colour, clear, frame) for said in offered)), "")
        drawn.append(words)
        if whole and words:
            named.add(piece.row)
        unnumbered += not whole and not words
    return drawn, unnumbered


def _around(corners: Sequence[Point], frame: Frame) -> Box:
    xs, ys = [frame.x(x) for x, _ in corners], [frame.y(y) for _, y in corners]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _within(said: str, piece: Piece, layout: Layout, colour: str, clear: Callable[[Box], bool], frame: Frame) -> str:
    """Words in a piece, along the sheet or turned, in the larger letters that find room; "" where none do."""
    corners = [layout.on_plan(point) for point in _corners(piece)]
    wide, high = (frame.scale * (max(each) - min(each)) / 2.0 for each in zip(*corners, strict=True))
    x, y = (sum(each) / 4.0 for each in zip(*corners, strict=True))
    for size, turned, (along, up) in product(SIZES, (False, True), PLACES):
        half = (lettering(said, size) + 0.5) / 2.0, (size * CAPITAL + 0.5) / 2.0
        across, tall = half[::-1] if turned else half
        if across < wide and tall < high:
            cx, cy = frame.x(x) + along * (wide - across), frame.y(y) + up * (high - tall)
            if clear(Box(cx - across, cy - tall, cx + across, cy + tall)):
                drop = size * CAPITAL / 2.0
                at = (cx + drop, cy) if turned else (cx, cy + drop)
                return letters(*at, said, size=size, anchor="middle", colour=colour, turned=turned)
    return ""


def _first_row(layout: Layout, frame: Frame, system: System) -> Iterator[str]:
    """The line at which the first row ends, a string to lay it to, with how far it lies from the start line."""
    (x0, y0), (x1, y1) = (layout.on_plan(point) for point in first_string(layout))
    x0, y0, x1, y1 = frame.x(x0), frame.y(y0), frame.x(x1), frame.y(y1)
    dx, dy = layout.on_plan((1.0, 0.0))
    x0, y0, x1, y1 = x0 - BEYOND * dx, y0 + BEYOND * dy, x1 + BEYOND * dx, y1 - BEYOND * dy
    yield line(x0, y0, x1, y1, LINE, extra=' stroke-dasharray="6 1.2"')
    said = say.value(layout.first_height, "m", system)
    if layout.angle % 180.0 == 0.0:
        yield letters(x0 - 1.0, y0 + LETTER * CAPITAL / 2.0, said, anchor="end")
    else:
        yield letters(x1, y1 - 1.2, said, anchor="middle")


def first_string(layout: Layout) -> tuple[Point, Point]:
    """The line at which the first row ends, along the rows. [m]"""
    first = layout.first_row
    y = min(piece.y0 for piece in first) if layout.from_top else max(piece.y1 for piece in first)
    return (min(piece.x0 for piece in first), y), (max(piece.x1 for piece in first), y)


def drawn_start(layout: Layout, frame: Frame) -> str:
    """The heavy line where the crew begins."""
    a, b = start_line(layout)
    return line(frame.x(a[0]), frame.y(a[1]), frame.x(b[0]), frame.y(b[1]), 3.0 * HEAVY)


def start_line(layout: Layout) -> tuple[Point, Point]:
    """The line along which the first row is laid, on the plan. [m]"""
    first = layout.first_row
    y = max(piece.y1 for piece in first) if layout.from_top else min(piece.y0 for piece in first)
    return layout.on_plan((min(piece.x0 for piece in first), y)), layout.on_plan((max(piece.x1 for piece in first), y))


def _corners(piece: Piece) -> list[Point]:
    return [(piece.x0, piece.y0), (piece.x1, piece.y0), (piece.x1, piece.y1), (piece.x0, piece.y1)]
