"""The crew's plan as a drawing file (DXF): true sizes, arcs as arcs, a layer for each kind of line."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from io import StringIO
from itertools import pairwise
from math import cos, radians, sin
from typing import TYPE_CHECKING, Any

from ..measure import say
from ..measure.table import System
from ..outlines.outline import Outline
from ..outlines.side import Point, Side
from ..panels.outlined import outlined
from ..plan_file.library import load_drawings_library
from ..resolve import KeyPlan
from ..takeoff import LaidLayer
from ..takeoff.cutting import is_whole, numbered
from ..takeoff.film_plan import FilmPlan
from .film_laps import lap_lines
from .panel_plan import first_string, plan_words, start_line
from .paper import plain

if TYPE_CHECKING:
    from ezdxf.document import Drawing

UNITS = {"US": (1, 1.0 / 0.0254, "inches"), "SI": (4, 1000.0, "millimetres")}  # as the format counts them, and per m
PENS = {  # layer: hundredths of a millimetre, kind of line
    "floor-outline": (70, "CONTINUOUS"),
    "panel-edge": (25, "CONTINUOUS"),
    "panel-cut": (50, "CONTINUOUS"),
    "panel-number": (18, "CONTINUOUS"),
    "film-lap": (25, "DASHED"),
    "vent-pipe": (35, "CONTINUOUS"),
    "dimension": (18, "CONTINUOUS"),
    "note": (25, "CONTINUOUS"),
    "title": (25, "CONTINUOUS"),
}
LETTERS = 0.12  # m, height of words beside the plan
NUMBER = 0.1  # m, of a number where its piece has room for it


def panel_dxf(
    plan: KeyPlan,
    layer: LaidLayer,
    system: System,
    *,
    title: str,
    films: Sequence[FilmPlan] = (),
    pipe: Sequence[Point] = (),
) -> bytes:
    """One layer of panels in the plan's own coordinates.

    Parameters
    ----------
    plan : KeyPlan
        Floor and edges. [m]
    layer : LaidLayer
        Its panels.
    system : str
        "US": the drawing is in inches; "SI": in millimetres. The file says so.
    title : str
        Of the brief.
    films : sequence of FilmPlan
        Whose laps are drawn, both lines of each.
    pipe : sequence of (float, float)
        Corners of the soil-gas pipe on the plan, where they are known. [m]

    Returns
    -------
    bytes
        A DXF file of the year 2010, the same bytes for the same input. Whole panels lie on ``panel-edge``, each sawn
        piece as it lies after trimming on ``panel-cut``, both as closed lines whose arcs are bulges.
    """
    with _without_chance():
        document = _drawn(plan, layer, system, title, films, pipe)
        text = StringIO()
        document.write(text)
    return text.getvalue().encode(document.output_encoding)


@contextmanager
def _without_chance() -> Iterator[None]:
    """The library leaves the moment of making and its chance numbers out of the file."""
    load_drawings_library()
    from ezdxf import options  # type: ignore[attr-defined]

    was = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = was


def _drawn(
    plan: KeyPlan, layer: LaidLayer, system: System, title: str, films: Sequence[FilmPlan], pipe: Sequence[Point]
) -> Drawing:
    from ezdxf.filemanagement import new

    unit, scale, named = UNITS[system]
    document = new("R2010", setup=["linetypes"])
    document.header["$INSUNITS"] = unit
    document.header["$MEASUREMENT"] = 0 if system == "US" else 1
    document.header["$LTSCALE"] = 0.02 * scale
    for name, (pen, kind) in PENS.items():
        document.layers.add(name, color=7, lineweight=pen, linetype=kind)
    sheet = _Sheet(document, scale)
    for ring in plan.floor.rings:
        sheet.ring(ring, "floor-outline")
    for each in plan.floor.obstacles:
        sheet.ring(each.outline, each.kind)
    for edge in plan.edges:
        for stretch in edge.stretches:
            sheet.open([plan.floor.part(stretch)], f"edge-{_layer_name(edge.letter)}")
    _panels(sheet, plan, layer)
    for film in films:
        for one, other in lap_lines(film):
            sheet.line(one, other, "film-lap")
    for one, other in pairwise(pipe):
        sheet.line(one, other, "vent-pipe")
    box = _box(plan.floor.outline)
    _dimensions(sheet, layer, box, system)
    lines = [
        *plan_words(layer, system),
        f"Drawn in {named}, one to one. Sawn pieces lie on panel-cut, laps of film on film-lap. Tube is not drawn.",
    ]
    for n, words in enumerate(lines):
        sheet.words(words, (box[0], box[2] - 1.4 - 2.0 * LETTERS * n), LETTERS, "note")
    sheet.words(f"{title}. {layer.words}", (box[0], box[3] + 0.6), 2.0 * LETTERS, "title")
    return document


class _Sheet:
    """The drawing's model space in metres."""

    def __init__(self, document: Drawing, scale: float) -> None:
        self.space: Any = document.modelspace()
        self.document = document
        self.scale = scale

    def point(self, at: Point) -> Point:
        return at[0] * self.scale, at[1] * self.scale

    def ring(self, ring: Outline, layer: str) -> None:
        self._polyline(ring.sides, layer, closed=True)

    def open(self, sides: Sequence[Side], layer: str) -> None:
        self._polyline(sides, layer, closed=False)

    def line(self, one: Point, other: Point, layer: str, kind: str = "BYLAYER") -> None:
        look = {"layer": layer, "linetype": kind}
        self.space.add_line(self.point(one), self.point(other), dxfattribs=look)

    def words(self, words: str, at: Point, high: float, layer: str, turn: float = 0.0, *, middle: bool = False) -> None:
        from ezdxf.enums import TextEntityAlignment

        placed = TextEntityAlignment.MIDDLE_CENTER if middle else TextEntityAlignment.LEFT
        upright = (turn + 89.9) % 180.0 - 89.9  # read from below or from the right
        look = {"layer": layer, "height": high * self.scale, "rotation": upright}
        self.space.add_text(_plain(words), dxfattribs=look).set_placement(self.point(at), align=placed)

    def _polyline(self, sides: Sequence[Side], layer: str, *, closed: bool) -> None:
        points = [(*self.point(side.start), side.bulge) for side in sides]
        if not closed:
            points.append((*self.point(sides[-1].end), 0.0))
        if layer not in self.document.layers:
            self.document.layers.add(layer, color=7, lineweight=35)
        self.space.add_lwpolyline(points, format="xyb", close=closed, dxfattribs={"layer": layer})


