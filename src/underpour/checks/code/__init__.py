"""What code editions ask of a floor: every finding of every edition that the brief is held to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...catalogue.codes import Edition
from ...findings import Basis, Finding, Step
from ...resolve import Resolved
from ..solved import SolvedEdge
from . import edge, floor, foundation, termites
from .told import at, remembered

ENERGY = ("code.slab-edge", "code.basement-wall", "code.under-slab", "code.heated-slab")


def asked(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Finding]:
    """Every finding of each edition in turn; none where the brief is held to no code."""
    for edition in resolved.held.editions:
        found = [*_of(resolved, edges, edition)]
        yield from found
        if any(finding.id in ENERGY and finding.verdict == "falls short" for finding in found):
            yield from _performance(resolved, edition)


def _of(resolved: Resolved, edges: Sequence[SolvedEdge], edition: Edition) -> Iterator[Finding]:
    for each in edges:
        yield from edge.slab_edge(resolved, each, edition)
        yield from foundation.basement_wall(resolved, each, edition)
    yield from floor.under_slab(resolved, edition)
    yield from floor.heated_slab(resolved, edges, edition)
    yield from floor.film(resolved, edition)
    yield from floor.base_course(resolved, edition)
    yield from floor.slab(resolved, edition)
    for each in edges:
        yield from foundation.footing(resolved, each, edition)
    yield from floor.soil_gas(resolved, edition)
    yield from termites.foam(resolved, edition)


def _performance(resolved: Resolved, edition: Edition) -> Iterator[Finding]:
    """The way by the whole building, where a floor falls short of a row."""
    if not edition.performance:
        return
    words = (
        "Looking at the whole building, what a floor lacks may be made good elsewhere. That is not worked out here; "
        f"whoever does so takes the floor's numbers from these findings. {remembered(resolved, edition)}"
    )
    yield Finding(
        "code.slab-edge",
        "By the performance of the whole building",
        None,
        "W/(m²·K)",
        at=at(edition, route="performance"),
        basis=(Basis(edition.title, edition.performance, "memory"),),
        rests_on=("project.code",),
        steps=(Step("asked", "whole building", edition.performance, "not worked out here"),),
        words=words,
    )
