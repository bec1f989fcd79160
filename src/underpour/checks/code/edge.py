"""What codes ask at an edge: foam there, foam on a basement's wall, and how deep the footing goes."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...catalogue.codes import Edition, Row
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ..basis import conduction
from ..solved import SolvedEdge, floor_faces
from .reach import NEAR, OUTSIDE, UNDER, Way, best, least, length, paths, reach, told, ways
from .rows import Chosen, chosen
from .told import at, held_to, not_told, without_a_row

BY_R, BY_F = "R-value", "F-factor"


def slab_edge(resolved: Resolved, solved: SolvedEdge, edition: Edition) -> Iterator[Finding]:
    """Foam at the edge of a slab on the ground, against an edition of a code.

    Asks
        Is there as much foam at the slab's edge, and as far down, as the code asks?
    Why
        It is among the rows most often misread: a basement's row for a slab's, another edition's, a heated slab's.
    Worked out
        Labelled resistance along the foam's way from the top of the slab; lengths down, in under the slab and outwards
        add up. An F-factor is taken from the code's table for such foam.
    Holds for
        Floors less deep below the ground than the row says; sections drawn by hand are not measured.
    Source
        The catalogue's rows of that edition, each with its clause and how it was seen.
    """
    edge = solved.edge
    empty = Finding("code.slab-edge", "Foam at the slab's edge", None, "m²·K/W", at=at(edition, edge=edge.letter))
    by_r = chosen(resolved, edition, "slab-edge", edge, lambda row: row.route != BY_F)
    by_f = chosen(resolved, edition, "slab-edge", edge, lambda row: row.route == BY_F)
    if by_r is None and by_f is None:
        if "slab-edge" in edition.needs:
            yield without_a_row(empty, resolved, edition)
        return
    if edge.kind == "drawn":
        yield _drawn(empty, by_r or by_f, edition)
        return
    if by_r is not None:
        yield from _by_resistance(resolved, solved, edition, by_r, empty)
    if by_f is not None:
        yield from _by_f_factor(resolved, solved, edition, by_f)


def _drawn(empty: Finding, found: Chosen | None, edition: Edition) -> Finding:
    assert found is not None
    row = found.clauses[0]
    words = (
        "This edge is drawn by hand and is not measured here. Show the official the drawing, with the foam's labels."
    )
    basis = found.standing.basis(row, next(iter(row.asks)))
    step = Step("asked", found.standing.clause(row), "", "not measured on a section drawn by hand")
    return replace(empty, words=words, basis=(basis,), steps=(step,), rests_on=("project.code",))


def _by_resistance(
    resolved: Resolved, solved: SolvedEdge, edition: Edition, found: Chosen, empty: Finding
) -> Iterator[Finding]:
    if not found.rows:
        made = not_told(empty, resolved, found)
        deep = "" if found.missing else _unheld_wall(resolved, solved, edition)
        yield replace(made, words=f"{made.words} {deep}".strip())
        return
    row = found.rows[0]
    ask = "depth" if "depth" in row.asks else "width"
    enough = row.asks["resistance"].si if "resistance" in row.asks else 0.0
    cover = _soil_cover(resolved, edition, solved)
    way, depth = _chosen_way(ways(resolved, solved, cover), row, ask, enough, solved)
    placed = f"As laid: {told(way, resolved.system)}." if way else _bare(resolved, solved)
    lost = _lost_wing(resolved, solved, cover)
    share = _share(resolved, solved)
    rests = (*paths(way), f"{solved.edge.path}.ground")
    there = Step("proposed", "labelled resistance along the foam", told(way, resolved.system) or "none", "")
    if "resistance" in row.asks:
        value = least(way, depth)
        yield held_to(
            replace(
                empty,
                title="Foam at the slab's edge, resistance as labelled",
                at=at(edition, edge=solved.edge.letter, route=BY_R, asks="resistance"),
                rests_on=rests,
                steps=(replace(there, result=say.both(value, "m²·K/W", resolved.system)),),
            ),
            resolved, found, row, "resistance", value, words=(placed, lost, share),
        )  # fmt: skip
    if ask in row.asks and ("resistance" not in row.asks or row.asks["resistance"].si):
        counted = min(enough, least(way, depth))
        goes = reach(way, counted)
        instead = "Outside the wall it goes down to the footing." if depth != row.asks[ask].si else ""
        yield held_to(
            replace(
                empty,
                unit="m",
                title="Foam at the slab's edge, how far it reaches",
                at=at(edition, edge=solved.edge.letter, route=BY_R, asks=ask),
                rests_on=rests,
                steps=(replace(there, result=say.both(goes, "m", resolved.system)),),
            ),
            resolved, found, row, ask, goes, limit=round(depth, 4), words=(placed, instead, lost, share),
        )  # fmt: skip


def _chosen_way(found: Sequence[Way], row: Row, ask: str, enough: float, solved: SolvedEdge) -> tuple[Way, float]:
    """The way that fills the row, or else comes nearest to it, with how far it has to go. [m]

    A width is asked in under the floor; foam that goes down outside the wall instead goes down to the footing.
    """
    asked = row.asks[ask].si if ask in row.asks else 0.0
    outside = -solved.levels.footing_top if ask == "width" and asked else asked
    to_go = [(way, outside if way[0].where == OUTSIDE else asked) for way in found]

    def nearness(each: tuple[Way, float]) -> tuple[bool, float, float]:
        way, depth = each
        filled = least(way, depth) >= enough - NEAR and reach(way, enough) >= depth - NEAR
        return filled, least(way, depth), reach(way, least(way, depth))

    return max(to_go, key=nearness, default=((), asked))


def _bare(resolved: Resolved, solved: SolvedEdge) -> str:
    """What to say where no foam begins at the top of the slab, with how far below it the foam begins that is there."""
    tops = [
        p.top for p in solved.edge.pieces if p.face in ("outside", "slab-edge") and p.top is not None and p.top < 0.0
    ]
    none = "There is no foam from the top of the slab on."
    if not tops:
        return none
    bare = say.both(-max(tops), "m", resolved.system)
    return f"{none} The foam begins {bare} below it; an edge that is left bare above it counts as bare."


def _unheld_wall(resolved: Resolved, solved: SolvedEdge, edition: Edition) -> str:
    """What to say of a wall in the ground that is drawn as no basement's, where the edition asks of basement walls."""
    edge = solved.edge
    sunk = edge.ground_told and edge.ground > 0.0 and edge.kind not in ("footing-wall", "drawn")
    if not sunk or resolved.held.codes.standing(edition.key, "basement-wall") is None:
        return ""
    return (
        "The wall between this floor and the ground outside is held to nothing here: where the code counts it as a "
        'basement\'s wall, its edge is kind = "footing-wall".'
    )


