"""Foam at the edges: each face unrolled into a rectangle and laid like a floor."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ..measure import say
from ..outlines.floor import Floor
from ..outlines.outline import straight
from ..panels.panel import Rules
from ..panels.search import fewest_panels
from ..resolve import Piece, Resolved, ResolvedEdge
from .layers import counted, rules_of, size_of
from .prices import priced_by_area
from .records import Item, beyond
from .stacked import stacked

CUTS = 2000  # a strip is soon laid


def edge_foam(resolved: Resolved, told: Callable[[str, float], None]) -> Iterator[Item]:
    """Boards for each piece of foam of each edge, cut into strips along it."""
    for edge in resolved.edges:
        for piece in edge.pieces:
            height = _height(resolved, edge, piece)
            if height > 0.0 and edge.length > 0.0:
                told(f"edge {edge.letter}", 1.0)
                yield _strip(resolved, edge, piece, height)


def _strip(resolved: Resolved, edge: ResolvedEdge, piece: Piece, height: float) -> Item:
    rules, size, product = rules_of(resolved, piece.board)
    free = Rules(rules.length, rules.width, False, 0.0, 0.0, rules.kerf)
    floor = Floor(straight([(0.0, 0.0), (edge.length, 0.0), (edge.length, height), (0.0, height)]))
    found = fewest_panels(floor, free, [0.0], CUTS)
    net = edge.length * height
    order = found.panels * rules.area
    cost, unpriced = priced_by_area(resolved, piece.board, order, found.panels)
    along, high = (say.both(each, "m", resolved.system) for each in (edge.length, height))
    why = f"{along} long and {high} high or wide, unrolled; corners are not added."
    where = f"edge {edge.letter}, {piece.face.replace('-', ' ')}"
    item = Item(
        piece.board.words,
        where,
        piece.board.key,
        net,
        "m²",
        found.panels,
        counted(found.panels, "board", size),
        order,
        why,
        "",
        cost,
        unpriced,
        beyond(("cut off", order - net)),
    )
    return stacked(item, piece.board, product, size_of(resolved, piece.board))


def _height(resolved: Resolved, edge: ResolvedEdge, piece: Piece) -> float:
    """How high a piece stands, or how wide it lies. [m]"""
    if piece.out is not None:
        return piece.out
    if piece.face in ("footing-top", "below-footing"):
        return edge.strip[0]
    if piece.face == "footing-side":
        return edge.strip[1]
    top = piece.top if piece.top is not None else 0.0
    slab = next((layer.thickness for layer in resolved.floor if layer.kind == "concrete"), 0.0)
    bottom = piece.bottom if piece.bottom is not None else (-slab if piece.face == "slab-edge" else -edge.depth)
    return max(top - bottom, 0.0)
