"""Places: the list and the grids agree where they should, and the map has no seams."""

import csv
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pytest import approx

from underpour.catalogue import places
from underpour.catalogue.gazetteer import entries
from underpour.catalogue.grid import FINE, WORLD, grid, reading
from underpour.catalogue.read import FOLDER

LIST = (FOLDER / "climate" / "places.csv").read_text(encoding="utf-8").splitlines()
HERE = {row["country"] for row in csv.DictReader(line for line in LIST if not line.startswith("#"))}
NEAR = [entry for entry in entries() if entry.country in HERE]  # United States, Canada, Europe
FAR = [entry for entry in entries() if entry.country not in HERE]


def test_there_are_2067_places():
    assert len(NEAR) + len(FAR) == 913 + 1154


def off_at(entry):
    """Largest difference between the list and the grids at the list's height, over the months. [K]"""
    found = places.at(entry.latitude, entry.longitude, entry.height).months
    return np.abs(np.subtract(found, entry.months)).max()


def test_the_list_and_the_quarter_degree_grid_agree_within_0_12_k_in_america_and_europe():
    """The list is worked out from the finer record; both are rounded to 0.1 K, heights to 1 m and 10 m."""
    assert len(NEAR) == 913
    assert max(off_at(entry) for entry in NEAR) < 0.125


def test_elsewhere_in_the_quarter_degree_grid_they_agree_within_0_9_k():
    """The world's list was taken to height from coarser terrain, which shows in the mountains of Anatolia."""
    off = [off_at(entry) for entry in FAR if grid(FINE).reaches(entry.latitude, entry.longitude)]
    assert len(off) > 100
    assert max(off) < 0.9


def test_the_list_and_the_half_degree_grid_agree_within_0_5_k_on_average():
    off = [off_at(entry) for entry in FAR if not grid(FINE).reaches(entry.latitude, entry.longitude)]
    assert np.mean(off) < 0.5
    assert max(off) < 4.0


@pytest.mark.parametrize("latitude", [-17.8, 66.0, 68.3])
def test_the_date_line_has_no_seam(latitude):
    east, west = places.at(latitude, 180.0), places.at(latitude, -180.0)
    assert east.months == west.months
    assert np.abs(np.subtract(places.at(latitude, 179.99).months, places.at(latitude, -179.99).months)).max() < 0.3


@given(st.floats(30.0, 60.0), st.floats(-120.0, -80.0))
@settings(max_examples=60, deadline=None)
def test_months_lie_between_those_of_the_four_points_around(latitude, longitude):
    found = reading(latitude, longitude)
    if found is None:
        return
    fine = grid(FINE)
    row, column = int((latitude - fine.south) / fine.step), int((longitude - fine.west) / fine.step)
    around = 0.1 * fine.air[:, row : row + 2, column : column + 2].reshape(12, 4)
    assert np.all(np.array(found.months) >= around.min(axis=1) - 1e-9)
    assert np.all(np.array(found.months) <= around.max(axis=1) + 1e-9)


def test_the_corners_of_the_map_can_be_read():
    for latitude, longitude in ((72.0, -156.0), (72.0, 100.0), (24.0, 45.0), (-55.0, -67.3), (68.0, 179.9)):
        assert reading(latitude, longitude) is not None


def test_a_hundred_metres_higher_is_0_65_k_colder():
    low, high = places.find("Denver", height=1600.0), places.find("Denver", height=1700.0)
    assert np.subtract(low.months, high.months) == approx(0.65, abs=0.011)
    low, high = places.at(39.74, -104.98, 1600.0), places.at(39.74, -104.98, 1700.0)
    assert np.subtract(low.months, high.months) == approx(0.65, abs=0.011)


def test_the_height_that_is_not_given_is_the_list_s_or_the_terrain_s():
    assert places.find("Minneapolis, MN").height == 257.0
    assert places.at(44.98, -93.264).height == approx(273.0, abs=10.0)


def test_both_grids_have_the_shape_they_are_said_to_have():
    fine, world = grid(FINE), grid(WORLD)
    assert (fine.air.shape, world.air.shape) == ((12, 193, 861), (12, 257, 720))
    assert world.around and not fine.around


def test_a_named_place_is_found_without_numpy():
    asked = "from underpour.catalogue import places; places.find('Minneapolis, MN')"
    seen = f"import sys; {asked}; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", seen], check=False).returncode == 0
