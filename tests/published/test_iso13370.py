"""ISO 13370:2007 and 2017, heat through the ground: U, edge foam, basements, the year's swing, the flow by month.

Formulas from memory. UK Building Regulations, Approved Document L, appendix C, tables C1 (slab on the ground), C2 (edge
foam) and C5 (basement floors without foam), were seen quoted in a public data file: clay, walls 0.3 m, films 0.17 and
0.04 m²·K/W. Two digits are printed, so half of the last one is allowed. Depths of penetration (table H.1) are from
memory. The worked floors are not printed anywhere: worked out apart from ours by the same formulas (derived); they
confirm the arithmetic, and exact/test_iso13370_swings.py says what the formulas are worth.
"""

import tomllib
from math import pi, sqrt
from pathlib import Path

import numpy as np
import pytest
from pytest import approx

from ledger import held_row
from underpour import catalogue
from underpour.outlines.outline import straight
from underpour.physics import ground
from underpour.physics.ground import characteristic_dimension, equivalent_thickness, floor_transmittance
from underpour.physics.year import YEAR

TABLES = tomllib.loads((Path(__file__).parent / "data" / "iso13370.toml").read_text(encoding="utf-8"))
CLAY, SAND = catalogue.ground("clay"), catalogue.ground("sand")
WALL, FILMS = 0.3, 0.17 + 0.04
TABLE = "UK Building Regulations, Approved Document L, appendix C, table"
APART = "ISO 13370:2017, worked out apart from ours"
FOAM = 0.035  # W/(m·K), of the edge foam
US_R = 0.3048**2 * (5.0 / 9.0) * 3600.0 / 1055.05585262  # m²·K/W in one ft²·°F·h/Btu


def transmittance(perimeter_over_area, resistance=0.0, depth=0.0):
    """U of a floor of the tables: clay, walls 0.3 m."""
    dimension = characteristic_dimension(area=1.0, exposed_perimeter=perimeter_over_area)
    return floor_transmittance(dimension, equivalent_thickness(WALL, 1.5, FILMS + resistance), 1.5, depth)


def cell(row):
    return f"P/A {row['perimeter-over-area']}, {row.get('resistance', row.get('depth'))}"


@pytest.mark.parametrize("row", TABLES["slab"], ids=cell)
def test_a_slab_on_clay_loses_what_table_c1_prints(row):
    held_row(row, transmittance(row["perimeter-over-area"], resistance=row["resistance"]), f"{TABLE} C1")


@pytest.mark.parametrize("row", TABLES["basement"], ids=cell)
def test_a_basement_floor_in_clay_loses_what_table_c5_prints(row):
    held_row(row, transmittance(row["perimeter-over-area"], depth=row["depth"]), f"{TABLE} C5")


@pytest.mark.parametrize("row", TABLES["edge"], ids=lambda row: f"{row['width']} m, {row['resistance']}")
def test_foam_along_a_bare_edge_saves_what_table_c2_prints(row):
    thickness = equivalent_thickness(WALL, 1.5, FILMS)
    added = ground.added_thickness(row["resistance"], row["resistance"] * FOAM, 1.5)
    held_row(row, -ground.horizontal_edge_transmittance(row["width"], thickness, added, 1.5), f"{TABLE} C2")


def test_every_cell_of_a_table_comes_from_one_call():
    """Arrays broadcast: the whole of table C1 at once is what its cells are one by one."""
    rows = TABLES["slab"]
    together = transmittance(
        np.array([r["perimeter-over-area"] for r in rows]), np.array([r["resistance"] for r in rows])
    )
    apart = [transmittance(r["perimeter-over-area"], r["resistance"]) for r in rows]
    assert together.shape == (50,)
    assert together == approx(apart, rel=1e-14)


@pytest.mark.parametrize("row", TABLES["penetration"], ids=lambda row: row["ground"])
def test_the_years_wave_reaches_as_deep_as_table_h1_prints(row):
    """Depth = sqrt(year conductivity / (pi capacity)), for the catalogue's ground."""
    material = catalogue.ground(row["ground"])
    assert material.conductivity.value == row["conductivity"]
    assert material.heat_capacity.value == row["heat-capacity"]
    depth = ground.penetration_depth(material.conductivity.value, material.heat_capacity.value)
    assert depth == approx(sqrt(YEAR * row["conductivity"] / (pi * row["heat-capacity"])), rel=1e-12)
    held_row(row, depth, "ISO 13370:2007 and 2017, table H.1")


def floor_of(area, perimeter, soil, resistance, depth=0.0):
    """What all worked floors share."""
    k = soil.conductivity.value
    thickness = equivalent_thickness(WALL, k, FILMS + resistance)
    dimension = characteristic_dimension(area, perimeter)
    penetration = ground.penetration_depth(k, soil.heat_capacity.value)
    return {
        "dimension": dimension,
        "thickness": thickness,
        "floor": floor_transmittance(dimension, thickness, k, depth),
        "penetration": penetration,
        "internal": ground.floor_internal(area, thickness, penetration, k),
        "external": ground.floor_external(perimeter, thickness, penetration, k),
    }


