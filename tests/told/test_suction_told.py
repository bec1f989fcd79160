"""What is said of suction below a slab: the far leg, what mends it, what is missing, in words that a builder reads."""

from pathlib import Path

import numpy as np
import pytest
from ask_cases import gas
from test_soil_gas_told import one, said

import underpour.catalogue
from underpour.brief import read, reads
from underpour.checks.soil_gas import of_floor
from underpour.checks.soil_gas.layer import field_of_month, layer_of, way_round
from underpour.resolve import resolve

FAR_LEG = (Path(__file__).parents[2] / "examples" / "far-leg" / "brief.toml").read_text(encoding="utf-8")
TEST = '\n[soil-gas.communication]\nat = "2 2"\nbore = "100 mm"\nflow = "10 l/s"\nscanned = true\n'
CROSSING = 'crossing = [{ at = "8 1.5", size = "100 mm" }]'
HOLES = ((3.0, 2.0, "60 Pa"), (6.0, 4.0, "30 Pa"), (10.0, 6.0, "18 Pa"))


def in_alternative(name, id):
    brief = reads(FAR_LEG).brief if not name else {a: b for a, b, *_ in reads(FAR_LEG).alternatives}[name]
    return next(finding for finding in of_floor(resolve(brief)) if finding.id == id)


def test_the_far_leg_behind_a_footing_falls_short_and_is_named_by_its_corner():
    finding = in_alternative("", "soilgas.weakest-corner")
    assert (finding.verdict, finding.limit, finding.unit) == ("falls short", 1.0, "Pa")
    assert finding.value < 0.0 and "above the room at its worst" in finding.words
    assert "Draw at a second place near it, or leave ways through footing 1." in finding.words


@pytest.mark.parametrize("name", ["a second pit in the far leg", "ways through the footing"])
def test_a_second_pit_or_ways_through_the_footing_mend_it(name):
    finding = in_alternative(name, "soilgas.weakest-corner")
    assert finding.verdict == "meets" and finding.value > 10.0
    assert "Measure it when the fan draws" in finding.words


def test_a_pipe_that_draws_by_itself_is_told_for_each_month_and_is_no_promise():
    finding = in_alternative("a pipe that draws by itself", "soilgas.weakest-corner")
    assert finding.verdict == "falls short" and len(finding.months) == 12
    assert finding.value == min(finding.months) and finding.month == finding.months.index(finding.value) + 1
    assert "no promise" in finding.words


def test_the_house_pulls_its_worst_when_it_is_coldest_and_nothing_when_it_is_as_warm_outdoors_as_in():
    brief = {name: brief for name, brief, *_ in reads(FAR_LEG).alternatives}["a pipe that draws by itself"]
    resolved = resolve(brief)
    middle = layer_of(resolved, resolved.soil_gas).middle
    coldest, room = resolved.outdoor_mean - abs(resolved.outdoor_swing), resolved.room.mean

    def pulls(outdoors):
        return field_of_month(resolved, resolved.soil_gas, middle, outdoors).room

    assert (pulls(coldest), pulls(room), pulls(room + 5.0)) == (pytest.approx(4.0), 0.0, 0.0)
    assert pulls((coldest + room) / 2.0) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("foot", "below", "ground", "far"),
    [
        (0.9, 0.35, -0.35, 0.55),  # level ground outside at the layer's own height: the footing alone
        (0.0, 0.30, -0.15, 0.15 / np.pi),  # a raft: straight down
        (0.3, 0.25, 2.0, 0.05 + 2.25 / np.pi),  # a basement
        (0.2, 0.30, -0.40, 0.0),  # the layer stands above the ground outside
    ],
)
def test_the_way_of_the_air_round_an_edge_counts_the_footing_and_the_ground_above_the_layer(foot, below, ground, far):
    assert way_round(foot, below, ground) == pytest.approx(far)


