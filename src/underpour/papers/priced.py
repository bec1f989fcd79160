"""The sheet of money and carbon: what is paid at first, item by item, and what each alternative costs over years."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..measure import say
from ..measure.digits import fixed
from ..measure.table import System

if TYPE_CHECKING:
    from ..costing import Costed
    from ..costing.records import Outlay
    from ..dossier import Answer, Dossier
    from ..findings import Finding

DASH = "\N{EN DASH}"


def priced(dossier: Dossier, system: System) -> dict[str, Any] | None:
    """Everything that the sheet says; None where the brief has no prices."""
    of = dossier.as_briefed.costed
    if of is None:
        return None
    first, life = (dossier.as_briefed.find(id) for id in ("money.first", "money.life"))
    return {
        "currency": of.money.currency,
        "first": _told(first, system),
        "life": _told(life, system),
        "outlays": [_outlay(each, system) for each in of.first.outlays],
        "versions": [_version(each, system) for each in dossier.alternatives if each.costed is not None],
        "ladder": [_rung(of, thickness, cost, system) for thickness, cost in of.ladder],
        "taken": _taken(of),
        "caution": first.caution,
    }


def _told(finding: Finding, system: System) -> dict[str, str]:
    value = "" if finding.value is None else say.value(finding.value, finding.unit, system)
    limit = "" if finding.limit is None else f"{finding.sense} {say.value(finding.limit, finding.unit, system)}"
    return {
        "verdict": finding.verdict,
        "title": finding.title,
        "numbers": ", ".join(filter(None, (value, limit))),
        "words": finding.words,
        "missing": finding.missing,
    }


def _outlay(each: Outlay, system: System) -> list[str]:
    where = "" if each.where.startswith("floor.") else f", {each.where}"
    return [
        f"{each.what}{where}",
        say.value(each.amount, each.unit, system),
        each.price or ("asked for" if each.lacks else DASH),
        DASH if each.goods is None else fixed(each.goods, 0),
        f"{fixed(each.hours, 1)} h" if each.hours else DASH,
        fixed(each.cost, 0),
    ]


def _version(answer: Answer, system: System) -> list[str]:
    """One alternative in a row: first cost, heat a year and its price, life cycle, when foam is won back, its gas."""
    of = answer.costed
    assert of is not None
    found = {(f.id, str(f.at.get("of", ""))): f for f in answer.findings}
    back, gas = found["money.payback", "foam"], found["carbon.embodied", "foam"]
    return [
        answer.name,
        _cell(found["money.first", ""], system),
        DASH if of.season is None else say.value(of.season.energy, "kWh", system),
        DASH if of.yearly is None else fixed(of.yearly, 0),
        _cell(found["money.life", ""], system),
        _cell(back, system),
        _cell(gas, system),
        _cell(found["carbon.payback", ""], system),
    ]


def _cell(finding: Finding, system: System) -> str:
    if finding.missing:
        return "cannot tell"
    return DASH if finding.value is None else say.value(finding.value, finding.unit, system)


def _rung(of: Costed, thickness: float, cost: float, system: System) -> list[str]:
    best = of.flat is not None and thickness == of.flat.at
    within = of.flat is not None and of.flat.low <= thickness <= of.flat.high
    named = say.both(thickness, "m", system) if thickness else "no board"
    return [named, fixed(cost, 0), "least" if best else "within 1 % of it" if within else ""]


def _taken(of: Costed) -> str:
    """The figures that the years stand on, in one line."""
    money = of.money
    rates = f"{money.years} years, {100 * money.discount:g} % discount, {100 * money.growth:g} % growth of energy"
    if money.fuel is None or money.fuel_price is None or money.heat_price is None:
        return f"{rates}; prices of {money.day}."
    by = f", {money.heating_value}" if money.heating_value else ""
    named = f"{money.fuel.label[:1].upper()}{money.fuel.label[1:]}"
    heat = f"{named} at {money.fuel_price.typed}{by}, efficiency {money.efficiency:g}"
    return f"{heat}: {money.heat_price:.4f} {money.currency} a kilowatt hour of heat; {rates}; prices of {money.day}."
