"""What a heated floor's surface and water come to on the coldest day, and what of the heat goes down in a season."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterator

import numpy as np

from ...catalogue import heated_floors
from ...catalogue.records import Quantity
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from ..basis import basis, conduction
from ..solved import floor_rests_on
from .worked import Worked, most_by_surface

FOR_ANIMALS = ("barn",)
ANIMALS = (
    "Animals lie on it: what is warm enough and what burns them is for the veterinarian, and changes with their age."
)


def surface(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Finding:
    """How warm the floor's surface gets above the tubes on the coldest day.

    Asks
        Is this floor too warm to stand on, or for what lies on it, on the day that asks most of it?
    Why
        Feet swell above 29 °C and wood opens its joints. A room that wants more than such a floor gives needs another
        source of heat, however warm the water is.
    Worked out
        The section between two tubes with the water that the load takes; its warmest place, above a tube.
    Holds for
        Floor without rugs or cupboards on it: what covers it gets warmer below. The limit for feet is for rooms that
        people stay in.
    Source
        EN 1264-2 (quoted) for the limit, ISO 10211 for the section; the covering's own limit by practice.
    """
    limit, why = warmest_surface(resolved, made)
    mean, warmest, coolest = made.surface
    more = most_by_surface(made, made.cell, limit.value)
    held = resolved.use.key not in FOR_ANIMALS
    return Finding(
        "warm.surface",
        "Warmest place of the heated floor on its coldest day",
        warmest,
        "degC",
        within=0.05,
        month=made.month + 1,
        limit=limit.value if held else None,
        sense="at most" if held else None,
        basis=(limit.basis(), *conduction()),
        rests_on=rests_on(resolved, heated),
        steps=(
            Step("q_up", "wanted of the floor", "", f"{fixed(made.up, 1)} W/m²"),
            Step("θ_F", "mean of the surface", f"{fixed(made.room, 1)} °C room", f"{fixed(mean, 2)} °C"),
            Step("θ_F", "between two tubes and above one", "", f"{fixed(coolest, 2)} to {fixed(warmest, 2)} °C"),
            Step("q_max", "given where the warmest place is at its limit", "", f"{fixed(more, 1)} W/m²"),
        ),
        words=_depth(heated) + (_told(resolved, heated, made, limit, why, more) if held else ANIMALS),
    )


def warmest_surface(resolved: Resolved, made: Worked) -> tuple[Quantity, str]:
    """The lower of what feet and what the covering bear, as a temperature, and whose limit it is."""
    above = heated_floors.above_room("occupied")
    most = made.room + above.value
    feet = Quantity(most, "degC", most, most, above.source, above.where, above.seen, above.path)
    covering = resolved.floor[0].covering
    if covering is not None and covering.warmest is not None and covering.warmest.value < most:
        return covering.warmest, f"{covering.label} bears no more; feet would."
    return feet, "People stay on it."


def _depth(heated: HeatedFloor) -> str:
    if heated.depth_told:
        return ""
    return "How deep the tubes lie is not said; in the middle of their layer, as most do (depth-from-top). "


def _told(resolved: Resolved, heated: HeatedFloor, made: Worked, limit: Quantity, why: str, most: float) -> str:
    load, gives = (say.both(each, "W/m²", resolved.system) for each in (heated.load, most))
    if made.surface[1] <= limit.value:
        return f"{why} The room wants {load} and this floor may give {gives}."
    lacks = say.both(heated.load - most, "W/m²", resolved.system)
    return (
        f"{why} The room wants {load}; this floor may give {gives}, {lacks} too little. Tubes nearer to one another, a "
        "thinner covering or a tighter house help, or a second source of heat on the coldest days."
    )


def heat_down(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Iterator[Finding]:
    """What of the heat goes down in a heating season.

    Asks
        How much of what is paid for goes into the ground?
    Why
        It is why there is foam below a heated floor. Installers reckon with a tenth; what it is depends on foam, ground
        and edges.
    Worked out
        Twelve months in which the water gives what the room wants, over the ground as the sections have it: what lasts
        and what swings with the year each meets its own resistance.
    Holds for
        The settled year, floor heated all over. In the first winter more goes down, for the ground is still cool. What
        a floor without tubes loses is in it.
    Source
        Derived from ISO 10211's section and ISO 13370's year (from memory).
    """
    year = made.season
    of_up, of_total = year.down_of_up, year.down_of_total
    down = float(year.down[year.heated].mean())
    season_steps = (
        Step("q_up", "up, mean of the months with heat", "", f"{fixed(float(year.up[year.heated].mean()), 2)} W/m²"),
        Step("q_down", "down in the same months", "", f"{fixed(down, 2)} W/m²"),
        Step("q_0", "down through the same floor unheated", "", f"{fixed(_anyway(made), 2)} W/m²"),
        Step("R_below", "ground as the whole floor has it", "", f"{fixed(made.worth, 3)} m²·K/W"),
    )
    for of, share, formula in (("up", of_up, "down / up"), ("total", of_total, "down / (up + down)")):
        yield Finding(
            "warm.downward",
            f"Heat that goes down in a heating season, of what goes {'up' if of == 'up' else 'both ways'}",
            100.0 * share,
            "%",
            at={"of": of},
            within=100.0 * made.within * share,
            basis=(*conduction(), basis("iso-13370-2017", "mean and swing of the year apart")),
            rests_on=rests_on(resolved, heated),
            steps=(*season_steps, Step("share", formula, "", f"{fixed(100.0 * share, 1)} %")),
            words=_against_the_rule(of_total, made) if of == "total" else "",
        )


def _anyway(made: Worked) -> float:
    """Down in the months with heat, were the floor not heated. [W/m²]"""
    return float(np.mean([q for q, heats in zip(made.anyway, made.season.heated, strict=True) if heats]))


def _against_the_rule(share: float, made: Worked) -> str:
    coldest = month_name[made.month + 1]
    then = 100.0 * made.down / (made.up + made.down)
    here = "more" if 100.0 * share > heated_floors.usual("rule-down").value else "less"
    return (
        f"Installers reckon with a tenth; here it is {here}. On the coldest day, in {coldest}, {then:.0f} % go down: "
        f"the share is least when the room wants most. {_heating_adds(made)}"
    )


def _heating_adds(made: Worked) -> str:
    down = float(made.season.down[made.season.heated].mean())
    anyway = 100.0 * _anyway(made) / down
    if not 0.0 < anyway < 100.0:
        return ""
    edge = " An edge lets past the foam much of it." if made.worth < 0.0 else ""
    return f"Of what goes down, {anyway:.0f} % would go down unheated too.{edge}"


def rests_on(resolved: Resolved, heated: HeatedFloor) -> tuple[str, ...]:
    """Paths that every number of a heated floor leans on."""
    return tuple(dict.fromkeys([*heated.rests_on, "tube.load", *floor_rests_on(resolved)]))
