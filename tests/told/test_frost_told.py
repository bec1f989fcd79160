"""What a person reads about frost: verdicts that ask for one key, refusals of the rules, and bad input in words."""

from __future__ import annotations

import re
from functools import cache

import pytest
from refused import Bad, held_to

from underpour.answer import answer, solved_brief
from underpour.brief import reads
from underpour.brief.alternatives import AS_BRIEFED
from underpour.checks.frost import rules
from underpour.dossier import Answer
from underpour.findings import Finding

HOUSE = """\
[project]
use = "dwelling"
units = "US"
code = "irc-2018"

[site]
place = "Minneapolis, MN"
humidity = ["70 %"]
ground = "silty-clay-moist"
freezing-index = "2500 °F·d"

[plan]
outline = ["0 0", "30 0", "30 24", "0 24"]
unit = "ft"

[floor]
inside = "68 F"
build-up = [{ concrete = "4 in" }, { board = "plain-25", thickness = "2 in" }, { gravel = "4 in" }]

[[edge]]
sides = "all"
kind = "thickened-edge"
depth = "22 in"
ground = "-6 in"
thickening = { width = "12 in", slope = "45 deg" }
insulation = [
  { board = "plain-25", thickness = "2 in", face = "slab-edge" },
  { board = "plain-25", thickness = "2 in", face = "wing", out = "24 in", at = "18 in" },
]
"""
WALK = """\
[project]
use = "walk"
units = "US"

[site]
place = "Buffalo, NY"
ground.conductivity = "1.5 W/(m·K)"
ground.heat-capacity = "2.6 MJ/(m³·K)"
ground.water = "300 kg/m³"
ground.frozen-conductivity = "2.2 W/(m·K)"
freezing-index = "1300 °F·d"

[plan]
outline = ["0 0", "30 0", "30 6", "0 6"]
unit = "ft"

[floor]
build-up = [{ concrete = "4 in" }, { gravel = "4 in" }]

[[edge]]
sides = "all"
kind = "free-edge"
ground = "-1 in"
"""


@cache
def answered(text: str) -> Answer:
    return answer(reads(text)).as_briefed


def of(text: str, id: str, **at: object) -> Finding:
    return answered(text).find(id, **at)


@cache
def ruled(text: str) -> tuple[Finding, ...]:
    """What the rules say, without a winter worked out."""
    reading = reads(text)
    resolved, edges = solved_brief(reading, AS_BRIEFED, reading.brief)
    return tuple(finding for edge in edges for finding in rules(resolved, edge))


def rule(text: str, **at: object) -> Finding:
    (found,) = (f for f in ruled(text) if all(f.at.get(key) == value for key, value in at.items()))
    return found


def without_index(text: str) -> str:
    return re.sub(r"freezing-index = .*\n", "", text)


def test_a_house_by_the_table_and_by_calculation_side_by_side():
    vertical = rule(HOUSE, asks="vertical")
    assert vertical.limit == pytest.approx(6.7 * 0.17611, abs=1e-3) and vertical.verdict == "meets"
    assert rule(HOUSE, asks="along-walls").limit == pytest.approx(1.7 * 0.17611, abs=1e-3)
    assert "letters of its figure" in rule(HOUSE, asks="along-walls").words
    footing = of(HOUSE, "frost.depth", place="footing")
    assert footing.verdict == "meets" and footing.within < 0.05
    assert "building official" in footing.caution and "structural engineer" in footing.caution
    told = of(HOUSE, "frost.depth", place="open ground")
    assert [step.symbol for step in told.steps[3:6]] == ["Stefan", "Berggren", "ISO 13793"]


def test_from_a_mean_year_no_finding_of_frost_meets_and_the_reserve_is_told():
    found = [f for f in answered(without_index(HOUSE)).findings if f.id.startswith("frost.")]
    assert found == [], "nothing of frost is asked: the papers say that it was not checked"
    text = without_index(HOUSE).replace("[site]", '[site]\nfines = "30 %"')
    found = [f for f in answered(text).findings if f.id.startswith("frost.")]
    assert found and all(f.verdict in ("cannot tell", "falls short", "does not apply") for f in found)
    footing = of(text, "frost.depth", place="footing")
    assert footing.missing == "site.freezing-index"
    for words in ("Only a year of mean weather", "fall short from about", "1.5 times", "3.2 times in Brussels"):
        assert words in footing.words
    assert of(HOUSE, "frost.depth", place="footing").verdict == "meets", "typing the key gives another verdict"


