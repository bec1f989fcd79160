"""When a new floor may be warmed for the first time, and how its water is then raised from day to day."""

from __future__ import annotations

from math import ceil

from ...catalogue import heated_floors
from ...findings import Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...resolve import Resolved
from ...resolve.tubes import HeatedFloor
from .worked import Worked

DAY = 86400.0
ID = "warm.first-heat"
TITLE = "From the pour until the first heat"


def first_heat(resolved: Resolved, heated: HeatedFloor, made: Worked) -> Finding:
    """How old concrete or screed is when it is first warmed, and the days in which its water is raised.

    Asks
        When may the heat come on, and how fast?
    Why
        Young concrete that is warmed dries at its top, curls and cracks, and never gets its strength. Heat turned on
        at once, so that the covering can be laid, is the usual way to lose both.
    Worked out
        Days from the pour against the age that screed or concrete must have; then cool water for some days, a rise from
        day to day, and the warmest for some days, before any covering is laid.
    Holds for
        Screed of cement and usual concrete. The maker of a screed and the engineer of a slab may say otherwise.
    Source
        EN 1264-4 (from memory) for screed and the first days; 28 days of concrete and the rise are practice.
    """
    layer = resolved.floor[heated.layer]
    age = heated_floors.usual(f"age-of-{layer.kind}")
    first, held, rise, top = (
        heated_floors.usual(name) for name in ("first-warmth", "first-days", "rise-of-supply", "top-days")
    )
    most = made.supplies(coldest_day=True)[made.month] if heated.water is not None else made.room + made.excess
    days = ceil(max(most - first.value, 0.0) / rise.value)
    whole = held.value + days + top.value
    rests = ("tube.heat-after", layer.path, age.path, first.path, rise.path)
    ramp = (
        f"Then {say.both(min(first.value, most), 'degC', resolved.system)} for {held.value:.0f} days, "
        f"{say.both(rise.value, 'K', resolved.system)} more each day up to {say.both(most, 'degC', resolved.system)}, "
        f"and that for {top.value:.0f} days: {whole:.0f} days in all, before a covering is laid. Let it cool as slowly."
    )
    sources = (age.basis(), first.basis(), rise.basis())
    if heated.heat_after is None:
        words = f"When does the heat first come on? {_what(layer.kind)} waits {age.value:.0f} days. {ramp}"
        return Finding(ID, TITLE, None, "d", basis=sources, rests_on=rests, words=words, missing="tube.heat-after")
    after = heated.heat_after / DAY
    early = f"{age.value - after:.0f} days too soon. Dry it with air meanwhile, not with the floor. "
    return Finding(
        ID,
        TITLE,
        after,
        "d",
        within=0.0,
        limit=age.value,
        sense="at least",
        basis=sources,
        rests_on=rests,
        steps=(
            Step("t", f"age of {layer.kind}, at the least", "", f"{fixed(age.value, 0)} d"),
            Step("t", "first water, held", f"{fixed(first.value, 0)} °C", f"{fixed(held.value, 0)} d"),
            Step("t", "raised to its warmest", f"{fixed(rise.value, 0)} K a day to {fixed(most, 1)} °C", f"{days} d"),
            Step("t", "warmest water, held", "", f"{fixed(top.value, 0)} d"),
            Step("t", "from the first heat to the covering", "", f"{fixed(whole, 0)} d"),
        ),
        words=(early if after < age.value else "") + ramp,
    )


def _what(kind: str) -> str:
    return "Screed" if kind == "screed" else "Concrete"
