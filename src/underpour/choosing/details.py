"""Foam at edges as practice and codes lay it, from ``details.toml``."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from .. import measure
from ..brief.tables.edge import Edge

KILO = 1000.0  # Pa in a kPa
Piece = Mapping[str, object]  # as a brief types it


@dataclass(frozen=True, slots=True)
class Detail:
    """One way to lay foam at edges."""

    key: str
    words: str
    pieces: Mapping[str, Sequence[Mapping[str, str]]]  # by kind of edge
    new_work: bool = False  # whether a building that stands would have to be dug up for it

    def at(self, edge: Edge, board: str, thickness: str) -> list[Piece] | None:
        """What is typed at an edge; None where this detail has nothing for its kind."""
        if edge.kind not in self.pieces:
            return None
        return [{"board": board, "thickness": thickness, **_placed(piece, edge)} for piece in self.pieces[edge.kind]]


def _placed(piece: Mapping[str, str], edge: Edge) -> dict[str, object]:
    """A piece without ``cover``: a wing lies so far below the ground outside, which the brief counts from the floor."""
    placed: dict[str, object] = {key: value for key, value in piece.items() if key != "cover"}
    if "cover" in piece:
        below = measure.length(piece["cover"]).si - (edge.ground.si if edge.ground is not None else 0.0)
        placed["at"] = f"{1000.0 * below:.0f} mm"
    return placed


@cache
def least_strength() -> float:
    """Of a board at an edge, by the short test. [kPa]

    >>> round(least_strength(), 1)
    103.4
    """
    return measure.pressure(_table()["least-strength"]).si / KILO


@cache
def details() -> tuple[Detail, ...]:
    """Every detail, in the order of the file.

    >>> details()[0].key, sorted(details()[3].pieces)
    ('slab-edge', ['footing-wall', 'frost-wall'])
    """
    return tuple(
        Detail(row["key"], row["words"], row["pieces"], row.get("new-work", False)) for row in _table()["detail"]
    )


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads(resources.files(__package__).joinpath("details.toml").read_text("utf-8"))
