"""Slabs on springs: Westergaard, Wyman, Hetenyi, Meyerhof, and what manuals of the United States print.

Huang, Pavement analysis and design, examples 4.1 to 4.3 (printed answers from memory); Boresi and Schmidt, Advanced
mechanics of materials, example 10.1; UFC 3-320-06A (TM 5-809-12), tables 3-1 and 3-2; Ioannides, Thompson and Barenberg
1985; Abramowitz and Stegun, table 9.12. data/slabs_on_springs.toml says of each how it was seen.
"""

import tomllib
from collections.abc import Callable
from math import pi
from pathlib import Path

import pytest
from scipy.special import kei, keip, ker, kerp

from ledger import held_row
from underpour.physics.plates import beams, concrete, patches, spread, springs, westergaard

CASES = tomllib.loads((Path(__file__).parent / "data" / "slabs_on_springs.toml").read_text(encoding="utf-8"))
POUND_FORCE, INCH = 4.4482216152605, 0.0254


def relative(given, modulus="E_psi", thickness="h_in", foundation="k_pci"):
    stiffness = springs.plate_stiffness(given[modulus], given[thickness], given["nu"])
    return springs.radius_of_relative_stiffness(stiffness, given[foundation])


def round_load(given):
    return given["P_lb"], given["a_in"], given["h_in"]


def relative_radius(given, n):
    return {"l_in": relative(given)}


def in_the_middle(given, n):
    felt = westergaard.interior(*round_load(given), given["nu"], relative(given), given["k_pci"])
    even = westergaard.even_radius(given["a_in"], given["h_in"])
    return {"b_in": even, "stress_psi": felt.stress, "deflection_in": felt.settlement}


def at_the_corner(given, n):
    felt = westergaard.corner(*round_load(given), relative(given), given["k_pci"])
    return {"stress_psi": felt.stress, "deflection_in": felt.settlement}


def at_the_corner_by_the_fit(given, n):
    felt = westergaard.corner_1985(*round_load(given), relative(given), given["k_pci"])
    return {"c_in": 1.772 * given["a_in"], "stress_psi": felt.stress, "deflection_in": felt.settlement}


def at_the_edge(given, n):
    felt = westergaard.edge(*round_load(given), given["nu"], given["E_psi"], relative(given), given["k_pci"])
    return {"stress_psi": felt.stress, "deflection_in": felt.settlement}


def layers(given, n):
    foam = springs.layer_modulus(given["E_foam_Pa"], given["t_foam_m"])
    return {"k_foam_N_m3": foam, "k_combined_N_m3": springs.in_series(foam, given["k_soil_N_m3"])}


def pounds_by_cubic_inch(given, n):
    return {"k_MPa_m": given["k_pci"][n] * POUND_FORCE / INCH**3 / 1e6}


def kelvin(given, n):
    x = given["x"][n]
    return {"kei": kei(x), "ker": ker(x), "keip": keip(x), "kerp": kerp(x)}


def exact_patch(given, n):
    load, contact, thickness = round_load(given)
    pressure = load / (pi * contact**2)
    down, moment = patches.circle(pressure, contact, relative(given), given["k_pci"], given["nu"])
    return {"w0_in": down, "M0_lb_in_per_in": moment, "stress_thin_plate_psi": 6.0 * moment / thickness**2}


def rack_post(given, n):
    both = layers(given, n)["k_combined_N_m3"]
    stiffness = springs.plate_stiffness(given["E_c_Pa"], given["h_m"], given["nu"])
    radius = springs.radius_of_relative_stiffness(stiffness, both)
    pressure = given["P_N"] / (pi * given["equiv_radius_m"] ** 2)
    down, moment = patches.circle(pressure, given["equiv_radius_m"], radius, both, given["nu"])
    return {
        "k_combined_N_m3": both,
        "l_m": radius,
        "w0_m": down,
        "foam_pressure_Pa": both * down,
        "foam_strain": both * down / given["E_foam_Pa"],
        "M0_Nm_per_m": moment,
        "stress_Pa": 6.0 * moment / given["h_m"] ** 2,
    }


def even_load(given, n):
    pressure = spread.straight_through(given["q_Pa"], (given["slab_m"], given["rho_c"]))
    foam = springs.layer_modulus(given["E_foam_Pa"], given["t_foam_m"])
    return {"pressure_Pa": pressure, "foam_shortening_m": pressure / foam}


