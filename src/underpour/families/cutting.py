"""What varies in an edge, and the section of one case of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import isfinite
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..checks.solved import ROOM
from ..cut import Posed, posed
from ..mistakes import Mistake
from ..physics.conduction.assemble import FACINGS
from ..physics.conduction.shapes import Facing
from ..physics.conduction.solve import Climate
from ..physics.reduced.family import Airs
from ..resolve import Resolved, ResolvedEdge
from ..resolve.resolved import Ledge, Slice
from ..sections.parts import Air, Part

Array = NDArray[np.float64]
UNITS = {"thickness": "m", "conductivity": "W/(m·K)"}


@dataclass(frozen=True, slots=True)
class Vary:
    """One thing of an edge's section that varies, and between which ends. [m or W/(m·K)]"""

    what: Literal["thickness", "conductivity"]
    path: str  # of the layer or the piece of foam, as its part of the section has it: "floor.build-up.2.board"
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Cutting:
    """Bodies and spaces of an edge for values of what varies; no closure, so that a family can be handed on."""

    resolved: Resolved
    edge: ResolvedEdge
    varying: tuple[Vary, ...]

    def __call__(self, values: Array) -> tuple[Sequence[Part], Sequence[Air]]:
        made = self.posed(values)
        return made.section.parts, made.spaces

    def posed(self, values: Array) -> Posed:
        """The section of one case. Raises Mistake where it cannot be built."""
        return posed(*self.changed(values))

    def changed(self, values: Array) -> tuple[Resolved, ResolvedEdge]:
        """Brief and edge of one case."""
        resolved, edge = self.resolved, self.edge
        for each, value in zip(self.varying, values, strict=True):

            def put(layer: Slice, each: Vary = each, value: float = float(value)) -> Slice:
                if layer.path != each.path:
                    return layer
                if each.what == "thickness":
                    return replace(layer, thickness=value)
                return replace(layer, conductivity=value)

            resolved = replace(
                resolved,
                floor=tuple(put(layer) for layer in resolved.floor),
                strata=tuple(replace(stratum, slice=put(stratum.slice)) for stratum in resolved.strata),
            )
            edge = replace(
                edge,
                wall=tuple(put(leaf) for leaf in edge.wall),
                above=tuple(put(leaf) for leaf in edge.above),
                footing_slice=put(edge.footing_slice),
                pieces=tuple(replace(piece, board=put(piece.board)) for piece in edge.pieces),
                drawn=tuple(replace(body, slice=put(body.slice)) for body in edge.drawn),
            )
            if edge.ledge:
                brick, air, in_step = (put(layer) for layer in _of_ledge(edge.ledge))
                edge = replace(edge, ledge=replace(edge.ledge, brick=brick, air=air, air_in_step=in_step))
        return resolved, edge

    def case_of(self, resolved: Resolved, edge: ResolvedEdge) -> Array | None:
        """What varies, as another brief has it; None where it has not each of them."""
        there = {layer.path: layer for layer in _slices(resolved, edge)}
        if any(each.path not in there for each in self.varying):
            return None
        return np.array([getattr(there[each.path], each.what) for each in self.varying])


def _slices(resolved: Resolved, edge: ResolvedEdge) -> Iterator[Slice]:
    yield from resolved.floor
    yield from (stratum.slice for stratum in resolved.strata)
    yield from (*edge.wall, *edge.above, edge.footing_slice)
    yield from (piece.board for piece in edge.pieces)
    yield from (body.slice for body in edge.drawn)
    if edge.ledge:
        yield from _of_ledge(edge.ledge)


def _of_ledge(ledge: Ledge) -> tuple[Slice, Slice, Slice]:
    return ledge.brick, ledge.air, ledge.air_in_step


def refuse_ends(varying: Sequence[Vary]) -> None:
    """Ends between which nothing can vary. Raises Mistake at the path."""
    for n, each in enumerate(varying):
        typed = f"{each.low:g} to {each.high:g}"
        if not (isfinite(each.low) and isfinite(each.high)):
            raise Mistake(each.path, typed, "An end is no number.", f"Give both ends in {UNITS[each.what]}.")
        if each.low > each.high:
            turned = f"{each.high:g} to {each.low:g}"
            raise Mistake(each.path, typed, "The ends are the wrong way round.", f"Lower end first: {turned}.")
        if each.low < 0.0 or (each.what == "conductivity" and each.low == 0.0):
            least = "at nought" if each.what == "thickness" else "above nought"
            raise Mistake(each.path, typed, f"There is no such {each.what}.", f"Begin {least}.")
        if any((each.what, each.path) == (other.what, other.path) for other in varying[:n]):
            raise Mistake(each.path, typed, f"Its {each.what} varies twice.", "Give both ends once.")


def lengths_first(varying: Sequence[Vary]) -> list[int]:
    """Thicknesses first, then conductivities, as a family has them."""
    return sorted(range(len(varying)), key=lambda n: (varying[n].what != "thickness", n))


def airs_of(at: Posed) -> tuple[Airs, tuple[Climate, ...]]:
    """Loads: the room, its floor alone, other airs of one climate each, last the one that most faces feel."""
    groups: dict[Climate, set[tuple[int, Facing]]] = {}
    for space, air in enumerate(at.spaces):
        for facing in FACINGS:
            felt = replace(at.climates[air.where].of(facing), level=None)
            groups.setdefault(felt if space != ROOM else Climate(float("nan")), set()).add((space, facing))
    room = at.climates[at.spaces[ROOM].where]
    others = [(climate, frozenset(faces)) for climate, faces in groups.items() if not np.isnan(climate.mean)]
    others.sort(key=lambda each: len(each[1]))
    whole = frozenset((ROOM, facing) for facing in FACINGS)
    return (
        (whole, frozenset({(ROOM, FACINGS[0])}), *(faces for _, faces in others)),
        (room, Climate(0.0), *(climate for climate, _ in others)),
    )
