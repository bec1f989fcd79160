"""Foam, ground and concrete under all that stands at places of the plan together, the slab one plate."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil

import numpy as np

from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.plates.whole import Stood
from ...resolve import Resolved, Support
from . import bending, foam, punching, settlement, soil
from .bed import Bed
from .carried import weakest
from .joints import bays_of_joints, curling
from .level import steps, tilt
from .limits import KILO, Allowed
from .plan import Part, parts, placed, unknown_board
from .plates import counts_together
from .resistance import Resistance, resistance
from .together import Together, together

ELEMENTS = Basis(
    "Bogner, Fox and Schmit 1965, cubic elements on Winkler's springs",
    "the floor's outline, joints and bays; lift-off",
    "memory",
)


def on_the_plan(resolved: Resolved, support: Support, shears: Sequence[Finding]) -> Iterator[Finding]:
    """Everything that the plan says of its loads together; nothing where it says no more than each load alone.

    ``shears`` is told of each by itself, and may govern.
    """
    if not counts_together(resolved):
        return
    here = placed(resolved)
    every = parts(resolved, support)
    board = unknown_board(every, True) or unknown_board(every, False)
    if board is not None:
        record = board.slice.record
        assert record is not None
        words = (
            f"Nothing is known of how stiff {record.label} is. Ask the maker for its compressive modulus by ASTM D1621 "
            f'or EN 826, and write modulus = {{ {record.key} = "1000 psi" }} in [foam].'
        )
        yield from _untold(f"foam.modulus.{record.key}", words)
        return
    found = together(resolved, support)
    if found is None:
        words = (
            f"{here[0].words[0].upper()}{here[0].words[1:]} and what else stands on the plan reach beside the slab, "
            "stand in a hole of it, or would tip it up. Write where they stand, or a larger slab."
        )
        yield from _untold(f"{here[0].path.removesuffix('.force')}.at", words)
        return
    foams, soils, concretes = [*pressed(resolved, found)], ground(resolved, found), bent(resolved, found)
    settled = [*_settled(resolved, found)]
    said = _governs([*foams, soils, concretes, *shears, *settled])
    yield from (replace(each, words=f"{each.words} {said}") if each.limit is not None else each for each in foams)
    yield soils
    yield replace(concretes, words=f"{concretes.words} {said}{_mend(resolved, found, concretes)}")
    yield from settled
    yield from steps(resolved, found)
    yield from tilt(resolved, found)
    yield from curling(resolved, found)
    yield from bays_of_joints(resolved, found)


def _governs(findings: list[Finding]) -> str:
    """What of all is used up most under all that stands on the plan."""
    parts = {
        foam.LONG: "the foam",
        foam.SHORT: "the foam",
        soil.ID: "the ground",
        bending.ID: "the concrete",
        punching.ID: "the concrete's shear",
        settlement.ID: "the settlement",
    }
    shares: dict[str, float] = {}
    for each in findings:
        if each.value is not None and each.limit:
            part = parts[each.id]
            shares[part] = max(shares.get(part, 0.0), each.value / each.limit)
    first = max(shares, key=lambda part: shares[part])
    told = ", ".join(f"{part} {100.0 * share:.0f} %" for part, share in sorted(shares.items(), key=lambda s: -s[1]))
    of_foam = shares.get("the foam", 0.0)
    begins = "The foam is not the problem: " if first != "the foam" and 0.0 < of_foam <= 1.0 else ""
    governs = f"{begins}{first if begins else first[0].upper() + first[1:]} governs"
    return f"{governs}. Of what each may bear is used: {told}."


def _mend(resolved: Resolved, of: Together, finding: Finding) -> str:
    """About how thick a slab would carry it, where the concrete is used up."""
    if finding.value is None or finding.limit is None or finding.value <= finding.limit:
        return ""
    step = bending.HALF_INCH if resolved.system == "US" else bending.CENTIMETRE
    about = of.parts[0].thickness * (finding.value / finding.limit) ** 0.5
    wants = say.both(step * ceil(about / step), "m", resolved.system)
    dowels = ", dowels in the joints" if any(joint.share < 0.5 for joint in resolved.joints) else ""
    return f" A slab of about {wants} would carry it, or a thicker strip where it is felt{dowels}, or steel."


def _untold(missing: str, words: str) -> Iterator[Finding]:
    for kind, title in ((foam.LONG, foam.TITLES[foam.LONG]), (soil.ID, soil.TITLE), (bending.ID, bending.TITLE)):
        yield Finding(kind, title, None, "kPa", at={"loads": "all", "method": "plate"}, missing=missing, words=words)


def pressed(resolved: Resolved, of: Together) -> Iterator[Finding]:
    """Pressure on the foam of all that stands on the plan, and of all that comes and goes, against what it bears.

    Asks
        Does the foam crush, or creep, where loads stand beside one another, at joints, and where it changes?
    Why
        Neighbours press on the same foam; a joint without dowels is a free edge; beside a soft bay the stiff one takes
        more. A load looked at by itself shows none of it.
    Worked out
        The floor's outline as one plate by elements with lift-off, its thickened edges, columns' holes, joints and
        bays; on both ends of how stiff the bed may be. What the floor itself weighs is in the pressure. What stands
        and what comes and goes are held apart; what lies all over the floor stands in both.
    Holds for
        Concrete that has not cracked; unfactored loads as they stand on the plan. Thickenings count with their flat
        bottom, about their own middle; arcs do not thicken.
    Source
        Bogner, Fox and Schmit 1965; the board's records, EN 13163, EN 1606 and load tables for what it bears.
    """
    for case, found in of.cases:
        if case == "all":
            continue
        standing = case == "standing"
        kind = foam.LONG if standing else foam.SHORT
        at: dict[str, str | float] = {"loads": case, "method": "plate"}
        if not any(part.support.boards for part in of.parts):
            words = f"{of.acting(case)}: no foam lies below this slab."
            yield Finding(kind, foam.TITLES[kind], None, "kPa", at=at, no_limit="does not apply", words=words)
            continue
        bears = [_bears(resolved, part, standing) for part in of.parts]
        if any(part.support.boards and allowed is None for part, allowed in zip(of.parts, bears, strict=True)):
            yield _no_limit(of, at, kind, bears)
            continue
        stress = np.array([allowed.stress if allowed is not None else np.inf for allowed in bears])
        worst, n = _worst(of, found, stress)
        value, part = float(worst.pressure[n]), int(of.part_at(worst.x[n : n + 1], worst.y[n : n + 1])[0])
        allowed = bears[part]
        assert allowed is not None
        said = say.both(value / KILO, "kPa", resolved.system)
        share = 100.0 * value / allowed.stress
        lets_go = " Where the slab would pull on its bed it lifts, which is counted in." if worst.lifted else ""
        yield Finding(
            kind,
            foam.TITLES[kind],
            value / KILO,
            "kPa",
            at=at,
            within=worst.within * value / KILO,
            limit=allowed.stress / KILO,
            sense="at most",
            basis=(ELEMENTS, *allowed.basis, *_bed(of, standing).basis, *_joint_basis(resolved)),
            rests_on=(*_rests_on(resolved, of, standing), *allowed.rests_on),
            steps=(*_bed(of, standing).steps, *_joint_steps(resolved), _field_step(worst, "p", value), *allowed.typed),
            words=f"{of.together(case)}: with the floor's own weight the foam feels {said} at most, "
            f"{of.where(float(worst.x[n]), float(worst.y[n]))}; that is {share:.0f} % of what it bears.{lets_go}",
        )


def _bears(resolved: Resolved, part: Part, standing: bool) -> Allowed | None:
    found = weakest(resolved, part.support, standing=standing)
    return found[1] if found is not None else None


def _no_limit(of: Together, at: dict[str, str | float], kind: str, bears: list[Allowed | None]) -> Finding:
    part = next(part for part, allowed in zip(of.parts, bears, strict=True) if part.support.boards and allowed is None)
    record = part.support.boards[0].slice.record
    assert record is not None
    words = (
        f"What {record.label} may bear cannot be told by the basis that the brief names. Write what an engineer lets "
        f'stand on it: long-term-stress = {{ {record.key} = "8 psi" }} in [foam].'
    )
    missing = f"foam.long-term-stress.{record.key}"
    return Finding(kind, foam.TITLES[kind], None, "kPa", at=at, missing=missing, words=words)


def _worst(of: Together, found: tuple[Stood, Stood], stress: np.ndarray) -> tuple[Stood, int]:
    """Where the pressure comes nearest to what may press there."""
    shares = [each.pressure / stress[of.part_at(each.x, each.y)] for each in found]
    which = int(np.argmax([share.max() for share in shares]))
    return found[which], int(shares[which].argmax())


def ground(resolved: Resolved, of: Together) -> Finding:
    """Pressure on the ground of all that is on the floor together against what may press on it.

    Asks
        Does the ground give way where loads stand beside one another, at joints, and where it is softer?
    Why
        Soft ground is the real limit more often than foam is, and stiff ground beside it takes the load first.
    Worked out
        As the pressure on the foam, with what lies between foam and ground besides.
    Holds for
        Compacted ground that is not frozen; unfactored loads. The gravel spreads the pressure further, which is not
        counted.
    Source
        Bogner, Fox and Schmit 1965; the soils report, or the presumptive table of IRC R401.4.1.
    """
    best: tuple[float, str, Stood, int, int] | None = None
    for case, pair in of.cases:
        for each in pair:
            part = of.part_at(each.x, each.y)
            below = np.array([p.support.whole_weight - p.support.own_weight for p in of.parts])[part]
            bears = np.array([p.support.ground.bearing for p in of.parts])[part]
            share = (each.pressure + below) / bears
            n = int(share.argmax())
            if best is None or share[n] > best[0]:
                best = (float(share[n]), case, each, n, int(part[n]))
    assert best is not None
    share_of_it, case, found, n, part_number = best
    support = of.parts[part_number].support
    value = float(found.pressure[n]) + support.whole_weight - support.own_weight
    said = say.both(value / KILO, "kPa", resolved.system)
    standing = case == "standing"
    return Finding(
        soil.ID,
        soil.TITLE,
        value / KILO,
        "kPa",
        at={"loads": case, "method": "plate"},
        within=found.within * value / KILO,
        limit=support.ground.bearing / KILO,
        sense="at most",
        basis=(ELEMENTS, *support.ground.bearing_basis, *_bed(of, standing).basis, *_joint_basis(resolved)),
        rests_on=(support.ground.bearing_path, *_rests_on(resolved, of, standing)),
        steps=(
            *_bed(of, standing).steps,
            *_joint_steps(resolved),
            _field_step(found, "p", value),
            Step("p_0", "what the ground bears", "", f"{fixed(support.ground.bearing / KILO, 1)} kPa"),
        ),
        words=f"{of.together(case)}: with the whole floor's weight the ground feels {said} at most, "
        f"{of.where(float(found.x[n]), float(found.y[n]))}; that is {100.0 * share_of_it:.0f} % of what it bears.",
    )


def bent(resolved: Resolved, of: Together) -> Finding:
    """Largest tension of the concrete under all that is on the floor together against its rupture over a factor.

    Asks
        Does the slab crack where loads stand beside one another, at joints, edges and columns?
    Why
        Between two posts the top is pulled by both; at a joint that hands nothing on, the slab ends.
    Worked out
        What stands, what comes and goes, and both, each on the softest and the stiffest bed; the largest tension at
        top and underside counts. Rupture by ACI 318 over the safety factor of ACI 360R; where the brief names another
        method, all loads with the largest of their factors, held to what plain concrete bears by that code.
    Holds for
        Plain concrete; loads as they stand on the plan. Shrinkage and curling bring tension of their own,
        which the factor stands for.
    Source
        Bogner, Fox and Schmit 1965; ACI 318 for the rupture, ACI 360R for the factor.
    """
    best: tuple[float, str, Stood, int, bool] | None = None
    for case, pair in of.cases:
        for each in pair:
            for top, field in ((False, each.below), (True, each.above)):
                n = int(field.argmax())
                if best is None or field[n] > best[0]:
                    best = (float(field[n]), case, each, n, top)
    assert best is not None
    tension, case, found, n, top = best
    tension = max(tension, 0.0)
    holds = concrete_held(resolved, of)
    value = holds.on_load * tension
    standing = case == "standing"

    def both(stress: float) -> str:
        return say.both(stress / KILO, "kPa", resolved.system)

    factored = ""
    if holds.on_load != 1.0:
        factored = f" With the largest factor of its loads that is {both(value)}, of {both(holds.bending)} that may be."
    return Finding(
        bending.ID,
        bending.TITLE,
        value / KILO,
        "kPa",
        at={"loads": case, "method": "plate"},
        within=found.within * value / KILO,
        limit=holds.bending / KILO,
        sense="at most",
        basis=(ELEMENTS, *holds.basis, *_bed(of, standing).basis, *_joint_basis(resolved)),
        rests_on=(*_rests_on(resolved, of, standing), *holds.rests_on),
        steps=(
            *_bed(of, standing).steps,
            *_joint_steps(resolved),
            Step("σ", "6 M / h² by elements", _cells(found), f"{fixed(tension / 1e6, 2)} MPa"),
            *holds.steps,
        ),
        words=f"{of.together(case)}: the concrete feels {both(tension)} at its {'top' if top else 'underside'}, "
        f"{of.where(float(found.x[n]), float(found.y[n]))}. It cracks at about {both(holds.rupture)}; "
        f"{both(holds.bending / holds.on_load)} may be used ({holds.said}).{factored}",
    )


def concrete_held(resolved: Resolved, of: Together) -> Resistance:
    """How the concrete is held to all of them: by the method of the brief, with the largest factor of any load."""
    support = of.parts[0].support
    every = [resistance(support, load) for load in resolved.loads if not load.before_pour]
    return max(every, key=lambda each: each.on_load)


def _settled(resolved: Resolved, of: Together) -> Iterator[Finding]:
    """How far the floor goes down under all that stands on it, when it comes and after fifty years."""
    told = [("now", of.now, False)]
    if of.standing is not None and of.beds[True].years:
        told.append(("50 years", of.standing[0], True))
    for after, found, years in told:
        if found is None or of.standing is None:
            continue
        n = int(found.settlement.argmax())
        value = float(found.settlement[n])
        when = "when it comes" if after == "now" else "after fifty years, creep counted in"
        limit = settlement.most()
        yield Finding(
            settlement.ID,
            settlement.TITLE,
            1000.0 * value,
            "mm",
            at={"loads": "standing", "after": after},
            within=1000.0 * found.within * value,
            limit=1000.0 * limit.value,
            sense="at most",
            basis=(ELEMENTS, limit.basis(), *_bed(of, years).basis, *_joint_basis(resolved)),
            rests_on=(*_rests_on(resolved, of, years), limit.path),
            steps=(*_bed(of, years).steps, Step("w", "on the softest bed", "", f"{fixed(1000.0 * value, 2)} mm")),
            words=f"{of.acting('standing')}: the floor goes down "
            f"{say.both(1000.0 * value, 'mm', resolved.system)} {when}, "
            f"{of.where(float(found.x[n]), float(found.y[n]))}.",
        )


def _bed(of: Together, standing: bool) -> Bed:
    return of.beds[standing]


def _rests_on(resolved: Resolved, of: Together, standing: bool) -> tuple[str, ...]:
    paths = [each.path for each in of.placed]
    paths += [each.path for each in resolved.joints] + [part.path for part in of.parts[1:]]
    return tuple(dict.fromkeys((*paths, *of.parts[0].support.concrete.paths, *of.beds[standing].rests_on)))


def _joint_basis(resolved: Resolved) -> tuple[Basis, ...]:
    found = [basis for joint in resolved.joints for basis in joint.basis]
    crovetti = Basis("Crovetti 1994, fit of joints on plates by elements", "stiffness by the share handed on", "memory")
    return tuple(dict.fromkeys((*found, crovetti))) if found else ()


def _joint_steps(resolved: Resolved) -> tuple[Step, ...]:
    return tuple(
        Step(
            f"joint {joint.number}",
            "settlement handed on to the other side",
            joint.words,
            f"{100.0 * joint.share:.0f} %",
        )
        for joint in resolved.joints
    )


def _field_step(found: Stood, symbol: str, value: float) -> Step:
    return Step(symbol, "k × settlement by elements", _cells(found), f"{fixed(value / KILO, 2)} kPa")


def _cells(found: Stood) -> str:
    return f"largest of {len(found.x)} places; may be off by {100.0 * found.within:.0f} %"