def test_where_the_stone_decides_it_is_asked_and_a_value_gives_a_verdict():
    """Stone by its size alone may be anything from 1e-8 to 4e-7 m²; a tight one leaves the corner short."""
    crossed = FAR_LEG.split("[[alternative]]")[0].replace('width = "450 mm"', f'width = "450 mm"\n{CROSSING}')
    crossed = crossed.replace('house-vacuum = "4 Pa"', 'house-vacuum = "6 Pa"')
    stone = ', permeability = "4e-8 m²"'
    finding = one(crossed.replace(stone, ""), "soilgas.weakest-corner")
    assert finding.missing == "soil-gas.stone.permeability", finding.words
    assert "Between" in finding.words and "communication test" in finding.words
    assert one(crossed, "soilgas.weakest-corner").verdict == "meets"
    tight = crossed.replace("4e-8 m²", "5e-9 m²")
    assert one(tight, "soilgas.weakest-corner").verdict == "falls short"


def test_suction_without_a_place_and_without_stone_is_asked_for():
    assert one(gas('system = "fan"\n'), "soilgas.weakest-corner").missing == "soil-gas.suction.1.at"
    bare = gas('system = "fan"\n\n[[soil-gas.suction]]\nat = "4 4"\n').replace(', { gravel = "100 mm" }', "")
    finding = one(bare, "soilgas.weakest-corner")
    assert finding.missing == "soil-gas.communication.flow" and "scan the slab" in finding.words


def with_test(holes, flow="10 l/s"):
    listed = "".join(f'\n[[soil-gas.communication.hole]]\nat = "{x} {y}"\nvacuum = "{p}"\n' for x, y, p in holes)
    return gas(TEST.replace('flow = "10 l/s"\n', f'flow = "{flow}"\n' if flow else "") + listed)


def test_a_communication_test_tells_stone_and_leaks_and_its_residual():
    finding = one(with_test(HOLES), "soilgas.communication")
    assert finding.verdict == "stated" and 0.0 < finding.value < 30.0
    assert "lets air through as" in finding.words and "leak into it" in finding.words
    assert [step.formula.split(":")[0] for step in finding.steps] == ["hole 1", "hole 2", "hole 3"]


def test_a_communication_test_without_its_flow_or_with_one_reading_names_what_is_missing():
    assert one(with_test(HOLES, flow=""), "soilgas.communication").missing == "soil-gas.communication.flow"
    assert one(with_test(HOLES[:1]), "soilgas.communication").missing == "soil-gas.communication.vacuum"


def test_a_floor_that_nothing_draws_on_hears_nothing_of_suction():
    assert not [f for f in said(gas('system = "rough-in"\n')) if f.id in ("soilgas.weakest-corner", "soilgas.flow")]


def channels(readings):
    return gas(f"channels = [{readings}]\n")


PIPE = 'rise = "7 m"\nlength = "10 m"\n'


def water(pipe, system="fan"):
    fan = f'system = "{system}"\nstone = {{ size = "19 mm", voids = "40 %", permeability = "1e-7 m²" }}\n'
    fan += 'permeability = "1e-11 m²"\nhouse-vacuum = "4 Pa"\n'
    place = '\n[[soil-gas.suction]]\nat = "4 4"\n'
    return one(gas(f"{fan}{place}\n[soil-gas.pipe]\n{PIPE}{pipe}"), "soilgas.condensate")


def test_water_in_the_pipe_asks_which_way_it_falls_and_then_how_steeply():
    assert water("").missing == "soil-gas.pipe.falls"
    steep = water('falls = "to-suction"\n')
    assert steep.missing == "soil-gas.pipe.slope" and "1/8 in in each foot (1 %)" in steep.words
    assert "of water condense in it each day" in steep.words


@pytest.mark.parametrize(("slope", "verdict"), [("0.4 %", "falls short"), ("1 %", "meets"), ("2 %", "meets")])
def test_a_pipe_that_falls_too_little_holds_water_in_its_sags(slope, verdict):
    finding = water(f'falls = "to-suction"\nslope = "{slope}"\n')
    assert (finding.verdict, finding.unit, finding.limit) == (verdict, "%", 1.0)
    assert finding.value == pytest.approx(float(slope.split()[0]))
    assert ("Hang it steeper, or on closer hangers." in finding.words) == (verdict == "falls short")


def test_the_sag_that_holds_water_is_that_of_a_pipe_level_at_its_hangers():
    """0.4 % over 1.8 m: a parabola 1.8 mm low in its middle falls by 4 x 1.8 / 1800 at its ends, which is 0.4 %."""
    finding = water('falls = "to-suction"\nslope = "0.4 %"\n')
    assert "sag of more than 1.8 mm" in finding.words.replace("\u2009", " ")


