"""Stages of a building: in their order, each once, and of a building at all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from .. import catalogue
from ..mistakes import Mistake
from .model import Project
from .tables.stage import Stage, What

WORKS: tuple[What, ...] = ("poured", "roofed", "heated")  # in their order
LONGEST = 0.75  # of a year between two of them: more is the other way round


def unclear_stages(stages: Sequence[Stage | None], project: Project | None) -> Iterator[Mistake]:
    """Stages that are told twice, that lie out of order, or that a slab outdoors does not have."""
    known = [(n, stage) for n, stage in enumerate(stages, start=1) if stage is not None]
    if known and project is not None and _outdoors(project):
        wrong = "A slab outdoors has no room that is roofed, heated or left cold."
        yield Mistake("stage.1", "", wrong, "Take the stages out: such a slab is taken through the whole winter.")
        return
    for place, (n, stage) in enumerate(known):
        if any(stage.what == earlier.what for _, earlier in known[:place]):
            yield Mistake(f"stage.{n}.what", f'"{stage.what}"', f"{stage.what} is told twice.", "Keep one of the two.")
            return
    works = sorted(((WORKS.index(s.what), n, s) for n, s in known if s.what in WORKS), key=lambda each: each[0])
    for (_, _, before), (_, n, after) in pairwise(works):
        if (after.from_.fraction - before.from_.fraction) % 1.0 > LONGEST or after.from_ == before.from_:
            wrong = (
                f"{after.what.capitalize()} from {after.from_.typed} lies before {before.what} from "
                f"{before.from_.typed}: a slab is poured, then roofed, then heated."
            )
            yield Mistake(f"stage.{n}.from", f'"{after.from_.typed}"', wrong, "Write a later day, or swap the two.")


def _outdoors(project: Project) -> bool:
    try:
        return catalogue.use(project.use).room is None
    except Mistake:
        return False
