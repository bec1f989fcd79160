"""How warm a heated floor's water must be, and what that means for a heat pump."""

from __future__ import annotations

from calendar import month_name

from ...catalogue import heated_floors
from ...catalogue.records import Quantity
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.domain import OutOfDomain
from ...physics.warm_floor.curve import covering_factor, output_by_excess
from ...physics.warm_floor.sources import heat_for_electricity
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Water
from ..basis import basis, conduction
from ..compatibility import steady_heat
from .floor import rests_on
from .worked import Worked


def water(resolved: Resolved, heated: HeatedFloor, runs: Water, made: Worked) -> Finding:
    """How warm the water must be, on the coldest day and month by month.

    Asks
        What supply temperature does this floor ask for, and does everything that it touches stand that?
    Why
        Each kelvin less makes a heat pump better by two to three in a hundred. Foam and screed bear only so much.
    Worked out
        Mean of the water from the section between two tubes; supply so that the logarithmic mean along the loop is it.
        Months by what the room then wants, in proportion to how much colder it is outdoors; the coldest by its day.
    Holds for
        A room kept at its temperature, water that runs as fast in every month. The limit is the least of concrete and
        the foam in the floor.
    Source
        EN 1264-2 (quoted) for the mean; EN 1264-4 (from memory) for concrete; the foam's own figure.
    """
    limit = warmest_supply(resolved)
    by_curve = _by_curve(resolved, heated)
    beside = (
        Step("K_H", "by the standard's curve instead", "EN 1264-2, type A", f"{fixed(by_curve, 3)} W/(m²·K)"),
        Step("Δθ_H", "so the water's mean would be above the room by", "", f"{fixed(made.up / by_curve, 1)} K")
        if by_curve
        else Step("K_H", "by the standard's curve", "", "this floor lies outside what it is printed for"),
    )
    supplies = made.supplies(coldest_day=True)
    return Finding(
        "warm.supply",
        "Water that enters the floor on its coldest day",
        supplies[made.month],
        "degC",
        within=made.within * made.excess,
        month=made.month + 1,
        months=supplies,
        limit=limit.value,
        sense="at most",
        basis=(limit.basis(), basis("en-1264-2", "logarithmic mean of the water"), *conduction()),
        rests_on=(*rests_on(resolved, heated), "tube.fluid", "tube.drop", limit.path),
        steps=(
            Step("U_up", "water to room, between two tubes", "", f"{fixed(made.cell.water_to_room, 3)} W/(m²·K)"),
            Step("Δθ_m", "mean of the water above the room", "", f"{fixed(made.excess, 2)} K"),
            Step(
                "θ_V",
                "supply, by that mean and its drop",
                f"{fixed(runs.drop, 1)} K",
                f"{fixed(supplies[made.month], 1)} °C",
            ),
            *(beside if by_curve else beside[1:]),
        ),
        words=_warmer_than(resolved, supplies[made.month], limit),
    )


def warmest_supply(resolved: Resolved) -> Quantity:
    """What concrete and the boards of the floor stand for good, the least of them. [degC]"""
    limit = heated_floors.warmest_water()
    for layer in resolved.boards:
        stands = steady_heat(resolved, layer.record) if layer.record is not None else None
        if stands is not None and stands.value < limit.value:
            limit = stands
    return limit


def _warmer_than(resolved: Resolved, supply: float, limit: Quantity) -> str:
    stands = say.both(limit.value, "degC", resolved.system)
    if supply <= limit.value:
        return "What lies round the tubes and below them stands that."
    return (
        f"What lies round the tubes or below them stands {stands} for good. Tubes nearer to one another or nearer to "
        "the top, a thinner covering or a smaller load need cooler water."
    )


def heat_pump(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Finding:
    """How much of its electricity a heat pump gives back as heat, month by month.

    Asks
        What does the water's temperature mean for the heat pump, and what does foam save twice?
    Why
        Foam that keeps heat from going down lowers the water's temperature too, and a heat pump likes cool water.
    Worked out
        A share of the best that could be done between the outdoor air and water a little warmer than the supply.
    Holds for
        An air-source unit of usual make in the months with heat, on their means; defrosting and pump are in the share.
        A maker's own figures go before it.
    Source
        Carnot's limit; the share is practice.
    """
    share, most, lift = (heated_floors.usual(name) for name in ("of-carnot", "most-of-pump", "exchangers"))
    supplies, season = made.supplies(coldest_day=False), made.season
    months = [n for n in range(len(supplies)) if season.heated[n]]
    times = tuple(
        min(heat_for_electricity(share.value, supply, air, lift.value), most.value)
        for supply, air in zip(supplies, made.outdoors, strict=True)
    )
    heat = {n: float(season.up[n] + season.down[n]) for n in months}
    whole, power = sum(heat.values()), sum(heat[n] / times[n] for n in months)
    worst = min(months, key=times.__getitem__)
    return Finding(
        "warm.heat-pump",
        "Heat that a heat pump gives for its electricity, season",
        whole / power,
        "1",
        within=whole / power * (share.high - share.low) / (2.0 * share.value),
        months=times,
        basis=(share.basis(),),
        rests_on=(
            *rests_on(resolved, heated),
            "tube.source",
            "tube.drop",
            resolved.climate_path,
            share.path,
            most.path,
            lift.path,
        ),
        steps=(
            Step("COP", "share of Carnot's, no month above", fixed(share.value, 2), fixed(most.value, 1)),
            *(Step("COP", month_name[n + 1], f"water {fixed(supplies[n], 1)} °C", fixed(times[n], 2)) for n in months),
        ),
        words=f"Least in {month_name[worst + 1]}, {fixed(times[worst], 1)}. Each kelvin of cooler water gives two to "
        "three in a hundred more: tubes nearer to one another or a thinner covering. Foam spares what goes down.",
    )


def _by_curve(resolved: Resolved, heated: HeatedFloor) -> float:
    """What the standard's curve gives by kelvin; 0 where the floor lies outside what it is printed for. [W/(m²·K)]"""
    over = sum(layer.resistance for layer in resolved.floor[: heated.layer])
    slab = resolved.floor[heated.layer]
    above = sum(layer.thickness for layer in resolved.floor[: heated.layer])
    cover = heated.axis - heated.outside / 2.0 - above
    factor = covering_factor(0.045, slab.conductivity, over)
    try:
        return output_by_excess(
            heated.spacing, cover, heated.outside, factor, *heated_floors.curve_factors(heated.spacing, over)
        )
    except OutOfDomain:
        return 0.0
