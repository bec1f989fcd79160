"""What is told of heated floors: verdicts that turn, what is refused, and electric floors."""

from functools import cache

import pytest
from ask_cases import bare

from underpour.answer import answer
from underpour.brief import reads
from underpour.findings import Finding
from underpour.mistakes import Mistakes

TUBE = '\n[tube]\nsize = "16 mm"\nspacing = "200 mm"\ndepth-from-top = "40 mm"\nload = "45 W/m²"\n'


@cache
def told(tube: str) -> dict[str, Finding]:
    made = answer(reads(bare("dwelling", "raft") + tube)).as_briefed.findings
    return {f"{each.id} {each.at.get('of', '')}".strip(): each for each in made if each.id.startswith("warm.")}


def test_a_floor_without_tubes_says_nothing_of_warmth():
    assert not told("")


def test_more_heat_than_feet_bear_falls_short_and_says_by_how_much():
    fine, hot = told(TUBE), told(TUBE.replace("45 W/m²", "130 W/m²"))
    assert fine["warm.surface"].verdict == "meets" and hot["warm.surface"].verdict == "falls short"
    assert "too little" in hot["warm.surface"].words and "second source of heat" in hot["warm.surface"].words
    mean = next(step for step in fine["warm.surface"].steps if step.formula == "mean of the surface").result
    assert float(mean.split()[0]) == pytest.approx(20.0 + 45.0 / 10.8, abs=0.01)


def test_tubes_further_apart_ask_for_warmer_water_until_concrete_bears_no_more():
    near, far = told(TUBE), told(TUBE.replace("200 mm", "375 mm").replace("45 W/m²", "130 W/m²"))
    assert near["warm.supply"].verdict == "meets" and far["warm.supply"].verdict == "falls short"
    assert near["warm.supply"].caution and "scalds" in near["warm.supply"].caution
    assert len(near["warm.supply"].months) == 12 and max(near["warm.supply"].months) == near["warm.supply"].value
    by_curve = next(step for step in near["warm.supply"].steps if "standard's curve" in step.formula)
    ours = next(step for step in near["warm.supply"].steps if step.symbol == "U_up")
    assert float(by_curve.result.split()[0]) == pytest.approx(float(ours.result.split()[0]), rel=0.1)


def test_what_goes_down_is_told_by_both_shares_and_held_against_the_rule():
    of_up, of_total = told(TUBE)["warm.downward up"], told(TUBE)["warm.downward total"]
    share = of_up.value / 100.0
    assert of_total.value == pytest.approx(100.0 * share / (1.0 + share))
    assert "Installers reckon with a tenth; here it is more" in of_total.words
    assert of_up.verdict == "stated"


def test_too_few_loops_are_too_long_and_ask_for_too_much_of_the_pump():
    few = told(f"{TUBE}loops = 2\n")
    assert few["warm.loop-length"].verdict == few["warm.pressure"].verdict == "falls short"
    assert told(TUBE)["warm.loop-length"].verdict == told(TUBE)["warm.pressure"].verdict == "meets"
    assert told(f'{TUBE}loops = 2\nloop-limit = "300 m"\n')["warm.loop-length"].verdict == "meets"
    assert "back-flow" in few["warm.pressure"].caution and "gauge" in few["warm.loop-length"].caution


def test_glycol_asks_more_of_the_pump_than_water():
    water, glycol = (told(f'{TUBE}fluid = "{fluid}"\n') for fluid in ("water", "propylene-glycol-40"))
    assert glycol["warm.pressure"].value > 1.1 * water["warm.pressure"].value


def test_a_heat_pump_likes_cool_water():
    cool, hot = (told(f'{tube}source = "heat-pump"\n') for tube in (TUBE, TUBE.replace("45 W/m²", "90 W/m²")))
    assert "warm.heat-pump" not in told(TUBE)
    assert cool["warm.heat-pump"].value > hot["warm.heat-pump"].value > 2.0


