"""A boiler beside the heat pump: what it makes of its fuel by how cool the water comes back."""

from __future__ import annotations

from calendar import month_name

from ...catalogue import heated_floors
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.warm_floor.sources import heat_for_fuel
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor, Water
from .floor import rests_on
from .worked import Worked


def boiler(resolved: Resolved, heated: HeatedFloor, runs: Water, made: Worked) -> Finding:
    """How much of its fuel a condensing boiler gives as heat, month by month.

    Asks
        Does the boiler condense with this floor, and how well does it burn?
    Why
        A condensing boiler is one only with cool water. An older boiler rusts with it; a mixing valve keeps it warm.
    Worked out
        Water that comes back, by supply and drop in each month; between two readings of usual boilers' curves.
    Holds for
        Natural gas, a boiler that feeds the floor alone. A maker's own curve goes before it.
    Source
        Practice.
    """
    dew, dry, cool, best = (heated_floors.usual(f"boiler-{name}") for name in ("dew", "dry", "cool", "best"))
    season, supplies = made.season, made.supplies(coldest_day=False)
    given = made.up + made.down
    parts = [float(season.up[n] + season.down[n]) / given if season.heated[n] else 0.0 for n in range(len(supplies))]
    back = [supply - runs.drop * part for supply, part in zip(supplies, parts, strict=True)]
    shares = tuple(
        heat_for_fuel(each, dew.value, dry.value / 100.0, cool.value, best.value / 100.0) * 100.0 for each in back
    )
    months = [n for n in range(len(supplies)) if season.heated[n]]
    heat = sum(parts[n] for n in months)
    fuel = sum(parts[n] / shares[n] for n in months)
    on_coldest = made.supplies(coldest_day=True)[made.month] - runs.drop
    comes = say.both(on_coldest, "degC", resolved.system)
    most = say.both(dew.value, "degC", resolved.system)
    condenses = f"On the coldest day water comes back at {comes}, below the {most} from which on nothing condenses."
    if on_coldest >= dew.value:
        condenses = f"On the coldest day water comes back at {comes}; from {most} on nothing condenses."
    return Finding(
        "warm.boiler",
        "Heat that a condensing boiler gives for its fuel, season",
        heat / fuel,
        "%",
        within=(best.high - best.low) / 2.0,
        months=shares,
        basis=(dew.basis(), best.basis()),
        rests_on=(*rests_on(resolved, heated), "tube.source", "tube.drop", dew.path, dry.path, cool.path, best.path),
        steps=(
            Step("η", "where nothing condenses", f"water back at {fixed(dew.value, 0)} °C", f"{fixed(dry.value, 0)} %"),
            Step("η", "with cool water", f"{fixed(cool.value, 0)} °C", f"{fixed(best.value, 0)} %"),
            *(
                Step("η", month_name[n + 1], f"water back at {fixed(back[n], 1)} °C", f"{fixed(shares[n], 1)} %")
                for n in months
            ),
        ),
        words=f"{condenses} An older boiler that must not condense needs a mixing valve. Shares are of the "
        "fuel's higher heating value.",
    )
