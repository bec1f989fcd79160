"""The weakest foam that carries each load: of the product lines and of the standards' classes, by each method."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from ... import catalogue
from ...catalogue.records import Board
from ...design import stiffness
from ...findings import Finding, Step
from ...measure.digits import fixed
from ...resolve import Bedded, Resolved, ResolvedLoad, Support
from .bed import bed, unknown
from .carried import Carried, carried
from .foam import PLATE, PRACTICE, spread_at_45
from .limits import KILO
from .plates import plate_under
from .soil import EQUILIBRIUM

ID, TITLE = "bearing.least-grade", "Strength of the weakest foam that carries a load"
SAME = 5e-4  # m: a thickness laid this near to a made one is that one
Carries = Callable[[Board], bool | None]  # None where nobody can tell of that board


@dataclass(frozen=True, slots=True)
class Weakest:
    """The weakest of a row of boards that carries a load, and how many nobody can tell of."""

    board: Board | None
    untold: int


def least(resolved: Resolved, load: ResolvedLoad, by_plate: PlateTrials | None) -> Iterator[Finding]:
    """The weakest board that carries one load, by each method beside the others.

    Asks
        How strong must the foam below this load be?
    Why
        Asked by the rule of thumb, a slab seems to need foam many times stronger than it does. Stronger foam costs
        more; where the concrete is the limit it buys nothing.
    Worked out
        Each board of the lines that is made as thick as what is laid, and each class of the standards, in the place of
        the floor's foam, the weakest first: with its own stiffness below the slab as a plate; by a spread at 45
        degrees through the slab; straight through, as if no slab helped. The first that bears it counts.
    Holds for
        The foam alone: concrete and ground are told by their own findings. Boards of unknown stiffness are left
        out. Concrete that has not cracked, unfactored loads.
    Source
        As ``foam.by_plate`` and ``foam.by_spread``; EN 13163, EN 1606, ASTM C578, CAN/ULC-S701 for the boards.
    """
    support = resolved.support
    assert support is not None  # something stands on the slab
    if not support.boards:
        return
    lines, classes = candidates(resolved, support)
    if by_plate is None or by_plate.as_laid is None:
        assert load.pressure is not None
        yield _found(resolved, support, load, "straight-through", load.pressure, (lines, classes))
        return
    yield _by_plate(resolved, load, by_plate, lines, classes)
    hand = spread_at_45(by_plate.as_laid)
    yield _found(resolved, support, load, "spread-45", hand, (lines, classes))
    contact = max(patch.pressure for patch in load.patches)
    yield _found(resolved, support, load, "straight-through", contact, (lines, classes))


def candidates(resolved: Resolved, support: Support) -> tuple[tuple[Board, ...], tuple[Board, ...]]:
    """Boards of the lines and classes of the standards that may lie below this slab, the weakest first."""
    laid = [each.slice.thickness for each in support.boards]
    boards = sorted(resolved.products.boards(), key=lambda each: each.strength.value)
    fit = [each for each in boards if not catalogue.belonging(each).against]
    lines = [each for each in fit if each.maker and all(_made(each, thickness) for thickness in laid)]
    return tuple(lines), tuple(each for each in fit if not each.maker)


def _made(board: Board, thickness: float) -> bool:
    return not board.made or any(abs(each.thickness - thickness) < SAME for each in board.made)


def with_board(support: Support, board: Board) -> Support:
    """The floor with one board in the place of all of its foam, as thick as that is."""
    return replace(support, boards=tuple(_in_place_of(each, board) for each in support.boards))


def _in_place_of(laid: Bedded, board: Board) -> Bedded:
    if laid.slice.record is not None and laid.slice.record.key == board.key:
        return laid  # with whatever the brief types of it
    known = stiffness(board)
    told = (*known.short, *known.long)
    return Bedded(
        replace(laid.slice, record=board, label=board.label),
        known.passing,
        known.standing,
        tuple(dict.fromkeys(each for modulus in told for each in modulus.basis)),
        tuple(dict.fromkeys(path for modulus in told for path in modulus.rests_on)),
        False,
    )


def weakest(boards: Sequence[Board], carries: Carries) -> Weakest:
    """The first of boards in the order of their strength that carries."""
    untold = 0
    for board in boards:
        holds = carries(board)
        if holds:
            return Weakest(board, untold)
        untold += holds is None
    return Weakest(None, untold)


class PlateTrials:
    """One load tried on board after board by the plate.

    A stiffer bed presses harder: a board on no stiffer a bed than one whose pressure is known feels no more, and one on
    no softer a bed no less. Most boards are told by that alone, and only those between are worked out.
    """

    def __init__(self, resolved: Resolved, support: Support, load: ResolvedLoad) -> None:
        self._resolved, self._support, self._load = resolved, support, load
        self._known: list[tuple[float, float]] = []  # k of the stiffest bed, N/m³, and the pressure on it, Pa
        self.as_laid = self._carried(support)

    def on(self, board: Board) -> Carried | None:
        """The load with that board below the slab, worked out."""
        support = with_board(self._support, board)
        return None if unknown(support, self._load.standing) else self._carried(support)

    def carries(self, board: Board) -> bool | None:
        """Whether the board bears the load by the plate."""
        support = with_board(self._support, board)
        if unknown(support, self._load.standing) is not None:
            return None
        lies = bed(support, self._load.standing)
        bears = carried(self._resolved, support, self._load, lies, None).for_foam
        if bears is None:
            return None
        if any(lies.stiff <= k and felt <= bears for k, felt in self._known):
            return True
        if any(lies.stiff >= k and felt > bears for k, felt in self._known):
            return False
        plate = plate_under(self._resolved, support, self._load, lies.stiff)
        if plate is None:
            return None
        self._known.append((lies.stiff, plate.felt.pressure))
        return plate.felt.pressure <= bears

    def _carried(self, support: Support) -> Carried | None:
        lies = bed(support, self._load.standing)
        soft, stiff = (plate_under(self._resolved, support, self._load, k) for k in (lies.soft, lies.stiff))
        if soft is None or stiff is None:
            return None
        found = carried(self._resolved, support, self._load, lies, (soft, stiff))
        self._known.append((lies.stiff, found.pressure))
        return found


def _by_plate(
    resolved: Resolved, load: ResolvedLoad, trials: PlateTrials, lines: Sequence[Board], classes: Sequence[Board]
) -> Finding:
    laid = trials.as_laid
    assert laid is not None
    found = [weakest(boards, trials.carries) for boards in (lines, classes)]
    steps = [_row("of the lines", found[0]), _row("of the classes", found[1])]
    words = f"{load.words}, by the plate: {_named(laid, found)}"
    board = found[0].board
    on = trials.on(board) if board is not None else None
    if on is not None and on.for_foam is not None:
        words += (
            f" On {on.support.boards[0].slice.label} the foam feels {on.said(on.pressure)} of {on.said(on.for_foam)}"
        )
        words += f", and the concrete {on.said(on.tension)} in place of {laid.said(laid.tension)} now."
        steps.append(
            Step("p", f"on {on.support.boards[0].slice.label}", f"at most {_kpa(on.for_foam)}", _kpa(on.pressure))
        )
        if on.tension > on.for_concrete:
            words += " The concrete, not the foam, asks for more than it has."
    words += _laid_here(resolved, laid, found)
    return _stated(laid, "plate", found, tuple(steps), words)


def _found(
    resolved: Resolved,
    support: Support,
    load: ResolvedLoad,
    method: str,
    pressure: float,
    rows: tuple[Sequence[Board], Sequence[Board]],
) -> Finding:
    """By a method that does not ask how stiff the foam is."""
    lies = bed(support, load.standing)
    laid = carried(resolved, support, load, lies, None)

    def carries(board: Board) -> bool | None:
        bears = carried(resolved, with_board(support, board), load, lies, None).for_foam
        return None if bears is None else pressure <= bears

    found = [weakest(boards, carries) for boards in rows]
    by = "spread at 45 degrees" if method == "spread-45" else "straight through, as if no slab helped"
    if load.place == "everywhere":
        by = "straight through, for no slab helps below an even load"
    words = f"{load.words}, {by}: {laid.said(pressure)} on the foam. {_named(laid, found)}"
    steps = (
        Step("p", by, "", _kpa(pressure)),
        _row("of the lines", found[0]),
        _row("of the classes", found[1]),
    )
    return _stated(laid, method, found, steps, words)


def _named(of: Carried, found: Sequence[Weakest]) -> str:
    """The weakest of each row by its name."""
    line, of_class = found[0].board, found[1].board
    if line is None and of_class is None:
        return "No board of the line carries it, and no class of the standards."
    strength = "" if line is None else f", tested at {of.said(line.strength.value * KILO)},"
    first = "no board of the line carries it" if line is None else f"{line.label}{strength} is the weakest of the line"
    second = "no class of the standards does" if of_class is None else f"of the classes {of_class.label}"
    return f"{first[0].upper()}{first[1:]}; {second}."


def _laid_here(resolved: Resolved, laid: Carried, found: Sequence[Weakest]) -> str:
    """What custom asks for, where that is more than the load does."""
    least_used = catalogue.least_strength(resolved.use.key)
    board = found[0].board
    if board is None or board.strength.value >= least_used.value - 0.1:  # kPa: a rounded psi
        return ""
    return f" Below a floor of this use {laid.said(least_used.value * KILO)} is the least that is laid."


def _row(which: str, found: Weakest) -> Step:
    without = f"{found.untold} left out, of unknown stiffness or strength" if found.untold else ""
    board = found.board
    result = "none" if board is None else f"{board.label}, {_kpa(board.strength.value * KILO)}"
    return Step("least", f"the weakest {which} that carries it", without, result)


def _stated(of: Carried, method: str, found: Sequence[Weakest], steps: tuple[Step, ...], words: str) -> Finding:
    board = found[0].board or found[1].board
    basis = {"plate": PLATE, "spread-45": PRACTICE}.get(method, EQUILIBRIUM)
    strengths = () if board is None else (board.strength,)
    return Finding(
        ID,
        TITLE,
        None if board is None else board.strength.value,
        "kPa",
        at={"load": of.load.number, "method": method},
        within=0.0,
        basis=(basis, *(each.basis() for each in strengths)),
        rests_on=(
            of.load.path,
            *of.support.concrete.paths,
            *of.bed.rests_on,
            *(each.path for each in strengths),
        ),
        steps=steps,
        words=words,
    )


def _kpa(pressure: float) -> str:
    return f"{fixed(pressure / KILO, 1)} kPa"
