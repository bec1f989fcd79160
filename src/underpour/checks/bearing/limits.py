"""What may stand on a board for good, what may roll over it, and who says so."""

from __future__ import annotations

from dataclasses import dataclass

from ...catalogue.long_term import stress_share
from ...catalogue.records import Board, Quantity
from ...design import Held, long_term
from ...findings import Basis, Step
from ...measure.digits import fixed
from ...resolve import ForGood

KILO = 1000.0  # Pa in a kPa, N in a kN
WHICH = {True: "the smallest of the bases with evidence", False: "the only basis with evidence"}


@dataclass(frozen=True, slots=True)
class Allowed:
    """What may press on the foam, and who says so."""

    stress: float  # Pa
    says: str  # "three tenths of the strength at 10 % strain, the smallest of the bases with evidence"
    basis: tuple[Basis, ...]
    rests_on: tuple[str, ...]
    others: tuple[Held, ...] = ()  # bases with evidence that do not govern
    typed: tuple[Step, ...] = ()


def for_good(board: Board, typed: ForGood) -> Allowed | None:
    """What the brief types goes before the basis it names, and that before the smallest with evidence."""
    bases = long_term(board)
    stress = typed.stress.get(board.key)
    if stress is not None:
        step = Step("p_long", "as the brief types it", "", f"{fixed(stress.value / KILO, 1)} kPa")
        basis = (Basis("the brief", stress.path, "document"),)
        return Allowed(stress.value, "as the brief types it", basis, (stress.path,), bases.told, (step,))
    governs = bases.smallest if typed.basis is None else bases.by(typed.basis)
    if governs.stress is None:
        return None
    which = WHICH[len(bases.told) > 1] if typed.basis is None else "the basis that the brief names"
    others = tuple(each for each in bases.told if each is not governs)
    named = () if typed.basis is None else ("foam.long-term",)
    return Allowed(governs.stress, f"{governs.title}, {which}", governs.basis, (*governs.rests_on, *named), others)


def rolling(board: Board, typed: ForGood) -> Allowed | None:
    """What may come and go on it often, below a slab; None where nobody says."""
    return _share(board, typed, "passing")


def while_laid(board: Board, typed: ForGood) -> Allowed | None:
    """What may press on it bare, a few times; None where nobody says."""
    return _share(board, typed, "laying")


def _share(board: Board, typed: ForGood, basis_key: str) -> Allowed | None:
    share: Quantity | None = stress_share(basis_key, board.material) or board.cautious_share
    if share is None:
        return for_good(board, typed) if board.key in typed.stress else None
    stress = share.value * board.strength.value * KILO
    step = Step(
        "p_short",
        "strength × share",
        f"{fixed(board.strength.value, 1)} kPa × {fixed(share.value, 3)}",
        f"{fixed(stress / KILO, 1)} kPa",
    )
    basis = (share.basis(), board.strength.basis())
    return Allowed(stress, share.where, basis, (board.strength.path, share.path), typed=(step,))
