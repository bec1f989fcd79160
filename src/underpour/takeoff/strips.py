"""Foam at the edges unrolled: how long each strip is at its middle, corners counted in, and how high or wide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from ..outlines.floor import Floor, Stretch
from ..outlines.outline import straight
from ..outlines.outside import outside
from ..resolve import WALL_SHOWN, Piece, Resolved, ResolvedEdge
from ..sections.foam import outlines
from ..sections.levels import Levels, levels

UPRIGHT = ("outside", "inside", "slab-edge", "footing-side")
OUTER = ("raft", "thickened-edge", "free-edge")  # kinds whose slab edge is the outer face
SHORT = 1e-6  # m


@dataclass(frozen=True, slots=True)
class Strip:
    """One piece of foam along one edge, rolled out flat."""

    edge: ResolvedEdge
    piece: Piece
    length: float  # m, at its middle
    height: float  # m, as it stands; as wide as it lies

    @property
    def floor(self) -> Floor:
        """The rectangle that boards are laid on."""
        return Floor(straight([(0.0, 0.0), (self.length, 0.0), (self.length, self.height), (0.0, self.height)]))

    @property
    def to_wall_top(self) -> bool:
        """Whether it reaches up to the top of the wall, which the brief does not say."""
        own = max(self.edge.ground, 0.0) + WALL_SHOWN
        return self.piece.top is not None and abs(self.piece.top - own) < SHORT


@dataclass(frozen=True, slots=True)
class _Body:
    """Where a piece stands in its section."""

    out: float  # m, its middle beyond the outline, below nought inside it
    height: float  # m


def strips(resolved: Resolved) -> Iterator[Strip]:
    """Every piece of foam of every edge.

    A strip that runs round a corner of the plan is longer outside it and shorter inside, by as much as its middle
    moves: boards that butt there, or are mitred, cover just that. Where the next edge has no such piece, it ends in
    line with the wall there.
    """
    made = {edge.letter: _bodies(resolved, edge) for edge in resolved.edges}
    outer = {edge.letter: _outer(edge, levels(resolved, edge)) for edge in resolved.edges}
    placed = [(edge.letter, stretch) for edge in resolved.plan.edges for stretch in edge.stretches]
    for edge in resolved.edges:
        for number, (piece, bodies) in enumerate(zip(edge.pieces, made[edge.letter], strict=True)):
            for place, body in enumerate(bodies):
                beside = [
                    body.out if letter == edge.letter else _next(piece, place, letter, resolved, made, outer, body.out)
                    for letter, _ in placed
                ]
                length = _length(resolved.plan.floor, placed, beside, edge.letter)
                if length > SHORT and body.height > SHORT:
                    yield Strip(edge, edge.pieces[number], length, body.height)


def _length(floor: Floor, placed: Sequence[tuple[str, Stretch]], beside: Sequence[float], letter: str) -> float:
    out = outside(floor, [(stretch, each) for (_, stretch), each in zip(placed, beside, strict=True)])
    return sum(metres for (of, _), metres in zip(placed, out.lengths, strict=True) if of == letter)


def _next(
    piece: Piece,
    place: int,
    letter: str,
    resolved: Resolved,
    made: dict[str, list[list[_Body]]],
    outer: dict[str, float],
    own: float,
) -> float:
    """How far out the same piece of another edge has its middle; in line with the wall there, where it has none. [m]"""
    edge = next((each for each in resolved.edges if each.letter == letter), None)
    if edge is None:
        return 0.0
    for other, bodies in zip(edge.pieces, made[letter], strict=True):
        if other.face == piece.face and place < len(bodies):
            return bodies[place].out
    return outer[letter] if own > 0.0 else 0.0


def _bodies(resolved: Resolved, edge: ResolvedEdge) -> list[list[_Body]]:
    """Of each piece the bodies that its section has."""
    at = levels(resolved, edge)
    on_face = max(
        (
            piece.board.thickness
            for piece in edge.pieces
            if piece.face == "outside" or (piece.face == "slab-edge" and edge.kind in OUTER)
        ),
        default=0.0,
    )
    found = []
    for number, piece in enumerate(edge.pieces, start=1):
        path = f"{edge.path}.insulation.{number}"
        drawn = outlines(piece, path, edge, at, on_face, resolved.system)
        found.append([_body(piece, outline) for outline in drawn])
    return found


def _body(piece: Piece, outline: Sequence[tuple[float, float]]) -> _Body:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    middle = -(min(xs) + max(xs)) / 2.0
    if piece.face == "below-slope":
        (x0, y0), (x1, y1) = outline[0], outline[3]
        return _Body(-(x0 + x1) / 2.0, hypot(x1 - x0, y1 - y0))
    return _Body(middle, max(ys) - min(ys) if piece.face in UPRIGHT else max(xs) - min(xs))


def _outer(edge: ResolvedEdge, at: Levels) -> float:
    """How far the wall's outer face, or the slab's, lies beyond the outline. [m]"""
    return at.wall if edge.wall else -at.start
