"""What is said of the climate zone, told or not; the one key that settles it; ZIPs and zones that cannot be.

A row of SAID is what stands in [site] and what a person then reads; a row of BAD what is refused, with its words.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

import pytest
from tests.told.test_bad_briefs import GOOD, PLACE, Bad, contents

from underpour.brief import reads
from underpour.cli import main
from underpour.measure.digits import THIN
from underpour.mistakes import Mistakes
from underpour.resolve import Resolved, ToldZone, resolve

MONTHLY = "monthly = [" + ", ".join(f'"{t} C"' for t in (-10, -8, -1, 7, 13, 18, 21, 20, 15, 9, 1, -7)) + "]"


def resolved(site: str) -> Resolved:
    return resolve(reads(GOOD.replace(PLACE, site, 1), "brief.toml").brief)


def told(site: str, code: str) -> ToldZone:
    """The zone of "US 2018", "US 2021" or "Canada"."""
    here = resolved(site).zone
    return here.canada() if code == "Canada" else here.us(int(code.split()[1]))


@dataclass(frozen=True)
class Said:
    site: str
    code: str
    zone: str
    missing: str
    words: tuple[str, ...]


OAKLAND = 'place = "Oakland, CA"'
SAID = [
    Said(PLACE, "US 2018", "7", "", ("Zone 7, of ZIP area 55805, whose middle lies 1 mi (2 km) away.", "county's own")),
    Said('place = "Indianapolis, IN"', "US 2018", "5A", "", ("Zone 5A, of ZIP area 46204", "less than 1 mi")),
    Said('place = "Austin, TX"', "US 2018", "2A", "", ("Zone 2A, of ZIP area 78701",)),
    Said('place = "Seattle, WA"', "US 2018", "4C", "", ("Zone 4C (marine 4)",)),
    Said(PLACE, "US 2021", "", "site.zone", ("the one before the 2021 edition", "this was zone 7", "(site.zone)")),
    Said(OAKLAND, "US 2018", "", "site.zip",
        ("ZIP areas within 9 mi (15 km) of Oakland, CA lie in zones 3B and 3C (marine 3)", "Give the site's ZIP")),
    Said(f'{OAKLAND}\nzip = "94612"', "US 2018", "3C", "", ("Zone 3C (marine 3), of ZIP area 94612.", "also zone 3B")),
    Said(f'{OAKLAND}\nzip = "94612"', "US 2021", "", "site.zone", ("this was zone 3C (marine 3)",)),
    Said(f'{OAKLAND}\nzone = "3B"', "US 2018", "3B", "", ("Zone 3B, as typed (site.zone).",)),
    Said('zip = "55802"', "US 2018", "7", "", ("Zone 7, of ZIP area 55802.",)),
    Said(f'{PLACE}\nzone = "6A"', "US 2018", "6A", "",
        ("That differs: the map has zone 7 at ZIP area 55805. What is typed is taken.",)),
    Said(f'{PLACE}\nzone = "marine 4"', "US 2021", "4C", "", ("Zone 4C (marine 4), as typed (site.zone).",)),
    Said(f'{PLACE}\nzone = "6"', "US 2021", "6", "", ("Without its letter it is taken as not marine.",)),
    Said(MONTHLY, "US 2018", "", "site.zip", ("Nothing says where the site lies.",)),
    Said(f'{MONTHLY}\nzip = "55802"', "US 2018", "7", "", ("of ZIP area 55802",)),
    Said(MONTHLY, "US 2021", "", "site.zone", ("Give its zone",)),
    Said('place = "51.0 N, 0.1 W"', "US 2018", "", "site.zone", ("If the site is in the United States",)),
    Said('place = "42.31 N, 83.03 W"', "US 2018", "5A", "", ("whose middle lies 2 km (1 mi) away",)),
    Said('place = "Toronto, ON"', "Canada", "5", "",
        ("Zone 5, by the degree-days of weather stations", "3330 to 3650 degree-days below 18 °C", "4 km (3 mi) away")),
    Said('place = "Calgary, AB"', "Canada", "", "site.zone",
        ("Zone 6 or 7A, by degree-days from the months of the air record", "runs warm", "Give the zone (site.zone).")),
    Said('place = "Calgary, AB"\nzone = "7A"', "Canada", "7A", "", ("Zone 7A, as typed (site.zone).",)),
    Said('place = "Toronto, ON"\nzone = "7A"', "Canada", "7A", "", ("degree-days there say zone 5", "typed is taken")),
    Said('place = "Kelowna, BC"', "Canada", "", "site.zone", ("which sees no single valley",)),
    Said(MONTHLY, "Canada", "6", "", ("from the months that are given",)),
    Said('place = "51.11 N, 114.02 W"\nzone = "7A"', "US 2018", "", "site.zone",
        ("Zone 7A is not a zone of US codes.",)),
]  # fmt: skip


@pytest.mark.parametrize("said", SAID, ids=lambda said: f"{said.site}, {said.code}".replace("\n", ", "))
def test_a_zone_is_told_or_names_the_one_key_that_settles_it(said):
    found = told(said.site, said.code)
    assert (found.zone, found.missing, found.applies) == (said.zone, said.missing, True)
    for words in said.words:
        assert words in found.words.replace(THIN, " ")
    if found.zone:
        assert found.candidates == (found.zone,)
    assert found.words.endswith(".") and ".." not in found.words


UNTOLD = [said for said in SAID if said.missing]
ANSWERS = {"site.zip": 'zip = "94612"', "US": 'zone = "3C"', "Canada": 'zone = "6"'}


@pytest.mark.parametrize("said", UNTOLD, ids=lambda said: f"{said.site}, {said.code}".replace("\n", ", "))
def test_what_is_missing_settles_it_once_it_is_typed(said):
    line = ANSWERS[said.missing if said.missing == "site.zip" else said.code.split()[0]]
    rest = re.sub(r"\nzone = .*", "", said.site) if said.missing == "site.zone" else said.site
    after = told(f"{rest}\n{line}", said.code)
    assert after.zone and not after.missing


@pytest.mark.parametrize("place", ["Manchester, GB", "Dublin, IE", "Christchurch, NZ"])
def test_outside_of_both_countries_zones_do_not_apply(place):
    here = resolved(f'place = "{place}"').zone
    for found in (here.us(2018), here.us(2021), here.canada()):
        assert (found.zone, found.missing, found.applies) == ("", "", False)
        assert found.words.startswith(f"{place} has no zone of ")


def test_the_zones_of_one_country_do_not_apply_in_the_other():
    assert not resolved('place = "Toronto, ON"').zone.us(2018).applies
    assert not resolved(PLACE).zone.canada().applies


def test_a_zone_typed_for_a_place_in_neither_country_is_kept_and_said():
    found = resolved('place = "Manchester, GB"\nzone = "5A"')
    assert found.zone.us(2018).zone == "5A"
    assert "5A is a zone of US or Canadian codes; Manchester, GB lies in neither country." in found.notes


def test_a_zone_says_its_number_and_whether_it_is_marine():
    assert [(z.number, z.marine) for z in (told(f'{PLACE}\nzone = "{n}"', "US 2018") for n in ("4C", "4A", "7"))] == [
        *((4, True), (4, False), (7, False)),
    ]
    assert told(PLACE, "US 2021").number is None and not told(PLACE, "US 2021").marine


def test_a_zip_gives_the_air_where_no_place_is_named_and_makes_it_a_brief_of_the_united_states():
    by_zip, by_place = resolved('zip = "55802"'), resolved(PLACE)
    assert (by_zip.system, by_zip.climate_path) == ("US", "site.zip")
    assert by_zip.place.startswith("ZIP 55802 (46.8° N, 92.1° W, ")
    assert by_zip.outdoor_mean == pytest.approx(by_place.outdoor_mean, abs=1.0)
    assert any("Apache-2.0" in credit for credit in by_zip.credits)


def test_beside_a_place_a_zip_leaves_the_air_as_it_is():
    both, alone = resolved(f'{PLACE}\nzip = "55802"'), resolved(PLACE)
    assert (both.outdoor_mean, both.outdoor_swing, both.place) == (alone.outdoor_mean, alone.outdoor_swing, alone.place)


def test_what_is_typed_is_told_among_the_notes_and_nothing_is_said_where_neither_is_typed():
    zoned = resolved(f'{PLACE}\nzone = "6A"')
    assert any(note.startswith("Zone 6A, as typed (site.zone).") for note in zoned.notes)
    zipped = resolved(f'{PLACE}\nzip = "55802"')
    assert any(note.startswith("Zone 7, of ZIP area 55802.") for note in zipped.notes)
    assert not any("one 7" in note for note in resolved(PLACE).notes)


def test_an_alternative_may_have_another_zone():
    text = GOOD.replace('remove = ["board"]', 'set = { "site.zone" = "6A" }')
    (_, other), *_ = reads(text, "brief.toml").alternatives
    assert resolve(other).zone.us(2021).zone == "6A"


BAD = [
    Bad("a ZIP without quotes", PLACE, "zip = 55802",
        ("brief.toml:5  site.zip", "A ZIP is written in quotes", 'Write zip = "55802".')),
    Bad("a ZIP with four digits more", PLACE, 'zip = "55802-1234"',
        ("brief.toml:5  site.zip", "Only the first five digits", 'Write zip = "55802".')),
    Bad("a Canadian postal code", PLACE, 'zip = "M5V 3L9"',
        ("brief.toml:5  site.zip", "That is a Canadian postal code.", 'place = "Toronto, ON"')),
    Bad("a ZIP of four digits", PLACE, 'zip = "1001"', ("brief.toml:5  site.zip", "A ZIP has five digits.")),
    Bad("a ZIP of other digits", PLACE, 'zip = "٥٥٨٠٢"', ("brief.toml:5  site.zip", "A ZIP has five digits.")),
    Bad("a ZIP of a post-office box", PLACE, 'zip = "55440"',
        ("brief.toml:5  site.zip", "55440 is not among the 33,089 ZIP areas", "55441, zone 6A")),
    Bad("a ZIP below the first", PLACE, 'zip = "00000"', ("brief.toml:5  site.zip", "00601, zone 1A")),
    Bad("a ZIP above the last", PLACE, 'zip = "99999"', ("brief.toml:5  site.zip", "99929, zone 7")),
    Bad("a ZIP of another town", PLACE, f'{PLACE}\nzip = "33131"',
        ("brief.toml:6  site.zip", "ZIP 33131 lies 1,593 mi (2,564 km) from Duluth, MN.", "Which of the two")),
    Bad("a ZIP for a place in Canada", PLACE, 'place = "Windsor, ON"\nzip = "48226"',
        ("brief.toml:6  site.zip", "A ZIP is in the United States; Windsor, ON is not.")),
    Bad("a zone that there is not", PLACE, f'{PLACE}\nzone = "9"',
        ("brief.toml:6  site.zone", "none of the zones that codes of the United States have", "7, 8.")),
    Bad("a zone with the wrong letter", PLACE, f'{PLACE}\nzone = "6C"', ("The nearest: 6A or 6B.",)),
    Bad("a Canadian zone in the United States", PLACE, f'{PLACE}\nzone = "7A"', ("The nearest: 7.",)),
    Bad("a zone of the United States in Canada", PLACE, 'place = "Toronto, ON"\nzone = "5A"',
        ("none of the zones that the Canadian code has", "The nearest: 5.", "4, 5, 6, 7A, 7B, 8")),
    Bad("half a Canadian zone", PLACE, 'place = "Calgary, AB"\nzone = "7"', ("The nearest: 7A or 7B.",)),
    Bad("a marine zone in Canada", PLACE, 'place = "Victoria, BC"\nzone = "marine 4"', ("brief.toml:6  site.zone",)),
    Bad("a zone without quotes", PLACE, f"{PLACE}\nzone = 7", ("brief.toml:6  site.zone = 7", 'Write zone = "7".')),
    Bad("no zone at all", PLACE, f'{PLACE}\nzone = ""', ("brief.toml:6  site.zone", "Known: 0A")),
    Bad("no place and no ZIP", PLACE, "", ("[site] does not say where.", 'zip = "55802"')),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_a_zip_or_a_zone_that_cannot_be_is_told_with_its_line(bad, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "brief.toml").write_text(GOOD.replace(bad.was, bad.typed, 1), "utf-8")
    before = contents(tmp_path)
    assert main(bad.command.split()) == 2
    heard = capsys.readouterr()
    assert heard.out == ""
    for words in bad.words:
        assert words in heard.err.replace(THIN, " "), heard.err
    assert "Traceback" not in heard.err
    assert contents(tmp_path) == before


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_it_is_told_once(bad):
    with pytest.raises(Mistakes) as found:
        resolve(reads(GOOD.replace(bad.was, bad.typed, 1), "brief.toml").brief)
    assert len(found.value.found) == 1


def test_far_begins_beyond_50_km():
    """From Duluth, MN, the middle of 55707 lies 48.9 km away, that of 54865 55.5 km."""
    assert resolved(f'{PLACE}\nzip = "55707"').zone.zip == "55707"
    with pytest.raises(Mistakes, match="ZIP 54865 lies"):
        resolved(f'{PLACE}\nzip = "54865"')


def test_a_site_of_no_position_takes_its_months_for_canada_as_measured():
    here = resolved(MONTHLY).zone
    assert here.measured and here.position is None
    assert replace(here, country="US").canada().applies is False


@pytest.mark.parametrize(
    ("place", "zone"), [('place = "Duluth, MN"', "7"), ('place = "North Harbor"', ""), ("", "")], ids=repr
)
def test_beside_a_weather_file_a_place_of_the_list_says_where_the_zone_is_looked_up(place, zone, tmp_path):
    rows = "\n".join(f"{month},{t}" for month, t in enumerate((-10, -8, -1, 7, 13, 18, 21, 20, 15, 9, 1, -7), start=1))
    (tmp_path / "months.csv").write_text(f"month,temperature C\n{rows}\n", "utf-8")
    text = GOOD.replace(PLACE, f'{place}\nweather = "months.csv"', 1)
    found = resolve(reads(text, str(tmp_path / "brief.toml")).brief)
    assert found.climate_path == "site.weather"
    assert (found.zone.us(2018).zone, found.zone.us(2018).missing) == (zone, "" if zone else "site.zip")
