"""Loops of unlike length on one manifold: who gets how much, and what the valves must take."""

from __future__ import annotations

from ...catalogue import heated_floors
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.warm_floor.balance import balance
from ...physics.warm_floor.loops import spread
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Water
from .tubes import FRICTION, KILO
from .worked import Running, Worked


def evenness(resolved: Resolved, heated: HeatedFloor, water: Water, made: Worked, running: Running) -> Finding:
    """How unlike the loops of the manifold are, and what its valves must do about it.

    Asks
        Does each loop get the water that its part of the floor wants?
    Why
        All loops feel the same pressure: the short one takes the water, the long one's room stays cold.
    Worked out
        Longest less shortest over the mean; what each loop gets where no valve stands in the way, of what it wants
        by its length; what the valve of the shortest must take so that each gets its own.
    Holds for
        One manifold for all loops, floor alike all over.
    Source
        The limit is practice: up to it nobody evens them. Friction as for the pressure.
    """
    alike = heated_floors.usual("alike")
    of = water.fluid.at(min(max(made.room + made.excess, water.fluid.least), water.fluid.most))
    evened = balance(
        water.lengths,
        water.leader,
        running.whole,
        water.size.bore,
        of.density,
        of.viscosity,
        of.heat_capacity,
        of.conductivity,
    )
    apart = 100.0 * spread(water.lengths)
    long, short = (water.lengths.index(end(water.lengths)) for end in (max, min))
    starved, flooded = (100.0 * evened.shares[n] for n in (long, short))
    takes = say.both(evened.valves[short] / KILO, "kPa", resolved.system)
    return Finding(
        "warm.balance",
        "How unlike the loops of the manifold are in length",
        apart,
        "%",
        within=0.0,
        limit=alike.value,
        sense="at most",
        basis=(alike.basis(), FRICTION),
        rests_on=("tube.loop-lengths", "tube.leader", "tube.size", "tube.fluid", "tube.drop", "tube.load", alike.path),
        steps=(
            Step(
                "s",
                "(longest − shortest) / mean",
                f"{fixed(max(water.lengths), 1)} and {fixed(min(water.lengths), 1)} m",
                f"{fixed(apart, 1)} %",
            ),
            *(
                Step(
                    "V",
                    f"loop {n + 1}, {fixed(length, 1)} m, left alone, of what it wants",
                    f"{fixed(evened.left_alone[n] * 6e4, 2)} of {fixed(evened.wanted[n] * 6e4, 2)} l/min",
                    f"{fixed(100.0 * evened.shares[n], 0)} %",
                )
                for n, length in enumerate(water.lengths)
            ),
            *(
                Step("Δp", f"valve of loop {n + 1}", "", f"{fixed(valve / KILO, 2)} kPa")
                for n, valve in enumerate(evened.valves)
            ),
        ),
        words=f"Left alone, the longest gets {starved:.0f} % of its water and the shortest {flooded:.0f} %. "
        + (
            f"Valves even them: the shortest loop's takes {takes}, each by its own step below. Or lay them alike."
            if apart > alike.value
            else "That is near enough without valves."
        ),
    )
