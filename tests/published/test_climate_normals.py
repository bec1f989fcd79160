"""Official station normals of 34 places against the grids.

Statistics Canada, catalogue 16-201-X (2007), table 1.6, normals of 1971 to 2000; Swedish Meteorological and
Hydrological Institute, normals of 1991 to 2020; US National Weather Service, January normals of 1991 to 2020 (quoted,
°F converted); Alaska Climate Research Center (quoted, °F converted). A source stands in each row of
data/climate_check_points.csv.

The record is one of 2000 to 2025 and known to run warm in winter; what is tested is that it is off by what the credits
say and no more: a place, a date line or a sign that is wrong shows as 10 K. The table: studies/air-against-stations.md.
"""

import csv
from pathlib import Path
from statistics import mean

import pytest

from ledger import between, held
from underpour.catalogue import places
from underpour.mistakes import Mistake

MONTH = {"jan": 0, "apr": 3, "jul": 6, "oct": 9}
LINES = (Path(__file__).parent / "data" / "climate_check_points.csv").read_text(encoding="utf-8").splitlines()
ROWS = list(csv.DictReader(line for line in LINES if not line.startswith("#")))
SOURCES = {
    "SC": ("Statistics Canada, catalogue 16-201-X (2007), table 1.6", "document"),
    "SMHI": ("Swedish Meteorological and Hydrological Institute, normals of 1991 to 2020", "document"),
    "NWS": ("US National Weather Service, January normals of 1991 to 2020, °F converted", "quoted"),
    "ACRC": ("Alaska Climate Research Center, monthly summaries of 2011 and 2012, °F converted", "quoted"),
}
CREDITS = "What the credits say of the grid; the stations' normals above"
COVERED = [row for row in ROWS if float(row["lat"]) < 72.0]
MINNESOTA = {"Minneapolis", "St. Cloud", "Rochester MN", "Duluth MN", "Brainerd MN"}


def differences(row):
    """Grid less station, for what the row gives. [K]"""
    months = places.at(float(row["lat"]), float(row["lon"]), float(row["elev_m"])).months
    ours = {name: months[n] for name, n in MONTH.items()} | {"ann": mean(months)}
    return {name: ours[name] - float(row[name]) for name in ours if row[name]}


@pytest.mark.parametrize("row", COVERED, ids=lambda row: row["place"])
def test_the_grid_is_off_by_no_more_than_is_said_of_it(row):
    """Said: up to +5 K in the winter of northern valleys. Our own bounds for the rest of the year, as seen once."""
    bounds = {"ann": (-1.2, 2.5), "jul": (-1.2, 2.0), "oct": (-1.2, 3.5)}
    for name, off in differences(row).items():
        printed, (low, high) = float(row[name]), bounds.get(name, (-1.2, 5.0))
        source, period = SOURCES[row["source"]], f"{name}, {row['period']}"
        digits = f"{printed:g}, {low:+g} to {high:+g}"
        between(printed + off, printed + low, printed + high, 0.0, "degC", *source, period, digits)


def test_january_in_minnesota_is_warm_by_0_9_k():
    off = [differences(row)["jan"] for row in COVERED if row["place"] in MINNESOTA]
    assert len(off) == 5
    held(mean(off), 0.9, 0.05, "K", CREDITS, "derived")


def test_january_in_canada_is_warm_by_2_8_k():
    off = [differences(row)["jan"] for row in COVERED if row["country"] == "CA"]
    assert len(off) == 20
    held(mean(off), 2.8, 0.05, "K", CREDITS, "derived")


def test_a_place_north_of_the_grid_is_refused():
    resolute = next(row for row in ROWS if row["place"] == "Resolute")
    with pytest.raises(Mistake, match="covers land from 56 S to 72 N"):
        places.at(float(resolute["lat"]), float(resolute["lon"]))
