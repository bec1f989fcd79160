"""What is said where a measure cannot be taken. The reader of the brief adds the place and the line."""

from __future__ import annotations

from collections.abc import Sequence

from ..mistakes import Mistake, nearest
from .table import Kind, table


def _mistake(typed: str, wrong: str, instead: str) -> Mistake:
    return Mistake("", f'"{typed}"', wrong, instead)


def nothing(typed: str, kind: Kind) -> Mistake:
    return _mistake(typed, "Nothing is written here.", kind.offer())


def unread(typed: str, kind: Kind) -> Mistake:
    return _mistake(typed, f"{typed.strip()} cannot be read as {kind.called}.", kind.offer())


def how_many(typed: str, kind: Kind) -> Mistake:
    return _mistake(typed, f"How many {typed.strip()}?", kind.offer())


def of_what(typed: str, number: str, kind: Kind, fitting: Sequence[str]) -> Mistake:
    """``fitting``: the number with each usual unit that it can have; where none fits, the usual offer stands."""
    meant = f"Write {' or '.join(fitting)}{', whichever is meant' if len(fitting) > 1 else ''}."
    return _mistake(typed, f"{number} of what?", meant if fitting else kind.offer())


def inches_of_what(typed: str, feet: str, over: str, kind: Kind) -> Mistake:
    instead = f"Write {feet} ft {over} in." if kind.like == "length" else kind.offer()
    return _mistake(typed, f"{over} of what?", instead)


def comma(typed: str, number: str, mended: Sequence[str]) -> Mistake:
    """``mended``: the whole text as it could be meant, the likeliest first."""
    instead = f"Write {mended[0]}." if len(mended) == 1 else f"Write {mended[0]}, or {mended[1]} if that is meant."
    return _mistake(typed, f"{number} has a comma in it.", instead)


def spaced(typed: str, number: str, mended: str) -> Mistake:
    return _mistake(typed, f"{number} has a space in it.", f"Write {mended}.")


def other_kind(typed: str, found: Kind, wanted: Kind) -> Mistake:
    return _mistake(typed, f"{typed.strip()} is {found.called}; {wanted.called} is wanted.", wanted.offer())


def celsius(typed: str, number: str) -> Mistake:
    wrong = f"{typed.strip()} could be a temperature; a temperature difference is wanted."
    return _mistake(typed, wrong, f"Write {number} K.")


def no_such_unit(typed: str, number: str, unit: str, kind: Kind) -> Mistake:
    own = {u.name for u in table().units_of(kind)}
    spellings = {s: name for s, name in table().spelled.items() if name in own}
    spellings |= {s: name for s, name in table().atoms.exact.items() if name in own}
    near = nearest(unit, spellings)
    instead = f"The nearest is {spellings[near[0]]}. Write {number} {spellings[near[0]]}." if near else kind.offer()
    return _mistake(typed, f"No unit is called {unit}.", instead)


def more_inches_than_a_foot(typed: str, mended: str) -> Mistake:
    return _mistake(typed, f"{typed.strip()} has a foot or more in its inches.", f"Write {mended}, if that is meant.")


def part_of_a_foot(typed: str) -> Mistake:
    wrong = f"{typed.strip()} has a part of a foot beside its inches."
    return _mistake(typed, wrong, "Write whole feet and inches, such as 4 ft 3-1/2 in.")


def metric_letters(typed: str, letters: str, unit: str, number: str) -> Mistake:
    bare = letters.removesuffix("SI") or "R"
    wrong = f"{letters} is metric; {unit} is not."
    return _mistake(typed, wrong, f"Write {bare}{number} {unit} or {letters} {number}, whichever is meant.")


def letters_of_another(typed: str, letters: str, meant: Kind, unit: str, found: Kind) -> Mistake:
    wrong = f"{letters} is {meant.called}; {unit} measures {found.called}."
    return _mistake(typed, wrong, meant.offer())


def bare_r(typed: str, number: str, metric: float) -> Mistake:
    wrong = f"{typed.strip()} in a metric brief is {number} m²·K/W, more than floors are given."
    return _mistake(typed, wrong, f"Write RSI {metric:.3g} if the label says R-{number}, or R{number} m²·K/W.")


def below_zero(typed: str, kind: Kind) -> Mistake:
    return _mistake(typed, f"{typed.strip()} is below zero; {kind.called} is not.", kind.offer())


def zero(typed: str, kind: Kind) -> Mistake:
    return _mistake(typed, f"{typed.strip()} is nothing; {kind.called} is above zero.", kind.offer())


def outside(typed: str, how: str, kind: Kind) -> Mistake:
    """``how``: too much, too little."""
    lies = "{} and {}".format(*kind.range)
    if kind.range_us != kind.range:
        lies += " ({} and {})".format(*kind.range_us)
    return _mistake(typed, f"{typed.strip()} is {how}: {kind.called} here lies between {lies}.", kind.offer())
