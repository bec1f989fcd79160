"""Money as typed: prices of one currency and of one day, a fuel that is known, and nothing that cannot be."""

from __future__ import annotations

from collections.abc import Iterator

from .. import catalogue
from ..catalogue.fuels import fuel
from ..mistakes import Mistake, nearest
from .tables.money import Money

BY_VOLUME = ("concrete", "screed", "gravel", "sand", "excavation")  # no record of a product has their price
BY_LENGTH = ("tape", "strip")
BY_HEAT = {"J": "by heat", "m³": "by volume", "kg": "by mass"}
MOST_BURNT = {"HHV": 1.0, "LHV": 1.12}
PER = {
    "m²": "square metre",
    "m³": "cubic metre",
    "m": "metre",
    "kg": "kilogram",
    "J": "heat",
    "s": "time",
    "1": "piece",
}


def unclear_money(money: Money | None) -> Iterator[Mistake]:
    """What is wrong with the table of money, as far as it could be read."""
    if money is None:
        return
    if money.currency is None:
        wrong = "This does not say in which currency money is counted."
        yield Mistake("money.currency", "", wrong, 'Write currency = "USD", and the day: date = "2026-11-01".')
    elif money.date is None:
        wrong = "Prices hold on a day, and this does not say on which."
        yield Mistake("money.date", "", wrong, 'Write date = "2026-11-01": when they were quoted.')
    yield from _other_currencies(money)
    yield from _fuel(money)
    if money.labour is not None and money.labour.per != "s":
        wrong = f"{money.labour.typed} is no price of an hour's work."
        yield Mistake("money.labour", f'"{money.labour.typed}"', wrong, 'Write labour = "55 USD/h".')
    for name, price in money.price.items():
        wanted = ("m³",) if name in BY_VOLUME else ("m",) if name in BY_LENGTH else ("m²", "m³", "1")
        if price.per not in wanted:
            per = " or ".join(PER[each] for each in wanted)
            wrong = f"{price.typed} is by {PER[price.per]}; of {name} it is wanted by {per}."
            yield Mistake(f"money.price.{name}", f'"{price.typed}"', wrong, "Ask for the price so, or turn it.")
    years = (money.years or 0) * 365.2425 * 86400.0
    for n, each in enumerate(money.replacement, start=1):
        at = f"money.replacement.{n}.after"
        if each.after.si == 0.0:
            yield Mistake(at, f'"{each.after.typed}"', "What is bought at once is first cost.", "Write a time.")
        elif years and each.after.si > years:
            wrong = f"This falls due after the {money.years} years that are looked at."
            yield Mistake(at, f'"{each.after.typed}"', wrong, "Take it out, or look at more years.")


def _other_currencies(money: Money) -> Iterator[Mistake]:
    """Prices in another currency than the table's: they are never added and never turned."""
    if money.currency is None:
        return
    typed = [
        ("fuel-price", money.fuel_price),
        ("labour", money.labour),
        ("budget", money.budget),
        ("residual", money.residual),
        *((f"price.{name}", price) for name, price in money.price.items()),
        *((f"replacement.{n}.cost", each.cost) for n, each in enumerate(money.replacement, start=1)),
    ]
    for name, price in typed:
        if price is not None and price.currency != money.currency:
            wrong = f"{price.typed} is in {price.currency}, and money is counted in {money.currency} here."
            instead = "Two currencies are never added: turn it by the rate of the day, or change the currency."
            yield Mistake(f"money.{name}", f'"{price.typed}"', wrong, instead)


def _fuel(money: Money) -> Iterator[Mistake]:
    if money.fuel is None:
        return
    try:
        known = fuel(money.fuel)
    except Mistake as mistake:
        yield mistake.placed(at="money.fuel")
        return
    price = money.fuel_price
    if price is not None:
        sold = ["J"] + ["m³"] * (known.by_volume is not None) + ["kg"] * (known.by_mass is not None)
        if price.per not in sold:
            ways = " or ".join(BY_HEAT[each] for each in sold)
            wrong = f"{price.typed} is no price of {known.label}: it is sold {ways}."
            yield Mistake("money.fuel-price", f'"{price.typed}"', wrong, 'Write it as billed: "0.16 USD/kWh".')
    if money.heating_value is not None and not known.burnt:
        wrong = f"{known.label.capitalize()} is not burnt here, so it has no heating value."
        yield Mistake("money.heating-value", f'"{money.heating_value}"', wrong, "Leave it out.")
    by = money.heating_value or "HHV"
    if known.burnt and money.efficiency is not None and money.efficiency > MOST_BURNT[by]:
        share = f"{100.0 * money.efficiency:.0f} % of the {'higher' if by == 'HHV' else 'lower'} heating value"
        wrong = f"{share} is more than there is in {known.label}."
        instead = "Look at the label again."
        if by == "HHV":
            instead = 'Where the label goes by the lower one, write heating-value = "LHV".'
        yield Mistake("money.efficiency", "", wrong, instead)
    if known.electric and money.fuel_carbon is not None and not money.fuel_carbon_from:
        wrong = "What a kilowatt hour of electricity gives off goes by grid and year, and this does not say which."
        yield Mistake("money.fuel-carbon-from", "", wrong, 'Write where the figure comes from: "state grid, 2024".')


def unknown_goods(money: Money | None, products: catalogue.Products) -> Iterator[Mistake]:
    """Prices and declarations of what no catalogue knows."""
    if money is None:
        return
    boards = [board.key for board in products.boards()]
    known = [
        *BY_VOLUME,
        *BY_LENGTH,
        *boards,
        *(each.key for each in products.products()),
        *(each.key for each in products.retarders()),
    ]
    for table, names, of in (("price", money.price, known), ("embodied", money.embodied, boards)):
        for name in names:
            if name not in of:
                near = nearest(name, of)
                hint = f"The nearest is {near[0]}. " if near else ""
                wrong = f"Nothing that is laid is called {name}."
                yield Mistake(f"money.{table}.{name}", "", wrong, f"{hint}All of them: underpour catalogue list")
