"""The floor by ISO 13370's formulas: what an edge's psi is taken against, and a second way beside the sections."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..findings import Step
from ..measure.digits import fixed
from ..physics import ground
from ..resolve import Resolved
from ..sections.build import FOAM
from .solved import SolvedEdge

HARDCORE = ("gravel", "sand")  # below the slab: ISO 13370 counts it as ground
UPRIGHT = ("outside", "inside", "slab-edge")


@dataclass(frozen=True, slots=True)
class FloorByFormula:
    """A whole floor as if all of its edge were like one."""

    dimension: float  # B, m
    thickness: float  # d, m
    depth: float  # z, m
    conductivity: float  # of the ground, W/(m·K)
    transmittance: float  # U, ground included, edge foam left out, W/(m²·K)


def floor_by_formula(resolved: Resolved, solved: SolvedEdge) -> FloorByFormula:
    """U of the floor for the wall and the depth of one edge."""
    on_wall = [piece.board.thickness for piece in solved.edge.pieces if piece.face in ("inside", "outside")]
    return floor_beside(resolved, solved, max(solved.levels.wall, -solved.levels.start) + sum(on_wall))


def floor_beside(resolved: Resolved, solved: SolvedEdge, width: float) -> FloorByFormula:
    """The same for a wall of this thickness. [m]"""
    at, films = solved.levels, surface_films()
    layers = sum(layer.resistance for layer in resolved.floor[: hardcore_from(resolved)])
    dimension, depth = 2.0 * at.half_width, max(solved.edge.ground, 0.0)
    under = solved.edge.ground - at.build_up_bottom
    k = resolved.ground_conductivity(under, under + dimension)
    thick = ground.equivalent_thickness(width, k, films["floor"] + layers + films["outdoors"])
    return FloorByFormula(dimension, thick, depth, k, ground.floor_transmittance(dimension, thick, k, depth))


def second_way(resolved: Resolved, edges: tuple[SolvedEdge, ...], ours: float) -> tuple[Step, ...]:
    """The whole floor by the standard's formulas, and how far they lie from the sections' answer.

    Nothing where they do not hold: beside other air than outdoors, for an edge drawn by the user, or where the floor
    takes in heat.
    """
    if ours <= 0.0 or any(e.edge.beside is not None or e.edge.kind == "drawn" for e in edges):
        return ()
    total, numbers = 0.0, []
    for edge in edges:
        floor = floor_by_formula(resolved, edge)
        psi = min(_edge_foam(edge, floor), default=0.0)
        total += edge.edge.length * (floor.transmittance * resolved.half_width + psi)
        foam = f" and {fixed(edge.edge.length, 2)} × {fixed(psi, 3).replace('-', '−')} W/(m·K)" if psi else ""
        numbers.append(f"{edge.edge.letter}: {fixed(floor.transmittance, 4)}{foam}")
    value = total / resolved.area
    return (
        Step(
            "U_formula",
            "U for B, d, z + length × ψ of edge foam / A, by ISO 13370's formula, for comparison; "
            "where floor and wall meet is not in it",
            "; ".join(numbers),
            f"{fixed(value, 4)} W/(m²·K), {_apart(value, ours)} the answer above",
        ),
    )


def _apart(value: float, ours: float) -> str:
    percent = 100.0 * (value / ours - 1.0)
    return f"{fixed(abs(percent), 0)} % {'above' if percent > 0.0 else 'below'}"


def _edge_foam(solved: SolvedEdge, floor: FloorByFormula) -> Iterator[float]:
    """psi of each piece of foam along the edge of a slab; of several the one that saves most counts (from memory).

    Foam on a basement's wall is wall. Foam at a footing, and a piece that resists less than ground, has no formula.
    """
    if floor.depth > 0.0:
        return
    for n, piece in enumerate(solved.edge.pieces):
        board, k = piece.board, floor.conductivity
        bodies = [part.outline for part in solved.section.parts if part.priority == FOAM + n]
        if not bodies or board.resistance * k <= board.thickness:
            continue
        added = ground.added_thickness(board.resistance, board.thickness, k)
        reach = solved.edge.ground - min(y for outline in bodies for _, y in outline)
        if piece.face in UPRIGHT and reach > 0.0:
            yield ground.vertical_edge_transmittance(reach, floor.thickness, added, k)
        if piece.face == "wing" and piece.out:
            yield ground.horizontal_edge_transmittance(piece.out, floor.thickness, added, k)


def hardcore_from(resolved: Resolved) -> int:
    """Number of layers above the gravel and sand that lie below everything else."""
    above = [n for n, layer in enumerate(resolved.floor, 1) if layer.kind not in HARDCORE and layer.thickness > 0.0]
    return above[-1] if above else 0


def surface_films() -> dict[str, float]:
    """Surface resistances that a floor's and a wall's U are told with. [m²·K/W]"""
    from .. import catalogue

    return {
        "floor": catalogue.surface("floor-down").value,
        "wall": catalogue.surface("wall").value,
        "outdoors": catalogue.surface("outdoors").value,
    }
