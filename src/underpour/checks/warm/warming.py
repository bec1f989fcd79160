"""How long a heated floor takes from cold."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

from ...catalogue import heated_floors
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.warm_floor.cell import Layer
from ...physics.warm_floor.warming import Warming, warm_up, without_losses
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from .floor import rests_on
from .worked import Worked, cell_with, layers_of, tube_of

HOURS, LONGEST, MILLI = 3600.0, 96.0, 1e3
GROUND = 1.0  # m of it that warm up along with the floor in that time
WHOLE = 0.9  # of the load, at which the floor counts as warm


@dataclass(frozen=True)
class FromCold:
    """A floor that warms up, and what it warms up to."""

    warming: Warming
    start: float  # degC, of everything
    power: float  # W/m², given meanwhile
    wanted: float  # degC, of the surface

    @property
    def reached(self) -> float | None:
        """None where it does not get there in the time that is followed. [h]"""
        return self.warming.reached(self.wanted)


def from_cold(resolved: Resolved, heated: HeatedFloor, made: Worked) -> FromCold:
    """The section between two tubes through time, from so many degrees cooler."""
    cooler, spare, warmer = (heated_floors.usual(name) for name in ("cooler", "spare-heat", "spare-warmth"))
    start = made.room - cooler.value
    ground = resolved.ground_below
    power, wanted = spare.value * (made.up + made.down), made.room + WHOLE * made.cell.film * made.up
    warming = warm_up(
        [*layers_of(resolved), Layer(GROUND, ground.conductivity, ground.heat_capacity)],
        tube_of(heated, made.water_film),
        made.cell.film,
        max(made.below - GROUND / ground.conductivity, 0.1),
        start=start,
        room=made.room,
        ground=start,
        power=power,
        warmest=made.room + made.excess + warmer.value,
        hours=LONGEST,
        until=wanted if heated.warm_within is None else inf,  # beside a limit all of it is drawn
    )
    return FromCold(warming, start, power, wanted)


def warm_up_time(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Finding:
    """How long the floor takes to give its heat, from ten degrees cooler.

    Asks
        How soon is this floor warm again after a week-end, a holiday or a cut?
    Why
        Four inches of concrete are slow: a room that is used by the day is cold when people come and warm when they go.
        Screed of an inch or two on foam is warm in an hour or two.
    Worked out
        The section between two tubes through time, a metre of ground below it, everything as cool as named; the source
        gives half as much again as on the coldest day and its water may be five degrees warmer.
    Holds for
        A room that is kept at its temperature by something else meanwhile. With a source that has no spare it takes
        longer.
    Source
        Conduction through time; source's spare heat and warmth are practice.
    """
    cooler, spare = (heated_floors.usual(name) for name in ("cooler", "spare-heat"))
    cold = from_cold(resolved, heated, made)
    start, power, wanted, hours = cold.start, cold.power, cold.wanted, cold.reached
    slab = resolved.floor[heated.layer]
    dry = without_losses(slab.thickness, slab.heat_capacity, wanted - start, power)
    limit = heated.warm_within / HOURS if heated.warm_within is not None else None
    value = LONGEST if hours is None else hours
    return Finding(
        "warm.warm-up",
        "Time that the floor takes from cold to nine tenths of its load",
        value,
        "h",
        within=0.02 * value,
        limit=limit,
        sense="at most" if limit is not None else None,
        basis=(Basis("Conduction through time", "section between two tubes", "derived"), spare.basis()),
        rests_on=(*rests_on(resolved, heated), *(("tube.warm-within",) if limit is not None else ())),
        steps=(
            Step("θ_0", "everything to begin with", f"{fixed(cooler.value, 0)} K cooler", f"{fixed(start, 1)} °C"),
            Step("q", "given meanwhile", f"{fixed(spare.value, 1)} times the coldest day's", f"{fixed(power, 1)} W/m²"),
            Step("t", "slab alone, nothing lost", "d c Δθ / q", f"{fixed(dry, 1)} h"),
            Step("t", "with foam, ground and room", "", f"{fixed(value, 1)} h" if hours is not None else "not in 96 h"),
        ),
        words=_words(resolved, heated, made, hours, limit),
    )


def _words(resolved: Resolved, heated: HeatedFloor, made: Worked, hours: float | None, limit: float | None) -> str:
    if limit is not None and (hours is None or hours > limit):
        return _thinner(resolved, heated, made, limit)
    if hours is None:
        return "It does not get there in four days with so little to spare."
    if hours > 12.0:
        return "Slow: keep it warm all through the season, and let it fall by two or three degrees at the most."
    return "Quick enough to be let go overnight."


def _thinner(resolved: Resolved, heated: HeatedFloor, made: Worked, limit: float) -> str:
    """What a thin screed in the place of a thick layer would take, where the board below is foam."""
    thin, n = heated_floors.usual("thin-screed").value / MILLI, heated.layer
    layer, below = resolved.floor[n], resolved.floor[n + 1 :]
    if heated.panel is not None or layer.thickness <= thin or not any(each.kind == "board" for each in below):
        return "More heat to spare helps little: a floor that must be warm sooner is thinner, with foam right below it."
    laid = replace(
        heated,
        axis=sum(each.thickness for each in resolved.floor[:n]) + thin / 2.0,
        warm_within=None,
    )
    floor = (*resolved.floor[:n], replace(layer, thickness=thin), *below)
    other = replace(resolved, floor=floor, heated=laid)
    cell = cell_with(other, laid, made)
    excess = cell.water_for(made.up, made.room, made.ground) - made.room
    hours = from_cold(other, laid, replace(made, cell=cell, excess=excess)).reached
    thick = say.both(thin, "m", resolved.system)
    if hours is None:
        return "More heat to spare helps little: a floor that must be warm sooner is thinner, with foam right below it."
    soon = "soon enough, and that is advised" if hours <= limit else "sooner, but not soon enough"
    return f"A thin screed of {thick} on the foam in its place would take {hours:.1f} h: {soon}."
