"""The layers of the floor: their rows beside the drawing, and the lines by which each can be made thicker."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from ...catalogue.thickness import made_in
from ...drawings.paper import Frame
from ...measure import System, say
from ...resolve import Resolved
from ...resolve.resolved import Slice
from ...sections.parts import Section
from ..words import say as words
from .fields import Part, Places

INCH = 0.0254  # m
STEPS = {"US": INCH / 2, "SI": 0.01}  # m between thicknesses that a bulk layer is drawn out to
THICKEST = 0.61  # m
FOOT = 6.0  # mm from the lowest row to the floor
ROW = 6.4  # mm from row to row: a finger's least, at the size of letters that is read


def rows(places: Places, section: Section, frame: Frame, along: float) -> dict[str, Any]:
    """A row for each layer from the room down, and where its line enters the layer. [mm]"""
    resolved = places.resolved
    told: list[dict[str, Any]] = []
    y = 0.0
    for layer in resolved.floor:
        middle = y - layer.thickness / 2.0
        told.append({"parts": row(places, layer), "depth": float(frame.y(middle))})
        y -= layer.thickness
    ground = section.parts[0]
    told.append({"parts": [{"text": ground.label}], "depth": min(float(frame.y(y)) + 4.0, frame.bottom - 1.0)})
    surface = float(frame.y(0.0))
    first = surface - FOOT - ROW * (len(told) - 1)
    for n, each in enumerate(told):
        each["base"] = round(first + n * ROW, 2)
        each["depth"] = round(each["depth"], 2)
    return {
        "along": round(along, 2),
        "inside": first > frame.top + 1.5 * ROW,  # whether there is room for them in the drawing
        "rows": told,
    }


def row(places: Places, layer: Slice) -> list[Part]:
    """One layer as parts: its name, its thickness as typed, the other system after it."""
    at = layer.path.rpartition(".")[0]
    if layer.kind == "board":
        name: Part = places.field(f"{at}.board", choices="boards")
        name["words"] = layer.label
    elif layer.kind == "vapour-retarder":
        name = places.field(f"{at}.vapour-retarder", choices="retarders")
        name["words"] = layer.label
    else:
        name = {"text": layer.label}
    size = _size(places, layer, at)
    if size is None:
        return [name]
    after = _after(layer, size["typed"])
    return [name, {"text": ", "}, size, *([{"text": after}] if after else [])]


def _size(places: Places, layer: Slice, at: str) -> Part | None:
    """The field that says how thick a layer is; None where it has none."""
    if layer.thickness <= 0.0:
        return None
    key = layer.kind if layer.kind != "board" else "r" if layer.wanted is not None else "thickness"
    field = places.field(f"{at}.{key}")
    return field if field["typed"] else None


def _after(layer: Slice, typed: str) -> str:
    """What stands behind the typed words: the other system in brackets, or the thickness that an R takes."""
    _, found, after = layer.words.partition(typed)
    return after if found else f": {layer.words.removeprefix(f'{layer.label}, ')}"


def grips(places: Places, section: Section, frame: Frame) -> list[dict[str, Any]]:
    """The lower line of each layer, with the thicknesses it can be drawn to and the words that each would type."""
    resolved: Resolved = places.resolved
    if places.fixed:
        return []
    found, top = [], 0.0
    for layer in resolved.floor:
        field = _size(places, layer, layer.path.rpartition(".")[0])
        bottom = top - layer.thickness
        if field is not None and not field["path"].endswith(".r"):
            offered = _offered(layer, resolved.system)
            found.append(
                {
                    "path": field["path"],
                    "name": words("sheet.grip", layer=layer.label),
                    "now": layer.words.removeprefix(f"{layer.label}, "),
                    "top": round(float(frame.y(top)), 3),
                    "bottom": round(float(frame.y(bottom)), 3),
                    "left": round(float(frame.x(max(section.floor[0], section.window[0]))), 2),
                    "right": round(min(float(frame.x(section.floor[1])), frame.right), 2),
                    "offers": [[round(size * frame.scale, 3), typed] for size, typed in offered],
                }
            )
        top = bottom
    return found


def _offered(layer: Slice, system: System) -> Sequence[tuple[float, str]]:
    """Thicknesses [m] with the words to type: those that a board is made in, even steps of anything else."""
    if layer.record is not None:
        return [(made.thickness, made.typed) for made in made_in(layer.record, system)]
    return _even(system)


@cache
def _even(system: System) -> list[tuple[float, str]]:
    step = STEPS[system]
    return [(n * step, _typed(n * step, system)) for n in range(1, int(THICKEST / step) + 1)]


def _typed(thickness: float, system: System) -> str:
    return " ".join(say.value(thickness, "m", system).split())
