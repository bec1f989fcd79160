"""Ground, year and room that cannot be, the whole way through the command: words, status 2, a folder left as it was."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest
from tests import weather_files as files
from tests.told.refused import contents

from underpour.brief import reads
from underpour.cli import main

GOOD = """\
[project]
use = "dwelling"
units = "SI"

[site]
weather = "weather.epw"
ground = "clay-or-silt"

[plan]
unit = "m"
outline = ["0 0", "12 0", "12 8", "0 8"]

[floor]
inside = { winter = "20 C", summer = "24 C" }
build-up = [{ concrete = "100 mm" }, { gravel = "100 mm" }]

[[edge]]
sides = [1, 2]
kind = "raft"

[[edge]]
sides = [3, 4]
kind = "free-edge"
"""
YEAR = files.hours(files.GOLDEN)
WEATHER = 'weather = "weather.epw"'
CLAY = 'ground = "clay-or-silt"'
ROOM = 'inside = { winter = "20 C", summer = "24 C" }'
LAYERS = 'layers = [{ ground = "sand", thickness = "1 m" }, { ground = "clay" }]'


@dataclass(frozen=True)
class Bad:
    what: str
    was: str
    typed: str
    words: tuple[str, ...]


BAD = [
    Bad("sides that do not add up to the outline", "sides = [3, 4]", "sides = [3]",
        ("brief.toml:17  edge", "No edge takes side 4.", 'sides = "rest"')),
    Bad("a side claimed twice", "sides = [3, 4]", "sides = [2, 3, 4]",
        ("brief.toml:22  edge.B.sides", "Side 2 belongs to edge A already.")),
    Bad("a side that there is not", "sides = [3, 4]", "sides = [3, 4, 5]",
        ("brief.toml:22  edge.B.sides.3 = 5", "The outline has 4 sides; there is no side 5.")),
    Bad("a weather year with a gap", WEATHER, 'weather = "gap.epw"',
        ("brief.toml:6  site.weather", "24 hours are missing: after 8 July 24:00 comes 10 July 01:00.")),
    Bad("weather at a pace that its hours do not have", WEATHER, 'weather = "quarters.epw"',
        ("brief.toml:6  site.weather", 'DATA PERIODS says "4" rows for each hour.', "hourly file")),
    Bad("set-points that cross", ROOM, 'inside = { winter = "24 C", summer = "20 C" }',
        ("brief.toml:14  floor.inside.summer", "The two cross: this room would be kept at 20 C in summer",
         "Swap them, or write the one temperature")),
    Bad("two grounds for one place", CLAY, f"{CLAY}\n{LAYERS}",
        ("brief.toml:8  site.layers", "ground and layers both say what the ground is.", "Keep one")),
    Bad("two coverings for one place", CLAY, f'{CLAY}\nsurface = "turf"\nsnow = "300 mm"',
        ("brief.toml:9  site.snow", "surface and snow both say", "Keep one")),
    Bad("two airs for one place", WEATHER, f'{WEATHER}\nmonthly = ["1 C", "1 C", "5 C", "9 C", "13 C", "16 C", "18 C", '
        '"18 C", "14 C", "10 C", "5 C", "2 C"]',
        ("brief.toml:6  site.weather", "monthly and weather both say how cold it is.", "Keep one of the two.")),
    Bad("sun of seven months", CLAY, f'{CLAY}\nsurface = {{ sun = ["50 W/m²", "60 W/m²", "90 W/m²", "150 W/m²", '
        '"200 W/m²", "210 W/m²", "200 W/m²"] }',
        ("brief.toml:8  site.surface.sun", "sun has 7 values; a year has twelve months.")),
]  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A job with its weather, whole and with a day missing."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "300")
    (tmp_path / "weather.epw").write_text(files.epw(files.GOLDEN), "utf-8")
    gap = tuple(hour for hour in YEAR if hour[:2] != (7, 9))
    (tmp_path / "gap.epw").write_text(files.epw(files.GOLDEN, gap), "utf-8")
    (tmp_path / "quarters.epw").write_text(files.epw(files.GOLDEN, an_hour=4), "utf-8")
    return tmp_path


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_ground_and_year_that_cannot_be_are_told_and_nothing_is_touched(bad, folder, capsys):
    assert GOOD.count(bad.was) == 1
    (folder / "brief.toml").write_text(GOOD.replace(bad.was, bad.typed), "utf-8")
    before = contents(folder)
    status = main(["answer", "brief.toml"])
    told = capsys.readouterr()
    assert status == 2, told
    assert told.out == ""
    assert "Traceback" not in told.err
    for words in bad.words:
        assert words in told.err
    assert contents(folder) == before


def test_the_brief_that_they_are_made_from_is_answered(folder, capsys):
    (folder / "brief.toml").write_text(GOOD, "utf-8")
    assert main(["answer", "brief.toml"]) in (0, 1)
    assert capsys.readouterr().out


@pytest.mark.parametrize("summer", ["20 C", "20.5 C"])
def test_set_points_that_touch_do_not_cross(summer):
    assert reads(GOOD.replace('summer = "24 C"', f'summer = "{summer}"')).brief.floor.inside is not None
