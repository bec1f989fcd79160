"""Humidity at the surfaces of the room, month by month: mould in a damp month, water on a damp day."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .. import catalogue
from ..catalogue.records import Quantity
from ..findings import Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.conduction.assemble import SIDE, UP
from ..physics.conduction.solve import Solved
from ..physics.ground.warm_spell import warm_spell
from ..physics.moisture import air
from ..resolve import Damp, Resolved
from .basis import basis, conduction
from .solved import ROOM, SolvedEdge, floor_rests_on

Array = NDArray[np.float64]

MOULD, DEW = "moisture.mould", "moisture.condensation"
PATH = "site.humidity"
ON_PURPOSE = "This floor is kept cold on purpose: ice or frozen goods lie on it."
MIDDLE = (np.arange(12) + 0.5) / 12.0  # of each month, as a part of the year
A_DEGREE = 0.07  # share by which saturation rises with a kelvin, at the most, above freezing


@dataclass(frozen=True)
class Coldest:
    """The coldest place of one kind of surface, month by month."""

    months: Array  # (12,) degC
    from_wall: Array  # (12,) m, of that place
    within: float  # K


def surfaces(resolved: Resolved, solved: SolvedEdge) -> Iterator[Finding]:
    """Humidity of the air at the coldest places of floor and wall, in every month, against mould and against water.

    Asks
        Does mould grow on this floor in a damp month, and does it sweat on a damp day?
    Why
        In summer outdoor air that is let into a cool cellar is the wettest of the year; winter is not the only season
        of mould. Behind furniture and below rugs the air is damper than in the middle of the room.
    Worked out
        Vapour of the room's air in each month over what saturates at the coldest place then: with the film behind
        furniture against mould, as the month's mean; with the open floor's film against water, on the most humid day.
    Holds for
        The settled year and air that is mixed. What the room adds to the outdoor air is what makes the winter's
        humidity, less in milder weather. Rooms above the ground that are let go are as warm as outdoors in warm months;
        their floors follow. Where nobody tells how humid it is outdoors, both ends of a band are tried.
    Source
        ISO 13788:2012, 5.3 and 5.4, annex A (from memory).
    """
    damp = resolved.damp
    assert damp is not None
    named = [("floor", UP), *([("wall", SIDE)] if solved.walled else [])]
    for surface, facing in named:
        if surface == "floor" and resolved.use.cold_floor:
            yield from (_on_purpose(solved, name, film, title) for name, film, title in _named(surface))
            continue
        behind, open_air = (_coldest(resolved, of, facing, solved) for of in (solved.mould, solved.heat))
        yield _held(
            resolved, damp, solved, surface, MOULD, behind, damp.room, catalogue.limit("mould-surface-humidity")
        )
        yield _held(resolved, damp, solved, surface, DEW, open_air, _damp_day(damp), catalogue.limit("dew"))


def _named(surface: str) -> tuple[tuple[str, str, str], tuple[str, str, str]]:
    """Id, film and title of the two findings of a surface."""
    return (
        (MOULD, "mould", f"Humidity at the {surface} behind furniture, most humid month, against mould"),
        (DEW, "heat", f"Humidity at the open {surface}, most humid day, against water on it"),
    )


def _on_purpose(solved: SolvedEdge, name: str, film: str, title: str) -> Finding:
    at: dict[str, str | float] = {"edge": solved.edge.letter, "film": film, "surface": "floor"}
    return Finding(name, title, None, "%", at=at, no_limit="does not apply", words=ON_PURPOSE)


def _coldest(resolved: Resolved, solved: Solved, facing: int, edge: SolvedEdge) -> Coldest:
    """The coldest place of the room's surfaces that face one way, month by month."""
    found = []
    for solution in (solved.fine, solved.coarse):
        faces = solution.equations.faces
        chosen = (faces.space == ROOM) & (faces.facing == facing)
        points = np.unique(faces.points[chosen])
        swing = solution.swing[points][:, None] * np.exp(2j * np.pi * MIDDLE)
        film = float(solution.resistance[chosen].max())
        degrees = solution.mean[points][:, None] + swing.real + spell(resolved, film)[:, 0]
        at = degrees.argmin(axis=0)
        lines = [np.flatnonzero((solution.equations.number == n).any(axis=1))[0] for n in points[at]]
        found.append((degrees.min(axis=0), solution.equations.x[lines]))
    (fine, x), (coarse, _) = found
    told = solved.degrees((float(fine.min()), 0j), (float(coarse.min()), 0j))
    return Coldest(fine, np.maximum(x - edge.section.corner[0], 0.0), told.within)


def spell(resolved: Resolved, film: float) -> Array:
    """What each interface of the floor is warmer by, month by month, where the room is let go; surface first. [K]"""
    assert resolved.damp is not None
    depths = np.concatenate([[0.0], np.cumsum([layer.resistance for layer in resolved.floor])])
    below = resolved.ground_below
    return warm_spell(resolved.damp.lifted, film, tuple(map(float, depths)), below.conductivity, below.heat_capacity)


