"""Between which ends a family's section is one stretch, and what is made ready there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..cut import Posed
from ..mistakes import Mistake
from ..physics.conduction.shapes import Films
from ..physics.reduced.family import Airs, Conducting, Parameter, Varied
from ..physics.reduced.reduced import Reduced, reduced
from ..physics.reduced.stretch import Cut, Unstretched, stretched
from ..physics.year import YEAR

Array = NDArray[np.float64]
Values = NDArray[Any]  # real for a mean, complex for a swing
HALVINGS = 7  # steps to where lines meet
GAP, LEAST_BRANCH = 0.01, 0.05  # of the way between the ends: a step over lines that meet; a branch worth making
WARMTH = 2e-3  # bound of a place's temperature, as a share of the degrees between airs
PACE = 2.0 * np.pi / YEAR  # rad/s
CORNER = "corner"


@dataclass(frozen=True)
class Year:
    """One set of films: the mean of the year, and its swing."""

    steady: Reduced
    swing: Reduced


@dataclass(frozen=True)
class Branch:
    """Between two ends without lines that meet: with the films for heat, and with those behind furniture."""

    heat: Year
    mould: Year

    @property
    def ends(self) -> tuple[float, float]:
        """Of the first thing that varies: the thickness, where one does."""
        first = self.heat.steady.parameters[0]
        return first.low, first.high


@dataclass(frozen=True)
class Asked:
    """What the branches of an edge have in common."""

    cut: Cut
    at: Posed
    materials: tuple[Conducting, ...]
    airs: Airs
    wanted: float

    def branch(self, lengths: tuple[Parameter, ...]) -> Branch:
        """Made ready between the ends of these lengths."""
        heat, mould = ([films[space.where] for space in self.at.spaces] for films in self.at.films)
        return Branch(self._year(lengths, heat, on_finer=2), self._year(lengths, mould, on_finer=1))

    def _year(self, lengths: tuple[Parameter, ...], films: Sequence[Films], on_finer: int) -> Year:
        steady = self._reduced(Varied(lengths, self.materials), films, self.airs[:-1], on_finer)
        return Year(steady, self._reduced(Varied(lengths, self.materials, (), PACE), films, self.airs, on_finer))

    def _reduced(self, varied: Varied, films: Sequence[Films], airs: Airs, on_finer: int) -> Reduced:
        made = reduced(
            self.cut,
            varied,
            films,
            airs,
            wanted=self.wanted,
            wanted_temperature=WARMTH,
            trained=200,
            looked_at=500,
            on_finer=on_finer,
            watched={CORNER: self.at.section.corner},
            lines_x=self.at.lines_x,
            narrowed=1.0,
        )
        return made.handed_on()


def between_meetings(
    cut: Cut, lengths: tuple[Parameter, ...], films: Sequence[Films], at: Posed
) -> tuple[list[tuple[Parameter, ...]], str]:
    """Ends between which the section can be stretched, and why not everywhere.

    One thickness is parted where lines of the section meet, which is found by halving; several are not parted.
    """

    def unfit(ends: Sequence[tuple[float, float]]) -> str:
        low, high = (np.array(each) for each in zip(*ends, strict=True))
        try:
            stretched(cut, low, high, films, at.lines_x)
        except Unstretched as unstretched:
            return f"{unstretched}: solved wholly"
        except Mistake as mistake:
            return f"one of these thicknesses cannot be built: {mistake.wrong}"
        return ""

    why = unfit([(each.low, each.high) for each in lengths]) if lengths else ""
    if not why or len(lengths) > 1:
        return ([] if why else [lengths]), why
    (length,) = lengths
    ends = _parted(lambda low, high: not unfit([(low, high)]), length.low, length.high)
    return [(replace(length, low=low, high=high),) for low, high in ends], why


def _parted(fits: Callable[[float, float], bool], low: float, high: float) -> list[tuple[float, float]]:
    """Stretches of a way on which both ends fit together, from both of its ends towards the middle.

    An end on which lines meet, or a thickness of nought, is left by a step.
    """
    least, step = LEAST_BRANCH * (high - low), GAP * (high - low)
    if not fits(low, low + least):
        low += step
    if not fits(high - least, high):
        high -= step
    first = _furthest(lambda end: fits(low, end), low, high, least)
    last = _furthest(lambda end: fits(end, high), high, max(first, low), least)
    found = [(low, first)] if first > low else []
    if last < high:
        inner = (first + step, last - step)
        middle = [inner] if inner[1] - inner[0] > 4.0 * least and fits(*inner) else []
        found += [*middle, (last, high)]
    return found


def _furthest(fits: Callable[[float], bool], start: float, end: float, least: float) -> float:
    """As far towards the end as fits; the start where not even the least way does."""
    fitting = start + np.copysign(least, end - start)
    if abs(end - start) <= least or not fits(fitting):
        return start
    if fits(end):
        return end
    wide = end
    for _ in range(HALVINGS):
        middle = (fitting + wide) / 2.0
        fitting, wide = (middle, wide) if fits(middle) else (fitting, middle)
    return float(fitting)


def flow_of(made: Reduced, cases: Array, of: int, airs: Values) -> tuple[Values, Array]:
    """Heat that one load's faces give off, and its bound. [W/m]"""
    told = made.told(cases)
    return told.couplings[:, of] @ airs, made.within(told)[:, of] @ np.abs(airs)


def warmth_of(made: Reduced, cases: Array, airs: Values) -> tuple[Values, Array]:
    """Temperature of the corner above that of the reference, and its bound. [K]"""
    values, within = made.temperatures(CORNER, cases, made.told(cases))
    return values @ airs, within @ np.abs(airs)
