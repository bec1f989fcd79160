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

from underpour.catalogue import places, zones
from underpour.catalogue.gazetteer import entries
from underpour.catalogue.read import table

ROWS = tomllib.loads((Path(__file__).parent / "data" / "climate_zones.toml").read_text(encoding="utf-8"))
TOWNS = ROWS["town"]


@pytest.mark.parametrize("row", ROWS["county"], ids=lambda row: f"{row['county']}, {row['state']}")
def test_a_zip_of_the_county_has_the_zone_that_the_table_gives_the_county(row):
    assert zones.us_by_zip(row["zip"]).zone == row["zone"]


@pytest.mark.parametrize("row", ROWS["county"], ids=lambda row: f"{row['county']}, {row['state']}")
def test_at_the_middle_of_that_area_the_same_zone_is_told_or_named_among_those_that_it_may_be(row):
    area = zones.zip_area(row["zip"])
    found = zones.us(area.latitude, area.longitude)
    assert row["zone"] in ((found.zone,) if found.zone else found.disagreeing)
    assert found.distance < 2000.0


def test_each_zone_of_the_map_is_among_the_counties():
    assert {row["zone"] for row in ROWS["county"]} == {
        *("1A", "2A", "2B", "3A", "3B", "3C", "4A", "4B", "4C", "5A", "5B", "6A", "6B", "7", "8"),
    }


@pytest.mark.parametrize("town", TOWNS, ids=lambda town: town["town"])
def test_a_count_of_the_canadian_table_falls_into_its_zone(town):
    assert zones.canada(float(town["degree-days"])).zone == town["zone"]


LISTED = [town for town in TOWNS if town["place"]]


@pytest.mark.parametrize("town", LISTED, ids=lambda town: town["town"])
def test_a_canadian_town_is_told_its_zone_or_that_it_may_be_it_and_its_count_lies_where_it_is_said_to(town):
    place = places.find(town["place"])
    found = zones.canada_at(place.latitude, place.longitude, place.months)
    low, high = found.degree_days
    assert low <= town["degree-days"] <= high
    assert town["zone"] in ((found.zone,) if found.zone else found.disagreeing)


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
    assert zones.counted(months) == approx(counted, abs=25.0)


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
    assert mean(found) == approx(said["value"], abs=1.0)
    assert (said["high"] - said["low"]) / 4.0 == approx(stdev(found), abs=2.0)
    assert sum(said["low"] <= off <= said["high"] for off in found) >= 0.95 * len(found)


def test_rough_ground_is_said_to_be_off_by_as_much_as_any_station_shows():
    said = table("climate/zones")["rough-doubt"]
    off = [count - zones.counted(places.at(*at).months) for at, count in zones.stations()]
    assert len(off) == 116
    assert said["low"] < min(off) < said["low"] + 50.0
    assert said["high"] - 50.0 < max(off) < said["high"]
