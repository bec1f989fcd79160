"""Edges: what the brief says of each, and what is assumed where it is silent."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import TypeVar

from ..brief.tables.edge import Edge, Insulation
from ..brief.tables.layer import Layer
from ..findings import Assumed
from ..measure import Measure, System, say
from ..mistakes import Mistake
from .assumptions import Assumptions
from .foams import Foams
from .layers import bulk, layer_slice, piece_slice, shape_slice
from .ledges import resolve_ledge
from .resolved import Drawn, Piece, ResolvedEdge, Slice, Thickening
from .usual import size, usual, usual_wall

Made = TypeVar("Made")
WALL_SHOWN = 1.0  # m of wall in a section above the higher of floor and ground; the cut there carries no heat
ON_FOOTING = ("footing-wall", "frost-wall", "ledge", "threshold")
USUAL_ABOVE = {
    "frost-wall": "above",
    "raft": "above",
    "thickened-edge": "above",
    "threshold": "leaf",
    "ledge": "above-on-ledge",
}


def resolve_edge(
    edge: Edge,
    letter: str,
    length: float,
    system: System,
    assumed: Assumptions,
    found: list[Mistake],
    foams: Foams,
    *,
    outdoors: bool = False,
) -> ResolvedEdge | None:
    """One edge, of a slab outdoors or of a room's floor; None where a mistake was added to ``found``."""
    path, before = f"edge.{letter}", len(found)

    def tried(make: Callable[[], Made]) -> Made | None:
        try:
            return make()
        except Mistake as mistake:
            found.append(mistake)
            return None

    def leaves(layers: Sequence[Layer], key: str) -> list[Slice]:
        each = (tried(partial(layer_slice, w, f"{path}.{key}.{n}", system, foams)) for n, w in enumerate(layers, 1))
        return [leaf for leaf in each if leaf is not None]

    pieces = [
        made
        for n, p in enumerate(edge.insulation, 1)
        if (made := tried(partial(_piece, p, edge, f"{path}.insulation.{n}", system, foams))) is not None
    ]
    wall, above = leaves(edge.wall or (), "wall"), leaves(edge.above or (), "above")
    drawn = [
        Drawn(body, tuple(shape.outline), shape.priority)
        for n, shape in enumerate(edge.shape, 1)
        if (body := tried(partial(shape_slice, shape, f"{path}.shape.{n}", foams))) is not None
    ]
    if edge.ground is None and edge.kind == "footing-wall":
        found.append(
            Mistake(
                path,
                "",
                "How high is the ground outside this basement's floor?",
                'Write ground = "2 ft", above (+) or below (-) the top of the floor.',
            )
        )
    if len(found) > before:
        return None
    if not wall and edge.kind in ON_FOOTING:
        wall = [usual_wall("wall-with-ledge" if edge.kind == "ledge" else "wall", f"{path}.wall", system, assumed)]
    if not above and not outdoors and edge.kind in USUAL_ABOVE:
        above = [usual_wall(USUAL_ABOVE[edge.kind], f"{path}.above", system, assumed)]
    told = edge.ground is not None or assumed.missing(f"{path}.ground") is not None
    usually = usual("ground-outdoors" if outdoors else "ground-at-door" if edge.kind == "threshold" else "ground")
    ground = edge.ground.si if edge.ground else assumed.take(usually.assumed(f"{path}.ground"))
    footing = _footing(edge, path, assumed) if edge.kind in ON_FOOTING else (0.0, 0.0)
    try:
        stands_in = max((piece.board.thickness for piece in pieces if piece.covered), default=0.0)
        ledge = resolve_ledge(edge, path, wall, above, stands_in, system, assumed)
    except Mistake as mistake:
        found.append(mistake)
        return None
    concrete = _footing_concrete(edge, footing[1], path, system)
    return ResolvedEdge(
        letter,
        edge.kind,
        path,
        length,
        edge.depth.si if edge.depth else 0.0,
        ground,
        tuple(wall),
        tuple(above),
        footing,
        concrete,
        tuple(pieces),
        tuple(drawn),
        ground_told=told,
        thickening=_thickening(edge, path, system, assumed),
        ledge=ledge,
        set_back=_set_back(edge, path, wall, above, assumed) if edge.kind == "threshold" else 0.0,
        props=edge.props or "",
        gap=edge.gap.si if edge.gap is not None else None,
    )


def _set_back(edge: Edge, path: str, wall: Sequence[Slice], leaf: Sequence[Slice], assumed: Assumptions) -> float:
    """How far a door's leaf stands in from the foundation wall's outer face. [m]"""
    if edge.set_back is not None:
        return edge.set_back.si
    thick = sum(layer.thickness for layer in wall)
    flush = max(thick - sum(layer.thickness for layer in leaf), 0.0)
    why = "room side of the leaf in line with the foundation wall's (common practice, no source)"
    return assumed.take(Assumed(f"{path}.set-back", flush, 0.0, thick, "m", why))


def _thickening(edge: Edge, path: str, system: System, assumed: Assumptions) -> Thickening | None:
    if edge.kind != "thickened-edge":
        return None
    typed, keys = edge.thickening, (f"{path}.thickening.width", f"{path}.thickening.slope")
    width, width_words = size(typed.width if typed else None, "thickening-width", keys[0], system, assumed)
    slope, slope_words = size(typed.slope if typed else None, "thickening-slope", keys[1], system, assumed)
    return Thickening(width, width_words, slope, slope_words, (f"{path}.depth", *keys))


def _footing(edge: Edge, path: str, assumed: Assumptions) -> tuple[float, float]:
    if edge.footing is not None:
        return edge.footing.width.si, edge.footing.height.si
    width, height = (
        assumed.take(usual(f"footing-{key}").assumed(f"{path}.footing.{key}")) for key in ("width", "height")
    )
    return width, height


def _footing_concrete(edge: Edge, height: float, path: str, system: System) -> Slice:
    """The footing's concrete, named as what it is."""
    typed = edge.footing.height if edge.footing is not None else None
    said = say.typed(typed, "m", system) if typed else f"{say.both(height, 'm', system)}, assumed"
    made_of = bulk("concrete", typed or Measure(height, said), None, f"{path}.footing", system)
    return replace(made_of, words=f"Footing, concrete, {said}")


def _piece(piece: Insulation, edge: Edge, path: str, system: System, foams: Foams) -> Piece:
    board: Slice = piece_slice(piece, path, system, foams)
    top = piece.from_.si if isinstance(piece.from_, Measure) else None
    start = top if top is not None else 0.0
    if piece.from_ == "wall-top" or (piece.from_ is None and _starts_at_wall_top(edge, piece)):
        top = max(edge.ground.si if edge.ground else 0.0, 0.0) + WALL_SHOWN
        start = top if piece.from_ == "wall-top" else 0.0
    bottom = start - piece.down.si if piece.down is not None else None
    out, at = (key.si if key else None for key in (piece.out, piece.at))
    return Piece(board, piece.face, top, bottom, out, at, covered=piece.top == "covered")


def _starts_at_wall_top(edge: Edge, piece: Insulation) -> bool:
    """On a basement wall the foam covers the whole wall unless the brief says where it starts."""
    return edge.kind == "footing-wall" and piece.face in ("inside", "outside")
