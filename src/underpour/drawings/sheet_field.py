"""A field at one moment, laid on the sheet: carried a little beyond the bodies, so that a clip leaves no white edge."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..physics.conduction.field import Field
from .paper import Frame

AROUND = ((0, 1), (2, 1), (1, 0), (1, 2), (0, 0), (0, 2), (2, 0), (2, 2))  # a place's neighbours in a net with a rim
BEYOND = 3  # lines of the grid by which temperatures are carried into the air


@dataclass(frozen=True)
class SheetField:
    """Temperatures on lines of the sheet."""

    x: NDArray[np.float64]  # (nx,) mm, rising
    y: NDArray[np.float64]  # (ny,) mm, rising: downwards on the sheet
    degrees: NDArray[np.float64]  # (ny, nx) degC, NaN well within air

    @cached_property
    def contours(self) -> Any:
        """What draws lines and bands of it, made once for all levels."""
        return contouring(self.x, self.y, self.degrees)

    def at(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        """Temperature at points of the sheet (mm, any shape), straight between the lines. [degC]"""
        i, u = _cell(self.x, np.asarray(x, dtype=float))
        j, v = _cell(self.y, np.asarray(y, dtype=float))
        t = self.degrees
        upper = t[j, i] * (1 - u) + t[j, i + 1] * u
        lower = t[j + 1, i] * (1 - u) + t[j + 1, i + 1] * u
        return np.asarray(upper * (1 - v) + lower * v)

    def steepness(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        """How fast temperature changes along the sheet at points (mm, any shape). [K/mm]"""
        reach = 0.4
        after, before, below, above = self.at(
            np.stack([x + reach, x - reach, x, x]), np.stack([y, y, y + reach, y - reach])
        )
        return np.asarray(np.hypot(after - before, below - above) / (2 * reach))


def on_sheet(field: Field, year_fraction: float, frame: Frame) -> SheetField:
    """The field's temperatures at a moment of the year, over the whole frame."""
    return laid(field.x, field.y, field.at(year_fraction), frame)


def laid(across: NDArray[Any], up: NDArray[Any], values: NDArray[Any], frame: Frame) -> SheetField:
    """Temperatures (ny, nx) at places of the section [m, degC], over the whole frame; not a number in air."""
    x = frame.x(across.astype(float))
    y = frame.y(up.astype(float))[::-1]
    degrees = carried(values.astype(float)[::-1], BEYOND)
    x, degrees = _reaching(x, degrees, frame.left, frame.right)
    y, turned = _reaching(y, degrees.T, frame.top, frame.bottom)
    return SheetField(x, y, turned.T)


def contouring(x: NDArray[np.float64], y: NDArray[np.float64], values: NDArray[np.float64]) -> Any:
    """A library's generator of lines and bands over values (ny, nx) at places x, y; NaN is left out."""
    from contourpy import FillType, LineType, contour_generator

    return contour_generator(
        x,
        y,
        np.ma.masked_invalid(values),
        line_type=LineType.Separate,
        fill_type=FillType.OuterOffset,
    )


def carried(degrees: NDArray[np.float64], times: int) -> NDArray[np.float64]:
    """Empty places take the mean of their known neighbours, so many rings deep."""
    value = np.pad(degrees, 1, constant_values=np.nan)
    for _ in range(times):
        rows, columns = np.nonzero(np.isnan(value[1:-1, 1:-1]))
        if not rows.size:
            break
        about = np.array([value[rows + dy, columns + dx] for dy, dx in AROUND])
        count = (~np.isnan(about)).sum(axis=0)
        beside = count > 0
        value[rows[beside] + 1, columns[beside] + 1] = np.nan_to_num(about[:, beside]).sum(axis=0) / count[beside]
    return value[1:-1, 1:-1]


def _reaching(
    line: NDArray[np.float64], values: NDArray[np.float64], low: float, high: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Lines and columns cut to the frame and carried on to it where they end before."""
    first = max(int(np.searchsorted(line, low)) - 2, 0)
    last = min(int(np.searchsorted(line, high)) + 2, line.size)
    line, values = line[first:last], values[:, first:last]
    if line[0] > low:
        line, values = np.r_[low, line], np.c_[values[:, :1], values]
    if line[-1] < high:
        line, values = np.r_[line, high], np.c_[values, values[:, -1:]]
    return line, values


def _cell(line: NDArray[np.float64], at: NDArray[np.float64]) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    k = np.clip(np.searchsorted(line, at, side="right") - 1, 0, line.size - 2)
    return k, np.clip((at - line[k]) / (line[k + 1] - line[k]), 0.0, 1.0)
