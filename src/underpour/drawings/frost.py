"""The frost line: heavy, with short ticks on its frozen side, as maps tick a hollow, double in ground that heaves."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from .contours import Line
from .paper import HEAVY, LINE, path, stroke
from .sheet_field import SheetField

FREEZING = 0.0  # degC
TICK = 1.3  # mm long
EVERY = 2.4  # mm from tick to tick
TWIN = 0.6  # mm between the two of a double tick


def frost_line(
    lines: list[Line],
    field: SheetField,
    bears_ticks: Callable[[Line], NDArray[np.bool_]],
    heaves: Callable[[Line], NDArray[np.bool_]],
) -> str:
    """The line of 0 °C and its ticks, double where ground that can heave is frozen.

    ``bears_ticks`` says at which points (n, 2) there is room for one, ``heaves`` which points lie in such ground.
    """
    if not lines:
        return ""
    ticks = "".join(_ticks(line, field, bears_ticks, heaves) for line in lines)
    return stroke("".join(path(line, closed=False) for line in lines), HEAVY) + (stroke(ticks, LINE) if ticks else "")


def _ticks(
    line: Line,
    field: SheetField,
    bears_ticks: Callable[[Line], NDArray[np.bool_]],
    heaves: Callable[[Line], NDArray[np.bool_]],
) -> str:
    reach = np.r_[0.0, np.cumsum(np.hypot(*np.diff(line, axis=0).T))]
    at = np.arange(EVERY / 2, reach[-1], EVERY)
    if not at.size:
        return ""
    foot = _along(line, reach, at)
    run = _along(line, reach, at + 0.3) - _along(line, reach, at - 0.3)
    along = run / np.maximum(np.hypot(*run.T), 1e-9)[:, None]
    across = np.column_stack([-along[:, 1], along[:, 0]])
    colder = field.at(*(foot + 0.5 * across).T) < field.at(*(foot - 0.5 * across).T)
    tick = np.where(colder, TICK, -TICK)[:, None] * across
    double = heaves(foot + tick)
    drawn = []
    for n in np.flatnonzero(bears_ticks(foot)):
        for aside in (-TWIN / 2, TWIN / 2) if double[n] else (0.0,):
            start = foot[n] + aside * along[n]
            drawn.append(path((start, start + tick[n]), closed=False))
    return "".join(drawn)


def _along(line: Line, reach: NDArray[np.float64], at: NDArray[np.float64]) -> Line:
    return np.column_stack([np.interp(at, reach, line[:, 0]), np.interp(at, reach, line[:, 1])])
