"""One brief, everything once: resolve, cut, solve, check. This file is the tool's table of contents."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from importlib.resources import files
from typing import Any

from . import __version__, catalogue, lessons
from .brief import Reading
from .brief.alternatives import AS_BRIEFED
from .brief.model import Brief
from .checks import heat, height, moisture
from .checks.solved import SolvedEdge
from .dossier import Answer, Dossier
from .findings import Finding
from .mistakes import Mistake, Mistakes
from .physics.conduction.sample import sampled
from .physics.conduction.shapes import Films
from .physics.conduction.solve import Climate, Gap, Overlap, solve_each
from .physics.domain import OutOfDomain
from .resolve import Resolved, ResolvedEdge, resolve
from .resolve.site import summary
from .sections.build import open_to_outdoors, section
from .sections.levels import levels
from .sections.parts import Section

OUTER_METRE = 1.0


def answer(reading: Reading) -> Dossier:
    """Answer a brief and all of its alternatives.

    Raises
    ------
    Mistakes
        What only the catalogue or the section's geometry could reveal, with file and line.
    """
    named = [(AS_BRIEFED, reading.brief), *reading.alternatives]
    answered = [_alternative(reading, name, brief) for name, brief in named]
    resolved = answered[0][0]
    said = lessons.told([made for _, made in answered], resolved.system)
    return Dossier(
        brief_text=reading.text,
        title=resolved.title,
        use=resolved.use.label,
        units=resolved.system,
        place=resolved.place,
        version=__version__,
        editions=(),
        credits=resolved.credits,
        notes=resolved.notes,
        cautions=_cautions(answered),
        assumed=resolved.assumed,
        alternatives=tuple(said),
    )


def _alternative(reading: Reading, name: str, brief: Brief) -> tuple[Resolved, Answer]:
    try:
        resolved = resolve(brief)
        edges = tuple(_solved(resolved, edge) for edge in resolved.edges)
    except Mistakes as mistakes:
        raise reading.placed(mistakes, name) from None
    except Mistake as mistake:
        raise reading.placed([mistake], name) from None
    return resolved, Answer(
        name=name,
        summary=summary(resolved),
        sections={e.edge.letter: e.section for e in edges},
        fields={e.edge.letter: sampled(e.heat, e.section.window, e.section.floor) for e in edges},
        findings=tuple(_findings(resolved, edges)),
    )


def _findings(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> list[Finding]:
    found = [*heat.resistance(resolved), *heat.floor_loss(resolved, edges)]
    for edge in edges:
        found += heat.edge(resolved, edge)
        found += heat.surface(resolved, edge)
        found += moisture.factor(resolved, edge)
    found += height.build_up(resolved)
    return [_cautioned(resolved, finding) for finding in found]


def _cautioned(resolved: Resolved, finding: Finding) -> Finding:
    """A caution stands beside the finding that may lead someone into harm."""
    if finding.id == "height.depth" and finding.verdict == "falls short":
        return replace(finding, caution=_caution_words()["excavation"])
    edge = finding.at.get("edge")
    below = any(p.face == "below-footing" for e in resolved.edges if e.letter == edge for p in e.pieces)
    if finding.id == "heat.edge-psi" and below:
        return replace(finding, caution=_caution_words()["below-footing"])
    return finding


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


def _cautions(answered: Sequence[tuple[Resolved, Answer]]) -> tuple[str, ...]:
    words = _caution_words()
    below = any(p.face == "below-footing" for resolved, _ in answered for e in resolved.edges for p in e.pieces)
    return (*words["always"], *((words["below-footing"],) if below else ()))


@cache
def _caution_words() -> dict[str, Any]:
    return tomllib.loads((files(__package__) / "cautions.toml").read_text(encoding="utf-8"))
