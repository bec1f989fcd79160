"""Tension of the concrete below and beside a load: by the plate, and by the formulas that are worked by hand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil, pi, sqrt

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.domain import OutOfDomain
from ...physics.plates import beams, concrete, westergaard
from ...resolve import Resolved, ResolvedLoad
from .carried import Carried
from .foam import PLATE
from .limits import KILO
from .plates import modulus, plate_under, radius, thickened_there
from .resistance import resistance

ID, TITLE = "bearing.bending", "Tension of the slab's concrete"
MEGA = 1e6
HALF_INCH, CENTIMETRE = 0.0127, 0.01  # m: half inches and whole centimetres, as slabs are ordered
MOST_STEPS = 12
FATIGUE = Basis(
    "Parker, Barker, Gunkel and Odom 1979, tests of the Corps of Engineers", "passings to cracking", "memory"
)
WESTERGAARD = Basis("Westergaard 1926 and 1948, as Huang prints him", "middle, edge, corner", "memory")
HETENYI = Basis("Hetenyi 1946, Beams on elastic foundation", "line across an endless strip", "quoted")


def by_plate(resolved: Resolved, of: Carried, governs: str) -> Finding:
    """Largest tension of the concrete under one load against its rupture over a safety factor.

    Asks
        Does the slab crack under this load?
    Why
        Concrete bears little tension; under wheels and posts it cracks long before foam below it crushes.
    Worked out
        The slab as a plate on the softest bed. By allowable stress the load is as it is, and the rupture of ACI 318 is
        divided by the safety factor of ACI 360R; where the brief names ACI 318 or EN 1990 the tension is that of the
        load with its factor, held to what plain concrete bears by that code. The two are never mixed.
    Holds for
        Plain concrete, or steel that only holds cracks together. Shrinkage, curling and joints that
        pass no load bring tension of their own, which the factor stands for.
    Source
        Westergaard 1926, Wyman 1950; ACI 318 for the rupture, ACI 360R for the factor; ACI 318, EN 1990 and EN 1992-1-1
        where they are named; Parker 1979 for passings.
    """
    assert of.plates is not None
    soft = of.plates[0]
    top = soft.felt.above > soft.felt.below
    side = "at its top, some way off the load" if top else "at its underside, below the load"
    words = (
        f"{of.load.words}, {of.where}: the concrete feels {of.said(of.tension)} {side}. It cracks at about "
        f"{of.said(of.rupture)}; {of.said(of.for_concrete)} may be used ({of.holds.said}). "
        f"{_passings(of, of.tension)}{governs}{_mend(resolved, of)}"
    )
    steps = (
        *of.bed.steps,
        Step("σ", f"6 M / h²: {soft.words}", "", f"{fixed(of.tension / MEGA, 2)} MPa"),
    )
    return _held(of, "plate", of.tension, soft.felt.within, words, steps, PLATE)


def by_hand(resolved: Resolved, of: Carried) -> Iterator[Finding]:
    """The same tension by the formula that is worked by hand for one load in such a place.

    Asks
        Does the slab crack under this load by the formulas of the books?
    Why
        An engineer checks a plate by them; they know one load at a time, in the middle, at an edge or in a corner.
    Worked out
        Westergaard for the heaviest patch alone, as a circle of its area; a line of load as Hetenyi's strip.
    Holds for
        A slab of one thickness, one load, far from others; patches smaller than the radius of relative stiffness.
    Source
        Westergaard 1926, 1948; Hetenyi 1946; what the concrete bears as for the plate.
    """
    if of.load.length:
        yield _strip(of)
        return
    try:
        value, which = _westergaard(of)
    except OutOfDomain:
        return  # a patch too wide for the formula
    several = len(of.load.patches)
    alone = f" for one of the {several} alone" if several > 1 else ""
    assert of.plates is not None
    near = of.tension / value
    apart = "the two agree" if 0.9 < near < 1.1 else f"the plate gives {fixed(near, 2)} times that"
    words = (
        f"By Westergaard's formula for a load {which}{alone} the concrete feels {of.said(value)}; {apart}"
        f"{', for it counts every patch' if several > 1 and near > 1.1 else ''}. {_passings(of, value)}"
    ).rstrip()
    step = Step(
        "σ",
        f"Westergaard, {which}",
        f"P {fixed(of.load.force / KILO, 2)} kN, a {fixed(contact(of.load), 3)} m, l {fixed(_radius(of), 3)} m",
        f"{fixed(value / MEGA, 2)} MPa",
    )
    made = _held(of, "westergaard", value, 0.0, words, (*of.bed.steps, step), WESTERGAARD)
    if of.load.pad or thickened_there(resolved, of.load):
        what = "pad" if of.load.pad else "thickened edge"
        thin = f" The formula knows nothing of the {what} and is held to no limit: the plate counts."
        made = replace(made, limit=None, sense=None, words=made.words + thin)
    yield made


def _radius(of: Carried) -> float:
    return radius(of.support, of.bed.soft)


def contact(load: ResolvedLoad) -> float:
    """Radius of the circle that is as large as the heaviest patch. [m]"""
    patch = max(load.patches, key=lambda each: each.pressure)
    return sqrt(load.force / patch.pressure / pi)


def _westergaard(of: Carried) -> tuple[float, str]:
    load, slab, k = of.load, of.support.concrete.thickness, of.bed.soft
    nu = catalogue.of_slabs("poisson").value
    assert of.plates is not None
    place = load.place
    if place == "plan":
        place = "edge" if of.plates[0].near_edge else "middle"
    if place == "corner":
        return float(westergaard.corner(load.force, contact(of.load), slab, _radius(of), k).stress), "in a corner"
    if place == "edge":
        found = westergaard.edge(load.force, contact(of.load), slab, nu, modulus(of.support), _radius(of), k)
        return float(found.stress), "that touches an edge"
    return float(westergaard.interior(load.force, contact(of.load), slab, nu, _radius(of), k).stress), "in the middle"


def _strip(of: Carried) -> Finding:
    h, patch = of.support.concrete.thickness, of.load.patches[0]
    force = of.load.force / of.load.length
    beta = float(beams.decay(of.bed.soft, modulus(of.support) * h**3 / 12.0))
    at_edge = of.load.place == "edge"
    moment = abs(float(beams.moment_near_end(force, beta) if at_edge else beams.moment(force, beta, 0.0)))
    value = 6.0 * moment / h**2
    formula = "0.3224 P / β, 6 M / h²" if at_edge else "P / 4β, 6 M / h²"
    step = Step(
        "σ", formula, f"P {fixed(force / KILO, 2)} kN/m, β {fixed(beta, 3)} 1/m", f"{fixed(value / MEGA, 2)} MPa"
    )
    where = "along a free edge" if at_edge else "far from edges"
    words = f"As a strip on springs under a line {where} the concrete feels {of.said(value)}; the line's width of "
    words += f"{fixed(1000.0 * of.load.force / of.load.length / patch.pressure, 0)} mm is not counted."
    return _held(of, "hetenyi", value, 0.0, words, (*of.bed.steps, step), HETENYI)


def _held(
    of: Carried, method: str, tension: float, within: float, words: str, steps: tuple[Step, ...], basis: Basis
) -> Finding:
    """The tension with the load's factor, where the method puts one on loads, against what it may be."""
    value = of.holds.on_load * tension
    more: tuple[Step, ...] = ()
    if of.holds.on_load != 1.0:
        words = f"{words} With its factor the load brings {of.said(value)}, of {of.said(of.holds.bending)} that may be."
        numbers = f"{of.holds.on_load:g} × {fixed(tension / MEGA, 2)}"
        more = (Step("σ_d", "tension × factor on the load", numbers, f"{fixed(value / MEGA, 2)} MPa"),)
    return Finding(
        ID,
        TITLE,
        value / KILO,
        "kPa",
        at={"load": of.load.number, "method": method},
        within=within * value / KILO,
        limit=of.holds.bending / KILO,
        sense="at most",
        basis=(basis, *of.holds.basis, *(() if of.load.standing else (FATIGUE,)), *of.bed.basis),
        rests_on=(of.load.path, *of.support.concrete.paths, *of.bed.rests_on, *of.holds.rests_on),
        steps=(*steps, *of.holds.steps, *more),
        words=words,
    )


