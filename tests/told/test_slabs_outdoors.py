"""A slab outdoors: what is said of it, what is not asked of it, and that its pictures name no room."""

from __future__ import annotations

import re
from functools import cache

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.cli.terminal import answer_text
from underpour.dossier import Dossier
from underpour.drawings.facts import corner_temperature
from underpour.drawings.through_the_year import moments, through_the_year, year_scale
from underpour.handouts.pictures import comparison, for_submittal, section
from underpour.mistakes import Mistakes
from underpour.pages.content import sheet
from underpour.papers.content import content

BRIEF = """
[project]
use = "{use}"
units = "US"
[site]
monthly = [{months}]
ground = {{ conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" }}
[plan]
outline = ["0 0", "20 0", "20 6", "0 6"]
unit = "ft"
[floor]
build-up = [{{ concrete = "4 in" }}, {{ board = "plain-25", thickness = "2 in" }}, {{ gravel = "6 in" }}]
[[edge]]
sides = "all"
kind = "free-edge"
[[alternative]]
name = "bare slab"
remove = ["board"]
"""
COLD = (-9, -8, -3, 3, 9, 14, 16, 15, 10, 4, -2, -7)
FROST = {"site.ground.water", "site.ground.frozen-conductivity"}  # of the ground that freezes under the sky
WATER = "foam.water.plain-25"  # what the foam holds, assumed of every board that lies in the ground
ROOMS = ("heat.loss", "heat.u-floor", "heat.edge", "heat.floor-coldest", "heat.corner-coldest")
OUTDOOR_WORDS = (
    "drive", "driveway", "ramp", "yard", "apron", "forecourt",
    "walk", "sidewalk", "path", "pavement", "steps", "terrace", "patio",
)  # fmt: skip


def text(use: str = "walk", warmer: float = 0.0, brief: str = BRIEF) -> str:
    return brief.format(use=use, months=", ".join(f'"{t + warmer} C"' for t in COLD))


@cache
def dossier(use: str = "walk", warmer: float = 0.0) -> Dossier:
    return answer(reads(text(use, warmer), "brief.toml"))


def plain(words: str) -> str:
    return " ".join(words.replace("\N{THIN SPACE}", " ").split())


@pytest.mark.parametrize("use", OUTDOOR_WORDS)
def test_every_word_for_a_slab_outdoors_is_answered_without_a_room(use):
    found = dossier(use).as_briefed.findings
    assert not [f.id for f in found if f.id.startswith(ROOMS)]
    assert {(f.id, f.words) for f in found if f.verdict == "does not apply" and f.id.startswith("moisture.")} == {
        ("moisture.surface-factor", "No room lies over this slab."),
        ("moisture.film", "No room lies over this slab; no film is asked for below it."),
    }
    assert [f.at["place"] for f in found if f.id == "heat.ground-temperature"] == ["edge", "middle"]


def test_no_room_is_assumed_and_the_ground_is_taken_an_inch_lower():
    taken = {a.path: a.value for a in dossier().assumed if a.path not in {WATER, *FROST}}
    assert taken == {"edge.A.ground": -0.025, "site.surface.freezing": 1.0, "site.surface.thawing": 1.0}
    assert "below the slab: no foam" in plain(dossier().as_briefed.summary[-1])


def test_frozen_ground_is_told_against_the_same_slab_without_foam_and_defers_to_the_code():
    at_edge = dossier().as_briefed.find("heat.ground-temperature", place="edge")
    bare = dossier().alternatives[1].find("heat.ground-temperature", place="edge")
    assert at_edge.value < 0.0 and bare.value < at_edge.value
    assert plain(at_edge.words) == (
        "Under edge A it freezes in a year of mean weather. "
        f"Without any foam it falls to {bare.value * 1.8 + 32:.1f} °F."
    )
    assert "frost, ground that draws water up, and water" in at_edge.caution and "local code" in at_edge.caution
    assert at_edge.caution in dossier().cautions

    assert len(at_edge.months) == 12 and min(at_edge.months) == at_edge.value and at_edge.within is not None


def test_the_middle_is_told_once_by_the_longest_edge():
    text = BRIEF.format(use="drive", months=", ".join(f'"{t} C"' for t in COLD))
    head, foot = text.split("[[edge]]")
    short = '[[edge]]\nsides = [2, 4]\nkind = "free-edge"\n[[edge]]'
    both = answer(reads(head + short + foot.replace('sides = "all"', "sides = [1, 3]"))).as_briefed
    middle = [f.at["edge"] for f in both.findings if f.at.get("place") == "middle"]
    assert middle == ["B"]
    assert [f.at["edge"] for f in both.findings if f.at.get("place") == "edge"] == ["A", "B"]


