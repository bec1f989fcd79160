"""Heave: frost, ground that draws water up, and water, the three together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ... import catalogue
from ...findings import Finding, Step
from ...resolve import Resolved
from ...resolve.frost import DRAINED, FINES, INDEX, WATER, Frost
from ...resolve.resolved import Stratum, stratum_at
from ..basis import basis
from ..frozen import IN_USE, OPEN, Reach, Wintered
from ..solved import SolvedEdge
from .words import far, freezing_basis, reserve, rests, stage_words

ID = "frost.heave"
BESIDE = "open ground"
PASSES = (
    "Foam beside a slab outdoors must reach past its edge by about as far as open ground freezes, {deep} here; this "
    "reaches past it by {out}. "
)
TIED = (
    "A slab that lies shallow must not be tied to a footing that stands deep: the one rises with frost, the other does "
    "not, and something breaks. "
)
CONDITION = (
    "On one condition, which the inspector looks at: {thick} of clean stone that drains, below the build-up and below "
    "what bears, with a way out for the water."
)


@dataclass(frozen=True)
class _Told:
    """One of the three: whether it is there, None where nobody tells, and what is said of it."""

    there: bool | None
    words: str
    asks: str = ""


def heave(resolved: Resolved, solved: SolvedEdge, wintered: Sequence[Wintered]) -> Finding | None:
    """Whether the ground lifts what lies on it.

    Asks
        Are frost, ground that draws water up, and water all there at once below this floor or footing?
    Why
        Frost lifts where all three meet: ice then grows in layers, fed from below. Taking one of them away is enough.
    Worked out
        How far frost goes past the footing's underside, or past the drained layer below a slab, in the worst stage;
        the share of grains finer than 0.02 mm in the ground there; how far below the frost the water stands.
    Holds for
        The question whether, not how much: heave itself depends on load and on how fast water comes.
    Source
        Share of fine grains: TI 850-02 (quoted). Reach of water: common practice, no source.
    """
    frost = resolved.frost
    mine = [each for each in wintered if each.edge == solved.edge.letter]
    if frost is None or not mine:
        return None
    each, reach = max(
        ((each, reach) for each in mine for reach in each.reaches.values() if reach.place != BESIDE),
        key=lambda pair: pair[1].deepest - pair[1].stop,
    )
    past = max(reach.deepest - reach.stop, 0.0)
    edge = solved.edge
    ground = stratum_at(resolved.strata, edge.ground - reach.top + min(reach.stop, 50.0) + 0.01)
    three = (_frost(resolved, each, reach, past), _soil(frost, ground), _water(resolved, frost, solved, reach))
    steps = tuple(
        Step(name, "", "", told.words) for name, told in zip(("frost", "ground", "water"), three, strict=True)
    )
    made = Finding(
        ID,
        "Ground that freezes and may lift, the three together",
        past if all(told.there for told in three) else 0.0,
        "m",
        at={"edge": edge.letter},
        within=reach.within,
        limit=0.0,
        sense="at most",
        basis=(basis("ti-850-02-2000", "6, identifying frost susceptible soils"), *freezing_basis()),
        rests_on=rests(resolved, frost, FINES, WATER, DRAINED, *solved.rests_on),
        steps=steps,
        words=f"{' '.join(told.words for told in three)} {_beside(resolved, solved, mine)}".strip(),
    )
    return _decided(resolved, frost, made, three, next((w for w in mine if w.stage in (IN_USE, OPEN)), mine[0]))


def _decided(resolved: Resolved, frost: Frost, made: Finding, three: tuple[_Told, ...], usual: Wintered) -> Finding:
    """All three there: it falls short. None of a mean year meets. Else the first that nobody tells is asked for."""
    open_ = replace(made, value=None, within=None, limit=None, sense=None)
    if all(told.there for told in three):
        return made
    if frost.index is None:
        return replace(open_, missing=INDEX, words=f"{reserve(resolved, frost, usual)} {made.words}")
    if any(told.there is False for told in three):
        return made
    unknown = next(told for told in three if told.there is None)
    return replace(open_, missing=unknown.asks)


def _frost(resolved: Resolved, each: Wintered, reach: Reach, past: float) -> _Told:
    what = (
        "below what bears"
        if reach.place == "footing"
        else "below its drained layer"
        if reach.stop
        else "below the slab"
    )
    if past <= 0.0:
        return _Told(False, f"Frost: none {what}, in any stage.")
    deep = far(past, resolved)
    return _Told(True, f"Frost: {deep} {what}, {stage_words(each.stage)}.")


def _soil(frost: Frost, ground: Stratum) -> _Told:
    limit = catalogue.fines_limit()
    least = f"ground heaves from {limit.value:g} % on ({limit.low:g} to {limit.high:g} % by its grading)"
    if frost.fines is not None:
        share = 100.0 * frost.fines
        return _Told(share >= limit.value, f"Ground: {share:.3g} % finer than 0.02 mm; {least}.")
    label = ground.slice.label
    if ground.grain in ("fine", "peat"):
        return _Told(True, f"Ground: {label} draws water up; {least}.")
    if ground.grain == "rock":
        return _Told(False, f"Ground: {label} does not heave; silt in open joints does.")
    return _Told(None, f"Ground: nobody tells how much of it is finer than 0.02 mm; {least}.", FINES)


def _water(resolved: Resolved, frost: Frost, solved: SolvedEdge, reach: Reach) -> _Told:
    """Drained stone as deep as the frost keeps water from it; else the water table tells, if it is told."""
    if frost.drained is not None and reach.place != "footing" and reach.deepest <= frost.drained:
        thick = far(frost.drained, resolved)
        return _Told(False, f"Water: kept away. {CONDITION.format(thick=thick)}")
    if frost.drained is not None and reach.place == "footing" and reach.deepest <= reach.stop + frost.drained:
        thick = far(frost.drained, resolved)
        return _Told(False, f"Water: kept away. {CONDITION.format(thick=thick)}")
    if resolved.water is None:
        return _Told(
            None, "Water: nobody tells how deep the ground water stands, or that the ground is drained.", WATER
        )
    beyond = catalogue.water_out_of_reach()
    line = solved.edge.ground - (reach.top - reach.deepest)  # below the finished ground, m
    below = resolved.water.depth - line
    told = far(max(below, 0.0), resolved)
    if below > beyond.value:
        return _Told(False, f"Water: {told} below the frost, too far to be drawn up.")
    return _Told(True, f"Water: {told} below the frost, near enough to be drawn up.")


def _beside(resolved: Resolved, solved: SolvedEdge, mine: Sequence[Wintered]) -> str:
    """Of a slab outdoors: how far its foam passes the edge, and that it must not be tied to what stands deep."""
    if not resolved.outdoors:
        return ""
    deep = max(each.reaches[BESIDE].deepest for each in mine)
    out = max((piece.out or 0.0 for piece in solved.edge.pieces if piece.face == "wing"), default=0.0)
    passes = PASSES.format(deep=far(deep, resolved), out=far(out, resolved))
    return f"{passes if deep > 0.0 else ''}{TIED}".strip()
