"""ISO 13788:2012, clause 6, on layers: vapour's way through them, Glaser's construction; classes of retarders.

The rows of data/moisture.toml that are derived were worked out apart from the formulas that public pages quote (still
air lets 2e-10 kg/(m·s·Pa) through). Classes: IRC 2021, Table R702.7(1), quoted by the US Department of Energy's
building pages. Canada: NBC 9.25.4, quoted.
"""

import tomllib
from pathlib import Path

import pytest

from ledger import held
from underpour.measure import permeance
from underpour.physics.moisture.air import saturation_pressure, saturation_temperature
from underpour.physics.moisture.vapour import equivalent_air, flow

TABLES = tomllib.loads((Path(__file__).parent / "data" / "moisture.toml").read_text(encoding="utf-8"))
CLAUSE = "ISO 13788:2012, clause 6"
A_DAY = 86400.0 * 1e3  # kg/s as g/d


@pytest.mark.parametrize("row", TABLES["retarder-class"], ids=lambda row: row["class"])
def test_a_class_of_retarders_ends_at_the_listed_permeance(row):
    ng = permeance(f"{row['perm']} perm").si
    held(ng, row["ng"], 0.001 * row["ng"], "ng/(Pa·s·m²)", "IRC 2021, Table R702.7(1)", row["seen"])


def test_the_canadian_limit_is_a_little_over_a_perm():
    row = TABLES["canada"]
    perm = row["ng"] / permeance("1 perm").si
    held(perm, row["perm"], 0.001 * row["perm"], "perm", "NBC 2020, 9.25.4", row["seen"])


@pytest.mark.parametrize("row", TABLES["equivalent-air"], ids=lambda row: row["what"])
def test_a_layer_is_as_much_still_air_as_listed(row):
    held(equivalent_air(row["permeance"] * 1e-12), row["air"], 0.001 * row["air"], "m", CLAUSE, row["seen"])


def test_the_wall_condenses_where_foam_meets_concrete():
    row = TABLES["wall"]
    found = flow(
        row["air"],
        row["saturated"],
        saturation_pressure(row["room"][0]) * row["room"][1],
        saturation_pressure(row["beyond"][0]) * row["beyond"][1],
    )
    assert [n for n, rate in enumerate(found.gained) if rate > 0.0] == [row["condensing"]]
    held(found.into, row["into"], 0.002 * row["into"], "kg/(m²·s)", CLAUSE, row["seen"])
    held(found.into - found.gained[2], row["out"], 0.002 * row["out"], "kg/(m²·s)", CLAUSE, row["seen"])
    grams = found.gained[2] * A_DAY
    held(grams, row["grams-a-day"], 0.002 * row["grams-a-day"], "g/(m²·d)", CLAUSE, row["seen"])


@pytest.mark.parametrize(("film", "key"), [(True, "upward-grams-a-day"), (False, "without-film")])
def test_the_slab_lets_up_what_is_listed(film, key):
    row = TABLES["slab"]
    depths = [0.0, row["concrete"][0] * row["concrete"][1]]
    depths += [depths[-1] + row["film"]] if film else []
    depths.append(depths[-1] + row["foam"][0] * row["foam"][1])
    ground = saturation_pressure(row["ground"])
    room = saturation_pressure(row["room"][0]) * row["room"][1]
    upward = -flow(depths, [1e6] * (len(depths) - 1) + [ground], room, ground).into * A_DAY
    held(upward, row[key], 0.005 * row[key], "g/(m²·d)", CLAUSE, row["seen"])


def test_the_temperatures_of_the_wall_belong_to_its_pressures():
    row = TABLES["wall"]
    for degrees, level in zip(row["temperatures"], row["saturated"], strict=True):
        held(saturation_temperature(level), degrees, 0.01, "degC", CLAUSE, row["seen"])
