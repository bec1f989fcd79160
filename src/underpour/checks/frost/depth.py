"""How deep frost goes at each edge, worked out day by day, in every stage that the brief names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...findings import Finding, Step
from ...measure.digits import fixed
from ...physics.frost import depth as formula
from ...physics.year import YEAR, month_of
from ...resolve import Resolved
from ...resolve.frost import DRAINED, INDEX, Frost
from ..basis import basis
from ..frozen import IN_USE, OPEN, Reach, Wintered
from ..solved import SolvedEdge, floor_rests_on
from .words import far, freezing_basis, reserve, rests, stage_words, when, winter_steps

ID = "frost.depth"
COLD_ROOM = "The room is taken to be as cold as outdoors then: what walls and things hold is not counted. "
TITLES = {
    "footing": "Deepest frost at the footing",
    "middle": "Deepest frost in the ground below the middle of the slab",
    "edge": "Deepest frost in the ground below the edge of the slab",
    "open ground": "Deepest frost in open ground",
}


def depths(resolved: Resolved, solved: SolvedEdge, wintered: Sequence[Wintered]) -> Iterator[Finding]:
    """How deep the 0 °C line goes at what bears, and in the ground beside it.

    Asks
        How deep does the ground freeze at this footing, or below this slab, in each stage?
    Why
        Ground that freezes below what bears lifts it, and lets it down crooked in spring. The first winter, before
        there is heat, is often the worst.
    Worked out
        The section, frozen and thawed day by day through a year that swings as a cosine and has the index of the
        design winter. The deepest 0 °C line in the columns below the footing, counted from the ground outside.
        Open ground three metres beyond everything that is built, with Stefan's, Berggren's and the standard's depths.
    Holds for
        One winter after years of mean weather; conduction alone, with no water drawn up and no ground lifted. The
        room is as cold as outdoors while it is not heated. Snow and turf by their factors.
    Source
        Heat in place of temperature: Swaminathan and Voller 1992; design winter: ISO 13793.
    """
    frost = resolved.frost
    if frost is None:
        return
    for each in (each for each in wintered if each.edge == solved.edge.letter):
        for reach in each.reaches.values():
            if reach.place == "open ground":
                if frost.index is not None and each.stage in (IN_USE, OPEN):
                    yield _open_ground(resolved, frost, solved, each, reach)
            elif frost.index is not None or not resolved.outdoors:
                yield _below(resolved, frost, solved, each, reach)


def _below(resolved: Resolved, frost: Frost, solved: SolvedEdge, each: Wintered, reach: Reach) -> Finding:
    """At the footing against its underside; below a slab outdoors against its drained layer, where there is one."""
    bears = reach.place == "footing"
    limit = reach.stop if bears or frost.drained is not None else None
    edge = solved.edge
    more = (f"{edge.path}.depth", f"{edge.path}.ground") if bears else (DRAINED,) if limit is not None else ()
    made = Finding(
        ID,
        f"{TITLES[reach.place]}, {stage_words(each.stage)}",
        reach.deepest,
        "m",
        at={"edge": edge.letter, "stage": each.stage, "place": reach.place},
        within=reach.within,
        month=month_of(reach.day) if reach.deepest > 0.0 else None,
        limit=limit,
        sense=None if limit is None else "at most",
        basis=freezing_basis(),
        rests_on=rests(resolved, frost, *more, *solved.rests_on, *floor_rests_on(resolved)),
        steps=(*winter_steps(resolved, frost, each), _deepest(reach)),
        words=_words(resolved, each, reach, limit),
    )
    if frost.index is None and made.verdict != "falls short":
        words = reserve(resolved, frost, each if each.harms_from is not None or each.stage in (IN_USE, OPEN) else None)
        return replace(made, value=None, within=None, month=None, limit=None, sense=None, missing=INDEX, words=words)
    if frost.index is None:
        return replace(made, words=f"{made.words} {reserve(resolved, frost, None)}")
    return made


def _words(resolved: Resolved, each: Wintered, reach: Reach, limit: float | None) -> str:
    cold = COLD_ROOM if each.stage in ("poured", "roofed", "heat-out") else ""
    if reach.deepest <= 0.0:
        return f"{cold}No frost comes there."
    if limit is None:
        return f"{cold}It is deepest {when(reach)}."
    gap = far(abs(reach.deepest - limit), resolved)
    what = "the underside of what bears" if reach.place == "footing" else "the drained layer"
    side = "below" if reach.deepest > limit else "above"
    near = " That is nearer than this is sure." if abs(reach.deepest - limit) < reach.within else ""
    return f"{cold}It ends {gap} {side} {what}, {when(reach)}.{near}"


def _deepest(reach: Reach) -> Step:
    return Step(
        "z", "deepest 0 °C line of all days, below the level from which it counts", f"level {fixed(reach.top, 3)} m",
        f"{fixed(reach.deepest, 3)} m",
    )  # fmt: skip


def _open_ground(resolved: Resolved, frost: Frost, solved: SolvedEdge, each: Wintered, reach: Reach) -> Finding:
    """Stated, with the formulas beside it."""
    made = Finding(
        ID,
        f"{TITLES[reach.place]}, design winter",
        reach.deepest,
        "m",
        at={"edge": solved.edge.letter, "stage": each.stage, "place": reach.place},
        within=reach.within,
        month=month_of(reach.day) if reach.deepest > 0.0 else None,
        basis=(*freezing_basis(), basis("tm-5-852-6-1988", "Stefan, modified Berggren")),
        rests_on=rests(resolved, frost),
        steps=(*winter_steps(resolved, frost, each), *by_formula(resolved, frost, each.index), _deepest(reach)),
    )
    told = "; ".join(f"{step.symbol} {step.result}" for step in by_formula(resolved, frost, each.index))
    return replace(made, words=f"Three metres beyond what is built, deepest {when(reach)}. By formula: {told}.")


def by_formula(resolved: Resolved, frost: Frost, index: float) -> tuple[Step, ...]:
    """Open ground by Stefan, by Berggren and by ISO 13793, each in its own steps."""
    from ...physics.frost.winter import amplitude_of

    icy, ground, mean = frost.icy[0], resolved.ground, resolved.outdoor_mean
    at_surface = index * frost.freezing
    if at_surface <= 0.0 or icy.water <= 0.0:
        return ()
    latent = icy.water * formula.FUSION * (1.0 - icy.unfrozen)
    stefan = formula.stefan_depth(icy.frozen_conductivity, at_surface, latent)
    amplitude = amplitude_of(mean, index)
    season = _season(mean, amplitude)
    cold = at_surface / season
    capacity = (ground.heat_capacity + icy.frozen_heat_capacity) / 2.0
    ratio, fusion = formula.thermal_ratio(max(mean, 0.0), cold), formula.fusion_parameter(cold, capacity, latent)
    factor = formula.berggren_factor(ratio, fusion)
    numbers = f"{icy.frozen_conductivity:.3g} W/(m·K), {at_surface / 86400.0:.0f} K·d, {latent / 1e6:.0f} MJ/m³"
    steps = [
        Step("Stefan", "√(2 λ F / L)", numbers, f"{fixed(stefan, 2)} m"),
        Step("Berggren", "Stefan's × 1 / √(1 + μ (α + 0.5))", f"α {ratio:.2f}, μ {fusion:.2f}, factor {factor:.2f}",
             f"{fixed(stefan * factor, 2)} m"),
    ]  # fmt: skip
    if mean > 0.0:
        standard = formula.undisturbed_depth(index, mean, icy.frozen_conductivity, ground.heat_capacity, latent)
        steps.append(
            Step(
                "ISO 13793",
                "H₀ = √(2 λ F / (L + C θ)), bare ground",
                f"θ {fixed(mean, 1)} °C",
                f"{fixed(standard, 2)} m",
            )
        )
    return tuple(steps)


def _season(mean: float, amplitude: float) -> float:
    """How long a year that swings as a cosine lies below freezing. [s]"""
    from math import acos, pi

    return YEAR * acos(min(max(mean / amplitude, -1.0), 1.0)) / pi
