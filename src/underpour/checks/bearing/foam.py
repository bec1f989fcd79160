"""Pressure on the foam below a loaded slab: by the plate, by a spread at 45 degrees, straight through."""

from __future__ import annotations

from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.plates import spread
from ...resolve import Resolved
from .carried import Carried
from .limits import KILO

LONG, SHORT = "bearing.foam-long", "bearing.foam-short"
TITLES = {
    LONG: "Pressure on the foam below the slab, under what stands for good",
    SHORT: "Pressure on the foam below the slab, under what comes and goes",
}
PLATE = Basis("Westergaard 1926, Wyman 1950: a plate on springs", "exact for patches; by elements at edges", "memory")
PRACTICE = Basis("Common practice, no source", "a spread at 45 degrees", "practice")
UNFACTORED = "The load as it is, without factors."


def _id(of: Carried) -> str:
    return LONG if of.load.standing else SHORT


def by_plate(resolved: Resolved, of: Carried, governs: str) -> Finding:
    """Pressure of one load on the foam, the slab bending on its springs, against what that foam bears.

    Asks
        Does the foam crush, or creep, below this load?
    Why
        Foam strength is tested in minutes at 10 % strain; only a part of it may be used for decades, another under
        what comes and goes. The slab is far stiffer than the foam and spreads a post over many square feet.
    Worked out
        The slab as a plate on springs: an exact sum over the patches of load far from edges, elements with lift-off at
        edges, in corners and on small slabs. Foam, gravel and ground are springs one below another, at both ends of
        how stiff the foam may be; the larger pressure counts. What the floor itself weighs, and what stands all over
        it, is taken off what the foam bears.
    Holds for
        Concrete that has not cracked, foam that lies everywhere below it on an even bed, unfactored loads, joints far
        off. Impact of wheels and what anchors pull are not worked out.
    Source
        Westergaard 1926, Wyman 1950; the board's records, EN 13163, EN 1606 and load tables for what it bears.
    """
    if not of.support.boards:
        return _no_foam(of, "plate")
    at: dict[str, str | float] = {"load": of.load.number, "method": "plate"}
    if of.weakest is None or of.for_foam is None:
        return _no_limit(of, at)
    allowed = of.weakest[1]
    assert of.plates is not None
    hand = spread_at_45(of)
    made = (
        f"{of.load.words}, {of.where}: the slab carries it as a plate, and the foam feels {of.said(of.pressure)}. "
        f"Spread at 45 degrees it would be {of.said(hand)}, because that knows nothing of how stiff the slab is. "
    )
    return Finding(
        _id(of),
        TITLES[_id(of)],
        of.pressure / KILO,
        "kPa",
        at=at,
        within=of.plates[0].felt.within * of.pressure / KILO,
        limit=of.for_foam / KILO,
        sense="at most",
        basis=(PLATE, *allowed.basis, *of.bed.basis),
        rests_on=_rests_on(of, *allowed.rests_on),
        steps=(*of.bed.steps, *_plate_steps(of), *_left(of)),
        words=made + governs,
    )


def spread_at_45(of: Carried) -> float:
    """Pressure on the uppermost foam by a spread at 45 degrees of the heaviest patch. [Pa]"""
    patch = max(of.load.patches, key=lambda each: each.pressure)
    xs, ys = zip(*patch.outline, strict=True)
    length, width = max(xs) - min(xs), max(ys) - min(ys)
    force = patch.pressure * length * width
    return float(spread.by_angle(force, length, width, of.depth))


def by_spread(resolved: Resolved, of: Carried) -> Finding:
    """Pressure of one load on the foam by a spread at 45 degrees through the slab, for comparison.

    Asks
        What does the rule of thumb give, and how far off is it?
    Why
        Many load tables and inspectors go by it. It asks for foam many times stronger than a stiff slab needs, and
        says nothing of the concrete.
    Worked out
        The heaviest patch alone, spread at 45 degrees from the top of the slab to its underside.
    Holds for
        Comparison only; a slab in pieces, such as pavers, comes near to it.
    Source
        Common practice, no source.
    """
    value, patch = spread_at_45(of), max(of.load.patches, key=lambda each: each.pressure)
    xs, ys = zip(*patch.outline, strict=True)
    length, width, depth = max(xs) - min(xs), max(ys) - min(ys), of.depth
    times = value / of.pressure if of.pressure else 0.0
    bears = f" It bears {of.said(of.for_foam)} besides the floor itself." if of.for_foam is not None else ""
    return Finding(
        _id(of),
        TITLES[_id(of)],
        value / KILO,
        "kPa",
        at={"load": of.load.number, "method": "spread-45"},
        within=0.0,
        basis=(PRACTICE,),
        rests_on=(of.load.path, of.support.concrete.thickness_path),
        steps=(
            Step(
                "p_45",
                "force / ((length + 2 h) (width + 2 h))",
                f"{fixed(patch.pressure * length * width / KILO, 2)} kN / "
                f"(({fixed(length, 3)} + 2 × {fixed(depth, 3)}) ({fixed(width, 3)} + 2 × {fixed(depth, 3)}))",
                f"{fixed(value / KILO, 1)} kPa",
            ),
        ),
        words=f"Held to no limit: this rule of thumb gives {fixed(times, 1)} times what the plate gives, for it takes "
        f"the slab to be as loose as gravel.{bears}",
    )


