"""The parts of a finding as words: where it holds, its value against its limit, what it stands on."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterable

from ..findings import Basis, Finding
from ..measure.table import System

SEEN = {
    "document": "read in the document",
    "quoted": "quoted at second hand",
    "memory": "from memory",
    "practice": "common practice",
    "derived": "derived",
}


def last_words(findings: Iterable[Finding]) -> list[str]:
    """The count, and before it where frost gets below the slab: nobody may hear "nothing falls short" alone there."""
    from ..papers.counted import counted_aloud, frost_aloud

    findings = list(findings)
    return [*filter(None, [frost_aloud(findings)]), counted_aloud(findings)]


def named(finding: Finding, system: System) -> str:
    """Title and instance: "Coldest floor surface, edge A, film for heat loss"."""
    from ..papers import instance

    return instance.named(finding, system)


def against_limit(finding: Finding, system: System) -> str:
    """Value, month and limit in both systems; empty where there is no value. The margin stands on its rule."""
    from ..measure import say

    if finding.value is None:
        return ""
    said = say.both(finding.value, finding.unit, system)
    if finding.month is not None:
        said += f" in {month_name[finding.month]}"
    if finding.limit is None:
        return said
    return f"{said}; {finding.sense} {say.both(finding.limit, finding.unit, system)}"


def doubt(finding: Finding) -> str:
    """The estimated numerical error, in the unit of the steps: "0.02 K"; empty where there is none."""
    from ..measure import say

    return say.within(finding.within, finding.unit, "SI") if finding.within else ""


def measured(value: float | str | None, unit: str, system: System) -> str:
    """A number of any unit, in both systems where the unit is one that findings are printed in."""
    from ..papers import measured as words

    return words.measured(value, unit, system)


def stands_on(basis: Basis) -> str:
    """Source, clause and how it was seen: "ISO 13788:2012, 5.3 (from memory)"."""
    return ", ".join(filter(None, (basis.source, basis.clause))) + f" ({SEEN[basis.seen]})"