def rail(given, places):
    beta = beams.decay(given["k_N_mm2"], given["E_MPa"] * given["I_mm4"])
    down = max(sum(beams.settlement(given["P_N"], given["k_N_mm2"], beta, abs(x - z)) for z in places) for x in places)
    moment = max(sum(beams.moment(given["P_N"], beta, abs(x - z)) for z in places) for x in places)
    stress = moment * given["c_mm"] / given["I_mm4"]
    return {"beta_per_mm": beta, "y_max_mm": down, "M_max_kNm": moment / 1e6, "sigma_MPa": stress}


def one_wheel(given, n):
    return rail(given, [0.0])


def three_wheels(given, n):
    return rail(given, [-given["spacing_mm"], 0.0, given["spacing_mm"]])


def stationary(given, n):
    stress = given["flexural_strength_psi"][n] / given["safety_factor"]
    return {"w_psf": 144.0 * beams.stationary(stress, given["k_pci"], given["h_in"], given["E_psi"])}


def line_of_a_wall(given, n, thickness="t_e_in", moment: Callable = lambda beta: beams.moment(1.0, beta, 0.0)):
    """An endless beam one inch wide; the manual's E of 57,000 √f'c and tension of 1.6 √f'c, √f'c from the rupture."""
    strength = given["flexural_strength_psi"]
    root = (strength[n] if isinstance(strength, list) else strength) / 9.0
    inertia = given[thickness] ** 3 / 12.0
    beta = beams.decay(given["k_pci"], 57000.0 * root * inertia)
    allowed = 1.6 * root * 2.0 * inertia / given[thickness]
    return {"P_lb_per_ft": 12.0 * allowed / moment(beta)}


def wall(given, n):
    return line_of_a_wall(given, n)


def wall_at_an_edge(given, n):
    at_edge = line_of_a_wall(given, n, "t_in", lambda beta: -beams.moment_near_end(1.0, beta))
    inner = line_of_a_wall(given, n, "t_in")["P_lb_per_ft"]
    return {**at_edge, "ratio_to_interior": at_edge["P_lb_per_ft"] / inner}


def of_concrete(given, n):
    strength = given["fc_psi"][n]
    return {
        "fr_aci_psi": concrete.rupture_aci(strength * PSI) / PSI,
        "flexural_ufc_psi": concrete.rupture_ufc(strength * PSI) / PSI,
        "E_psi": concrete.elasticity_aci(strength * PSI) / PSI,
    }


def broken(given, n):
    found = concrete.ultimate(given["Mp_kNm_m"], given["Mn_kNm_m"], given["a_over_l"])
    return dict(zip(("P_internal_kN", "P_edge_kN", "P_corner_kN"), found, strict=True))


PSI = POUND_FORCE / INCH**2
WORKED = {
    "radius-relative-stiffness-us": relative_radius,
    "westergaard-interior": in_the_middle,
    "westergaard-corner": at_the_corner,
    "ioannides-corner": at_the_corner_by_the_fit,
    "westergaard-edge-circle": at_the_edge,
    "springs-in-series": layers,
    "k-unit": pounds_by_cubic_inch,
    "kelvin-functions": kelvin,
    "plate-patch-exact": exact_patch,
    "rack-post-on-foam": rack_post,
    "udl-on-foam": even_load,
    "hetenyi-rail-one-wheel": one_wheel,
    "hetenyi-rail-three-wheels": three_wheels,
    **{f"ufc-stationary-live-load-{inches}in": stationary for inches in (6, 8, 10, 12)},
    **{f"ufc-wall-load-{inches}in": wall for inches in (4, 6, 8, 10)},
    "ufc-wall-load-edge": wall_at_an_edge,
    "mor-aci": of_concrete,
    "meyerhof-ultimate": broken,
}
ROWS = [(name, case, row) for name, case in CASES.items() for row in case["rows"]]


def named(value):
    return f"{value['of']} {value.get('n', '')}".strip() if isinstance(value, dict) and "of" in value else value


@pytest.mark.parametrize(
    ("name", "case", "row"), [pytest.param(*each, id=f"{each[0]}, {named(each[2])}") for each in ROWS]
)
def test_a_slab_on_springs_gives_what_the_source_gives(name, case, row):
    ours = WORKED[name](case["given"], row.get("n", 0))[row["of"]]
    held_row(row, float(ours), case["source"], f"{name}, {named(row)}")


def test_every_part_of_the_table_is_worked_out():
    assert CASES.keys() == WORKED.keys()
