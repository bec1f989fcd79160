"""What can be put in and taken out by a press: layers of the floor, foam at an edge, alternatives."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from ...catalogue.records import Made
from ...catalogue.thickness import made_in
from ...measure import thickness
from ...resolve.resolved import Slice
from ..words import say
from .fields import Part, Places, literals

FOAM = "board"


@cache
def usual() -> dict[str, Any]:
    """What a press puts in, by what it is."""
    read: dict[str, Any] = tomllib.loads((files("underpour.desk") / "adding.toml").read_text(encoding="utf-8"))
    return read


def layer_put_in(places: Places, at: str, before: str) -> list[Part]:
    """A press that puts a layer in at a path: over the layer of that name, or under the last."""
    if places.fixed or places.plain("floor.build-up") is None:
        return []
    label = say("sheet.add.over", layer=before) if before else say("sheet.add.under")
    offers = [{"path": at, "words": say("sheet.add.board"), "value": _foam(places)}]
    for key, size in usual()["layer"].items():
        typed = size.get("name") or size[places.resolved.system]
        offers.append({"path": at, "words": key.replace("-", " "), "value": {key: typed}})
    return [{"add": offers, "shown": "+", "label": label}]


def taken_out(places: Places, at: str, name: str) -> list[Part]:
    """A press that takes out what is typed at a path."""
    if places.fixed or not places.plain(at):
        return []
    return [{"out": at, "label": say("sheet.add.out", name=name)}]


def foam_put_in(places: Places, letter: str) -> list[Part]:
    """A press that puts foam at an edge."""
    if places.fixed or places.plain(f"edge.{letter}") is None:
        return []
    system, faces = places.resolved.system, literals("edge.insulation.face")
    offers = [
        {
            "path": f"edge.{letter}.insulation",
            "words": faces[face],
            "value": {**_foam(places), "face": face, **{key: size[system] for key, size in further.items()}},
        }
        for face, further in usual()["face"].items()
    ]
    return [{"add": offers, "shown": say("sheet.add.foam"), "label": say("sheet.add.foam-at", letter=letter)}]


def alternative_put_in(places: Places, names: tuple[str, ...]) -> Part:
    """A press that puts an alternative beside the brief."""
    offers = [_alternative(say("sheet.add.no-foam"), names, remove=[FOAM])]
    layer = next((each for each in places.resolved.floor if each.kind == FOAM and each.wanted is None), None)
    if layer is not None and layer.record is not None:
        path = f"{layer.path.rpartition('.')[0]}.thickness"
        sizes = made_in(layer.record, places.resolved.system)
        for made in _beside(sizes, layer):
            offers.append(_alternative(say("sheet.add.foam-of", thickness=made.typed), names, set={path: made.typed}))
    return {"add": offers, "shown": say("sheet.add.another"), "label": say("sheet.add.alternative")}


def _alternative(name: str, names: tuple[str, ...], **change: Any) -> dict[str, Any]:
    free = next(each for n in range(1, len(names) + 2) if (each := name if n == 1 else f"{name}, {n}") not in names)
    return {"path": "alternative", "words": free, "value": {"name": free, **change}}


def _beside(sizes: tuple[Made, ...], layer: Slice) -> list[Made]:
    """The sizes next to a layer's, the thicker first."""
    thicker = [made for made in sizes if made.thickness > layer.thickness + 1e-4]
    thinner = [made for made in sizes if made.thickness < layer.thickness - 1e-4]
    return [*thicker[:1], *thinner[-1:]]


def _foam(places: Places) -> dict[str, str]:
    """The brief's own foam, or the first of the line, in the size nearest to the usual one."""
    resolved = places.resolved
    pieces = [piece.board for edge in resolved.edges for piece in edge.pieces]
    own = next((layer.record for layer in (*resolved.floor, *pieces) if layer.record is not None), None)
    record = own or resolved.products.boards()[0]
    system = resolved.system
    size = usual()["board"][system]
    wanted = thickness(size).si
    sizes = made_in(record, system)
    if sizes:
        size = min(sizes, key=lambda made: abs(made.thickness - wanted)).typed
    return {"board": record.key, "thickness": size}
