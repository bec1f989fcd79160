"""ISO 10456:2007, Tables 3 and 4; ISO 13370:2017, ground; ISO 6946:2017 and ISO 13788:2012, surface resistances.

From memory, but for the conductivities of clay, sand, rock and softwood, which were seen quoted in public pages. Every
row of data/thermal_properties.toml says which.
"""

import tomllib
from math import pi, sqrt
from pathlib import Path

import pytest

from ledger import held
from underpour import catalogue
from underpour.catalogue.in_place import with_water
from underpour.catalogue.read import table

ROWS = tomllib.loads((Path(__file__).parent / "data" / "thermal_properties.toml").read_text(encoding="utf-8"))["row"]
TABLES = {
    "material": "ISO 10456:2007, Table 3",
    "foam": "ISO 10456:2007, Table 4",
    "ground": "ISO 13370:2017, ground",
    "surface": "ISO 6946:2017 and ISO 13788:2012, surface resistances",
}


def kept(of, name):
    kind, _, key = of.partition(" ")
    if kind == "surface":
        return catalogue.surface(key).value
    if kind == "foam":
        return table("foams")[key][name]["value"]
    if key == "unknown":
        record = catalogue.default_ground()
    else:
        record = (catalogue.material if kind == "material" else catalogue.ground)(key)
    if name == "depth-of-penetration":  # of the year's wave
        year = 365.25 * 86400.0
        return sqrt(year * record.conductivity.value / (pi * record.heat_capacity.value))
    return {"conductivity": record.conductivity, "heat-capacity": record.heat_capacity}[name].value


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['of']} {row['property']}")
def test_the_catalogue_holds_what_is_printed(row):
    ours = kept(row["of"], row["property"])
    held(ours, row["value"], row["tolerance"], row["unit"], TABLES[row["of"].partition(" ")[0]], row["seen"])


@pytest.mark.parametrize(("material", "water", "factor"), [("EPS", 0.05, 1.2214), ("XPS", 0.02, 1.0513)])
def test_water_raises_conductivity_as_iso_10456_says(material, water, factor):
    """ISO 10456:2007, 7.3, with f of Table 4: EPS at 5 % by volume, XPS at 2 %. Derived, to the last digit."""
    ours = with_water(1.0, water, table("foams")[material]["water"]["value"])
    held(ours, factor, 0.00005, "1", "ISO 10456:2007, 7.3 and Table 4", "derived")
