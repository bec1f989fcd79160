"""Whether a load punches through the slab: shear along a perimeter round what presses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from ... import catalogue
from ...findings import Finding, Step
from ...measure.digits import fixed
from ...outlines.side import Side
from ...physics.plates import patches, plain, punching
from ...physics.plates.punching import Perimeter
from ...resolve import Resolved, Support
from .carried import Carried
from .limits import KILO
from .plates import radius
from .resistance import MEGA, PUNCHED_ACI, PUNCHED_EN

ID, TITLE = "bearing.punching", "Shear of the slab round what presses"
OFFS = (0.5, 1.0, 1.5, 2.0)  # depths from the load, at which EN 1992-1-1 is looked at
TOUCHES = 1e-3  # m


@dataclass(frozen=True, slots=True)
class _Pressing:
    """One patch, or several so near that one perimeter goes round all of them."""

    x: tuple[float, float]  # m, from and to
    y: tuple[float, float]
    force: float  # N
    count: int

    @property
    def sides(self) -> tuple[float, float]:
        return self.x[1] - self.x[0], self.y[1] - self.y[0]


@dataclass(frozen=True, slots=True)
class _Shear:
    """One perimeter, with what it feels and bears. [Pa]"""

    around: _Pressing
    line: Perimeter
    depth: float  # m
    off: float  # m from the load to the line
    sure: float  # pressure from below that is sure within it
    times: float  # what the force is multiplied by
    limit: float
    of: str  # "half a thickness round it", "at its very face"

    @property
    def value(self) -> float:
        force = self.around.force - self.sure * self.line.area
        return self.times * force / (self.line.length * self.depth)

    @property
    def share(self) -> float:
        return self.value / self.limit


def code(support: Support) -> str:
    """Whose rule is taken."""
    return "en-1992" if support.concrete.method == catalogue.EN_1990 else "aci-318"


def by_code(resolved: Resolved, of: Carried) -> Finding:
    """Shear along the worst perimeter round one load against what plain concrete bears there.

    Asks
        Does this load punch through the slab?
    Why
        A post on a small plate, or a wheel near an edge, can push a cone out of a thin slab before it bends enough to
        be seen; steel in the middle of a slab does little against it.
    Worked out
        Force over perimeter and depth. By allowable stress and by ACI 318: half a thickness from the load, what plain
        concrete bears in two directions. By EN 1990: up to twice the depth from the load, and crushing at its face.
        Beside an edge the perimeter ends there where that is shorter. The pressure from below is taken off only
        where it is sure: far from edges and without a pad, as small as it is at the perimeter's corners on the softest
        or stiffest bed. A pad is looked at as well: what stands on it through the pad, the pad out of the slab.
    Holds for
        Concrete without steel against shear, a load that presses evenly and turns nothing; a post that also bends
        the slab punches sooner. Patches whose perimeters meet count as one.
    Source
        ACI 318-19 Table 14.5.5.1; EN 1992-1-1 6.4; the safety factor of ACI 360R by allowable stress (from memory).
    """
    at: dict[str, str | float] = {"load": of.load.number, "method": code(of.support)}
    if of.load.length:
        words = f"{of.load.words}: a line presses along all of its length; it bends the slab and punches nothing out."
        return Finding(ID, TITLE, None, "kPa", at=at, no_limit="does not apply", words=words)
    worst = max(_shears(resolved, of), key=lambda each: each.share)
    return _told(of, at, worst)


def worst(resolved: Resolved, of: Carried) -> tuple[float, float] | None:
    """Shear along the worst perimeter with its load's factor, and what may be; None of a line of load. [Pa]"""
    if of.load.length or of.plates is None:
        return None
    found = max(_shears(resolved, of), key=lambda each: each.share)
    return found.value, found.limit


