"""The stress that may stand on a board for good, by every basis that the trade goes by."""

from __future__ import annotations

from collections.abc import Iterator

from ..catalogue.designation import Creep, designation
from ..catalogue.long_term import creep_rule, one_percent_rule, stress_bases, stress_share
from ..catalogue.records import Board, Quantity
from ..findings import Basis
from ..physics.foam_stress import long_term_strength
from .creep import Crept, crept
from .held import Held, LongTerm

KILO = 1000.0
EDGE = 1e-9  # what is on the limit keeps it
A_CLASS = "a class has only its least strength, and a product has records."


def long_term(board: Board) -> LongTerm:
    """Every basis for one board; those whose evidence is missing say why.

    >>> from underpour.catalogue import shipped_products
    >>> told = long_term(shipped_products().board("c578-ix"))
    >>> [(each.key, round(each.stress / 1000.0, 1)) for each in told.told]  # 172.4 kPa times 0.30, and over 3
    [('three-tenths', 51.7), ('one-third', 57.5)]
    """
    tests = crept(board)
    return LongTerm(
        (
            _share(board, "one-third"),
            _share(board, "three-tenths"),
            _one_percent(board),
            _creep(board, tests),
            _code(board, tests),
            *_cautious(board),
        )
    )


def _held(key: str, stress: float, formula: str, numbers: str, basis: tuple[Basis, ...], on: tuple[str, ...]) -> Held:
    row = stress_bases()[key]
    return Held(key, row.title, row.needs, stress, formula, numbers, basis, on)


def _untold(key: str, why: str, basis: tuple[Basis, ...] = (), on: tuple[str, ...] = ()) -> Held:
    row = stress_bases()[key]
    return Held(key, row.title, row.needs, None, "", "", basis, on, why)


def _share(board: Board, key: str) -> Held:
    share = stress_share(key, board.material)
    if share is None:
        return _untold(key, f"its source is about other foams, and this is {board.material}.")
    return _by_share(board, key, share)


def _by_share(board: Board, key: str, share: Quantity) -> Held:
    return _held(
        key,
        long_term_strength(board.strength.value * KILO, share.value),
        "strength × share",
        f"{board.strength.value:.1f} kPa × {share.value:.3f}",
        (share.basis(), board.strength.basis()),
        (board.strength.path, share.path),
    )


def _cautious(board: Board) -> Iterator[Held]:
    """Of a board that no basis of the trade is about."""
    if board.cautious_share is not None:
        yield _by_share(board, "on-the-safe-side", board.cautious_share)


def _one_percent(board: Board) -> Held:
    rule = one_percent_rule(board.material)
    if rule is None:
        return _untold("one-percent", f"its source is about other foams, and this is {board.material}.")
    if board.one_percent is None:
        why = "no record gives the resistance at 1 % strain" + ("." if board.maker else f"; {A_CLASS}")
        return _untold("one-percent", why, (rule.basis(),))
    return _held(
        "one-percent",
        board.one_percent.value * KILO,
        "as tested",
        f"{board.one_percent.value:.1f} kPa",
        (board.one_percent.basis(), rule.basis()),
        (board.one_percent.path, rule.path),
    )


def _creep(board: Board, tests: tuple[Crept, ...]) -> Held:
    """The highest stress under which the foam stays within the rule, no lower one having gone beyond it."""
    rule = creep_rule()
    if not tests:
        return _untold("creep", "no creep test" + ("." if board.maker else f"; {A_CLASS}"), (rule.strain.basis(),))
    untold = next((test for test in tests if test.strain is None), None)
    shown = sorted((test for test in tests if test.strain is not None), key=lambda test: test.stress or 0.0)
    if not shown:
        assert untold is not None
        return _untold("creep", untold.words, untold.basis, untold.rests_on)
    beyond = next((test for test in shown if (test.strain or 0.0) > rule.strain.value + EDGE), None)
    within = [test for test in shown if beyond is None or (test.stress or 0.0) < (beyond.stress or 0.0) - EDGE]
    if not within:
        assert beyond is not None
        why = f"{beyond.words} is more than the {100.0 * rule.strain.value:g} % that may be."
        return _untold("creep", why, beyond.basis, beyond.rests_on)
    last = within[-1]
    assert last.stress is not None
    formula = f"at most {100.0 * rule.strain.value:g} % in {rule.years.value:.0f} years"
    return _held("creep", last.stress, formula, last.words, last.basis, last.rests_on)


def _code(board: Board, tests: tuple[Crept, ...]) -> Held:
    """The stress that the maker declares, where a creep test carries what he declares."""
    rule = creep_rule()
    codes = [(words, found) for words in board.classes if (found := _declared(words)) is not None]
    if not codes:
        return _untold("cc-code", "no code of the maker's declares creep." if board.maker else f"no code; {A_CLASS}")
    words, declared = min(codes, key=lambda code: code[1].stress)
    basis = (Basis(words, f"declared by {board.maker}", "document"), rule.strain.basis())
    part = f"CC({declared.total:g}/{declared.creep:g}/{declared.years:g}){declared.stress:g}"
    if declared.years < rule.years.value:
        why = f"{part} is declared for {declared.years:g} years, and {rule.years.value:.0f} are wanted."
        return _untold("cc-code", why, basis)
    if declared.total > 100.0 * rule.strain.value + EDGE:
        why = f"{part} lets the foam lose {declared.total:g} %, and {100.0 * rule.strain.value:g} % is the most."
        return _untold("cc-code", why, basis)
    carried = next((test for test in tests if _carries(test, declared)), None)
    if carried is None:
        return _untold("cc-code", f"{part} is declared, and no creep test carries it.", basis)
    formula = f"at most {declared.total:g} % in {declared.years:g} years, as declared"
    return _held("cc-code", declared.stress * KILO, formula, part, (*carried.basis, *basis), carried.rests_on)


def _declared(words: str) -> Creep | None:
    code = designation(words)
    return code.creep if code is not None else None


def _carries(test: Crept, declared: Creep) -> bool:
    held = test.stress is not None and test.stress >= KILO * declared.stress - 1e-6
    return held and test.strain is not None and 100.0 * test.strain <= declared.total + EDGE
