"""What is said of soil gas: unasked, in words that a builder reads, with one key where something is missing."""

from __future__ import annotations

from functools import cache

import pytest
from ask_cases import FAN, SUCTION, bare, gas, with_line

from underpour.answer import answer
from underpour.brief import reads
from underpour.cautioning import cautioned
from underpour.checks.soil_gas import of_floor
from underpour.checks.soil_gas.level import before_system, drawn_off, levels
from underpour.findings import Finding
from underpour.resolve import resolve
from underpour.starters import starters

FOAM_IS_NONE = "Foam is no gas barrier"
TEST = '\n[[soil-gas.test]]\nkit = "{}"\nlevel = "{}"\ndays = "{}"\n'


@cache
def said(text: str) -> tuple[Finding, ...]:
    """Every finding on soil gas of a brief, its cautions beside it; no section is solved for it."""
    resolved = resolve(reads(text).brief)
    return tuple(cautioned(resolved, list(of_floor(resolved))))


def one(text: str, id: str, **at: str) -> Finding:
    found = [f for f in said(text) if f.id == id and all(f.at.get(key) == value for key, value in at.items())]
    assert len(found) == 1, [f"{f.id} {dict(f.at)}" for f in found]
    return found[0]


def test_a_floor_with_foam_says_unasked_that_foam_is_no_gas_barrier():
    finding = one(bare("dwelling", "raft"), "soilgas.barrier")
    assert finding.words.startswith(FOAM_IS_NONE)
    assert (finding.value, finding.verdict) == (0.0, "stated")
    assert "Nothing in this floor keeps soil gas out" in finding.words
    assert "Only a test in the closed house" in finding.words


def test_a_film_is_counted_and_foam_is_not():
    finding = one(gas(), "soilgas.barrier")
    assert finding.value == 1.0 and "once its laps, its edge and every pipe" in finding.words


def test_a_brief_that_is_silent_on_soil_gas_hears_of_the_barrier_and_of_nothing_else():
    assert [finding.id for finding in said(bare("dwelling", "raft"))] == ["soilgas.barrier"]


def test_a_slab_under_the_sky_hears_nothing():
    assert said(bare("walk", "free-edge")) == ()


@pytest.mark.parametrize("starter", starters(), ids=lambda starter: starter.key)
def test_no_starter_gets_anything_on_soil_gas_that_cannot_be_told_or_falls_short(starter):
    assert not {f.verdict for f in said(starter.text)} & {"cannot tell", "falls short"}


# One key that is missing, and what typing it turns.


@pytest.mark.parametrize(
    ("text", "id", "missing", "typed", "verdict"),
    [
        (gas(), "soilgas.sealing", "soil-gas.sealed", 'sealed = ["film-laps"]', "falls short"),
        (
            gas(),
            "soilgas.sealing",
            "soil-gas.sealed",
            'sealed = ["film-laps", "film-edge", "edge-joint", "pipes"]',
            "meets",
        ),
        (
            gas('system = "fan"\n'),
            "soilgas.backdraught",
            "soil-gas.combustion",
            'combustion = "none"',
            "does not apply",
        ),
        (
            gas('system = "fan"\ncombustion = "open"\n'),
            "soilgas.backdraught",
            "soil-gas.backdraught-tested",
            "backdraught-tested = true",
            "meets",
        ),
        (
            gas('system = "fan"\ncombustion = "open"\n'),
            "soilgas.backdraught",
            "soil-gas.backdraught-tested",
            "backdraught-tested = false",
            "falls short",
        ),
        (gas(), "soilgas.rough-in", "soil-gas.system", 'system = "none"', "falls short"),
    ],
)
def test_what_cannot_be_told_names_one_key_and_typing_it_turns_the_verdict(text, id, missing, typed, verdict):
    before = one(text, id)
    assert (before.verdict, before.missing) == ("cannot tell", missing)
    assert one(with_line(text, "soil-gas", typed), id).verdict == verdict


