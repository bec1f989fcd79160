"""Soil gas: levels by authority, tests, and what is taken of ground, house, stone, pipe and fan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from .read import Entry, one, quantity, table
from .records import Quantity

NOT_TOLD = "unknown"


@dataclass(frozen=True, slots=True)
class RadonLevel:
    """A level of radon in rooms from which somebody asks that something be done."""

    key: str  # "us-epa"
    label: str
    level: Quantity  # Bq/m³
    countries: tuple[str, ...]  # where it is taken unless a brief says otherwise
    says: str  # what the authority says besides


@dataclass(frozen=True, slots=True)
class RadonTest:
    """A kind of test for radon in rooms."""

    key: str  # "alpha-track"
    label: str
    long: bool  # months, or days
    days_least: Quantity  # d
    days_most: Quantity  # d
    spread: Quantity  # 1, a factor: how far one test may lie from the year's mean
    says: str


@cache
def _levels() -> dict[str, RadonLevel]:
    return {
        key: RadonLevel(
            key,
            entry["label"],
            quantity(entry["level"], f"catalogue.radon-level.{key}.level"),
            tuple(entry["countries"]),
            entry["says"],
        )
        for key, entry in table("radon_levels").items()
    }


def radon_levels() -> tuple[RadonLevel, ...]:
    """Every level, by who names it."""
    return tuple(_levels().values())


def radon_level(key: str) -> RadonLevel:
    """The level of that key; one that is not known is a Mistake with the nearest.

    >>> radon_level("us-epa").level.value, radon_level("who").level.value
    (148.0, 100.0)
    """
    return one(_levels(), key, "radon level", "radon-levels")


def radon_level_of(country: str) -> RadonLevel:
    """The level that is taken in a country; the World Health Organization's where none is held for it.

    >>> radon_level_of("IE").key, radon_level_of("").key
    ('ie', 'who')
    """
    return next((level for level in radon_levels() if country and country in level.countries), radon_level("who"))


@cache
def _tests() -> dict[str, RadonTest]:
    def of(key: str, entry: Entry, name: str) -> Quantity:
        return quantity(entry[name], f"catalogue.radon-test.{key}.{name}")

    return {
        key: RadonTest(
            key,
            entry["label"],
            entry["long"],
            of(key, entry, "days-least"),
            of(key, entry, "days-most"),
            of(key, entry, "spread"),
            entry["says"],
        )
        for key, entry in table("radon_tests").items()
    }


def radon_tests() -> tuple[RadonTest, ...]:
    """Every kind of test."""
    return tuple(_tests().values())


def radon_test(key: str) -> RadonTest:
    """The kind of test of that key; one that is not known is a Mistake with the nearest.

    >>> radon_test("charcoal").long, radon_test("alpha-track").days_least.value
    (False, 90.0)
    """
    return one(_tests(), key, "radon test", "radon-tests")


@cache
def of_soil_gas(key: str) -> Quantity:
    """One number of soil_gas.toml, by the two words of its heading.

    >>> of_soil_gas("permeability.fine-sand").value, of_soil_gas("permeability.fine-sand").unit
    (5.0, 'µm²')
    """
    part, _, name = key.partition(".")
    return quantity(table("soil_gas")[part][name], f"catalogue.soil-gas.{part}-{name}")


@cache
def soil_gas_numbers() -> dict[str, Quantity]:
    """Every number of soil_gas.toml."""
    return {key.replace(".", "-"): of_soil_gas(key) for key in _keys(table("soil_gas"))}


def _keys(held: Mapping[str, Mapping[str, Any]]) -> Iterator[str]:
    for part, numbers in held.items():
        yield from (f"{part}.{name}" for name in numbers)


@cache
def _soils() -> dict[str, str]:
    """Which soil of soil_gas.toml each ground lets gas through as, where that is held."""
    kinds = {key: entry.get("lets-gas-through-as", "") for key, entry in table("grounds").items()}
    return kinds | {row["key"]: row["lets-gas-through-as"] for row in table("soils")["row"]}


def permeability_of(ground: str, grain: str) -> Quantity:
    """How well a ground of the catalogue lets gas through: by its name, else by its grain, else as one not known. [µm²]

    >>> permeability_of("sand-moist", "coarse").value, permeability_of("made-ground", "").value
    (100.0, 0.5)
    """
    of_grain = {"fine": "clay-or-silt", "coarse": "sand-or-gravel"}.get(grain, NOT_TOLD)
    soil = _soils().get(ground) or _soils()[of_grain]
    return of_soil_gas(f"permeability.{soil}")


def permeability_class(permeability: float) -> str:
    """Whether ground counts as of low, medium or high permeability where building sites are classed. [m²]

    >>> permeability_class(1e-13), permeability_class(1e-12), permeability_class(1e-11)
    ('low', 'medium', 'high')
    """
    in_um2 = permeability * 1e12
    if in_um2 < of_soil_gas("class.low-below").value:
        return "low"
    return "high" if in_um2 > of_soil_gas("class.high-above").value else "medium"


def within_years(level: float) -> int:
    """Within how many years Health Canada asks that a level be put right; nought where it does not. [Bq/m³]

    >>> [within_years(level) for level in (150.0, 250.0, 599.0, 601.0)]
    [0, 2, 2, 1]
    """
    if level <= radon_level("health-canada").level.value:
        return 0
    return 1 if level > of_soil_gas("canada.soon").value else 2
