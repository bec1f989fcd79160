"""Foam at an edge as a code reads it: from the top of the slab on, stretch by stretch, with its labelled resistance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...measure import System, say
from ...resolve import Piece, Resolved, Slice
from ..solved import SolvedEdge

NEAR = 1e-4  # m: two pieces this near meet
UNDER = "under the slab"
OUTSIDE = "outside"


@dataclass(frozen=True, slots=True)
class Stretch:
    """A length of foam along its way from the top of the slab."""

    length: float  # m
    resistance: float  # m²·K/W, as labelled
    where: str
    paths: tuple[str, ...]


Way = tuple[Stretch, ...]


def ways(resolved: Resolved, solved: SolvedEdge, soil_cover: float | None = None) -> tuple[Way, ...]:
    """The ways that foam goes from the top of the slab: outside and outwards, or inside and in under the slab.

    Parameters
    ----------
    soil_cover : float, optional
        How much ground must lie over foam that reaches outwards for it to count. [m]

    Each way begins at the top of the slab: foam that begins below it leaves the edge bare and counts for nothing.
    """
    edge, level = solved.edge, solved.levels
    faces = {
        face: [piece for piece in edge.pieces if piece.face == face] for face in ("outside", "inside", "slab-edge")
    }
    under = _under(resolved, solved)
    if edge.wall:
        outer = _down(faces["outside"], -edge.ledge.below if edge.ledge else 0.0, level.footing_top, 0.0, OUTSIDE)
        inner = _down(faces["slab-edge"], 0.0, level.poured_bottom, 0.0, "at the slab's edge")
        if length(inner) >= -level.poured_bottom - NEAR and inner:
            inner += _down(faces["inside"], level.slab_bottom, level.footing_top, level.slab_bottom, "inside the wall")
            inner += under
    else:
        own = level.footing_bottom if level.slope else level.foam_bottom
        pieces = [*faces["outside"], *faces["slab-edge"]]
        outer = _down(pieces, 0.0, own, 0.0, "at the slab's edge")
        inner = outer + _below(resolved, solved, under) if length(outer) >= -own - NEAR and outer else ()
    outer += _outwards(edge.pieces, edge.ground, outer, soil_cover)
    return tuple(way for way in (outer, inner) if way)


def least(way: Way, depth: float) -> float:
    """The least resistance of a way within its first so many metres, or along all of it if shorter. [m²·K/W]"""
    found: list[float] = []
    gone = 0.0
    for stretch in way:
        if gone < depth - NEAR or not found:
            found.append(stretch.resistance)
        gone += stretch.length
    return min(found, default=0.0)


def reach(way: Way, resistance: float) -> float:
    """How far a way goes with at least that resistance. [m]"""
    gone = 0.0
    for stretch in way:
        if stretch.resistance < resistance - 1e-6:
            break
        gone += stretch.length
    return gone


def best(found: Sequence[Way], depth: float) -> Way:
    """The way with the most resistance within that depth, then the one that reaches farthest; () for none."""
    return max(found, key=lambda way: (least(way, depth), reach(way, least(way, depth))), default=())


def told(way: Way, system: System) -> str:
    """The stretches of a way in words: "R-8.0 (RSI 1.41) for 4 ft (1.22 m) outside"."""
    return "; ".join(
        f"{say.both(s.resistance, 'm²·K/W', system)} for {say.both(s.length, 'm', system)} {s.where}" for s in way
    )


def paths(way: Way) -> tuple[str, ...]:
    """What a way rests on."""
    return tuple(dict.fromkeys(path for stretch in way for path in stretch.paths))


def _down(pieces: Sequence[Piece], own_top: float, own_bottom: float, start: float, where: str) -> Way:
    """Stretches downward from a level, pieces on one face added where they lie side by side."""
    spans = [(own_top if p.top is None else p.top, own_bottom if p.bottom is None else p.bottom, p) for p in pieces]
    found: list[Stretch] = []
    level = start
    for end in sorted({bottom for _, bottom, _ in spans} | {top for top, _, _ in spans}, reverse=True):
        if end >= level - NEAR:
            continue
        over = [piece for top, bottom, piece in spans if top >= level - NEAR and bottom <= end + NEAR]
        if not over:
            break
        rest = [path for piece in over for path in piece.board.r_label_rests_on]
        found.append(Stretch(level - end, sum(piece.board.r_label or 0.0 for piece in over), where, tuple(rest)))
        level = end
    return tuple(found)


def _outwards(pieces: Sequence[Piece], ground: float, outer: Way, soil_cover: float | None) -> Way:
    """A wing that goes on from the foam down the outside, where enough ground lies over it."""
    wings = [piece for piece in pieces if piece.face == "wing" and piece.at is not None and piece.out is not None]
    found = []
    for piece in wings:
        at, out = piece.at or 0.0, piece.out or 0.0
        covered = soil_cover is None or at + ground >= soil_cover - NEAR
        if outer and covered and length(outer) >= at - NEAR:
            found.append(Stretch(out, piece.board.r_label or 0.0, "outwards", piece.board.r_label_rests_on))
    return tuple(found[:1])


def _under(resolved: Resolved, solved: SolvedEdge) -> Way:
    """The foam under the whole floor, as far as the middle."""
    boards = below_slab(resolved)
    if not boards:
        return ()
    rest = tuple(path for board in boards for path in board.r_label_rests_on)
    return (Stretch(resolved.half_width, sum(b.r_label or 0.0 for b in boards), UNDER, rest),)


def _below(resolved: Resolved, solved: SolvedEdge, under: Way) -> Way:
    """What goes on below a slab that is its own footing: the floor's foam, and that below a thickening."""
    if solved.levels.slope is None:
        return under
    below = [piece for piece in solved.edge.pieces if piece.face in ("below-footing", "below-slope")]
    if {piece.face for piece in below} != {"below-footing", "below-slope"}:
        return ()
    width = solved.edge.thickening.width if solved.edge.thickening else 0.0
    thinnest = min(below, key=lambda piece: piece.board.r_label or 0.0)
    rest = tuple(path for piece in below for path in piece.board.r_label_rests_on)
    return (Stretch(width, thinnest.board.r_label or 0.0, "below the thickening", rest), *under)


def below_slab(resolved: Resolved) -> tuple[Slice, ...]:
    """The boards that lie below the floor's concrete."""
    poured = [n for n, layer in enumerate(resolved.laid) if layer.kind == "concrete"]
    first = poured[0] if poured else 0
    return tuple(layer for layer in resolved.laid[first:] if layer.kind == "board")


def bears(solved: SolvedEdge) -> float:
    """The level of the underside of what bears: of the footing, of a thickening, else of the lowest foam. [m]"""
    level = solved.levels
    return level.footing_bottom if any(solved.edge.footing) or solved.edge.thickening else level.foam_bottom


def stops_at(solved: SolvedEdge, stop: str) -> float:
    """How far below the top of the slab a level of ``codes.STOPS`` lies. [m]"""
    levels = {
        "slab-bottom": solved.levels.slab_bottom,
        "footing-top": solved.levels.footing_top,
        "footing-bottom": bears(solved),
    }
    return -levels[stop]


def length(way: Way) -> float:
    """How far a way goes in all. [m]"""
    return sum(stretch.length for stretch in way)
