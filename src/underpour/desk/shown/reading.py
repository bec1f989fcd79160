"""What a cross in the drawing reads: bodies, airs, and the words for every value that can come up."""

from __future__ import annotations

from functools import cache
from typing import Any

from ...measure import System, say
from ...pages.readings import AIRS, TAPE, bodies
from ...physics.conduction.field import Field
from ...sections.parts import Section

__all__ = ["airs", "bodies", "words_of"]

COLDEST, WARMEST = -60.0, 70.0  # degC between which every temperature has words
TENTH = 0.1  # °F or K between two of them
DEEPEST, HIGHEST = -12.0, 6.0  # m between which every height has words
FARTHEST_APART = 700  # steps to either side of no difference
FARTHEST = 12.0  # m to either side


def airs(section: Section, field: Field) -> list[dict[str, Any]]:
    """Each space of air with its outline and its temperature: mean, and the two parts of its swing."""
    known = {name: (mean, swing) for name, mean, swing in field.airs}
    told = []
    for air in section.airs:
        mean, swing = known.get(air.where, (None, 0j))
        name = section.beside if air.where == "outdoors" else air.where
        outline = [[round(x, 4), round(y, 4)] for x, y in air.outline]
        parts = None if mean is None else [round(part, 3) for part in (mean, swing.real, swing.imag)]
        told.append({"name": AIRS.get(name, name), "outline": outline, "temperature": parts})
    return told


@cache
def words_of(system: System) -> dict[str, Any]:
    """Words for temperatures, heights and places across, each list from its first value on in even steps."""
    step = say.number(TENTH, "K", "SI") / (1.8 if system == "US" else 1.0)
    degrees = [say.both(COLDEST + n * step, "degC", system) for n in range(int((WARMEST - COLDEST) / step) + 1)]
    apart = [say.both(abs(n) * step, "K", system) for n in range(-FARTHEST_APART, FARTHEST_APART + 1)]
    tape = TAPE[system]
    return {
        "degrees": {"first": COLDEST, "step": step, "words": degrees},
        "apart": {"first": -FARTHEST_APART * step, "step": step, "words": apart},
        "heights": _lengths(DEEPEST, HIGHEST, tape, system),
        "across": _lengths(-FARTHEST, FARTHEST, tape, system),
    }


def _lengths(low: float, high: float, step: float, system: System) -> dict[str, Any]:
    first, last = round(low / step), round(high / step)
    return {
        "first": first * step,
        "step": step,
        "words": [say.value(abs(n) * step, "m", system) for n in range(first, last + 1)],
    }
