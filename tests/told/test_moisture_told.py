"""What is told of damp: what can be typed wrong, what is open and what closes it, numbers by another formula."""

from __future__ import annotations

import tomllib
from functools import cache
from math import exp
from pathlib import Path

import pytest
from tests import weather_files
from tests.weather_files import GOLDEN, SAND_POINT

from underpour.answer import answer
from underpour.ask import asked
from underpour.brief import read, reads
from underpour.checks.humid import DEW, MOULD
from underpour.checks.vapour import DRIVE, UNDER, WITHIN, profile
from underpour.cli import main
from underpour.cut import solved_edges
from underpour.dossier import Answer
from underpour.mistakes import Mistakes
from underpour.physics.ground.patch import below_a_patch
from underpour.physics.moisture.air import saturation_pressure
from underpour.physics.moisture.outdoors import months_of_hours, vapour_pressure
from underpour.resolve import resolve

from .test_slabs_outdoors import text as outdoors

HUMID = 'humidity = ["72 %"]\n'
BRIEF = f"""\
[project]
use = "basement"
units = "SI"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
{HUMID}[plan]
outline = ["0 0", "10 0", "10 8", "0 8"]
unit = "m"
[floor]
inside = "20 C"
humidity = "45 %"
touched-by = []
build-up = [
  {{ covering = "vinyl-sheet" }},
  {{ concrete = "100 mm" }},
  {{ vapour-retarder = "film-15-mil" }},
  {{ board = "c578-iv", thickness = "50 mm" }},
  {{ gravel = "100 mm" }},
]
[[edge]]
sides = "all"
kind = "footing-wall"
depth = "250 mm"
ground = "1.8 m"
wall = [{{ concrete = "200 mm" }}, {{ board = "c578-iv", thickness = "50 mm" }}]
"""


def magnus(degrees: float) -> float:
    """Saturation over water, [Pa]: 611.2 exp(17.62 t / (243.12 + t)), WMO No. 8, annex 4.B (from memory)."""
    return 611.2 * exp(17.62 * degrees / (243.12 + degrees))


@cache
def as_briefed(text: str) -> Answer:
    return answer(reads(text)).alternatives[0]


def one(text: str, name: str, **at: str):
    found = [each for each in as_briefed(text).findings if each.id == name and at.items() <= dict(each.at).items()]
    assert len(found) == 1
    return found[0]


# What is typed: the line that takes the place of another, and words of what is said.
BAD = [
    ("humidity over 100 %", HUMID, 'humidity = ["140 %"]\n', ("site.humidity", "140 %", "100 %")),
    ("eleven months", HUMID, f"humidity = {['70 %'] * 11}\n".replace("'", '"'), ("11 values", "January first")),
    ("no list", HUMID, 'humidity = "70 %"\n', ("site.humidity",)),
    ("humidity below nought", HUMID, 'humidity = ["-5 %"]\n', ("site.humidity", "-5 %")),
    ("a summer's humidity over 100 %", 'humidity = "45 %"', 'summer-humidity = "120 %"', ("floor.summer-humidity",)),
    ("a covering nobody knows", '"vinyl-sheet"', '"vynil-sheet"', ("vynil-sheet", "vinyl-sheet", "catalogue list")),
    ("a covering below the slab", '  { concrete = "100 mm" },\n', "", ("concrete",)),
    (
        "a covering in a wall",
        'wall = [{ concrete = "200 mm" }',
        'wall = [{ covering = "tile" }, { concrete = "200 mm" }',
        ("covering", "wall"),
    ),
    (
        "two coverings",
        '{ concrete = "100 mm" }',
        '{ covering = "tile" },\n  { concrete = "100 mm" }',
        ("on top of the floor", "alone"),
    ),
    (
        "a covering with a conductivity",
        '{ covering = "vinyl-sheet" }',
        '{ covering = "vinyl-sheet", conductivity = "0.2 W/(m·K)" }',
        ("covering", "catalogue's"),
    ),
    (
        "a rug nobody knows",
        "touched-by = []",
        'touched-by = []\nfurnishing = ["rugg"]',
        ("rugg", "rug", "catalogue list"),
    ),
    (
        "two beds",
        "touched-by = []",
        'touched-by = []\nfurnishing = ["bed", "bed"]',
        ("floor.furnishing.2", "Say it once"),
    ),
    ("seams of concrete", '{ concrete = "100 mm" },', '{ concrete = "100 mm", seams = "taped" },', ("seams", "film")),
    ("seams of no kind", '"film-15-mil" }', '"film-15-mil", seams = "glued" }', ("seams", "glued", "taped")),
    ("no length of time", 'humidity = "45 %"', 'covered-after = "soon"', ("floor.covered-after", "soon")),
]


