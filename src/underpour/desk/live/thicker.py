"""A layer that is drawn thicker and thinner: its edges are made ready as families, and each size is told at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from ...catalogue.thickness import made_in
from ...checks.solved import SolvedEdge
from ...cut import Posed, alike, posed
from ...families import EdgeFamily, Vary, family_of
from ...mistakes import Mistake
from ...physics.domain import OutOfDomain
from ...resolve import Resolved, ResolvedEdge
from ...resolve.resolved import Slice

KEPT = 12  # families, some 2.5 MB each
THIN, THICK = 0.4, 2.5  # of the present thickness: as far as a line is usually drawn
Told = Mapping[str, tuple[EdgeFamily, SolvedEdge]]  # by the edge's letter: its family, and the edge as that has it


@dataclass(frozen=True)
class Drawn:
    """One edge of a brief in numbers, and the layer whose lower line may be drawn."""

    resolved: Resolved
    edge: ResolvedEdge
    vary: Vary


def family(drawn: Drawn) -> EdgeFamily | None:
    """The edge made ready: some seconds. None where no section can be built between the ends."""
    try:
        return family_of(drawn.resolved, drawn.edge, [drawn.vary])
    except (Mistake, OutOfDomain):
        return None


def drawn_at(resolved: Resolved, path: str) -> Iterator[Drawn]:
    """Each edge that has the layer whose thickness is typed at a path; of those that are cut alike one."""
    known: list[Posed] = []
    for edge in resolved.edges:
        layer = next((each for each in _layers(resolved, edge) if _typed_at(each) == path), None)
        if layer is None or layer.thickness <= 0.0:
            continue
        try:
            at = posed(resolved, edge)
        except Mistake:
            continue
        if at.section.outdoors or at.section.water_level is not None or any(alike(at, other) for other in known):
            continue
        known.append(at)
        low, high = _ends(layer, resolved)
        if low < high and any(part.path == layer.path for part in at.section.parts):
            yield Drawn(resolved, edge, Vary("thickness", layer.path, low, high))


class Families:
    """Those that are ready, the newest first, and what they tell. Of one thread."""

    def __init__(self) -> None:
        self._held: list[EdgeFamily] = []

    def keep(self, made: EdgeFamily) -> None:
        """One more."""
        self._held = [made, *self._held][:KEPT]

    def wanted(self, resolved: Resolved, path: str) -> list[Drawn]:
        """The edges that a family is still to be made of, so that the layer at a path can be drawn."""
        return [drawn for drawn in drawn_at(resolved, path) if not any(_is_of(each, drawn) for each in self._held)]

    def told(self, resolved: Resolved) -> Told:
        """Every edge of a brief that a family is certain of."""
        told = {}
        for edge in resolved.edges:
            for each in self._held:
                sketch = each.sketched(resolved, edge)
                if sketch is not None:
                    told[edge.letter] = each, sketch
                    break
        return told


def as_before(told: Told, resolved: Resolved) -> dict[str, SolvedEdge]:
    """Edges of another brief as the same families have them; those that are none of their cases are left out."""
    sketches = {}
    for edge in resolved.edges:
        held = told.get(edge.letter)
        sketch = held[0].sketched(resolved, edge) if held else None
        if sketch is not None:
            sketches[edge.letter] = sketch
    return sketches


def _is_of(made: EdgeFamily, drawn: Drawn) -> bool:
    """Whether an edge is a case of the family, or would be one if no lines of its section met there."""
    (vary,) = made.varying
    case = made.cutting.case_of(drawn.resolved, drawn.edge)
    if vary.path != drawn.vary.path or case is None or not vary.low <= case[0] <= vary.high:
        return False
    return alike(posed(drawn.resolved, drawn.edge), made.cutting.posed(case))


def _layers(resolved: Resolved, edge: ResolvedEdge) -> Sequence[Slice]:
    return *resolved.floor, *(piece.board for piece in edge.pieces)


def _typed_at(layer: Slice) -> str:
    """Where its thickness is typed: floor.build-up.1.concrete, edge.A.insulation.1.thickness."""
    return f"{layer.path.rpartition('.')[0]}.{'thickness' if layer.kind == 'board' else layer.kind}"


def _ends(layer: Slice, resolved: Resolved) -> tuple[float, float]:
    """Between which sizes it may be drawn: those it is made in, none of them far from the present one. [m]"""
    low, high = THIN * layer.thickness, THICK * layer.thickness
    if layer.record is None:
        return low, high
    made = [size.thickness for size in made_in(layer.record, resolved.system) if low <= size.thickness <= high]
    return (min(made), max(made)) if made else (low, low)
