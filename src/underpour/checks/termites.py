"""Termites: ways through foam in the ground that nobody sees, and the bare strip on which their tubes are seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from .. import catalogue
from ..findings import Basis, Finding, Step
from ..measure import say
from ..resolve import Resolved, ResolvedEdge

WAYS, STRIP = "termites.ways", "termites.strip"
KEY, BARRIER = "site.termites", "site.termite-barrier"
PRACTICE = Basis("common practice, no source", "foam in the ground where termites live", "practice")
UNDER = ("concrete", "screed", "old-slab")
OUTER = ("outside", "wing", "below-footing", "below-slope", "footing-side", "footing-top")
IN_ONE = ("raft", "thickened-edge", "free-edge")  # slab and footing are one pour: foam at the slab's edge is outside
REMEDIES = (
    "Keep foam above the ground or inside; or take a mineral board (cellular glass), which they cannot eat; or name "
    "what keeps them from it: a screen, a shield, treated ground or treated foam (site.termite-barrier)."
)


@dataclass(frozen=True, slots=True)
class InGround:
    """Foam plastic that touches the ground."""

    words: str
    path: str
    outer: bool  # on the outer face of a foundation, or below a foundation or slab: what codes speak of


def foam_in_ground(resolved: Resolved) -> tuple[InGround, ...]:
    """All foam plastic that touches the ground: below the slab, at edges, in walls, as drawn; not inside a cellar."""
    return tuple(_below_floor(resolved)) + tuple(each for edge in resolved.edges for each in _at(edge))


def _below_floor(resolved: Resolved) -> Iterator[InGround]:
    for n, layer in enumerate(resolved.floor):
        rests_on_slab = any(below.kind in UNDER for below in resolved.floor[n + 1 :])
        if layer.kind == "board" and layer.combustible and not rests_on_slab:
            yield InGround(f"{layer.words} under the floor", layer.path, True)


def _at(edge: ResolvedEdge) -> Iterator[InGround]:
    for n, piece in enumerate(edge.pieces, 1):
        in_room = edge.kind == "footing-wall" and piece.face == "inside"
        clear = piece.bottom is not None and piece.bottom > edge.ground and piece.face == "outside"
        if piece.board.combustible and not in_room and not clear:
            outer = piece.face in OUTER or (piece.face == "slab-edge" and edge.kind in IN_ONE)
            words = f"{piece.board.words} at edge {edge.letter} ({piece.face.replace('-', ' ')})"
            yield InGround(words, f"{edge.path}.insulation.{n}", outer)
    for n, leaf in enumerate(edge.wall, 1):
        if leaf.kind == "board" and leaf.combustible and (n > 1 or edge.kind != "footing-wall"):
            yield InGround(f"{leaf.words} on the wall of edge {edge.letter}", f"{edge.path}.wall.{n}", True)
    for n, body in enumerate(edge.drawn, 1):
        low = min(y for _, y in body.outline)
        if body.slice.kind == "board" and body.slice.combustible and low < edge.ground:
            yield InGround(f"{body.slice.words} as drawn at edge {edge.letter}", f"{edge.path}.shape.{n}", True)


def told(resolved: Resolved) -> Iterator[Finding]:
    """Whether termites find a way into the house through foam, and whether it would be seen.

    Asks
        Can termites come up through the foam unseen, and is enough of the foundation bare to see their tubes?
    Why
        They do not live on foam, and tunnel through it: behind a board that stands in the ground nobody sees them until
        the timber is eaten.
    Worked out
        Every piece of foam plastic that touches the ground is a way, unless something is named that keeps them from it;
        mineral boards are none. The strip is what stays bare between ground and foam, or between ground and floor.
    Holds for
        Regions as the brief names them. Where it names none, a question is asked only in states in which the code's map
        has very heavy termites somewhere.
    Source
        Common practice, no source; what a code forbids is another finding.
    """
    found = foam_in_ground(resolved)
    region = resolved.around.termites
    if region:
        yield _ways(resolved, found, region)
        yield from (_strip(resolved, edge, region) for edge in resolved.edges if edge.kind != "drawn")
    elif found and resolved.around.may_be_very_heavy:
        yield _asked(resolved, found)


def _asked(resolved: Resolved, found: tuple[InGround, ...]) -> Finding:
    return replace(
        _empty(resolved, found),
        missing="site.termites",
        words=f"Termites may be very heavy in this state, and {_listed(found)} in the ground. Ask the building "
        "official which region of the code's map the site lies in.",
    )


def _empty(resolved: Resolved, found: tuple[InGround, ...]) -> Finding:
    return Finding(
        WAYS,
        "Ways of termites through foam in the ground",
        None,
        "count",
        basis=(PRACTICE,),
        rests_on=(KEY, BARRIER, *(each.path for each in found)),
    )


def _ways(resolved: Resolved, found: tuple[InGround, ...], region: str) -> Finding:
    name, held = catalogue.termite_region(region)
    empty = _empty(resolved, found)
    if region == "none":
        return replace(empty, no_limit="does not apply", words="The brief says that no termites live here.")
    barrier = resolved.around.termite_barrier
    ways = 0 if barrier else len(found)
    steps = tuple(Step("way", each.words, "", "kept off" if barrier else "open") for each in found)
    made = replace(
        empty,
        value=float(ways),
        limit=0.0 if held else None,
        sense="at most" if held else None,
        no_limit="not required, advised",
        steps=steps or (Step("n", "foam plastic that touches the ground", "", "none"),),
    )
    if not found:
        return replace(made, words="No foam plastic touches the ground.")
    if barrier:
        of = catalogue.termite_barrier(barrier)
        return replace(made, words=f"{of.label.capitalize()} keeps termites from the foam. {of.mind}")
    where = "Termites live here" if region == "present" else f"Termites: {name}"
    return replace(made, words=f"{where}; {_listed(found)} in the ground, a way in that nobody sees. {REMEDIES}")


def _listed(found: tuple[InGround, ...]) -> str:
    words = [each.words for each in found]
    return f"{words[0]} lies" if len(words) == 1 else f"{'; '.join(words)} lie"


def _strip(resolved: Resolved, edge: ResolvedEdge, region: str) -> Finding:
    """What stays bare of a foundation above the ground."""
    allowed, barrier = catalogue.termite_strip(), resolved.around.termite_barrier
    shows = bool(barrier) and catalogue.termite_barrier(barrier).shows
    held = catalogue.termite_region(region)[1] and not shows
    empty = Finding(
        STRIP,
        "Bare strip of foundation above the ground, on which tubes of termites are seen",
        None,
        "m",
        at={"edge": edge.letter},
        basis=(allowed.basis(),),
        rests_on=(KEY, f"{edge.path}.ground", allowed.path, *(f"{edge.path}.insulation" for _ in edge.pieces[:1])),
        no_limit="does not apply",
    )
    if region == "none":
        return replace(empty, words="The brief says that no termites live here.")
    cover = sorted(_covered(edge))
    if edge.kind == "footing-wall" and edge.ground >= 0.0 and not cover:
        words = "How far this wall stands up out of the ground is not in the brief: leave at least"
        return replace(empty, words=f"{words} {say.both(allowed.value, 'm', resolved.system)} of it bare.")
    bare = round(_widest(edge.ground, max(edge.ground, 0.0), cover), 4)
    made = replace(
        empty,
        value=bare,
        limit=allowed.value if held else None,
        sense="at least" if held else None,
        no_limit="not required, advised",
        steps=(
            Step(
                "bare",
                "widest part of the outer face between ground and floor that nothing covers",
                "",
                say.both(bare, "m", resolved.system),
            ),
        ),
    )
    if shows:
        return replace(made, words="What keeps them off shows their tubes: look along it once a year.")
    if bare >= allowed.value:
        return replace(made, words="The foundation is bare over the ground: look along it once a year.")
    least = say.both(allowed.value, "m", resolved.system)
    stays = (
        f"{say.both(bare, 'm', resolved.system)} of the foundation stay" if bare else "Nothing of the foundation stays"
    )
    mend = f"Lower the ground, or raise the floor, until {least} stay bare"
    if cover:
        mend = "Keep the foam below the ground and its top sealed, or name a shield or screen (site.termite-barrier)"
    return replace(made, words=f"{stays} bare above the ground, where {least} show their tubes. {mend}.")


def _covered(edge: ResolvedEdge) -> Iterator[tuple[float, float]]:
    """Stretches of the outer face that foam covers, each from its lower to its upper end. [m]"""
    for piece in edge.pieces:
        if piece.face == "outside" or (piece.face == "slab-edge" and edge.kind in IN_ONE):
            yield piece.bottom if piece.bottom is not None else -99.0, piece.top if piece.top is not None else 0.0
    if len(edge.wall) > 1 and edge.wall[-1].kind == "board":
        yield -99.0, max(edge.ground, 0.0) + 99.0


def _widest(low: float, high: float, covered: list[tuple[float, float]]) -> float:
    """The widest stretch between two levels that nothing covers. [m]

    >>> round(_widest(-0.2, 0.0, [(-1.0, -0.15)]), 3), _widest(-0.2, 0.0, [(-1.0, 0.0)])
    (0.15, 0.0)
    """
    widest, level = 0.0, low
    for start, end in covered:
        widest = max(widest, min(start, high) - level)
        level = max(level, end)
    return max(widest, high - level, 0.0)