@pytest.mark.parametrize(
    ("level", "verdict"), [("80 Bq/m³", "meets"), ("148 Bq/m³", "meets"), ("149 Bq/m³", "falls short")]
)
def test_a_test_in_the_house_decides_what_a_band_cannot(level, verdict):
    before = one(gas(), "soilgas.level", by="us-epa")
    assert (before.verdict, before.missing) == ("cannot tell", "soil-gas.test.1.level")
    after = one(gas() + TEST.format("alpha-track", level, "91 d"), "soilgas.level", by="us-epa")
    assert after.verdict == verdict
    assert "Test again every two years" in after.words


def test_ground_of_which_nothing_is_known_asks_for_the_site_first_and_then_for_a_test_of_the_gas():
    assert one(gas(site=""), "soilgas.level").missing == "site.soil-gas"
    unknown = one(gas(site="unknown"), "soilgas.level")
    assert unknown.missing == "soil-gas.radon" and "build as where there is much" in unknown.words


def test_a_band_below_the_level_does_not_meet():
    """Clay under a draughty house: the band lies far below, and a test is asked all the same."""
    text = with_line(
        gas('ventilation = "1 1/h"\nsealed = ["edge-joint"]\n', site="low"), "site", 'ground = "clay-moist"'
    )
    finding = one(text, "soilgas.level")
    assert finding.verdict == "cannot tell" and "lies below the level, which proves nothing" in finding.words


def test_a_band_that_lies_above_the_level_falls_short():
    text = gas('radon = "300000 Bq/m³"\npermeability = "1e-10 m²"\ngap = "3 mm"\nventilation = "0.15 1/h"\n')
    finding = one(text, "soilgas.level")
    assert finding.verdict == "falls short" and "Even its low end lies above" in finding.words
    assert finding.value is not None and finding.limit == 148.0


def test_a_fan_is_told_before_and_after_and_what_it_takes_off_is_a_band():
    before, after = one(gas(FAN), "soilgas.level", of="before"), one(gas(FAN), "soilgas.level", by="us-epa")
    assert before.verdict == "stated" and before.value is not None
    step = next(step for step in after.steps if step.symbol == "C after")
    assert "50 to 99 %" in step.numbers and "no promise" in step.formula


def test_where_suction_does_not_reach_the_weakest_corner_the_high_end_stays():
    resolved = resolve(reads(gas(FAN)).brief)
    before = before_system(resolved, resolved.soil_gas)
    reached, unreached = (drawn_off(resolved.soil_gas, before, reaches) for reaches in (True, False))
    assert (unreached.low, unreached.middle) == (reached.low, reached.middle)
    assert reached.high < unreached.high == pytest.approx(before.high)
    told = list(levels(resolved, resolved.soil_gas, reaches=False))
    assert "does not reach the weakest corner" in told[-1].words
    assert "does not reach" not in list(levels(resolved, resolved.soil_gas))[-1].words


def test_a_test_from_before_the_fan_is_the_level_before_it_and_decides_nothing():
    text = gas(FAN) + TEST.format("alpha-track", "600 Bq/m³", "91 d") + 'system = "none"\n'
    assert one(text, "soilgas.level", of="before").value == 600.0
    after = one(text, "soilgas.level", by="us-epa")
    assert after.verdict == "cannot tell"
    tested = one(text, "soilgas.test")
    assert tested.verdict == "falls short" and "it hung before what is there now" in tested.words


@pytest.mark.parametrize(
    ("kit", "days", "more", "counts"),
    [
        ("alpha-track", "91 d", "", True),
        ("alpha-track", "60 d", "", False),
        ("charcoal", "4 d", "closed = true\n", True),
        ("charcoal", "4 d", "closed = false\n", False),
        ("charcoal", "4 d", "", False),
        ("charcoal", "1 d", "closed = true\n", False),
    ],
)
def test_a_test_counts_where_it_hung_long_enough_and_a_short_one_with_the_house_closed(kit, days, more, counts):
    finding = one(gas() + TEST.format(kit, "80 Bq/m³", days) + more, "soilgas.test")
    assert finding.verdict == ("meets" if counts else "falls short")


