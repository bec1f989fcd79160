"""Findings about codes: one value of one row against the floor, with its clause, its doubt and how it was seen."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from ...catalogue.codes import Ask, Edition, Row, asks, subjects
from ...findings import Basis, Finding, Step
from ...measure import say
from ...resolve import Resolved
from .rows import Chosen

ROUTES = ("", "R-value", "U-value", "F-factor")  # ways of reckoning; any other word says where alone a row holds
FIGURES = {
    "mm": 4,
    "m²·K/W": 4,
    "m": 4,
}  # places that a label or a tape tells: a limit in other units is met on its digits


def at(edition: Edition, **more: str) -> dict[str, str | float]:
    """Which finding of its kind it is."""
    return {"edition": edition.key, **more}


def held_to(
    finding: Finding,
    resolved: Resolved,
    found: Chosen,
    row: Row,
    ask: str,
    value: float,
    *,
    limit: float | None = None,
    words: Sequence[str] = (),
) -> Finding:
    """A finding with its value held to what a row asks for; where the row asks for nothing it is advised instead.

    Parameters
    ----------
    finding : Finding
        Its id, title, instance, unit and what it rests on.
    value : float
        What is proposed, in the finding's unit.
    limit : float, optional
        What is asked for, where it is not the row's own value.
    words : sequence of str
        What an adviser says of it, first.

    A row whose route is no way of reckoning, such as an appendix "where adopted", is advised too.
    """
    unit = finding.unit
    told = asks()[ask]
    wanted = round((row.asks[ask].si * (1000.0 if unit == "mm" else 1.0)) if limit is None else limit, _places(unit))
    proposed = round(value, _places(unit))
    nothing = wanted == 0.0 and told.sense == "at least"
    only = "" if row.route in ROUTES else row.route
    bound = not nothing and not only
    advised = subjects()[row.subject].advised
    first = [*([] if bound else [advised]), f"It holds {only}." if only else ""]
    made = replace(
        finding,
        value=proposed,
        limit=wanted if bound else None,
        sense=told.sense if bound else None,
        no_limit="not required, advised",
        basis=(found.standing.basis(row, ask), *_zone_basis(found)),
        rests_on=tuple(dict.fromkeys([*finding.rests_on, *_zone_rests(found), row.path, "project.code"])),
        steps=(*finding.steps, _asked(row, ask, found, told, wanted, resolved)),
    )
    return replace(made, words=_words([*first, *words, *said(resolved, found, row, ask)]))


def not_told(finding: Finding, resolved: Resolved, found: Chosen) -> Finding:
    """A finding that cannot be told, or that does not apply here, with the reason.

    Where no row applies its source is the table, not the line of a zone that may be another one.
    """
    row = found.clauses[0] if found.rows else replace(found.clauses[0], zones=())
    ask = next(iter(row.asks))
    return replace(
        finding,
        value=None,
        missing=found.missing,
        no_limit="does not apply",
        basis=(found.standing.basis(row, ask),),
        rests_on=("project.code", *_zone_rests(found)),
        words=_words([found.words, *said(resolved, found, row, ask, doubt=bool(found.missing))]),
    )


def without_a_row(finding: Finding, resolved: Resolved, edition: Edition) -> Finding:
    """A finding on a subject of which the edition is known to speak, and of which no row was found."""
    return replace(
        finding,
        missing="project.local-code",
        basis=(Basis(edition.title, "not found", "memory"),),
        rests_on=("project.code",),
        words=f"{edition.title} speaks of this, and no row of it was found. Read it there; a row in a file of your own "
        f"(project.local-code) is then held to. {remembered(resolved, edition)}",
    )


def remembered(resolved: Resolved, edition: Edition) -> str:
    """How much of what is held of an edition is from memory, as it stands under each of its findings."""
    share = resolved.held.codes.share(edition.key)
    told = f"{share.memory} of {share.all}" if share.memory else "none"
    return f"Values held of {edition.key} that are from memory: {told}."


def said(resolved: Resolved, found: Chosen, row: Row, ask: str, doubt: bool = True) -> list[str]:
    """What stands beside a verdict: doubt, whose row it is, notes, the zone, what it covers, and what is remembered."""
    standing = found.standing
    lines = [f"Doubtful: {row.doubtful}" if row.doubtful and doubt else "", row.note if doubt else "", standing.said]
    lines += [found.zone.words if found.zone is not None and not found.missing else ""]
    how = {
        "document": f"Read in {row.by}." if row.by else "As the file says.",
        "quoted": f"Quoted from {row.by}." if row.by else "As others quote it.",
        "memory": "From memory: lay it beside the book before it is relied on.",
        "practice": "Common practice, no source.",
        "derived": "",
    }[row.seen_of(ask)]
    lines += [how, remembered(resolved, standing.edition)]
    return [line for line in lines if line]


def rounded(value: float, unit: str) -> float:
    """To the places that count for this unit."""
    return round(value, _places(unit))


def proposed_step(symbol: str, formula: str, numbers: str, value: float, unit: str, system: str) -> Step:
    """What is proposed, as a step."""
    return Step(symbol, formula, numbers, say.both(value, unit, "US" if system == "US" else "SI"))


def _asked(row: Row, ask: str, found: Chosen, told: Ask, wanted: float, resolved: Resolved) -> Step:
    typed = row.asks[ask].typed if ask in row.asks else ""
    numbers = ", ".join(filter(None, (typed, row.line, row.route if row.route not in ROUTES else "")))
    return Step(
        "asked" if row.route in ROUTES else "asked where it holds",
        f"{told.sense}, {found.standing.clause(row)}",
        numbers,
        say.both(wanted, told.unit, resolved.system),
    )


def _places(unit: str) -> int:
    return FIGURES.get(unit, 6)


def _zone_basis(found: Chosen) -> tuple[Basis, ...]:
    return found.zone.basis if found.zone is not None else ()


def _zone_rests(found: Chosen) -> tuple[str, ...]:
    return found.zone.rests_on if found.zone is not None else ()


def _words(lines: Iterable[str]) -> str:
    return " ".join(line for line in lines if line)
