"""What the code asks, clause by clause: edition, clause, what it asks, what is proposed, verdict, how it was seen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..catalogue.codes import BESIDE
from ..findings import Basis, Finding
from ..measure import say
from ..measure.table import System
from .known import SEEN
from .order import worst_first

OF_CODES = "code."
WHERE_IT_HOLDS = "asked where it holds"
OPEN = ("falls short", "cannot tell")


def clauses(findings: Sequence[Finding], editions: Sequence[str], system: System) -> list[dict[str, Any]]:
    """A row for each clause that the floor is held to, edition by edition, worst first within each.

    ``editions`` are the titles of those that the brief names.
    """
    found = [f for f in findings if f.id.startswith(OF_CODES) and f.basis]
    keys = dict.fromkeys(str(f.at["edition"]) for f in found)
    return [_row(f, editions, system) for key in keys for f in worst_first(f for f in found if f.at["edition"] == key)]


def open_first(rows: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """The same rows whatever their edition: what falls short, what cannot be told, then the others."""
    return sorted(rows, key=lambda row: OPEN.index(row["verdict"]) if row["verdict"] in OPEN else len(OPEN))


def _row(f: Finding, editions: Sequence[str], system: System) -> dict[str, Any]:
    clause = f.basis[0]
    edge = f", edge {f.at['edge']}" if "edge" in f.at else ""
    return {
        "edition": str(f.at["edition"]),
        "source": clause.source,
        "clause": clause.clause,
        "about": f"{f.title}{edge}",
        "asks": _asks(f, system),
        "proposed": "" if f.value is None else say.both(f.value, f.unit, system),
        "verdict": f.verdict,
        "seen": SEEN[clause.seen],
        "unread": clause.seen == "memory",
        "doubtful": clause.doubtful,
        "short": _short(f, clause, editions, system),
    }


def _short(f: Finding, clause: Basis, editions: Sequence[str], system: System) -> dict[str, str]:
    """The same on one line, for a page that has to hold all: the brief's own system alone.

    A row of another document than the editions that are named, such as a county's, says whose it is.
    """
    asks = f"{f.sense} {say.value(f.limit, f.unit, system)}" if f.limit is not None else _asks(f, system)
    what = f.id.removeprefix(OF_CODES).replace("-", " ")
    own = clause.clause.partition(BESIDE)[0]
    of = ", ".join(str(f.at[key]) for key in ("edge", "asks") if key in f.at and str(f.at[key]) != "resistance")
    return {
        "clause": own if clause.source in editions else f"{own}, {clause.source}",
        "about": f"{what}, {of}" if of else what,
        "asks": asks,
        "proposed": "" if f.value is None else say.value(f.value, f.unit, system),
        "seen": f"{clause.seen}, doubtful" if clause.doubtful else clause.seen,
    }


def _asks(f: Finding, system: System) -> str:
    if f.limit is not None:
        return f"{f.sense} {say.both(f.limit, f.unit, system)}"
    if f.missing:
        return f"type {f.missing}"
    return (_elsewhere(f) or "nothing") if f.verdict == "not required, advised" else ""


def _elsewhere(f: Finding) -> str:
    """What a row asks that holds only where it is adopted: "4 in, where adopted"; "" where nothing is asked."""
    return next((step.numbers for step in f.steps if step.symbol == WHERE_IT_HOLDS), "")