def test_a_test_that_does_not_count_never_meets_but_may_tell_that_it_is_too_much():
    """Three days of charcoal with open windows: 80 Bq/m³ prove nothing, 400 Bq/m³ are too much all the same."""
    little, much = (
        one(gas() + TEST.format("charcoal", level, "3 d") + "closed = false\n", "soilgas.level")
        for level in ("80 Bq/m³", "400 Bq/m³")
    )
    assert (little.verdict, little.missing) == ("cannot tell", "soil-gas.test.2.level")
    assert "The test that hung does not count: it is a short test" in little.words
    assert much.verdict == "falls short"


def test_a_short_test_says_that_it_is_one():
    finding = one(gas() + TEST.format("charcoal", "80 Bq/m³", "4 d") + "closed = true\n", "soilgas.level")
    assert "A short test tells a few days" in finding.words


@pytest.mark.parametrize(("level", "words"), [("250 Bq/m³", "within two years"), ("700 Bq/m³", "within one year")])
def test_the_guideline_of_canada_says_within_how_long(level, words):
    text = gas('level-by = "health-canada"\n') + TEST.format("alpha-track", level, "91 d")
    assert words in one(text, "soilgas.level").words


def test_several_authorities_are_told_side_by_side():
    text = gas('level-by = ["us-epa", "who"]\n') + TEST.format("alpha-track", "120 Bq/m³", "91 d")
    assert one(text, "soilgas.level", by="us-epa").verdict == "meets"
    assert one(text, "soilgas.level", by="who").verdict == "falls short"


def test_the_level_of_the_country_is_taken_and_listed_as_assumed():
    for place, key in (("Duluth, MN", "us-epa"), ("Dublin, IE", "ie"), ("Toronto, ON", "health-canada")):
        resolved = resolve(reads(gas().replace("Duluth, MN", place)).brief)
        taken = next(each for each in resolved.assumed if each.path == "soil-gas.level-by")
        assert taken.value == key


def test_air_changes_that_nobody_typed_are_a_band_that_is_listed():
    resolved = resolve(reads(gas()).brief)
    taken = next(each for each in resolved.assumed if each.path == "soil-gas.ventilation")
    assert (taken.value, taken.low, taken.high, taken.unit) == (0.35, 0.15, 1.0, "1/h")


def test_more_air_less_radon_and_a_tighter_joint_less_too():
    def middle(more: str) -> float:
        return one(gas(f'system = "fan"\n{more}'), "soilgas.level", of="before").value

    assert middle('ventilation = "1 1/h"\n') < middle('ventilation = "0.2 1/h"\n') / 2.0
    assert middle('sealed = ["edge-joint"]\n') < middle('gap = "2 mm"\n')
    assert middle('radon = "10000 Bq/m³"\n') < middle('radon = "200000 Bq/m³"\n')


# One film for damp and gas.


@pytest.mark.parametrize(
    ("layers", "system", "wrong"),
    [
        ('{ concrete = "100 mm" }, { vapour-retarder = "film-15-mil" }, { gravel = "100 mm" }', "fan", ""),
        (
            '{ concrete = "4 in" }, { board = "plain-15", thickness = "2 in" }, { vapour-retarder = "film-15-mil" }',
            "none",
            "",
        ),
        (
            '{ concrete = "100 mm" }, { gravel = "100 mm" }, { vapour-retarder = "film-15-mil" }',
            "fan",
            "draws on the room and not on the ground",
        ),
        ('{ concrete = "100 mm" }, { gravel = "100 mm" }', "none", "neither the ground's vapour nor its gas"),
        ('{ concrete = "100 mm" }, { vapour-retarder = "film-15-mil" }', "fan", "Nothing below the film lets gas flow"),
        ('{ concrete = "100 mm" }, { vapour-retarder = "film-15-mil" }', "none", ""),
    ],
)
def test_one_film_serves_damp_and_gas_or_the_words_say_where_they_disagree(layers, system, wrong):
    text = gas(f'system = "{system}"\n')
    start = text.index("build-up = [") + len("build-up = [")
    text = text[:start] + layers + text[text.index("]\n", start) :]
    finding = one(text, "soilgas.film-order")
    assert finding.verdict == ("falls short" if wrong else "meets")
    assert (wrong or "serves damp and gas alike") in finding.words


