"""Money for each unit of something. The currency stays what it is; only what it pays for is turned into SI."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from ..mistakes import Mistake, nearest
from .numbers import NUMBER, asked_about, number
from .table import table
from .words import LONGEST, plain


@dataclass(frozen=True, slots=True)
class Price:
    """Money for one metre, square metre, cubic metre, kilogram, joule, second or piece."""

    amount: float  # for one of ``per``
    currency: str  # ISO 4217, "USD"
    per: str  # "m", "m²", "m³", "kg", "J", "s", or "1" for a piece
    typed: str  # "0.74 USD/ft2"


@dataclass(frozen=True, slots=True)
class Sum:
    """So much money."""

    amount: float
    currency: str  # ISO 4217, "USD"
    typed: str  # "12000 USD"


@cache
def _money() -> re.Pattern[str]:
    return re.compile(
        rf"(?P<before>[A-Za-z]+|[^\w\s.+-])? ?(?P<number>{NUMBER}) ?(?P<after>[A-Za-z]+|[^\w\s./-])?"
        r" ?(?:/|\bper\b|(?P<each>\beach\b))(?P<unit>.*)"
    )


@cache
def _sum() -> re.Pattern[str]:
    sign = r"[A-Za-z]+|[^\w\s./+-]"
    return re.compile(rf"(?P<before>{sign})? ?(?P<number>{NUMBER}) ?(?P<after>{sign})?")


def money_per_unit(typed: str) -> Price:
    """A price for each length, area, volume, mass, amount of heat or piece. [currency over SI unit]

    Refused: no currency, one that is not known, a sign that several currencies share, no unit, a price below zero.

    Source: ISO 4217 codes (from memory), in ``units.toml``.

    >>> money_per_unit("12 €/m²")
    Price(amount=12.0, currency='EUR', per='m²', typed='12 €/m²')
    >>> round(money_per_unit("0.74 USD/ft2").amount, 4)
    7.9653
    """
    known = table().currency
    found, value = _figure(typed, _money(), "a price", _unread)
    currency = _currency(typed, found["before"] or found["after"] or "")
    words = found["unit"].strip()
    if found["each"] or words.casefold() in known["each"]:
        return Price(value, currency, "1", typed.strip())
    units = [unit for unit in table().find(words) if unit.kind in known["kinds"]]
    if not units:
        raise _unread(typed, f"No price is for each {words}." if words else f"{plain(typed)} of what?")
    one = next(unit for unit in table().units if unit.kind == units[0].kind and unit.si == 1.0)
    return Price(value / units[0].si, currency, one.name, typed.strip())


def sum_of_money(typed: str) -> Sum:
    """A sum of money; not below zero. [currency]

    Refused: no currency, one that is not known, a sign that several currencies share, anything that it would be for.

    Source: ISO 4217 codes (from memory), in ``units.toml``.

    >>> sum_of_money("12000 USD")
    Sum(amount=12000.0, currency='USD', typed='12000 USD')
    """
    found, value = _figure(typed, _sum(), "a sum of money", _no_sum)
    try:
        currency = _currency(typed, found["before"] or found["after"] or "")
    except Mistake as mistake:
        raise _no_sum(typed, mistake.wrong) from None
    return Sum(value, currency, typed.strip())


def currency_code(typed: str) -> str:
    """A currency by its code of three letters; a Mistake offers the nearest.

    >>> currency_code("usd")
    'USD'
    """
    try:
        return _currency(typed, typed.strip())
    except Mistake as mistake:
        raise Mistake("", f'"{typed}"', mistake.wrong, "Write its code of three letters: USD, CAD, EUR.") from None


def _figure(
    typed: str, form: re.Pattern[str], what: str, refused: Callable[[str, str], Mistake]
) -> tuple[re.Match[str], float]:
    """An amount's parts and its number; Mistake where it is none, or names its currency twice."""
    text, words = plain(typed), typed.strip()
    if len(text) > LONGEST:
        raise refused(f"{words[:LONGEST]}…", f"{words[:LONGEST]}… cannot be read as {what}.")
    asked = asked_about(typed, text)
    if asked:
        raise asked
    found = form.fullmatch(text)
    value = number(found["number"]) if found else None
    if not found or value is None or value == float("inf"):
        raise refused(typed, f"{words or 'Nothing'} cannot be read as {what}.")
    if found["before"] and found["after"]:
        raise refused(typed, f"{words} names its currency twice.")
    return found, value


def _no_sum(typed: str, wrong: str) -> Mistake:
    return Mistake("", f'"{typed}"', wrong, "Write 12000 USD or 9500 EUR.")


def _currency(typed: str, word: str) -> str:
    known = table().currency
    if word in known["signs"]:
        return str(known["signs"][word])
    if word.upper() in known["codes"]:
        return word.upper()
    if word in known["shared-signs"]:
        raise _unread(typed, f"{word} is the sign of several currencies.")
    if not word:
        raise _unread(typed, f"{typed.strip()} has no currency.")
    near = nearest(word, known["codes"])
    raise _unread(typed, f"No currency is called {word}." + (f" The nearest is {near[0]}." if near else ""))


def _unread(typed: str, wrong: str) -> Mistake:
    return Mistake("", f'"{typed}"', wrong, f"Write {table().currency['write']}.")
