"""What is usual where the brief is silent; every use of it is listed as assumed."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from .. import catalogue
from ..findings import Assumed
from ..measure import Measure, System, say
from .assumptions import Assumptions
from .resolved import Slice


@dataclass(frozen=True, slots=True)
class Usual:
    value: float
    low: float
    high: float
    unit: str
    source: str
    where: str
    seen: str
    material: str = ""

    def assumed(self, path: str) -> Assumed:
        return Assumed(path, self.value, self.low, self.high, self.unit, f"{self.where} (common practice, no source)")


@cache
def usual(key: str) -> Usual:
    """One of the tables of usual.toml."""
    text = (files(__package__) / "usual.toml").read_text(encoding="utf-8")
    return Usual(**tomllib.loads(text)[key])


def usual_wall(key: str, path: str, system: System, assumed: Assumptions) -> Slice:
    """A wall of one usual material, its thickness assumed."""
    found = usual(key)
    material = catalogue.material(found.material)
    thickness = assumed.take(found.assumed(path))
    words = f"{material.label}, {say.both(thickness, 'm', system)}, assumed"
    return Slice(
        found.material,
        material.label,
        words,
        thickness,
        material.conductivity.value,
        material.heat_capacity.value,
        material.hatch,
        path,
        (path, material.conductivity.path),
        key=material.key,
    )


def size(typed: Measure | None, key: str, path: str, system: System, assumed: Assumptions) -> tuple[float, str]:
    """A size of the structure with its words; the usual one where none was typed."""
    unit = usual(key).unit
    if typed is not None:
        return typed.si, say.typed(typed, unit, system)
    value = assumed.take(usual(key).assumed(path))
    return value, f"{say.both(value, unit, system)}, assumed"
