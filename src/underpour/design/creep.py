"""Creep tests: how far a foam is squeezed in decades under each stress that was tried."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..catalogue.long_term import CreepRule, creep_rule
from ..catalogue.properties import ROUNDED_DAYS, unit_of
from ..catalogue.records import Board, CreepRecord
from ..findings import Basis
from ..physics.domain import OutOfDomain
from ..physics.foam_stress import Findley, carried_forward, findley_fit

HOUR, DAY = 3600.0, 86400.0  # s
YEAR = unit_of("years", "time") or 365.25 * DAY


@dataclass(frozen=True, slots=True)
class Crept:
    """One creep test carried to the end of its rule's years, or why it cannot be."""

    stress: float | None  # Pa
    strain: float | None  # of the thickness, 1; None where it cannot be told
    words: str  # what it shows, with its numbers; or why it shows nothing
    rests_on: tuple[str, ...]
    basis: tuple[Basis, ...]


def crept(board: Board) -> tuple[Crept, ...]:
    """Every creep test of a board: those that the laboratory carried forward, then those given by their readings."""
    rule = creep_rule()
    return (*(_of_record(record, board, rule) for record in board.creep), *_of_readings(board, rule))


def _of_record(record: CreepRecord, board: Board, rule: CreepRule) -> Crept:
    stress = _stress(record, board)
    strain, years = record.strain.value / 100.0, rule.years.value

    def untold(why: str) -> Crept:
        return Crept(stress, None, why, (record.strain.path,), (record.strain.basis(), rule.times.basis()))

    if stress is None:
        return untold("its creep record does not say the stress that was held.")
    if record.lasted is None or record.reaches is None:
        return untold("its creep record does not say how long it lasted and the time it is carried forward to.")
    if record.reaches > rule.times.value * record.lasted * (1.0 + ROUNDED_DAYS):
        times = record.reaches / record.lasted
        return untold(
            f"its creep record is carried forward {times:.0f} times its own length; {rule.times.value:.0f} is the most."
        )
    if record.reaches < years * YEAR * (1.0 - ROUNDED_DAYS):
        return untold(f"its creep record reaches {record.reaches / YEAR:.0f} years, and {years:.0f} are wanted.")
    words = (
        f"{100.0 * strain:.2f} % under {stress / 1000.0:.1f} kPa in {record.reaches / YEAR:.0f} years "
        f"({record.lasted / DAY:.0f} d, carried forward {record.reaches / record.lasted:.0f} times)"
    )
    return Crept(stress, strain, words, (record.strain.path,), (record.strain.basis(), rule.strain.basis()))


def _of_readings(board: Board, rule: CreepRule) -> Iterator[Crept]:
    """Readings under one stress are one test."""
    by_stress: dict[float | None, list[CreepRecord]] = {}
    for reading in board.readings:
        stress = _stress(reading, board)
        by_stress.setdefault(None if stress is None else round(stress, 1), []).append(reading)
    for stress, readings in by_stress.items():
        yield _fitted(stress, readings, rule)


def _fitted(stress: float | None, readings: Sequence[CreepRecord], rule: CreepRule) -> Crept:
    rests_on = tuple(reading.strain.path for reading in readings)
    basis = (readings[0].strain.basis(), rule.times.basis(), rule.strain.basis())

    def untold(why: str) -> Crept:
        return Crept(stress, None, why, rests_on, basis)

    if stress is None or any(reading.lasted is None for reading in readings):
        return untold("its creep readings do not say each the stress and the time it was on.")
    ordered = sorted(readings, key=lambda reading: reading.lasted or 0.0)
    times = [reading.lasted or 0.0 for reading in ordered]
    try:
        fit = findley_fit(times, [reading.strain.value / 100.0 for reading in ordered])
    except OutOfDomain as refused:
        return untold(f"no line goes through its creep readings: {refused}.")
    if fit.determination < rule.determination.value:
        return untold(
            f"its creep readings lie too far from a line: r² is {fit.determination:.3f}, and "
            f"{rule.determination.value:g} is wanted."
        )
    ahead = rule.years.value * YEAR
    try:
        strain = carried_forward(fit, ahead, rule.times.value * (1.0 + ROUNDED_DAYS))
    except OutOfDomain:
        return untold(
            f"its creep test lasted {fit.lasted / DAY:.0f} d; {rule.years.value:.0f} years are more than "
            f"{rule.times.value:.0f} times that."
        )
    words = f"{law(fit)} = {100.0 * strain:.2f} % under {stress / 1000.0:.1f} kPa in {rule.years.value:.0f} years"
    words += f" ({len(times)} readings to {fit.lasted / DAY:.0f} d, r² {fit.determination:.3f})"
    return Crept(stress, strain, words, rests_on, basis)


def law(fit: Findley) -> str:
    """The power law as a report prints it: strains in %, time in hours.

    >>> law(Findley(0.0062, 1e-4, 0.25, 0.998, 5.25e7))
    '0.620 % + 0.0775 % × t^0.250 (t in h)'
    """
    factor = 100.0 * fit.factor * HOUR**fit.exponent
    return f"{100.0 * fit.initial:.3f} % + {factor:.4f} % × t^{fit.exponent:.3f} (t in h)"


def _stress(record: CreepRecord, board: Board) -> float | None:
    """The stress that was held: as the record says it, or as a share of the board's strength. [Pa]"""
    if record.stress is not None:
        return record.stress
    return None if record.share is None else record.share * 1000.0 * board.strength.value