def test_a_pipe_straight_up_needs_no_fall_and_a_floor_without_a_pipe_is_not_asked():
    assert water("").verdict == "cannot tell"
    straight = gas(f'system = "passive"\n{"[[soil-gas.suction]]"}\nat = "4 4"\n\n[soil-gas.pipe]\nroute = ["4 4"]\n')
    assert one(straight, "soilgas.condensate").verdict == "does not apply"
    assert not [f for f in said(gas('system = "none"\n')) if f.id == "soilgas.condensate"]


def test_channels_stand_beside_stone_by_the_readings_of_their_maker():
    wide = one(channels('{ flow = "1 l/s", fall = "0.2 Pa" }, { flow = "20 l/s", fall = "30 Pa" }'), "soilgas.void")
    tight = one(channels('{ flow = "1 l/s", fall = "4 Pa" }, { flow = "5 l/s", fall = "40 Pa" }'), "soilgas.void")
    assert (wide.verdict, tight.verdict, tight.limit) == ("meets", "falls short", 100.0)
    assert "Lay stone round the pits" in tight.words


PANEL = gas('system = "fan"\n\n[[soil-gas.suction]]\nat = "4 4"\n').replace(
    '{ gravel = "100 mm" }', '{ board = "gas-25", thickness = "4 in" }'
)


def without_hydraulics(folder):
    """The brief with its panel from a line of its own, the same but for what its channels let through."""
    shipped = (Path(underpour.catalogue.__file__).parent / "marlpit.toml").read_text("utf-8")
    head, *products = shipped.split("[[product]]\n")
    panel = next(each for each in products if each.startswith('key = "gas-25"')).replace("gas-25", "our-gas-25")
    record = "  [[product.evidence]]\n"
    kept = [each for each in panel.split(record) if 'property = "channel-' not in each]
    assert len(kept) == len(panel.split(record)) - 2
    (folder / "catalogue").mkdir()
    (folder / "catalogue" / "ours.toml").write_text(f"{head}[[product]]\n{record.join(kept)}", "utf-8")
    return PANEL.replace("gas-25", "our-gas-25")


def of_panel(text, folder, id):
    (folder / "brief.toml").write_text(text, "utf-8")
    reading = read(folder / "brief.toml")
    return next(each for each in of_floor(resolve(reading.brief, products=reading.products)) if each.id == id)


def test_a_panel_in_the_build_up_is_laid_beside_stone_by_its_own_records(tmp_path):
    void = of_panel(PANEL, tmp_path, "soilgas.void")
    assert (void.verdict, void.limit) == ("meets", 100.0) and void.value == pytest.approx(348.4, abs=1.0)
    assert "catalogue.product.gas-25.channel-permeability" in void.rests_on
    assert of_panel(PANEL, tmp_path, "soilgas.weakest-corner").missing != "soil-gas.channels"


def test_a_panel_that_nobody_measured_cannot_be_told_until_its_readings_are_typed(tmp_path):
    text = without_hydraulics(tmp_path)
    void = of_panel(text, tmp_path, "soilgas.void")
    assert (void.verdict, void.missing) == ("cannot tell", "soil-gas.channels")
    assert of_panel(text, tmp_path, "soilgas.weakest-corner").missing == "soil-gas.channels"
    typed = 'channels = [{ flow = "1 l/s", fall = "4 Pa" }, { flow = "5 l/s", fall = "40 Pa" }]\n'
    told = of_panel(text.replace('system = "fan"\n', f'system = "fan"\n{typed}'), tmp_path, "soilgas.void")
    assert told.verdict == "falls short"


def test_a_panel_s_channels_count_for_the_depth_that_is_dug_and_not_for_heat():
    floor = resolve(reads(PANEL).brief).floor
    panel = next(layer for layer in floor if layer.below > 0.0)
    assert panel.height == pytest.approx(0.1016 + 0.0381) and panel.thickness == pytest.approx(0.1016)
    assert panel.resistance == pytest.approx(panel.record.r_in_place(0.1016))
    assert "over channels of 38" in panel.words


def test_readings_of_channels_that_tell_nothing_are_asked_for_again():
    once = one(channels('{ flow = "1 l/s", fall = "0.2 Pa" }'), "soilgas.void")
    assert once.missing == "soil-gas.channels" and "two flows or more" in once.words
