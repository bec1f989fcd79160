"""The boards of one brief as they lie there: with the water and the long-term stress that it types."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from ..brief.tables.foam import FoamTable
from ..catalogue.products import Products
from ..catalogue.records import Board
from ..findings import Assumed
from ..measure import Measure, System, say
from ..mistakes import Mistake
from .assumptions import Assumptions

KILO = 1000.0  # Pa in a kPa


@dataclass(frozen=True, slots=True)
class TypedStress:
    """What the brief lets stand on a board for good."""

    value: float  # Pa
    words: str
    path: str


@dataclass(frozen=True, slots=True)
class ForGood:
    """What the brief says of foam under what stands on it for decades."""

    basis: str | None  # key of a basis; None where the smallest with evidence governs
    stress: dict[str, TypedStress]  # by the key of the board


class Foams:
    """Boards by their key, each with the water that it holds; what nobody typed is assumed once for each board."""

    def __init__(self, products: Products, typed: FoamTable, assumed: Assumptions):
        self.products, self._typed, self._assumed = products, typed, assumed
        self._lying: dict[str, Board] = {}

    def record(self, key: str) -> Board:
        """The board as the catalogue has it. Raises Mistake."""
        return self.products.board(key)

    def board(self, key: str) -> Board:
        """The board with its conductivity as it lies. Raises Mistake."""
        if key not in self._lying:
            self._lying[key] = self._as_it_lies(self.record(key))
        return self._lying[key]

    def _as_it_lies(self, board: Board) -> Board:
        if board.wetting is None:
            return board
        path, known, water = f"foam.water.{board.key}", board.conductivity_in_place, board.wetting.water
        typed = self._typed.water.get(board.key)
        if typed is None:
            taken, low, high = (100.0 * each for each in (water.value, water.low, water.high))
            tried = self._assumed.take(Assumed(path, taken, low, high, "%", _why(board)))
            if tried == taken:
                return board
            share, path = tried / 100.0, known.path
        else:
            share = typed.si
        lies = board.wetting.conductivity(share)
        note = f"{board.wetting.dry:.4f} dry × exp({board.wetting.per_water.value:g} × {share:.4g}) = {lies:.4f}"
        wet = replace(known, value=lies, low=min(known.low, lies), high=max(known.high, lies), path=path, note=note)
        return replace(board, conductivity_in_place=wet, in_place_steps=note)


def _why(board: Board) -> str:
    """That water is disputed, and who says what."""
    assert board.wetting is not None
    schools = "; ".join(
        f"{100.0 * each.water.value:.3g} % ({each.says}, {each.water.source.title})" for each in board.wetting.schools
    )
    return f"as the immersion test gives it; what years in the ground bring is disputed: {schools}"


def for_good(typed: FoamTable, system: System) -> ForGood:
    """What the brief says of foam under a load that stays."""
    return ForGood(
        None if typed.long_term == "smallest" else typed.long_term,
        {
            key: TypedStress(each.si, say.typed(each, "kPa", system), f"foam.long-term-stress.{key}")
            for key, each in typed.long_term_stress.items()
        },
    )


def _typed_of_boards(typed: FoamTable) -> Iterator[tuple[str, Mapping[str, Measure]]]:
    """Every table of [foam] whose keys are boards."""
    yield "long-term-stress", typed.long_term_stress
    yield "modulus", typed.modulus
    yield "modulus-for-good", typed.modulus_for_good
    yield "water", typed.water


def unclear(typed: FoamTable, products: Products, system: System) -> Iterator[Mistake]:
    """Boards that are not known, and stresses that no board bears even for minutes."""
    for table, measures in _typed_of_boards(typed):
        for key, measure in measures.items():
            at = f"foam.{table}.{key}"
            try:
                board = products.board(key)
            except Mistake as mistake:
                yield mistake.placed(at=at)
                continue
            if table == "long-term-stress" and measure.si > board.strength.value * KILO:
                tested = say.both(board.strength.value, "kPa", system)
                wrong = f"{board.label} is tested at {tested} in minutes, which is less."
                yield Mistake(at, f'"{measure.typed}"', wrong, "Write what may stand on it for good.")