def test_radon_is_spoken_of_only_where_there_is_a_room():
    outdoors = dossier().cautions
    text = BRIEF.format(use="workshop", months=", ".join(f'"{t} C"' for t in COLD))
    room = answer(reads(text.replace("[floor]", '[floor]\ninside = "20 C"'))).cautions
    assert not any("radon" in caution for caution in outdoors)
    assert [caution for caution in room if "radon" in caution]
    assert room[:4] == outdoors[:4]


def test_ground_that_stays_warm_is_told_without_a_word_of_frost():
    for answered in dossier(warmer=15.0).alternatives:
        for place in ("edge", "middle"):
            finding = answered.find("heat.ground-temperature", place=place)
            assert finding.value > 0.0 and finding.words == "" and finding.caution == ""


def test_foam_that_keeps_the_ground_from_freezing_says_so():
    warm = answer(reads(text(warmer=5.0).replace('thickness = "2 in"', 'thickness = "4 in"'), "brief.toml"))
    finding = warm.as_briefed.find("heat.ground-temperature", place="middle")
    assert finding.value > 0.0 > warm.alternatives[1].find("heat.ground-temperature", place="middle").value
    assert "Under the middle it does not freeze in a year of mean weather. Without any foam" in plain(finding.words)


def test_terminal_pictures_and_paper_name_no_room_no_corner_and_no_wall():
    one, two = section(dossier(), "A"), comparison(dossier(), "A")
    drawn = [" ".join(re.findall(r">([^<]+)<", svg)) for svg in (one, two)]
    printed = str(content(dossier(), for_submittal(dossier()), "27 November 2026"))
    said = answer_text(dossier(), 80)
    for words in (*drawn, printed.replace(dossier().brief_text, ""), said):
        assert "outdoors" in words or words is said
        assert not re.search(
            r"room \N{MINUS SIGN}?\d|Where floor and wall meet|where floor and wall meet|Corner \d", words
        )
    assert "freezing" in drawn[0] and "ground, coldest" in drawn[0]
    assert "Under the slab&#x27;s edge" in two or "Under the slab's edge" in two


def test_sun_snow_and_hard_winters_are_said_not_to_be_counted():
    assert any("Sun, rain, snow lying on it" in note for note in dossier().notes)
    assert not any("kept below freezing" in note for note in dossier().notes)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('kind = "free-edge"', 'kind = "raft"', "A raft stands under a wall. A walk lies outdoors and bears none."),
        (
            'kind = "free-edge"',
            'kind = "free-edge"\nabove = [{{ timber-frame = "5.5 in" }}]',
            "no wall stands on its edge",
        ),
        ("[floor]", '[floor]\ninside = "68 F"', "there is no room over it to be kept warm"),
        ("[floor]", '[floor]\nhumidity = "50 %"', "no room's humidity is asked for"),
    ],
)
def test_what_needs_a_room_is_told_where_it_was_typed(old, new, says):
    with pytest.raises(Mistakes) as refused:
        reads(text(brief=BRIEF.replace(old, new, 1)), "brief.toml")
    assert len(refused.value.found) == 1 and says in str(refused.value)


def test_a_heated_room_tells_the_ground_under_its_edge_once():
    room = text("workshop").replace("[floor]", '[floor]\ninside = "68 F"\nhumidity = "40 %"')
    found = [f for f in answer(reads(room, "brief.toml")).as_briefed.findings if f.id == "heat.ground-temperature"]
    assert [f.at for f in found] == [{"edge": "A", "place": "edge"}]


def test_under_a_frozen_room_the_middle_is_told_too():
    wide = text("freezer").replace("20 0", "200 0").replace("20 6", "200 90").replace("0 6", "0 90")
    room = wide.replace("[floor]", '[floor]\ninside = "-10 F"\nhumidity = "80 %"')
    findings = answer(reads(room, "brief.toml")).as_briefed.findings
    found = {f.at["place"]: f for f in findings if f.id == "heat.ground-temperature" and "place" in f.at}
    assert set(found) == {"edge", "middle"}
    assert found["middle"].words.startswith("Under the middle it stays frozen all year.")


