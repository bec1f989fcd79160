"""A plan of panels: every piece, where it lies and which part of which panel it is cut from. Lengths in m."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count, pairwise
from math import cos, radians, sin

from .assemble import Rows, packed
from .panel import Rules
from .rows import between


@dataclass(frozen=True, slots=True)
class Piece:
    """What lies between two joints of a row, and which part of which panel it is cut from."""

    row: int
    x0: float  # along the row
    x1: float
    y0: float  # lowest and highest place
    y1: float
    meets: int  # sides that meet another panel
    area: float  # of the floor that it covers, m²
    panel: int  # counted from 0
    u: float  # from the panel's left end
    v: float  # from its lower side

    @property
    def length(self) -> float:
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        return self.y1 - self.y0


@dataclass(frozen=True, slots=True)
class Offcut:
    """A rectangle that is left of a panel when all its pieces are cut."""

    length: float  # along the panel
    height: float  # across it
    sides: int  # that left the works
    panel: int  # counted from 0, as those of pieces
    u: float  # from the panel's left end
    v: float  # from its lower side


@dataclass(frozen=True, slots=True)
class Layout:
    """Panels on a floor: the rows' direction and place, and every piece."""

    rules: Rules
    angle: float  # of the rows, degrees
    offset: float  # height of a row's line above the origin, turned
    panels: int
    pieces: tuple[Piece, ...]  # row by row from the lowest, each from left to right
    seams: float  # m, all joints between panels
    offcuts: tuple[Offcut, ...] = ()  # what is left of sawn panels, by panel
    phase: float = 0.0  # m along the rows, where a line of the pitch lies
    from_top: bool = False  # whether the crew begins with the highest row
    from_right: bool = False  # and each row at its right end

    @property
    def area(self) -> float:
        """Of the floor that is covered. [m²]"""
        return sum(piece.area for piece in self.pieces)

    @property
    def waste(self) -> float:
        """Share of the panels' area that does not end up on the floor."""
        return 1.0 - self.area / (self.panels * self.rules.area)

    @property
    def first_row(self) -> tuple[Piece, ...]:
        """The pieces that are laid first, all along the edge where the crew begins."""
        began = self.pieces[-1 if self.from_top else 0].row
        return tuple(piece for piece in self.pieces if piece.row == began)

    @property
    def first_height(self) -> float:
        """How high the first row is, from the edge of the floor to the line where the next begins. [m]"""
        first = self.first_row
        return max(piece.y1 for piece in first) - min(piece.y0 for piece in first)

    def on_plan(self, point: tuple[float, float]) -> tuple[float, float]:
        """From along the rows to the plan's own x and y. [m]"""
        c, s = cos(radians(self.angle)), sin(radians(self.angle))
        return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def laid(
    rows: Rows,
    starts: Sequence[float],
    angle: float,
    offset: float,
    from_top: bool = False,
    from_right: bool = False,
) -> Layout:
    """The plan with every piece's panel.

    Arguments
    ---------
    rows
        The floor's rows.
    starts
        Length of the first piece of each strip. [m]
    angle, offset
        Of the rows: degrees, and the height of a row's line above the origin, turned. [degrees, m]
    from_top, from_right
        Where the crew begins.
    """
    stock, taken = packed(rows, starts)
    cut = {(each.strip, round(each.x0, 7)): where for each, where in taken}
    whole = count(stock.opened - sum(rows.whole_and_parts(number, start)[0] for number, start in enumerate(starts)))
    every = [each for number, start in enumerate(starts) for each in rows.slices(number, start)]
    pieces = [
        Piece(
            *(each.row, each.x0, each.x1, each.y0, each.y1, each.meets),
            rows.strips[each.strip].area(each.x0, each.x1),
            *(cut.get((each.strip, round(each.x0, 7))) or (next(whole), 0.0, 0.0)),
        )
        for each in every
    ]
    pieces.sort(key=lambda piece: (piece.row, piece.x0))
    offcuts = tuple(sorted((Offcut(*left) for left in stock.left), key=lambda each: (each.panel, each.u, each.v)))
    seams = _seams(rows, starts)
    return Layout(
        rows.rules, angle, offset, stock.opened, tuple(pieces), seams, offcuts, rows.phase, from_top, from_right
    )


def _seams(rows: Rows, starts: Sequence[float]) -> float:
    butts = sum(
        strip.across(x) for number, strip in enumerate(rows.strips) for x in rows.joints(number, starts[number])
    )
    last = rows.strips[-1].row
    by_row = [[strip for strip in rows.strips if strip.row == row] for row in range(last + 1)]
    return butts + sum(between(below, above) for below, above in pairwise(by_row))
