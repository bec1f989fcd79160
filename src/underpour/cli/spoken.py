"""The parts of a finding as words: where it holds, its value against its limit, what it stands on."""

from __future__ import annotations

from calendar import month_name
from collections import Counter
from collections.abc import Iterable

from ..findings import Basis, Finding, Verdict
from ..measure.table import System

SEEN = {
    "document": "read in the document",
    "quoted": "quoted at second hand",
    "memory": "from memory",
    "practice": "common practice",
    "derived": "derived",
}
COUNTED: tuple[tuple[Verdict, str, str], ...] = (
    ("falls short", "falls short", "fall short"),
    ("cannot tell", "cannot tell", "cannot tell"),
    ("not required, advised", "advised", "advised"),
    ("meets", "meets", "meet"),
    ("stated", "stated", "stated"),
    ("does not apply", "does not apply", "do not apply"),
)


def counted_aloud(findings: Iterable[Finding]) -> str:
    """How many findings fall short, cannot tell, meet, the last line of an answer.

    Examples
    --------
    >>> counted_aloud([Finding("heat.loss-mean", "Mean loss", 41.0, "W")])
    'Nothing falls short, 1 stated.'
    """
    findings = list(findings)
    count = Counter(finding.verdict for finding in findings)
    taken = sum(finding.accepted is not None for finding in findings)
    parts = [
        f"{count[verdict]} {one if count[verdict] == 1 else many}" for verdict, one, many in COUNTED if count[verdict]
    ]
    if taken:
        parts[0] += f" ({taken} accepted)"
    return ", ".join([*([] if count["falls short"] else ["Nothing falls short"]), *parts]) + "."


def last_words(findings: Iterable[Finding]) -> list[str]:
    """The count, and before it where frost gets below the slab: nobody may hear "nothing falls short" alone there."""
    findings = list(findings)
    return [*filter(None, [frost_aloud(findings)]), counted_aloud(findings)]


def frost_aloud(findings: Iterable[Finding]) -> str:
    """Where the ground freezes under the slab, in a sentence; empty where it does not."""
    from ..checks.ground import freezing

    places = freezing(findings)
    if not places:
        return ""
    where = " and ".join(filter(None, (", ".join(places[:-1]), places[-1])))
    return f"The ground freezes under {where}; no limit is held against that here."


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
