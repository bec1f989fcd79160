"""What codes ask of what stands in the ground: foam on a basement's wall, and how deep the footing goes."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace

from ...catalogue.codes import Edition
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ..solved import SolvedEdge
from .reach import bears
from .rows import chosen
from .told import at, held_to, not_told, without_a_row


def basement_wall(resolved: Resolved, solved: SolvedEdge, edition: Edition) -> Iterator[Finding]:
    """Foam on the wall of a heated basement, against an edition of a code.

    Asks
        Is the wall in the ground covered with as much continuous foam as the code asks?
    Why
        Where the floor lies deeper than a slab on the ground, the code asks for the wall instead of the edge.
    Worked out
        Labelled resistance of the foam outside and inside, added; the least between floor and ground counts, or down
        to the depth below the ground that the row names.
    Holds for
        Continuous foam; insulation between studs is another option of most rows.
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    edge = solved.edge
    if edge.kind != "footing-wall":
        return
    title = "Foam on the basement wall, continuous resistance as labelled"
    empty = Finding("code.basement-wall", title, None, "m²·K/W", at=at(edition, edge=edge.letter))
    found = chosen(resolved, edition, "basement-wall", edge)
    if found is None:
        if "basement-wall" in edition.needs:
            yield without_a_row(empty, resolved, edition)
        return
    if not found.rows:
        yield not_told(empty, resolved, found)
        return
    pieces = [p for p in edge.pieces if p.face in ("outside", "inside")]
    row = found.rows[0]
    down = row.asks["depth"].si if "depth" in row.asks else edge.ground
    value = on_wall(solved, max(edge.ground - down, 0.0))
    rests = tuple(dict.fromkeys(path for p in pieces for path in p.board.r_label_rests_on))
    deep = "" if down >= edge.ground else f"Counted down to {row.asks['depth'].typed} below the ground outside."
    step = Step(
        "proposed",
        "least sum of labelled foam between floor and ground",
        "; ".join(f"{p.board.words} ({p.face})" for p in pieces) or "none",
        say.both(value, "m²·K/W", resolved.system),
    )
    made = replace(empty, rests_on=(*rests, f"{edge.path}.ground"), steps=(step,))
    yield held_to(made, resolved, found, row, "continuous", value, words=(deep,))


def footing(resolved: Resolved, solved: SolvedEdge, edition: Edition) -> Iterator[Finding]:
    """Depth of the footing below the ground, against an edition's least depth and the frost line that was typed.

    Asks
        Does the footing stand as deep as the code's plain rule asks?
    Why
        Ground that freezes under a footing lifts it.
    Worked out
        Depth of the footing's underside below the ground outside; the limit is the code's own least depth or the frost
        line that the building office names, whichever is deeper.
    Holds for
        Footings that stand below the frost line. The table for frost-protected footings is another way (frost.rule).
    Source
        The catalogue's rows of that edition; the frost line as typed (site.frost-depth).
    """
    edge, title = solved.edge, "Depth of the footing below the ground outside"
    found = chosen(resolved, edition, "frost", edge, lambda row: row.place == "footing")
    empty = Finding("code.frost", title, None, "m", at=at(edition, edge=edge.letter))
    if found is None:
        if "frost" in edition.needs:
            yield without_a_row(empty, resolved, edition)
        return
    frost = resolved.held.frost_depth
    open_ = f"{edge.path}.ground" if not edge.ground_told else "site.frost-depth" if frost is None else ""
    if not found.rows and not found.missing:
        yield not_told(empty, resolved, found)
        return
    if not found.rows or open_:
        asked = "The building office names the frost line; the code asks that the footing stands below it."
        yield not_told(empty, resolved, replace(found, missing=found.missing or open_, words=found.words or asked))
        return
    assert frost is not None
    row, stands = found.rows[0], bears(solved)
    value, least_depth = edge.ground - stands, row.asks["least-depth"].si
    step = Step(
        "proposed",
        "ground outside less the underside of what bears",
        f"{fixed(edge.ground, 3)} − ({fixed(stands, 3)})",
        say.both(value, "m", resolved.system),
    )
    rests = (f"{edge.path}.ground", f"{edge.path}.depth", "site.frost-depth")
    short = (
        "A frost-protected footing may stand less deep: frost.rule says what its table asks." if value < frost else ""
    )
    typed = f"The frost line as typed, {resolved.held.frost_words}, is deeper than the code's own least depth."
    deeper = typed if frost > least_depth and resolved.held.frost_words else ""
    yield held_to(
        replace(empty, rests_on=rests, steps=(step,)),
        resolved, found, row, "least-depth", value, limit=round(max(least_depth, frost), 4), words=(deeper, short),
    )  # fmt: skip


def on_wall(solved: SolvedEdge, lowest: float = 0.0) -> float:
    """The least sum of labelled foam on a basement wall from a level up to the ground outside. [m²·K/W]

    Parameters
    ----------
    lowest : float, optional
        Height above the floor from which the wall counts. [m]
    """
    edge, level = solved.edge, solved.levels
    spans = []
    for piece in edge.pieces:
        if piece.face in ("outside", "inside"):
            own = (0.0, level.footing_top) if piece.face == "outside" else (level.top, 0.0)
            top = own[0] if piece.top is None else piece.top
            bottom = own[1] if piece.bottom is None else piece.bottom
            spans.append((bottom, top, piece.board.r_label or 0.0))
    ends = sorted(
        {lowest, edge.ground, *(end for low, high, _ in spans for end in (low, high) if lowest < end < edge.ground)}
    )
    middles = [(low + high) / 2.0 for low, high in itertools.pairwise(ends)]
    return min((sum(r for low, high, r in spans if low <= y <= high) for y in middles), default=0.0)
