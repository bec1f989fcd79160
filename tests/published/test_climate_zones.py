"""Published climate zones against the zone that is looked up.

United States: table of climate zones by county, energy code, editions of 2009 to 2018, as the US Department of Energy's
list of counties has it (Building America, guide to determining climate regions by county; quoted by a public package,
and each row here the same from memory). Canada: National Building Code, Table C-2, degree-days below 18 °C, and the
limits of 9.36.2 (how each row was seen stands beside it in data/climate_zones.toml). Environment and Climate Change
Canada, normals of 1981 to 2010 (quoted). Typical years TMY3 of the National Renewable Energy Laboratory.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from statistics import mean, stdev

import numpy as np
import pytest
from pytest import approx
from tests import weather_files
from tests.weather_files import FILES, GOLDEN, SAND_POINT

from ledger import between, held, told
from underpour.catalogue import places, zones
from underpour.catalogue.gazetteer import entries
from underpour.catalogue.read import table

ROWS = tomllib.loads((Path(__file__).parent / "data" / "climate_zones.toml").read_text(encoding="utf-8"))
TOWNS = ROWS["town"]
COUNTIES = "US energy code, table of climate zones by county, editions of 2009 to 2018"
TABLE_C_2 = "National Building Code of Canada, Table C-2 and 9.36.2"
STATIONS = "Environment and Climate Change Canada, normals of 1981 to 2010, against what the tool says of its doubt"


def among(found, zone):
    """The zone that is told, or the printed one where it is named among those that it may be."""
    return found.zone or next((each for each in found.disagreeing if each == zone), " or ".join(found.disagreeing))


@pytest.mark.parametrize("row", ROWS["county"], ids=lambda row: f"{row['county']}, {row['state']}")
def test_a_zip_of_the_county_has_the_zone_that_the_table_gives_the_county(row):
    told(zones.us_by_zip(row["zip"]).zone, row["zone"], COUNTIES, row["seen"], f"ZIP {row['zip']}")


@pytest.mark.parametrize("row", ROWS["county"], ids=lambda row: f"{row['county']}, {row['state']}")
def test_at_the_middle_of_that_area_the_same_zone_is_told_or_named_among_those_that_it_may_be(row):
    area = zones.zip_area(row["zip"])
    found = zones.us(area.latitude, area.longitude)
    told(among(found, row["zone"]), row["zone"], COUNTIES, row["seen"])
    assert found.distance < 2000.0


def test_each_zone_of_the_map_is_among_the_counties():
    assert {row["zone"] for row in ROWS["county"]} == {
        *("1A", "2A", "2B", "3A", "3B", "3C", "4A", "4B", "4C", "5A", "5B", "6A", "6B", "7", "8"),
    }


@pytest.mark.parametrize("town", TOWNS, ids=lambda town: town["town"])
def test_a_count_of_the_canadian_table_falls_into_its_zone(town):
    count = float(town["degree-days"])
    told(zones.canada(count).zone, town["zone"], TABLE_C_2, town["seen"], f"{count:g} degree-days")


LISTED = [town for town in TOWNS if town["place"]]


@pytest.mark.parametrize("town", LISTED, ids=lambda town: town["town"])
def test_a_canadian_town_is_told_its_zone_or_that_it_may_be_it_and_its_count_lies_where_it_is_said_to(town):
    place = places.find(town["place"])
    found = zones.canada_at(place.latitude, place.longitude, place.months)
    low, high = found.degree_days
    count = float(town["degree-days"])
    held((low + high) / 2.0, count, (high - low) / 2.0, "degC·d", TABLE_C_2, town["seen"], "middle of what may be")
    told(among(found, town["zone"]), town["zone"], TABLE_C_2, town["seen"], "zone")


def test_twelve_of_those_towns_are_told_outright():
    told = [
        zones.canada_at(p.latitude, p.longitude, p.months).zone for p in map(places.find, (t["place"] for t in LISTED))
    ]
    assert sum(map(bool, told)) >= 12


@pytest.mark.parametrize("station", [GOLDEN, SAND_POINT], ids=["Golden", "Sand Point"])
def test_degree_days_from_the_months_are_those_of_the_daily_means_of_a_typical_year_within_25(station):
    """Counted here from the hours as they are stored; 365 days there, 365.25 in the count."""
    month, temperature = np.loadtxt(weather_files.DATA / FILES[station], delimiter=",", skiprows=2, usecols=(0, 2)).T
    daily = temperature.reshape(365, 24).mean(axis=1)
    counted = np.maximum(0.0, 18.0 - daily).sum()
    months = [temperature[month == n].mean() for n in range(1, 13)]
    year = "Typical year TMY3, National Renewable Energy Laboratory, daily means counted"
    held(zones.counted(months), counted, 25.0, "degC·d", year, "document")


def beside_a_station():
    """Degree-days of stations less those of the listed place within 12 km of it."""
    towns = [entry for entry in entries() if entry.country == "CA"]
    for at, count in zones.stations():
        away, town = min(((zones.apart(at, (e.latitude, e.longitude)), e) for e in towns), key=lambda each: each[0])
        if away < 12000.0:
            yield count - zones.counted(town.months)


def test_the_record_counts_fewer_degree_days_than_the_stations_by_what_is_said():
    said, found = table("climate/zones")["grid-doubt"], list(beside_a_station())
    assert len(found) == 60
    held(mean(found), said["value"], 1.0, "degC·d", STATIONS, "quoted")
    assert (said["high"] - said["low"]) / 4.0 == approx(stdev(found), abs=2.0)
    assert sum(said["low"] <= off <= said["high"] for off in found) >= 0.95 * len(found)


def test_rough_ground_is_said_to_be_off_by_as_much_as_any_station_shows():
    said = table("climate/zones")["rough-doubt"]
    off = [count - zones.counted(places.at(*at).months) for at, count in zones.stations()]
    assert len(off) == 116
    between(min(off), said["low"], said["low"] + 50.0, 0.0, "degC·d", STATIONS, "quoted", "least")
    between(max(off), said["high"] - 50.0, said["high"], 0.0, "degC·d", STATIONS, "quoted", "most")