def _panels(sheet: _Sheet, plan: KeyPlan, layer: LaidLayer) -> None:
    layout = layer.layout
    numbers = {piece: number for number, piece in numbered(layout)}
    for piece, rings in outlined(plan.floor, layout):
        number = numbers[piece]
        kind = "panel-edge" if is_whole(layout, piece) else "panel-cut"
        for ring in rings:
            sheet.ring(ring, kind)
        middle = layout.on_plan(((piece.x0 + piece.x1) / 2.0, (piece.y0 + piece.y1) / 2.0))
        upright = piece.height > piece.length
        high = min(NUMBER, 0.6 * min(piece.length, piece.height), max(piece.length, piece.height) / len(number))
        sheet.words(number, middle, high, "panel-number", layout.angle + 90.0 * upright, middle=True)
    one, other = start_line(layout)
    (ux, uy), below = layout.on_plan((0.0, 1.0)), (-2.0 if layout.from_top else 2.0) * LETTERS
    sheet.line(one, other, "note")
    string, end = (layout.on_plan(point) for point in first_string(layout))
    sheet.line(string, end, "note", "DASHED")
    middle = (one[0] + other[0]) / 2.0 - below * ux, (one[1] + other[1]) / 2.0 - below * uy
    sheet.words("begin here", middle, LETTERS, "note", layout.angle, middle=True)


def _dimensions(sheet: _Sheet, layer: LaidLayer, box: tuple[float, float, float, float], system: System) -> None:
    """The plan over all, and the line at which the first row ends, each with its length in words."""
    x0, x1, y0, y1 = box
    layout, size = layer.layout, LETTERS * sheet.scale
    look = {"dimtxt": size, "dimasz": size, "dimexe": 0.5 * size, "dimexo": 0.5 * size, "dimgap": 0.5 * size}
    look |= {"dimtad": 1, "dimscale": 1.0, "dimclrt": 7}

    def dimension(one: Point, other: Point, base: Point, angle: float) -> None:
        long = abs((other[0] - one[0]) * cos(radians(angle)) + (other[1] - one[1]) * sin(radians(angle)))
        made = sheet.space.add_linear_dim(
            base=sheet.point(base),
            p1=sheet.point(one),
            p2=sheet.point(other),
            angle=angle,
            text=_plain(say.both(long, "m", system)),
            override=look,
            dxfattribs={"layer": "dimension"},
        )
        made.render()

    dimension((x0, y0), (x1, y0), (x0, y0 - 0.8), 0.0)
    dimension((x1, y0), (x1, y1), (x1 + 0.8, y0), 90.0)
    (x, y), _ = start_line(layout)
    (dx, dy), (ux, uy), first = layout.on_plan((1.0, 0.0)), layout.on_plan((0.0, 1.0)), layout.first_height
    first = -first if layout.from_top else first
    dimension((x, y), (x + first * ux, y + first * uy), (x - 0.8 * dx, y - 0.8 * dy), (layout.angle + 90.0) % 180.0)


def _plain(words: str) -> str:
    """Words on one line with plain spaces: lettering of drawing programs has no others."""
    return plain(words).replace("\u00a0", " ")


def _layer_name(words: str) -> str:
    """A name that a layer may have: small letters, no signs that the format keeps for itself.

    >>> _layer_name("Party wall / north")
    'party-wall-north'
    """
    return "-".join(re.findall(r"\w+", words.lower())) or "unnamed"


def _box(outline: Outline) -> tuple[float, float, float, float]:
    boxes = [side.box for side in outline.sides]
    return min(b[0] for b in boxes), max(b[1] for b in boxes), min(b[2] for b in boxes), max(b[3] for b in boxes)
