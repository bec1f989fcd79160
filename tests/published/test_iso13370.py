"""ISO 13370:2007 and 2017, floors on the ground: U, ground, and the depth that the year's wave reaches.

Formulas from memory. UK Building Regulations, Approved Document L, appendix C, tables C1 (slab on the ground) and C5
(basement floors without foam), were seen quoted in a public data file: clay, walls 0.3 m, films 0.17 and 0.04 m²·K/W.
Two digits are printed, so half of the last one is allowed. Depths of penetration (table H.1) are from memory.
"""

import tomllib
from math import pi, sqrt
from pathlib import Path

import pytest
from pytest import approx

from underpour import catalogue
from underpour.physics.conduction.solve import YEAR
from underpour.physics.ground import characteristic_dimension, equivalent_thickness, floor_transmittance

TABLES = tomllib.loads((Path(__file__).parent / "data" / "iso13370.toml").read_text(encoding="utf-8"))


def transmittance(perimeter_over_area, resistance=0.0, depth=0.0):
    """U of a floor of the tables: clay, walls 0.3 m."""
    dimension = characteristic_dimension(area=1.0, exposed_perimeter=perimeter_over_area)
    return floor_transmittance(dimension, equivalent_thickness(0.3, 1.5, 0.21 + resistance), 1.5, depth)


def cell(row):
    return f"P/A {row['perimeter-over-area']}, {row.get('resistance', row.get('depth'))}"


@pytest.mark.parametrize("row", TABLES["slab"], ids=cell)
def test_a_slab_on_clay_loses_what_table_c1_prints(row):
    ours = transmittance(row["perimeter-over-area"], resistance=row["resistance"])
    assert ours == approx(row["value"], abs=row["tolerance"])


@pytest.mark.parametrize("row", TABLES["basement"], ids=cell)
def test_a_basement_floor_in_clay_loses_what_table_c5_prints(row):
    ours = transmittance(row["perimeter-over-area"], depth=row["depth"])
    assert ours == approx(row["value"], abs=row["tolerance"])


@pytest.mark.parametrize("row", TABLES["penetration"], ids=lambda row: row["ground"])
def test_the_years_wave_reaches_as_deep_as_table_h1_prints(row):
    """Depth = sqrt(year conductivity / (pi capacity)), for the catalogue's ground."""
    ground = catalogue.ground(row["ground"])
    assert ground.conductivity.value == row["conductivity"]
    assert ground.heat_capacity.value == row["heat-capacity"]
    depth = sqrt(YEAR * ground.conductivity.value / (pi * ground.heat_capacity.value))
    assert depth == approx(row["value"], abs=row["tolerance"])
