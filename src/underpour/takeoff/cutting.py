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


@dataclass(frozen=True, slots=True)
class Kept:
    """A rectangle that is left of a sawn panel, large enough to be laid elsewhere."""

    panel: int  # sawn panels counted from 1, as in the cut list
    length: float  # m, along the panel
    height: float  # m, across it
    u: float  # m, from the panel's left end
    v: float  # m, from its lower side


def numbered(layout: Layout) -> list[tuple[str, Piece]]:
    """Every piece with its number: the row and its place in it, counted from where the crew begins.

    Arguments
    ---------
    layout
        A plan of panels.
    """
    found, row, place = [], -1, 0
    last = max(piece.row for piece in layout.pieces)
    for piece in sorted(layout.pieces, key=lambda each: _turn(layout, each)):
        row, place = (row, place + 1) if piece.row == row else (piece.row, 1)
        found.append((f"{last - row + 1 if layout.from_top else row + 1}.{place}", piece))
    return found


def _turn(layout: Layout, piece: Piece) -> tuple[int, float]:
    """When a piece's turn comes: row by row from where the crew begins."""
    return -piece.row if layout.from_top else piece.row, -piece.x0 if layout.from_right else piece.x0


def is_whole(layout: Layout, piece: Piece) -> bool:
    """Whether a piece is a panel as it comes, though it may be cut out around something."""
    return piece.length * piece.height > layout.rules.area - 1e-6


def cuts(layout: Layout) -> Iterator[Cut]:
    """The pieces that are sawn, by panel."""
    sawn = [(number, piece) for number, piece in numbered(layout) if not is_whole(layout, piece)]
    panels = sawn_panels(layout)
    for number, piece in sorted(sawn, key=lambda each: panels[each[1].panel]):
        keeps = kept_sides(layout, piece)
        slanted = piece.area < piece.length * piece.height - 1e-6
        yield Cut(number, panels[piece.panel], piece.length, piece.height, piece.u, piece.v, keeps, slanted)


def kept_sides(layout: Layout, piece: Piece) -> str:
    """The sides of a piece that must be as they left the works, in words; "" where none must."""
    return ", ".join(words for side, words in SIDES.items() if layout.rules.interlock and piece.meets & side)


def sawn_panels(layout: Layout) -> dict[int, int]:
    """The number in the cut list of each panel that is sawn, by its place among all panels of a plan."""
    sawn = (piece.panel for piece in layout.pieces if not is_whole(layout, piece))
    return {panel: n for n, panel in enumerate(dict.fromkeys(sawn), start=1)}


def kept(layout: Layout) -> Iterator[Kept]:
    """The offcuts that no piece of a plan needs and that are long and high enough to be laid somewhere."""
    panels, least = sawn_panels(layout), layout.rules.least
    for each in sorted(layout.offcuts, key=lambda each: panels[each.panel]):
        if min(each.length, each.height) >= least:
            yield Kept(panels[each.panel], each.length, each.height, each.u, each.v)


def too_small(layout: Layout) -> float:
    """What is left of sawn panels in smaller rectangles than are kept. [m²]"""
    least = layout.rules.least
    return sum(each.length * each.height for each in layout.offcuts if min(each.length, each.height) < least)
