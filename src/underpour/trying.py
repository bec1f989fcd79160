"""A brief answered with something changed in it: quickly where that is sure, wholly where it is not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from .answer import findings, priced, solved_brief
from .brief import Reading
from .brief.alternatives import AS_BRIEFED
from .brief.model import Brief
from .checks import bearing
from .checks.frozen import Wintered
from .checks.solved import SolvedEdge
from .cut import settled_edges, sketched_edges, solved_edges
from .findings import Finding
from .resolve import Resolved
from .wintering import moved_winters, winters

Named = Mapping[tuple[str, tuple[tuple[str, str | float], ...]], Finding]

# A verdict reached by differences on the first grid is sure where its margin is at least this many times the error of
# the number as taken. Tried on floors with everything left open, such a number differs from the one solved wholly by at
# most 4.3 times that error; tests/exact/test_ask.py holds it to half of this.
SURE = 10.0
OF_THE_SLAB = "bearing."  # what loads do: on cells of the slab's own, the same whatever grid the edges have
OF_FROST = "frost."  # what winters do: on cells of their own, moved and doubted by themselves


@dataclass(frozen=True)
class Taken:
    """The brief as briefed, answered; and what the first grid alone says of it."""

    brief: Brief
    resolved: Resolved
    edges: tuple[SolvedEdge, ...]
    findings: Named
    sketched: tuple[SolvedEdge, ...]
    on_first_grid: Named
    wintered: tuple[Wintered, ...]
    wintered_roughly: tuple[Wintered, ...]
    priced: tuple[Finding, ...] = ()  # money and carbon: what they lack is asked for, and no end of an input moves them


def as_taken(reading: Reading) -> Taken:
    """The brief as briefed. Raises Mistakes with file and line."""
    return taken(reading, *solved_brief(reading, AS_BRIEFED, reading.brief))


def taken(reading: Reading, resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Taken:
    """The brief as briefed, for one who has solved it already: only the first grid is still to come."""
    sketched = sketched_edges(resolved)
    finely, roughly = winters(resolved, edges), winters(resolved, sketched)
    loads = tuple(bearing.of_loads(resolved))  # the same on whatever grid the edges have
    return Taken(
        reading.brief,
        resolved,
        edges,
        named(findings(resolved, edges, finely, loads)),
        sketched,
        named(findings(resolved, sketched, roughly, loads)),
        finely,
        roughly,
        tuple(priced(resolved, edges)[1]),
    )


def with_change(taken: Taken, resolved: Resolved) -> Named:
    """The findings of the changed brief.

    The first grid tells how far each number moves from the one as taken; what it leaves just as it was stays. Where
    a verdict is then in doubt, all is solved as finely as an answer is. A section that does not change is not solved
    again. What the first grid does not tell at all, a first winter or an hour's peak, is left out where it is stated
    only, and is solved wholly where a verdict hangs on it. Frost has cells of its own and goes the same way: moved by
    what coarse ones say, and stepped on fine ones at those edges and in those stages that are in doubt then.

    Raises
    ------
    Mistake
        A section of the changed brief cannot be built.
    """
    sketched = sketched_edges(resolved, taken.sketched)
    through, loads = _winters(taken, resolved, sketched), tuple(bearing.of_loads(resolved))
    on_first_grid = named(findings(resolved, sketched, through, loads))
    moved = moved_by_first_grid(taken.findings, taken.on_first_grid, on_first_grid, (OF_THE_SLAB, OF_FROST))
    unseen = [each for name, each in taken.findings.items() if name not in taken.on_first_grid]
    if any(each.verdict != "stated" for each in unseen):
        return named(findings(resolved, solved_edges(resolved, taken.edges), through, loads))
    solved = (name for name in moved if not name[0].startswith(OF_FROST))
    doubtful = (name for name in solved if not _stays(taken.on_first_grid.get(name), on_first_grid[name]))
    if all(is_sure(moved[name]) for name in doubtful):
        return moved
    return named(findings(resolved, settled_edges(resolved, taken.edges), through, loads))


def _winters(taken: Taken, resolved: Resolved, sketched: tuple[SolvedEdge, ...]) -> tuple[Wintered, ...]:
    """The winters of the changed brief, on fine cells where a verdict may hang on it."""
    roughly = winters(resolved, sketched)
    moved, doubted = moved_winters(taken.wintered, taken.wintered_roughly, roughly)
    if not doubted:
        return moved
    finely = {(each.edge, each.stage): each for each in winters(resolved, sketched, doubted)}
    return tuple(finely[at] if (at := (each.edge, each.stage)) in doubted else each for each in moved)


def named(found: Iterable[Finding]) -> Named:
    """Findings by id and instance."""
    return {(finding.id, tuple(sorted(finding.at.items()))): finding for finding in found}


def moved_by_first_grid(
    wholly: Named, on_first_grid: Named, after: Named, of_their_own: tuple[str, ...] = (OF_THE_SLAB,)
) -> Named:
    """Findings solved wholly, moved by what the first grid says of a change; what was not there has no error told.

    ``on_first_grid`` are the same findings on the first grid, ``after`` those of the changed brief on it. Kinds that
    need no solving, whose numbers have no error, are what they are on any grid, and so are those ``of_their_own``
    cells. A number that tells no error has that by which the first grid misses it as taken.
    """
    moved = {}
    unsolved = {whole.id for whole in wholly.values() if whole.within == 0.0}
    unsolved -= {whole.id for whole in wholly.values() if whole.within}  # no frost somewhere has no error either
    unsolved |= {name[0] for name in after if name[0].startswith(of_their_own)}
    for name, end in after.items():
        before, whole = on_first_grid.get(name), wholly.get(name)
        if end.id in unsolved:
            moved[name] = end
        elif before is None or whole is None or end.value is None or before.value is None or whole.value is None:
            moved[name] = replace(end, within=None)
        else:
            missed = abs(whole.value - before.value) if whole.within is None else whole.within
            moved[name] = replace(end, value=whole.value + (end.value - before.value), within=missed)
    return moved


def _stays(before: Finding | None, after: Finding) -> bool:
    """Whether a change leaves a number and its limit just as they are on the first grid: then it does on any."""
    if before is None or before.value is None:
        return False
    return (before.value, before.limit, before.verdict) == (after.value, after.limit, after.verdict)


def is_sure(finding: Finding) -> bool:
    """Whether the verdict would be the same were it solved wholly."""
    if finding.margin is None or finding.id.startswith(OF_THE_SLAB):
        return True
    return finding.within is not None and abs(finding.margin) >= SURE * finding.within
