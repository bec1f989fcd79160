"""Numbers of any unit as words: those that were assumed, and those of the catalogue."""

from __future__ import annotations

from ..findings import UNITS
from ..measure import say
from ..measure.table import System

OF_THE_CATALOGUE = ("J/(m³·K)", "m·K/W")  # units that measure.say prints beside those of findings


def measured(value: float | str | None, unit: str, system: System) -> str:
    """A number of any unit, in both systems where the unit is one that findings are printed in."""
    if value is None:
        return "not known"
    if isinstance(value, str):
        return value
    if unit in UNITS or unit in OF_THE_CATALOGUE:
        return say.both(value, unit, system)
    return f"{value:.4g}\N{THIN SPACE}{unit}"
