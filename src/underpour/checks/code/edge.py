"""What codes ask of foam at the edge of a slab on the ground."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...catalogue.codes import Edition, Row
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ..basis import conduction
from ..solved import SolvedEdge, floor_faces
from .reach import NEAR, OUTSIDE, UNDER, Way, best, least, length, paths, reach, stops_at, told, ways
from .rows import Chosen, chosen
from .told import at, held_to, not_told, remembered, without_a_row

BY_R, BY_F = "R-value", "F-factor"
STOP_WORDS = {
    "slab-bottom": "the underside of the slab",
    "footing-top": "the top of the footing",
    "footing-bottom": "the underside of the footing",
}


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
    there_are = ways(resolved, solved, cover)
    way, depth = _chosen_way(there_are, row, ask, enough, solved)
    heated = _heated_stop(resolved, edition) if ask == "depth" else None
    stop = stops_at(solved, heated.rows[0].edge_stops) if heated is not None else depth
    if stop < depth - NEAR:
        way, depth = best(there_are, stop), stop
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
        outside = "Outside the wall it goes down to the footing."
        instead = outside if ask == "width" and depth != row.asks[ask].si else ""
        made = held_to(
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
        yield _stopped(made, heated) if heated is not None and depth == stop else made


def _heated_stop(resolved: Resolved, edition: Edition) -> Chosen | None:
    """The row that lets foam at the edge of a heated slab stop above its depth; None where there is none."""
    found = chosen(resolved, edition, "heated-slab") if resolved.held.heated else None
    stopping = tuple(row for row in found.rows if row.edge_stops) if found is not None else ()
    return replace(found, rows=stopping[:1]) if found is not None and stopping else None


def _stopped(finding: Finding, heated: Chosen) -> Finding:
    """A depth that is cut short by the row on heated slabs, with that row as a second source."""
    row = heated.rows[0]
    why = f"The slab is heated: foam at its edge may stop at {STOP_WORDS[row.edge_stops]} ({row.clause})."
    source = heated.standing.basis(row, next(iter(row.asks)))
    rests_on = (*finding.rests_on, row.path, "tube")
    return replace(finding, words=f"{why} {finding.words}", basis=(*finding.basis, source), rests_on=rests_on)


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
    assert table is not None, "an edition that is named for a subject has rows on it"
    filled = [*_filled(resolved, solved, table)]
    way, listed = min(filled, key=lambda each: each[1].asks["f-factor"].si, default=((), None))
    if listed is None or (resolved.held.heated and way and not listed.asks["resistance"].si):
        of = "a heated slab with foam" if resolved.held.heated else "this edge"
        words = table.words if table.missing else f"{table.standing.edition.title}: no row was found for {of}."
        missing = table.missing or "project.local-code"
        yield not_told(empty, resolved, replace(found, missing=missing, words=words))
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
        words="This is not the code's table: ground, widths and films are those of this floor. Held to nothing. "
        f"{remembered(resolved, edition)}",
    )
