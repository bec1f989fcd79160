"""What lies or stands on a heated floor: how warm the floor gets below it, and what of its heat is lost to the room."""

from __future__ import annotations

from collections.abc import Iterator

from ...catalogue.records import Furnishing
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from ..basis import conduction
from .floor import rests_on
from .worked import Worked, cell_with


def covered(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    """How warm the floor gets below each thing that lies or stands on it, and what the room misses.

    Asks
        May a rug lie on this floor, and does the room still get warm?
    Why
        What is covered gives less, so the rest must give more, or the room stays cool. Below the cover the floor gets
        warmer than anywhere else: wood that stands the open floor may open its joints there.
    Worked out
        The section between two tubes with the cover's resistance on it, the same water in the tubes. The share that is
        covered is typed, or what is usual of the thing, once.
    Holds for
        The middle of a large thing. Limit: what the covering of the floor stands.
    Source
        ISO 10211's section (from memory); resistances by the catalogue's furnishings.
    """
    for thing in resolved.furnished:
        yield _below(resolved, heated, made, thing)


def _below(resolved: Resolved, heated: HeatedFloor, made: Worked, thing: Furnishing) -> Finding:
    under = cell_with(resolved, heated, made, covered=thing.resistance.value)
    water = made.room + made.excess
    gives = under.up(water, made.room, made.ground)
    warmest = under.floor(water, made.room, made.ground)[1]
    usual = min(thing.area.value / resolved.area, 1.0)
    share = usual if heated.covered is None else heated.covered / len(resolved.furnished)
    misses = share * (made.up - gives)
    rest = 1.0 - share
    more = misses / rest / made.up * 100.0 if rest > 0.0 else float("inf")
    covering = resolved.floor[0].covering
    limit = covering.warmest if covering is not None else None
    lost = say.both(misses * resolved.area, "W", resolved.system)
    too_warm = f"{covering.label} stands no more there: lay {thing.label} elsewhere." if covering is not None else ""
    return Finding(
        "warm.below-cover",
        f"Warmest place of the floor below {thing.label} on the coldest day",
        warmest,
        "degC",
        at={"below": thing.key},
        within=0.05,
        month=made.month + 1,
        limit=limit.value if limit is not None else None,
        sense="at most" if limit is not None else None,
        basis=(thing.resistance.basis(), *((limit.basis(),) if limit is not None else ()), *conduction()),
        rests_on=(
            *rests_on(resolved, heated),
            "floor.furnishing",
            *(("tube.covered",) if heated.covered is not None else (thing.area.path,)),
            thing.resistance.path,
            *((limit.path,) if limit is not None else ()),
        ),
        steps=(
            Step("R", f"of {thing.label}", "", f"{fixed(thing.resistance.value, 2)} m²·K/W"),
            Step(
                "q_up",
                f"through {thing.label}, open floor beside it",
                f"{fixed(made.up, 1)} W/m²",
                f"{fixed(gives, 1)} W/m²",
            ),
            Step("A", "share of the floor below it", "", f"{fixed(100.0 * share, 1)} %"),
            Step("P", "that the room misses", "", f"{fixed(misses * resolved.area, 0)} W"),
        ),
        words=(f"{too_warm} " if limit is not None and warmest > limit.value else "")
        + f"The room misses {lost}; what lies open must give {more:.0f} % more.",
    )
