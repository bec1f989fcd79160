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
from pytest import approx

from underpour.catalogue import places
from underpour.mistakes import Mistake

MONTH = {"jan": 0, "apr": 3, "jul": 6, "oct": 9}
LINES = (Path(__file__).parent / "data" / "climate_check_points.csv").read_text(encoding="utf-8").splitlines()
ROWS = list(csv.DictReader(line for line in LINES if not line.startswith("#")))
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
    found = differences(row)
    assert all(-1.2 < off < 5.0 for off in found.values())
    assert abs(found.get("ann", 0.0)) < 2.5
    assert abs(found.get("jul", 0.0)) < 2.0
    assert abs(found.get("oct", 0.0)) < 3.5


def test_january_in_minnesota_is_warm_by_0_9_k():
    off = [differences(row)["jan"] for row in COVERED if row["place"] in MINNESOTA]
    assert len(off) == 5
    assert mean(off) == approx(0.9, abs=0.05)


def test_january_in_canada_is_warm_by_2_8_k():
    off = [differences(row)["jan"] for row in COVERED if row["country"] == "CA"]
    assert len(off) == 20
    assert mean(off) == approx(2.8, abs=0.05)


def test_a_place_north_of_the_grid_is_refused():
    resolute = next(row for row in ROWS if row["place"] == "Resolute")
    with pytest.raises(Mistake, match="covers land from 56 S to 72 N"):
        places.at(float(resolute["lat"]), float(resolute["lon"]))
