"""Which edge to show where only one is shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .facts import finding_at

if TYPE_CHECKING:
    from ..dossier import Answer, Dossier


def telling_edge(dossier: Dossier) -> str:
    """The edge at which the alternatives differ most in what is watched there; the first of several alike."""
    return max(dossier.as_briefed.sections, key=lambda edge: _apart(dossier, edge))


def coldest_edge(answer: Answer) -> str:
    """The edge at which what is watched is coldest; the first of several alike."""
    watched = {edge: _watched(answer, edge) for edge in answer.sections}
    return min(answer.sections, key=lambda edge: value if (value := watched[edge]) is not None else float("inf"))


def _apart(dossier: Dossier, edge: str) -> float:
    """How far the alternatives lie from one another at an edge. [K]"""
    found = [value for answer in dossier.alternatives if (value := _watched(answer, edge)) is not None]
    return round(max(found) - min(found), 2) if found else 0.0


def _watched(answer: Answer, edge: str) -> float | None:
    """Coldest where floor and wall meet, or outdoors the coldest ground below the slab. [degC]"""
    section = answer.sections.get(edge)
    if section is None:
        return None
    finding = finding_at(answer, "heat.ground-temperature" if section.outdoors else "heat.corner-coldest", edge)
    return None if finding is None or finding.value is None else round(finding.value, 2)
