"""The strip along outer walls where tubes lie closer."""

from __future__ import annotations

from dataclasses import replace

from ...catalogue import heated_floors
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from ..basis import conduction
from .floor import rests_on
from .worked import Worked, cell_with


def edge_strip(resolved: Resolved, heated: HeatedFloor, made: Worked, spacing: float) -> Finding:
    """How warm the strip along outer walls gets where tubes lie closer, and what it gives more.

    Asks
        Do closer tubes along the cold walls help, and does the strip get too warm?
    Why
        Where nobody stands for long the floor may be warmer, and that is where the cold comes down windows and walls.
    Worked out
        The section between two tubes at the strip's spacing, the same water; the strip as wide as the standard's.
    Holds for
        A strip that nobody sits in. The loops' lengths here count the field's spacing alone.
    Source
        EN 1264-2 (quoted) for limit and width; ISO 10211's section (from memory).
    """
    limit, wide = heated_floors.above_room("edge"), heated_floors.usual("edge-strip")
    closer = replace(heated, spacing=spacing)
    of = cell_with(resolved, closer, made)
    water = made.room + made.excess
    gives = of.up(water, made.room, made.ground)
    warmest = of.floor(water, made.room, made.ground)[1]
    share = min(wide.value * resolved.perimeter / resolved.area, 1.0)
    more = share * (gives - made.up)
    tube = share * resolved.area * (1.0 / spacing - 1.0 / heated.spacing)
    return Finding(
        "warm.edge-strip",
        "Warmest place of the strip along outer walls on the coldest day",
        warmest,
        "degC",
        within=0.05,
        month=made.month + 1,
        limit=made.room + limit.value,
        sense="at most",
        basis=(limit.basis(), *conduction()),
        rests_on=(*rests_on(resolved, heated), "tube.edge-spacing", limit.path, wide.path),
        steps=(
            Step("q_up", "in the strip", f"spacing {fixed(spacing, 3)} m", f"{fixed(gives, 1)} W/m²"),
            Step(
                "A",
                "strip, of the floor",
                f"{fixed(wide.value, 1)} m along {fixed(resolved.perimeter, 1)} m",
                f"{fixed(100.0 * share, 0)} %",
            ),
            Step("q_up", "more over the whole floor", "", f"{fixed(more, 1)} W/m²"),
            Step("L", "tube more than told for the field", "", f"{fixed(tube, 1)} m"),
        ),
        words=f"The strip gives {say.both(gives, 'W/m²', resolved.system)} with the same water, the floor as a whole "
        f"{say.both(more, 'W/m²', resolved.system)} more, and takes "
        f"{say.both(tube, 'm', resolved.system)} more of tube.",
    )