def straight_through(resolved: Resolved, of: Carried) -> Finding:
    """Pressure of a load that lies all over the floor on the foam below it, against what that foam bears.

    Asks
        Does the foam creep below what is stored on the floor?
    Why
        A wide even load goes straight through the slab: no stiffness helps.
    Worked out
        Load on each area, the floor's own weight taken off what the foam bears.
    Holds for
        Loads wider than four radii of relative stiffness; unfactored.
    Source
        Equilibrium; the board's records, EN 13163, EN 1606 and load tables for what it bears.
    """
    at: dict[str, str | float] = {"load": of.load.number, "method": "straight-through"}
    if not of.support.boards:
        return _no_foam(of, "straight-through")
    if of.weakest is None or of.for_foam is None:
        return _no_limit(of, at)
    board, allowed = of.weakest
    share = of.pressure / of.for_foam if of.for_foam else 9.99
    return Finding(
        _id(of),
        TITLES[_id(of)],
        of.pressure / KILO,
        "kPa",
        at=at,
        within=0.0,
        limit=of.for_foam / KILO,
        sense="at most",
        basis=(Basis("load over area", "equilibrium of forces", "derived"), *allowed.basis),
        rests_on=_rests_on(of, *allowed.rests_on),
        steps=(Step("q", "as it lies on the floor", "", f"{fixed(of.pressure / KILO, 2)} kPa"), *_left(of)),
        words=f"{of.load.words}: it goes straight through the slab, whose stiffness does not help. It uses "
        f"{100.0 * share:.0f} % of what {board.slice.label} bears besides the floor itself.",
    )


def _no_foam(of: Carried, method: str) -> Finding:
    at: dict[str, str | float] = {"load": of.load.number, "method": method}
    words = f"{of.load.words}: no foam lies below this slab."
    return Finding(_id(of), TITLES[_id(of)], None, "kPa", at=at, no_limit="does not apply", words=words)


def _no_limit(of: Carried, at: dict[str, str | float]) -> Finding:
    """Nobody says what this foam may bear, or the basis that the brief names cannot be told of it."""
    record = of.support.boards[0].slice.record
    assert record is not None
    words = (
        f"What {record.label} may bear cannot be told by the basis that the brief names. Write what an engineer lets "
        f'stand on it: long-term-stress = {{ {record.key} = "8 psi" }} in [foam].'
    )
    missing = f"foam.long-term-stress.{record.key}"
    return Finding(_id(of), TITLES[_id(of)], None, "kPa", at=at, missing=missing, words=words)


def _rests_on(of: Carried, *more: str) -> tuple[str, ...]:
    concrete = of.support.concrete
    return tuple(dict.fromkeys((of.load.path, *concrete.paths, *of.bed.rests_on, *more)))


def _plate_steps(of: Carried) -> tuple[Step, ...]:
    assert of.plates is not None
    soft, stiff = of.plates
    span = f"{fixed(stiff.radius, 3)} to {fixed(soft.radius, 3)} m"
    return (
        Step("l", "(E h³ / (12 (1 − ν²) k))^(1/4)", f"h {fixed(of.support.concrete.thickness, 4)} m", span),
        Step(
            "p",
            f"k × settlement: {soft.words}",
            f"on the soft bed {fixed(soft.felt.pressure / KILO, 2)} kPa",
            f"{fixed(stiff.felt.pressure / KILO, 2)} kPa on the stiff one",
        ),
    )


def _left(of: Carried) -> tuple[Step, ...]:
    """What the foam bears, and what of it is left for this load."""
    assert of.weakest is not None and of.for_foam is not None
    board, allowed = of.weakest
    even = f" − {fixed(of.even / KILO, 2)}" if of.even else ""
    bears = Step("p_0", f"{board.slice.label}: {allowed.says}", "", f"{fixed(allowed.stress / KILO, 1)} kPa")
    pad = f" − {fixed(of.pad_weight / KILO, 2)}" if of.load.pad else ""
    weights = f"{fixed(allowed.stress / KILO, 1)} − {fixed(of.support.own_weight / KILO, 2)}{even}{pad}"
    formula = "what it bears − the floor's own weight" + (" − what else stands all over it" if of.even else "")
    formula += " − what the pad weighs more" if of.load.pad else ""
    return (*allowed.typed, bears, Step("p_left", f"{formula}. {UNFACTORED}", weights, _kpa(of.for_foam)))


def _kpa(pressure: float) -> str:
    return f"{fixed(pressure / KILO, 1)} kPa"


def unit_said(of: Carried, value: float) -> str:
    """A length in millimetres, in both systems."""
    return say.both(1000.0 * value, "mm", of.system)
