"""The first sheet: who hands what to whom, where it departs from what was asked, what somebody accepted."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from ..drawings.when import MONTHS
from ..measure import say
from .instance import instance_and_month

if TYPE_CHECKING:
    from ..dossier import Dossier
    from ..findings import Accepted, Finding
    from ..measure.table import System


def transmittal(dossier: Dossier, system: System, day: str) -> dict[str, Any]:
    """The rows of the first sheet, then its lists; a row that nobody typed is left out."""
    given = dossier.handover
    rows = [
        ("To", list(given.to)),
        ("From", [given.from_]),
        ("Prepared by", [given.prepared_by]),
        ("Number", [given.number]),
        ("Revision", [given.revision or "first issue"]),
        ("Day", [day]),
    ]
    named = {"references": given.references, "deviations": given.deviations}
    return {
        "rows": [{"name": name, "lines": lines} for name, lines in rows if any(lines)],
        **{name: None if lines is None else list(lines) for name, lines in named.items()},
        "accepted": [_accepted(f, system) for f in dossier.as_briefed.findings if f.accepted is not None],
    }


def number_words(dossier: Dossier) -> str:
    """ "26-0412, revision B", as it stands in the strip of every sheet; "" where nothing was typed."""
    given = dossier.handover
    return ", ".join(filter(None, (given.number, f"revision {given.revision}" if given.revision else "")))


def accepted_words(accepted: Accepted) -> str:
    """Who took it upon himself, when and why.

    Examples
    --------
    >>> from underpour.findings import Accepted
    >>> accepted_words(Accepted("Storage only.", "A. Owner", "2026-11-25"))
    'Accepted by A. Owner on 25 November 2026: Storage only.'
    """
    return f"Accepted by {accepted.name} on {day_words(accepted.date)}: {accepted.reason}"


def day_words(day: str) -> str:
    """A day as it is said: "25 November 2026"."""
    when = date.fromisoformat(day)
    return f"{when.day} {MONTHS[when.month - 1]} {when.year}"


def _accepted(finding: Finding, system: System) -> dict[str, str]:
    assert finding.accepted is not None and finding.value is not None and finding.limit is not None
    value, limit = (say.both(x, finding.unit, system) for x in (finding.value, finding.limit))
    return {
        "title": ", ".join(filter(None, (finding.title, instance_and_month(finding, system)))),
        "numbers": f"{value}, {finding.sense} {limit}",
        "words": accepted_words(finding.accepted),
    }
