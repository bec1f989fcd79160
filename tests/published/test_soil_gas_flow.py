"""Air through stone to a suction pit, up its pipe and through its fan: Ergun 1952, Darcy and Forchheimer, leaky layers.

The rows of data/soil_gas_flow.toml were worked out apart from our formulas; what a report or memory says is told so.
"""

import tomllib
from pathlib import Path

import numpy as np
import pytest

from ledger import between, held, told
from underpour.physics.soil_gas.closed import leaky_flow, leaky_suction, radial_fall, reach
from underpour.physics.soil_gas.fan import air_power, electric_power
from underpour.physics.soil_gas.hydraulics import Hydraulics, ergun, layer
from underpour.physics.soil_gas.pipe import Pipe, lost

ROWS = tomllib.loads((Path(__file__).parent / "data" / "soil_gas_flow.toml").read_text(encoding="utf-8"))
YEAR = 8760.0  # h


def hold(row, name, ours, what=""):
    printed = np.atleast_1d(row[name]["value"])
    for value, given in zip(np.atleast_1d(ours), printed, strict=True):
        tolerance = row[name]["rel_tol"] * abs(given)
        held(float(value), float(given), float(tolerance), row[name]["unit"], row["source"], row["seen"], what or name)


def given(row, name):
    return np.array(row[name]["value"]) if isinstance(row[name]["value"], list) else row[name]["value"]


@pytest.mark.parametrize("stone", ["ergun-19mm", "ergun-12mm"])
def test_stone_resists_air_as_ergun_s_equation_says(stone):
    row = ROWS[stone]
    permeability, inertia = ergun(given(row, "d_m"), given(row, "porosity"))
    hold(row, "k_m2", permeability)
    hold(row, "beta_per_m", inertia)
    a_metre = layer(permeability, inertia, 1.0, given(row, "rho"), given(row, "mu"))
    hold(row, "dpdx_Pa_m", a_metre.fall(given(row, "v_m_s")))


def test_fast_flow_to_a_pit_falls_as_the_integral_says():
    row = ROWS["radial-forchheimer"]
    args = (given(row, "H_m"), given(row, "rho"), given(row, "mu"))
    both = layer(given(row, "k_m2"), given(row, "beta_per_m"), *args)
    ends = given(row, "r1_m"), given(row, "r2_m")
    slow = radial_fall(given(row, "Q_m3_s"), Hydraulics(both.viscous, 0.0), *ends)
    whole = radial_fall(given(row, "Q_m3_s"), both, *ends)
    hold(row, "dp_viscous_Pa", slow)
    hold(row, "dp_inertial_Pa", whole - slow)
    hold(row, "dp_total_Pa", whole)


def test_suction_under_a_wide_leaky_slab_falls_as_bessel_s_functions():
    row = ROWS["pfe-leaky-infinite"]
    stone = layer(given(row, "k_m2"), 0.0, given(row, "H_m"), viscosity=given(row, "mu"))
    leakage, pit = given(row, "leak_m_s_Pa"), given(row, "r1_m")
    hold(row, "lambda_m", reach(stone, leakage))
    hold(row, "P_Pa", leaky_suction(given(row, "r_m"), given(row, "P1_Pa"), pit, reach(stone, leakage)))
    hold(row, "Q_m3_s", leaky_flow(given(row, "P1_Pa"), pit, stone, leakage))


def test_suction_under_a_round_leaky_slab_with_a_tight_rim_stays_higher():
    row = ROWS["pfe-leaky-finite"]
    stone = layer(given(row, "k_m2"), 0.0, given(row, "H_m"), viscosity=given(row, "mu"))
    length = reach(stone, given(row, "leak_m_s_Pa"))
    found = leaky_suction(given(row, "r_m"), given(row, "P1_Pa"), given(row, "r1_m"), length, given(row, "R_m"))
    hold(row, "P_Pa", found)


def test_a_vent_pipe_takes_of_the_suction_what_colebrook_s_friction_says():
    """Ours is Churchill's one equation for slow and fast flow, half a per cent below Colebrook's here."""
    row = ROWS["pvc-4in-100cfm"]
    pipe = Pipe(given(row, "D_m"), given(row, "L_m"), entry=False, outlet=False, roughness=given(row, "roughness_m"))
    found = lost(given(row, "Q_m3_s"), pipe, given(row, "rho"), given(row, "mu"))
    hold(row, "v_m_s", found.speed)
    hold(row, "Re", found.reynolds)
    hold(row, "f", found.friction)
    hold(row, "dp_Pa", found.whole)
    hold(row, "dp_inwc", found.whole / 249.0889)


def test_a_fan_takes_the_power_of_its_air_over_its_efficiency():
    row = ROWS["fan-air-power"]
    air = air_power(given(row, "Q_m3_s"), given(row, "dp_Pa"))
    power = electric_power(given(row, "Q_m3_s"), given(row, "dp_Pa"), given(row, "eta"))
    hold(row, "air_W", air)
    hold(row, "electric_W", power)
    hold(row, "kWh_per_year", power * YEAR / 1e3)


def test_flow_near_a_pit_is_fast_in_stone_and_slow_in_soil():
    """Told of 25 to 50 cfm at a pit; soil as coarse sand, which lets a thousandth of it through."""
    row = ROWS["gravel-flow-regime"]
    stone = layer(*ergun(0.019, 0.4), 0.1)
    sand = layer(*ergun(0.001, 0.4), 0.1)

    def regime(bed, flow):
        width = flow / (2.0 * np.pi * 0.15)
        return "turbulent" if bed.inertial * width > bed.viscous else "laminar"

    told(regime(stone, 0.0118), row["gravel"]["value"], row["source"], row["seen"], "25 cfm in stone")
    told(regime(sand, 0.0118e-3), row["soil"]["value"], row["source"], row["seen"], "a thousandth of it in sand")


def test_stone_of_a_usual_size_lies_in_the_told_band_of_permeability():
    """Clean stone of 19 mm; sphericity of broken stone 0.7 and 10 % of it finer than 5 mm at the low end (ours)."""
    row = ROWS["gravel-layer-typical"]
    low, high = row["k_low_m2"], row["k_high_m2"]
    for size, voids in ((0.019, 0.4), (0.0125, 0.38), (0.005, 0.38)):
        permeability, _ = ergun(size, voids, 0.7)
        between(permeability, low["value"], high["value"], 0.0, "m²", row["source"], row["seen"], f"{size * 1e3:g} mm")