def test_a_floor_that_takes_in_heat_is_not_said_to_lose_less_than_nothing_in_its_picture():
    room = text("freezer").replace("[floor]", '[floor]\ninside = "-10 F"\nhumidity = "80 %"')
    drawn = comparison(answer(reads(room, "brief.toml")), "A")
    assert "Floor takes in " in drawn and "Floor loses \N{MINUS SIGN}" not in drawn


THICKENED = 'kind = "thickened-edge"\ndepth = "14 in"\nthickening = {{ width = "8 in", slope = "60 deg" }}'
DRAWN = """kind = "drawn"
[[edge.shape]]
unit = "in"
outline = ["0 0", "12 0", "12 -12", "8 -14", "0 -14"]
material = "concrete\""""


@pytest.mark.parametrize("kind", [THICKENED, DRAWN], ids=["thickened", "drawn"])
def test_a_thickened_edge_outdoors_bears_no_wall_and_is_watched_below_its_thickening(kind):
    found = answer(reads(text(brief=BRIEF.replace('kind = "free-edge"', kind)), "brief.toml"))
    surface = ["site.surface.freezing", "site.surface.thawing"]
    assert [a.path for a in found.assumed if a.path not in FROST] == [WATER, "edge.A.ground", *surface]
    assert {a.path for a in found.assumed} >= FROST
    section = found.as_briefed.sections["A"]
    assert section.watched == pytest.approx((0.0, -14 * 0.0254))
    assert max(y for part in section.parts for _, y in part.outline) == 0.0
    assert found.as_briefed.find("heat.ground-temperature", place="edge").value < 0.0


def test_the_caution_on_heave_stands_once_however_many_edges_freeze():
    two = BRIEF.replace(
        'sides = "all"\nkind = "free-edge"',
        'sides = [1]\nkind = "free-edge"\n[[edge]]\nsides = "rest"\nkind = "free-edge"',
    )
    findings = answer(reads(text(brief=two), "brief.toml")).as_briefed.findings
    frozen = [f for f in findings if f.id == "heat.ground-temperature" and f.value < 0.0]
    assert [bool(f.caution) for f in frozen] == [True, False, False]


def test_an_alternative_that_keeps_the_ground_above_freezing_is_said_to_stay_there():
    kept, bare = (a.find("heat.ground-temperature", place="middle") for a in dossier(warmer=6.0).alternatives)
    assert kept.value > 0.0 > bare.value
    assert f"With “as briefed” it stays at {kept.value * 1.8 + 32:.1f} °F." in plain(bare.words)
    assert f"Without any foam it falls to {bare.value * 1.8 + 32:.1f} °F." in plain(kept.words)


@pytest.mark.parametrize(
    ("foam", "inwards"),
    [("", 0.0), ('{{ board = "plain-25", thickness = "2 in", face = "inside", down = "30 in" }}', 0.0508)],
)
def test_under_a_room_the_ground_is_told_beside_the_foam_on_the_wall_and_not_in_it(foam, inwards):
    footing = '{{ width = "8 in", height = "8 in" }}'
    wall = f'kind = "frost-wall"\ndepth = "48 in"\nfooting = {footing}\ninsulation = [{foam}]'
    wide = BRIEF.replace('kind = "free-edge"', wall).replace("20 6", "20 20").replace("0 6", "0 20")
    room = text("workshop", brief=wide).replace("[floor]", '[floor]\ninside = "68 F"\nhumidity = "40 %"')
    section = answer(reads(room, "brief.toml")).as_briefed.sections["A"]
    assert section.under_edge == pytest.approx((inwards, -12 * 0.0254))


def test_through_the_year_each_month_says_for_itself_whether_the_ground_freezes():
    told = dossier()
    shown = [moment for moment in moments() if moment.month]
    compared = through_the_year(told, "A", year_scale(told))
    frozen = {True: 0, False: 0}
    for each, drawn in zip(compared.answers, compared.sections, strict=True):
        for moment, layers in zip(shown, drawn.layers, strict=False):
            freezes = corner_temperature(each, "A", moment.year_fraction) < 0.0
            assert ("freezes" in layers.marks) == freezes, (each.name, moment.name)
            frozen[freezes] += 1
    assert min(frozen.values()) > 4


def test_the_page_says_where_it_freezes_beside_the_count():
    for said in sheet(dossier(), "A", 2).counts:
        assert said.startswith("The ground freezes under edge A"), said
    assert not [said for said in sheet(dossier(warmer=12.0), "A", 2).counts if "freezes" in said]
