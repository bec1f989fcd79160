"""The order in which findings are read: worst first."""

from __future__ import annotations

from collections.abc import Iterable

from ..checks.ground import freezing
from ..drawings.margin import pointer
from ..findings import Finding

ORDER = ("falls short", "cannot tell", "tight", "meets", "not required, advised", "freezes", "stated", "does not apply")
TIGHT = 0.1  # of the margin rule from its notch: so near that the eye hardly parts them


def is_tight(finding: Finding) -> bool:
    """Whether a finding that meets stands so near its limit that it is worth a second look.

    Within a tenth of its margin rule from the notch, or within its own numerical error. What is counted is never
    tight: no reason against a board is none.

    Examples
    --------
    >>> is_tight(Finding("heat.floor-coldest", "Coldest floor", 15.3, "degC", limit=15.0, sense="at least"))
    True
    >>> is_tight(Finding("product.belongs", "Reasons against a board", 0.0, "count", limit=0.0, sense="at most"))
    False
    """
    at = pointer(finding)
    if finding.verdict != "meets" or finding.unit == "count" or finding.margin is None or at is None:
        return False
    return at <= TIGHT or finding.margin <= (finding.within or 0.0)


def worst_first(findings: Iterable[Finding]) -> list[Finding]:
    """Falls short, cannot tell, tight, meets, advised, frozen ground, stated, does not apply; else as they came."""
    return sorted(findings, key=lambda f: ORDER.index(_rank(f)))


def _rank(finding: Finding) -> str:
    if finding.verdict == "stated" and freezing([finding]):
        return "freezes"
    return "tight" if is_tight(finding) else finding.verdict
