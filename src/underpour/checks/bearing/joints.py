"""What drying from the top does to a slab on foam, and how far apart its joints may lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.plates import concrete
from ...physics.plates import curling as by_itself
from ...physics.plates.curling import risen
from ...physics.plates.felt import radius_of
from ...physics.plates.slab import Slab
from ...resolve import Resolved
from .limits import KILO
from .plan import outline
from .plates import modulus
from .together import Together

CURL, CURL_TITLE = "bearing.curling", "Corners of the slab that rise as it dries"
BAY, BAY_TITLE = "bearing.joint-spacing", "Longest bay between joints"
TIGHT = ("board", "vapour-retarder", "sheet")
BRADBURY = Basis("Westergaard 1927, Bradbury 1938", "slabs that warp, held down by their bed", "memory")


def _bays(resolved: Resolved) -> tuple[float, float]:
    """The longest bays along x and along y. [m]"""
    corners = np.array(outline(resolved))
    found = []
    for axis, across in enumerate("xy"):
        ends = [float(corners[:, axis].min()), float(corners[:, axis].max())]
        cuts = [at for joint in resolved.joints for way, at, _, _ in joint.lines if way == across]
        found.append(max(high - low for low, high in pairwise(sorted({*ends, *cuts}))))
    return found[0], found[1]


def curling(resolved: Resolved, of: Together) -> Iterator[Finding]:
    """How far a corner of the largest bay rises as the slab dries from its top alone, and the tension that holds it.

    Asks
        Will edges and corners of the slab curl up, and does drying use up the concrete before any load comes?
    Why
        On foam or film the slab gives its water off at the top only and shortens there; soft foam lets its corners
        rise further, and holds the middle less.
    Worked out
        The largest bay as a plate on springs that only press, with its own weight and a curvature of drying strain
        over thickness; the modulus of what lasts months. Tension in the middle by Bradbury's formula.
    Holds for
        Bays between joints that turn freely; no steel. How much a concrete shrinks depends on its mix, curing and air:
        the range is wide. Bays that are not rectangles are taken as such.
    Source
        Westergaard 1927, Bradbury 1938 (from memory); common practice for the strain.
    """
    support = of.parts[0].support
    slab_at = next(n for n, layer in enumerate(resolved.floor) if layer.kind == "concrete")
    below = resolved.floor[slab_at + 1] if slab_at + 1 < len(resolved.floor) else None
    tight = below is not None and below.kind in TIGHT
    strain = catalogue.of_slabs("drying-strain" if tight else "drying-strain-both-sides")
    creep, nu = catalogue.of_slabs("creep-of-concrete"), catalogue.of_slabs("poisson").value
    lasting = modulus(support) / (1.0 + creep.value)
    wide, long = _bays(resolved)
    k = of.beds[False].soft
    bay = Slab(((0.0, 0.0), (wide, 0.0), (wide, long), (0.0, long)), support.concrete.thickness, lasting, nu, k)
    rise, radius = _risen(bay, strain.value)
    if rise is None:
        return
    along, across = (float(by_itself.held_share(each, radius)) for each in (max(wide, long), min(wide, long)))
    tension = float(by_itself.stress(lasting, nu, strain.value, along, across))
    rupture = float(concrete.rupture_aci(support.concrete.strength))
    ground, _ = _risen(replace(bay, foundation=support.ground.modulus), strain.value)
    on_ground = (
        f" On the ground alone it would be {say.both(1000.0 * ground, 'mm', resolved.system)}." if ground else ""
    )
    why = (
        "It dries from its top alone, for what lies below it is tight."
        if tight
        else "It dries a little into its bed too."
    )
    size = f"{say.both(wide, 'm', resolved.system)} by {say.both(long, 'm', resolved.system)}"
    yield Finding(
        CURL,
        CURL_TITLE,
        1000.0 * rise,
        "mm",
        at={"bay": "largest"},
        within=1000.0 * 0.05 * rise,
        basis=(BRADBURY, strain.basis(), creep.basis()),
        rests_on=(*support.concrete.paths, strain.path, creep.path, *of.beds[False].rests_on, *_paths(resolved)),
        steps=(
            Step("κ", "strain / h", f"{strain.value * 1e6:.0f}e-6 / {fixed(support.concrete.thickness, 3)} m", ""),
            Step(
                "l", "(D / k)^(1/4) with E / (1 + creep)", f"E {fixed(lasting / 1e9, 1)} GPa", f"{fixed(radius, 3)} m"
            ),
            Step("C", "1 − 2 cos λ cosh λ (tan λ + tanh λ) / (sin 2λ + sinh 2λ)", size, f"{along:.2f}, {across:.2f}"),
            Step("σ", "E ε (C_x + ν C_y) / (2 (1 − ν²))", "", f"{fixed(tension / 1e6, 2)} MPa"),
        ),
        words=f"{why} A corner of a bay of {size} rises about {say.both(1000.0 * rise, 'mm', resolved.system)}; with "
        f"half or twice the shrinkage it is less or more.{on_ground} Held down, the top of the bay's middle feels "
        f"about {say.both(tension / KILO, 'kPa', resolved.system)}, {100.0 * tension / rupture:.0f} % of what cracks "
        "it: cure it long, take a mix that shrinks little, and keep bays short.",
    )


def _risen(bay: Slab, strain: float) -> tuple[float | None, float]:
    """How far the bay's corner rises above where it lay, and its radius of relative stiffness. [m]"""
    density = catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    return risen(bay, strain, density.value), radius_of(bay)


def _paths(resolved: Resolved) -> tuple[str, ...]:
    return tuple(joint.path for joint in resolved.joints)


def bays_of_joints(resolved: Resolved, of: Together) -> Iterator[Finding]:
    """Longest distance between joints against the rule of the trade, where the brief has joints.

    Asks
        Will the slab crack between its joints as it shrinks and curls?
    Why
        Bays that are too long crack in their middle; on a soft bed the curl is larger and fewer thicknesses are better.
    Worked out
        The longest bay along x or y against so many thicknesses of slab, and never more than the longest usual bay.
    Holds for
        Slabs without steel, or with steel that only holds cracks together.
    Source
        ACI 360R (from memory).
    """
    if not resolved.joints:
        return
    times, most = catalogue.of_slabs("bay-to-thickness"), catalogue.of_slabs("longest-bay")
    thickness, value = of.parts[0].support.concrete.thickness, max(_bays(resolved))
    limit = min(times.value * thickness, most.value)
    soft = of.beds[False].soft < of.parts[0].support.ground.modulus / 2.0
    near = f" On a bed as soft as this one {say.both(times.low * thickness, 'm', resolved.system)} is better."
    yield Finding(
        BAY,
        BAY_TITLE,
        value,
        "m",
        at={"bay": "largest"},
        within=0.0,
        limit=limit,
        sense="at most",
        basis=(times.basis(), most.basis()),
        rests_on=(*_paths(resolved), of.parts[0].support.concrete.thickness_path, times.path, most.path),
        steps=(
            Step(
                "L_0",
                "36 h, at most 5.5 m",
                f"{times.value:g} × {fixed(thickness, 3)} m; {most.value:g} m",
                f"{fixed(limit, 2)} m",
            ),
        ),
        words=f"The longest bay is {say.both(value, 'm', resolved.system)}; without steel joints lie at most "
        f"{say.both(limit, 'm', resolved.system)} apart.{near if soft else ''}",
    )