def test_a_floor_that_must_be_warm_soon_is_held_to_it():
    free, soon = told(TUBE)["warm.warm-up"], told(f'{TUBE}warm-within = "2 h"\n')["warm.warm-up"]
    assert (free.verdict, soon.verdict) == ("stated", "falls short")
    assert told(f'{TUBE}warm-within = "3 d"\n')["warm.warm-up"].verdict == "meets"


def test_cables_have_a_power_and_no_water():
    found = told('\n[tube]\nheat = "electric"\nspacing = "100 mm"\nload = "45 W/m²"\n')
    assert {"warm.power", "warm.surface", "warm.downward up"} <= set(found)
    assert not {"warm.supply", "warm.pressure", "warm.loop-length"} & set(found)
    assert found["warm.power"].value > 45.0 * 96.0
    assert "electrician" in found["warm.power"].caution
    assert "How deep the tubes lie is not said" in found["warm.surface"].words


REFUSED = {
    "spacing below the bend": ("spacing", TUBE.replace("200 mm", "60 mm"), "does not turn round so tightly"),
    "a tube below its slab": ("depth-from-top", TUBE.replace("40 mm", "95 mm"), "lies below its layer"),
    "a size that nobody makes": ("size", TUBE.replace("16 mm", "15 mm"), "No tube is called 15 mm"),
    "a fluid that is none": ("fluid", f'{TUBE}fluid = "brine"\n', "No fluid is called brine"),
    "a load in watts": ("load", TUBE.replace("45 W/m²", "4000 W"), ""),
    "no loops": ("loops", f"{TUBE}loops = 0\n", ""),
    "a source that is none": ("source", f'{TUBE}source = "stove"\n', ""),
    "leaders as long as loops": (
        "leader",
        f'{TUBE}leader = "49 m"\nloop-limit = "95 m"\n',
        "leaves nothing of a loop",
    ),
}


@pytest.mark.parametrize("case", REFUSED, ids=list(REFUSED))
def test_what_cannot_be_is_told_at_its_key(case):
    key, tube, words = REFUSED[case]
    with pytest.raises(Mistakes) as refused:
        answer(reads(bare("dwelling", "raft") + tube))
    said = str(refused.value)
    assert f"tube.{key}" in said and words in said


def with_all(more: str, tube: str = TUBE, **floor: str) -> dict[str, Finding]:
    """The findings by id of a floor with more said of its tubes, and perhaps of the floor."""
    text = bare("dwelling", "raft") + tube + more
    for key, line in floor.items():
        text = text.replace("[floor]\n", f"[floor]\n{key} = {line}\n")
    return {each.id: each for each in answer(reads(text)).as_briefed.findings if each.id.startswith("warm.")}


def test_what_the_floor_lacks_is_told_with_what_would_cover_it():
    fine, hot = told(TUBE)["warm.output"], told(TUBE.replace("45 W/m²", "90 W/m²"))["warm.output"]
    assert (fine.verdict, hot.verdict) == ("meets", "falls short")
    lacks = 90.0 - hot.value
    assert f"{lacks:.2f} W/m²" in hot.words.replace("\N{THIN SPACE}", " ")
    assert "Tubes 100 mm" in hot.words.replace("\N{THIN SPACE}", " ") and "and covers it" in hot.words
    closer = told(TUBE.replace("45 W/m²", "90 W/m²").replace("200 mm", "100 mm"))["warm.output"]
    assert closer.verdict == "meets"


def test_a_covering_that_stands_little_warmth_is_what_limits_the_floor():
    text = bare("dwelling", "raft").replace("build-up = [", 'build-up = [{ covering = "carpet-and-pad" }, ')
    found = answer(reads(text + TUBE.replace("45 W/m²", "90 W/m²"))).as_briefed.findings
    output = next(each for each in found if each.id == "warm.output")
    assert output.verdict == "falls short" and "The floor without its covering may give" in output.words


