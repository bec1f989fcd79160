"""The unit of a drawing's numbers: what its header says, what the brief says, and no guess between them."""

from __future__ import annotations

from dataclasses import dataclass

from ..mistakes import Mistake
from .asked import Asked
from .limits import table

_METRES = {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254}  # exact by definition
_NAMES = {"m": "metres", "cm": "centimetres", "mm": "millimetres", "ft": "feet", "in": "inches"}


@dataclass(frozen=True, slots=True)
class Unit:
    """What the numbers of the drawing are, and those of the brief."""

    name: str  # "millimetres"
    metres: float  # of one
    brief: str  # unit of the brief's own numbers: m, mm, cm, ft, in
    why: str  # who says so

    @property
    def short(self) -> str:
        """As it stands behind a number: "mm"."""
        return next((short for short, name in _NAMES.items() if name == self.name), self.name)

    @property
    def brief_metres(self) -> float:
        return _METRES[self.brief]


def unit_of(code: int, asked: Asked) -> Unit:
    """The unit of a drawing.

    Parameters
    ----------
    code : int
        $INSUNITS of its header; 0 where it says none.
    asked : Asked
        What the brief says of units.

    Raises
    ------
    Mistake
        Neither says a unit, or the two say two.
    """
    said = table()["unit"]["code"].get(str(code))
    own = asked.drawing_unit
    if own is not None:
        other = f", while its header says {said['name']}" if said and said["metres"] != _METRES[own] else ""
        return Unit(_NAMES[own], _METRES[own], asked.unit or own, f"as plan.dxf-unit says{other}")
    if said is not None and asked.unit not in (None, said["brief"]):
        wrong = f"The drawing says that it is in {said['name']}, and plan.unit says {_NAMES[str(asked.unit)]}."
        same = _METRES[said["brief"]] == said["metres"]
        kept = f'write dxf-unit = "{said["brief"]}" beside it' if same else f'write unit = "{said["brief"]}"'
        instead = f'If the drawing is right, {kept}; if its header is wrong, write dxf-unit = "{asked.unit}".'
        raise Mistake("plan.unit", f'"{asked.unit}"', wrong, instead)
    if said is not None:
        return Unit(said["name"], said["metres"], asked.unit or said["brief"], "as its header says")
    if code:
        wrong = f"The drawing's header names a unit in which no floor is drawn ($INSUNITS {code})."
        raise Mistake("", "", wrong, 'Say what its numbers are: dxf-unit = "mm", "cm", "m", "ft" or "in".')
    if asked.unit is None:
        wrong = "The drawing does not say in what unit it is drawn ($INSUNITS is nought or missing)."
        raise Mistake("", "", wrong, 'Say what its numbers are, below it: unit = "mm", "cm", "m", "ft" or "in".')
    return Unit(_NAMES[asked.unit], _METRES[asked.unit], asked.unit, "as plan.unit says; the drawing itself says none")
