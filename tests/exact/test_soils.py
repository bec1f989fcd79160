"""The soils of the catalogue, worked out again by Johansen's formula from dry density, quartz and water of each row."""

from math import log10

import pytest
from pytest import approx

from underpour import catalogue
from underpour.catalogue.read import table

ROWS = table("soils")["row"]


def johansen(dry_density, saturation, quartz, fine):
    """Conductivity of unfrozen soil (Johansen 1975, after Farouki 1981; from memory). [W/(m·K)]"""
    pores = 1.0 - dry_density / 2700.0
    dry = (0.135 * dry_density + 64.7) / (2700.0 - 0.947 * dry_density)
    solids = 7.7**quartz * (2.0 if quartz > 0.2 else 3.0) ** (1.0 - quartz)
    soaked = solids ** (1.0 - pores) * 0.57**pores
    share = log10(saturation) + 1.0 if fine else 0.7 * log10(saturation) + 1.0
    return (soaked - dry) * share + dry


@pytest.mark.parametrize(
    ("given", "printed"),
    [((1600.0, 0.6, 0.5, True), 1.444), ((1900.0, 0.3, 0.7, False), 1.8287), ((1350.0, 0.9, 0.15, True), 1.3472)],
)
def test_the_formula_as_written_here_gives_the_points_worked_out_elsewhere(given, printed):
    assert johansen(*given) == approx(printed, rel=0.0005)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["key"])
@pytest.mark.parametrize("end", ["low", "value", "high"])
def test_conductivity_follows_from_the_row(row, end):
    conductivity = getattr(catalogue.ground(row["key"]).conductivity, end)
    assert conductivity == approx(
        johansen(row["dry-density"], row["saturation"][end], row["quartz"], row["fine"]), abs=0.005
    )


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["key"])
@pytest.mark.parametrize("end", ["low", "value", "high"])
def test_heat_capacity_follows_from_the_row(row, end):
    pores = 1.0 - row["dry-density"] / 2700.0
    worked_out = row["dry-density"] * 840.0 + row["saturation"][end] * pores * 4.18e6
    assert getattr(catalogue.ground(row["key"]).heat_capacity, end) == approx(worked_out, rel=0.005)


def heat_capacity_saturated(dry_density):
    return dry_density * 840.0 + (1.0 - dry_density / 2700.0) * 4.18e6


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["key"])
@pytest.mark.parametrize(("end", "denser"), [("low", -100.0), ("value", 0.0), ("high", 100.0)])
def test_below_water_every_pore_is_full(row, end, denser):
    conductivity, capacity = catalogue.ground(row["key"]).saturated
    dense = row["dry-density"] + denser
    assert getattr(conductivity, end) == approx(johansen(dense, 1.0, row["quartz"], row["fine"]), abs=0.005)
    dense = row["dry-density"] - denser
    assert getattr(capacity, end) == approx(heat_capacity_saturated(dense), abs=5e3)


SATURATED = {  # dry density and quartz of low, value and high, as grounds.toml says
    "clay-or-silt": {"low": (1400.0, 0.25), "value": (1550.0, 0.45), "high": (1650.0, 0.60)},
    "sand-or-gravel": {"low": (1600.0, 0.55), "value": (1750.0, 0.65), "high": (1900.0, 0.75)},
}


@pytest.mark.parametrize("key", SATURATED)
@pytest.mark.parametrize(("end", "other"), [("low", "high"), ("value", "value"), ("high", "low")])
def test_a_kind_of_ground_below_water_follows_from_what_its_row_says(key, end, other):
    conductivity, capacity = catalogue.ground(key).saturated
    assert getattr(conductivity, end) == approx(johansen(*_at(key, end)), abs=0.005)
    assert getattr(capacity, other) == approx(heat_capacity_saturated(SATURATED[key][end][0]), abs=5e3)


def _at(key, end):
    dense, quartz = SATURATED[key][end]
    return dense, 1.0, quartz, key == "clay-or-silt"


def test_no_ground_conducts_less_below_water_than_above_it():
    for ground in catalogue.grounds():
        if ground.saturated is not None:
            assert ground.saturated[0].value > ground.conductivity.value, ground.key