def test_what_freezes_in_an_empty_building_is_told_with_what_stands_it():
    water = with_all('coldest = "-10 C"\n')["warm.freezing"]
    assert water.verdict == "falls short" and "propylene-glycol-35 stands it" in water.words
    mixed = with_all('coldest = "-10 C"\nfluid = "propylene-glycol-35"\n')["warm.freezing"]
    assert mixed.verdict == "meets"
    weak = with_all('coldest = "-10 C"\nfluid = "propylene-glycol-20"\n')["warm.freezing"]
    assert weak.verdict == "falls short" and "Propylene glycol 20 % freezes at −7.2" in weak.words
    assert "drain the tubes" in with_all('coldest = "-45 C"\n')["warm.freezing"].words
    needless = with_all('coldest = "12 C"\nfluid = "propylene-glycol-35"\n')["warm.freezing"]
    assert needless.verdict == "meets" and "Plain water would do" in needless.words


def test_how_cold_it_gets_is_asked_where_nobody_says_and_typing_it_turns_the_verdict():
    asked = told(TUBE)["warm.freezing"]
    assert (asked.verdict, asked.missing) == ("cannot tell", "tube.coldest")
    assert "−23.1" in asked.words  # Duluth's coldest day, as the load counts it
    assert with_all('coldest = "15 C"\n')["warm.freezing"].verdict == "meets"


def test_heat_before_the_concrete_s_age_falls_short_by_days():
    asked = told(TUBE)["warm.first-heat"]
    assert (asked.verdict, asked.missing) == ("cannot tell", "tube.heat-after")
    early, late = (with_all(f'heat-after = "{days} d"\n')["warm.first-heat"] for days in (20, 28))
    assert (early.verdict, late.verdict) == ("falls short", "meets")
    assert "8 days too soon" in early.words
    # 32.0 °C is 7 K over the first water: two rises of 5 K, three days before and four after
    assert "9 days in all" in late.words


def test_screed_may_be_warmed_sooner_than_concrete():
    text = bare("dwelling", "raft").replace("build-up = [", 'build-up = [{ screed = "65 mm" }, ')
    tube = TUBE.replace("40 mm", "30 mm")
    found = answer(reads(f'{text}{tube}heat-after = "22 d"\n')).as_briefed.findings
    made = next(each for each in found if each.id == "warm.first-heat")
    assert (made.limit, made.verdict) == (21.0, "meets")


def test_the_weather_curve_ends_in_the_supply_of_the_coldest_day():
    curve, supply = told(TUBE)["warm.weather-curve"], told(TUBE)["warm.supply"]
    assert curve.steps[0].result == f"{supply.value:.1f} °C"
    outdoors, warm = (float(curve.steps[n].numbers.split()[0].replace("−", "-")) for n in (1, 3))
    fell = float(curve.steps[1].result.split()[0]) - float(curve.steps[3].result.split()[0])
    assert fell / (warm - outdoors) == pytest.approx(curve.value, abs=0.02)


def test_a_heat_pump_and_a_boiler_are_told_by_twelve_months():
    pump, fire = (with_all(f'source = "{source}"\n') for source in ("heat-pump", "boiler"))
    assert "warm.boiler" not in pump and "warm.heat-pump" not in fire
    assert len(pump["warm.heat-pump"].months) == len(fire["warm.boiler"].months) == 12
    assert min(pump["warm.heat-pump"].months) < pump["warm.heat-pump"].value <= 6.0
    hot = with_all('source = "boiler"\ndrop = "5 K"\n', TUBE.replace("45 W/m²", "140 W/m²"))["warm.boiler"]
    assert hot.value < fire["warm.boiler"].value == pytest.approx(97.0)


