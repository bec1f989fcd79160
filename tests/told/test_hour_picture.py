"""One hour of a weather year as a picture, and the words where there is none."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from underpour.answer import answer
from underpour.brief import read
from underpour.cli import compare
from underpour.drawings import comparison_at_hour
from underpour.measure.hours import hour_of, hour_words
from underpour.mistakes import Mistake

EXAMPLES = Path(__file__).parents[2] / "examples"
GARAGE = EXAMPLES / "cool-garage-by-hours" / "brief.toml"


@pytest.fixture(scope="module")
def peak():
    return answer(read(GARAGE), "peak")


def words(svg):
    texts = ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")
    return " ".join("".join(each.itertext()) for each in texts).replace("\u2009", " ").replace("\u00a0", " ")


def test_the_peak_is_the_hour_of_the_finding(peak):
    for made in peak.alternatives:
        assert made.hour.words == "6 September, 22:00"
    hourly = peak.as_briefed.find("heat.loss-peak", of="floor", method="hours")
    assert hourly.words.startswith("On 6 September, 22:00")
    assert peak.as_briefed.hour.flow == hourly.value


def test_the_picture_names_the_hour_its_air_and_what_the_floor_does_then(peak):
    said = words(comparison_at_hour(peak, "A"))
    assert "Temperatures on 6 September, 22:00 of the weather file, outdoors then at 73.4 °F." in said
    assert re.search(r"outdoors 73\.4 °F", said) and "room 40.0 °F" in said
    assert "Floor takes in 1974 Btu/h." in said
    assert "year of mean weather" not in said


def test_another_hour_is_another_field():
    cold = answer(read(GARAGE), "19 december 4:00").as_briefed
    assert cold.hour.words == "19 December, 04:00" and cold.hour.flow > 0.0
    field = cold.hour.fields["A"]
    assert not field.swing.any() and field.floor_mean.min() < 2.0


def test_no_hour_is_worked_out_unless_it_is_asked_for():
    assert answer(read(GARAGE)).as_briefed.hour is None


@pytest.mark.parametrize("typed", ["31 June 05:00", "29 February 05:00", "1 January 00:00", "25:00", "noon", "5"])
def test_an_hour_that_the_year_does_not_have_is_told_with_one_that_it_has(typed, tmp_path):
    with pytest.raises(Mistake) as told:
        compare.told([str(GARAGE), "-o", str(tmp_path / "h.svg"), "--hour", typed])
    assert told.value.at == "--hour" and typed in told.value.typed
    assert told.value.wrong == "The weather file's year has no such hour."
    assert '"6 September 22:00" (midnight is 24:00), or peak' in told.value.instead
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("example", "wrong"),
    [
        ("church", "No hours are known: the air comes from the means of twelve months."),
        ("walk-or-drive", "A slab under the sky is told by its months; no hour of it is worked out."),
    ],
)
def test_a_brief_without_hours_has_no_picture_of_one(example, wrong, tmp_path):
    with pytest.raises(Mistake) as told:
        compare.told([str(EXAMPLES / example / "brief.toml"), "-o", str(tmp_path / "h.svg"), "--hour", "peak"])
    assert (told.value.at, told.value.wrong) == ("--hour", wrong)


def test_an_hour_is_a_picture_of_its_own(tmp_path):
    with pytest.raises(Mistake, match="Each of these is a picture of its own"):
        compare.told([str(GARAGE), "-o", str(tmp_path / "h.svg"), "--hour", "peak", "--year"])
    with pytest.raises(Mistake, match="drawn into a picture, and none is asked for"):
        compare.told([str(GARAGE), "--hour", "peak"])


@pytest.mark.parametrize("hours", [8760, 8784])
def test_every_hour_is_said_and_read_again(hours):
    assert [hour_of(hour_words(n, hours), hours) for n in range(hours)] == list(range(hours))
