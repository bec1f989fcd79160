"""Findings of money over years: the life cycle and when foam is won back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..economy import adjusted_return, discounted_payback, net_saving, payback, present_worth_of_years_growing
from ..findings import Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..resolve import Money, Resolved
from .costed import life
from .records import Against, Costed
from .words import NOTHING_HEATED, amount, asked, not_held, of_years, on_money, price_steps, said_years


def life_cycle(resolved: Resolved, money: Money, of: Costed) -> Finding:
    made = Finding(
        "money.life",
        f"Life-cycle cost over {money.years} years, {money.currency}",
        None,
        "money",
        at={"currency": money.currency},
        basis=of_years(),
        rests_on=on_money(resolved),
    )
    if of.season is None:
        return replace(made, no_limit="does not apply", words=NOTHING_HEATED)
    lacks = of.first.lacks or money.lacks_price
    total = None if lacks else life(money, of.first.total, of.season.energy)
    if total is None:
        return asked(made, lacks)
    assert money.heat_price is not None
    energy, price = of.season.energy, money.heat_price
    worth = present_worth_of_years_growing(money.discount, money.growth, money.years)
    steps = [
        *price_steps(money),
        Step("first cost", "see money.first", "", amount(money, of.first.total)),
        Step(
            "A",
            "heat of the months that count × its price",
            _heat(money, of),
            f"{amount(money, energy * price)} a year",
        ),
        Step(
            "UPV*",
            "x (1 − xⁿ) / (1 − x), x = (1 + e) / (1 + d)",
            f"e = {100 * money.growth:g} %, d = {100 * money.discount:g} %, n = {money.years}",
            fixed(worth, 3),
        ),
        *(
            Step("again", "cost × (1 + d)⁻ᵗ", f"{amount(money, each.cost)} after {each.after:g} years", "")
            for each in money.again
        ),
        Step(
            "life-cycle cost",
            "C + A UPV* + what is bought again − what is left",
            f"{fixed(of.first.total, 0)} + {fixed(energy * price, 1)} × {worth:.3f}",
            amount(money, total),
        ),
        *(
            Step(
                "ladder", "the same with each thickness under the middle", f"{_thick(resolved, t)}", amount(money, cost)
            )
            for t, cost in of.ladder
        ),
    ]
    words = [_energy_words(resolved, money, of, energy * price), *_beside(money, of, worth), *_flat(resolved, of)]
    return replace(made, value=total, within=0.0, steps=tuple(steps), words=" ".join(words))


def _energy_words(resolved: Resolved, money: Money, of: Costed, yearly: float) -> str:
    assert of.season is not None and money.fuel is not None
    heat = say.both(of.season.energy, "kWh", resolved.system)
    does = "is taken out again" if of.season.cold else "leaves through it while the room is heated"
    words = f"In a year {heat} {does}, {amount(money, yearly)} by {money.fuel.label}."
    if resolved.heated is not None:
        words += " A floor with tubes in it is warmer than its room: what it loses beyond this, warm.downward tells."
    return words


def _beside(money: Money, of: Costed, worth: float) -> Iterator[str]:
    """What foam brings over the years beside none."""
    bare = of.bare
    if bare is None or bare.more is None or money.heat_price is None:
        return
    saved = bare.saves * money.heat_price * worth
    net = net_saving(saved, bare.more)
    if net >= 0.0:
        rate = adjusted_return(max(saved, 0.0) / bare.more, money.discount, money.years) if bare.more > 0.0 else None
        earns = f", as money laid out at {100.0 * rate:.1f} % a year would" if rate is not None else ""
        yield f"Beside no foam it saves {amount(money, net)} over the years{earns}."
    else:
        more = amount(money, -net)
        yield f"Beside no foam it costs {more} more over the years: money alone does not ask for this foam."


def _flat(resolved: Resolved, of: Costed) -> Iterator[str]:
    """Which thickness under the middle costs least, and how little it matters."""
    if of.flat is None:
        return
    best, low, high = (_thick(resolved, each) for each in (of.flat.at, of.flat.low, of.flat.high))
    if of.flat.low == of.flat.high:
        yield f"Of the thicknesses made, {best} under the middle costs least over the years."
    else:
        yield f"Of the thicknesses made, {best} under the middle costs least; from {low} to {high} it is within 1 %."


def _thick(resolved: Resolved, thickness: float) -> str:
    return say.both(thickness, "m", resolved.system) if thickness else "no board"


def won_back(resolved: Resolved, money: Money, of: Costed, against: Against | None, name: str) -> Finding:
    last = name == "last step"
    made = Finding(
        "money.payback",
        "Years until the last step of thickness is won back" if last else "Years until foam is won back",
        None,
        "year",
        at={"of": name},
        basis=of_years(),
        rests_on=on_money(resolved),
    )
    if of.season is None or against is None:
        return replace(made, no_limit="does not apply", words=not_held(of))
    lacks = (of.first.lacks_foam if against.more is None else "") or money.lacks_price
    if against.more is None and not lacks:
        words = "What is quoted holds for one thickness: by volume it would tell what the next thinner board costs."
        return replace(made, no_limit="does not apply", words=words)
    if lacks or against.more is None or money.heat_price is None:
        return asked(made, lacks)
    yearly = against.saves * money.heat_price
    simple = payback(max(against.more, 0.0), yearly)
    worth = discounted_payback(max(against.more, 0.0), yearly, money.discount, money.growth)
    saved = say.both(against.saves, "kWh", resolved.system)
    more = f"{amount(money, against.more)} more than {against.words}"
    steps = (
        *price_steps(money),
        Step("C", f"first cost, less that with {against.words}", "", amount(money, against.more)),
        Step("S", "heat saved × its price", f"{saved} × {money.heat_price:.4f}", f"{amount(money, yearly)} a year"),
        Step("simple", "C / S", f"{fixed(against.more, 0)} / {fixed(yearly, 1)}", said_years(simple)),
        Step(
            "discounted",
            "n at which S UPV* is C",
            f"d = {100 * money.discount:g} %, e = {100 * money.growth:g} %",
            said_years(worth),
        ),
    )
    kept = ""
    if against.keeps_in > 0.0:
        keeps = say.both(against.keeps_in, "kWh", resolved.system)
        kept = f" While the room is cooled it keeps in {keeps} a year that the ground would take: that is not priced."
    told = f"It costs {more} and saves {saved} a year"
    if worth == float("inf"):
        never = f"{told}, {amount(money, yearly)}: it is never won back at these prices.{kept}"
        return replace(made, no_limit="does not apply", steps=steps, words=never)
    words = f"{told}, {amount(money, yearly)}; without discount it is won back in {said_years(simple)}.{kept}"
    if worth > money.years:
        words += f" That is beyond the {money.years} years that are looked at."
    return replace(made, value=float(worth), within=0.0, steps=steps, words=words)


def _heat(money: Money, of: Costed) -> str:
    assert of.season is not None and money.heat_price is not None
    return f"{len(of.season.counted)} months, {fixed(of.season.energy, 0)} kWh × {money.heat_price:.4f}"
