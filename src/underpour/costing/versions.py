"""The same floor with less foam: without any, and with another thickness under the middle."""

from __future__ import annotations

from dataclasses import replace

from ..resolve import Resolved, Slice

SAME = 5e-4  # m


def without_foam(resolved: Resolved) -> Resolved | None:
    """No board in the floor and none at the edges; None where there is none to take out, or a body is drawn of it."""
    if any(body.slice.kind == "board" for edge in resolved.edges for body in edge.drawn):
        return None
    floor = tuple(layer for layer in resolved.floor if layer.kind != "board" or layer not in resolved.laid)
    edges = tuple(replace(edge, pieces=()) for edge in resolved.edges)
    if floor == resolved.floor and edges == resolved.edges:
        return None
    return replace(resolved, floor=floor, edges=edges)


def main_board(resolved: Resolved) -> Slice | None:
    """The thickest board that is laid in the floor; None where there is none."""
    laid = [layer for layer in resolved.boards if layer in resolved.laid]
    return max(laid, key=lambda layer: layer.thickness, default=None)


def thicknesses(board: Slice) -> tuple[float, ...]:
    """Those in which it is made, thinnest first; () of a class, which is made by whoever has it."""
    return tuple(sorted(made.thickness for made in board.record.made)) if board.record is not None else ()


def thinner_of(board: Slice) -> float | None:
    """The next thinner one that is made; None where there is none. [m]"""
    return max((each for each in thicknesses(board) if each < board.thickness - SAME), default=None)


def without(resolved: Resolved, board: Slice) -> Resolved:
    """The floor without one of its boards, the edges as they are."""
    return replace(resolved, floor=tuple(layer for layer in resolved.floor if layer is not board))


def with_thickness(resolved: Resolved, board: Slice, thickness: float) -> Resolved:
    """The floor with one of its boards in another thickness. [m]"""
    laid = replace(board, thickness=thickness)
    return replace(resolved, floor=tuple(laid if layer is board else layer for layer in resolved.floor))
