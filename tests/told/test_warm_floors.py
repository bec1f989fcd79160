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
