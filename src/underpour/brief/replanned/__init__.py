"""A plan changed by one act at a time, in the brief's own words: figures and comments that it does not touch stay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...mistakes import Mistake, Mistakes
from ...outlines.floor import Floor
from ...toml_text import read_toml
from ..parts import readable
from ..plans import readable_floor
from . import claims
from .acts import Act as Act
from .change import Drawn, chain_of, done, read_step
from .figures import exact
from .sketch import Sketch as Sketch
from .sketch import Spot, sketch_of
from .text import cannot_change, retold


@dataclass(frozen=True, slots=True)
class Replanned:
    """The brief after an act, and what is still being drawn."""

    text: str
    sketch: Sketch
    chain: tuple[Spot, ...]
    step: Fraction  # m
    new_edge: bool = False


def replanned(text: str, act: Act | None, step: str, chain: Sequence[str] = ()) -> Replanned:
    """The brief's text with one thing done to its plan.

    Parameters
    ----------
    text : str
        The brief; all but its plan may be wrong or missing.
    act : Act or None
        What is done; None only looks.
    step : str
        The snap, such as "6 in"; "" takes what is usual with the plan's unit.
    chain : sequence of str
        Corners of an outline that is being drawn, as the brief writes them.

    Raises
    ------
    Mistakes
        The text or its plan cannot be read, or the act cannot be done; nothing has changed.
    """
    try:
        data = read_toml(text, "")
        sketch = sketch_of(data)
        step = step.strip() or usual_step(sketch.unit)
        stride, spots = read_step(step, sketch.unit), chain_of(chain, sketch.unit)
        if act is None:
            return Replanned(text, sketch, spots, stride)
        drawing = data["plan"].get("dxf") if isinstance(data.get("plan"), dict) else None
        if drawing is not None:
            wrong = "The floor is read from a drawing."
            raise Mistake(
                "plan.dxf", f'"{drawing}"', wrong, "Change it there, or take dxf out of [plan] and draw it here."
            )
        found = done(sketch, spots, act, step, lengths_of(sketch, floor_in(data)))
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    if found.sketch == sketch:
        return Replanned(text, sketch, found.chain, stride)
    new = _written(text, sketch, found)
    return Replanned(new, sketch_of(read_toml(new, "")), found.chain, stride, found.new_edge_like is not None)


def _written(text: str, before: Sketch, found: Drawn) -> str:
    """The changed text, read once more: a plan that is written in a way we cannot change is told, not bent."""
    from tomlkit.exceptions import TOMLKitError

    try:
        new = retold(text, before, found.sketch, found.new_edge_like, found.edge_gone)
        again = sketch_of(read_toml(new, ""))
        as_meant = again.drawn() == found.sketch.drawn()
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    except (Mistakes, TOMLKitError):
        as_meant = False
    if not as_meant:
        raise Mistakes([cannot_change()])
    return new


def usual_step(unit: str) -> str:
    """The snap where nobody typed one."""
    return "6 in" if unit in ("ft", "in") else "100 mm"


def floor_in(data: Any) -> Floor | None:
    """The floor as far as it can be measured; None where the plan encloses nothing."""
    plan = readable(data).plan
    return None if plan is None else readable_floor(plan)


def lengths_of(sketch: Sketch, floor: Floor | None) -> dict[tuple[int, int], Fraction]:
    """The length of each side; those of arcs as the floor has them. [m]"""
    lengths: dict[tuple[int, int], Fraction] = {}
    for ring, each in enumerate(sketch.rings):
        for side, spot in enumerate(each.spots, start=1):
            straight = claims.chord(spot, each.spots[side % len(each.spots)])
            curved = bool(spot.bend) and floor is not None
            lengths[ring, side] = exact(floor.side(ring, side).length) if curved and floor else straight
    return lengths