def _told(of: Carried, at: dict[str, str | float], worst: _Shear) -> Finding:
    where = ("", ", its ends at the edge", ", its ends at both edges of the corner")[worst.line.edges]
    several = f", {worst.around.count} of them together" if worst.around.count > 1 else ""
    taken = f" {of.said(worst.sure)} from below is sure, and taken off." if worst.sure else ""
    words = (
        f"{of.load.words}, {of.where}{several}: the concrete feels {of.said(worst.value)} of shear {worst.of}{where}, "
        f"{100.0 * worst.share:.0f} % of what it bears there ({of.holds.said}).{taken}{_mend(worst)}"
    )
    a, b = worst.around.sides
    method = PUNCHED_EN if of.holds.method == catalogue.EN_1990 else PUNCHED_ACI
    return Finding(
        ID,
        TITLE,
        worst.value / KILO,
        "kPa",
        at=at,
        within=0.0,
        limit=worst.limit / KILO,
        sense="at most",
        basis=(method, *of.holds.basis[1:]),
        rests_on=(of.load.path, *of.support.concrete.paths, *of.holds.rests_on),
        steps=(
            Step(
                "u",
                f"perimeter {fixed(worst.off, 3)} m from {fixed(a, 3)} × {fixed(b, 3)} m",
                f"ends at {worst.line.edges} edges",
                f"{fixed(worst.line.length, 3)} m",
            ),
            Step(
                "v",
                "factor × (force − sure pressure × area) / (u depth)",
                f"{worst.times:g} × ({fixed(worst.around.force / KILO, 2)} − {fixed(worst.sure / KILO, 2)} × "
                f"{fixed(worst.line.area, 3)}) / ({fixed(worst.line.length, 3)} × {fixed(worst.depth, 4)})",
                f"{fixed(worst.value / MEGA, 3)} MPa",
            ),
            Step("v_0", f"what plain concrete bears {worst.of}", of.holds.said, f"{fixed(worst.limit / MEGA, 3)} MPa"),
        ),
        words=words,
    )


def _mend(worst: _Shear) -> str:
    if worst.share <= 1.0:
        return ""
    return " A larger plate, a thicker slab or a pad below it carries it; stronger foam would not."


def _shears(resolved: Resolved, of: Carried) -> Iterator[_Shear]:
    """Every perimeter that is looked at."""
    european = of.holds.method == catalogue.EN_1990
    counts = catalogue.of_concrete(catalogue.EN_1990, "depth").value if european else 1.0
    looked = [(around, of.depth) for around in _together(of, counts * of.depth * (2.0 if european else 0.5))]
    if of.load.pad is not None:  # the pad itself may be pushed out of the slab
        whole = _whole(of.load.pad.outline)
        looked.append(
            (_Pressing(whole.x, whole.y, sum(each.force for each, _ in looked), 1), of.support.concrete.thickness)
        )
    for around, thickness in looked:
        if european:
            yield from _european(resolved, of, around, counts * thickness)
        else:
            yield from _american(resolved, of, around, thickness)


def _american(resolved: Resolved, of: Carried, around: _Pressing, thickness: float) -> Iterator[_Shear]:
    long, short = max(around.sides), min(around.sides)
    bears = float(plain.punching_aci(of.support.concrete.strength, long / short))
    limit = bears * (of.holds.bending / _nominal(of))
    for line in punching.perimeters(*around.sides, thickness / 2.0, *_edges(resolved, of, around)):
        sure = _sure(of, around, thickness / 2.0) if line.edges == 0 else 0.0
        said = "half a thickness round it"
        yield _Shear(around, line, thickness, thickness / 2.0, sure, of.holds.on_load, limit, said)


def _nominal(of: Carried) -> float:
    """Tension in bending before the method's factor, so that shear has the same one. [Pa]"""
    if of.holds.method == catalogue.LRFD:
        return float(plain.bending_aci(of.support.concrete.strength))
    return of.rupture


def _european(resolved: Resolved, of: Carried, around: _Pressing, depth: float) -> Iterator[_Shear]:
    strength = of.support.concrete.strength
    least = float(plain.punching_en(strength, depth))
    beside = (
        1.0,
        catalogue.of_concrete(catalogue.EN_1990, "at-edge").value,
        catalogue.of_concrete(catalogue.EN_1990, "in-corner").value,
    )
    near = _edges(resolved, of, around)
    for off in (share * depth for share in OFFS):
        limit = least * 2.0 * depth / off
        for line in punching.perimeters(*around.sides, off, *near, round_corners=True):
            sure = _sure(of, around, off) if line.edges == 0 else 0.0
            times = beside[line.edges] * of.holds.on_load
            yield _Shear(around, line, depth, off, sure, times, limit, f"{fixed(off / depth, 1)} depths round it")
    a, b = around.sides
    faces = (2.0 * (a + b), a + b + min(a, b), a + b)
    edges = sum(each < TOUCHES for each in near)
    face = Perimeter(faces[edges], a * b, edges)
    most = float(plain.crushing_en(strength, catalogue.of_concrete(catalogue.EN_1990, "on-strength").value))
    yield _Shear(around, face, depth, 0.0, 0.0, beside[edges] * of.holds.on_load, most, "at its very face")


