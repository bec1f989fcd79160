"""The year: what the floor loses month by month and at its peak, how warm floor and ground are, the first winters."""

from __future__ import annotations

from calendar import month_name, monthrange
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .. import catalogue
from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.conduction.response import first_years, followed
from ..physics.conduction.solve import Told
from ..physics.ground import undisturbed_temperature
from ..physics.year import YEAR, lowest_moment
from ..resolve import Resolved
from .basis import basis, conduction
from .by_formula import hardcore_from
from .solved import OUTER_METRE, SolvedEdge, felt, floor_faces, floor_rests_on, summed

Array = NDArray[np.float64]

HOURS = 8760
KILO = 1e3
OWN_DEPTH = 2.0  # m: of the three depths that weather files name (0.5, 2 and 4 m) the middle one
WINTERS = 3
SEEN = ("corner", "edge", "centre")  # places of the floor, in the order that ``watched`` has them
MONTHS = range(12)


@dataclass(frozen=True)
class Year:
    """One settled year of the floor, hour by hour; by the harmonic alone where only months are known."""

    month: NDArray[np.int64]  # (hours,) 0 to 11
    outdoors: Array  # (hours,) degC
    room: Array  # (hours,) degC
    floor: Array  # (hours,) W out of the room
    places: dict[tuple[str, str], Array]  # by edge and place; (hours,) degC
    within: float  # W
    of_places: float  # K
    by_hours: bool

    def monthly(self, hourly: Array) -> tuple[float, ...]:
        """Mean of each calendar month."""
        return tuple(float(hourly[self.month == n].mean()) for n in MONTHS)

    def kilowatt_hours(self, hourly: Array) -> tuple[float, ...]:
        """Watts summed over each calendar month. [kWh]"""
        return tuple(float(hourly[self.month == n].sum()) * _an_hour(hourly) for n in MONTHS)


def _an_hour(hourly: Array) -> float:
    """Kilowatt hours that a watt brings in one of so many equal steps of a year."""
    return YEAR / 3600.0 / len(hourly) / KILO


