"""A load that may come anywhere: foam, ground and concrete at the place of the floor that is worst for each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.domain import OutOfDomain
from ...physics.plates import felt, joints, westergaard
from ...physics.plates.plate import StillLifting
from ...physics.plates.slab import Joint, Pressed
from ...resolve import Resolved, ResolvedJoint, ResolvedLoad, Support
from ...resolve.loads import Place
from . import punching
from .bed import bed
from .bending import WESTERGAARD, contact
from .carried import Carried, carried
from .foam import PLATE
from .limits import KILO
from .plates import Plate, modulus, plain_slab, plate_under, pressed_by, radius, slab_weight

ID, TITLE = "bearing.worst-place", "What a load does at the worst place that it may come to"
ROLLS = ("wheel", "axle", "vehicle")
PLACES: tuple[tuple[Place, str], ...] = (
    ("middle", "in the middle"),
    ("edge", "at an edge"),
    ("corner", "in a corner"),
)
CROVETTI = Basis("Crovetti 1994, fit of joints on plates by elements", "stiffness by the share handed on", "memory")


@dataclass(frozen=True, slots=True)
class _Place:
    """The load at one place of the floor."""

    words: str  # "in a corner", "on joint 1 (dowels, 85 %)"
    of: Carried
    shear: tuple[float, float] | None  # Pa, felt and may be
    held: bool = True  # else told for comparison only


@dataclass(frozen=True, slots=True)
class _Told:
    """One part of the floor: what it feels and may feel at each place. [Pa]"""

    part: str  # as ``at.of`` has it
    name: str  # in words
    at: tuple[tuple[_Place, float, float], ...]

    @property
    def worst(self) -> tuple[_Place, float, float]:
        held = [each for each in self.at if each[0].held]
        return max(held, key=lambda each: each[1] / each[2] if each[2] else np.inf)


def at_worst(resolved: Resolved, support: Support, load: ResolvedLoad) -> Iterator[Finding]:
    """Foam, ground and concrete under a load that may come anywhere, each at the place that is worst for it.

    Asks
        Does the floor carry what rolls where it is worst for it: in a corner, at an edge, on a joint?
    Why
        A forklift that crosses a floor comes to its weakest place, and a formula for the middle knows nothing of it:
        at a free edge the concrete feels about twice as much, and so does a joint that hands nothing on.
    Worked out
        The same load in the middle (exact patches), at the edge that is thickened least, in a corner, and on each
        joint of the brief, all of its wheels along it, with what the joint hands on: plates by elements with lift-off
        on the softest and the stiffest bed. Each joint is also told as if it handed nothing on.
    Holds for
        Straight edges and joints, right-angled corners, one such load at a time; concrete that has not cracked.
    Source
        Westergaard 1926, Bogner, Fox and Schmit 1965; Crovetti 1994 for joints; what each may bear as elsewhere.
    """
    if not load.anywhere:
        return
    places = list(_places(resolved, support, load))
    if any(each is None for each in places):
        words = f"{load.words}: at an edge or in a corner it would tip this slab up. Write where it comes at most."
        for part in ("foam", "ground", "concrete"):
            at: dict[str, str | float] = {"load": load.number, "of": part}
            yield Finding(ID, TITLE, None, "kPa", at=at, missing=f"{load.path}.at", words=words)
        return
    for told in _parts([each for each in places if each is not None]):
        yield _held(resolved, load, told)


def _places(resolved: Resolved, support: Support, load: ResolvedLoad) -> Iterator[_Place | None]:
    lies = bed(support, load.standing)
    for place, words in PLACES:
        there = replace(load, place=place, at=None, edge="")
        plates = tuple(plate_under(resolved, support, there, k) for k in (lies.soft, lies.stiff))
        yield _found(resolved, support, there, words, plates)
    for joint in resolved.joints:
        there = replace(load, place="edge", at=None, edge="")
        shares = {joint.share: (f"on joint {joint.number} ({joint.words})", True)}
        if joint.share > 0.0:
            shares[0.0] = (f"on joint {joint.number}, were it to hand nothing on", False)
        for share, (words, held) in shares.items():
            plates = tuple(on_joint(support, load, k, share) for k in (lies.soft, lies.stiff))
            yield _found(resolved, support, there, words, plates, held)


def _found(
    resolved: Resolved,
    support: Support,
    load: ResolvedLoad,
    words: str,
    plates: tuple[Plate | None, ...],
    held: bool = True,
) -> _Place | None:
    soft, stiff = plates
    if soft is None or stiff is None:
        return None
    of = carried(resolved, support, load, bed(support, load.standing), (soft, stiff))
    return _Place(words, of, punching.worst(resolved, of), held)


def on_joint(support: Support, load: ResolvedLoad, foundation: float, share: float) -> Plate | None:
    """The slab along a joint, the load touching it from one side with all of its patches."""
    far, pressed = radius(support, foundation), pressed_by(support, load)
    corners = np.array([corner for each in pressed for corner in each.outline])
    along = float(np.abs(corners[:, 0]).max()) + felt.REACH * far
    deep = float(np.ptp(corners[:, 1])) + felt.REACH * far
    up = -float(corners[:, 1].min())
    moved = tuple(Pressed(tuple((x, y + up) for x, y in each.outline), each.pressure) for each in pressed)
    ring = ((-along, -deep), (along, -deep), (along, deep), (-along, deep))
    stiff = float(joints.stiffness_by_transfer(min(share, 0.999), foundation, far))
    slab = replace(plain_slab(support, foundation, ring), joints=(Joint("y", 0.0, stiff),))
    try:
        return Plate(felt.with_edges(slab, moved, slab_weight(support)), far, "a plate by elements along a joint", True)
    except (OutOfDomain, StillLifting):
        return None


def _parts(places: list[_Place]) -> Iterator[_Told]:
    if all(each.of.for_foam is not None for each in places):
        yield _Told("foam", "the foam", tuple((p, p.of.pressure, p.of.for_foam or 0.0) for p in places))
    yield _Told("ground", "the ground", tuple((p, p.of.pressure, p.of.for_ground) for p in places))
    yield _Told(
        "concrete", "the concrete", tuple((p, p.of.holds.on_load * p.of.tension, p.of.holds.bending) for p in places)
    )
    shears = tuple((p, *p.shear) for p in places if p.shear is not None)
    if shears:
        yield _Told("shear", "the concrete round what presses", shears)


def _held(resolved: Resolved, load: ResolvedLoad, told: _Told) -> Finding:
    place, value, limit = told.worst
    of = place.of

    def both(stress: float) -> str:
        return say.both(stress / KILO, "kPa", resolved.system)

    others = "; ".join(f"{each.words} {both(felt_there)}" for each, felt_there, _ in told.at if each is not place)
    joint = "" if resolved.joints else " The brief names no joints."
    words = (
        f"{load.words}, wherever it comes: {told.name} feels most {place.words}, {both(value)} of {both(limit)} that "
        f"may be. Elsewhere: {others}.{joint}"
    )
    within = 0.0 if told.part == "shear" else max(p.felt.within for p in of.plates or ()) * value
    return Finding(
        ID,
        TITLE,
        value / KILO,
        "kPa",
        at={"load": load.number, "of": told.part},
        within=within / KILO,
        limit=limit / KILO,
        sense="at most",
        basis=(PLATE, *_joints_basis(resolved.joints), *_limit_basis(of, told.part), *of.bed.basis),
        rests_on=(
            f"{load.path}.at",
            load.path,
            *of.support.concrete.paths,
            *of.bed.rests_on,
            *(joint.path for joint in resolved.joints),
            *_limit_rests_on(of, told.part),
        ),
        steps=(
            *of.bed.steps,
            *(
                Step(
                    "τ" if told.part == "shear" else "σ" if told.part == "concrete" else "p",
                    each.words,
                    f"of {fixed(bears / KILO, 1)} kPa" if each.held else "told only",
                    f"{fixed(felt_there / KILO, 1)} kPa",
                )
                for each, felt_there, bears in told.at
            ),
        ),
        words=words,
    )


def _joints_basis(every: tuple[ResolvedJoint, ...]) -> tuple[Basis, ...]:
    return tuple(dict.fromkeys((*(b for joint in every for b in joint.basis), CROVETTI))) if every else ()


def _limit_basis(of: Carried, part: str) -> tuple[Basis, ...]:
    if part == "foam" and of.weakest is not None:
        return of.weakest[1].basis
    if part == "ground":
        return of.support.ground.bearing_basis
    return of.holds.basis


def _limit_rests_on(of: Carried, part: str) -> tuple[str, ...]:
    if part == "foam" and of.weakest is not None:
        return of.weakest[1].rests_on
    if part == "ground":
        return (of.support.ground.bearing_path,)
    return of.holds.rests_on


def by_hand(resolved: Resolved, support: Support, load: ResolvedLoad) -> Iterator[Finding]:
    """The concrete under what rolls, by hand in the middle, at an edge and in a corner, where one place is typed.

    Asks
        What would this wheel do elsewhere than where it is typed?
    Why
        What rolls seldom stays where a plan has it.
    Worked out
        Westergaard for the heaviest patch alone, as a circle of its area, on the softest bed, without factors.
    Holds for
        A slab of one thickness; patches smaller than the radius of relative stiffness. At a joint that hands nothing
        on as at an edge. It is told, and held to no limit.
    Source
        Westergaard 1926, 1948.
    """
    if load.anywhere or load.kind not in ROLLS or load.standing or not load.patches:
        return
    k, h = bed(support, load.standing).soft, support.concrete.thickness
    nu, far = catalogue.of_slabs("poisson").value, radius(support, k)
    force, wide = load.force, contact(load)
    try:
        found = {
            "in the middle": westergaard.interior(force, wide, h, nu, far, k).stress,
            "at an edge": westergaard.edge(force, wide, h, nu, modulus(support), far, k).stress,
            "in a corner": westergaard.corner(force, wide, h, far, k).stress,
        }
    except OutOfDomain:
        return  # a patch too wide for the formulas
    stresses = {place: float(each) for place, each in found.items()}
    worst = max(stresses, key=lambda place: stresses[place])

    def both(stress: float) -> str:
        return say.both(stress / KILO, "kPa", resolved.system)

    told = ", ".join(f"{both(stress)} {place}" for place, stress in stresses.items())
    words = (
        f"{load.words}: by Westergaard's formulas the concrete would feel {told} of one wheel alone, most {worst}. "
        f'It is held to its limit {load.where}; at = "anywhere" has it held at every place, on joints too.'
    )
    yield Finding(
        ID,
        TITLE,
        stresses[worst] / KILO,
        "kPa",
        at={"load": load.number, "of": "concrete", "method": "westergaard"},
        within=0.0,
        basis=(WESTERGAARD,),
        rests_on=(load.path, *support.concrete.paths),
        steps=tuple(
            Step(
                "σ",
                f"Westergaard, {place}",
                f"P {fixed(force / KILO, 2)} kN, a {fixed(wide, 3)} m, l {fixed(far, 3)} m",
                f"{fixed(stress / KILO, 1)} kPa",
            )
            for place, stress in stresses.items()
        ),
        words=words,
    )