@pytest.mark.parametrize(("typed", "wanted", "words"), [row[1:] for row in BAD], ids=[row[0] for row in BAD])
def test_what_cannot_be_meant_is_told_with_its_line_and_changes_nothing(typed, wanted, words, tmp_path, capsys):
    file = tmp_path / "brief.toml"
    assert typed in BRIEF
    file.write_text(BRIEF.replace(typed, wanted, 1), "utf-8")
    before = sorted(tmp_path.iterdir()), file.read_bytes()
    assert main(["answer", str(file)]) == 2
    told = capsys.readouterr().err
    assert "brief.toml:" in told
    for word in words:
        assert word in told
    assert (sorted(tmp_path.iterdir()), file.read_bytes()) == before


def test_without_the_outdoor_humidity_the_damp_months_cannot_be_told():
    bare = BRIEF.replace(HUMID, "")
    found = one(bare, MOULD, surface="floor")
    assert (found.verdict, found.missing, found.value) == ("cannot tell", "site.humidity", None)
    found_open = asked(reads(bare))
    assert "site.humidity" in {*found_open.further, *(question.about.path for question in found_open.questions)}
    for humidity, verdict in (("45 %", "meets"), ("90 %", "falls short")):
        assert (
            one(bare.replace("[plan]", f'humidity = ["{humidity}"]\n[plan]'), MOULD, surface="floor").verdict == verdict
        )


def test_a_drier_in_summer_keeps_mould_and_water_off():
    dried = BRIEF.replace('humidity = "45 %"', 'humidity = "45 %"\nsummer-humidity = "50 %"')
    for name in (MOULD, DEW):
        assert one(dried, name, surface="floor").value < one(BRIEF, name, surface="floor").value
    assert one(BRIEF, MOULD, surface="floor").month in (6, 7, 8, 9)
    assert one(dried, MOULD, surface="floor").verdict == "meets"


def test_the_humidity_at_the_coldest_place_is_that_of_a_formula_of_weather_services():
    """The World Meteorological Organization's formula on the temperature and the vapour that the steps print."""
    found = one(BRIEF, MOULD, surface="floor")
    degrees, pascals = (float(step.result.split()[0].replace("−", "-")) for step in found.steps[:2])
    assert found.value == pytest.approx(100.0 * pascals / magnus(degrees), rel=3e-3)
    summer = 0.72 * magnus(18.6)  # Duluth's July is 18.6 °C in the grid
    assert pascals == pytest.approx(summer, rel=0.12)


def test_the_coldest_month_has_the_winter_s_humidity_in_the_room():
    told = resolve(reads(BRIEF).brief).damp
    assert told is not None
    assert told.room[0][0] == pytest.approx(0.45 * magnus(20.0), rel=5e-3)


def test_the_place_that_is_held_is_the_coldest_of_the_floor():
    found = one(BRIEF, MOULD, surface="floor")
    assert found.month is not None
    degrees = float(found.steps[0].result.split()[0].replace("−", "-"))
    for place in ("corner", "edge", "centre"):
        assert degrees < one(BRIEF, "heat.floor-year", place=place).months[found.month - 1] + 0.05


def test_without_a_film_the_covering_meets_the_ground_s_damp():
    bare = BRIEF.replace('  { vapour-retarder = "film-15-mil" },\n', "").replace("c578-iv", "c578-i")
    at = {"place": "centre"}
    assert one(bare, UNDER, **at).value > one(BRIEF, UNDER, **at).value + 4.0


def test_vapour_is_driven_up_by_ground_that_is_warmer_than_the_air_is_moist():
    found = one(BRIEF, DRIVE)
    assert found.months is not None and len(found.months) == 12
    assert found.value == max(found.months, key=abs)
    assert found.months[0] > 0.0


