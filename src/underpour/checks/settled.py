"""The settled year: what floor and wall lose and how warm the floor is, hour by hour."""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..findings import Basis
from ..physics.conduction.response import followed
from ..physics.conduction.solve import Told
from ..physics.year import YEAR
from ..resolve import Resolved
from .basis import basis, conduction
from .solved import SolvedEdge, felt

Array = NDArray[np.float64]

HOURS = 8760
KILO = 1e3
MONTHS = range(12)
HEAT, NOTHING, COOLNESS = 1, 0, -1  # what a room wants of the ground


@dataclass(frozen=True)
class Year:
    """One settled year, hour by hour; by the harmonic alone where only months are known."""

    month: NDArray[np.int64]  # (hours,) 0 to 11
    outdoors: Array  # (hours,) degC
    room: Array  # (hours,) degC
    flows: dict[str, Array]  # "floor" and, of a basement, "wall"; (hours,) W out of the room
    within: dict[str, float]  # of each flow, W
    places: dict[tuple[str, str], Array]  # by edge and place; (hours,) degC
    of_places: float  # K
    by_hours: bool

    @property
    def floor(self) -> Array:
        """Heat through the floor, hour by hour. [W]"""
        return self.flows["floor"]

    @property
    def whole(self) -> Array:
        """Heat through the floor and, of a basement, its wall, hour by hour. [W]"""
        return np.asarray(sum(self.flows.values()))

    def monthly(self, hourly: Array) -> tuple[float, ...]:
        """Mean of each calendar month."""
        return _monthly(hourly, self.month)

    def kilowatt_hours(self, hourly: Array) -> tuple[float, ...]:
        """Watts summed over each calendar month. [kWh]"""
        each = YEAR / 3600.0 / len(hourly) / KILO
        return tuple(float(hourly[self.month == n].sum()) * each for n in MONTHS)


def settled_year(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Year:
    """The settled year of a floor with a room over it.

    What swings once a year is taken from the section as it is solved on the finer grid. Where hours are known, what
    they bring beyond that goes through the section's response, as far as the air beside each edge follows them.
    """
    at, outdoors, room = _airs(resolved)
    hours = len(at)
    flows: dict[str, Array] = {}
    within: dict[str, float] = {}
    places: dict[tuple[str, str], Array] = {}
    off = 0.0
    for edge in edges:
        told = [edge.heat.flow(chosen) for chosen in edge.watched.values()]
        told += [edge.heat.temperature(*place) for place in edge.points.values()]
        series = [_wave(each, at) for each in told]
        bound = [each.within for each in told]
        if resolved.outdoor_hours and edge.response is not None:
            further = followed(edge.response, open_air(resolved, edge)[:, None] * beyond_the_wave(resolved)).watched
            series = [each + more for each, more in zip(series, further, strict=True)]
            bound = [
                each + float(share * np.abs(more).max())
                for each, share, more in zip(bound, edge.response.unseen, further, strict=True)
            ]
        for name, each, by in zip(edge.watched, series, bound, strict=False):
            flows[name] = flows.get(name, np.zeros(hours)) + each * edge.edge.length
            within[name] = within.get(name, 0.0) + by * edge.edge.length
        seen = len(edge.watched)
        places |= {(edge.edge.letter, name): each for name, each in zip(edge.points, series[seen:], strict=True)}
        off = max(off, *bound[seen:])
    return Year(_months(hours), outdoors, room, flows, within, places, off, bool(resolved.outdoor_hours))


def wanted(resolved: Resolved) -> tuple[int, ...]:
    """What the room wants of the ground in each month: heat, coolness, or nothing where it is let go.

    A floor that is kept frozen wants coolness in every month, however cold it is outdoors; a room that is not heated
    wants nothing in any.
    """
    if resolved.use.cold_floor:
        return (COOLNESS,) * len(MONTHS)
    if resolved.room.follows:
        return (NOTHING,) * len(MONTHS)
    at, outdoors, room = _airs(resolved)
    warm = COOLNESS if resolved.room.cooled else NOTHING
    apart = _monthly(room - outdoors, _months(len(at)))
    return tuple(HEAT if each >= 0.0 else warm for each in apart)


def _airs(resolved: Resolved) -> tuple[Array, Array, Array]:
    """The middle of each hour as a part of the year, and the air outdoors and in the room then. (hours,) [degC]"""
    hours = len(resolved.outdoor_hours) or HOURS
    at = (np.arange(hours) + 0.5) / hours
    wave = _wave(Told(resolved.outdoor_mean, resolved.outdoor_swing, 0.0), at)
    outdoors = np.array(resolved.outdoor_hours) if resolved.outdoor_hours else wave
    room = _wave(Told(resolved.room.mean, resolved.room.swing, 0.0), at)
    return at, outdoors, room + resolved.room.follows * (outdoors - wave)


def _monthly(hourly: Array, month: NDArray[np.int64]) -> tuple[float, ...]:
    return tuple(float(hourly[month == n].mean()) for n in MONTHS)


def beyond_the_wave(resolved: Resolved) -> Array:
    """What the hours of a weather file bring outdoors beyond the mean and the swing of the year. (hours,) [K]"""
    hours = np.array(resolved.outdoor_hours)
    at = (np.arange(len(hours)) + 0.5) / len(hours)
    return hours - _wave(Told(resolved.outdoor_mean, resolved.outdoor_swing, 0.0), at)


def open_air(resolved: Resolved, edge: SolvedEdge) -> Array:
    """How much each air of an edge follows the hours; what lies on the ground dulls them as it dulls the year."""
    _, airs = felt(edge.heat)
    follows = resolved.air_beside(edge.edge).follows
    of = {"outdoors": follows, "room": resolved.room.follows}
    share = [of.get(air.where, 0.0) for air in edge.section.airs]
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


def of_the_year(year: Year) -> tuple[Basis, ...]:
    """What numbers of the settled year stand on."""
    if not year.by_hours:
        return conduction()
    return (*conduction(), basis("sections-response", "hours of the weather file, settled year"))
