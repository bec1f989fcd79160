"""How deep frost goes at the places that are watched, and how deep frozen ground thaws."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ..checks.code.reach import bears
from ..checks.frozen import Reach
from ..physics.frost.cells import Cells
from .iced import OPEN_GROUND, STRIP, Iced, strip

Days = NDArray[np.float64]
Temperatures = NDArray[np.float32]  # (days, cells) degC


def reaches(cut: Iced, days: Days, temperatures: Temperatures) -> dict[str, Reach]:
    """How deep frost goes at each place that is watched; nothing is told of the error yet."""
    made, at = cut.posed.section, cut.solved.levels
    far = cut.built - OPEN_GROUND
    places = {"open ground": ((far - STRIP, far), made.ground_level, np.inf)}
    drained = cut.frost.drained or 0.0
    if cut.resolved.outdoors or cut.resolved.room.follows:
        places["middle"] = ((at.half_width - 0.2, at.half_width), made.underside, drained)
    if cut.resolved.outdoors:
        places["edge"] = ((at.start, min(at.start + STRIP, at.half_width)), made.under_edge[1], drained)
    else:
        places["footing"] = (strip(cut.solved), made.ground_level, made.ground_level - bears(cut.solved))
    return {name: _reach(cut.section, name, *place, days, temperatures) for name, place in places.items()}


def _reach(
    section: Cells,
    name: str,
    span: tuple[float, float],
    top: float,
    stop: float,
    days: Days,
    temperatures: Temperatures,
) -> Reach:
    depths = np.maximum(top - _lowest(section, span, temperatures, top), 0.0)
    n = int(np.argmax(depths))
    return Reach(name, top, stop, depths.astype(np.float32), float(depths[n]), float(days[n]) % 1.0, 0.0)


def _lowest(section: Cells, span: tuple[float, float], temperatures: Temperatures, top: float) -> NDArray[np.float64]:
    """Level of the lowest 0 °C line in the columns of a span, for each moment; ``top`` where nothing is frozen. [m]

    Within the last cell that holds ice the line lies as far down as its ice tells, or where the straight line to the
    next cell passes 0 °C, whichever is lower.
    """
    x, y = section.middles
    low, high = min(span), max(span)
    picked = np.flatnonzero((x >= low) & (x <= high))
    if not len(picked):
        picked = np.array([int(np.argmin(np.abs(x - (low + high) / 2.0)))])
    bottoms, highs = section.y[:-1], np.diff(section.y)
    ice = np.array([section.made.ice(each) for each in temperatures])
    lowest = np.full(len(temperatures), np.inf)
    for column in picked:
        rows = np.flatnonzero(section.number[column] >= 0)
        numbers = section.number[column, rows]
        t, frozen = temperatures[:, numbers].astype(float), ice[:, numbers]
        cold = t < 0.0
        first = np.argmax(cold, axis=1)  # rows rise, so the first is the lowest
        has = cold.any(axis=1)
        moment = np.arange(len(t))
        row = rows[first]
        by_ice = bottoms[row] + (1.0 - frozen[moment, first]) * highs[row]
        below = np.maximum(first - 1, 0)
        warm, here = t[moment, below], t[moment, first]
        share = np.where(below < first, np.clip(-here / np.maximum(warm - here, 1e-9), 0.0, 1.0), 0.0)
        by_line = y[row] - share * (y[row] - y[rows[below]])
        lowest = np.where(has, np.minimum(lowest, np.minimum(by_ice, by_line)), lowest)
    return np.where(np.isfinite(lowest), lowest, top)


def thawed_to(cut: Iced, temperature: NDArray[np.float64]) -> float:
    """Level down to which the ground in the middle of the floor is thawed. [m]"""
    section = cut.section
    column = len(section.x) - 2
    rows = np.flatnonzero(section.number[column] >= 0)
    ice = section.made.ice(temperature)[section.number[column, rows]]
    for row, share in zip(rows[::-1], ice[::-1], strict=True):
        if section.y[row + 1] <= cut.posed.section.underside + 1e-9 and share > 0.0:
            return float(section.y[row + 1] - (1.0 - share) * (section.y[row + 1] - section.y[row]))
    return float(section.y[0])
