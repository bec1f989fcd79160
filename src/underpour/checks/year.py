"""The year: how warm floor and ground are month by month, the first winters."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterator

import numpy as np

from .. import catalogue
from ..findings import Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.conduction.response import first_years
from ..physics.ground import undisturbed_temperature
from ..physics.year import lowest_moment
from ..resolve import Resolved
from .basis import basis, conduction
from .by_formula import hardcore_from
from .settled import Year, of_the_year
from .solved import OUTER_METRE, SolvedEdge, felt, floor_faces, floor_rests_on, summed

OWN_DEPTH = 2.0  # m: of the three depths that weather files name (0.5, 2 and 4 m) the middle one
WINTERS = 3


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
            basis=of_the_year(year),
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
        within=year.within["floor"] / resolved.area * resistance,
        month=coldest + 1,
        months=months,
        basis=(*of_the_year(year), film.basis()),
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


def _rests_on(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys([*floor_rests_on(resolved), *(path for edge in edges for path in edge.rests_on)]))
