"""The floor seen from above with its edges, and what to know of what stands in it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ..brief.model import Brief
from ..brief.plans import floor_of
from ..brief.sides import stretches_of_edges
from ..measure import System, say
from .resolved import KeyPlan, PlanEdge

IN_THE_FLOOR = (
    "{} in the floor: counted as floor. What a column or a pit leads through the foam is not answered; "
    "wrap it or part it from the slab, and seal the vapour retarder to it."
)


def key_plan(brief: Brief, letters: Sequence[str]) -> KeyPlan:
    """Outline, holes, what stands in the floor, and which edge has which stretch; ``letters`` are the edges'."""
    stretches = stretches_of_edges(brief)
    edges = (
        PlanEdge(named, edge.kind, _beside(edge.beside), taken)
        for named, edge, taken in zip(letters, brief.edge, stretches, strict=True)
    )
    return KeyPlan(floor_of(brief.plan), tuple(edges))


def _beside(typed: object) -> str:
    return typed if isinstance(typed, str) else "next door"


def plan_notes(plan: KeyPlan) -> tuple[str, ...]:
    """What to know of columns, pipes and the like."""
    counted = Counter(obstacle.kind for obstacle in plan.floor.obstacles)
    if not counted:
        return ()
    words = [f"{many} {kind}{'s' if many > 1 else ''}" for kind, many in counted.items()]
    said = f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
    return (IN_THE_FLOOR.format(said),)


def area_words(plan: KeyPlan, system: System) -> str:
    """Area of the floor, and of the holes that are taken off it."""
    floor = say.both(plan.floor.area, "m²", system)
    holes = len(plan.floor.holes)
    if not holes:
        return floor
    off = say.both(sum(hole.area for hole in plan.floor.holes), "m²", system)
    return f"{floor} without {'a hole' if holes == 1 else f'{holes} holes'} of {off}"
