"""Whether the floor stays level enough: beside walls that do not go down with it, at joints, and for its finish."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from ... import catalogue
from ...catalogue.records import Quantity
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.plates import joints
from ...resolve import Resolved, ResolvedEdge
from .together import Together

STEP, STEP_TITLE = "bearing.step", "Step of the floor beside what does not go down with it"
TILT, TILT_TITLE = "bearing.tilt", "Tilt of the floor beside what stands on it"
BRITTLE = ("tile", "stone", "terrazzo")
ROLLING = ("wheel", "axle", "vehicle")
PLATE = Basis("Bogner, Fox and Schmit 1965, cubic elements on Winkler's springs", "settlement at both sides", "memory")


def steps(resolved: Resolved, of: Together) -> Iterator[Finding]:
    """Step beside walls on footings of their own, and at joints, against what the joint bears.

    Asks
        Does the sealed joint beside the wall tear, and do wheels break the edges of the floor's own joints?
    Why
        Foam lets the slab go down beside a footing that stays where it is.
    Worked out
        Settlement along each such edge and at both sides of each joint, on the softest bed: what stands after decades,
        and all that is there together; the larger counts. What the footing settles itself is not taken off.
    Holds for
        Loads as they stand on the plan. Shrinkage opens joints besides, and a wheel that stands on a joint steps it
        more than one beside it: write it where it goes.
    Source
        ASTM C920 for the sealant's stretch; ACI 360R for joints under wheels (both from memory).
    """
    for edge in resolved.edges:
        if edge.letter in of.rims and edge.gap is not None:
            yield _beside(resolved, of, edge, edge.gap)
    for joint in resolved.joints:
        places = [(one, other) for number, one, other in of.sides if number == joint.number]
        if not places:
            continue
        value = max(abs(float(w[one] - w[other])) for w in _settled(of) for one, other in places)
        limit = _under_wheels(resolved)
        said = say.both(1000.0 * value, "mm", resolved.system)
        bears = "" if limit is None else f" {limit.where[0].upper()}{limit.where[1:]}."
        yield Finding(
            STEP,
            STEP_TITLE,
            1000.0 * value,
            "mm",
            at={"joint": joint.number},
            within=1000.0 * 0.06 * value,
            limit=None if limit is None else 1000.0 * limit.value,
            sense=None if limit is None else "at most",
            basis=(PLATE, *joint.basis, *(() if limit is None else (limit.basis(),))),
            rests_on=(*joint.rests_on, *of.beds[True].rests_on),
            steps=(
                Step("s", "settlement of one side − that of the other", joint.words, f"{fixed(1000.0 * value, 2)} mm"),
            ),
            words=f"At joint {joint.number} ({joint.words}) one side goes down {said} more than the other under all "
            f"that stands on the plan.{bears}",
        )


def _settled(of: Together) -> list[NDArray[np.float64]]:
    found = [*(pair[0] for _, pair in of.cases), *((of.now,) if of.now is not None else ())]
    return [each.settlement for each in found]


def _beside(resolved: Resolved, of: Together, edge: ResolvedEdge, gap: float) -> Finding:
    value = max(float(w[of.rims[edge.letter]].max(initial=0.0)) for w in _settled(of))
    sealant = catalogue.of_slabs("sealant-stretch")
    limit = float(joints.step_borne(gap, sealant.value))
    said, wide = say.both(1000.0 * value, "mm", resolved.system), say.both(gap, "m", resolved.system)
    helps = " A wider joint, stronger or thinner foam near the wall, or a thicker slab helps." if value > limit else ""
    return Finding(
        STEP,
        STEP_TITLE,
        1000.0 * value,
        "mm",
        at={"edge": edge.letter},
        within=1000.0 * 0.06 * value,
        limit=1000.0 * limit,
        sense="at most",
        basis=(PLATE, sealant.basis()),
        rests_on=(f"{edge.path}.gap", sealant.path, *of.beds[True].rests_on, *(each.path for each in of.placed)),
        steps=(
            Step(
                "s", "settlement of the slab's edge, the wall staying where it is", "", f"{fixed(1000.0 * value, 2)} mm"
            ),
            Step(
                "s_0",
                "w √((1 + stretch)² − 1)",
                f"{fixed(1000.0 * gap, 1)} mm, {fixed(100.0 * sealant.value, 0)} %",
                f"{fixed(1000.0 * limit, 2)} mm",
            ),
        ),
        words=f"At edge {edge.letter} the slab goes down {said} beside a wall that stays where it is. A sealed joint "
        f"of {wide} bears {say.both(1000.0 * limit, 'mm', resolved.system)}.{helps}",
    )


def _under_wheels(resolved: Resolved) -> Quantity | None:
    """What step of a joint the hardest wheel of the brief bears; None where nothing rolls."""
    rolling = [load for load in resolved.loads if load.kind in ROLLING and not load.standing and load.patches]
    if not rolling:
        return None
    hardest = max(patch.pressure for load in rolling for patch in load.patches)
    hard = hardest >= 1000.0 * catalogue.of_slabs("hard-wheel").value
    return catalogue.of_slabs("step-hard-wheels" if hard else "step-soft-wheels")


def tilt(resolved: Resolved, of: Together) -> Iterator[Finding]:
    """Steepest tilt of the floor beside what stands on it against what its finish, or a wall on it, bears.

    Asks
        Do tiles, terrazzo or walls on the floor crack where it goes down beside a load?
    Why
        Foam goes down under posts and wall lines and not beside them, and goes on doing so for decades.
    Worked out
        The steepest slope of the plate on the softest bed under all that stands, after decades of creep where that is
        known. Walls that stand on the floor count as brittle.
    Holds for
        Loads as they stand on the plan; what the floor tilted before the finish was laid is not taken off.
    Source
        Skempton and MacDonald 1956, tilt between neighbours: 1 in 300 first cracks, 1 in 500 safe (from memory).
    """
    if of.standing is None:
        return
    found = of.standing[0]
    n = int(found.tilt.argmax())
    value = float(found.tilt[n])
    walls = any(load.kind == "line" and load.place == "plan" for load in resolved.loads)
    brittle = resolved.finish in BRITTLE or walls
    limit = catalogue.of_slabs("tilt-brittle" if brittle else "tilt-bare")
    what = (
        resolved.finish if resolved.finish in BRITTLE else "a wall on it" if walls else "a floor without brittle finish"
    )
    one_in = f"1 in {round(1.0 / value):,}" if value > 1e-6 else "level"
    yield Finding(
        TILT,
        TILT_TITLE,
        100.0 * value,
        "%",
        at={"loads": "standing"},
        within=100.0 * 0.06 * value,
        limit=100.0 * limit.value,
        sense="at most",
        basis=(PLATE, limit.basis()),
        rests_on=("floor.finish", limit.path, *of.beds[True].rests_on, *(each.path for each in of.placed)),
        steps=(Step("tan φ", "steepest slope of the plate", "on the softest bed", f"{fixed(1000.0 * value, 2)} mm/m"),),
        words=f"{of.acting('standing')}: beside them the floor tilts by {one_in} at most, "
        f"{of.where(float(found.x[n]), float(found.y[n]))}; for {what} 1 in {round(1.0 / limit.value)} is taken.",
    )
