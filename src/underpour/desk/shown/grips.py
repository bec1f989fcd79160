"""Lines of the drawing that can be drawn: a layer thicker, foam at the edge thicker or farther down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any, Literal

from ...catalogue.thickness import made_in
from ...drawings.paper import Frame
from ...measure import System, depth, say
from ...resolve.resolved import Piece, Slice
from ...sections.parts import Section
from ..words import say as words
from .fields import Places
from .layers import size_of

INCH = 0.0254  # m
BROAD = 8.0  # mm, the least that a hand takes
Steps = tuple[dict[System, float], float]
THICK: Steps = ({"US": INCH / 2, "SI": 0.01}, 0.61)  # m between thicknesses of a bulk layer, and the last of them
DOWN: Steps = ({"US": 2.0 * INCH, "SI": 0.05}, 3.05)  # the same of how far foam goes down
OUTWARDS = ("outside", "footing-side")
LYING = ("wing", "below-footing")  # foam that grows downwards
STANDING = (*OUTWARDS, "inside", "slab-edge")
Way = Literal["down", "across"]
Offers = Sequence[tuple[float, str]]  # size [m], and the words that it would type


def grips(places: Places, section: Section, frame: Frame) -> list[dict[str, Any]]:
    """Every line that can be drawn, with the sizes it can be drawn to and the words that each would type. [mm]"""
    if places.fixed:
        return []
    return [*_of_layers(places, section, frame), *_of_pieces(places, section, frame)]


def _of_layers(places: Places, section: Section, frame: Frame) -> Iterator[dict[str, Any]]:
    top, across = 0.0, (max(section.floor[0], section.window[0]), section.floor[1])
    for layer in places.resolved.floor:
        field = size_of(places, layer, layer.path.rpartition(".")[0])
        bottom = top - layer.thickness
        if field is not None and not field["path"].endswith(".r"):
            name = words("sheet.grip", layer=layer.label)
            offers = _thicknesses(layer, places.resolved.system)
            yield _grip(field["path"], name, frame, "down", (top, bottom), across, offers, _said(layer))
        top = bottom


def _of_pieces(places: Places, section: Section, frame: Frame) -> Iterator[dict[str, Any]]:
    edge = next(each for each in places.resolved.edges if each.letter == section.edge)
    for n, piece in enumerate(edge.pieces, 1):
        at = f"edge.{edge.letter}.insulation.{n}"
        outlines = [part.outline for part in section.parts if part.path == piece.board.path]
        if len(outlines) != 1 or len(outlines[0]) != 4 or not places.plain(at):
            continue
        x, y = ([corner[k] for corner in outlines[0]] for k in (0, 1))
        left, right, low, high = min(x), max(x), min(y), max(y)
        if places.plain(f"{at}.thickness"):
            yield _thicker(places, frame, at, piece, (left, right, low, high))
        down = places.plain(f"{at}.down")
        if down and piece.bottom is not None and piece.face in STANDING:
            reach = depth(str(down)).si
            name = words("sheet.grip-down", face=piece.face.replace("-", " "))
            offers = _even(places.resolved.system, *DOWN)
            yield _grip(f"{at}.down", name, frame, "down", (low + reach, low), (left, right), offers, str(down))


def _thicker(
    places: Places, frame: Frame, at: str, piece: Piece, box: tuple[float, float, float, float]
) -> dict[str, Any]:
    left, right, low, high = box
    way: Way = "down" if piece.face in LYING else "across"
    ends = (high, low) if way == "down" else (right, left) if piece.face in OUTWARDS else (left, right)
    name = words("sheet.grip-face", face=piece.face.replace("-", " "))
    offers = _thicknesses(piece.board, places.resolved.system)
    beside = (left, right) if way == "down" else (low, high)
    return _grip(f"{at}.thickness", name, frame, way, ends, beside, offers, _said(piece.board))


def _grip(
    path: str,
    name: str,
    frame: Frame,
    way: Way,
    ends: tuple[float, float],
    beside: tuple[float, float],
    offers: Offers,
    now: str,
) -> dict[str, Any]:
    """``ends`` are where the size begins and where it ends now, ``beside`` how far the line reaches. [m]"""
    along, other = (frame.y, frame.x) if way == "down" else (frame.x, frame.y)
    start, at = (float(along(end)) for end in ends)
    first, last = sorted(float(other(end)) for end in beside)
    wanting = max(BROAD - (last - first), 0.0) / 2.0
    first, last = first - wanting, last + wanting
    least, most = (frame.left, frame.right) if way == "down" else (frame.top, frame.bottom)
    return {
        "path": path,
        "name": name,
        "now": now,
        "way": way,
        "start": round(start, 3),
        "at": round(at, 3),
        "sign": 1 if at >= start else -1,
        "first": round(max(first, least), 2),
        "last": round(min(last, most), 2),
        "offers": [[round(size * frame.scale, 3), typed] for size, typed in offers],
    }


def _said(layer: Slice) -> str:
    return layer.words.removeprefix(f"{layer.label}, ")


def _thicknesses(layer: Slice, system: System) -> Offers:
    """Those that a board is made in, even steps of anything else."""
    if layer.record is not None:
        return [(made.thickness, made.typed) for made in made_in(layer.record, system)]
    return _even(system, *THICK)


def _even(system: System, steps: dict[System, float], most: float) -> Offers:
    return _sizes(system, steps[system], most)


@cache
def _sizes(system: System, step: float, most: float) -> Offers:
    return [(n * step, " ".join(say.value(n * step, "m", system).split())) for n in range(1, int(most / step) + 1)]
