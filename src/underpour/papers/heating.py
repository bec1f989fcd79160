"""The sheets about heated floors: what who lives with one asks, and what who lays and fills it must know and record."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from ..drawings.heated_words import flow_words
from ..drawings.margin import margin_words
from ..drawings.when import MONTHS
from ..measure import say
from ..measure.table import System
from .instance import instance_and_month

if TYPE_CHECKING:
    from ..checks.warm.seen import Heated
    from ..dossier import Dossier
    from ..findings import Finding


def heating(dossier: Dossier, system: System) -> dict[str, Any] | None:
    """Everything that the sheets say; None where no tubes and no cables lie in the floor."""
    of = dossier.as_briefed.heated
    if of is None:
        return None
    texts = _texts()
    found = [f for f in dossier.as_briefed.findings if f.id.startswith("warm.")]
    told = {asks: [f for f in found if (f.id in texts["owner"]) == asks] for asks in (True, False)}
    supply = next((f for f in found if f.id == "warm.supply" and f.months), None)
    return {
        **texts["electric" if of.electric else "water"],
        "owner": [_row(f, system) for f in told[True]],
        "installer": [_row(f, system) for f in told[False]],
        "laid": [{"name": name, "value": value} for name, value in _laid(of, system)],
        "months": None if supply is None else _months(supply, of, system),
    }


def _row(finding: Finding, system: System) -> dict[str, str]:
    """One finding in a line or two, its caution with it."""
    value = "" if finding.value is None else say.both(finding.value, finding.unit, system)
    held = "" if finding.limit is None else f", {finding.sense} {say.both(finding.limit, finding.unit, system)}"
    where = instance_and_month(finding, system)
    return {
        "verdict": finding.verdict,
        "title": f"{finding.title}, {where}" if where else finding.title,
        "numbers": f"{value}{held}",
        "margin": "" if finding.missing or finding.limit is None else margin_words(finding, system),
        "words": finding.words,
        "missing": finding.missing,
        "caution": finding.caution,
    }


def _laid(of: Heated, system: System) -> list[tuple[str, str]]:
    """What is laid, by its measures."""
    top = of.axis - of.outside / 2.0
    rows = [
        ("Cable" if of.electric else "Tube", of.tube or f"heating cable, {say.both(of.outside, 'm', system)} thick"),
        ("From one to the next", say.both(of.spacing, "m", system)),
        ("From the finished floor down to it", f"{say.both(top, 'm', system)}: no drill and no saw goes deeper"),
        ("Wanted of the floor on the coldest day", f"{say.both(of.up, 'W/m²', system)} up"),
        ("Goes down meanwhile", say.both(of.down, "W/m²", system)),
    ]
    runs = of.pumped
    if runs is not None:
        which = "the longest" if runs.longest else "each"
        rows += [
            ("Filled with", runs.fluid),
            ("Loops", f"{runs.count}, {which} {say.both(runs.length, 'm', system)} with its leaders"),
            (
                "Through that one" if runs.longest else "Through one loop",
                f"{flow_words(runs.flow, system)} at {say.both(runs.loss, 'kPa', system)}",
            ),
            ("Through all of them", flow_words(runs.whole, system)),
        ]
    return rows


def _months(supply: Finding, of: Heated, system: System) -> dict[str, Any]:
    """The water that enters month by month, the coldest day in its month; where nobody heats nothing."""
    assert supply.months is not None
    heated = of.year.heated
    told = [
        say.value(each, "degC", system) if heated[n] or n + 1 == of.month else ""
        for n, each in enumerate(supply.months)
    ]
    return {"names": [name[:3] for name in MONTHS], "told": told, "coldest": MONTHS[of.month - 1]}


@cache
def _texts() -> dict[str, Any]:
    return tomllib.loads(files(__package__).joinpath("heating.toml").read_text("utf-8"))
