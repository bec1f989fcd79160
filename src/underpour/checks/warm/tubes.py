"""Loops of a heated floor before they are drawn: how long, how many, and what the pump must do."""

from __future__ import annotations

from ...catalogue import heated_floors
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.warm_floor.loops import loops
from ...physics.warm_floor.water import SLOW
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Water
from .worked import Running

KILO = 1e3
PRACTICE = Basis("installers' guides", "area over spacing, leaders added", "practice")
FRICTION = Basis("Darcy and Weisbach, Colebrook and White", "friction in a smooth tube", "derived")


def loop_length(resolved: Resolved, heated: HeatedFloor, water: Water, made: Running) -> Finding:
    """How many loops the floor takes, and how long each is.

    Asks
        How many loops, of what length, and how much tube?
    Why
        A loop that is too long asks for a bigger pump and comes back cold. Tube is sold in coils: two short ends in a
        slab are a joint that nobody wants there.
    Worked out
        Area over spacing is the tube; leaders twice for each loop; as few loops as keep each below the limit.
    Holds for
        An estimate: nothing is drawn. Turns, posts, doors and rooms apart change it by some in a hundred.
    Source
        Geometry; the limit is practice, by the tube's size.
    """
    limit, one = water.longest, loops(resolved.area, heated.spacing, water.leader, 1e9)
    laid = made.loops
    if water.lengths:
        return _as_laid(resolved, heated, water)

    def said(length: float) -> str:
        return say.both(length, "m", resolved.system)

    return Finding(
        "warm.loop-length",
        "Mean length of a loop, estimated from area and spacing",
        laid.mean_length,
        "m",
        within=0.05 * laid.mean_length,
        limit=limit.value,
        sense="at most",
        basis=(limit.basis(), PRACTICE),
        rests_on=("tube.size", "tube.spacing", "tube.leader", "tube.loop-limit", "tube.loops", "plan.outline"),
        steps=(
            Step(
                "L",
                "area / spacing",
                f"{fixed(resolved.area, 1)} / {fixed(heated.spacing, 3)}",
                f"{fixed(resolved.area / heated.spacing, 1)} m",
            ),
            Step("n", "loops, so that none is too long", f"{fixed(limit.value, 0)} m at most", str(laid.count)),
            Step("L_1", "one loop with its leaders", "", f"{fixed(laid.mean_length, 1)} m"),
        ),
        words=f"{laid.count} {'loop' if laid.count == 1 else 'loops'} and {said(laid.tube)} of tube in all; as one it "
        f"would be {said(one.mean_length)}. An estimate: nothing is drawn.",
    )


def _as_laid(resolved: Resolved, heated: HeatedFloor, water: Water) -> Finding:
    """The same where the brief tells each loop's length."""
    limit, longest, whole = water.longest, max(water.lengths), sum(water.lengths)
    field = whole - 2.0 * water.leader * len(water.lengths)
    covers = say.both(field * heated.spacing, "m²", resolved.system)
    return Finding(
        "warm.loop-length",
        "Longest loop as laid",
        longest,
        "m",
        within=0.0,
        limit=limit.value,
        sense="at most",
        basis=(limit.basis(), PRACTICE),
        rests_on=("tube.loop-lengths", "tube.size", "tube.spacing", "tube.leader", "tube.loop-limit"),
        steps=(
            Step("L", f"{len(water.lengths)} loops in all", "", f"{fixed(whole, 1)} m"),
            Step("A", "(L − leaders) spacing", f"{fixed(field, 1)} m, {fixed(heated.spacing, 3)} m", covers),
            Step("A", "floor", "", f"{fixed(resolved.area, 1)} m²"),
        ),
        words=f"So much tube lies in {covers} of {say.both(resolved.area, 'm²', resolved.system)} of floor.",
    )


def pressure(water: Water, made: Running) -> Finding:
    """What pressure the water takes on its way through a loop.

    Asks
        What must the pump do?
    Why
        Where a loop asks for more than the pump has, less water runs and its far end stays cold.
    Worked out
        Water that carries the heat with the drop named; friction along the loop, a third more for manifold and valves.
    Holds for
        The mean loop, or the longest where lengths are told, at the water's mean temperature. Between slow and fast
        flow the greater loss is taken.
    Source
        Darcy and Weisbach with Colebrook and White, by a library; the limit and the addition are practice.
    """
    more, most = heated_floors.usual("fittings"), heated_floors.usual("pump-head")
    of, loss = made.flow, made.flow.loss * more.value / KILO
    all_of_it = made.whole * 1e3
    slow = "The water flows in layers" if of.reynolds <= SLOW else "The water flows in eddies"
    if not of.sure:
        slow = "Whether it flows in layers or in eddies is not sure; the greater loss is taken"
    return Finding(
        "warm.pressure",
        "Pressure that the water takes through one loop on the coldest day",
        loss,
        "kPa",
        within=0.1 * loss,
        limit=most.value,
        sense="at most",
        basis=(FRICTION, most.basis()),
        rests_on=("tube.size", "tube.spacing", "tube.fluid", "tube.drop", "tube.load", "plan.outline", most.path),
        steps=(
            Step("V", "water of one loop", f"{fixed(water.drop, 1)} K", f"{fixed(made.litres * 6e4, 2)} l/min"),
            Step("v", "speed", f"bore {fixed(water.size.bore * 1e3, 2)} mm", f"{fixed(of.speed, 3)} m/s"),
            Step("Re", "v D ρ / μ", "", fixed(of.reynolds, 0)),
            Step("Δp", "f L/D ρ v²/2", f"f = {fixed(of.friction, 4)}", f"{fixed(of.loss / KILO, 2)} kPa"),
            Step("Δp", "with manifold and valves", f"times {fixed(more.value, 1)}", f"{fixed(loss, 2)} kPa"),
        ),
        words=f"{slow}. The pump moves {fixed(all_of_it * 60.0, 1)} l/min through {made.loops.count} "
        f"{'loop' if made.loops.count == 1 else 'loops'}. {_purge(of.speed)}",
    )


def _purge(speed: float) -> str:
    if speed >= heated_floors.usual("purging").value:
        return "Air is carried along at this speed."
    return "Purge each loop by itself with a stronger pump: at this speed air stays in it."