def test_a_mean_year_that_lifts_a_slab_falls_short_whatever_hard_winters_bring():
    text = without_index(WALK).replace("[site]", '[site]\nfines = "20 %"\nwater-table = "6 ft"')
    heave = of(text, "frost.heave")
    assert heave.verdict == "falls short" and heave.value > 0.2


@pytest.mark.parametrize(
    ("typed", "verdict", "missing"),
    [
        ("", "cannot tell", "site.fines"),
        ('fines = "20 %"', "cannot tell", "site.water-table"),
        ('fines = "20 %"\nwater-table = "6 ft"', "falls short", ""),
        ('fines = "2 %"\nwater-table = "6 ft"', "meets", ""),
        ('fines = "20 %"\nwater-table = "60 ft"', "meets", ""),
        ('fines = "20 %"\ndrained-layer = "48 in"', "meets", ""),
        ('fines = "20 %"\nwater-table = "6 ft"\ndrained-layer = "12 in"', "falls short", ""),
    ],
    ids=["no fines", "no water", "all three", "clean", "deep water", "drained", "drained too thin"],
)
def test_heave_needs_frost_fine_ground_and_water_and_asks_for_the_one_that_nobody_tells(typed, verdict, missing):
    heave = of(WALK.replace("[site]", f"[site]\n{typed}"), "frost.heave")
    assert (heave.verdict, heave.missing) == (verdict, missing)
    assert [step.symbol for step in heave.steps] == ["frost", "ground", "water"]
    assert "must not be tied to a footing" in heave.words and "building official" in heave.caution


def test_the_drained_layers_condition_is_printed_for_the_inspector():
    heave = of(WALK.replace("[site]", '[site]\nfines = "20 %"\ndrained-layer = "48 in"'), "frost.heave")
    assert "the inspector looks at: 4 ft (1.22 m) of clean stone that drains" in " ".join(heave.words.split())


@pytest.mark.parametrize(
    ("was", "typed", "words"),
    [
        ('inside = "68 F"', 'inside = "55 F"', "the table is for buildings of"),
        ("2500 °F·d", "4500 °F·d", "lies beyond the table"),
        ('sides = "all"', 'sides = "all"\nbeside = "unheated"', "beside an unheated space"),
    ],
    ids=["half heated", "colder than the table", "beside a garage"],
)
def test_the_table_is_refused_with_its_reason_and_the_calculation_instead(was, typed, words):
    refused = rule(HOUSE.replace(was, typed), edition="irc-2018")
    assert refused.verdict == "does not apply"
    assert words in refused.words and "frost.depth" in refused.words


def test_a_floor_of_more_than_the_standards_resistance_is_refused_by_it():
    foam = '{ board = "plain-25", thickness = "4 in" }'
    text = HOUSE.replace('{ board = "plain-25", thickness = "2 in" }, { gravel', f"{foam}, {foam}, {{ gravel")
    refused = rule(text, edition="iso-13793-2001")
    assert refused.verdict == "does not apply" and "the standard ends at" in refused.words


def test_an_index_between_two_rows_is_held_to_a_straight_line_between_them():
    """2750 °F·d: 7.25 down the footing and 4.1 along the wall, of 6.7 and 7.8, 1.7 and 6.5."""
    text = HOUSE.replace("2500 °F·d", "2750 °F·d")
    assert rule(text, asks="vertical").limit == pytest.approx(7.25 * 0.176110, abs=2e-4)
    assert rule(text, asks="along-walls").limit == pytest.approx(4.1 * 0.176110, abs=2e-4)


def test_a_deep_footing_is_asked_for_the_frost_line_before_the_table_is_held():
    deep = HOUSE.replace('kind = "thickened-edge"', 'kind = "frost-wall"').replace('depth = "22 in"', 'depth = "60 in"')
    deep = re.sub(r"thickening = .*\n", "", deep)
    assert rule(deep, edition="irc-2018").missing == "site.frost-depth"
    told = rule(deep.replace("[site]", '[site]\nfrost-depth = "42 in"'), edition="irc-2018")
    assert told.verdict == "does not apply" and "below the frost line" in told.words


STAGES = HOUSE + "".join(
    f'\n[[stage]]\nwhat = "{what}"\nfrom = "{day}"\n'
    for what, day in (
        ("poured", "1 October"), ("roofed", "1 December"), ("heated", "1 March"), ("heat-out", "20 January"),
        ("vacant", "1 November"),
    )
)  # fmt: skip