def _together(of: Carried, off: float) -> list[_Pressing]:
    """Patches as rectangles, those whose perimeters meet as one."""
    found: list[_Pressing] = []
    for patch in of.load.patches:
        xs, ys = zip(*patch.outline, strict=True)
        one = _Pressing((min(xs), max(xs)), (min(ys), max(ys)), 0.0, 1)
        a, b = one.sides
        one = _Pressing(one.x, one.y, patch.pressure * a * b, 1)
        for other in [each for each in found if _meet(each, one, 2.0 * off)]:
            found.remove(other)
            one = _both(one, other)
        found.append(one)
    return found


def _meet(one: _Pressing, other: _Pressing, within: float) -> bool:
    return all(
        max(mine[0], theirs[0]) - min(mine[1], theirs[1]) < within
        for mine, theirs in ((one.x, other.x), (one.y, other.y))
    )


def _both(one: _Pressing, other: _Pressing) -> _Pressing:
    return _Pressing(
        (min(one.x[0], other.x[0]), max(one.x[1], other.x[1])),
        (min(one.y[0], other.y[0]), max(one.y[1], other.y[1])),
        one.force + other.force,
        one.count + other.count,
    )


def _edges(resolved: Resolved, of: Carried, around: _Pressing) -> tuple[float, float]:
    """From the load's nearest side to a free edge across x and across y; inf where none is near. [m]"""
    corners = [corner for patch in of.load.patches for corner in patch.outline]
    left, low = min(x for x, _ in corners), min(y for _, y in corners)
    if of.load.place == "corner":  # the load touches both edges
        return around.x[0] - left, around.y[0] - low
    if of.load.place == "edge":
        return inf, around.y[0] - low
    if of.load.place == "plan" and of.load.at is not None and of.plates is not None and of.plates[0].near_edge:
        return _on_plan(resolved, of, around)
    return inf, inf


def _on_plan(resolved: Resolved, of: Carried, around: _Pressing) -> tuple[float, float]:
    assert of.load.at is not None
    corners = [(of.load.at[0] + x, of.load.at[1] + y) for x in around.x for y in around.y]
    sides = [side for ring in resolved.plan.floor.rings for side in ring.sides]
    lying = {upright: [side for side in sides if _upright(side) == upright] for upright in (True, False)}
    return (_nearest(lying[True], corners), _nearest(lying[False], corners))


def _upright(side: Side) -> bool:
    (x0, y0), (x1, y1) = side.start, side.end
    return abs(y1 - y0) > abs(x1 - x0)


def _nearest(sides: Sequence[Side], corners: Sequence[tuple[float, float]]) -> float:
    return min((side.distance(corner) for side in sides for corner in corners), default=inf)


def _sure(of: Carried, around: _Pressing, off: float) -> float:
    """Pressure from below that lies within a perimeter for sure; nought beside edges and on small slabs. [Pa]"""
    assert of.plates is not None
    if of.plates[0].near_edge or of.load.pad is not None:
        return 0.0
    (x0, x1), (y0, y1) = around.x, around.y
    places = np.array([(x, y) for x in (x0 - off, x1 + off) for y in (y0 - off, y1 + off)])
    poisson = catalogue.of_slabs("poisson").value
    found = []
    for k in (of.bed.softest, of.bed.stiffest):
        far = radius(of.support, k)
        settled = sum(
            patches.patch(patch.pressure, patch.outline, far, k, poisson, places).settlement
            for patch in of.load.patches
            if _meet(_whole(patch.outline), around, off)
        )
        found.append(k * float(np.min(settled)))
    return max(min(found), 0.0)


def _whole(outline: Sequence[tuple[float, float]]) -> _Pressing:
    xs, ys = zip(*outline, strict=True)
    return _Pressing((min(xs), max(xs)), (min(ys), max(ys)), 0.0, 1)