def test_each_finding_of_damp_names_what_it_rests_on():
    for name in (MOULD, DEW, WITHIN, UNDER, DRIVE):
        for found in (each for each in as_briefed(BRIEF).findings if each.id == name):
            assert "site.humidity" in found.rests_on
            assert found.basis


def test_mould_carries_its_caution_where_it_falls_short():
    found = one(BRIEF.replace("72 %", "85 %"), MOULD, surface="floor")
    assert found.verdict == "falls short"
    assert "make people ill" in found.caution


@pytest.mark.parametrize("station", [GOLDEN, SAND_POINT], ids=["Golden", "Sand Point"])
def test_a_weather_file_s_hours_give_the_humidity_outdoors(station, tmp_path: Path):
    (tmp_path / "hours.epw").write_text(weather_files.epw(station), "utf-8")
    text = BRIEF.replace('place = "Duluth, MN"', 'weather = "hours.epw"').replace(HUMID, "")
    (tmp_path / "brief.toml").write_text(text, "utf-8")
    told = resolve(read(tmp_path / "brief.toml").brief).damp
    assert told is not None
    hours = [float(hour[3]) for hour in weather_files.hours(station)]
    humid = [min(float(each), 100.0) / 100.0 for each in weather_files.humidities(station)]
    means, days = months_of_hours(hours, humid)
    assert told.told
    assert told.outdoors[0] == pytest.approx(means, rel=2e-3)
    assert told.day == pytest.approx([d / m for d, m in zip(days, means, strict=True)], rel=1e-3)


def test_the_dew_points_that_a_station_prints_give_the_same_vapour():
    """TMY3 of Golden (US laboratory, public) prints dew point and relative humidity side by side, each rounded."""
    text = weather_files.gzip.decompress((weather_files.DATA / weather_files.FILES[GOLDEN]).read_bytes()).decode()
    rows = [[float(cell) for cell in line.split(",")[:5]] for line in text.splitlines()[2:]]
    mild = [row for row in rows if row[3] > 0.0]  # below freezing stations go on reckoning over water
    by_dew = sum(magnus(row[3]) for row in mild) / len(mild)
    by_share = sum(vapour_pressure(row[2], min(row[4], 100.0) / 100.0) for row in mild) / len(mild)
    assert len(mild) > 2000
    assert by_share == pytest.approx(by_dew, rel=0.01)


def test_coverings_and_vapour_have_their_lists(capsys):
    assert main(["catalogue", "list", "coverings"]) == 0
    assert "wood-glued" in capsys.readouterr().out
    assert main(["catalogue", "show", "wood-glued"]) == 0
    assert "75 %" in capsys.readouterr().out
    assert tomllib.loads(BRIEF)["floor"]["build-up"][0] == {"covering": "vinyl-sheet"}


RUGS = BRIEF.replace("touched-by = []", 'touched-by = []\nfurnishing = ["rug", "mattress"]')


def edge_line(text: str):
    resolved = resolve(reads(text).brief)
    (edge,) = solved_edges(resolved)
    assert resolved.damp is not None
    return resolved, edge, profile(resolved, edge, "edge")


@pytest.mark.parametrize(("thing", "resistance", "radius"), [("rug", 0.21, 1.128), ("mattress", 3.0, 0.944)])
def test_below_a_rug_the_floor_is_as_cold_as_its_resistances_make_it(thing, resistance, radius):
    """Film 0.17, layers, ground π a / (4 · 1.5); the underside of the open floor from the section; Magnus's formula."""
    found = one(RUGS, MOULD, below=thing)
    resolved, _, line = edge_line(RUGS)
    layers = sum(layer.thickness / layer.conductivity for layer in resolved.floor if layer.kind != "gravel")
    ground = 3.14159 * radius / 6.0
    assert found.months is not None
    for month, said in enumerate(found.months):
        room, under = resolved.damp.warmth[month], float(line.warmth[month, -1])
        open_floor = (room - under) / (0.17 + layers)
        below = open_floor * (0.17 + layers + ground) / (0.17 + layers + ground + resistance)
        degrees = room - below * (0.17 + resistance)
        assert said == pytest.approx(100.0 * resolved.damp.room[0][month] / magnus(degrees), rel=0.005)


