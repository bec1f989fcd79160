"""Where the time of one mean heat goes, by the part of the code that spends it."""

from __future__ import annotations

import cProfile
import pstats
from pathlib import Path

from .posed import Case

PARTS = {
    "blocks.py": "blocks of the section",
    "mean_heat.py": "laying rows",
    "strips.py": "setting up equations",
}
MODES, LINES, REST = "modes of strips", "line after line", "the rest"
BY_NAME = {"_across": MODES, "answered": LINES}  # what LAPACK takes counts for who calls it
TURNS = 20


def shares(case: Case, tolerance: float = 1e-3) -> dict[str, float]:
    """Share of each part. What a library's function takes counts for the part that calls it. [1]"""
    case.heat(tolerance)
    watch = cProfile.Profile()
    watch.enable()
    for _ in range(TURNS):
        case.heat(tolerance)
    watch.disable()
    found = dict.fromkeys([*PARTS.values(), MODES, LINES, REST], 0.0)
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
    if "conduction" not in path.parts or path.name not in PARTS:
        return None
    return BY_NAME.get(name, PARTS[path.name])
