"""How far a layer reaches: out below the wall of a raft or a door, in to the slope of a thickened edge."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

from ..outlines.moved import moved
from ..resolve import KeyPlan, Resolved, Slice
from ..sections.levels import Levels, levels

ENOUGH = 1e-6  # m


def reach(resolved: Resolved, layer: Slice) -> dict[str, float]:
    """Where a layer begins at each edge, in from the outline, out of it below nought; no edge where it ends there.

    Arguments
    ---------
    resolved
        The brief in numbers.
    layer
        One layer of its floor.
    """
    top = -sum(each.thickness for each in resolved.floor[: resolved.floor.index(layer)])
    at = {edge.letter: levels(resolved, edge) for edge in resolved.edges}
    found = {letter: here.reaches(top, top - layer.thickness) for letter, here in at.items()}
    return {letter: x for letter, x in found.items() if abs(x) > ENOUGH}


def down_the_slope(resolved: Resolved) -> float:
    """How much more film the steepest thickened edge takes than its plan shows; nought where there is none. [m]

    Arguments
    ---------
    resolved
        The brief in numbers.
    """
    slopes = [here for edge in resolved.edges if (here := levels(resolved, edge)).slope is not None]
    return max((_longer(here) for here in slopes), default=0.0)


def _longer(here: Levels) -> float:
    assert here.slope is not None
    run = here.slope.top - here.slope.foot
    return hypot(run, here.slab_bottom - here.footing_bottom) - run


def extent(resolved: Resolved, layer: Slice) -> KeyPlan:
    """The plan that a layer covers, with each edge where the layer ends; the floor's own where nothing moves.

    Arguments
    ---------
    resolved
        The brief in numbers.
    layer
        One layer of its floor.
    """
    plan, x = resolved.plan, reach(resolved, layer)
    if not x:
        return plan
    stretches = [(stretch, x.get(edge.letter, 0.0)) for edge in plan.edges for stretch in edge.stretches]
    made = moved(plan.floor, stretches)
    if made is None:
        return plan
    following = iter(made.stretches)
    edges = [
        replace(edge, stretches=tuple(each for _ in edge.stretches for each in next(following))) for edge in plan.edges
    ]
    return replace(plan, floor=made.floor, edges=tuple(edges))
