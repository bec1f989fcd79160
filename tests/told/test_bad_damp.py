"""What can be typed wrong about damp, water and termites: the one list, with words and exit status, nothing changed.

A covering whose limit nobody knows is no mistake: it is answered with a limit that is assumed and asked.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from underpour.ask import asked
from underpour.brief import reads
from underpour.checks import drying
from underpour.cli import main
from underpour.resolve import resolve

SITE, HUMID = 'ground = "clay-or-silt"\n', 'humidity = ["72 %"]\n'
BRIEF = f"""\
[project]
use = "basement"
units = "US"
[site]
place = "Duluth, MN"
{SITE}{HUMID}[plan]
outline = ["0 0", "30 0", "30 24", "0 24"]
unit = "ft"
[floor]
inside = "68 F"
humidity = "45 %"
touched-by = []
build-up = [
  {{ covering = "other" }},
  {{ concrete = "4 in" }},
  {{ vapour-retarder = "own-film" }},
  {{ board = "plain-15", thickness = "2 in" }},
  {{ gravel = "4 in" }},
]
[[edge]]
sides = "all"
kind = "footing-wall"
depth = "20 in"
ground = "54 in"
wall = [{{ concrete = "8 in" }}]
"""
FILM = """\
[[product]]
key = "own-film"
kind = "film"
name = "Own film"
made = [{ thickness = "15 mil" }]
  [[product.evidence]]
  property = "permeance-film"
  value = 0.012
  unit = "perm"
  method = "ASTM E96 procedure B"
  statistic = "each"
  conditions = { thickness = "15 mil" }
  laboratory = "third party"
  date = 2025-06-10
  expires = 2028-06-10
  certificate = "EX-1"
