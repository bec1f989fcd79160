"""What the user reads when a word is not in the catalogue, or a place is not on the map."""

import pytest

from underpour import catalogue
from underpour.catalogue import places
from underpour.mistakes import Mistake


def told(ask, *words):
    with pytest.raises(Mistake) as caught:
        ask(*words)
    return caught.value


@pytest.mark.parametrize(
    ("ask", "typed", "nearest", "listing"),
    [
        (catalogue.shipped_products().board, "plian-25", "plain-25", "boards"),
        (catalogue.shipped_products().board, "c578-9", "c578-", "boards"),
        (catalogue.material, "concret", "concrete", "materials"),
        (catalogue.ground, "silty-clay", "silty-clay-moist", "grounds"),
        (catalogue.retarder, "film-16-mil", "film-", "retarders"),
        (catalogue.surface, "floor", "floor-", "surfaces"),
        (catalogue.use, "wharehouse", "warehouse", "uses"),
        (catalogue.limit, "mould", "", "limits"),
        (catalogue.source, "iso-6946", "iso-6946-2017", "sources"),
    ],
)
def test_an_unknown_word_gets_the_nearest_and_where_to_find_all(ask, typed, nearest, listing):
    mistake = told(ask, typed)
    assert mistake.typed == f'"{typed}"'
    assert f"is called {typed}." in mistake.wrong
    assert nearest in mistake.instead
    assert mistake.instead.endswith(f"All of them: underpour catalogue list {listing}")


def test_a_name_that_fits_two_places_gets_both_and_never_the_first():
    mistake = told(places.find, "Duluth")
    assert "2 places are called Duluth: Duluth, GA; Duluth, MN." in mistake.wrong
    assert "state or country" in mistake.instead


def test_two_places_of_one_name_in_one_country_are_told_apart_by_position():
    mistake = told(places.find, "Suzhou, CN")
    assert "Suzhou, CN at 33.64° N, 116.98° E" in mistake.wrong
    assert places.find("31.304 N, 120.595 E").name == "31.30° N, 120.59° E"


def test_a_place_that_is_misspelt_gets_the_nearest_by_name():
    assert "Minneapolis, MN" in told(places.find, "Mineapolis, MN").instead


def test_a_place_in_the_wrong_state_gets_where_it_is():
    mistake = told(places.find, "Minneapolis, WI")
    assert mistake.wrong == "No Minneapolis is known in WI."
    assert "Minneapolis, MN" in mistake.instead


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("Minneapolis, MN", "Minneapolis, MN"),
        ("minneapolis", "Minneapolis, MN"),
        ("Minneapolis, Minnesota, USA", "Minneapolis, MN"),
        ("Duluth, MN", "Duluth, MN"),
        ("Christchurch, NZ", "Christchurch, NZ"),
        ("christchurch, new zealand", "Christchurch, NZ"),
        ("montreal", "Montréal, QC"),
        ("St. Paul, MN", "Saint Paul, MN"),
        ("lodz", "Łódź, PL"),
        ("Tromso", "Tromsø, NO"),
        ("ZURICH, CH", "Zürich, CH"),
    ],
)
def test_names_are_understood_as_people_type_them(typed, name):
    assert places.find(typed).name == name


@pytest.mark.parametrize(
    "typed",
    ["46.78 N, 92.11 W", "46.78N 92.11W", "46.78, -92.11", "46.78° N, 92.11° W", "46.78 −92.11", "46.78 n; 92.11 w"],
)
def test_positions_are_understood_as_people_type_them(typed):
    place = places.find(typed)
    assert (place.latitude, place.longitude, place.name) == (46.78, -92.11, "46.78° N, 92.11° W")


@pytest.mark.parametrize(
    "typed", ["46,78 N, 92,11 W", "46.78 N", "-46.78 S, 92.11 W", "46.78 N, 92.11", "46 47 30, 92"]
)
def test_a_position_that_cannot_be_read_is_refused_with_an_example(typed):
    mistake = told(places.find, typed)
    assert mistake.typed == f'"{typed}"'
    assert '"46.78 N, 92.11 W"' in mistake.instead


@pytest.mark.parametrize("typed", ["40 N, 40 W", "80 N, 10 E", "75 S, 10 E", "0 N, 120 W"])
def test_sea_and_poles_are_refused_and_own_means_offered(typed):
    mistake = told(places.find, typed)
    assert "no air temperature for that position" in mistake.wrong
    assert "site.monthly" in mistake.instead


@pytest.mark.parametrize("typed", ["95 N, 10 E", "10 N, 190 E"])
def test_a_position_off_the_globe_is_refused(typed):
    assert "Latitude runs from 90 S to 90 N" in told(places.find, typed).wrong


def test_no_name_at_all_is_told():
    assert told(places.find, " ").wrong == "No place is named."


def test_cold_winters_carry_the_note_on_the_record():
    assert any("run warm" in note for note in places.find("Duluth, MN").notes)
    assert any("freezing index" in note for note in places.find("Fairbanks").notes)
    assert not places.find("Christchurch, NZ").notes


def test_a_height_taken_from_the_terrain_is_said_to_be():
    assert any("site.height" in note for note in places.at(46.78, -92.11).notes)
    assert not any("site.height" in note for note in places.at(46.78, -92.11, 435.0).notes)


def test_credits_are_carried():
    for place in (places.find("Minneapolis, MN"), places.at(46.78, -92.11)):
        assert "Copernicus Climate Change Service" in place.credit
        assert "CC BY 4.0" in place.credit
    assert "GeoNames" in places.find("Minneapolis, MN").credit
