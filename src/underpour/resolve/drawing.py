"""What to know of the drawing from which a plan was read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..brief.drawing import drawing_of, names_of_layers
from ..brief.model import Brief
from ..measure import System
from ..outlines.floor import Stretch
from ..plan_file import Drawn, taken
from .resolved import KeyPlan

AS_TYPED = 1e-6  # m; a stretch came to the plan in the figures of the brief's unit


def drawing_notes(brief: Brief, plan: KeyPlan, system: System) -> tuple[str, ...]:
    """What was taken from the drawing; and lines on an edge's layer that the brief's edges do not follow."""
    drawn = drawing_of(brief.plan)
    if drawn is None:
        return ()
    return (*taken(drawn, system), *_otherwise(brief, plan, drawn))


def _otherwise(brief: Brief, plan: KeyPlan, drawn: Drawn) -> Iterator[str]:
    holes_before = len(brief.plan.hole) - len(drawn.floor.holes)
    layers = {
        layer: edge
        for n, (typed, edge) in enumerate(zip(brief.edge, plan.edges, strict=True))
        for layer in names_of_layers(n, typed.name)
    }
    for layer, stretches in drawn.edges:
        edge = layers.get(layer)
        if edge is None:
            yield f"The brief has no edge for layer {layer}; its lines were not used."
        elif not _alike(edge.stretches, [_of_plan(each, holes_before) for each in stretches]):
            yield f"Edge {edge.letter} has other sides in the brief than the lines of layer {layer}; the brief's count."


def _of_plan(stretch: Stretch, holes_before: int) -> Stretch:
    """The stretch as the plan counts holes: those typed in the brief come first."""
    return replace(stretch, ring=stretch.ring + holes_before) if stretch.ring else stretch


def _alike(own: tuple[Stretch, ...], drawn: list[Stretch]) -> bool:
    def key(each: Stretch) -> tuple[int, int, float, float]:
        return each.ring, each.side, round(each.start / AS_TYPED), round(each.end / AS_TYPED)

    ours, theirs = sorted(map(key, own)), sorted(map(key, drawn))
    return len(ours) == len(theirs) and all(
        a[:2] == b[:2] and abs(a[2] - b[2]) <= 1 and abs(a[3] - b[3]) <= 1 for a, b in zip(ours, theirs, strict=True)
    )
