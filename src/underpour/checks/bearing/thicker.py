"""What another inch of concrete buys: less pressure on the foam, less tension of the slab, a weaker board."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ... import catalogue
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.bearing import GRAVITY
from ...resolve import Resolved, ResolvedLoad, Support
from .carried import Carried
from .foam import PLATE
from .grades import PlateTrials, candidates, weakest
from .limits import KILO
from .soil import EQUILIBRIUM

ID, TITLE = "bearing.inch-more", "What another inch of concrete buys"
INCH = 0.0254  # m
LITTLE = 0.02  # a change by less than this share is said to be next to nothing


def an_inch_more(resolved: Resolved, load: ResolvedLoad, now: PlateTrials | None) -> Iterator[Finding]:
    """The same load on a slab that is an inch thicker: what the foam and what the concrete then feel.

    Asks
        Would a thicker slab help more than stronger foam?
    Why
        A thicker slab is far stiffer: it bends less and spreads a post over more foam. Where the concrete is the limit
        an inch of it does what no foam does.
    Worked out
        The slab as a plate, as for the other findings, with an inch more of concrete and its weight; then the boards
        of the lines one after another on it, the weakest first.
    Holds for
        As ``foam.by_plate`` and ``bending.by_plate``. A load that lies all over the floor goes straight through
        whatever the slab: there an inch more only weighs more.
    Source
        Westergaard 1926, Wyman 1950; what the concrete bears as for ``bending.by_plate``.
    """
    support = resolved.support
    assert support is not None  # something stands on the slab
    if now is None or now.as_laid is None:
        yield _even(resolved, support, load)
        return
    then = PlateTrials(resolved, heavier(support, INCH), load)
    assert then.as_laid is not None  # it stood on the thinner slab
    yield _concrete(now.as_laid, then.as_laid)
    if support.boards:
        yield _foam(resolved, now, then)


def heavier(support: Support, more: float) -> Support:
    """The same with so much more concrete, and with what that weighs. [m]"""
    density = catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    weight = more * density.value * GRAVITY
    thick = replace(support.concrete, thickness=support.concrete.thickness + more)
    own, whole = support.own_weight + weight, support.whole_weight + weight
    return replace(support, concrete=thick, own_weight=own, whole_weight=whole)


def _concrete(now: Carried, then: Carried) -> Finding:
    thick = say.both(then.support.concrete.thickness, "m", now.system)
    words = (
        f"{now.load.words}: on {thick} of concrete in place of {_thickness(now)} the concrete feels "
        f"{now.said(then.tension)} in place of {now.said(now.tension)}; {now.said(then.for_concrete)} may be used. "
    )
    if now.tension > now.for_concrete:
        words += "That carries it." if then.tension <= then.for_concrete else "That does not carry it yet."
    else:
        words += "It is carried as it is."
    step = Step("σ", "6 M / h² with an inch more", f"now {_kpa(now.tension)}", _kpa(then.tension))
    return _stated(then, "concrete", then.tension, step, words, (PLATE, *then.holds.basis))


def _foam(resolved: Resolved, now: PlateTrials, then: PlateTrials) -> Finding:
    before, after = now.as_laid, then.as_laid
    assert before is not None and after is not None
    lines, _ = candidates(resolved, before.support)
    first, second = weakest(lines, now.carries).board, weakest(lines, then.carries).board
    share = after.pressure / before.pressure - 1.0
    felt = (
        "next to nothing less"
        if abs(share) < LITTLE
        else f"{abs(100.0 * share):.0f} % {'less' if share < 0 else 'more'}"
    )
    words = (
        f"{before.load.words}: on an inch more of concrete the foam feels {before.said(after.pressure)} in place of "
        f"{before.said(before.pressure)}, {felt}. "
    )
    if second is None:
        words += "No board of the line carries it even then."
    elif first is None or first.key != second.key:
        was = "none" if first is None else first.label
        words += f"The weakest board of the line that carries it is then {second.label}, now {was}."
    else:
        words += f"The weakest board of the line that carries it stays {second.label}."
    step = Step("p", "k × settlement with an inch more", f"now {_kpa(before.pressure)}", _kpa(after.pressure))
    return _stated(after, "foam", after.pressure, step, words, (PLATE,))


def _even(resolved: Resolved, support: Support, load: ResolvedLoad) -> Finding:
    assert load.pressure is not None
    heavy = heavier(support, INCH)
    more = heavy.own_weight - support.own_weight
    said = say.both(load.pressure / KILO, "kPa", resolved.system)
    words = (
        f"{load.words}: an inch more of concrete buys nothing here. The load goes straight through whatever the slab, "
        f"{said} as before, and the inch weighs {say.both(more / KILO, 'kPa', resolved.system)} itself."
    )
    return Finding(
        ID,
        TITLE,
        load.pressure / KILO,
        "kPa",
        at={"load": load.number, "of": "foam" if support.boards else "ground"},
        within=0.0,
        basis=(EQUILIBRIUM,),
        rests_on=(load.path, support.concrete.thickness_path),
        steps=(Step("q", "as it lies on the floor", "", _kpa(load.pressure)),),
        words=words,
    )


def _stated(of: Carried, what: str, value: float, step: Step, words: str, basis: tuple[Basis, ...]) -> Finding:
    assert of.plates is not None
    return Finding(
        ID,
        TITLE,
        value / KILO,
        "kPa",
        at={"load": of.load.number, "of": what},
        within=of.plates[0].felt.within * value / KILO,
        basis=(*basis, *of.bed.basis),
        rests_on=(of.load.path, *of.support.concrete.paths, *of.bed.rests_on),
        steps=(step,),
        words=words.rstrip(),
    )


def _thickness(of: Carried) -> str:
    return say.both(of.support.concrete.thickness, "m", of.system)


def _kpa(pressure: float) -> str:
    return f"{fixed(pressure / KILO, 1)} kPa"
