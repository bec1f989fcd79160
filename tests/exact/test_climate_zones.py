"""Zones are those of the nearest area, up to the distances that are said; degree-days agree with another sum."""

from __future__ import annotations

import subprocess
import sys
import time
from collections import Counter
from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pytest import approx

from underpour.catalogue import zones
from underpour.catalogue.read import table
from underpour.catalogue.year import degree_days
from underpour.mistakes import Mistake

AREAS = zones.areas()


def unit(latitude, longitude):
    """Points of the unit sphere."""
    north, east = np.radians(latitude), np.radians(longitude)
    return np.stack([np.cos(north) * np.cos(east), np.cos(north) * np.sin(east), np.sin(north)], axis=-1)


ON_THE_SPHERE = unit(AREAS.latitudes, AREAS.longitudes)


@settings(max_examples=200, deadline=None)
@given(st.floats(24.0, 49.0), st.floats(-124.0, -67.0))
def test_the_nearest_area_is_nearest_by_the_chord_through_the_earth_too(latitude, longitude):
    chords = np.linalg.norm(ON_THE_SPHERE - unit(latitude, longitude), axis=1)
    found = zones.us(latitude, longitude)
    assert found.distance == approx(2.0 * zones.EARTH * np.arcsin(chords.min() / 2.0), rel=1e-6, abs=0.5)
    within = 2.0 * zones.EARTH * np.arcsin(chords / 2.0) <= 15000.0
    around = {str(zone) for zone in AREAS.zones[within]} | {zones.zip_area(found.zip).zone}
    differ = any(not zones.alike(zone, zones.zip_area(found.zip).zone) for zone in around)
    assert (found.zone == "") == differ


@given(st.floats(-80.0, 80.0), st.floats(-180.0, 180.0), st.floats(-80.0, 80.0), st.floats(-180.0, 180.0))
def test_distances_are_those_of_the_chord_and_the_same_both_ways(north, east, other_north, other_east):
    chord = np.linalg.norm(unit(north, east) - unit(other_north, other_east))
    away = zones.apart((north, east), (other_north, other_east))
    assert away == approx(2.0 * zones.EARTH * np.arcsin(min(1.0, chord / 2.0)), rel=1e-4, abs=1.0)
    assert away == approx(zones.apart((other_north, other_east), (north, east)), abs=0.1)


@pytest.mark.parametrize("zip_, other", [("46204", "4A"), ("55401", "7"), ("78701", "3A"), ("80202", "6B")])
def test_areas_disagree_up_to_15_km_and_not_beyond(zip_, other):
    """From an area whose neighbours agree, straight towards the nearest area of another zone, until it is not told."""
    start = zones.zip_area(zip_)
    there = np.flatnonzero(AREAS.zones == other)
    away = [zones.apart((start.latitude, start.longitude), (AREAS.latitudes[n], AREAS.longitudes[n])) for n in there]
    goal = AREAS[int(there[int(np.argmin(away))])]

    def on_the_way(share):
        return (
            start.latitude + share * (goal.latitude - start.latitude),
            start.longitude + share * (goal.longitude - start.longitude),
        )

    shares = np.linspace(0.0, 1.0, 400)
    untold = next(share for share in shares if zones.us(*on_the_way(share)).zone == "")
    told = untold - shares[1]
    for _ in range(30):
        middle = (told + untold) / 2.0
        told, untold = (middle, untold) if zones.us(*on_the_way(middle)).zone else (told, middle)
    here, found = on_the_way(untold), zones.us(*on_the_way(untold))
    own = zones.zip_area(found.zip).zone
    others = np.flatnonzero([not zones.alike(str(zone), own) for zone in AREAS.zones])
    least = min(zones.apart(here, (AREAS.latitudes[n], AREAS.longitudes[n])) for n in others)
    assert least == approx(15000.0, abs=1.0)


def test_the_zip_settles_what_its_neighbours_leave_open():
    open_, typed = zones.us(37.80, -122.27), zones.us_by_zip("94612")  # Oakland, between marine and dry
    assert (open_.zone, set(open_.disagreeing)) == ("", {"3B", "3C"})
    assert (typed.zone, typed.disagreeing) == ("3C", ("3B",))


@pytest.mark.parametrize("begin", table("climate/zones")["begins"])
def test_a_canadian_zone_begins_at_its_count_and_is_not_told_across_it(begin):
    names = table("climate/zones")["names"]["CA"]
    count = table("climate/zones")["begins"][begin]["value"]
    below = names[names.index(begin) - 1]
    assert (zones.canada(count).zone, zones.canada(count - 0.1).zone) == (begin, below)
    assert zones.canada((count - 1.0, count + 1.0)).disagreeing == (below, begin)
    assert zones.canada((count, count + 999.0)).zone == begin


def test_a_count_that_spans_three_zones_names_all_three():
    assert zones.canada((3900.0, 5100.0)).disagreeing == ("5", "6", "7A")


@given(st.lists(st.floats(-35.0, 35.0), min_size=12, max_size=12), st.floats(0.5, 8.0))
def test_degree_days_agree_with_the_sum_over_slices_of_the_bell(months, scatter):
    lengths = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    z, step = np.linspace(-8.0, 8.0, 16001, retstep=True)
    weight = np.exp(-0.5 * z**2) / sqrt(2.0 * pi) * step
    by_slices = sum(
        days * float(np.sum(weight * np.maximum(0.0, 18.0 - (mean + scatter * z))))
        for days, mean in zip(lengths, months, strict=True)
    )
    assert degree_days(months, base=18.0, scatter=scatter) == approx(by_slices, abs=0.1)


def test_a_year_at_the_base_counts_its_scatter_over_the_root_of_two_pi():
    assert degree_days([18.0] * 12, 18.0, 3.5) == approx(365.25 * 3.5 / sqrt(2.0 * pi))


def test_eleven_months_have_no_degree_days():
    with pytest.raises(Mistake, match="11 monthly means"):
        degree_days([0.0] * 11, 18.0, 3.5)


def test_what_is_packed_is_all_there():
    assert len(AREAS.numbers) == 33089
    assert (np.diff(AREAS.numbers) > 0).all()
    counts = Counter(map(str, AREAS.zones))
    assert (counts["5A"], counts["4C"], counts["8"], counts["1A"]) == (8474, 675, 125, 385)
    assert {zone for zone in counts if zones.listed(zone, "US")} == set(counts)
    assert (AREAS.latitudes > 13.0).all() and (AREAS.latitudes < 71.5).all()


def test_a_zone_is_looked_up_in_less_than_50_ms():
    taken = []
    for _ in range(3):
        zones.areas.cache_clear()
        start = time.process_time()
        zones.us(46.78, -92.11)
        taken.append(time.process_time() - start)
    assert min(taken) < 0.05


def test_the_map_is_not_read_until_a_zone_is_asked_for():
    ask = """
from underpour.brief import read
from underpour.catalogue import zones
from underpour.resolve import resolve
reading = read("examples/frost-wall-workshop/brief.toml")
resolved = resolve(reading.brief)
print(zones.areas.cache_info().currsize, resolved.zone.us(2018).zone, zones.areas.cache_info().currsize)
"""
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True).stdout
    assert told.split() == ["0", "7", "1"]
