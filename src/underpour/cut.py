"""One edge cut and solved: its section, and the year's temperatures with both films."""

from __future__ import annotations

from collections.abc import Sequence

from . import catalogue
from .checks.solved import OUTER_METRE, SolvedEdge
from .mistakes import Mistake
from .physics.conduction.shapes import Films
from .physics.conduction.solve import Climate, Gap, Overlap, solve_each
from .physics.domain import OutOfDomain
from .resolve import Resolved, ResolvedEdge
from .sections.build import open_to_outdoors, section
from .sections.levels import levels
from .sections.parts import Section


def solved_edges(resolved: Resolved) -> tuple[SolvedEdge, ...]:
    """Every edge of a resolved brief. Raises Mistake where a section cannot be built."""
    return tuple(_solved(resolved, edge) for edge in resolved.edges)


def _solved(resolved: Resolved, edge: ResolvedEdge) -> SolvedEdge:
    made = section(resolved, edge)
    unclosed = open_to_outdoors(made, edge)
    if unclosed is not None:
        raise unclosed
    climates = {
        "room": Climate(resolved.room.mean, resolved.room.swing),
        "outdoors": Climate(resolved.outdoor_mean, resolved.outdoor_swing),
    }
    outdoors = _films(("outdoors",) * 3)
    rising = resolved.room.mean < resolved.outdoor_mean
    warm_side = _films(("floor-up" if rising else "floor-down", "wall", "floor-up"))
    lines = [made.corner[0] + OUTER_METRE]
    heat_films = {"room": warm_side, "outdoors": outdoors}
    mould_films = {"room": _films(("room-mould",) * 3), "outdoors": outdoors}
    try:
        heat_solved, mould_solved = solve_each(
            made.parts, made.airs, [heat_films, mould_films], climates, lines_x=lines
        )
        return SolvedEdge(edge, made, levels(resolved, edge), heat_solved, mould_solved)
    except Overlap as overlap:
        raise _overlap(made, edge, overlap) from None
    except Gap as gap:
        raise Mistake(
            f"{edge.path}",
            "",
            f"Nothing fills the place {gap.x:.2f} m from the wall, {gap.y:.2f} m above the floor.",
            "Draw a shape there, or move its neighbours together.",
        ) from None
    except OutOfDomain:
        raise Mistake(
            f"{edge.path}.shape",
            "",
            "The slanted sides of these shapes lie too close to one another.",
            "Bring their corners onto common levels, or draw them with upright and level sides.",
        ) from None


def _films(keys: Sequence[str]) -> Films:
    return Films(*(catalogue.surface(key).value for key in keys))


def _overlap(made: Section, edge: ResolvedEdge, overlap: Overlap) -> Mistake:
    one, two = (made.parts[n] for n in overlap.pairs[0])
    return Mistake(
        two.path or edge.path,
        "",
        f"{two.label} lies over {one.label} ({one.path}).",
        "Move one of them, or give the one that stays whole a lower priority.",
    )
