"""What codes ask of foam in the ground where termites are very heavy."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ... import catalogue
from ...catalogue.codes import Edition
from ...findings import Finding, Step
from ...measure import say
from ...resolve import Resolved
from ..termites import BARRIER, KEY, foam_in_ground
from .rows import Chosen, chosen
from .told import at, held_to, not_told, said

ID, TITLE = "code.termites", "Foam on or below foundations in the ground, where termites are very heavy"
EDGE = (
    "The energy code then asks for no foam at the slab's edge, where the building official says so (slab-on-grade "
    "floors, from memory)."
)
FORBIDDEN = (
    "The code lets no foam plastic lie there. Take it out of the ground, take a mineral board (cellular glass), or "
    "have a way of guarding foam and structure approved (site.termite-barrier)."
)


def foam(resolved: Resolved, edition: Edition) -> Iterator[Finding]:
    """Foam plastic in the ground against what an edition forbids where termites are very heavy.

    Asks
        May this foam lie in the ground here?
    Why
        Foam hides the way of termites into a house, and poison in the ground does not reach them inside it.
    Worked out
        Pieces of foam plastic on the outer face of foundations, below them or below the slab, in the ground; none of
        them where a way of guarding the foam is named. Foam that begins above the ground keeps clear of it.
    Holds for
        Regions as the brief names them. Whether a building is excepted, and whether a barrier is approved, the building
        official decides.
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    found = chosen(resolved, edition, "termite")
    if found is None:
        return
    pieces = [each for each in foam_in_ground(resolved) if each.outer]
    empty = Finding(ID, TITLE, None, "count", at=at(edition))
    if not found.rows:
        asked = found.missing and pieces
        if asked or (resolved.around.termites and not found.missing):
            told = not_told(empty, resolved, found)
            yield replace(told, rests_on=(*told.rests_on, KEY))
        return
    row, barrier = found.rows[0], resolved.around.termite_barrier
    words = [EDGE]
    if pieces and not barrier:
        words = [FORBIDDEN, EDGE]
    elif pieces:
        of = catalogue.termite_barrier(barrier)
        words = [f"Guarded by {of.label}; the building official approves it before the pour. {of.mind}"]
    yield replace(
        empty,
        value=0.0 if barrier else float(len(pieces)),
        limit=0.0,
        sense="at most",
        basis=(found.standing.basis(row, "clearance"),),
        rests_on=("project.code", row.path, KEY, BARRIER, *(each.path for each in pieces)),
        steps=tuple(Step("foam", each.words, "", "guarded" if barrier else "open") for each in pieces)
        or (Step("n", "foam plastic on or below foundations, in the ground", "", "none"),),
        words=" ".join([*words, *said(resolved, found, row, "clearance")]),
    )
    yield from _clear(resolved, edition, found)


def _clear(resolved: Resolved, edition: Edition, found: Chosen) -> Iterator[Finding]:
    """How far foam that begins above the ground keeps clear of it, at each edge that has such."""
    for edge in resolved.edges:
        over = [
            piece.bottom - edge.ground
            for piece in edge.pieces
            if piece.face == "outside" and piece.bottom is not None and piece.bottom > edge.ground
        ]
        if over:
            empty = Finding(
                ID,
                "Foam above the ground, how far it keeps clear of it",
                None,
                "m",
                at=at(edition, edge=edge.letter, asks="clearance"),
                rests_on=(f"{edge.path}.ground", f"{edge.path}.insulation", KEY),
                steps=(
                    Step(
                        "proposed",
                        "lower end of the foam less the ground",
                        "",
                        say.both(min(over), "m", resolved.system),
                    ),
                ),
            )
            yield held_to(empty, resolved, found, found.rows[0], "clearance", min(over))
