"""Supply over the outdoor temperature: what the heating's control is set to."""

from __future__ import annotations

from math import ceil

from ...catalogue import heated_floors
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Water
from ..basis import basis, conduction
from .floor import rests_on
from .worked import Worked

EVERY = 10  # K, from one line to the next


def weather_curve(resolved: Resolved, heated: HeatedFloor, runs: Water, made: Worked) -> Finding:
    """How much warmer the supply must be for each degree that it is colder outdoors.

    Asks
        How is the control set, so that the water is never warmer than the floor needs?
    Why
        A control that is set too steep wastes what a heat pump could save, and the room swings.
    Worked out
        The room's load in proportion to how much colder it is outdoors; the water's mean from the section between two
        tubes over the ground of the coldest month, its supply by the logarithm and the drop that is then left.
    Holds for
        Steady weather and a room without sun and people. The months' own supplies are those of ``warm.supply``.
    Source
        ISO 10211's section (from memory); EN 1264-2 (quoted) for the mean along the loop.
    """
    ends = heated_floors.usual("heating-ends")
    places = [heated.coldest]
    places += [
        float(t) for t in range(ceil(heated.coldest / EVERY) * EVERY, int(ends.value), EVERY) if t > heated.coldest + 2
    ]
    places.append(min(ends.value, made.room - 1.0))
    told = [(outdoors, _supply(heated, made, outdoors)) for outdoors in places]
    (cold, warmest), (mild, coolest) = told[0], told[-1]
    slope = (warmest - coolest) / (mild - cold)
    listed = "; ".join(
        f"{say.value(supply, 'degC', resolved.system)} at {say.value(outdoors, 'degC', resolved.system)}"
        for outdoors, supply in told
    )
    return Finding(
        "warm.weather-curve",
        "Kelvin of warmer supply for each that it is colder outdoors",
        slope,
        "1",
        within=made.within * slope,
        basis=(basis("en-1264-2", "logarithmic mean of the water"), *conduction(), ends.basis()),
        rests_on=(*rests_on(resolved, heated), "tube.drop", resolved.climate_path, ends.path),
        steps=tuple(
            Step("θ_V", "supply", f"{fixed(outdoors, 0)} °C outdoors", f"{fixed(supply, 1)} °C")
            for outdoors, supply in told
        ),
        words=f"Supply: {listed} outdoors.",
    )


def _supply(heated: HeatedFloor, made: Worked, outdoors: float) -> float:
    load = heated.load * (made.room - outdoors) / (made.room - heated.coldest)
    excess = made.cell.water_for(load, made.room, made.ground) - made.room
    down = made.cell.down(made.room + excess, made.room, made.ground)
    return made.room + made.supply(excess, (load + down) / (made.up + made.down))
