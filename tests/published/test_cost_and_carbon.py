"""Life-cycle cost by NIST Handbook 135 and ASTM E917, fuels by 40 CFR 98, and what making takes.

Factors from memory and reproduced by a second set of numbers; tables quoted; worked cases derived from the source's own
formulas apart from ours. data/cost_carbon.toml says of each how it was seen. What XPS takes is doubtful and not held.
"""

import tomllib
from pathlib import Path

import pytest

from ledger import between, held_row
from underpour import economy
from underpour.brief import reads
from underpour.catalogue.embodied import embodied_concrete, embodied_of
from underpour.catalogue.fuels import fuel
from underpour.resolve import resolve

ROWS = tomllib.loads((Path(__file__).parent / "data" / "cost_carbon.toml").read_text(encoding="utf-8"))
HANDBOOK = "NIST Handbook 135 and its annual supplement"
RULE = "40 CFR part 98, Table C-1 (December 2016)"
MMBTU = 1055055852.62 / 3.6e6  # kWh
BRIEF = """
[project]
use = "dwelling"
[site]
place = "Duluth, MN"
[plan]
unit = "m"
outline = ["0 0", "12 0", "12 8", "0 8"]
[floor]
build-up = [{ concrete = "4 in" }, { board = "plain-15", thickness = "2 in" }]
[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"
[money]
currency = "USD"
date = "2026-11-01"
fuel = "%s"
fuel-price = "%s"
efficiency = %s
"""


def of(row):
    return str(row.get("of", row.get("years", row.get("growth", row.get("discount", row["value"])))))


def prices(kind, price, efficiency):
    typed = f'"{efficiency}"' if isinstance(efficiency, str) else efficiency
    reading = reads(BRIEF % (kind, price, typed))
    return resolve(reading.brief, products=reading.products).money


@pytest.mark.parametrize("row", ROWS["upv"], ids=of)
def test_the_worth_of_many_years_is_what_the_handbook_prints(row):
    held_row(row, economy.present_worth_of_years(0.03, row["years"]), HANDBOOK)


@pytest.mark.parametrize("row", ROWS["spv"], ids=of)
def test_the_worth_of_one_payment_is_what_the_handbook_prints(row):
    held_row(row, economy.present_worth(0.03, row["years"]), HANDBOOK)


@pytest.mark.parametrize("row", ROWS["present-values"], ids=of)
def test_the_worth_of_one_payment_is_what_common_tables_print(row):
    held_row(row, economy.present_worth(row["discount"], 10), "common tables of present values")


@pytest.mark.parametrize("row", ROWS["growing"], ids=of)
def test_the_worth_of_growing_years_is_astm_e917s(row):
    held_row(row, economy.present_worth_of_years_growing(0.03, row["growth"], 25), "ASTM E917, modified UPV")


@pytest.mark.parametrize("row", ROWS["foam"], ids=of)
def test_more_for_foam_is_won_back_as_the_handbook_has_it(row):
    saved = 210.0 * economy.present_worth_of_years(0.03, 25)
    ratio = economy.saving_to_investment(saved, 2400.0)
    ours = {
        "saved": saved,
        "net saving": economy.net_saving(saved, 2400.0),
        "saving to investment": ratio,
        "payback": economy.payback(2400.0, 210.0),
        "adjusted return": 100.0 * economy.adjusted_return(ratio, 0.03, 25),
        "discounted payback": economy.discounted_payback(2400.0, 210.0, 0.03, 0.0),
    }
    held_row(row, ours[row["of"]], HANDBOOK)


@pytest.mark.parametrize("row", ROWS["heat"], ids=lambda row: f"{row['fuel']} {row['efficiency']}")
def test_heat_costs_what_first_principles_say(row):
    """The whole way from the typed price of a brief, for 3840 kWh of heat."""
    ours = 3840.0 * prices(row["fuel"], row["price"], row["efficiency"]).heat_price
    held_row(row, ours, "first principles")


@pytest.mark.parametrize("row", ROWS["carbon-payback"], ids=of)
def test_foam_wins_its_carbon_back_as_first_principles_say(row):
    """Foam of 20 kg/m³ at 3.29 kg/kg is the 65.8 kg/m³ of the case; the fuel's figure is the catalogue's, to 0.03 %."""
    made = 11.0 * 20.0 * embodied_of("EPS").by_mass.value
    saved = 3840.0 * prices("natural-gas", "1.40 USD/therm", "92 %").heat_carbon
    ours = {"embodied": made, "saved": saved, "payback": economy.payback(made, saved)}
    held_row(row, ours[row["of"]], "first principles")


@pytest.mark.parametrize("row", ROWS["fuels"], ids=lambda row: f"{row['fuel']} {row['of']}")
def test_fuels_hold_what_the_rule_on_reporting_prints(row):
    of_fuel = fuel(row["fuel"])
    if row["of"] == "heat":  # a price of 1 by volume over the price by heat that the brief makes of it
        ours = 1.0 / prices(row["fuel"], row["price"], "100 %").heat_price / MMBTU
    else:
        ours = of_fuel.carbon.value * (MMBTU if row["of"] == "carbon" else 1.0)
    held_row(row, ours, RULE)


def test_concrete_of_4000_psi_takes_what_its_makers_association_prints():
    ours = embodied_concrete(27.58).by_volume.value
    held_row(ROWS["concrete"][0], ours, "NRMCA cradle-to-gate assessment 3.2 (2021)")
    held_row(ROWS["concrete-by-yard"][0], ours * 0.764554857984, "NRMCA cradle-to-gate assessment 3.2 (2021)")


def test_moulded_foam_takes_what_the_inventory_prints():
    held_row(ROWS["foam-kinds"][0], embodied_of("EPS").by_mass.value, "Inventory of Carbon and Energy 2.0 (2011)")


def test_concrete_in_general_lies_within_the_range_told_for_usual_strengths():
    """0.13 kg of CO2 a kilogram, 2400 kg/m³: CO2 alone and any strength, so only our range is held to it."""
    row = ROWS["concrete-in-general"][0]
    of_all = [embodied_concrete(each).by_volume for each in (17.0, 20.0, 27.0)]
    low, high = min(each.low for each in of_all) / 2400.0, max(each.high for each in of_all) / 2400.0
    assert low <= row["value"] <= high
    between(row["value"], low, high, 0.0, row["unit"], "Scientific Reports 2024, table 2", row["seen"])


def test_two_kinds_of_extruded_foam_are_never_one_figure():
    """Doubtful, so not held: what is known is that one is tens of times the other, and that none is taken unasked."""
    assert ROWS["blown"][0]["doubtful"]
    low_gwp, hfc = embodied_of("XPS, low-GWP gas").by_mass, embodied_of("XPS, HFC-134a").by_mass
    assert embodied_of("XPS") is None
    assert hfc.low > low_gwp.high
