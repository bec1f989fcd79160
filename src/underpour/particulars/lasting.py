"""What may stand on a board for good, by each basis, with the records that it leans on and how far they stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..catalogue.records import Board
from ..design import Held, long_term
from ..measure import say
from .figures import STANDS, Figure

KILO = 1000.0


@dataclass(frozen=True, slots=True)
class Lasting:
    """One basis in words."""

    title: str  # "a third of the strength"
    words: str  # "37.7 kPa (5.5 psi)"; "" where it cannot be told
    worked: str  # "strength × share: 113.1 kPa × 0.333"
    source: str  # of the rule
    records: tuple[int, ...]  # of the product that it leans on
    standing: str  # the first of theirs that does not stand, or stands; "cannot tell"
    why: str
    governs: bool

    @property
    def shown(self) -> str:
        """The stress, plain only where its records stand."""
        return self.words if self.standing == STANDS or not self.words else f"{self.standing}: {self.words}"


def lasting(board: Board, figures: Sequence[Figure]) -> tuple[Lasting, ...]:
    """Every basis, those that can be told first and the smallest stress of them at the head.

    The smallest governs whether or not its records stand: a board does not get stronger by an expired certificate.
    """
    told = long_term(board)
    untold = [each for each in told.bases if each.stress is None]
    return tuple(_lasting(each, board, figures, each is told.smallest) for each in (*told.told, *untold))


def _lasting(held: Held, board: Board, figures: Sequence[Figure], governs: bool) -> Lasting:
    own = {board.strength.source.title}
    source = _number(next((each.source for each in held.basis if each.source not in own), ""))
    if held.stress is None:
        return Lasting(held.title, "", "", source, (), "cannot tell", held.why, False)
    records = [record for path in held.rests_on for record in _records(path, board.key, figures)]
    off = next((each for each in records if each.standing != STANDS), None)
    return Lasting(
        title=held.title,
        words=say.both(held.stress / KILO, "kPa", "US"),
        worked=f"{held.formula}: {held.numbers}",
        source=source,
        records=tuple(each.record for each in records),
        standing=off.standing if off else STANDS,
        why=f"Record {off.record}: {off.why}" if off else "",
        governs=governs,
    )


def _number(title: str) -> str:
    """A standard by its number, another source by its title.

    >>> _number("EN 13163:2012, Thermal insulation products"), _number("Common practice, no source")
    ('EN 13163:2012', 'Common practice, no source')
    """
    return title.partition(", ")[0] if title[:2].isupper() else title


def _records(path: str, key: str, figures: Sequence[Figure]) -> list[Figure]:
    """The record at a path of the catalogue: the first of its property, or the one whose number the path says."""
    start = f"catalogue.foam.{key}."
    if not path.startswith(start):
        return []
    name = path.removeprefix(start)
    if name.startswith("evidence."):
        return [each for each in figures if str(each.record) == name.split(".")[1]]
    return [each for each in figures if each.of.key == name][:1]
