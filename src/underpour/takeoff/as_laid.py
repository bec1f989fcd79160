"""What a crew has laid, typed back: the rest of the plan is cut again from what is left on the site."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from ..measure import say
from ..measure.table import System
from ..mistakes import Mistake
from ..panels.layout import Layout, Offcut, Piece
from ..panels.recut import recut
from ..resolve.laid_so import AsLaid
from .cutting import SIDES, Cut, is_whole, kept_sides, numbered

AT = "laying.laid"
STRAY = 0.002  # m that an offcut may be longer or higher than a panel: tapes differ


@dataclass(frozen=True, slots=True)
class Rest:
    """What is still to be laid of one layer."""

    rows: int  # that lie
    of: int  # rows of the plan
    panels: int  # new ones that the rest takes
    left: int  # whole ones on the site
    left_told: bool  # whether somebody counted them, or they are the plan's number less those taken
    used: int  # offcuts at hand that are cut again
    cuts: tuple[Cut, ...]  # of the rest; a panel below nought is an offcut at hand, the first -1

    @property
    def more(self) -> int:
        """Panels to order beside those that are left."""
        return max(self.panels - self.left, 0)


def rest(layout: Layout, laid: AsLaid, system: System) -> Rest:
    """The rest of a plan counted again. Pieces lie where the plan has them and keep their numbers.

    Arguments
    ---------
    layout
        The plan as it was handed out.
    laid
        What lies of it, what was taken for that, and what is at hand.
    system
        For what is said of mistakes.

    Raises
    ------
    Mistake
        More rows than there are, an offcut that no panel gives, fewer panels than those rows and offcuts take.
    """
    every = numbered(layout)
    rows = max(int(number.split(".")[0]) for number, _ in every)
    if laid.rows > rows:
        raise Mistake(f"{AT}.rows", str(laid.rows), f"The plan has {rows} rows.", f"Write a number from 0 to {rows}.")
    offcuts = [_offcut(layout, n, each, system) for n, each in enumerate(laid.offcuts, start=1)]
    lies = [piece for number, piece in every if int(number.split(".")[0]) <= laid.rows]
    _enough(layout, laid, lies, offcuts, system)
    open_ = [(number, piece) for number, piece in every if int(number.split(".")[0]) > laid.rows]
    panels, cut, _ = recut([piece for _, piece in open_], layout.rules, offcuts, (layout.phase, layout.offset))
    again = [(number, piece) for (number, _), piece in zip(open_, cut, strict=True)]
    left = max(layout.panels - laid.panels, 0) if laid.left is None else laid.left
    used = len({piece.panel for piece in cut if piece.panel < 0})
    return Rest(laid.rows, rows, panels, left, laid.left is not None, used, tuple(_cuts(layout, again)))


def rest_words(of: Rest, size: str) -> Iterator[str]:
    """What is said of it, a sentence a line."""
    if of.rows == of.of:
        yield f"All {of.of} rows lie; nothing is left to lay."
        return
    used = f", and {of.used} offcut{'s' if of.used > 1 else ''} at hand" if of.used else ""
    yield f"{of.rows} of {of.of} rows lie. The rest takes {of.panels} panels of {size}{used}."
    counted = "are left on the site" if of.left_told else "are left, as the plan has it"
    if of.more:
        yield f"{of.left} {counted}: order {of.more} more."
    else:
        yield f"{of.left} {counted}: that is enough, {of.left - of.panels} over."
    yield "Pieces lie where the plan has them and keep their numbers; only what they are cut from is new (rest.csv)."


def _offcut(layout: Layout, number: int, typed: tuple[float, float, tuple[str, ...], str], system: System) -> Offcut:
    long, high, sides, words = typed
    rules = layout.rules
    if long > rules.length + STRAY or high > rules.width + STRAY:
        size = " x ".join(say.value(each, "m", system) for each in (rules.length, rules.width))
        wrong = f"A panel covers {size}: no offcut of it is so large."
        raise Mistake(f"{AT}.offcuts.{number}", words, wrong, "Write along the row first, then across it.")
    known = {named: side for side, named in SIDES.items()}
    return Offcut(min(long, rules.length), min(high, rules.width), sum(known[side] for side in sides), 0, 0.0, 0.0)


def _enough(layout: Layout, laid: AsLaid, lies: list[Piece], offcuts: list[Offcut], system: System) -> None:
    """A Mistake where what lies and what is at hand is more than the panels taken can give."""
    area = sum(piece.length * piece.height for piece in lies)
    at_hand = sum(each.length * each.height for each in offcuts)
    least = ceil((area + at_hand) / layout.rules.area - 1e-6)
    if laid.panels < least:
        rows = say.both(area, "m²", system)
        wrong = f"The {laid.rows} rows take {rows}"
        wrong += f" and the offcuts {say.both(at_hand, 'm²', system)}" if offcuts else ""
        instead = "Count the rows, the offcuts or the panels again."
        raise Mistake(f"{AT}.panels", str(laid.panels), f"{wrong}: that is {least} panels at the least.", instead)


def _cuts(layout: Layout, pieces: list[tuple[str, Piece]]) -> Iterator[Cut]:
    sawn = [(number, piece) for number, piece in pieces if not is_whole(layout, piece)]
    names: dict[int, int] = {}
    for _, piece in sawn:
        if piece.panel >= 0:
            names.setdefault(piece.panel, len(names) + 1)
    for number, piece in sorted(sawn, key=lambda each: (each[1].panel < 0, names.get(each[1].panel, -each[1].panel))):
        slanted = piece.area < piece.length * piece.height - 1e-6
        panel = names.get(piece.panel, piece.panel)
        keeps = kept_sides(layout, piece)
        yield Cut(number, panel, piece.length, piece.height, piece.u, piece.v, keeps, slanted)
