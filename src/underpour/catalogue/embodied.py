"""Greenhouse gas of making what a slab takes, where no record of a product says it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .read import quantity, table
from .records import Quantity


@dataclass(frozen=True, slots=True)
class EmbodiedRow:
    """One material."""

    key: str  # "EPS", "concrete-28"
    label: str
    by_mass: Quantity | None  # kgCO2e/kg
    by_volume: Quantity | None  # kgCO2e/m³
    density: Quantity | None  # kg/m³, where it is needed to come from a thickness to a mass
    strength: Quantity | None  # MPa, of concrete


@cache
def _rows() -> dict[str, EmbodiedRow]:
    made = {}
    for key, row in table("embodied").items():
        numbers = {
            name: quantity(row[name], f"catalogue.embodied.{key}.{name}") if name in row else None
            for name in ("by-mass", "by-volume", "density", "strength")
        }
        made[key] = EmbodiedRow(key, row["label"], *numbers.values())
    return made


def embodied_rows() -> tuple[EmbodiedRow, ...]:
    """All rows, in the order of the file."""
    return tuple(_rows().values())


def embodied_of(key: str) -> EmbodiedRow | None:
    """The row of a family of foam, of film, gravel, sand or screed; None where nothing may be taken unasked.

    >>> embodied_of("EPS").by_mass.value, embodied_of("XPS") is None
    (3.29, True)
    """
    return _rows().get(key)


def embodied_concrete(strength: float | None) -> EmbodiedRow:
    """The row of concrete at or next above a strength; of 4000 psi where none is told. [MPa]

    >>> embodied_concrete(25.0).key, embodied_concrete(None).key, embodied_concrete(60.0).key
    ('concrete-28', 'concrete-28', 'concrete-41')
    """
    wanted = _rows()["concrete-28"].strength if strength is None else None
    least = wanted.value if wanted is not None else strength or 0.0
    rows = [row for row in embodied_rows() if row.strength is not None]
    return next((row for row in rows if row.strength is not None and row.strength.value >= least - 0.01), rows[-1])
