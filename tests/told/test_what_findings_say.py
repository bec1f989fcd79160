"""What a finding says of itself, read aloud: degrees beside a factor, what is counted, who has foam at all."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.dossier import Dossier
from underpour.lessons import told
from underpour.mistakes import Mistakes
from underpour.resolve import resolve

BRIEF = """
[project]
use   = "basement"
units = "US"
[site]
monthly = [{months}]
ground  = {{ conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" }}
[plan]
outline = ["0 0", "8 0", "8 8", "0 8"]
unit    = "m"
[floor]
inside   = "20 C"
humidity = "50 %"
build-up = [{{ concrete = "100 mm" }}, {{ board = "plain-15", thickness = "2 in" }}]
[[edge]]
sides      = "all"
kind       = "footing-wall"
depth      = "0.4 m"
ground     = "0 m"
wall       = [{{ concrete = "200 mm" }}]
insulation = [
  {{ board = "plain-15", thickness = "2 in", face = "inside" }},
  {{ board = "plain-15", thickness = "2 in", face = "slab-edge" }},
]
[[alternative]]
name   = "no foam"
remove = ["board"]
[[alternative]]
name   = "foam at the edge only"
remove = ["floor.board"]
"""
MONTHS = ", ".join(f'"{t} C"' for t in (-22, -18, -10, -2, 6, 12, 15, 12, 6, -2, -10, -18))


@cache
def dossier() -> Dossier:
    return answer(reads(BRIEF.format(months=MONTHS), "brief.toml"))


def plain(text: str) -> str:
    return text.replace("\N{THIN SPACE}", " ")


@pytest.mark.parametrize(
    ("which", "says"), [(0, "mould does not start above 54.7 °F"), (1, "mould can start below 54.7 °F")]
)
def test_the_surface_factor_says_its_degrees_in_the_units_of_the_brief(which, says):
    finding = dossier().alternatives[which].find("moisture.surface-factor", surface="wall")
    words = plain(finding.words)
    assert says in words and "Behind furniture the wall's coldest place falls to" in words
    assert ("Put foam between this place and the cold" in words) == (finding.verdict == "falls short")


def test_numbers_below_nought_have_a_minus_sign_and_do_not_stand_behind_another():
    steps = [step for finding in dossier().as_briefed.findings for step in finding.steps]
    lines = [line for step in steps for line in (step.numbers, step.result)]
    assert any("\N{MINUS SIGN}" in step.result for step in steps)
    assert not [
        line
        for line in lines
        if "-" in re.sub(r"plain-15|MB-\d\d-[A-Z]{3}", "", line) or "\N{MINUS SIGN} \N{MINUS SIGN}" in line
    ]


def test_the_loss_of_a_basement_wall_says_how_much_wall_is_counted():
    loss = dossier().as_briefed.find("heat.loss-mean", of="wall")
    assert plain(loss.words) == "The wall is counted up to 3.28 ft (1.00 m) above the ground outside."


def test_foam_at_the_edge_is_foam_when_alternatives_are_compared():
    edge_only = dossier().alternatives[2].find("heat.corner-coldest")
    bare = dossier().alternatives[1].find("heat.corner-coldest")
    assert "Without any foam" not in bare.words
    assert "Without any foam" in edge_only.words or "With “as briefed”" in edge_only.words
    as_briefed = dossier().as_briefed.find("heat.corner-coldest")
    assert plain(as_briefed.words).endswith(f"Without any foam it would fall to {bare.value * 1.8 + 32:.1f} °F.")


@pytest.mark.parametrize(("warmer", "taught"), [(1e-4, False), (1.0, True)], ids=["reads the same", "reads warmer"])
def test_what_reads_the_same_is_not_called_warmer(warmer, taught):
    briefed = dossier().as_briefed
    corner = briefed.find("heat.corner-coldest")
    this = replace(briefed, findings=(replace(corner, value=10.02),))
    other = replace(briefed, name="other", findings=(replace(corner, value=10.02 + warmer),))
    (found, *_), *_ = (each.findings for each in told([this, other], "SI", 20.0))
    assert ("With “other” it stays at" in found.words) == taught


@pytest.mark.parametrize(
    ("more", "foam_is_named"),
    [
        ("", True),
        ('set = { "floor.inside" = "15 C" }', False),
        ('set = { "edge.A.wall" = [{ concrete = "400 mm" }] }', False),
    ],
)
def test_foam_is_named_as_the_cause_only_where_nothing_else_differs(more, foam_is_named):
    text = BRIEF.format(months=MONTHS).replace('remove = ["board"]', f'remove = ["board"]\n{more}')
    as_briefed = answer(reads(text, "brief.toml")).as_briefed.find("heat.corner-coldest")
    assert ("Without any foam" in as_briefed.words) is foam_is_named


def test_ground_level_with_the_floor_is_said_so():
    assert "ground level with the floor" in dossier().as_briefed.summary[-1]
    assert dossier().alternatives[1].summary[-1].endswith("no foam at the edge")


def with_second_piece(words: str) -> str:
    return BRIEF.format(months=MONTHS).replace('face = "slab-edge"', words)


@pytest.mark.parametrize("face", ["outside", "inside", "slab-edge"])
@pytest.mark.parametrize("start", ["", 'from = "0 in", '])
def test_foam_is_not_driven_through_the_footing(face, start):
    with pytest.raises(Mistakes) as refused:
        answer(reads(with_second_piece(f'face = "{face}", {start}down = "0.3 m"'), "brief.toml"))
    assert "the footing stands out beyond the wall from 5.91 in (150 mm) on" in plain(str(refused.value))


def test_foam_on_a_basement_wall_reaches_down_from_the_slab_and_covers_the_wall_above():
    edge = resolve(reads(with_second_piece('face = "outside", down = "0.1 m"'), "brief.toml").brief).edges[0]
    assert (edge.pieces[1].top, edge.pieces[1].bottom) == (1.0, -0.1)


FREEZER = """
[project]
use = "freezer"
[site]
place = "Fargo, ND"
[plan]
outline = ["0 0", "60 0", "60 40", "0 40"]
unit = "ft"
[floor]
inside = "-10 F"
build-up = [{ concrete = "6 in" }, { board = "xps-25", thickness = "3 in" }]
[[edge]]
sides = "all"
kind = "free-edge"
"""


def test_a_freezer_takes_in_most_in_summer_and_is_told_of_ice_in_the_ground():
    """Common practice, no source: ground under an unheated freezer floor freezes and lifts it."""
    dossier = answer(reads(FREEZER))
    peak = dossier.as_briefed.find("heat.loss-peak", of="floor")
    mean = dossier.as_briefed.find("heat.loss-mean", of="floor")
    assert peak.value < mean.value < 0.0
    assert peak.months[peak.month - 1] == peak.value == min(peak.months)
    assert peak.month in (7, 8, 9)
    assert any("freezes the ground" in note for note in dossier.notes)


@pytest.mark.parametrize(
    ("use", "said"), [("basement", "Basement"), ("cellar", "Cellar"), ("fire-station", "Fire station")]
)
def test_the_use_is_named_in_the_word_of_the_brief(use, said):
    text = BRIEF.format(months=MONTHS).replace('"basement"', f'"{use}"')
    assert answer(reads(text, "brief.toml")).use == said