def test_a_floor_comes_back_after_a_night_and_is_held_to_it():
    free = with_all('rest = "8 h"\nset-back = "3 K"\n')["warm.come-back"]
    soon = with_all('rest = "8 h"\nset-back = "3 K"\nback-within = "2 h"\n')["warm.come-back"]
    long = with_all('rest = "2 d"\nset-back = "10 K"\nback-within = "2 d"\n')["warm.come-back"]
    assert (free.verdict, soon.verdict, long.verdict) == ("stated", "falls short", "meets")
    assert soon.value == free.value < long.value
    assert "warm.come-back" not in told(TUBE)


def test_loops_of_unlike_length_are_told_with_what_their_valves_must_take():
    alike = with_all('loop-lengths = ["86 m", "86 m", "84 m", "86 m", "87 m", "85 m"]\n')
    unlike = with_all('loop-lengths = ["95 m", "85 m", "92 m", "88 m", "60 m", "90 m"]\n')
    assert (alike["warm.balance"].verdict, unlike["warm.balance"].verdict) == ("meets", "falls short")
    assert unlike["warm.balance"].value == pytest.approx(100.0 * 35.0 / 85.0)
    assert unlike["warm.loop-length"].value == 95.0 and unlike["warm.loop-length"].title == "Longest loop as laid"
    assert unlike["warm.pressure"].value > alike["warm.pressure"].value
    assert "Valves even them" in unlike["warm.balance"].words


def test_below_a_rug_the_floor_is_warmer_and_the_room_gets_less():
    found = with_all('covered = "30 %"\n', furnishing='["rug"]')
    rug = found["warm.below-cover"]
    assert rug.verdict == "stated" and rug.value > found["warm.surface"].value + 1.0
    through = next(step for step in rug.steps if step.formula.startswith("through"))
    misses = 0.3 * (45.0 - float(through.result.split()[0])) * 96.0
    assert float(rug.steps[-1].result.split()[0]) == pytest.approx(misses, rel=0.01)


def test_wood_below_a_rug_is_held_to_what_wood_stands():
    text = bare("dwelling", "raft").replace("[floor]\n", '[floor]\nfurnishing = ["thick-rug"]\n')
    text = text.replace("build-up = [", 'build-up = [{ covering = "wood-glued" }, ')
    for load, verdict in (("20 W/m²", "meets"), ("60 W/m²", "falls short")):
        found = answer(reads(text + TUBE.replace("45 W/m²", load))).as_briefed.findings
        assert next(each for each in found if each.id == "warm.below-cover").verdict == verdict


def test_a_strip_along_the_walls_may_be_warmer_than_where_people_stay():
    strip = with_all('edge-spacing = "100 mm"\n')["warm.edge-strip"]
    assert (strip.limit, strip.verdict) == (35.0, "meets")
    hot = with_all('edge-spacing = "80 mm"\n', TUBE.replace("45 W/m²", "130 W/m²"))["warm.edge-strip"]
    assert hot.verdict == "falls short"


def test_a_tube_at_the_bottom_asks_for_warmer_water_than_one_near_the_top():
    depth = told(TUBE)["warm.tube-depth"]
    top, middle, bottom = (float(step.result.split()[0]) for step in depth.steps)
    assert top < middle < bottom and depth.value == pytest.approx(bottom - top, abs=0.1)
    low = TUBE.replace("40 mm", "84 mm")
    assert "warm.hollow" not in told(TUBE) and told(low)["warm.supply"].value > told(TUBE)["warm.supply"].value


def test_air_below_a_tube_that_lies_on_its_board_is_told_as_a_range():
    found = {each.id: each for each in answer(reads(bare("dwelling", "raft") + PANEL)).as_briefed.findings}
    hollow = found["warm.hollow"]
    few, *_, many = (float(step.result.split()[0]) for step in hollow.steps)
    assert 0.0 < few < many and few <= hollow.value <= many + 0.01
    assert "warm.tube-depth" not in found


