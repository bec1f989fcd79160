"""The cut list: each panel that is sawn, with the pieces that it gives and where they lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..panels.layout import Layout, Piece
from ..panels.panel import ABOVE, BELOW, LEFT, RIGHT

SIDES = {LEFT: "left end", RIGHT: "right end", BELOW: "lower side", ABOVE: "upper side"}


@dataclass(frozen=True, slots=True)
class Cut:
    """One piece out of a sawn panel."""

    number: str  # on the plan: row and place in it, "3.1"
    panel: int  # sawn panels counted from 1
    length: float  # m, along the row
    height: float  # m, across it
    u: float  # m, from the panel's left end
    v: float  # m, from its lower side
    keeps: str  # sides of the works that must stay on it; "" where none must
    slanted: bool  # whether it is trimmed to the edge or around something beyond its rectangle


def numbered(layout: Layout) -> list[tuple[str, Piece]]:
    """Every piece with its number: the row from the lowest and its place from the left.

    Arguments
    ---------
    layout
        A plan of panels.
    """
    found, row, place = [], -1, 0
    for piece in layout.pieces:
        row, place = (row, place + 1) if piece.row == row else (piece.row, 1)
        found.append((f"{row + 1}.{place}", piece))
    return found


def is_whole(layout: Layout, piece: Piece) -> bool:
    """Whether a piece is a panel as it comes, though it may be cut out around something."""
    return piece.length * piece.height > layout.rules.area - 1e-6


def cuts(layout: Layout) -> Iterator[Cut]:
    """The pieces that are sawn, by panel."""
    sawn = [(number, piece) for number, piece in numbered(layout) if not is_whole(layout, piece)]
    panels = {panel: n for n, panel in enumerate(dict.fromkeys(piece.panel for _, piece in sawn), start=1)}
    held = layout.rules.interlock
    for number, piece in sorted(sawn, key=lambda each: panels[each[1].panel]):
        keeps = ", ".join(words for side, words in SIDES.items() if held and piece.meets & side)
        slanted = piece.area < piece.length * piece.height - 1e-6
        yield Cut(number, panels[piece.panel], piece.length, piece.height, piece.u, piece.v, keeps, slanted)