def settled_year(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Year:
    """The settled year of a floor with a room over it.

    What swings once a year is taken from the section as it is solved on the finer grid. Where hours are known, what
    they bring beyond that goes through the section's response; edges beside other air have no hours.
    """
    hours = len(resolved.outdoor_hours) or HOURS
    at = (np.arange(hours) + 0.5) / hours
    harmonic = _wave(Told(resolved.outdoor_mean, resolved.outdoor_swing, 0.0), at)
    outdoors = np.array(resolved.outdoor_hours) if resolved.outdoor_hours else harmonic
    floor, within, off = np.zeros(hours), 0.0, 0.0
    places: dict[tuple[str, str], Array] = {}
    for edge in edges:
        flow = edge.heat.flow(floor_faces)
        points = list(edge.points)
        told = [flow, *(edge.heat.temperature(*edge.points[name]) for name in points)]
        series = [_wave(each, at) for each in told]
        bound = [each.within for each in told]
        if resolved.outdoor_hours and edge.response is not None and edge.edge.beside is None:
            further = followed(edge.response, _open_air(edge)[:, None] * (outdoors - harmonic)).watched
            series = [each + more for each, more in zip(series, further, strict=True)]
            bound = [
                each + float(share * np.abs(more).max())
                for each, share, more in zip(bound, edge.response.unseen, further, strict=True)
            ]
        floor += series[0] * edge.edge.length
        within += bound[0] * edge.edge.length
        places |= {(edge.edge.letter, name): each for name, each in zip(points, series[1:], strict=True)}
        off = max(off, *bound[1:])
    return Year(
        _months(hours), outdoors, _wave(Told(resolved.room.mean, resolved.room.swing, 0.0), at), floor, places,
        within, off, bool(resolved.outdoor_hours),
    )  # fmt: skip


def _open_air(edge: SolvedEdge) -> Array:
    """How much each air of an edge follows the hours; what lies on the ground dulls them as it dulls the year."""
    _, airs = felt(edge.heat)
    share = [float(air.where == "outdoors") for air in edge.section.airs]
    for climate in edge.heat.climates:
        if climate.level is not None:
            share.append(abs(climate.level.swing) / abs(climate.swing) if climate.swing else 1.0)
    assert len(share) == len(airs)
    return np.array(share)


def _wave(told: Told, at: Array) -> Array:
    return np.asarray(told.mean + (told.swing * np.exp(2j * np.pi * at)).real)


def _months(hours: int) -> NDArray[np.int64]:
    """Month, from 0, of each hour of a year of so many; 8784 of a leap year."""
    days = [monthrange(2000 if hours > HOURS else 2001, n + 1)[1] for n in MONTHS]
    return np.repeat(np.arange(12), np.array(days) * 24)


def loss(resolved: Resolved, edges: tuple[SolvedEdge, ...], year: Year) -> Iterator[Finding]:
    """What the floor loses over the year, what of it does harm, and its peak by the hour.

    Asks
        How many kilowatt hours go through the floor in a year: which of them does the room want, which not?
    Why
        The heating pays for heat that leaves in winter. Coolness in a warm summer, or heat that the ground gives to a
        room held colder than it, is welcome; foam keeps that out too.
    Worked out
        The flow of each hour summed: out of the room is above zero. In months in which outdoors is colder than the
        room, the room wants heat: what leaves does harm, what comes in is of use; in the others the other way round.
        Hours from a weather file go through the section's response; without one the year is a mean and one swing.
    Holds for
        The settled year, the room held as typed all year. A room that is let go in summer wants no coolness: nothing is
        of use to it then.
    Source
        ISO 10211 for the section, ISO 13370 for the annual harmonic; what is of use is common practice, no source.
    """
    rests_on = _rests_on(resolved, edges)
    if year.by_hours:
        yield _peak_hour(resolved, year, rests_on)
    wants_heat = np.array(year.monthly(year.room))[year.month] >= np.array(year.monthly(year.outdoors))[year.month]
    harmful = np.where(wants_heat, np.maximum(year.floor, 0.0), np.maximum(-year.floor, 0.0))
    useful = np.abs(year.floor) - harmful
    names = {"net": year.floor, "harmful": harmful, "useful": useful}
    titles = {
        "net": "Net heat lost through the floor over the year",
        "harmful": "Harmful heat through the floor over the year",
        "useful": "Useful heat through the floor over the year",
    }
    cold = int(sum(bool(wants_heat[year.month == n][0]) for n in MONTHS))
    for name, hourly in names.items():
        months = year.kilowatt_hours(hourly)
        yield Finding(
            "heat.loss-year",
            titles[name],
            sum(months),
            "kWh",
            at={"of": "floor", "flow": name},
            within=year.within * YEAR / 3600.0 / KILO,
            months=months,
            basis=(*_basis(year), *(() if name == "net" else (basis("practice", "what a room wants of the ground"),))),
            rests_on=rests_on,
            steps=(
                Step(
                    "Q",
                    "hours of each month summed",
                    _by_month(months, "kWh", resolved),
                    f"{fixed(sum(months), 0)} kWh",
                ),
            ),
            words=_net_words(resolved, year, sum(months)) if name == "net" else _wanted_words(name, sum(months), cold),
        )


def _peak_hour(resolved: Resolved, year: Year, rests_on: tuple[str, ...]) -> Finding:
    takes_in = float(year.floor.mean()) < 0.0
    at = int(year.floor.argmin() if takes_in else year.floor.argmax())
    ends = [year.floor[year.month == n] for n in MONTHS]
    day, hour = divmod(at - int((year.month < year.month[at]).sum()), 24)
    when = f"{day + 1} {month_name[int(year.month[at]) + 1]}, {hour + 1:02d}:00"
    outdoors = say.both(float(year.outdoors[at]), "degC", resolved.system)
    return Finding(
        "heat.loss-peak",
        "Heat taken in through the floor (negative), most, by hours"
        if takes_in
        else "Heat lost through the floor, highest, by hours",
        float(year.floor[at]),
        "W",
        at={"of": "floor", "method": "hours"},
        within=year.within,
        month=int(year.month[at]) + 1,
        months=tuple(float(each.min() if takes_in else each.max()) for each in ends),
        basis=_basis(year),
        rests_on=rests_on,
        steps=(
            Step(
                "Φ",
                "each hour of the weather file through the section's response",
                when,
                f"{fixed(float(year.floor[at]), 1)} W",
            ),
        ),
        words=f"On {when} of the weather file, outdoors then at {outdoors}.",
    )


def _net_words(resolved: Resolved, year: Year, total: float) -> str:
    months = year.monthly(year.floor)
    comes_in = [n for n in MONTHS if months[n] < 0.0]
    amount = say.both(abs(total), "kWh", resolved.system)
    if not comes_in:
        return f"{amount} leave through the floor, in every month."
    said = "in every month" if len(comes_in) == 12 else _listed(comes_in)
    whole = f"over the year {amount} more {'leave than come in' if total >= 0.0 else 'come in than leave'}."
    if total < 0.0:
        return f"The ground heats this room {said}; {whole}"
    return f"Heat comes in from the ground {said}; {whole}"


def _wanted_words(name: str, amount: float, cold: int) -> str:
    """Which way the room wants heat to go, said once beside what goes the wrong way."""
    if name == "useful":
        return "What goes the way that the room wants." if amount else "At no hour does heat go the way the room wants."
    if cold == 12:
        wants = "Outdoors is colder than the room in every month, so the room wants heat all year"
    elif cold == 0:
        wants = "Outdoors is warmer than the room in every month, so the room wants coolness all year, if it is cooled"
    else:
        of = "month" if cold == 1 else "months"
        wants = f"In {cold} {of} outdoors is colder than the room, which wants heat"
        wants += "; in the others coolness, if it is cooled"
    return f"{wants}. What goes the other way is counted here."


def _listed(months: Sequence[int]) -> str:
    """Some months of the year, from 0, in words.

    >>> _listed([0, 1, 10, 11]), _listed([3]), _listed([3, 4, 8])
    ('from November to February', 'in April', 'in April, May and September')
    """
    starts = [n for n in months if (n - 1) % 12 not in months]
    names = [month_name[n + 1] for n in months]
    if len(names) == 1:
        return f"in {names[0]}"
    if len(starts) == 1:
        return f"from {month_name[starts[0] + 1]} to {month_name[(starts[0] + len(months) - 1) % 12 + 1]}"
    return f"in {', '.join(names[:-1])} and {names[-1]}"


def _by_month(months: Sequence[float], unit: str, resolved: Resolved) -> str:
    return ", ".join(f"{month_name[n + 1][:3]} {fixed(value, 0)}" for n, value in enumerate(months))


def floor(resolved: Resolved, solved: SolvedEdge, year: Year) -> Iterator[Finding]:
    """How warm the floor's surface is, month by month, at three places.

    Asks
        How warm is the floor where it meets the wall, a metre in, and in its middle, through the year?
    Why
        The coldest hour tells of damp; what feet feel for weeks is the mean of the month.
    Worked out
        Mean over the hours of each calendar month, at the corner, a metre from the wall and in the middle.
    Holds for
        The settled year, room temperature as typed.
    Source
        ISO 10211 and ISO 13370 for the temperatures.
    """
    letter = solved.edge.letter
    named = {
        "corner": "Floor in its corner with the wall, coldest month's mean",
        "edge": f"Floor at its edge, {say.both(OUTER_METRE, 'm', resolved.system)} from the wall, coldest month's mean",
        "centre": "Floor at its centre, coldest month's mean",
    }
    for place in solved.points:
        months = year.monthly(year.places[letter, place])
        coldest = int(np.argmin(months))
        yield Finding(
            "heat.floor-year",
            named[place],
            months[coldest],
            "degC",
            at={"edge": letter, "place": place},
            within=year.of_places,
            month=coldest + 1,
            months=months,
            basis=_basis(year),
            rests_on=(*floor_rests_on(resolved), *solved.rests_on),
            steps=(
                Step("x", "from the wall", "", f"{fixed(solved.points[place][0] - solved.section.corner[0], 2)} m"),
                Step(
                    "θ_floor",
                    "mean of each month",
                    ", ".join(f"{month_name[n + 1][:3]} {fixed(each, 1)}" for n, each in enumerate(months)),
                    f"{fixed(months[coldest], 2)} °C",
                ),
            ),
        )


def ground(resolved: Resolved, edges: tuple[SolvedEdge, ...], year: Year) -> Iterator[Finding]:
    """What the trade calls ground temperature, beside the ground's own.

    Asks
        Which one temperature below the floor would make its plain R-value lose what it truly loses, month by month?
    Why
        People use one fixed ground temperature. Under a heated floor the ground is warmer than the land beside it, and
        its own temperature at some depth is not what the floor meets.
    Worked out
        Room temperature less the flow by area times the resistance of film and layers, down to the gravel; and open
        land 2 m down, of the ground that lies at the surface.
    Holds for
        The whole floor, its edges in it; the surface of open land as the brief says, or as warm as the air.
    Source
        Definition for the first; Kusuda and Achenbach 1965 for the second.
    """
    layers = resolved.floor[: hardcore_from(resolved)]
    film = catalogue.surface("floor-up" if resolved.room.mean < resolved.outdoor_mean else "floor-down")
    resistance = film.value + sum(layer.resistance for layer in layers)
    flow, room = year.monthly(year.floor), year.monthly(year.room)
    months = tuple(r - f / resolved.area * resistance for r, f in zip(room, flow, strict=True))
    coldest = int(np.argmin(months))
    rests_on = _rests_on(resolved, edges)
    yield Finding(
        "heat.ground-year",
        "Effective ground temperature below the floor, coldest month",
        months[coldest],
        "degC",
        at={"of": "effective"},
        within=year.within / resolved.area * resistance,
        month=coldest + 1,
        months=months,
        basis=(*_basis(year), film.basis()),
        rests_on=(*rests_on, film.path),
        steps=(
            Step("R", "film and layers down to the gravel", "", f"{fixed(resistance, 3)} m²·K/W"),
            Step(
                "θ_e",
                "θ_room − Φ / A × R, means of the month",
                f"{fixed(room[coldest], 2)} − {fixed(flow[coldest], 1)} / {fixed(resolved.area, 1)} × "
                f"{fixed(resistance, 3)}",
                f"{fixed(months[coldest], 2)} °C",
            ),
        ),
        words="What the trade calls ground temperature: with the floor's R alone it gives the loss of each month.",
    )
    soil = resolved.ground
    diffusivity = soil.conductivity / soil.heat_capacity
    hours = len(year.floor)
    lies = resolved.surface
    mean, swing = (lies.mean, lies.swing) if lies else (resolved.outdoor_mean, resolved.outdoor_swing)
    own = undisturbed_temperature(
        OWN_DEPTH, (np.arange(hours) + 0.5) / hours, mean, abs(swing), lowest_moment(swing), diffusivity
    )
    months = year.monthly(np.asarray(own))
    coldest = int(np.argmin(months))
    depth = say.both(OWN_DEPTH, "m", resolved.system)
    yield Finding(
        "heat.ground-year",
        f"Ground {depth} deep in open land, coldest month",
        months[coldest],
        "degC",
        at={"of": "open land"},
        within=0.0,
        month=coldest + 1,
        months=months,
        basis=(basis("kusuda-achenbach-1965", "temperature of undisturbed ground"),),
        rests_on=(*soil.rests_on, resolved.climate_path, *(lies.rests_on if lies else ())),
        steps=(
            Step(
                "θ_own",
                "θ_mean − amplitude × exp(−z/δ) × cos(2π(f − f_coldest) − z/δ), δ = √(a × year / π)",
                f"{fixed(mean, 2)} °C, {fixed(abs(swing), 2)} K, a = {fixed(1e6 * diffusivity, 3)} mm²/s",
                f"{fixed(months[coldest], 2)} °C",
            ),
        ),
        words="The land's own temperature, which no building warms. It is not what the floor loses its heat to.",
    )


def first_winters(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Iterator[Finding]:
    """How much more the floor loses in its first winters.

    Asks
        What does the floor lose after the pour, before the ground below has warmed?
    Why
        The settled year is what is shown everywhere else. Ground takes years to settle, and the first bills, and the
        first cold floor, are worse.
    Worked out
        The ground starts as warm as the mean of the year, all of it, and the room is held from the autumn on, when
        the air comes down to its mean. In the month in which the settled year has its largest flow: flow of each of
        the first three years over that of the settled year.
    Holds for
        Weather of the mean year, and ground that no other building has warmed. Wet concrete that dries is not counted.
    Source
        Derived from the section's response (ISO 10211, ISO 13370 for the settled year).
    """
    known = [(edge, edge.response) for edge in edges if edge.response is not None]
    if len(known) < len(edges):
        return
    floor = summed(edges, floor_faces)
    takes_in = floor.mean < 0.0
    sign = -1.0 if takes_in else 1.0
    begins = (lowest_moment(resolved.outdoor_swing) - 0.25) % 1.0
    peak = lowest_moment(-sign * floor.swing)
    after = (peak - begins) % 1.0
    after += 1.0 if after < 1.0 / 12.0 else 0.0  # the slab itself still warms up in its first weeks
    month = (np.arange(24) + 0.5) / 24.0 / 12.0 - 1.0 / 24.0
    years = np.concatenate([after + n + month for n in range(WINTERS)])
    flows, settled = np.zeros(len(years)), np.zeros(len(years))
    for edge, response in known:
        _, airs = felt(edge.heat)
        means, swings = np.array([air.mean for air in airs]), np.array([air.swing for air in airs])
        pour = first_years(response, resolved.ground_mean, means, swings, begins, years)[0]
        late = first_years(response, resolved.ground_mean, means, swings, begins, years + 1e4)[0]
        flows += pour * edge.edge.length
        settled += late * edge.edge.length
    if abs(settled.mean()) < SMALL * resolved.area:
        return
    shares = [
        100.0 * float(each.mean() / late.mean())
        for each, late in zip(np.split(flows, WINTERS), np.split(settled, WINTERS), strict=True)
    ]
    season = "summer" if takes_in else "winter"
    off = max(float(response.unseen[0]) for _, response in known)
    yield Finding(
        "heat.first-winters",
        f"Heat {'taken in' if takes_in else 'lost'} through the floor in its first {season}, settled years being 100 %",
        shares[0],
        "%",
        at={"of": "floor"},
        within=shares[0] * off + 100.0 * floor.within / (abs(floor.mean) + abs(floor.swing)),
        basis=(*conduction(), basis("sections-response", "start from ground that is equally warm")),
        rests_on=_rests_on(resolved, edges),
        steps=tuple(
            Step(
                f"Φ_{n} / Φ",
                f"{season} {n} after the pour over the settled one, in the month of the largest flow",
                f"{fixed(float(each.mean()), 1)} / {fixed(float(settled.mean()), 1)}",
                f"{fixed(share, 1)} %",
            )
            for n, (share, each) in enumerate(zip(shares, np.split(flows, WINTERS), strict=True), 1)
        ),
        words=f"Then {fixed(shares[1], 0)} % and {fixed(shares[2], 0)} %. All else that is said is of settled years.",
    )


SMALL = 0.01  # W/m²: a flow that no share is told of


def _basis(year: Year) -> tuple[Basis, ...]:
    if not year.by_hours:
        return conduction()
    return (*conduction(), basis("sections-response", "hours of the weather file, settled year"))


def _rests_on(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys([*floor_rests_on(resolved), *(path for edge in edges for path in edge.rests_on)]))
