"""Termites: foam in the ground as a way in, what keeps them off, what a code forbids, and who is asked at all.

International Residential Code, R318.4, editions 2012 to 2021: quoted by a public page of a foam trade body; its
exceptions, the states of its map and the clause of 2024 are from memory. The rest is common practice, no source.
"""

from __future__ import annotations

from functools import cache

import pytest

from underpour.brief import reads
from underpour.checks import termites
from underpour.checks.code import termites as code
from underpour.findings import Finding
from underpour.mistakes import Mistakes
from underpour.resolve import resolve

FOAM = '{ board = "xps-25", thickness = "2 in" }'
OUTSIDE = 'insulation = [{ board = "xps-25", thickness = "2 in", face = "outside", down = "24 in" }]'
GLASS = ("xps-25", "cellglass-85")


def brief(
    site: str = 'termites = "very-heavy"',
    layers: str = f'{{ concrete = "4 in" }}, {FOAM}, {{ gravel = "4 in" }}',
    edge: str = "",
    place: str = "Houston, TX",
    kind: str = "frost-wall",
    ground: str = "-8 in",
    held: str = 'code = "irc-2018"',
) -> str:
    return f"""\
[project]
use = "dwelling"
units = "US"
{held}
[site]
place = "{place}"
ground = "clay-or-silt"
{site}
[plan]
outline = ["0 0", "40 0", "40 30", "0 30"]
unit = "ft"
[floor]
inside = "70 F"
touched-by = []
build-up = [{layers}]
[[edge]]
sides = "all"
kind = "{kind}"
depth = "30 in"
ground = "{ground}"
wall = [{{ concrete = "8 in" }}]
{edge}
"""


@cache
def told(text: str) -> tuple[Finding, ...]:
    resolved = resolve(reads(text).brief)
    (edition,) = resolved.held.editions or (None,)
    return (*termites.told(resolved), *(code.foam(resolved, edition) if edition else ()))


def one(text: str, name: str) -> Finding:
    return next(each for each in told(text) if each.id == name)


def test_foam_in_the_ground_falls_short_where_termites_are_very_heavy_and_the_remedies_are_said():
    for name in (termites.WAYS, code.ID):
        found = one(brief(), name)
        assert (found.verdict, found.value, found.limit) == ("falls short", 1.0, 0.0)
        assert "cellular glass" in found.words and "site.termite-barrier" in found.words
    basis = one(brief(), code.ID).basis[0]
    assert (basis.source, basis.clause, basis.seen) == ("International Residential Code 2018", "R318.4", "quoted")


@pytest.mark.parametrize("barrier", ["screen", "shield", "treated-ground", "treated-foam"])
def test_with_a_barrier_it_meets_and_the_barrier_s_own_condition_is_said(barrier):
    text = brief(site=f'termites = "very-heavy"\ntermite-barrier = "{barrier}"')
    ways, forbidden = one(text, termites.WAYS), one(text, code.ID)
    assert ways.verdict == forbidden.verdict == "meets"
    mind = {
        "screen": "round each pipe",
        "shield": "sealed joints",
        "treated-ground": "renewed",
        "treated-foam": "behind them",
    }
    assert mind[barrier] in ways.words and "building official approves" in forbidden.words


def test_a_mineral_board_is_no_way_in():
    text = brief(layers=f'{{ concrete = "4 in" }}, {FOAM.replace(*GLASS)}, {{ gravel = "4 in" }}')
    assert [one(text, name).value for name in (termites.WAYS, code.ID)] == [0.0, 0.0]


@pytest.mark.parametrize(
    ("region", "verdict"),
    [
        ("none", "does not apply"),
        ("none-to-slight", "not required, advised"),
        ("slight-to-moderate", "not required, advised"),
        ("moderate-to-heavy", "falls short"),
        ("present", "falls short"),
    ],
)
def test_less_than_very_heavy_is_no_matter_of_the_code_and_from_moderate_on_one_of_practice(region, verdict):
    text = brief(site=f'termites = "{region}"')
    assert one(text, termites.WAYS).verdict == verdict
    assert one(text, code.ID).verdict == "does not apply"


def test_nobody_is_asked_where_the_map_has_none_or_where_there_is_no_such_map():
    assert told(brief(site="", place="Duluth, MN")) == ()
    assert told(brief(site="", place="Salzburg, AT", held="")) == ()


def test_in_a_state_of_the_map_an_untold_region_is_asked_for_and_typing_it_answers():
    assert [(each.verdict, each.missing) for each in told(brief(site=""))] == [("cannot tell", "site.termites")] * 2
    for region in ("none-to-slight", "very-heavy"):
        assert not any(each.missing for each in told(brief(site=f'termites = "{region}"')))
    bare = brief(site="", layers='{ concrete = "4 in" }, { gravel = "4 in" }')
    assert told(bare) == (), "without foam in the ground there is nothing to ask"


def test_a_cellar_s_foam_inside_is_none_of_the_code_s_and_its_foam_outside_is():
    cellar = {
        "kind": "footing-wall",
        "ground": "5 ft",
        "layers": '{ concrete = "4 in" }, { gravel = "4 in" }',
    }
    inside = brief(edge='insulation = [{ board = "xps-25", thickness = "2 in", face = "inside" }]', **cellar)
    outside = brief(edge=OUTSIDE, **cellar)
    for name in (termites.WAYS, code.ID):
        assert [one(text, name).value for text in (inside, outside)] == [0.0, 1.0]


@pytest.mark.parametrize(
    ("ground", "edge", "bare", "verdict"),
    [
        ("-8 in", "", 0.2032, "meets"),
        ("-6 in", "", 0.1524, "meets"),
        ("-4 in", "", 0.1016, "falls short"),
        ("-8 in", OUTSIDE, 0.0, "falls short"),
        ("-8 in", OUTSIDE.replace("down", 'from = "-7 in", down'), 0.1778, "meets"),
    ],
)
def test_the_strip_is_what_stays_bare_between_ground_and_floor(ground, edge, bare, verdict):
    found = one(brief(ground=ground, edge=edge), termites.STRIP)
    assert found.value == pytest.approx(bare, abs=1e-4)
    assert (found.limit, found.verdict) == (0.1524, verdict)


def test_foam_that_begins_above_the_ground_keeps_six_inches_clear():
    above = 'insulation = [{{ board = "xps-25", thickness = "2 in", face = "outside", down = "{down}" }}]'
    values = {}
    for down in ("1 in", "3 in"):
        text = brief(edge=above.format(down=down))
        found = [each for each in told(text) if each.at.get("asks") == "clearance"]
        values[down] = [(each.value, each.limit, each.verdict) for each in found]
    assert values == {"1 in": [(0.1778, 0.1524, "meets")], "3 in": [(0.127, 0.1524, "falls short")]}


def test_a_word_that_no_map_has_is_told_with_the_words_that_are_known():
    with pytest.raises(Mistakes) as found:
        reads(brief(site='termites = "many"'), "brief.toml")
    assert "site.termites" in str(found.value) and "very-heavy" in str(found.value)
