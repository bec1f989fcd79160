"""Cheap checks that put candidates aside before anything is solved: the checks themselves, on the part they rest on.

A floor's foam is held to what rests on the floor alone, an edge's to what rests on the edge, with and without much foam
under the floor, for some codes let that count. What cannot be told, or falls short whichever is taken, puts nothing
aside. Heat is held by what lies between solved sections, and only where it falls short by more than that may be off.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from ..checks import belonging, compatibility, height, termites
from ..checks.code import edge as code_edge
from ..checks.code import floor as code_floor
from ..checks.code import foundation
from ..checks.code import termites as code_termites
from ..checks.solved import SolvedEdge
from ..findings import Basis, Finding
from ..mistakes import Mistake
from ..resolve import Resolved
from ..sections.levels import levels
from .columns import Columns
from .heat import Heat, Name, name_of
from .records import Refusal
from .wanted import Wanted

Bools = NDArray[np.bool_]
BETWEEN = "Told between sections that were solved; it falls short by more than that may be off."
DOUBT = 2.0  # times what leaving out a node tells: measured, see docs/choosing.md


@dataclass(frozen=True)
class PutAside:
    """Which candidates one finding puts aside."""

    finding: Finding  # as it falls short with one of them
    rows: Bools
    own: Callable[[int], Finding] | None = None  # as it falls short with each; None where that is the same

    def of(self, candidate: int) -> Finding:
        """As it falls short with one candidate."""
        return self.finding if self.own is None else self.own(candidate)


def by_part(wanted: Wanted, columns: Columns, sketched: Sequence[SolvedEdge]) -> list[PutAside]:
    """What falls short by the floor's foam alone, and by the edge's."""
    bare, most = wanted.floors[0], max(wanted.floors, key=lambda each: each.r_label)
    floors = [_shorts(_of_floor(wanted.parts(floor, wanted.edges[0]))) for floor in wanted.floors]
    edges: list[dict[Name, Finding]] = []
    for edge in wanted.edges:
        short = _shorts(_of_edge(wanted.parts(bare, edge), sketched))
        also = _shorts(_of_edge(wanted.parts(most, edge), sketched)) if short else {}
        edges.append({name: finding for name, finding in short.items() if name in also})
    return [*_whose(floors, columns.floor), *_whose(edges, columns.edge)]


def by_budget(wanted: Wanted, columns: Columns) -> list[PutAside]:
    """What costs more than may be spent, by its foam alone: the rest of the floor comes on top of it."""
    money = wanted.resolved.money
    if money is None or money.budget is None:
        return []
    rows = np.asarray(columns.first > money.budget)
    if not rows.any():
        return []
    over = float(columns.first[rows].min())
    words = "The foam alone, laid, costs more than may be spent."
    basis = (Basis("the brief", "money.budget", "document"),)
    finding = Finding("money.first", "First cost", over, "money", limit=money.budget, sense="at most", basis=basis)
    told = replace(finding, words=words, rests_on=("money.budget",))
    return [PutAside(told, rows, lambda n: replace(told, value=float(columns.first[n])))]


def by_heat(columns: Columns, heat: Heat) -> list[PutAside]:
    """What falls short of a surface's limits by more than the way between solved sections may be off."""
    found = []
    for name, value in heat.values.items():
        finding = heat.of[name]
        assert finding.limit is not None
        margin = finding.limit - value if finding.sense == "at most" else value - finding.limit
        within = DOUBT * heat.within[name] + doubt_of(finding, value)
        rows = np.asarray(margin < -within)
        if rows.any() and not rows[~np.isnan(value)].all():
            worst = int(np.argmin(np.where(rows, margin, np.inf)))
            own = partial(_with_value, replace(finding, words=BETWEEN), value)
            found.append(PutAside(own(worst), rows, own))
    return found


def doubtful(columns: Columns, heat: Heat) -> Bools:
    """What seems to fall short of a surface's limit, by less than the way between solved sections may be off."""
    found = np.zeros(len(columns), bool)
    for name, value in heat.values.items():
        finding = heat.of[name]
        assert finding.limit is not None
        found |= np.asarray((finding.limit - value if finding.sense == "at most" else value - finding.limit) < 0.0)
    return found


def _with_value(finding: Finding, value: NDArray[np.float64], candidate: int) -> Finding:
    return replace(finding, value=float(value[candidate]))


def doubt_of(finding: Finding, value: NDArray[np.float64]) -> NDArray[np.float64]:
    """What the way between nodes may be off beside what nodes left out tell (docs/choosing.md)."""
    if finding.unit == "degC":
        return np.full(value.shape, 0.25)
    return np.asarray({"1": 0.015, "%": 1.5}.get(finding.unit, 0.0) + 0.02 * np.abs(value))


def _whose(shorts: Sequence[dict[Name, Finding]], option: NDArray[np.int64]) -> Iterator[PutAside]:
    """Each finding that falls short with some options of a part and not with all."""
    names = dict.fromkeys(name for each in shorts for name in each)
    for name in names:
        which = np.array([name in each for each in shorts])
        if not which.all():
            first = next(each[name] for each in shorts if name in each)
            yield PutAside(first, which[option], partial(_of_option, shorts, option, name))


def _of_option(shorts: Sequence[dict[Name, Finding]], option: NDArray[np.int64], name: Name, candidate: int) -> Finding:
    found: Finding = shorts[int(option[candidate])][name]
    return found


def _shorts(findings: Iterable[Finding]) -> dict[Name, Finding]:
    return {_kind(finding): finding for finding in findings if finding.verdict == "falls short"}


def _kind(finding: Finding) -> Name:
    """Its id and instance; which product it is told of differs from candidate to candidate."""
    id, at = name_of(finding)
    return id, tuple(each for each in at if each[0] != "product")


def _of_floor(resolved: Resolved) -> Iterator[Finding]:
    yield from height.build_up(resolved)
    yield from belonging.boards(resolved)
    yield from compatibility.foams(resolved)
    yield from termites.told(resolved)  # more foam at the edge makes no way less
    for edition in resolved.held.editions:
        yield from code_floor.under_slab(resolved, edition)
        yield from code_termites.foam(resolved, edition)


def _of_edge(resolved: Resolved, sketched: Sequence[SolvedEdge]) -> Iterator[Finding]:
    try:
        edges = [
            replace(known, edge=edge, levels=levels(resolved, edge))
            for known, edge in zip(sketched, resolved.edges, strict=True)
        ]
    except Mistake:  # this edge does not fit round so much foam: nothing is said of it here
        return
    yield from termites.told(resolved)
    for edition in resolved.held.editions:
        for each in edges:
            yield from code_edge.slab_edge(resolved, each, edition)
            yield from foundation.basement_wall(resolved, each, edition)
        yield from code_termites.foam(resolved, edition)


def refusal(finding: Finding, how: str) -> Refusal:
    """A finding that falls short, as a reason."""
    return Refusal(
        finding.id,
        dict(finding.at),
        finding.title,
        finding.words,
        finding.value,
        finding.limit,
        finding.unit,
        finding.margin,
        finding.basis[0] if finding.basis else None,
        "bound" if how == "bound" else "full answer",
        finding.sense or "",
    )