def test_what_keeps_more_warmth_off_the_floor_makes_it_damper():
    thin, thick = one(RUGS, MOULD, below="rug"), one(RUGS, MOULD, below="mattress")
    assert thin.value < thick.value
    bare = RUGS.replace('  { board = "c578-iv", thickness = "50 mm" },\n', "")
    assert one(bare, MOULD, below="rug").value > thin.value
    assert thick.verdict == "falls short" and "Mould grows there" in thick.words and thick.caution


def test_an_open_floor_by_resistances_is_as_warm_as_in_the_solved_section():
    """With nothing on it the way by resistances gives what the section gives: within 0.3 K, what the slab stores."""
    resolved, _, line = edge_line(BRIEF)
    layers = sum(layer.resistance for layer in line.layers)
    for month in range(12):
        room, under = resolved.damp.warmth[month], float(line.warmth[month, -1])
        by_hand = below_a_patch(room, under, line.film, layers, 0.0, 2.0, 1.5)
        assert by_hand == pytest.approx(float(line.warmth[month, 0]), abs=0.3)


def test_below_a_rug_nothing_can_be_told_where_the_open_air_decides_and_typing_it_tells():
    bare = RUGS.replace(HUMID, "")
    found = one(bare, MOULD, below="rug")
    assert (found.verdict, found.missing) == ("cannot tell", "site.humidity")
    assert one(RUGS, MOULD, below="rug").verdict in ("meets", "falls short")


def test_what_stands_on_a_slab_outdoors_is_not_asked_for():
    with pytest.raises(Mistakes) as told:
        reads(outdoors().replace("[floor]\n", '[floor]\nfurnishing = ["rug"]\n'))
    assert "floor.furnishing" in str(told.value)


def laid(how: str) -> str:
    return BRIEF.replace('"film-15-mil" }', f'"film-15-mil", seams = "{how}" }}')


@pytest.mark.parametrize(("how", "beside"), [("taped", 0.0), ("lapped", 0.47), ("open", 5.0)])
def test_seams_add_to_what_a_film_lets_through(how, beside):
    """s_d of the film: 2e-10 over 1.1 ng and what its seams add; the film's own record stays what it is held to."""
    said = [step for step in one(laid(how), WITHIN, place="centre", of="most").steps if "film" in step.formula]
    assert len(said) == 1
    assert float(said[0].result.split()[0]) == pytest.approx(200.0 / (1.1 + beside), abs=0.006)
    film = one(laid(how), "moisture.film", asks="permeance")
    assert film.value == 1.1
    assert f"{1.1 + beside:.2g}" in film.words or f"{1.1 + beside:.1f}" in film.words


def test_a_film_whose_seams_nobody_tells_says_that_they_count_as_tight():
    assert "count as tight" in one(BRIEF, "moisture.film", asks="permeance").words
    assert "count as tight" not in one(laid("lapped"), "moisture.film", asks="permeance").words


def test_tears_let_more_of_the_drive_below_a_covering_than_taped_seams():
    """Each month they part as vapour is driven: up out of the ground damper, down into it drier."""
    taped, torn = (one(laid(how), UNDER, place="centre").months for how in ("taped", "open"))
    drive = one(BRIEF, DRIVE).months
    apart = [more - less for less, more in zip(taped, torn, strict=True)]
    assert any(each > 0.0 for each in drive) and any(each < 0.0 for each in drive)
    assert max(map(abs, apart)) > 0.2
    for each, pressure in zip(apart, drive, strict=True):
        assert each * pressure >= 0.0


def test_the_layer_that_dries_is_named_by_its_label():
    assert {f.at["layer"] for f in as_briefed(BRIEF).findings if f.id == "moisture.drying"} == {"Concrete"}


def test_open_air_in_frost_is_told_over_water_and_a_frozen_surface_over_ice():
    """At −20 °C 125.4 Pa over water and 103.2 over ice (Smithsonian Meteorological Tables, from memory)."""
    assert vapour_pressure(-20.0, 1.0) == pytest.approx(125.4, rel=0.01)
    assert saturation_pressure(-20.0) == pytest.approx(103.2, rel=0.01)
    assert vapour_pressure(12.0, 0.5) == pytest.approx(0.5 * saturation_pressure(12.0))
