"""Numbers of any unit as words: those that were assumed, and those of the catalogue."""

from __future__ import annotations

from ..measure import say
from ..measure.table import System


def measured(value: float | str | None, unit: str, system: System) -> str:
    """A number of any unit, in both systems where the unit is one that findings are printed in."""
    return "not known" if value is None else say.of_any_unit(value, unit, system)
