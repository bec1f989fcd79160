"""The one temperature scale that all pictures of a comparison share."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from ..measure import say
from ..measure.table import System
from ..physics.conduction.field import Field
from . import colours

SPACINGS = {"SI": (1, 2, 5), "US": (2, 5, 10)}  # K, °F between two lines
MOST = 20  # lines over the whole scale; the spacings are so stepped that 8 are left after a change
FIFTH = 5  # each fifth line is heavy


@dataclass(frozen=True, slots=True)
class Scale:
    """Lines at even steps of the reader's own degrees, and one flat tint between each two."""

    system: System  # "US" or "SI"
    spacing: int  # between two lines, in °F or K
    first: int  # the lowest line is ``first * spacing``, in °F or °C
    tints: tuple[str, ...]  # from the coldest to the warmest

    @property
    def marks(self) -> tuple[int, ...]:
        """The steps' bounds in the reader's own degrees, one more than there are tints. [°F or °C]"""
        return tuple((self.first + k) * self.spacing for k in range(len(self.tints) + 1))

    @property
    def levels(self) -> tuple[float, ...]:
        """The same bounds. [degC]"""
        return tuple(celsius(mark, self.system) for mark in self.marks)

    def is_heavy(self, mark: int) -> bool:
        return mark % (FIFTH * self.spacing) == 0

    def bears_its_value(self, mark: int) -> bool:
        return self.is_heavy(mark) or mark % (2 * self.spacing) == 0

    def tint(self, temperature: float) -> str:
        """The tint of a temperature; beyond the scale its last tint. [degC]"""
        step = math.floor(say.number(temperature, "degC", self.system) / self.spacing) - self.first
        return self.tints[min(max(step, 0), len(self.tints) - 1)]


def shared_scale(fields: Iterable[Field], year_fraction: float, system: System) -> Scale:
    """The scale that shows all the fields at one moment of the year.

    Parameters
    ----------
    fields : iterable of Field
        All that will be shown side by side; at least one.
    year_fraction : float
        Moment of the year, 0 at the start of January. [1]
    system : System
        "US" for °F, "SI" for °C.

    Returns
    -------
    Scale
        With the finest spacing (1, 2, 5 K or 2, 5, 10 °F) that draws at most 20 lines; the coarsest where even that
        draws more.
    """
    return scale_of_moments(fields, (year_fraction,), system)


def scale_of_moments(fields: Iterable[Field], year_fractions: Sequence[float], system: System) -> Scale:
    """The same for several moments at once, so that a tint keeps its meaning from month to month."""
    moments = [field.at(f) for field in fields for f in year_fractions]
    return scale_of_range(float(min(np.nanmin(m) for m in moments)), float(max(np.nanmax(m) for m in moments)), system)


def scale_of_range(lowest: float, highest: float, system: System) -> Scale:
    """The same for whatever lies between two temperatures. [degC]"""
    low, high = (say.number(each, "degC", system) for each in (lowest, highest))
    spacings = SPACINGS[system]
    spacing = next((s for s in spacings if lines_between(low, high, s) <= MOST), spacings[-1])
    first = math.floor(low / spacing)
    steps = max(math.ceil(high / spacing) - first, 1)
    return Scale(system, spacing, first, colours.tints(steps))


def lines_between(low: float, high: float, spacing: int) -> int:
    """How many multiples of the spacing lie between two temperatures.

    >>> lines_between(-10.5, 20.0, 2)
    15
    """
    return math.ceil(high / spacing) - math.floor(low / spacing) - 1


def celsius(mark: float, system: System) -> float:
    """A temperature of the reader's own degrees. [degC]"""
    zero = say.number(0.0, "degC", system)
    return (mark - zero) / (say.number(1.0, "degC", system) - zero)


def month_middle(month: int) -> float:
    """The moment of the year at the middle of a month, 1 to 12. [1]

    >>> month_middle(2)
    0.125
    """
    return (month - 0.5) / 12.0
