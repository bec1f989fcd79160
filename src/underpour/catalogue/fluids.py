"""What runs in tubes: water and glycols, between the temperatures and shares of a table made from a library."""

from __future__ import annotations

import csv
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import exp, log

from ..mistakes import unknown
from .read import FOLDER

Row = tuple[float, float, float, float, float]  # degC, kg/m³, J/(kg·K), Pa·s, W/(m·K)
COLDEST, WARMEST = 0, -1


@dataclass(frozen=True, slots=True)
class Fluid:
    """A fluid at one temperature."""

    density: float  # kg/m³
    heat_capacity: float  # by mass, J/(kg·K)
    viscosity: float  # Pa·s
    conductivity: float  # W/(m·K)


@dataclass(frozen=True, slots=True)
class Mixture:
    """Water, or a glycol in it, at every temperature of the table."""

    key: str  # as it is typed: "water", "propylene-glycol-30"
    freezes: float  # degC
    drinkable: bool  # no harm where it meets drinking water
    rows: tuple[Row, ...]

    @property
    def least(self) -> float:
        """[degC]"""
        return self.rows[COLDEST][0]

    @property
    def most(self) -> float:
        """[degC]"""
        return self.rows[WARMEST][0]

    def at(self, temperature: float) -> Fluid:
        """At a temperature between the table's ends; outside them a ValueError. [degC]

        >>> round(mixture("water").at(40.0).viscosity * 1000.0, 3)
        0.653
        """
        if not self.least <= temperature <= self.most:
            raise ValueError(f"{self.key} is listed from {self.least:g} to {self.most:g} °C, asked at {temperature:g}")
        below = min(bisect_right(self.rows, (temperature, *[float("inf")] * 4)), len(self.rows) - 1)
        (cold, *low), (warm, *high) = self.rows[below - 1], self.rows[below]
        part = (temperature - cold) / (warm - cold)
        density, capacity, _, conductivity = ((1.0 - part) * a + part * b for a, b in zip(low, high, strict=True))
        return Fluid(density, capacity, exp((1.0 - part) * log(low[2]) + part * log(high[2])), conductivity)


@cache
def _by_key() -> dict[str, Mixture]:
    with (FOLDER / "fluids.csv").open(encoding="utf-8", newline="") as lines:
        read = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    mixed: dict[str, list[dict[str, str]]] = {}
    for row in read:
        key = row["fluid"] if row["share"] == "0" else f"{row['fluid']}-{row['share']}"
        mixed.setdefault(key, []).append(row)
    return {key: _mixture(key, rows) for key, rows in mixed.items()}


def _mixture(key: str, rows: Sequence[dict[str, str]]) -> Mixture:
    columns = ("temperature", "density", "heat-capacity", "viscosity", "conductivity")
    numbers = [tuple(float(row[name]) for name in columns) for row in rows]
    listed = tuple((a, b, c, d, e) for a, b, c, d, e in numbers)
    return Mixture(key, float(rows[0]["freezes"]), not key.startswith("ethylene"), listed)


def mixtures() -> tuple[Mixture, ...]:
    """Every fluid, in the order of the file."""
    return tuple(_by_key().values())


def mixture(key: str) -> Mixture:
    """The fluid of that name; one that is not known is a Mistake with the nearest one. Shares are by mass, in %.

    >>> mixture("propylene-glycol-30").freezes
    -12.8
    """
    found = _by_key().get(key)
    if found is None:
        harmless = [each.key for each in mixtures() if each.drinkable]  # nobody is led to poison by a slip
        raise unknown("", key, harmless, "fluid", "Shares are by mass: propylene-glycol-30 is 30 % of it.")
    return found
