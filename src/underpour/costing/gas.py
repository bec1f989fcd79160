"""Findings of greenhouse gas: of making, and when foam has saved that of its making."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..economy import payback
from ..findings import Basis, Finding, Step
from ..measure.digits import fixed
from ..resolve import Money, Resolved
from .first import layer_paths
from .records import Costed, LayerMade
from .words import NO_FOAM, asked, by_practice, not_held, on_money, said_years

TITLES = {"foam": "Greenhouse gas of making the foam", "all": "Greenhouse gas of making all that is bought"}


def of_making(resolved: Resolved, of: Costed) -> Iterator[Finding]:
    for name, title in TITLES.items():
        layers = [each for each in of.embodied.layers if each.foam or name == "all"]
        value, low, high = of.embodied.of(True if name == "foam" else None)
        made = Finding(
            "carbon.embodied",
            title,
            value,
            "kgCO2e",
            at={"of": name},
            within=0.0,
            basis=tuple(dict.fromkeys(_making(each) for each in layers if each.made)) or (by_practice("making"),),
            rests_on=(*layer_paths(resolved), *dict.fromkeys(each.made.path for each in layers if each.made)),
            steps=(
                *(_layer(each) for each in layers if each.made),
                Step("sum", "of all", "", f"{fixed(value, 0)} kgCO2e"),
            ),
        )
        if of.embodied.lacks:
            yield asked(made, of.embodied.lacks)
            continue
        left = f" Not counted: {'; '.join(of.embodied.left_out)}." if of.embodied.left_out and name == "all" else ""
        spread = (
            f"Between {fixed(low, 0)} and {fixed(high, 0)} kg, by who makes it: a declaration with its date decides."
        )
        yield replace(made, words=f"{spread}{left}" if layers else NO_FOAM)


def _sum(value: float) -> Step:
    return Step("sum", "of all", "", f"{fixed(value, 0)} kgCO2e")


def _layer(each: LayerMade) -> Step:
    assert each.made is not None
    per = each.made.value / each.amount if each.amount else 0.0
    numbers = f"{fixed(each.amount, 1)} {each.unit} × {per:.2f} kgCO2e/{each.unit}"
    return Step(
        each.what,
        "bought × of making",
        numbers,
        f"{fixed(each.made.value, 0)} ({fixed(each.made.low, 0)} to {fixed(each.made.high, 0)}) kgCO2e",
    )


def _making(each: LayerMade) -> Basis:
    assert each.made is not None
    return Basis(each.made.source, "from the ground to the works' gate", each.made.seen)


def _of_fuel(money: Money) -> Basis:
    """Where the gas of what is bought is told."""
    number = money.fuel.carbon if money.fuel is not None else None
    if number is not None and money.carbon_from.startswith(number.source.title):
        return number.basis()
    return Basis(money.carbon_from, "as the brief says", "document")


def carbon_won_back(resolved: Resolved, money: Money, of: Costed) -> Finding:
    made = Finding(
        "carbon.payback",
        "Years until foam has saved the greenhouse gas of its making",
        None,
        "year",
        basis=(
            Basis("gas of making over gas of heat saved a year", "arithmetic", "derived"),
            *((_of_fuel(money),) if money.carbon_from else ()),
        ),
        rests_on=on_money(resolved),
    )
    if of.season is None or of.bare is None:
        return replace(made, no_limit="does not apply", words=not_held(of))
    lacks = of.embodied.lacks or money.lacks_carbon
    if lacks or of.bare.more_carbon is None or money.heat_carbon is None:
        return asked(made, lacks)
    value, low, high = of.embodied.of(foam=True)
    yearly = of.bare.saves * money.heat_carbon
    years, soon, late = (payback(each, yearly) for each in (value, low, high))
    steps = (
        Step(
            "g",
            "carbon of what is bought / efficiency",
            f"{money.carbon:.4f} / {money.efficiency:g} ({money.carbon_from})",
            f"{money.heat_carbon:.4f} kgCO2e/kWh",
        ),
        Step(
            "saved",
            "heat saved × g",
            f"{fixed(of.bare.saves, 0)} kWh × {money.heat_carbon:.4f}",
            f"{fixed(yearly, 0)} kgCO2e a year",
        ),
        Step("years", "making / saved", f"{fixed(value, 0)} / {fixed(yearly, 0)}", said_years(years)),
    )
    if years == float("inf"):
        words = "It saves no heat that is paid for, and so no gas."
        return replace(made, no_limit="does not apply", steps=steps, words=words)
    assert money.fuel is not None
    gives = f"a kilowatt hour of {money.fuel.label} gives off {money.carbon:.3f} kg of carbon dioxide"
    words = f"Between {soon:.1f} and {said_years(late)}, by who makes the foam; {gives}."
    return replace(made, value=float(years), within=0.0, steps=steps, words=words)