def _share(resolved: Resolved, solved: SolvedEdge) -> str:
    """How much of the perimeter an edge is, where there are several."""
    if len(resolved.edges) < 2:
        return ""
    return f"This edge is {solved.edge.length / resolved.perimeter * 100.0:.0f} % of the perimeter."


def _soil_cover(resolved: Resolved, edition: Edition, solved: SolvedEdge) -> float | None:
    found = chosen(resolved, edition, "edge-placing", solved.edge)
    row = next((row for row in found.rows if "soil-cover" in row.asks), None) if found else None
    return row.asks["soil-cover"].si if row else None


def _lost_wing(resolved: Resolved, solved: SolvedEdge, cover: float | None) -> str:
    """What to say of a wing that lies too high in the ground to count."""
    high = [p for p in solved.edge.pieces if p.face == "wing" and p.at is not None and cover is not None
            and p.at + solved.edge.ground < cover - 1e-4]  # fmt: skip
    if not high or cover is None:
        return ""
    over = say.both((high[0].at or 0.0) + solved.edge.ground, "m", resolved.system)
    wanted = say.both(cover, "m", resolved.system)
    return f"The wing has {over} of ground over it and counts only below {wanted} of ground, or below pavement."


def _by_f_factor(resolved: Resolved, solved: SolvedEdge, edition: Edition, found: Chosen) -> Iterator[Finding]:
    named = at(edition, edge=solved.edge.letter, route=BY_F)
    empty = Finding("code.slab-edge", "Heat lost at the slab's edge, by the code's table", None, "W/(m·K)", at=named)
    if not found.rows:
        yield not_told(empty, resolved, found)
        return
    row = found.rows[0]
    newest = resolved.held.codes.newest("f-factors")
    table = chosen(resolved, resolved.held.codes.edition(newest), "f-factors", solved.edge)
    assert table is not None and table.rows, "the table has a row for a bare edge, heated or not"
    way, listed = min(_filled(resolved, solved, table), key=lambda each: each[1].asks["f-factor"].si)
    if resolved.held.heated and way and not listed.asks["resistance"].si:
        words = f"{table.standing.edition.title}: no row was found for a heated slab with foam."
        yield not_told(empty, resolved, replace(found, missing="project.local-code", words=words))
        return
    value = listed.asks["f-factor"].si
    like = f"{_like(listed)}, {listed.clause}"
    step = Step("F", "row of the table that the foam fills", like, say.both(value, "W/(m·K)", resolved.system))
    made = held_to(
        replace(empty, rests_on=(*paths(way), f"{solved.edge.path}.ground", listed.path), steps=(step,)),
        resolved, found, row, "f-factor", value, words=(f"Read from {table.standing.edition.title}: {like}.",),
    )  # fmt: skip
    remembered = "The row of that table is from memory." if listed.seen == "memory" else ""
    yield replace(
        made,
        basis=(*made.basis, table.standing.basis(listed, "f-factor")),
        words=f"{made.words} {remembered}".strip(),
    )
    yield from _own_section(resolved, solved, edition)


def _filled(resolved: Resolved, solved: SolvedEdge, table: Chosen) -> Iterator[tuple[Way, Row]]:
    """The rows of the table whose foam is there, each with the way that it goes."""
    there = ways(resolved, solved)
    for row in table.rows:
        wanted = row.asks["resistance"].si
        if row.place == "under":
            whole = [way for way in there if way[-1].where == UNDER and reach(way, wanted) >= length(way) - NEAR]
            yield from ((way, row) for way in whole[:1])
            continue
        deep = row.asks["depth"].si
        way = best(there, deep)
        if not wanted or (least(way, deep) >= wanted - 1e-4 and reach(way, wanted - 1e-4) >= deep - NEAR):
            yield way, row


