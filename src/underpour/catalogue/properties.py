"""What a test record can be of, and which test gives it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from ..measure.table import table as units
from ..measure.words import plain
from .read import quantity, table
from .records import Quantity

ROUNDED_DAYS = 0.005  # 50 years over 30 are 608.75 days, which the standards round to 608
METHOD = re.compile(r"(?:ASTM|EN|ISO|UL|CAN/ULC|CSA)[ -]?[A-Z]{0,2}[ -]?\d+|flow rig")
_PARTED = re.compile(r"^(ASTM|EN|ISO|UL|CAN/ULC|CSA)[ -]?([A-Z]{0,2})[ -]?(\d+)$")  # "ASTM D-1621", "ASTM D 1621"


@dataclass(frozen=True, slots=True)
class Property:
    """A property by its key; two numbers of two properties are never turned into each other."""

    key: str
    name: str  # heads the number
    printed: str  # says it in a sentence
    kind: str  # of measure
    unit: str  # that the catalogue keeps it in
    better: Literal["more", "less"]
    methods: tuple[str, ...]  # that give this very property
    at: tuple[str, ...]  # what a record must say of its conditions
    statistic: str  # that it is declared by; "" where any will do
    ages: bool  # a foam whose gas leaves it loses it with the years
    mean: float | None  # mean temperature that it is of, degC

    @property
    def within(self) -> str:
        """Its name inside a sentence."""
        return self.name[:1].lower() + self.name[1:]

    @property
    def usual_units(self) -> str:
        """Units that a report prints it in: the metric one, and the first of the other system.

        >>> properties()["permeance"].usual_units
        'ng/(Pa·s·m²) or perm'
        """
        kind = units().kinds[self.kind]
        other = next((unit.name for unit in units().units_of(kind) if unit.system == "US"), "")
        own = "index" if self.kind == "index" else {"m³/m³": "% by volume"}.get(self.unit, self.unit)
        return f"{own} or {other}" if other else own

    @property
    def unit_si(self) -> float:
        """What one of its unit is in the unit that its kind of measure is kept in."""
        return unit_of(self.unit, self.kind) or 1.0


@cache
def properties() -> dict[str, Property]:
    """Every property by its key."""
    return {
        key: Property(
            key=key,
            name=row["name"],
            printed=row["printed"],
            kind=row["kind"],
            unit=row["unit"],
            better=row["better"],
            methods=tuple(row["methods"]),
            at=tuple(row.get("at", ())),
            statistic=row.get("statistic", ""),
            ages=row.get("ages", False),
            mean=row["mean"]["value"] if "mean" in row else None,
        )
        for key, row in table("properties").items()
    }


@cache
def reproducibility() -> dict[str, Quantity]:
    """How far two laboratories usually lie apart, by the number of the test. [%]"""
    return {key: quantity(row["apart"], f"catalogue.method.{key}.apart") for key, row in table("methods").items()}


@cache
def record_limits() -> dict[str, Quantity]:
    """What a product record is held to beyond its class, each in its own unit."""
    return {key: quantity(row["limit"], f"catalogue.evidence.{key}") for key, row in table("evidence").items()}


@cache
def unit_of(words: str, kind: str) -> float | None:
    """What one of a unit is in the unit that its kind of measure is kept in; None where it measures something else.

    >>> unit_of("kPa", "pressure"), unit_of("psi", "permeance")
    (1000.0, None)
    """
    return next((unit.si for unit in units().find(plain(words)) if unit.kind == kind), None)


@cache
def kinds_of(words: str) -> tuple[str, ...]:
    """What a unit measures, in the words of a message; empty where it is no unit.

    >>> kinds_of("perm")
    ('a vapour permeance',)
    """
    return tuple(dict.fromkeys(units().kinds[unit.kind].called for unit in units().find(plain(words))))


@cache
def methods_in(words: str) -> tuple[str, ...]:
    """The numbers of the tests that a record names.

    >>> methods_in("EN 12087 / EN 12091"), methods_in("ASTM E96 method A"), methods_in("none given")
    (('EN 12087', 'EN 12091'), ('ASTM E96',), ())
    >>> methods_in("ASTM D-1622"), methods_in("ASTM D 1622-20"), methods_in("CAN/ULC-S701")
    (('ASTM D1622',), ('ASTM D1622',), ('CAN/ULC S701',))
    """
    return tuple(_PARTED.sub(r"\1 \2\3", found) for found in METHOD.findall(words))
