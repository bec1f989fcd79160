"""What would have to change for another to win: one price, or the limit that refuses what is cheaper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import System, say
from .columns import Bought
from .records import Row, ToWin

PLAIN = ("1", "count", "money")  # units that are printed as they are


def by_price(
    first: Row, second: Row, apart: float, of_first: Sequence[Bought], of_second: Sequence[Bought]
) -> Iterator[ToWin]:
    """The price at which the second costs as little as the first: of what it alone is made of, or else of the first's.

    Parameters
    ----------
    apart : float
        By how much the second costs more.
    of_first, of_second : sequence of Bought
        What each is made of, with what a square metre of it costs.
    """
    own = [each for each in of_second if all(not each.same(other) for other in of_first)]
    falls = [(each, each.price - apart / each.area) for each in own if each.area and each.price == each.price]
    can = [(each, then) for each, then in falls if then > 0.0]
    if can:
        each, then = max(can, key=lambda found: found[1] / found[0].price)
        yield _priced(each, then, f"{second.name} wins if {each.words} costs less than", "in place of")
        return
    others = [each for each in of_first if all(not each.same(other) for other in of_second)]
    rises = [(each, each.price + apart / each.area) for each in others if each.area and each.price == each.price]
    if rises:
        each, then = min(rises, key=lambda found: found[1] / found[0].price)
        yield _priced(each, then, f"{second.name} wins if {each.words} costs more than", "in place of")


def _priced(each: Bought, then: float, says: str, instead: str) -> ToWin:
    now_words, then_words = (f"{price:.2f} {each.currency}/m²" for price in (each.price, then))
    words = f"{says} {then_words} {instead} {now_words}."
    return ToWin(
        "price", words, f"catalogue.{each.board.key}.made.{each.made.typed}.price", each.price, then, "money/m²"
    )


def by_limit(refused: Sequence[Row], best: float, system: System) -> Iterator[ToWin]:
    """Of the cheaper ones that are refused, which limit stands in the way and what it would have to be."""
    for row in refused:
        if row.first is None or row.first.amount >= best:
            continue
        for each in row.refusals[:1]:
            if each.value is None or each.limit is None or each.unit == "count":
                continue
            value, limit = told_apart(each.value, each.limit, each.unit, system)
            words = f"{row.name} is cheaper. {each.title}: it has {value}, and {limit} is the limit."
            yield ToWin("limit", words, each.id, each.limit, each.value, each.unit)


def said(value: float, unit: str, system: System) -> str:
    """A number with its unit; of what is not printed in two systems as it is."""
    if unit == "money":
        return f"{value:,.0f}"
    if unit in PLAIN:
        return f"{value:.3g}"
    return say.both(value, unit, system)


def told_apart(value: float, limit: float, unit: str, system: System) -> tuple[str, str]:
    """A value and its limit in words that differ: with as many more digits as that takes.

    >>> told_apart(80.04, 80.0, "%", "SI")
    ('80.04 %', '80.00 %')
    """
    words = said(value, unit, system), said(limit, unit, system)
    if words[0] != words[1] or value == limit:
        return words
    one, other = (value, limit) if unit in PLAIN else (say.number(each, unit, system) for each in (value, limit))
    named = "" if unit in PLAIN else f" {say.name(unit, system)}"
    for places in range(1, 6):
        words = f"{one:.{places}f}{named}", f"{other:.{places}f}{named}"
        if words[0] != words[1]:
            break
    return words
