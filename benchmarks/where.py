"""Where the time of one whole solve goes, by the part of the code that spends it."""

from __future__ import annotations

import cProfile
import pstats
from pathlib import Path

from .posed import Case

PARTS = {
    "grid.py": "laying the grid",
    "lines.py": "laying the grid",
    "assemble.py": "setting up equations",
    "elements.py": "setting up equations",
    "condensed.py": "insides of cells condensed",
    "solve.py": "setting up equations",
}
FACTORISING, SOLVING, SPARSE, REST = "factorising", "solving with factors", "sparse matrices put together", "the rest"
TURNS = 3


def shares(case: Case, tolerance: float = 1e-3) -> dict[str, float]:
    """Share of each part. What a library's function takes counts for the part that calls it. [1]"""
    case.solved(tolerance)
    watch = cProfile.Profile()
    watch.enable()
    for _ in range(TURNS):
        case.solved(tolerance)
    watch.disable()
    found = dict.fromkeys([*dict.fromkeys(PARTS.values()), FACTORISING, SOLVING, SPARSE, REST], 0.0)
    stats = pstats.Stats(watch).stats  # type: ignore[attr-defined]
    for (file, _, name), (_, _, own, _, callers) in stats.items():
        part = part_of(file, name)
        if part:
            found[part] += own
            continue
        given = sum(each[2] for each in callers.values())
        for (caller, _, by), each in callers.items():
            found[part_of(caller, by) or REST] += own * each[2] / given if given > 0.0 else 0.0
        if not callers or given == 0.0:
            found[REST] += own
    total = sum(found.values())
    return {part: taken / total for part, taken in found.items()}


def part_of(file: str, name: str) -> str | None:
    """The part that a function belongs to; None for numpy and what else serves them all."""
    path = Path(file)
    if "gstrf" in name:
        return FACTORISING
    if "'solve' of 'SuperLU'" in name or name.endswith("SuperLU' objects>"):
        return SOLVING
    if "sparse" in path.parts:
        return SPARSE
    return PARTS.get(path.name) if "conduction" in path.parts else None
