"""What money and carbon come to, as findings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..findings import Basis, Finding, Step
from ..measure.digits import fixed
from ..resolve import Money, Resolved
from .first import layer_paths
from .gas import carbon_won_back, of_making
from .over_years import life_cycle, won_back
from .records import Costed, Outlay
from .words import amount, asked, by_practice


def findings(resolved: Resolved, of: Costed) -> Iterator[Finding]:
    """First cost, life-cycle cost, paybacks, and the greenhouse gas of making, of one version of a brief.

    Asks
        What is paid for it at first and over the years, when is foam won back in money and in carbon?
    Why
        The cheapest floor is seldom the one that costs least, and the last inch is seldom the first one's bargain.
    Worked out
        What is bought at its prices and laid by usual hours; the heat of the months that count, from the settled year
        of the real ground, at the fuel's price; both brought to today's worth. Foam is held against the same floor
        without any, its last step against the next thinner board that is made.
    Holds for
        Prices of the days that are named, hours of a practised crew, the years that are looked at. What foam keeps in
        while a room is cooled, and what a heated floor loses beyond its room's air, are not priced.
    Source
        NIST Handbook 135 and ASTM E917 for the worth of years; hours of laying are common practice, no source.
    """
    money = resolved.money
    assert money is not None, "nothing is priced without [money]"
    yield _first(resolved, money, of)
    yield life_cycle(resolved, money, of)
    yield won_back(resolved, money, of, of.bare, "foam")
    if of.thinner is not None:
        yield won_back(resolved, money, of, of.thinner, "last step")
    yield from of_making(resolved, of)
    yield carbon_won_back(resolved, money, of)


def _first(resolved: Resolved, money: Money, of: Costed) -> Finding:
    first = of.first
    title = f"First cost of foam, film and what is priced beside them, {money.currency}"
    days = ", ".join(dict.fromkeys([each.price for each in first.outlays if each.price]))
    made = Finding(
        "money.first",
        title,
        first.total,
        "money",
        at={"currency": money.currency},
        within=0.0,
        basis=(
            Basis(f"prices as they stand: {days or 'none'}", f"money of {money.day}", "document"),
            by_practice("hours of laying"),
        ),
        rests_on=(*layer_paths(resolved), "money.labour", *(f"money.price.{name}" for name in money.prices)),
        steps=(*(_outlay(money, each) for each in first.outlays), _sum(money, of)),
    )
    left = f" Not counted for want of a price: {'; '.join(first.left_out)}." if first.left_out else ""
    if first.lacks:
        said = asked(made, first.lacks)
        return replace(said, words=f"{said.words}{left}")
    of_foam = f"{amount(money, first.foam)} of it is for foam, " if first.foam else ""
    words = f"{of_foam}{fixed(first.hours, 1)} h of laying in all.{left}"
    if money.budget is None:
        return replace(made, words=words)
    over = first.total - money.budget
    more = f"It is {amount(money, over)} over the budget. " if over > 0.0 else ""
    return replace(
        made,
        limit=money.budget,
        sense="at most",
        rests_on=(*made.rests_on, "money.budget"),
        words=f"{more}{words}",
    )


def _outlay(money: Money, each: Outlay) -> Step:
    parts = []
    if each.goods is not None:
        parts.append(f"{fixed(each.amount, 1)} {each.unit} at {each.price}: {amount(money, each.goods)}")
    if each.hours:
        hour = f" at {money.labour:g} {money.currency}/h" if money.labour is not None else ""
        parts.append(f"{fixed(each.hours, 1)} h{hour}")
    where = "" if each.where.startswith("floor.") else f", {each.where}"
    return Step(f"{each.what}{where}", "goods + labour", "; ".join(parts), amount(money, each.cost))


def _sum(money: Money, of: Costed) -> Step:
    total = " + ".join(f"{fixed(each.cost, 0)}" for each in of.first.outlays) or "0"
    return Step("first cost", "sum", total, amount(money, of.first.total))
