"""What foam each load needs by each method, side by side, and what another inch of concrete buys."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from .paragraphs import columns, hung

if TYPE_CHECKING:
    from ..findings import Finding
    from ..measure.table import System

LEAST, MORE = "bearing.least-grade", "bearing.inch-more"
METHODS = {"plate": "by the plate", "spread-45": "at 45 degrees", "straight-through": "straight through"}
CELL = 20


def listed(findings: Iterable[Finding]) -> list[Finding]:
    """The findings that are told one by one; the table has the others."""
    return [finding for finding in findings if finding.id not in (LEAST, MORE)]


def foam_needed(findings: Sequence[Finding], system: System, width: int) -> Iterator[str]:
    """A row a load with the strength of the weakest foam by each method, then what is said of each load."""
    told = [finding for finding in findings if finding.id in (LEAST, MORE)]
    numbers = list(dict.fromkeys(str(finding.at["load"]) for finding in told))
    if any(finding.id == LEAST for finding in told):
        widths = [width - len(METHODS) * (CELL + 2) - 2, *[CELL] * len(METHODS)]
        rows = [["", *METHODS.values()], *([f"Load {number}", *_cells(told, number, system)] for number in numbers)]
        yield from (f"  {line}" for row in rows for line in columns(row, widths))
        yield from hung("Strength by the short test of the weakest board that carries it.", width, 2)
    for number in numbers:
        for finding in _of(told, number):
            if finding.id == MORE or finding.at.get("method") == "plate":
                yield from hung(finding.words, width, 2)
    yield from hung(f"Mind: {told[0].caution}", width, 2) if told else ()


def _cells(told: Sequence[Finding], number: str, system: System) -> Iterator[str]:
    from ..measure import say

    of = {finding.at["method"]: finding for finding in _of(told, number) if finding.id == LEAST}
    for method in METHODS:
        finding = of.get(method)
        if finding is None:
            yield ""
        else:
            yield "none" if finding.value is None else say.both(finding.value, finding.unit, system)


def _of(told: Sequence[Finding], number: str) -> list[Finding]:
    return [finding for finding in told if finding.at["load"] == number]