def test_each_stage_is_told_and_a_building_without_heat_freezes_deeper_than_one_in_use():
    depth = {f.at["stage"]: f for f in answered(STAGES).findings if f.at.get("place") == "footing"}
    assert list(depth) == ["in use", "poured", "roofed", "heated", "heat-out", "vacant"]
    assert depth["in use"].value < depth["heat-out"].value < depth["roofed"].value < depth["heated"].value
    assert depth["in use"].value <= depth["vacant"].value < depth["heat-out"].value
    assert depth["roofed"].verdict == "falls short" and "as cold as outdoors" in depth["roofed"].words
    worst = of(STAGES, "frost.heave")
    assert worst.missing == "site.water-table" and "in the first winter of heating" in worst.words


def test_frozen_ground_is_refused_by_the_rules_and_its_thaw_is_told_with_a_specialist_named():
    text = HOUSE.replace("Minneapolis, MN", "Fairbanks, AK").replace("2500 °F·d", "6000 °F·d")
    told = answered(text)
    assert {f.verdict for f in told.findings if f.id == "frost.rule"} == {"does not apply"}
    thaw = told.find("frost.thaw")
    assert thaw.verdict == "stated" and thaw.value > 1.0
    assert "specialist for frozen ground" in thaw.words and "specialist for frozen ground" in thaw.caution
    assert not [f for f in told.findings if f.id in ("frost.depth", "frost.heave")]


INDEX = 'freezing-index = "2500 °F·d"'
LAST = 'at = "18 in" },\n]'


def stage(*pairs: tuple[str, str]) -> str:
    return LAST + "".join(f'\n[[stage]]\nwhat = "{what}"\nfrom = "{day}"' for what, day in pairs)


BAD = [
    Bad("a frost depth", INDEX, 'freezing-index = "60 in"', ("60 in is a depth", 'frost-depth = "60 in"')),
    Bad("degree-hours", INDEX, 'freezing-index = "30000 K·h"', ("counts hours", "1250 K·d")),
    Bad("no unit", INDEX, 'freezing-index = "2500"', ("2500 of what?", "13.3", '"2500 °F·d"')),
    Bad("colder than any winter", INDEX, 'freezing-index = "7000 K·d"', ("than any winter", '"7000 °F·d"', "meant?")),
    Bad("hours called days", INDEX, 'freezing-index = "33000 °F·d"', ("colder than any winter", '"1375 K·d"')),
    Bad("below zero", INDEX, 'freezing-index = "-5 K·d"', ("below zero",)),
    Bad("deep snow", INDEX, f'{INDEX}\nsnow = "12 ft"', ("Snow does not lie 12 ft deep", "up to 3 m")),
    Bad("a day of numbers", LAST, stage(("poured", "10/11")), ("which number is the month", "15 October")),
    Bad("no day", LAST, stage(("poured", "31 June")), ("31 June is no day of the year",)),
    Bad(
        "out of order", LAST, stage(("poured", "1 December"), ("roofed", "1 October")),
        ("Roofed from 1 October lies before poured from 1 December",),
    ),
    Bad("the same day", LAST, stage(("poured", "1 December"), ("roofed", "1 December")), ("lies before poured",)),
    Bad("twice", LAST, stage(("vacant", "1 December"), ("vacant", "1 October")), ("vacant is told twice",)),
    Bad("an unknown stage", LAST, stage(("plastered", "1 December")), ("plastered",)),
    Bad("too small for the place", "Minneapolis, MN", "Fairbanks, AK", ("has an index of",)),
    Bad(
        "a wing over the footing", 'kind = "thickened-edge"\ndepth = "22 in"',
        'kind = "frost-wall"\ndepth = "40 in"\nwall = [{ concrete = "8 in" }]\n'
        'footing = { width = "60 in", height = "10 in" }',
        ("ends above the footing",),
    ),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_bad_input_about_frost_is_told_in_words(bad, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    good = HOUSE
    if bad.what == "too small for the place":
        good = HOUSE.replace("2500 °F·d", "200 °F·d")
    if bad.what == "a wing over the footing":
        good = re.sub(r"thickening = .*\n", "", HOUSE)
    held_to(good, bad, tmp_path, capsys)


def test_a_slab_outdoors_has_no_stages(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    late = 'ground = "-1 in"\n[[stage]]\nwhat = "poured"\nfrom = "1 May"'
    bad = Bad("stages outdoors", 'ground = "-1 in"', late, ("A slab outdoors has no room that is roofed",))
    held_to(WALK, bad, tmp_path, capsys)


def test_water_that_does_not_fit_the_ground_is_told(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    held_to(WALK, Bad("water", '"300 kg/m³"', '"900 kg/m³"', ("alone stores more heat",)), tmp_path, capsys)
