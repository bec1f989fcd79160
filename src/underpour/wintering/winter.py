"""The design winter at one edge: what its surfaces feel day by day in each stage, and how the ground then is."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np
from numpy.typing import NDArray

from .. import catalogue
from ..physics.frost.march import Moment, settled_year
from ..physics.frost.winter import amplitude_of
from ..physics.year import YEAR, lowest_moment
from ..resolve import Resolved
from ..resolve.frost import ResolvedStage
from .iced import FACINGS, Iced
from .marched import through_winter

DAY = 86400.0  # s
AUTUMN = 0.25  # of a year before the coldest moment the air passes its mean
SPAN = 0.37  # of a year after the coldest moment: by then the ground under the frost has been coldest
BEFORE = 0.35  # of a year: a stage that began so long before the winter is counted to it
WORKS = ("poured", "roofed", "heated")
Stages = tuple[ResolvedStage, ...]  # the works together, or one time without heat; none where the building is in use


@dataclass(frozen=True)
class Winter:
    """Days of a winter, and the cells' temperatures after each."""

    days: NDArray[np.float64]  # parts of the year that have gone by, rising past 1
    temperatures: NDArray[np.float32]  # (days, cells) degC

    def window(self, first: float, last: float) -> Winter:
        """The days from the first up to the last."""
        here = (self.days >= first) & (self.days < last)
        return Winter(self.days[here], self.temperatures[here])


def winter(cut: Iced, index: float, stages: Stages) -> Winter:
    """One winter of an index [K·s], from the autumn before it, or from the first of the works."""
    resolved = cut.resolved
    turn = _turn(resolved)
    works = bool(stages) and stages[0].what in WORKS
    start = stages[0].start if works else (lowest_moment(turn) - AUTUMN) % 1.0
    until = lowest_moment(turn) + SPAN
    while until < start + SPAN:
        until += 1.0
    step = DAY * cut.scale
    count = int((until - start) * YEAR / step)
    days = np.asarray(start + (np.arange(count) + 1.0) * step / YEAR, float)
    outdoors = _Outdoors(resolved.outdoor_mean, abs(resolved.outdoor_swing), turn, _amplitude(resolved, index))
    moments = [moment(cut, outdoors.at(day), day, stages, start) for day in days]
    told = max([begins(stage, float(days[0])) for stage in stages], default=start)
    least = int(np.searchsorted(days, told)) + 1  # so that the last stage has a day
    temperatures = through_winter(cut.section, before(cut, start, works), moments, step, least)
    return Winter(days[: len(temperatures)], temperatures)


def windows(stages: Stages, days: NDArray[np.float64]) -> list[tuple[float, float]]:
    """From when to when each stage lasts, on the count of ``days``; all of them where the building is in use."""
    starts = [begins(stage, float(days[0])) for stage in stages] or [float(days[0])]
    return list(zip(starts, [*starts[1:], float(days[-1]) + 1.0], strict=True))


def begins(stage: ResolvedStage, start: float) -> float:
    """Its day on a count that begins at ``start`` and may run past the new year."""
    later = (stage.start - start) % 1.0
    return start + (later - 1.0 if later > 1.0 - BEFORE else later)


def before(cut: Iced, start: float, unheated: bool) -> NDArray[np.float64]:
    """The ground as the mean years before left it at that moment; open to the sky where it was not heated. [degC]"""
    felt_mean, felt_swing = [], []
    for n, space in enumerate(cut.posed.spaces):
        climate = cut.posed.climates["outdoors" if unheated and n == 0 else space.where]
        for way in FACINGS:
            felt_mean.append(climate.of(way).mean)
            felt_swing.append(complex(climate.of(way).swing))
    mean, swing = settled_year(cut.section, np.array(felt_mean), np.array(felt_swing), cut.films)
    return np.asarray(mean + (swing * np.exp(2j * pi * start)).real)


def mean_air(resolved: Resolved, day: float) -> float:
    """The air outdoors in a year of mean weather. [degC]"""
    return float(resolved.outdoor_mean + (resolved.outdoor_swing * np.exp(2j * pi * day)).real)


def moment(cut: Iced, outdoors: float, day: float, stages: Stages, start: float) -> Moment:
    """What each group of surfaces feels, given the air outdoors."""
    resolved, frost = cut.resolved, cut.frost
    more = outdoors - mean_air(resolved, day)
    follows = resolved.air_beside(cut.solved.edge).follows
    films = cut.films
    felt = []
    for n, space in enumerate(cut.posed.spaces):
        climate = cut.posed.climates[space.where]
        air = float(climate.mean + (climate.swing * np.exp(2j * pi * day)).real)
        if n > 0:
            air += follows * more
        elif resolved.outdoors:
            air = outdoors
        level = air * (frost.freezing if air < 0.0 else frost.thawing) if space.where == "over-ground" else air
        felt += [level, air, air]
    if not resolved.outdoors:
        room, bare = _over_the_floor(stages, day, start, outdoors, felt[0] + resolved.room.follows * more)
        felt[:3] = [room] * 3
        if bare:
            films[:3] = films[3:6]
    return Moment(np.array(felt), films)


def _over_the_floor(stages: Stages, day: float, start: float, outdoors: float, room: float) -> tuple[float, bool]:
    """The air over the floor on that day, and whether the slab lies open to the sky.

    Before a stage begins a building in use is kept as it is. Closed and not heated it is as cold as outdoors, and so
    it is while the heat is out: what walls and things hold is not counted.
    """
    begun = [stage for stage in stages if begins(stage, start) <= day]
    if not begun:
        return room, False
    stage = begun[-1]
    if stage.what == "heat-out":
        gone = (day - begins(stage, start)) * YEAR / DAY
        return (min(outdoors, room), False) if gone <= catalogue.without_heat().value else (room, False)
    if stage.what == "vacant":
        return min(room, catalogue.kept_from_freezing().value), False
    return (room, False) if stage.what == "heated" else (outdoors, stage.what == "poured")


@dataclass(frozen=True)
class _Outdoors:
    """Air that swings as in a mean year, and below its mean so far that the winter has its index."""

    mean: float
    swing: float
    turn: complex
    amplitude: float

    def at(self, day: float) -> float:
        cosine = float((self.turn * np.exp(2j * pi * day)).real)
        return self.mean + cosine * (self.amplitude if cosine < 0.0 else self.swing)


def _turn(resolved: Resolved) -> complex:
    swing = resolved.outdoor_swing
    return swing / abs(swing) if swing else -1.0 + 0j


def _amplitude(resolved: Resolved, index: float) -> float:
    return amplitude_of(resolved.outdoor_mean, index)