def _like(row: Row) -> str:
    """A row of the table in words.

    >>> from ...catalogue.codes import shipped
    >>> _like(shipped().rows("ashrae-90-1-2019", "f-factors")[2])
    'R10 to 24 in'
    """
    resistance = row.asks["resistance"]
    if not resistance.si:
        return "no foam"
    return (
        f"{resistance.typed} under the whole slab"
        if row.place == "under"
        else f"{resistance.typed} to {row.asks['depth'].typed}"
    )


def _own_section(resolved: Resolved, solved: SolvedEdge, edition: Edition) -> Iterator[Finding]:
    """The same quantity by our own section, which no official takes for the code's table."""
    apart = resolved.room.mean - resolved.outdoor_mean
    if apart == 0.0:
        return
    flow = solved.heat.flow(floor_faces)
    value = flow.mean / apart
    yield Finding(
        "code.slab-edge",
        "Heat lost at the slab's edge, by our own section",
        value,
        "W/(m·K)",
        at=at(edition, edge=solved.edge.letter, route=BY_F, by="own section"),
        within=flow.within / abs(apart),
        basis=conduction(),
        rests_on=(*solved.rests_on, "project.code"),
        steps=(
            Step(
                "F",
                "Φ_mean / (θ_room − θ_outdoors), floor, for each metre of edge",
                f"{fixed(flow.mean, 3)} / {fixed(apart, 2)}",
                f"{fixed(value, 4)} W/(m·K)",
            ),
        ),
        words="This is not the code's table: ground, widths and films are those of this floor. Held to nothing.",
    )


def basement_wall(resolved: Resolved, solved: SolvedEdge, edition: Edition) -> Iterator[Finding]:
    """Foam on the wall of a heated basement, against an edition of a code.

    Asks
        Is the wall in the ground covered with as much continuous foam as the code asks?
    Why
        Where the floor lies deeper than a slab on the ground, the code asks for the wall instead of the edge.
    Worked out
        Labelled resistance of the foam outside and inside, added; the least between floor and ground counts.
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
    value = on_wall(solved)
    rests = tuple(dict.fromkeys(path for p in pieces for path in p.board.r_label_rests_on))
    row = found.rows[0]
    step = Step(
        "proposed",
        "least sum of labelled foam between floor and ground",
        "; ".join(f"{p.board.words} ({p.face})" for p in pieces) or "none",
        say.both(value, "m²·K/W", resolved.system),
    )
    made = replace(empty, rests_on=(*rests, f"{edge.path}.ground"), steps=(step,))
    yield held_to(made, resolved, found, row, "continuous", value)


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
        Footings that stand below the frost line. The table for frost-protected footings is another way and is not
        answered here.
    Source
        The catalogue's rows of that edition; the frost line as typed (site.frost-depth).
    """
    edge, title = solved.edge, "Depth of the footing below the ground outside"
    found = chosen(resolved, edition, "frost", edge, lambda row: row.place == "footing")
    if found is None:
        return
    empty = Finding("code.frost", title, None, "m", at=at(edition, edge=edge.letter))
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
    row, level = found.rows[0], solved.levels
    stands = level.footing_bottom if any(edge.footing) or edge.thickening else level.foam_bottom
    value, least_depth = edge.ground - stands, row.asks["least-depth"].si
    step = Step(
        "proposed",
        "ground outside less the underside of what bears",
        f"{fixed(edge.ground, 3)} − ({fixed(stands, 3)})",
        say.both(value, "m", resolved.system),
    )
    rests = (f"{edge.path}.ground", f"{edge.path}.depth", "site.frost-depth")
    short = "A frost-protected footing may stand less deep; its table is not answered here." if value < frost else ""
    yield held_to(
        replace(empty, rests_on=rests, steps=(step,)),
        resolved, found, row, "least-depth", value, limit=round(max(least_depth, frost), 4), words=(short,),
    )  # fmt: skip


def on_wall(solved: SolvedEdge) -> float:
    """The least sum of labelled foam on a basement wall between its floor and the ground outside. [m²·K/W]"""
    edge, level = solved.edge, solved.levels
    spans = []
    for piece in edge.pieces:
        if piece.face in ("outside", "inside"):
            own = (0.0, level.footing_top) if piece.face == "outside" else (level.top, 0.0)
            top = own[0] if piece.top is None else piece.top
            bottom = own[1] if piece.bottom is None else piece.bottom
            spans.append((bottom, top, piece.board.r_label or 0.0))
    ends = sorted(
        {0.0, edge.ground, *(end for low, high, _ in spans for end in (low, high) if 0.0 < end < edge.ground)}
    )
    middles = [(low + high) / 2.0 for low, high in itertools.pairwise(ends)]
    return min((sum(r for low, high, r in spans if low <= y <= high) for y in middles), default=0.0)
