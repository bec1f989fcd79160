"""What floor and basement wall lose over the year, what of it does harm, and the peak by the hour."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterator, Sequence

import numpy as np

from ..findings import Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..measure.hours import hour_words
from ..physics.year import YEAR
from ..resolve import Resolved
from .basis import basis
from .settled import COOLNESS, HEAT, KILO, MONTHS, NOTHING, Array, Year, of_the_year, wanted
from .solved import SolvedEdge, counted_up_to, floor_rests_on

COOLED, USE = "floor.cooled", "project.use"
THROUGH = {"floor": "the floor", "wall": "the foundation wall"}


def loss(resolved: Resolved, edges: tuple[SolvedEdge, ...], year: Year) -> Iterator[Finding]:
    """What the floor, and a basement's wall, lose over the year, what of it does harm, and the peak by the hour.

    Asks
        How many kilowatt hours go through the floor in a year: which of them does the room want, which not?
    Why
        The heating pays for heat that leaves in winter. Coolness in a warm summer, or heat that the ground gives to a
        room held colder than it, is welcome; foam keeps that out too.
    Worked out
        The flow of each hour summed: out of the room is above zero. In months in which outdoors is colder than the
        room, the room wants heat: what leaves does harm, what comes in is of use. In the others a room that is cooled
        wants coolness, the other way round; one that is let go wants nothing, and what goes through then is neither.
        A floor that is kept frozen wants coolness in every month.
        Hours from a weather file go through the section's response; without one the year is a mean and one swing.
    Holds for
        The settled year, the room held as typed all year. How warm a room grows that is let go in summer is not worked
        out: type it (floor.inside, winter and summer).
    Source
        ISO 10211 for the section, ISO 13370 for the annual harmonic; what is of use is common practice, no source.
    """
    rests_on = _rests_on(resolved, edges)
    for of, hourly in year.flows.items():
        yield from _over_the_year(resolved, edges, year, of, hourly, rests_on)


def _over_the_year(
    resolved: Resolved, edges: tuple[SolvedEdge, ...], year: Year, of: str, hourly: Array, rests_on: tuple[str, ...]
) -> Iterator[Finding]:
    if year.by_hours:
        yield _peak_hour(resolved, edges, year, of, rests_on)
    wants = wanted(resolved)
    now = np.array(wants)[year.month]
    harmful, useful = np.maximum(now * hourly, 0.0), np.maximum(-now * hourly, 0.0)
    through = THROUGH[of]
    said = {
        "net": _net_words(resolved, year, of),
        "harmful": f"{_wants(resolved, wants)} What goes against that is counted here.",
        "useful": _useful_words(resolved, year, wants, hourly, float(useful.sum())),
    }
    for flow, each in (("net", hourly), ("harmful", harmful), ("useful", useful)):
        months = year.kilowatt_hours(each)
        net = flow == "net"
        yield Finding(
            "heat.loss-year",
            f"{'Net heat lost' if net else f'{flow.capitalize()} heat'} through {through} over the year",
            sum(months),
            "kWh",
            at={"of": of, "flow": flow},
            within=year.within[of] * YEAR / 3600.0 / KILO,
            months=months,
            basis=(*of_the_year(year), *(() if net else (basis("practice", "what a room wants of the ground"),))),
            rests_on=rests_on if net else (*rests_on, USE if resolved.use.cold_floor else COOLED),
            steps=(
                Step("Q", "hours of each month summed", _by_month(months), f"{fixed(sum(months), 0)} kWh"),
                *(() if net else (Step("wants", "the room, by month", _by_want(wants), ""),)),
            ),
            words=said[flow],
        )


def _peak_hour(
    resolved: Resolved, edges: tuple[SolvedEdge, ...], year: Year, of: str, rests_on: tuple[str, ...]
) -> Finding:
    hourly = year.flows[of]
    takes_in, at = peak_of(hourly)
    ends = [hourly[year.month == n] for n in MONTHS]
    when = hour_words(at, len(hourly))
    outdoors = say.both(float(year.outdoors[at]), "degC", resolved.system)
    words = [f"On {when} of the weather file, outdoors then at {outdoors}.", *_of_other_air(resolved, edges)]
    steps = [
        Step("Φ", "each hour of the weather file through the section's response", when, f"{fixed(hourly[at], 1)} W")
    ]
    if of == "wall":
        _, together = peak_of(year.whole)
        highest = say.both(float(year.whole[together]), "W", resolved.system)
        words += [f"Floor and wall together: {highest} on {hour_words(together, len(hourly))}."]
        words += [counted_up_to(resolved, edges)]
    through = THROUGH[of]
    return Finding(
        "heat.loss-peak",
        f"Heat taken in through {through} (negative), most, by hours"
        if takes_in
        else f"Heat lost through {through}, highest, by hours",
        float(hourly[at]),
        "W",
        at={"of": of, "method": "hours"},
        within=year.within[of],
        month=int(year.month[at]) + 1,
        months=tuple(float(each.min() if takes_in else each.max()) for each in ends),
        basis=of_the_year(year),
        rests_on=rests_on,
        steps=tuple(steps),
        words=" ".join(words),
    )


def peak_of(hourly: Array) -> tuple[bool, int]:
    """Whether heat comes in on the mean of the year, and the hour at which most goes that way, from 0."""
    takes_in = float(hourly.mean()) < 0.0
    return takes_in, int(hourly.argmin() if takes_in else hourly.argmax())


def _of_other_air(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Iterator[str]:
    """What the hours are taken to do beside edges that do not face outdoors."""
    beside = [(edge.edge.letter, air) for edge in edges if (air := edge.edge.beside) is not None]
    held = [letter for letter, air in beside if not air.follows]
    if held:
        keep = "keeps" if len(held) == 1 else "keep"
        yield f"The air beside {_edges(held)} {keep} what is typed for it: no hours are known of it."
    for follows in dict.fromkeys(air.follows for _, air in beside if air.follows):
        letters = [letter for letter, air in beside if air.follows == follows]
        yield (
            f"The unheated space beside {_edges(letters)} is taken to follow each hour by {100.0 * follows:.0f} % of "
            "what outdoors does; what it stores is not counted."
        )


def _edges(letters: Sequence[str]) -> str:
    if len(letters) == 1:
        return f"edge {letters[0]}"
    return f"edges {', '.join(letters[:-1])} and {letters[-1]}"


def _net_words(resolved: Resolved, year: Year, of: str) -> str:
    hourly, through = year.flows[of], THROUGH[of]
    total, months = sum(year.kilowatt_hours(hourly)), year.monthly(hourly)
    comes_in = [n for n in MONTHS if months[n] < 0.0]
    amount = say.both(abs(total), "kWh", resolved.system)
    if not comes_in:
        return f"Heat leaves through {through} in every month."
    said = "in every month" if len(comes_in) == 12 else in_months(comes_in)
    more = f"{amount} more {'leave than come in' if total >= 0.0 else 'come in than leave'}"
    whole = f"over the year {more if round(abs(total)) else 'as much leaves as comes in'}."
    source = "from the ground" if of == "floor" else "through the wall"
    if total < 0.0 and of == "floor":
        return f"The ground heats this room {said}; {whole}"
    return f"Heat comes in {source} {said}; {whole}"


def _wants(resolved: Resolved, wants: Sequence[int]) -> str:
    """What the room wants in which months, said once beside what goes against it."""
    room, cold = resolved.room, wants.count(HEAT)
    if resolved.use.cold_floor:
        return "This floor wants coolness all year: floors of this use are kept frozen."
    if room.follows:
        return "A room that is not heated wants nothing of the ground in any month."
    if cold == 12:
        return "Outdoors is colder than the room in every month, so the room wants heat all year."
    if room.cooled:
        warm = "coolness, as it is kept cool" if room.cooled_told else "coolness, as rooms of this use are kept cool"
    else:
        warm = "nothing, as it is let go" if room.cooled_told else "nothing, as it is taken to be let go"
    if cold == 0:
        return f"Outdoors is warmer than the room in every month, and the room wants {warm}."
    of = "month" if cold == 1 else "months"
    return f"In {cold} {of} outdoors is colder than the room, which wants heat; in the others it wants {warm}."


def _useful_words(resolved: Resolved, year: Year, wants: Sequence[int], hourly: Array, useful: float) -> str:
    said = "What goes the way that the room wants." if useful else "At no hour does heat go the way the room wants."
    idle = np.array(wants)[year.month] == NOTHING
    if not idle.any():
        return said
    per_watt = YEAR / 3600.0 / len(hourly) / KILO
    out, back = (float(np.maximum(sign * hourly[idle], 0.0).sum()) * per_watt for sign in (1.0, -1.0))
    ways = [
        f"{say.both(amount, 'kWh', resolved.system)} {way}"
        for amount, way in ((out, "leave"), (back, "come in"))
        if amount >= 0.5
    ]
    if not ways:
        return said
    told = f"{said} While it is let go {' and '.join(ways)}, neither useful nor harmful"
    return f"{told}." if resolved.room.cooled_told else f"{told}: say floor.cooled = true if it is kept cool."


def in_months(months: Sequence[int]) -> str:
    """Some months of the year, from 0, in words.

    >>> in_months([0, 1, 10, 11]), in_months([3]), in_months([3, 4, 8])
    ('from November to February', 'in April', 'in April, May and September')
    """
    starts = [n for n in months if (n - 1) % 12 not in months]
    names = [month_name[n + 1] for n in months]
    if len(names) == 1:
        return f"in {names[0]}"
    if len(starts) == 1:
        return f"from {month_name[starts[0] + 1]} to {month_name[(starts[0] + len(months) - 1) % 12 + 1]}"
    return f"in {', '.join(names[:-1])} and {names[-1]}"


def _by_month(months: Sequence[float]) -> str:
    return ", ".join(f"{month_name[n + 1][:3]} {fixed(value, 0)}" for n, value in enumerate(months))


def _by_want(wants: Sequence[int]) -> str:
    names = {HEAT: "heat", COOLNESS: "coolness", NOTHING: "nothing"}
    parts = [(name, [n for n, each in enumerate(wants) if each == want]) for want, name in names.items()]
    return "; ".join(f"{name} {in_months(at) if len(at) < 12 else 'all year'}" for name, at in parts if at)


def _rests_on(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys([*floor_rests_on(resolved), *(path for edge in edges for path in edge.rests_on)]))
