"""Pieces of a plan that are still to lie, cut again from offcuts at hand and as few new panels as that leaves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import count
from random import Random

from .ground_plan import SAME
from .layout import Offcut, Piece
from .panel import ABOVE, BELOW, LEFT, RIGHT, Rules
from .stock import Left, Stock, Taken

TURNS = 60  # orders in which pieces are cut: the largest first, then nearly so by seeded chance


def recut(
    pieces: Sequence[Piece], rules: Rules, offcuts: Sequence[Offcut], origin: tuple[float, float] = (0.0, 0.0)
) -> tuple[int, tuple[Piece, ...], tuple[Offcut, ...]]:
    """New panels that the pieces take, the pieces with what each is cut from, and what is left over.

    Arguments
    ---------
    pieces
        That are still to lie, where the plan has them.
    rules
        Of the panel.
    offcuts
        At hand. The first is panel -1, the next -2 and so on; new panels are counted from 0.
    origin
        Where lines of the pitch cross, along the rows and across; it matters to panels that have one. [m]

    >>> piece = Piece(0, 0.0, 1.0, 0.0, 1.2, 0, 1.2, 5, 0.0, 0.0)
    >>> recut([piece], Rules(2.4, 1.2), [Offcut(1.1, 1.2, 0, 0, 0.0, 0.0)])[0]
    0
    """
    whole = {n for n, piece in enumerate(pieces) if piece.length * piece.height > rules.area - 1e-6}
    parts = sorted((n for n in range(len(pieces)) if n not in whole), key=lambda n: (pieces[n].row, pieces[n].x0))
    chance = Random(1)
    best: tuple[Stock, dict[int, Taken]] | None = None
    for turn in range(TURNS):
        jitter = {n: 1.0 + chance.uniform(-0.3, 0.3) * bool(turn) for n in parts}
        order = sorted(parts, key=lambda n: -pieces[n].length * pieces[n].height * jitter[n])
        tried = _taken(pieces, rules, offcuts, order, origin)
        if best is None or tried[0].opened < best[0].opened:
            best = tried
    assert best is not None  # there is always a first turn
    stock, taken = best
    fresh = count(stock.opened)
    stock.open(len(whole))
    cut = []
    for n, piece in enumerate(pieces):
        panel, u, v = taken[n] if n in taken else (next(fresh), 0.0, 0.0)
        cut.append(replace(piece, panel=panel, u=u, v=v))
    left = tuple(sorted((Offcut(*each) for each in stock.left), key=lambda each: (each.panel, each.u, each.v)))
    return stock.opened, tuple(cut), tuple(each for each in left if each.length > SAME and each.height > SAME)


def _taken(
    pieces: Sequence[Piece],
    rules: Rules,
    offcuts: Sequence[Offcut],
    order: Sequence[int],
    origin: tuple[float, float],
) -> tuple[Stock, dict[int, Taken]]:
    """What each piece is cut from, one after another."""
    stock = Stock(rules, [_at_hand(rules, each, -n) for n, each in enumerate(offcuts, start=1)])
    return stock, {n: stock.take(*_asked(pieces[n], rules, origin)) for n in order}


def _asked(piece: Piece, rules: Rules, origin: tuple[float, float]) -> tuple[float, float, int, tuple[float, float]]:
    pitch = rules.pitch
    off = ((piece.x0 - origin[0]) % pitch, (piece.y0 - origin[1]) % pitch) if pitch else (0.0, 0.0)
    return piece.length, piece.height, piece.meets, off


def _at_hand(rules: Rules, of: Offcut, panel: int) -> Left:
    """An offcut where it lay in its panel, as its sides of the works tell; else it was cut on a line of the pitch."""
    at_right = of.sides & RIGHT and not of.sides & LEFT and rules.pitch
    on_top = of.sides & ABOVE and not of.sides & BELOW and rules.pitch
    u, v = rules.length - of.length if at_right else 0.0, rules.width - of.height if on_top else 0.0
    return of.length, of.height, of.sides, panel, u, v
