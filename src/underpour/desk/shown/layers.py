"""The layers of the floor: their rows beside the drawing, each with its thickness to be typed over."""

from __future__ import annotations

from typing import Any

from ...drawings.paper import Frame
from ...resolve.resolved import Slice
from ...sections.parts import Section
from .adding import layer_put_in, taken_out
from .fields import Part, Places

FOOT = 6.0  # mm from the lowest row to the floor
ROW = 6.4  # mm from row to row: a finger's least, at the size of letters that is read


def rows(places: Places, section: Section, frame: Frame, along: float) -> dict[str, Any]:
    """A row for each layer from the room down, and where its line enters the layer. [mm]"""
    resolved = places.resolved
    told: list[dict[str, Any]] = []
    y = 0.0
    for layer in resolved.floor:
        middle = y - layer.thickness / 2.0
        at = layer.path.rpartition(".")[0]
        acts = [*layer_put_in(places, at, layer.label), *taken_out(places, at, layer.label)]
        told.append({"parts": [*row(places, layer), *acts], "depth": float(frame.y(middle))})
        y -= layer.thickness
    ground = section.parts[0]
    under = [{"text": ground.label}, *layer_put_in(places, "floor.build-up", "")]
    told.append({"parts": under, "depth": min(float(frame.y(y)) + 4.0, frame.bottom - 1.0)})
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
    elif layer.kind == "covering":
        name = places.field(f"{at}.covering", choices="coverings")
        name["words"] = layer.label
    else:
        name = {"text": layer.label}
    size = size_of(places, layer, at)
    if size is None:
        return [name]
    after = _after(layer, size["typed"])
    return [name, {"text": ", "}, size, *([{"text": after}] if after else [])]


def size_of(places: Places, layer: Slice, at: str) -> Part | None:
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
