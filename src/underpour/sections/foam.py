"""Foam at an edge: where each piece lies."""

from __future__ import annotations

from ..measure import System, say
from ..mistakes import Mistake
from ..resolve import Piece, ResolvedEdge
from .levels import Levels
from .parts import Outline

LEAST_SILL = 0.02  # m of slab outside a break below a door


def box(x0: float, x1: float, y0: float, y1: float) -> Outline:
    """A rectangle, anticlockwise."""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def outlines(piece: Piece, path: str, edge: ResolvedEdge, at: Levels, outside: float, system: System) -> list[Outline]:
    """The bodies of one piece of foam; ``outside`` is the thickness of foam on the wall's outer face.

    Raises Mistake where it does not fit.
    """
    thick = piece.board.thickness
    hung = bool(edge.wall)
    outer = -at.wall if hung else at.start
    match piece.face:
        case "outside":
            own = -edge.ledge.below if edge.ledge else 0.0  # below the brick, unless the brief takes it up before it
            top = piece.top if piece.top is not None else own
            bottom = _bottom(piece, at.footing_top, top, path)
            if hung and at.footing_left < outer - 1e-6:
                _on_the_footing(bottom, at, path, system)
            return [box(outer - thick, outer, bottom, top)]
        case "inside":
            basement = edge.kind == "footing-wall"
            own_top, own_bottom = (at.top, 0.0) if basement else (at.slab_bottom, at.footing_top)
            top = piece.top if piece.top is not None else own_top
            bottom = _bottom(piece, own_bottom, top, path)
            if at.footing_right > 1e-6:
                _on_the_footing(bottom, at, path, system)
            return [box(0.0, thick, bottom, top)]
        case "slab-edge":
            top = piece.top if piece.top is not None else 0.0
            if at.door:
                return [_below_the_leaf(piece, path, at, at.door, top, system)]
            if hung:
                bottom = _bottom(piece, at.poured_bottom, top, path)
                if at.footing_right > 1e-6:
                    _on_the_footing(bottom, at, path, system)
                if at.old_slab is not None:
                    _on_the_old_slab(bottom, at.old_slab, path, system)
                return [box(0.0, thick, bottom, top)]
            own = at.footing_bottom if at.slope else at.foam_bottom
            return [box(outer - thick, outer, _bottom(piece, own, top, path), top)]
        case "footing-top":
            if at.footing_top + thick > at.slab_bottom + 1e-6:
                room = max(at.slab_bottom - at.footing_top, 0.0)
                raise Mistake(
                    f"{path}.thickness",
                    "",
                    f"{piece.board.words} does not fit on the footing: there are {say.both(room, 'm', system)} "
                    "between the slab and the footing.",
                    "Lower the footing (depth), or take less foam there.",
                )
            over = (at.footing_top, at.footing_top + thick)
            return [
                body
                for body in (box(0.0, at.footing_right, *over), box(at.footing_left, outer - outside, *over))
                if body[1][0] - body[0][0] > 1e-6
            ]
        case "footing-side":
            beside = (at.footing_bottom, at.footing_top)
            return [
                box(at.footing_left - thick, at.footing_left, *beside),
                box(at.footing_right, at.footing_right + thick, *beside),
            ]
        case "below-footing":
            left, right = at.footing_left, at.footing_right
            if at.slope:  # it laps under the foam beside it, or the two would touch in a line and leak there
                left, right = left - _reaching_down(edge, at), right + at.slope.below
            return [box(left, right, at.footing_bottom - thick, at.footing_bottom)]
        case "below-slope":
            assert at.slope is not None
            foot, top, beyond = at.slope.foot, at.slope.top, at.slope.below
            low, high = at.footing_bottom, at.foam_bottom
            if high - low < 1e-6:
                raise Mistake(
                    path,
                    "",
                    "The thickening ends level with the underside of the floor's foam, so there is no slope.",
                    "Make depth larger, or take this foam out.",
                )
            return [((foot, low), (foot + beyond, low), (top + beyond, high), (top, high))]
        case _:
            assert piece.at is not None and piece.out is not None
            if -piece.at > edge.ground + 1e-6:
                raise Mistake(
                    f"{path}.at",
                    "",
                    "This wing lies above the ground.",
                    "Give at, the depth of its upper side below the top of the floor, so that ground covers it.",
                )
            start = outer - outside
            return [box(start - piece.out, start, -piece.at - thick, -piece.at)]


def _below_the_leaf(
    piece: Piece, path: str, at: Levels, door: tuple[float, float], top: float, system: System
) -> Outline:
    """An upright break through the slab: its outer side in line with the leaf's, so that leaf and saddle cover it.

    Foam thicker than the leaf laps over the floor's own foam; the room side in line with the leaf's would let slab and
    foundation wall touch in a line.
    """
    left = door[0]
    right = left + piece.board.thickness
    bottom = _bottom(piece, at.poured_bottom, top, path)
    if left < -at.wall + LEAST_SILL:
        raise Mistake(
            f"{path}.face",
            "",
            f"This break leaves no sill outside the door, whose leaf stands {say.both(left + at.wall, 'm', system)} "
            "in from the wall's outer face.",
            "Set the leaf further back (set-back), or let foam outside do without the break.",
        )
    if bottom < at.slab_bottom - 1e-6 and left < -1e-6:
        raise Mistake(
            f"{path}.down",
            "",
            "This foam reaches into the foundation wall, which carries the slab below the door.",
            "Take out down, and the foam ends at the slab's underside.",
        )
    return box(left, right, bottom, top)


def _reaching_down(edge: ResolvedEdge, at: Levels) -> float:
    """Thickness of the foam on a thickening's outer face where it reaches the bottom. [m]"""
    reaching = (
        piece.board.thickness
        for piece in edge.pieces
        if piece.face == "slab-edge" and (piece.bottom is None or piece.bottom < at.footing_bottom + 1e-6)
    )
    return max(reaching, default=0.0)


def _on_the_footing(bottom: float, at: Levels, path: str, system: System) -> None:
    if bottom >= at.footing_top - 1e-6:
        return
    reach, ledge = say.both(-bottom, "m", system), say.both(-at.footing_top, "m", system)
    raise Mistake(
        f"{path}.down",
        "",
        f"This foam reaches {reach} below the floor; the footing stands out beyond the wall from {ledge} on.",
        "Take out down, and the foam ends on the footing. Foam beside the footing is a piece of its own, footing-side.",
    )


def _on_the_old_slab(bottom: float, old_slab: float, path: str, system: System) -> None:
    if bottom >= old_slab - 1e-6:
        return
    raise Mistake(
        f"{path}.down",
        "",
        f"This foam reaches {say.both(-bottom, 'm', system)} below the floor; the old slab, which stays, begins "
        f"{say.both(-old_slab, 'm', system)} below it.",
        "Take out down, and the foam ends above the old slab.",
    )


def _bottom(piece: Piece, own: float, top: float, path: str) -> float:
    bottom = piece.bottom if piece.bottom is not None else own
    if bottom >= top - 1e-6:
        raise Mistake(
            f"{path}.down",
            "",
            "This foam ends above where it starts.",
            "Give down, how far it reaches, or from, where it starts.",
        )
    return bottom