"""
LINE = f'[maker]\nname = "Example Films"\ninvented = true\n{FILM}'
IN_BRIEF, IN_LINE = "brief.toml", "catalogue/films.toml"
OTHER, LIMIT = '  { covering = "other" },\n', 'covering-limit = "80 %"\n'
COVERED = f"touched-by = []\nbuild-up = [\n{OTHER}"
OPEN_SITE = 'water-table = "60 in"\ndrained = false\n'

# What is wrong: which file, what is typed in place of what, and words of what is told.
BAD = [
    ("humidity over 100 %", IN_BRIEF, HUMID, 'humidity = ["140 %"]\n', ("site.humidity", "140 %", "100 %")),
    ("a room over 100 %", IN_BRIEF, '"45 %"', '"101 %"', ("floor.humidity", "101 %", "100 %")),
    ("a limit over 100 %", IN_BRIEF, "touched-by", 'covering-limit = "130 %"\ntouched-by',
     ("floor.covering-limit", "130 %", "100 %")),
    ("a limit of no covering", IN_BRIEF, COVERED, LIMIT + COVERED.replace(OTHER, ""),
     ("floor.covering-limit", "no covering lies on this floor")),
    ("a film of negative permeance", IN_LINE, "value = 0.012", "value = -0.012",
     ("floor.build-up.3.vapour-retarder", "Own film", "EX-1", "no film lets so little", "as the report has it")),
    ("a film that lets nothing through", IN_LINE, "value = 0.012", "value = 0.0", ("so little", "the least that")),
    ("a film without a unit", IN_LINE, '  unit = "perm"\n', "", ("lacks a permeance with its unit",)),
    ("two films of one name", IN_LINE, FILM, f"{FILM}{FILM}", ("own-film", "films.toml")),
    ("a film that is none", IN_BRIEF, '"own-film"', '"plain-15"', ("plain-15", "film")),
    ("a flood above the roof", IN_BRIEF, SITE, f'{SITE}flood-level = "40 ft"\n',
     ("site.flood-level", "40 ft", "above the roof", "8 ft")),
    ("a flood of nothing", IN_BRIEF, SITE, f'{SITE}flood-level = "0 ft"\n', ("wets nothing",)),
    ("a flood without a unit", IN_BRIEF, SITE, f'{SITE}flood-level = "2"\n', ("2 of what?",)),
    ("a drain to nowhere known", IN_BRIEF, SITE, f'{SITE}drain-outlet = "the creek"\n', ("the creek", "daylight")),
    ("termites of no map", IN_BRIEF, SITE, f'{SITE}termites = "many"\n', ("many", "very-heavy")),
    ("a barrier nobody knows", IN_BRIEF, SITE, f'{SITE}termite-barrier = "paint"\n', ("paint", "shield")),
    ("sulphate of no class", IN_BRIEF, SITE, f'{SITE}sulphate = "XA1"\n', ("XA1", "S0")),
    ("a floor in the water", IN_BRIEF, SITE, SITE + OPEN_SITE, ("site.drained", "Raise the floor")),
]  # fmt: skip


def folder(at: Path, file: str, typed: str, wanted: str) -> Path:
    texts = {IN_BRIEF: BRIEF, IN_LINE: LINE}
    assert typed in texts[file]
    texts[file] = texts[file].replace(typed, wanted, 1)
    (at / "catalogue").mkdir()
    for name, text in texts.items():
        (at / name).write_text(text, "utf-8")
    return at / IN_BRIEF


def held(at: Path) -> dict[str, bytes]:
    return {str(path.relative_to(at)): path.read_bytes() for path in sorted(at.rglob("*")) if path.is_file()}


@pytest.mark.parametrize(("file", "typed", "wanted", "words"), [row[1:] for row in BAD], ids=[row[0] for row in BAD])
def test_what_cannot_be_meant_is_told_and_nothing_in_the_folder_changes(file, typed, wanted, words, tmp_path, capsys):
    brief = folder(tmp_path, file, typed, wanted)
    before = held(tmp_path)
    assert main(["answer", str(brief)]) == 2
    told = capsys.readouterr()
    for word in words:
        assert word in told.err
    assert "on our side" not in told.err and not told.out
    assert held(tmp_path) == before


def test_the_sound_folder_is_answered(tmp_path, capsys):
    brief = folder(tmp_path, IN_BRIEF, SITE, SITE)
    before = held(tmp_path)
    assert main(["answer", str(brief)]) in (0, 1)
    assert held(tmp_path) == before
    assert "Own film" in capsys.readouterr().out


PLAIN = BRIEF.replace("own-film", "film-15-mil")


def limit(text: str) -> float:
    resolved = resolve(reads(text).brief)
    covering = resolved.floor[0].covering
    assert covering is not None
    return covering.slab_humidity.value


def test_a_covering_without_a_limit_is_asked_and_what_its_maker_says_takes_its_place():
    taken = next(each for each in resolve(reads(PLAIN).brief).assumed if each.path == "floor.covering-limit")
    assert (taken.low, taken.value, taken.high) == (65.0, 75.0, 95.0) and "ASTM F710" in taken.why
    of = asked(reads(PLAIN))
    assert "floor.covering-limit" in {each.path for each in of.open}
    typed = PLAIN.replace("touched-by", 'covering-limit = "85 %"\ntouched-by')
    resolved = resolve(reads(typed).brief)
    assert not [each for each in resolved.assumed if each.path == "floor.covering-limit"]
    days = {text: next(iter(drying.concrete(resolve(reads(text).brief)))).value for text in (PLAIN, typed)}
    assert (limit(PLAIN), limit(typed)) == (75.0, 85.0) and days[typed] < days[PLAIN] / 3.0


def test_what_a_maker_says_goes_before_the_kind_of_covering():
    vinyl = PLAIN.replace('"other"', '"vinyl-sheet"')
    assert limit(vinyl) == 75.0
    assert limit(vinyl.replace("touched-by", 'covering-limit = "90 %"\ntouched-by')) == 90.0
