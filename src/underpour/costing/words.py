"""Words of money and carbon that several findings share: sums, years, and what is still wanted."""

from __future__ import annotations

from dataclasses import replace

from ..catalogue.sources import source
from ..findings import Basis, Finding, Step
from ..measure.digits import fixed
from ..resolve import Money, Resolved
from .first import layer_paths
from .records import Costed

NOTHING_HEATED = "Nothing is heated over this slab, so that its foam saves no heat."
NO_FOAM = "No foam is laid here."
DRAWN = (
    "Foam is drawn here as a body of its own: what lies there without it is not known, so that nothing is beside it."
)
WANTED = {
    "money.labour": 'What an hour of whoever lays it costs is wanted: labour = "55 USD/h", or 0 for one\'s own.',
    "money.fuel": 'What heats the room is wanted: fuel = "natural-gas". All of them: underpour catalogue list fuels',
    "money.fuel-price": 'What the fuel costs is wanted, as it is billed: fuel-price = "1.40 USD/therm".',
    "money.efficiency": "How much heat comes of what is bought is wanted: efficiency = 3.0 of a heat pump.",
    "money.fuel-carbon": 'What a kilowatt hour of it gives off is wanted, with where that comes from: "0.39 kg/kWh".',
}


def amount(money: Money, value: float) -> str:
    """A sum as it is said.

    >>> from types import SimpleNamespace
    >>> amount(SimpleNamespace(currency="USD"), 12345.6)
    '12\u2009346 USD'
    """
    return f"{fixed(value, 0)} {money.currency}"


def not_held(of: Costed) -> str:
    """Why a floor is not held against the same one with less foam."""
    if of.season is None:
        return NOTHING_HEATED
    return DRAWN if of.first.foam else NO_FOAM


def said_years(value: float) -> str:
    """A time that may never end.

    >>> said_years(3.04), said_years(float("inf"))
    ('3.0 years', 'never')
    """
    return "never" if value == float("inf") else f"{value:.1f} years"


def wanted(key: str) -> str:
    """What to type, in words."""
    if key.startswith("money.price."):
        name = key.removeprefix("money.price.")
        return f"{name} has no price with a day in this currency: quote it under [money.price]."
    if key.startswith("money.embodied."):
        name = key.removeprefix("money.embodied.")
        return f"Its gas decides what making {name} gives off: ask for its maker's declaration, and type it."
    return WANTED[key]


def asked(made: Finding, key: str) -> Finding:
    """The finding that cannot be told for want of one key."""
    return replace(made, value=None, within=None, missing=key, steps=(), words=wanted(key))


def price_steps(money: Money) -> tuple[Step, ...]:
    """How a kilowatt hour of heat got its price."""
    if money.fuel is None or money.fuel_price is None or money.heat_price is None or money.price is None:
        return ()
    by = {"HHV": ", higher heating value", "LHV": ", lower heating value"}.get(money.heating_value, "")
    per = f"{money.currency}/kWh"
    numbers = f"{money.fuel_price.typed} ({money.day}): {money.price:.4f} {per}{by}, over {money.efficiency:g}"
    return (Step("p", f"price of {money.fuel.label} / efficiency", numbers, f"{money.heat_price:.4f} {per}"),)


def of_years() -> tuple[Basis, ...]:
    """What sums over years stand on."""
    return tuple(
        Basis(source(key).title, clause, source(key).seen)
        for key, clause in (
            ("nist-hb-135", "life-cycle cost, discounted payback"),
            ("astm-e917", "present value with growth"),
            ("iso-13370-2017", "settled year of the ground"),
        )
    )


def by_practice(clause: str) -> Basis:
    """What is usual and has no source."""
    return Basis(source("practice").title, clause, "practice")


def on_money(resolved: Resolved) -> tuple[str, ...]:
    """What prices over the years rest on."""
    keys = ("fuel", "fuel-price", "efficiency", "growth", "discount", "years")
    return (*layer_paths(resolved), *(f"money.{key}" for key in keys))
