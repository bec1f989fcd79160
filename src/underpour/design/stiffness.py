"""How stiff a board is: a bracket of moduli for a load that comes and goes, and one for a load that stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..catalogue.long_term import StiffnessRule, creep_rule, stiffness_rule, stress_share
from ..catalogue.records import Board, Quantity
from ..findings import Basis
from ..physics.domain import OutOfDomain
from ..physics.foam_stress import modulus_by_density, secant_modulus
from .creep import crept

KILO = 1000.0
AFTER_DECADES = "secant after decades"


@dataclass(frozen=True, slots=True)
class Modulus:
    """One modulus with its own range."""

    name: str  # "initial", "secant at 1 % strain"
    value: float  # Pa
    low: float  # Pa
    high: float  # Pa
    numbers: str  # how it was reached
    basis: tuple[Basis, ...]
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stiffness:
    """Moduli of a board; a load that stands for decades finds a softer foam than one that passes.

    What is worked out with it is worked out with both ends of the bracket.
    """

    short: tuple[Modulus, ...]  # initial and secant, for a load of minutes; empty where nothing is known
    long: tuple[Modulus, ...]  # secant of decades; empty where nothing is known

    @property
    def passing(self) -> tuple[float, float] | None:
        """Softest and stiffest under a load that passes; None where nothing is known. [Pa]"""
        return (min(m.low for m in self.short), max(m.high for m in self.short)) if self.short else None

    @property
    def standing(self) -> tuple[float, float] | None:
        """Softest under a load of decades, and what it is before it creeps; None where no creep is known. [Pa]"""
        if not self.long:
            return None
        before = [m.low for m in self.short] or [m.high for m in self.long]
        softest = min(m.low for m in self.long)
        return softest, max(softest, min(before))


def stiffness(board: Board) -> Stiffness:
    """Moduli of a board from its records, or from what is published of its foam where it has none.

    >>> from underpour.catalogue import shipped_products
    >>> found = stiffness(shipped_products().board("c578-ii"))
    >>> [f"{each.name} {each.value / 1e6:.2f} MPa" for each in found.short]  # 450 · 21.6 − 3000; 103.4 · 0.37 / 0.01
    ['initial 6.73 MPa', 'secant at 1 % strain 3.83 MPa']
    """
    rule = stiffness_rule(board.material)
    return Stiffness(tuple(_short(board, rule)), tuple(_long(board)))


def _short(board: Board, rule: StiffnessRule) -> Iterator[Modulus]:
    if rule.by_density is not None and rule.taken_off is not None and board.density is not None:
        yield from _initial(board.density, rule.by_density, rule.taken_off)
    if board.one_percent is not None:
        value = secant_modulus(board.one_percent.value * KILO, 0.01)
        numbers = f"{board.one_percent.value:.1f} kPa / 0.01"
        on = (board.one_percent.path,)
        yield Modulus("secant at 1 % strain", value, value, value, numbers, (board.one_percent.basis(),), on)
    elif rule.one_percent_of_ten is not None:
        yield _by_ratio("secant at 1 % strain", board, rule.one_percent_of_ten, 0.01)
    if rule.by_strength is not None:
        yield _by_ratio("initial, from the strength", board, rule.by_strength, 1.0)


def _initial(density: Quantity, slope: Quantity, off: Quantity) -> Iterator[Modulus]:
    try:
        value, low, high = (
            modulus_by_density(density.value, each, off.value) for each in (slope.value, slope.low, slope.high)
        )
    except OutOfDomain:
        return  # the formula does not reach foam so light
    numbers = f"{slope.value / KILO:.0f} × {density.value:.1f} − {off.value / KILO:.0f} kPa"
    on = (density.path, slope.path, off.path)
    yield Modulus("initial", value, low, high, numbers, (slope.basis(), density.basis()), on)


def _by_ratio(name: str, board: Board, ratio: Quantity, strain: float) -> Modulus:
    strength = board.strength.value * KILO
    value, low, high = (secant_modulus(strength * each, strain) for each in (ratio.value, ratio.low, ratio.high))
    over = f" / {strain:g}" if strain < 1.0 else ""
    return Modulus(
        name,
        value,
        low,
        high,
        f"{board.strength.value:.1f} kPa × {ratio.value:g}{over}",
        (ratio.basis(), board.strength.basis()),
        (board.strength.path, ratio.path),
    )


def _long(board: Board) -> Iterator[Modulus]:
    tests = [test for test in crept(board) if test.stress is not None and test.strain is not None]
    for test in tests:
        value = secant_modulus(test.stress or 0.0, test.strain or 0.0)
        yield Modulus(AFTER_DECADES, value, value, value, test.words, test.basis, test.rests_on)
    share, most = stress_share("three-tenths", board.material), creep_rule().strain
    if tests or share is None:
        return
    value = secant_modulus(share.value * board.strength.value * KILO, most.value)
    yield Modulus(
        AFTER_DECADES,
        value,
        value,
        value,
        f"{board.strength.value:.1f} kPa × {share.value:g} / {most.value:g}, the softest that the rule allows",
        (most.basis(), share.basis(), board.strength.basis()),
        (board.strength.path, share.path),
    )