def _passings(of: Carried, tension: float) -> str:
    """How often what rolls may come by the law of the tests; nothing of what stands."""
    if of.load.standing or tension <= 0.0:
        return ""
    times = float(concrete.coverages(of.rupture / tension))
    if times < 1.0:
        return "It cracks the first time it comes. "
    said = f"about {_two_figures(times)} times" if times < 1e6 else "as often as one likes"
    return f"By tests of whole slabs it may come {said} before half of them crack. "


def _two_figures(times: float) -> str:
    """
    >>> _two_figures(9437.2), _two_figures(3.4)
    ('9,400', '3')
    """
    power = 10 ** max(len(str(int(times))) - 2, 0)
    return f"{round(times / power) * power:,}"


def _mend(resolved: Resolved, of: Carried) -> str:
    """How thick a slab would carry it, where the concrete is used up."""
    if of.tension <= of.for_concrete:
        return ""
    step = HALF_INCH if of.system == "US" else CENTIMETRE
    helps = "" if of.for_foam is not None and of.pressure > of.for_foam else "; stronger foam would not help"
    if of.load.place == "plan" and of.plates is not None and of.plates[0].near_edge:
        about = of.support.concrete.thickness * sqrt(of.tension / of.for_concrete)
        wants = say.both(step * ceil(about / step), "m", of.system)
        return f" A slab of about {wants} would carry it, or a larger plate or stronger concrete{helps}."
    first = ceil(of.support.concrete.thickness / step + 1e-9)
    for thickness in (step * (first + n) for n in range(MOST_STEPS)):
        thicker = replace(of.support, concrete=replace(of.support.concrete, thickness=thickness))
        plate = plate_under(resolved, thicker, of.load, of.bed.soft)
        holds = resistance(thicker, of.load)
        if plate is not None and holds.on_load * max(plate.felt.below, plate.felt.above) <= holds.bending:
            wants = say.both(thickness, "m", of.system)
            return f" A slab of {wants} carries it, or a larger plate or stronger concrete{helps}."
    return " No slab of a usual thickness carries it: spread it on a footing of its own."
