"""How we know: the steps of every finding, each source said once by number, each long list of inputs said once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from ..findings import Basis, Finding
from ..measure import say
from ..measure.table import System
from .instance import instance_and_month
from .letters import path

SEEN = {
    "document": "read in the document",
    "quoted": "as quoted by another source",
    "memory": "from memory, not yet read",
    "practice": "common practice, no source",
    "derived": "derived from the equation named",
}
INDEX = re.compile(r"([^\W\d_])_(\w+)")  # a letter and its index
SHORT = 4  # paths that are said where they are rather than as a list with a name


def known(findings: Sequence[Finding], system: System) -> dict[str, Any]:
    """Blocks of steps, the sources they name by number, and the lists of inputs they name by letter."""
    told = [f for f in findings if f.steps or f.basis]
    sources, lists = _Sources(), _lists(told)
    blocks = [
        {
            "title": f.title,
            "where": instance_and_month(f, system),
            "value": "" if f.value is None else say.both(f.value, f.unit, system),
            "steps": [
                {name: runs(getattr(s, name)) for name in ("symbol", "formula", "numbers", "result")} for s in f.steps
            ],
            "sources": sources.numbers(f.basis),
            "rests": _rests(f, lists),
        }
        for f in told
    ]
    named = [{"name": name, "paths": [path(p) for p in paths]} for name, paths in lists]
    return {"blocks": blocks, "sources": sources.told(), "lists": named}


def runs(formula: str) -> list[list[str]]:
    """A formula cut into pairs of text and subscript, so that f_Rsi is set with its index lowered.

    Examples
    --------
    >>> runs("f_Rsi = 1")
    [['f', 'Rsi'], [' = 1', '']]
    """
    pairs, start, at = [], 0, formula.find("_")
    while at >= 0:  # from one low line to the next: formulas are long, and few of their letters have an index
        found = INDEX.match(formula, at - 1) if at > start else None
        if found:
            pairs += [[formula[start : at - 1], ""], [found[1], found[2]]]
            start = found.end()
        at = formula.find("_", max(start, at + 1))
    pairs.append([formula[start:], ""])
    return [pair for pair in pairs if pair[0]]


def basis_words(basis: Basis) -> str:
    """Source and clause: "ISO 13788:2012, 5.3"."""
    return f"{basis.source}, {basis.clause}" if basis.clause else basis.source


@dataclass
class _Sources:
    """Every source in the order of first use."""

    met: dict[Basis, int] = field(default_factory=dict)

    def numbers(self, basis: Sequence[Basis]) -> list[dict[str, Any]]:
        for b in basis:
            self.met.setdefault(b, len(self.met) + 1)
        return [{"number": self.met[b], "unread": b.seen == "memory"} for b in dict.fromkeys(basis)]

    def told(self) -> list[dict[str, Any]]:
        return [
            {"number": n, "source": basis_words(b), "seen": SEEN[b.seen], "unread": b.seen == "memory"}
            for b, n in self.met.items()
        ]


def _lists(findings: Sequence[Finding]) -> list[tuple[str, tuple[str, ...]]]:
    """Lists of inputs worth a name: long ones, that are not a named one and a few more. The shorter ones come first."""
    named: list[tuple[str, tuple[str, ...]]] = []
    for paths in sorted(dict.fromkeys(tuple(dict.fromkeys(f.rests_on)) for f in findings), key=len):
        if len(paths) > SHORT and len(_beyond(paths, named)[1]) > SHORT:
            named.append((_letter(len(named)), paths))
    return named


def _letter(n: int) -> str:
    return chr(ord("A") + n) if n < 26 else f"{chr(ord('A') + n // 26 - 1)}{chr(ord('A') + n % 26)}"


def _beyond(paths: Sequence[str], named: Sequence[tuple[str, tuple[str, ...]]]) -> tuple[str, list[str]]:
    """The name of the longest list that lies wholly within these paths, and which paths stand beside it."""
    within = [(name, held) for name, held in named if set(held) <= set(paths)]
    if not within:
        return "", list(paths)
    name, held = max(within, key=lambda pair: len(pair[1]))
    return name, [p for p in paths if p not in held]


def _rests(finding: Finding, named: Sequence[tuple[str, tuple[str, ...]]]) -> dict[str, Any]:
    name, more = _beyond(tuple(dict.fromkeys(finding.rests_on)), named)
    return {"list": name, "more": [path(p) for p in more]}
