"""What a data sheet says, as plain data: it is printed from, kept for the next one, and held against the last one."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from ..catalogue.read import table
from ..conformity import RecordFinding
from ..conformity.rows import day as in_words
from ..measure.digits import figured
from . import words as said
from .figures import STANDS, Figure
from .label import label
from .lasting import Lasting
from .mark import mark
from .shown import Particulars, Thickness
from .since import SHEET

LABELLED = (
    "R as labelled is R at a mean of 75 °F (24 °C). R at 40 °F and the declared conductivity at 10 °C are other numbers"
    " of other tests, and none is turned into another."
)
BURNS = (
    "Fire indices are of a tunnel test. They are no forecast of a real fire, and tell nothing of foam below concrete."
)


def sheet(of: Particulars, *, prices: bool = False) -> dict[str, Any]:
    """The data sheet of a product: every text that it prints but the drawing's, with its mark.

    Parameters
    ----------
    of : Particulars
        The product on the day that the sheet is printed.
    prices : bool
        Whether prices are printed.
    """
    product = of.product
    kind = said.words()["kind"][product.kind]
    priced = prices and any(made.price for made in of.made)
    told = {
        "format": SHEET.format,
        "key": product.key,
        "name": of.name,
        "called": of.called,
        "maker": of.maker,
        "invented": of.invented,
        "note": product.note,
        "for": kind["for"],
        "not": [*kind["not"], *([said.words()["facing"][product.facing.below_slab_film]] if product.facing else [])],
        "claims": [{"words": c.words, "standing": c.standing, "why": list(c.why)} for c in of.claims],
        "carried": list(of.carried),
        "not_held": list(of.not_held),
        "made": [_made(each, priced) for each in of.made],
        "priced": of.priced if priced else "",
        "price": product.price if prices else "",
        "lasting": [_lasting(each) for each in of.lasting],
        "labelled": LABELLED if any(each.r_words for each in of.made) else "",
        "figures": [_figure(each) for each in of.figures],
        "statistics": _statistics(of),
        "burns": BURNS if any(each.of.kind == "index" for each in of.figures) else "",
        "facts": [{"name": name, "words": words} for name, words in said.facts(product)],
        "use": _use(of),
        "embodied": _embodied(of),
        "cautions": cautions(of),
        "label": [{"name": name, "words": words} for name, words in label(of)],
        "short": [_finding(each) for each in of.short],
        "open": [_finding(each) for each in of.findings if each.verdict == "cannot tell"],
    }
    return {**told, "mark": mark(told), "day": of.day.isoformat(), "issued": of.day.isoformat()}


def _made(of: Thickness, priced: bool) -> dict[str, Any]:
    return {
        "thickness": of.words,
        "height": of.height,
        "r": of.r_words,
        "record": of.record,
        "standing": of.standing if of.r_words else STANDS,
        "why": of.why,
        "price": of.price if priced else "",
    }


def _lasting(of: Lasting) -> dict[str, Any]:
    return {
        "title": of.title,
        "value": of.words,
        "worked": of.worked,
        "source": of.source,
        "records": list(of.records),
        "standing": of.standing,
        "why": of.why,
        "governs": of.governs,
    }


def _figure(of: Figure) -> dict[str, Any]:
    return {
        "record": of.record,
        "name": of.of.name,
        "value": of.both,
        "standing": of.standing,
        "why": of.why,
        "method": of.method,
        "conditions": of.conditions,
        "statistic": of.statistic,
        "laboratory": of.laboratory,
        "certificate": of.certificate,
        "date": of.date,
        "expires": of.expires,
    }


def _statistics(of: Particulars) -> str:
    """What the words of the column of statistics mean, those that are used."""
    used = {each.statistic for each in of.figures}
    rows = said.words()
    return " ".join(means for key, means in rows["statistic-means"].items() if rows["statistic"][key] in used)


def _finding(of: RecordFinding) -> dict[str, str]:
    return {"about": of.about(), "wrong": of.wrong, "instead": of.instead}


def _use(of: Particulars) -> list[dict[str, str]]:
    rows = [
        ("Temperatures of use", said.service(of.product) or "The record does not say."),
        ("Attacked by", ", ".join(of.product.attacked_by) or "The record does not say."),
        ("In fire", "combustible: it is covered wherever it is used" if burns(of) else ""),
    ]
    return [{"name": name, "words": words} for name, words in rows if words]


def burns(of: Particulars) -> bool:
    """Whether the foam that it is made of burns."""
    return of.product.family is not None and bool(table("foams")[of.product.family]["combustible"])


def _embodied(of: Particulars) -> str:
    """Greenhouse gas of its making for each kilogram, and for each cubic metre where a density stands behind it."""
    told = of.product.embodied
    if told is None:
        return ""
    each = f"{told.value:g} kgCO2e for each kg, between {told.low:g} and {told.high:g} ({told.basis})"
    density = next((f for f in of.figures if f.of.key == "density" and f.standing == STANDS and f.value), None)
    if density is None or density.value is None:
        return f"{each}. No density stands behind it, so nothing is said of a cubic metre."
    worked = f"{told.value:g} kgCO2e/kg × {figured(density.value, 3)} kg/m³ (record {density.record})"
    return f"{each}. {worked} = {figured(told.value * density.value, 2)} kgCO2e for each m³."


def cautions(of: Particulars, *, more: Sequence[str] = (), without: Sequence[str] = ()) -> list[str]:
    """What is said beside a product that may lead into harm: of its kind, and of what it is used for."""
    names = [*said.words()["cautions"][of.product.kind], *more]
    return [_caution_words()[name] for name in names if name not in without and (name != "fire" or burns(of))]


@cache
def _caution_words() -> dict[str, str]:
    return tomllib.loads((files("underpour") / "cautions.toml").read_text(encoding="utf-8"))


def printed_day(iso: str) -> str:
    """A day of a sheet in words.

    >>> printed_day("2026-11-27")
    '27 November 2026'
    """
    import datetime

    return in_words(datetime.date.fromisoformat(iso))