def _damp_day(damp: Damp) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Vapour in the room on the most humid day of each month; more than saturates its air does not stay in it. [Pa]"""
    days = damp.day or (catalogue.limit("humid-day").value,) * 12
    full = [air.saturation_pressure(degrees) for degrees in damp.warmth]
    low, high = (
        tuple(
            min(room + (day - 1.0) * beyond, most)
            for room, day, beyond, most in zip(inside, days, outdoors, full, strict=True)
        )
        for inside, outdoors in zip(damp.room, damp.outdoors, strict=True)
    )
    return low, high


def _held(
    resolved: Resolved,
    damp: Damp,
    solved: SolvedEdge,
    surface: str,
    name: str,
    cold: Coldest,
    vapour: tuple[tuple[float, ...], tuple[float, ...]],
    allowed: Quantity,
) -> Finding:
    film, title = next((film, title) for each, film, title in _named(surface) if each == name)
    full = [air.saturation_pressure(float(degrees)) for degrees in cold.months]
    low, high = (tuple(100.0 * p / most for p, most in zip(each, full, strict=True)) for each in vapour)
    best, worst = max(low), max(high)
    open_to = not damp.told and (best <= allowed.value) != (worst <= allowed.value)
    months = low if best > allowed.value else high
    value = max(months)
    month = months.index(value) + 1
    at: dict[str, str | float] = {"edge": solved.edge.letter, "film": film, "surface": surface}
    return Finding(
        name,
        title,
        None if open_to else value,
        "%",
        at=at,
        within=None if open_to else value * A_DEGREE * cold.within,
        month=None if open_to else month,
        months=None if open_to else months,
        limit=None if open_to else allowed.value,
        sense=None if open_to else "at most",
        basis=(
            basis("iso-13788-2012", "5.3, 5.4 and annex A: humidity at surfaces, and in the room"),
            allowed.basis(),
            *conduction(),
        ),
        rests_on=(
            *floor_rests_on(resolved),
            *solved.rests_on,
            *damp.rests_on,
            allowed.path,
            *(() if name == MOULD or damp.day else (catalogue.limit("humid-day").path,)),
        ),
        steps=_steps(cold, vapour[0 if months is low else 1], full, months, month - 1),
        words=_words(resolved, damp, name, surface, cold, (best, worst), month - 1, value, allowed.value, open_to),
        missing=PATH if open_to else "",
    )


def _steps(
    cold: Coldest, vapour: tuple[float, ...], full: list[float], months: tuple[float, ...], month: int
) -> tuple[Step, ...]:
    return (
        Step(
            "θ_si",
            f"coldest place in {month_name[month + 1]}, {fixed(float(cold.from_wall[month]), 2)} m from the wall",
            "",
            f"{fixed(float(cold.months[month]), 2)} °C",
        ),
        Step("p", "vapour of the room's air", "", f"{vapour[month]:.0f} Pa"),
        Step(
            "φ_si",
            "p / p_sat(θ_si)",
            f"{vapour[month]:.0f} / {full[month]:.0f}",
            f"{fixed(months[month], 1)} %",
        ),
    )


def _words(
    resolved: Resolved,
    damp: Damp,
    name: str,
    surface: str,
    cold: Coldest,
    band: tuple[float, float],
    month: int,
    value: float,
    limit: float,
    open_to: bool,
) -> str:
    """What the humidity means, where, and what helps."""
    degrees = say.value(float(cold.months[month]), "degC", resolved.system)
    away = float(cold.from_wall[month])
    where = "where floor and wall meet" if away < 0.01 else f"{say.both(away, 'm', resolved.system)} from the wall"
    where = "" if surface == "wall" else f", {where},"
    share = catalogue.limit("outdoor-humidity")
    between = f"between {share.low:.0f} and {share.high:.0f} %"
    what = "mould" if name == MOULD else "water on it"
    if open_to:
        return (
            f"The air at the {surface}'s coldest place reaches {band[0]:.0f} to {band[1]:.0f} % for a humidity "
            f"outdoors {between}; {limit:.0f} % is the limit against {what}. Type the twelve means of the nearest "
            "weather station."
        )
    when = f"In {month_name[month + 1]}" if name == MOULD else f"On a damp day in {month_name[month + 1]}"
    found = f"{when} the air at the {surface}'s coldest place{where} at {degrees}, is {value:.0f} % humid."
    anyhow = "" if damp.told else f" It is so for any humidity outdoors {between}."
    if value <= limit:
        return found + anyhow
    summer = cold.months[month] > np.mean(cold.months)
    mend = (
        "Keep damp outdoor air out in summer and dry the room's (summer-humidity), or put foam below the floor."
        if summer
        else "Put foam between this place and the cold, or keep the room drier."
    )
    grows = "Mould grows there" if name == MOULD else "Water stands there"
    return f"{found}{anyhow} {grows}. {mend}"