# Rough-in, outlet, proof.


def test_a_capped_pipe_of_two_inches_falls_short_of_the_appendix_which_holds_where_adopted():
    text = gas(f'system = "rough-in"\n{SUCTION}\n[soil-gas.pipe]\nsize = "2 in"\n', code="irc-2021")
    finding = one(text, "soilgas.rough-in")
    assert finding.verdict == "falls short" and "A gas-tight pipe" in finding.words
    assert "where the local code has adopted it" in finding.words
    assert "before the pour" in finding.words  # when somebody looks


@pytest.mark.parametrize(
    ("outlet", "of", "verdict"),
    [
        ('from-openings = "5 ft"', "openings", "falls short"),
        ('from-openings = "10 ft"', "openings", "meets"),
        ('from-openings = "5 ft"\nabove-openings = "3 ft"', "openings", "meets"),
        ('above-roof = "6 in"', "roof", "falls short"),
        ('above-roof = "12 in"', "roof", "meets"),
    ],
)
def test_an_outlet_near_an_opening_falls_short_unless_it_stands_above_it(outlet, of, verdict):
    finding = one(gas(f'system = "passive"\n\n[soil-gas.outlet]\n{outlet}\n'), "soilgas.outlet", of=of)
    assert finding.verdict == verdict and "over the roof" in finding.caution


def test_a_fire_that_draws_on_the_room_names_the_test_and_carbon_monoxide():
    finding = one(gas('system = "fan"\ncombustion = "open"\n'), "soilgas.backdraught")
    assert "back-draught test with every fan of the house on" in finding.words
    assert "Carbon monoxide kills without a smell" in finding.caution


def test_a_gauge_is_kept_with_the_first_reading_beside_later_ones():
    text = (
        gas(FAN)
        + '\n[[soil-gas.gauge]]\nvacuum = "220 Pa"\ndate = "2026-11-25"\n\n[[soil-gas.gauge]]\nvacuum = "120 Pa"\n'
    )
    later = one(text, "soilgas.gauge", reading="2")
    assert "The first reading was 220" in later.words.replace("\N{THIN SPACE}", " ")


def test_the_county_is_a_hint_and_no_verdict():
    finding = one(gas(), "soilgas.survey")
    assert finding.verdict == "stated" and finding.limit is None
    assert "hint" in finding.words and "neighbours differ tenfold" in finding.words
    assert not [f for f in said(gas().replace("Duluth, MN", "Dublin, IE")) if f.id == "soilgas.survey"]


def test_radon_is_called_a_matter_of_health_where_it_is_read():
    for id in ("soilgas.level", "soilgas.test"):
        caution = one(gas(), id).caution
        assert "lung cancer" in caution and "Measure" in caution and "local code" in caution and "certifies" in caution


def test_a_slab_that_is_there_is_scanned_before_it_is_drilled():
    hole = '\n[soil-gas.communication]\nhole = [{ distance = "4 m", vacuum = "3 Pa" }]\n'
    finding = one(gas(f'system = "fan"\n{SUCTION}{hole}', code="irc-2021"), "soilgas.rough-in")
    assert "scanned for tubes, cables, pipes and tendons" in finding.caution


def test_papers_carry_the_cautions_that_apply():
    cautions = answer(reads(gas(FAN))).cautions
    assert any("lung cancer" in each for each in cautions) and any("Carbon monoxide" in each for each in cautions)
