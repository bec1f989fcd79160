"""How a floor comes back after its heat has rested: a night, a week-end, an on-off garage."""

from __future__ import annotations

from ...catalogue import heated_floors
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.warm_floor.cell import Layer
from ...physics.warm_floor.warming import after_rest
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Rest
from .floor import rests_on
from .warming import GROUND, HOURS, WHOLE
from .worked import Worked, layers_of, tube_of

LONGEST = 72.0  # h that the way back is followed
LEAST = 0.1  # m²·K/W, below the ground that warms along


def come_back(resolved: Resolved, heated: HeatedFloor, made: Worked, rest: Rest) -> Finding:
    """How long the floor takes to give its heat again after it has rested.

    Asks
        Does a night's rest save anything here, and is the floor warm again in time?
    Why
        A thick slab has hardly cooled by morning, and what it has lost it takes back for half a day: set back at night
        it is cool when people rise. A thin one follows.
    Worked out
        The section between two tubes through time: first as on the coldest day, then without heat in a room that falls
        at once by so much, then with the source's spare heat and warmth in a room that is at its warmth again.
    Holds for
        The coldest day. A room that falls slowly leaves the floor warmer than told here.
    Source
        Conduction through time; the source's spare heat and warmth are practice.
    """
    spare, warmer = heated_floors.usual("spare-heat"), heated_floors.usual("spare-warmth")
    ground = resolved.ground_below
    own = GROUND / ground.conductivity
    beyond = max(made.below - own, LEAST)
    held = made.ground + made.down * (made.below - own - beyond)  # so that as much goes down as on the coldest day
    lasts, wanted = rest.lasts / HOURS, made.room + WHOLE * made.cell.film * made.up
    cooled, back = after_rest(
        [*layers_of(resolved), Layer(GROUND, ground.conductivity, ground.heat_capacity)],
        tube_of(heated, made.water_film),
        made.cell.film,
        beyond,
        water=made.room + made.excess,
        room=made.room,
        resting=made.room - rest.set_back,
        ground=held,
        rest=lasts,
        power=spare.value * (made.up + made.down),
        warmest=made.room + made.excess + warmer.value,
        hours=LONGEST,
        until=wanted,
    )
    hours = back.reached(wanted)
    value = LONGEST if hours is None else hours
    limit = rest.back_within / HOURS if rest.back_within is not None else None
    fallen = float(cooled.floor[-1])
    still = 100.0 * float(cooled.up[-1]) / made.up
    return Finding(
        "warm.come-back",
        "Time that the floor takes after a rest to nine tenths of its load",
        value,
        "h",
        within=0.02 * value,
        limit=limit,
        sense="at most" if limit is not None else None,
        basis=(Basis("Conduction through time", "section between two tubes", "derived"), spare.basis()),
        rests_on=(
            *rests_on(resolved, heated),
            *("tube.rest", "tube.set-back"),
            *(("tube.back-within",) if limit is not None else ()),
            *(spare.path, warmer.path),
        ),
        steps=(
            Step("θ_F", "surface before", "", f"{fixed(made.surface[0], 1)} °C"),
            Step("θ_F", "surface when the heat comes again", f"after {fixed(lasts, 1)} h", f"{fixed(fallen, 1)} °C"),
            Step("q_up", "what it still gives then, of the load", "", f"{fixed(still, 0)} %"),
            Step("t", "to nine tenths", f"{fixed(spare.value, 1)} times the heat", f"{fixed(value, 1)} h"),
        ),
        words=_words(resolved, hours, limit, lasts, fallen, still),
    )


def _words(
    resolved: Resolved, hours: float | None, limit: float | None, lasts: float, fallen: float, still: float
) -> str:
    surface = say.both(fallen, "degC", resolved.system)
    gives = f"where it gives {still:.0f} % of its load" if still > 0.5 else "where it gives nothing"
    told = f"The surface falls to {surface}, {gives}."
    if hours is None:
        return f"{told} It is not back in three days. Let it rest less."
    if limit is not None and hours > limit:
        return f"{told} Back too late: begin earlier, rest less, or lay a thinner screed on foam."
    if hours > lasts / 2.0:
        return f"{told} It takes long to come back for so short a rest, which saves little."
    return f"{told} Turn the heat on {hours:.0f} hours before the floor is wanted."
