"""The boards of a resolved brief, each once, with all the places where it lies."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..catalogue.records import Board
from ..resolve import Resolved, Slice

UNDER = ("footing-top", "below-footing", "below-slope")  # faces where foam is stood on


@dataclass(frozen=True, slots=True)
class LaidBoard:
    """One board of the catalogue where it lies."""

    board: Board
    paths: tuple[str, ...]  # where the brief names it
    carries: bool  # whether a slab or a footing stands on it


def laid_boards(resolved: Resolved) -> tuple[LaidBoard, ...]:
    """Every board once, those of the floor first."""
    places: dict[str, list[tuple[str, bool]]] = {}
    for layer, carries in _slices(resolved):
        places.setdefault(layer.key, []).append((layer.path, carries))
    return tuple(
        LaidBoard(resolved.products.board(key), tuple(path for path, _ in found), any(carries for _, carries in found))
        for key, found in places.items()
    )


def _slices(resolved: Resolved) -> Iterator[tuple[Slice, bool]]:
    yield from ((layer, True) for layer in resolved.boards)
    for edge in resolved.edges:
        yield from ((piece.board, piece.face in UNDER) for piece in edge.pieces)
        yield from ((body.slice, False) for body in edge.drawn if body.slice.kind == "board")
