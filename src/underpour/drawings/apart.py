"""How far two versions are apart: a two-sided scale, nought in paper, colder to one side and warmer to the other."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..measure import say
from ..measure.table import System
from ..physics.conduction.field import Field
from .contours import Places, drawn_lines, lines_at, where_each
from .legend import HIGH
from .lettering import LETTER, width
from .paper import HAIR, Box, Frame, letters, line, rectangle, stroke
from .sheet_field import BEYOND, SheetField, carried
from .values import best_place, set_value, with_gap

STEPS = (0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0)  # of the reader's own degrees between two lines
CROWDED = 0.6  # mm between lines below which none is drawn
MOST = 0.85  # of all places of the drawing
EACH = 4  # tints to either side


@dataclass(frozen=True, slots=True)
class Apart:
    """Even steps to either side of nought; within the first to either side it is paper."""

    system: System
    step: float  # °F or K

    @property
    def marks(self) -> tuple[float, ...]:
        """Bounds between the tints, in the reader's own degrees; nought is none."""
        return tuple(k * self.step for k in (*range(-EACH, 0), *range(1, EACH + 1)))

    @property
    def bounds(self) -> tuple[float, ...]:
        """The same. [K]"""
        each = say.number(1.0, "K", self.system)
        return tuple(mark / each for mark in self.marks)


@cache
def tints() -> tuple[str, ...]:
    """From colder over paper to warmer, one more than there are bounds.

    The cold side is that of the house's temperatures, the warm side an ochre of like lightness that no verdict has.
    """
    rows = csv.DictReader((files(__package__) / "apart.csv").read_text(encoding="utf-8").splitlines())
    return tuple(row["tint"] for row in rows)


def difference(field: Field, other: Field) -> Field:
    """What a field is warmer than another, on its own grid: mean and swing. [K]"""
    return Field(
        field.x,
        field.y,
        (field.mean - laid_on(other.mean, other, field.x, field.y)).astype(np.float32),
        (field.swing - laid_on(other.swing, other, field.x, field.y)).astype(np.complex64),
        field.floor_x,
        field.floor_mean,
        field.floor_swing,
    )


def apart_scale(field: Field, system: System) -> Apart:
    """The finest steps that reach over most of a year's differences; what lies beyond takes the last tint."""
    most = np.abs(field.mean) + np.abs(field.swing)
    reach = say.number(float(np.nanquantile(most, MOST)), "K", system)
    return Apart(system, next((step for step in STEPS if step * EACH >= reach), STEPS[-1]))


def laid_on(values: NDArray[Any], field: Field, x: NDArray[np.float32], y: NDArray[np.float32]) -> NDArray[Any]:
    """Values of a field's grid at places x by y, straight between its lines; not a number well within air."""
    parts = (values.real, values.imag) if np.iscomplexobj(values) else (values,)
    i, u = _between(field.x, x)
    j, v = _between(field.y, y)
    u, v = u[None, :], v[:, None]
    laid = []
    for part in (carried(part.astype(float), BEYOND) for part in parts):
        low = part[np.ix_(j, i)] * (1 - u) + part[np.ix_(j, i + 1)] * u
        high = part[np.ix_(j + 1, i)] * (1 - u) + part[np.ix_(j + 1, i + 1)] * u
        laid.append(low * (1 - v) + high * v)
    return laid[0] if len(laid) == 1 else laid[0] + 1j * laid[1]


def apart_lines(field: Field, year_fraction: float | None, scale: Apart, frame: Frame) -> tuple[str, str]:
    """Lines of equal difference, to be clipped to the bodies, and their values; None is the mean of the year."""
    now = field.mean.astype(float) if year_fraction is None else field.at(year_fraction)
    x, y = frame.x(field.x.astype(float)), frame.y(field.y.astype(float))[::-1]
    sheet = SheetField(x, y, carried(now[::-1], BEYOND))
    each = scale.bounds[-1] / EACH

    def spacing_at(px: Places, py: Places) -> Places:
        return each / np.maximum(sheet.steepness(px, py), 1e-9)

    drawn: list[str] = []
    said: list[str] = []
    taken: list[Box] = []
    for mark, bound in zip(scale.marks, scale.bounds, strict=True):
        lines = where_each(lines_at(sheet, bound), lambda a, b: spacing_at(a, b) > CROWDED)
        words = _said(mark)
        place = best_place(
            lines,
            words,
            spacing_at=spacing_at,
            body_at=lambda px, py: np.where(_in_frame(frame, px, py), 0, -1),
            taken=taken,
            weight=400,
        )
        if place:
            taken.append(place.box)
            said.append(set_value(place, words, weight=400))
            lines = [run for found in lines for run in with_gap(found, place.box)]
        drawn.append(drawn_lines(lines, HAIR))
    return "".join(drawn), "".join(said)


def apart_legend(scale: Apart, left: float, top: float, room: float, words: tuple[str, str]) -> str:
    """The row of tints, ``words`` for colder and warmer at its ends, values below. [mm]"""
    unit = say.name("K", scale.system)
    before, after = (width(said) + 2.0 for said in words)
    wide = min(11.0, (room - before - after - width(unit) - 3.0) / len(tints()))
    start = left + before
    drawn = [letters(left, top + HIGH - 0.4, words[0])]
    drawn += [rectangle(start + k * wide, top, wide, HIGH, tint) for k, tint in enumerate(tints())]
    end = start + wide * len(tints())
    drawn.append(stroke(f"M{start:.2f} {top:g}H{end:.2f}V{top + HIGH:.2f}H{start:.2f}z", HAIR))
    base = top + HIGH + 0.8 * LETTER
    for k, mark in enumerate(scale.marks, start=1):
        drawn.append(line(start + k * wide, top, start + k * wide, top + HIGH, HAIR))
        if (k + (k > EACH)) % 2 == 0:
            drawn.append(letters(start + k * wide, base, _said(abs(mark)), anchor="middle"))
    drawn.append(letters(end + 1.5, top + HIGH - 0.4, f"{unit} {words[1]}"))
    return "".join(drawn)


def _said(mark: float) -> str:
    return f"{mark:g}".replace("-", "\u2212")


def _in_frame(frame: Frame, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.bool_]:
    off = 3.5
    inside = (x > frame.left + off) & (x < frame.right - off) & (y > frame.top + off) & (y < frame.bottom - off)
    return np.asarray(inside)


def _between(lines: NDArray[np.float32], at: NDArray[np.float32]) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    k = np.clip(np.searchsorted(lines, at, side="right") - 1, 0, lines.size - 2)
    return k, np.clip((at - lines[k]) / (lines[k + 1] - lines[k]), 0.0, 1.0).astype(float)
