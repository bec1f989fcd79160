"""The frost line: heavy, with short ticks on its frozen side, as maps tick a hollow."""

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


def frost_line(lines: list[Line], field: SheetField, bears_ticks: Callable[[Line], NDArray[np.bool_]]) -> str:
    """The line of 0 °C and its ticks; ``bears_ticks`` says at which points (n, 2) there is room for one."""
    if not lines:
        return ""
    ticks = "".join(_ticks(line, field, bears_ticks) for line in lines)
    return stroke("".join(path(line, closed=False) for line in lines), HEAVY) + (stroke(ticks, LINE) if ticks else "")


def _ticks(line: Line, field: SheetField, bears_ticks: Callable[[Line], NDArray[np.bool_]]) -> str:
    reach = np.r_[0.0, np.cumsum(np.hypot(*np.diff(line, axis=0).T))]
    at = np.arange(EVERY / 2, reach[-1], EVERY)
    if not at.size:
        return ""
    foot = _along(line, reach, at)
    run = _along(line, reach, at + 0.3) - _along(line, reach, at - 0.3)
    across = np.column_stack([-run[:, 1], run[:, 0]]) / np.maximum(np.hypot(*run.T), 1e-9)[:, None]
    colder = field.at(*(foot + 0.5 * across).T) < field.at(*(foot - 0.5 * across).T)
    head = foot + np.where(colder, TICK, -TICK)[:, None] * across
    return "".join(path((a, b), closed=False) for a, b, room in zip(foot, head, bears_ticks(foot), strict=True) if room)


def _along(line: Line, reach: NDArray[np.float64], at: NDArray[np.float64]) -> Line:
    return np.column_stack([np.interp(at, reach, line[:, 0]), np.interp(at, reach, line[:, 1])])
