"""One edge as a sentence whose words can be typed over."""

from __future__ import annotations

from typing import Any

from ..words import say
from .adding import foam_put_in, taken_out
from .fields import Part, Places
from .parts import sentence

SIZES = ("depth", "ground", "set-back")  # keys of an edge that are one measure
PIECE = ("from", "down", "out", "at")  # of a piece of foam, where they are typed


def edge(places: Places, letter: str) -> list[Part]:
    """What stands at the edge of that letter or name, one clause a thing."""
    at = f"edge.{letter}"
    typed: Any = places.plain(at) or {}
    parts = sentence("sheet.edge.head", letter={"own": letter}, kind=places.field(f"{at}.kind", choices="edge.kind"))
    for key in SIZES:
        if key in typed or key in ("depth", "ground"):
            parts += sentence(f"sheet.edge.{key}", it=places.field(f"{at}.{key}", say("sheet.not-told")))
    if isinstance(typed.get("footing"), dict):
        sizes = {key: places.field(f"{at}.footing.{key}", say("sheet.not-told")) for key in ("width", "height")}
        parts += sentence("sheet.edge.footing", **sizes)
    for n, layer in enumerate(typed.get("wall") or (), 1):
        parts += sentence("sheet.edge.wall", it=_layer(places, f"{at}.wall.{n}", layer))
    for n, piece in enumerate(typed.get("insulation") or (), 1):
        parts += _piece(places, f"{at}.insulation.{n}", piece)
        parts += taken_out(places, f"{at}.insulation.{n}", say("sheet.add.piece", face=str(piece.get("face", ""))))
    more = foam_put_in(places, letter)  # which ends the sentence, where anything may be put in
    return [*parts, *([{"text": " "}, *more] if more else [{"text": "."}])]


def _layer(places: Places, at: str, layer: dict[str, Any]) -> list[Part]:
    """A layer of a wall: a bulk one by its thickness, another by its name."""
    if "board" in layer:
        return _board(places, at, layer)
    key = next((key for key in layer if key not in ("conductivity", "thickness", "r")), "")
    return [places.field(f"{at}.{key}"), {"text": " "}, {"own": key.replace("-", " ")}] if key else []


def _board(places: Places, at: str, piece: dict[str, Any]) -> list[Part]:
    size = "thickness" if "thickness" in piece or "r" not in piece else "r"
    return sentence(
        "sheet.edge.board",
        size=places.field(f"{at}.{size}", say("sheet.not-told")),
        board=places.field(f"{at}.board", choices="boards"),
    )


def _piece(places: Places, at: str, piece: dict[str, Any]) -> list[Part]:
    face = places.field(f"{at}.face", choices="edge.insulation.face")
    parts = sentence("sheet.edge.piece", board=_board(places, at, piece), face=face)
    for key in PIECE:
        if key in piece:
            parts += sentence(f"sheet.edge.{key}", it=places.field(f"{at}.{key}"))
    return parts
