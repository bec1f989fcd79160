"""The verdicts in one sentence, the same in the terminal and on every paper, and what nobody may miss beside it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from ..findings import Finding, Verdict

COUNTED: tuple[tuple[Verdict, str, str], ...] = (
    ("falls short", "falls short", "fall short"),
    ("cannot tell", "cannot tell", "cannot tell"),
    ("meets", "meets", "meet"),
    ("not required, advised", "is advised", "are advised"),
    ("stated", "is given without a limit", "are given without a limit"),
    ("does not apply", "does not apply", "do not apply"),
)


def counted_aloud(findings: Iterable[Finding]) -> str:
    """How many findings fall short, cannot tell, meet; first of all whether any falls short.

    Examples
    --------
    >>> counted_aloud([Finding("heat.loss-mean", "Mean loss", 41.0, "W")])
    'Nothing falls short: 1 is given without a limit.'
    """
    findings = list(findings)
    if not findings:
        return "Nothing was checked."
    count = Counter(finding.verdict for finding in findings)
    taken = sum(finding.accepted is not None for finding in findings)
    parts = [
        f"{count[verdict]} {one if count[verdict] == 1 else many}" for verdict, one, many in COUNTED if count[verdict]
    ]
    if taken:
        parts[0] += f" ({taken} accepted)"
    return f"{'' if count['falls short'] else 'Nothing falls short: '}{', '.join(parts)}."


def frost_aloud(findings: Iterable[Finding]) -> str:
    """Where the ground freezes under the slab, in a sentence; empty where it does not."""
    from ..checks.ground import freezing

    places = freezing(findings)
    return f"The ground freezes under {in_a_row(places)}; no limit is held against that here." if places else ""


def in_a_row(words: Sequence[str]) -> str:
    """Words as a sentence lists them.

    Examples
    --------
    >>> in_a_row(["drying", "frost", "code"])
    'drying, frost and code'
    """
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))
