"""The answers, worst first, each with its margin rule, and opened with its steps, its sources and what it rests on."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Any

from ...drawings.margin import margin_words, pointer
from ...drawings.when import MONTHS
from ...findings import Finding
from ...measure import say
from ...papers.instance import instance_and_month
from ...papers.known import SEEN, basis_words, runs
from ...papers.order import is_tight, worst_first
from ..live.told import Name
from .entry import entry
from .fields import Places

FRONT = ("falls short", "cannot tell")  # always in sight; what meets is opened, but for what meets narrowly


def verdicts(
    findings: Iterable[Finding], places: Places, unsure: Collection[Name], *, whole: bool
) -> list[dict[str, Any]]:
    """One line each. In a first answer nothing is told that is not worked out anew: the page keeps what it has."""
    return [_line(finding, places, unsure, whole=whole) for finding in worst_first(findings)]


def key(finding: Finding) -> str:
    """What tells one finding from all others, as a word."""
    return "|".join([finding.id, *(f"{name}={finding.at[name]}" for name in sorted(finding.at))])


def _line(finding: Finding, places: Places, unsure: Collection[Name], *, whole: bool) -> dict[str, Any]:
    system = places.resolved.system
    told = whole or finding.within == 0.0
    line: dict[str, Any] = {
        "key": key(finding),
        "verdict": finding.verdict,
        "front": finding.verdict in FRONT or is_tight(finding),
        "tight": is_tight(finding),
        "title": finding.title,
        "where": instance_and_month(finding, system),
        "month": finding.month or 0,
        "when": MONTHS[finding.month - 1] if finding.month else "",
        "edge": str(finding.at.get("edge", "")),
        "value": "" if finding.value is None else say.both(finding.value, finding.unit, system),
        "limit": "" if finding.limit is None else f"{finding.sense} {say.both(finding.limit, finding.unit, system)}",
        "margin": "" if finding.missing else margin_words(finding, system),
        "pointer": pointer(finding),
        "missing": finding.missing,
        "entry": entry(places, finding.missing) if finding.missing else None,
        "unsure": (finding.id, tuple(sorted(finding.at.items()))) in unsure,
        "words": finding.words if told else None,
        "caution": finding.caution,
        "accepted": finding.accepted.words if finding.accepted else "",
    }
    if whole:
        line |= {
            "within": f"within {say.within(finding.within, finding.unit, system)}" if finding.within else "",
            "steps": [
                {name: runs(getattr(step, name)) for name in ("symbol", "formula", "numbers", "result")}
                for step in finding.steps
            ],
            "basis": [
                {"source": basis_words(each), "seen": SEEN[each.seen], "doubtful": each.doubtful}
                for each in dict.fromkeys(finding.basis)
            ],
            "rests": list(dict.fromkeys(finding.rests_on)),
        }
    return line