PANEL = '\n[tube]\nsize = "1/2 in"\nspacing = "9 in"\npanel = "knob-15"\nload = "45 W/m²"\n'
ALSO_REFUSED = {
    "spacing off the pitch": ("spacing", PANEL.replace("9 in", "8 in"), "stand 3 in (76 mm) apart"),
    "spacing below the panel's bend": (
        "spacing",
        PANEL.replace("9 in", "3 in"),
        "turn round no more tightly than 6 in",
    ),
    "a tube that the knobs do not hold": ("size", PANEL.replace('"1/2 in"', '"3/4 in"'), "holds 3/8 in and 1/2 in"),
    "a panel without knobs": ("panel", PANEL.replace("knob-15", "plain-15"), "has no knobs"),
    "a panel that nobody makes": ("panel", PANEL.replace("knob-15", "knob-51"), "knob-51"),
    "a panel and a depth": ("depth-from-top", f'{PANEL}depth-from-top = "2 in"\n', "says how deep"),
    "a panel for cables": ("panel", f'{PANEL}heat = "electric"\n', "hold tubes, not cables"),
    "strips as wide as the rest": ("edge-spacing", f'{TUBE}edge-spacing = "200 mm"\n', "no closer so than elsewhere"),
    "loops and lengths": (
        "loop-lengths",
        f'{TUBE}loops = 3\nloop-lengths = ["80 m", "80 m"]\n',
        "3 loops, and lengths of 2",
    ),
    "a loop of leaders": ("loop-lengths.2", f'{TUBE}loop-lengths = ["80 m", "5 m"]\n', "as long as this loop"),
    "heat before yesterday": ("heat-after", f'{TUBE}heat-after = "soon"\n', ""),
    "a share that is none": ("covered", f'{TUBE}covered = "30 m²"\n', ""),
}


@pytest.mark.parametrize("case", ALSO_REFUSED, ids=list(ALSO_REFUSED))
def test_what_cannot_be_of_panels_loops_and_times_is_told_at_its_key(case):
    key, tube, words = ALSO_REFUSED[case]
    with pytest.raises(Mistakes) as refused:
        answer(reads(bare("dwelling", "raft") + tube))
    said = str(refused.value).replace("\N{THIN SPACE}", " ")
    assert f"tube.{key}" in said and words in said


def test_a_panel_needs_its_foam_right_below_and_concrete_over_its_knobs():
    text = bare("dwelling", "raft")
    between = text.replace('{ board = "plain-15"', '{ vapour-retarder = "film-15-mil" }, { board = "plain-15"')
    thin = text.replace(
        "build-up = [", 'build-up = [{ screed = "30 mm" }, { board = "plain-15", thickness = "1 in" }, '
    )
    for brief, words in ((between, "No board lies right below"), (thin, "stand out of what is poured")):
        with pytest.raises(Mistakes) as refused:
            answer(reads(brief + PANEL))
        assert words in str(refused.value)


def test_a_mild_place_s_load_says_that_it_counts_five_kelvin_at_the_least():
    text = (
        bare("dwelling", "raft").replace("Duluth, MN", "Miami, FL").replace("[floor]\n", '[floor]\ninside = "12 C"\n')
    )
    made = answer(reads(f'{text}\n[tube]\nsize = "16 mm"\n'))
    load = next(each for each in made.assumed if each.path == "tube.load")
    assert "of which 5 K are counted at the least" in load.why


def test_where_the_ground_warms_the_room_no_heat_is_wanted():
    text = (
        bare("dwelling", "raft").replace("Duluth, MN", "Miami, FL").replace("[floor]\n", '[floor]\ninside = "12 C"\n')
    )
    found = answer(reads(text + TUBE.replace("45 W/m²", "2 W/m²"))).as_briefed.findings
    warm = [each for each in found if each.id.startswith("warm.")]
    assert [(each.id, each.verdict) for each in warm] == [("warm.output", "does not apply")]
    assert "needs no heat" in warm[0].words
