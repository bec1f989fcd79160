"""Each edge taken through its winters: frozen and thawed day by day, in every stage that the brief names."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

import numpy as np

from ..checks.frozen import IN_USE, OPEN, Instance, Reach, Thawed, Wintered
from ..checks.solved import SolvedEdge
from ..physics.year import YEAR
from ..resolve import Resolved
from ..resolve.frost import Frost
from .iced import CELL, Iced, iced
from .marched import over_years
from .moved import moved_winters
from .reach import reaches, thawed_to
from .winter import DAY, WORKS, Stages, Winter, before, mean_air, moment, windows, winter

__all__ = ["moved_winters", "thawed", "winters"]

COARSE = 2.0  # cells and steps so many times as large, for the error and for what is only looked for
FINER = 1.5  # for thirty years of thaw
YEARS, SLOW = 30, 5.0  # years of thaw, and days of a step in them
COLDEST = 6000.0 * DAY  # K·s, the largest index that can be typed
NEARLY = 0.98  # of the deepest, when a section is drawn
TRIED = 7  # halvings, for the index from which on frost does harm


def winters(
    resolved: Resolved, edges: Sequence[SolvedEdge], doubted: Collection[Instance] | None = None
) -> tuple[Wintered, ...]:
    """Every edge in every stage; none where the brief does not ask about frost, or the ground is frozen all year.

    A sketch is stepped on the coarse cells alone. Where ``doubted`` is told, only its edges and stages are stepped on
    fine ones, and the index from which on frost does harm is not looked for.
    """
    if resolved.frost is None or resolved.outdoor_mean <= 0.0:
        return ()
    return tuple(found for edge in edges for found in _of_edge(resolved, resolved.frost, edge, doubted))


def thawed(resolved: Resolved, edges: Sequence[SolvedEdge]) -> tuple[Thawed, ...]:
    """How far ground that was frozen thaws under a heated floor, at the longest edge; none elsewhere, nor of a sketch.

    It is stated and held to nothing, so that no verdict can hang on it, and thirty years take longer than a sketch.
    """
    if resolved.frost is None or resolved.outdoor_mean > 0.0 or resolved.outdoors:
        return ()
    if resolved.room.mean - abs(resolved.room.swing) <= 0.0:
        return ()
    longest = max(edges, key=lambda edge: edge.edge.length)
    if _sketched(longest):
        return ()
    fine, rough = (_thaw(iced(resolved, resolved.frost, longest, scale, closely=False)) for scale in (FINER, COARSE))
    within = abs(float(fine[-1] - rough[-1]))
    return (Thawed(longest.edge.letter, YEARS, float(fine[-1]), within, fine.astype(np.float32)),)


def _of_edge(
    resolved: Resolved, frost: Frost, solved: SolvedEdge, doubted: Collection[Instance] | None
) -> Iterator[Wintered]:
    rough = iced(resolved, frost, solved, COARSE)
    for stages in _apart(frost):
        if doubted is None:
            finely = not _sketched(solved)
        else:
            finely = any((solved.edge.letter, name) in doubted for name in _names(resolved, stages))
        fine = iced(resolved, frost, solved, 1.0) if finely else rough
        yield from _through(fine, rough, stages, frost.index is None and finely and doubted is None)


def _sketched(solved: SolvedEdge) -> bool:
    return solved.heat.coarse is solved.heat.fine


def _apart(frost: Frost) -> Iterator[Stages]:
    """What is taken through a winter of its own: use, the works together, and each time without heat."""
    yield ()
    works = sorted((s for s in frost.stages if s.what in WORKS), key=lambda stage: WORKS.index(stage.what))
    if works:
        yield tuple(works)
    yield from ((stage,) for stage in frost.stages if stage.what not in WORKS)


def _names(resolved: Resolved, stages: Stages) -> list[str]:
    return [stage.what for stage in stages] or [OPEN if resolved.outdoors else IN_USE]


def _through(fine: Iced, rough: Iced, stages: Stages, looked_for: bool) -> Iterator[Wintered]:
    index = fine.frost.of_the_winter
    finely = winter(fine, index, stages)
    roughly = finely if rough is fine else winter(rough, index, stages)
    for name, window in zip(_names(fine.resolved, stages), windows(stages, finely.days), strict=True):
        one, other = finely.window(*window), roughly.window(*window)
        if len(one.days) and len(other.days):
            yield _told(fine, rough, name, one, other, looked_for and not stages)


def _told(fine: Iced, rough: Iced, name: str, one: Winter, other: Winter, looked_for: bool) -> Wintered:
    found = reaches(fine, one.days, one.temperatures)
    again = reaches(rough, other.days, other.temperatures)
    sure = {
        place: replace(reach, within=_unsure(reach, None if rough is fine else again[place]))
        for place, reach in found.items()
    }
    worst = max(sure.values(), key=lambda reach: reach.deepest - reach.stop)
    x, y = fine.section.middles
    shown = worst if worst.deepest > 0.0 else sure["open ground"]
    deep = int(np.argmax(shown.depths >= NEARLY * shown.deepest))  # the first day: later it thaws from above
    field = fine.section.on_grid(one.temperatures[deep]).T
    return Wintered(
        edge=fine.solved.edge.letter,
        stage=name,
        index=fine.frost.of_the_winter,
        days=one.days.astype(np.float32),
        reaches=sure,
        x=x.astype(np.float32),
        y=y.astype(np.float32),
        field=field.astype(np.float32),
        harms_from=_harms_from(rough, worst) if looked_for else None,
    )


def _unsure(fine: Reach, rough: Reach | None) -> float:
    """How far the deepest may be off. [m]"""
    return CELL * COARSE if rough is None else abs(rough.deepest - fine.deepest)


def _harms_from(rough: Iced, place: Reach) -> float | None:
    """The index of the winter from which on frost does harm at a place; None where not even the coldest does. [K·s]"""

    def harms(index: float) -> bool:
        tried = winter(rough, index, ())
        return reaches(rough, tried.days, tried.temperatures)[place.place].deepest > place.stop + 1e-3

    low, high = 0.0, COLDEST
    if not harms(high):
        return None
    for _ in range(TRIED):
        middle = (low + high) / 2.0
        low, high = (low, middle) if harms(middle) else (middle, high)
    return (low + high) / 2.0


def _thaw(cut: Iced) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Thirty years of a heated floor on ground that was frozen before it, in mean weather: the depth after each. [m]"""
    a_year = int(np.ceil(YEAR / (SLOW * DAY * cut.scale / FINER)))
    days = (np.arange(a_year) + 1.0) / a_year
    moments = [moment(cut, mean_air(cut.resolved, day), day, (), 0.0) for day in days]
    top = cut.posed.section.underside
    start = before(cut, 0.0, unheated=True)
    return top - over_years(cut.section, start, moments, YEAR / a_year, YEARS, lambda cells: thawed_to(cut, cells), top)
