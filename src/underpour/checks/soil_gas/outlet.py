"""Where the gas leaves the pipe: far enough from where air comes in."""

from __future__ import annotations

from collections.abc import Iterator

from ...catalogue import of_soil_gas
from ...findings import Finding, Step
from ...measure import System, say
from ...resolve import Resolved
from ...resolve.soil_gas import ResolvedSoilGas

ID = "soilgas.outlet"


def distances(resolved: Resolved, gas: ResolvedSoilGas) -> Iterator[Finding]:
    """How far the outlet stands from openings and above the roof.

    Asks
        Can what the pipe lets out come back in?
    Why
        Soil gas holds a hundred times the radon of a room and more. Below an eave or beside a window it comes back in.
    Worked out
        Distances as typed. An opening that lies farther below the outlet than is asked needs no distance.
    Holds for
        Pipes that draw, by themselves or by a fan. A capped pipe lets nothing out.
    Source
        Page of the US Environmental Protection Agency on new construction (numbers from memory).
    """
    if not gas.draws:
        return
    typed = gas.typed
    asked, above = of_soil_gas("asked.from-openings"), of_soil_gas("asked.above-openings")
    free = typed.above_openings is not None and typed.above_openings >= above.value
    units = resolved.system
    if free and typed.above_openings is not None:
        yield Finding(
            ID,
            "Outlet above the nearest opening",
            round(typed.above_openings, 9),
            "m",
            at={"of": "openings"},
            limit=above.value,
            sense="at least",
            basis=(above.basis(),),
            rests_on=("soil-gas.outlet.above-openings",),
            steps=(_step(typed.above_openings, above.value, units),),
            words="So high above an opening the gas is carried off. Mind openings of neighbours too.",
        )
    else:
        yield _distance(
            "openings",
            "Outlet to the nearest door, window or air intake",
            typed.from_openings,
            asked.value,
            "soil-gas.outlet.from-openings",
            "Nothing says how far the outlet is from the nearest opening.",
            f"Asked is {say.both(asked.value, 'm', units)}, or {say.both(above.value, 'm', units)} above the opening. "
            "Mind openings of neighbours too.",
            resolved,
        )
    roof = of_soil_gas("asked.above-roof")
    yield _distance(
        "roof",
        "Outlet above the roof",
        typed.above_roof,
        roof.value,
        "soil-gas.outlet.above-roof",
        "Nothing says how far the outlet stands above the roof.",
        "Where snow lies deep it stands higher, so that snow does not close it.",
        resolved,
    )


def _distance(
    of: str, title: str, told: float | None, asked: float, key: str, missing: str, words: str, resolved: Resolved
) -> Finding:
    number = of_soil_gas("asked.from-openings" if of == "openings" else "asked.above-roof")
    return Finding(
        ID,
        title,
        round(told, 9) if told is not None else None,  # twelve inches are a foot
        "m",
        at={"of": of},
        limit=asked if told is not None else None,
        sense="at least" if told is not None else None,
        basis=(number.basis(),),
        rests_on=(key,),
        steps=(_step(told, asked, resolved.system),) if told is not None else (),
        words=words if told is not None else f"{missing} {words}",
        missing="" if told is not None else key,
    )


def _step(told: float, asked: float, units: System) -> Step:
    return Step("d", "as typed, at least", say.both(told, "m", units), say.both(asked, "m", units))
