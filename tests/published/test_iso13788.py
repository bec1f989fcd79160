"""ISO 13788:2012, annex E and 5.3: saturation pressure, its inverse, the coldest surface allowed and its factor.

The formula over water was seen quoted in public pages, the one over ice is from memory; the rows of data/iso13788.toml
are derived from them, worked out apart. DIN 4108-2 (from memory) gives 12.6 °C and 0.70 for a room of 20 °C and 50 %.
"""

import tomllib
from pathlib import Path

import pytest

from ledger import held
from underpour.physics.moisture.air import (
    lowest_surface_temperature,
    saturation_pressure,
    saturation_temperature,
    surface_factor,
)

TABLES = tomllib.loads((Path(__file__).parent / "data" / "iso13788.toml").read_text(encoding="utf-8"))


ANNEX_E = "ISO 13788:2012, annex E"
FACTOR = "ISO 13788:2012, 5.3, and DIN 4108-2"


def of(row, ours, source):
    """Hold a row of the tables."""
    held(ours, row["value"], row["tolerance"], row["unit"], source, row["seen"])


def coldest_allowed(row):
    return lowest_surface_temperature(row["room"], row["humidity"], row["surface-humidity"])


@pytest.mark.parametrize("row", TABLES["pressure"], ids=lambda row: f"{row['temperature']} degC")
def test_vapour_saturates_at_the_listed_pressure(row):
    of(row, saturation_pressure(row["temperature"]), ANNEX_E)


@pytest.mark.parametrize("row", TABLES["temperature"], ids=lambda row: f"{row['pressure']} Pa")
def test_vapour_saturates_at_the_listed_temperature(row):
    of(row, saturation_temperature(row["pressure"]), ANNEX_E)


@pytest.mark.parametrize("row", TABLES["surface"], ids=lambda row: f"{row['room']} degC at {row['humidity']}")
def test_a_surface_may_be_as_cold_as_listed(row):
    of(row, coldest_allowed(row), FACTOR)


@pytest.mark.parametrize("row", TABLES["factor"], ids=lambda row: f"{row['outdoors']} degC outdoors")
def test_a_surface_needs_the_listed_factor(row):
    of(row, surface_factor(coldest_allowed(row), row["room"], row["outdoors"]), FACTOR)