def plain_slab(length, width, resistance):
    area, perimeter = length * width, 2.0 * (length + width)
    floor = floor_of(area, perimeter, SAND, resistance)
    return floor | {"steady": ground.steady_coupling(area, floor["floor"], perimeter)}


def slab_with_edge_strip():
    """12 x 9 m on clay, R 0.5, a level strip 1.0 m wide and 60 mm thick."""
    area, perimeter, width, strip, k = 108.0, 42.0, 1.0, 0.06, CLAY.conductivity.value
    floor = floor_of(area, perimeter, CLAY, 0.5)
    added = ground.added_thickness(strip / FOAM, strip, k)
    psi = ground.horizontal_edge_transmittance(width, floor["thickness"], added, k)
    steady = ground.steady_coupling(area, floor["floor"], perimeter, psi)
    return floor | {
        "edge-resistance": strip / FOAM,
        "added": added,
        "edge": psi,
        "steady": steady,
        "floor-with-edge": steady / area,
        "external": ground.horizontal_edge_external(
            perimeter, floor["thickness"], added, width, floor["penetration"], k
        ),
    }


def heated_basement():
    """10 x 8 m, 2.4 m deep, clay, floor R 1.0, wall R 2.0."""
    area, perimeter, depth, k = 80.0, 36.0, 2.4, CLAY.conductivity.value
    floor = floor_of(area, perimeter, CLAY, 1.0, depth)
    wall_thickness = equivalent_thickness(0.0, k, 0.13 + 2.0 + 0.04)
    wall = ground.basement_wall_transmittance(depth, floor["thickness"], wall_thickness, k)
    steady = ground.heated_basement_coupling(area, floor["floor"], depth, perimeter, wall)
    thick = (floor["thickness"], wall_thickness, floor["penetration"], k)
    return floor | {
        "wall-thickness": wall_thickness,
        "wall": wall,
        "steady": steady,
        "effective": steady / (area + depth * perimeter),
        "internal": ground.heated_basement_internal(area, depth, perimeter, *thick),
        "external": ground.heated_basement_external(perimeter, depth, *thick),
    }


WORKED = {
    "house slab on sand": lambda: plain_slab(10.0, 8.0, 2.5),
    "bare warehouse on sand": lambda: plain_slab(100.0, 60.0, 0.0),
    "slab on clay with an edge strip": slab_with_edge_strip,
    "heated basement in clay": heated_basement,
}


@pytest.mark.parametrize("row", TABLES["worked"], ids=lambda row: f"{row['case']}, {row['of']}")
def test_a_worked_floor_comes_out_as_worked_apart(row):
    """Sand 2.0 W/(m·K) and 2 MJ/(m³·K), clay 1.5 and 3, as the catalogue holds them."""
    held_row(row, WORKED[row["case"]]()[row["of"]], APART)


@pytest.mark.parametrize("row", TABLES["monthly"], ids=lambda row: f"month {row['month']}")
def test_the_flow_by_month_comes_out_as_worked_apart(row):
    """House slab on sand, the lag rounded to one month."""
    floor = plain_slab(10.0, 8.0, 2.5)
    months = ground.monthly_flow(
        floor["steady"], floor["internal"], floor["external"], (20.0, 0.0), (9.0, 9.0), 1.0, 0.0, 1.0
    )
    held_row(row, months[row["month"] - 1], APART)
    assert months.mean() == approx(floor["steady"] * 11.0, rel=1e-12)


@pytest.mark.parametrize("row", TABLES["basement-by-foam"], ids=lambda row: f"R-{row['r-value']}")
def test_foam_under_a_basement_floor_brings_its_u_to(row):
    held_row(row, transmittance(36.0 / 80.0, row["r-value"] * US_R, 2.4), APART)


@pytest.mark.parametrize("row", TABLES["l-shape"], ids=lambda row: row["of"])
def test_an_l_shaped_house_on_clay_comes_out_as_the_worked_example(row):
    """Our own outline measures it; the table is read at the row the example reads, P/A 0.55."""
    plan = straight([(0.0, 0.0), (10.2, 0.0), (10.2, 4.0), (6.7, 4.0), (6.7, 6.7), (0.0, 6.7)])
    ratio = plan.length / plan.area
    ours = {
        "perimeter": plan.length,
        "area": plan.area,
        "perimeter-over-area": ratio,
        "table": transmittance(0.55),
        "formula": transmittance(ratio),
    }
    held_row(row, ours[row["of"]], "A public worked example of Approved Document L")
