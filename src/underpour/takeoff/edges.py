"""Foam at the edges: each face unrolled into a rectangle and laid like a floor."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from ..measure import say
from ..panels.panel import Rules
from ..panels.search import Found, fewest_panels
from ..resolve import WALL_SHOWN, Resolved
from .layers import Told, counted, rules_of, size_of
from .prices import priced_by_area
from .records import Item, beyond
from .stacked import stacked
from .strips import UPRIGHT, Strip, strips

CUTS = 2000  # a strip is soon laid


def edge_foam(resolved: Resolved, told: Told) -> Iterator[Item]:
    """Boards for each piece of foam of each edge, cut into strips along it."""
    for strip in strips(resolved):
        told(f"edge {strip.edge.letter}", 1.0)
        yield _strip(resolved, strip)


def where_of(strip: Strip) -> str:
    """Where a strip is fixed, as an order says it."""
    return f"edge {strip.edge.letter}, {strip.piece.face.replace('-', ' ')}"


def laid_strip(resolved: Resolved, strip: Strip) -> Found:
    """The plan of a strip's boards: they butt, and nobody looks at the stagger."""
    rules, _, _ = rules_of(resolved, strip.piece.board)
    free = Rules(rules.length, rules.width, False, 0.0, 0.0, rules.kerf)
    return fewest_panels(strip.floor, free, [0.0], CUTS)


def _strip(resolved: Resolved, strip: Strip) -> Item:
    piece = strip.piece
    rules, size, product = rules_of(resolved, piece.board)
    found = laid_strip(resolved, strip)
    net = strip.length * strip.height
    order = found.panels * rules.area
    cost, unpriced = priced_by_area(resolved, piece.board, order, found.panels)
    along, high = (say.both(each, "m", resolved.system) for each in (strip.length, strip.height))
    how = "high" if piece.face in UPRIGHT else "wide"
    why = f"{along} long at its middle, corners counted in, and {high} {how}, unrolled."
    if strip.to_wall_top:
        over = say.both(WALL_SHOWN, "m", resolved.system)
        why += f" The wall's top is taken {over} above ground and floor: type from where it is elsewhere."
    where = where_of(strip)
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


@dataclass(frozen=True, slots=True)
class Sawn:
    """How the boards of one strip are sawn."""

    where: str  # "edge A, inside"
    what: str
    boards: int
    height: float  # m, of the strip
    length: float  # m
    pieces: tuple[tuple[float, float, int], ...]  # length, height and how many of them, the largest first; m


def sawn_strips(resolved: Resolved) -> Iterator[Sawn]:
    """Every strip of foam of the edges with the pieces that its boards are sawn into."""
    for strip in strips(resolved):
        layout = laid_strip(resolved, strip).layout()
        sizes = Counter((round(piece.length, 4), round(piece.height, 4)) for piece in layout.pieces)
        pieces = tuple((*size, count) for size, count in sorted(sizes.items(), key=lambda each: each[0], reverse=True))
        yield Sawn(where_of(strip), strip.piece.board.words, layout.panels, strip.height, strip.length, pieces)
