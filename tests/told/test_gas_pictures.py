"""Pictures of how soil gas is drawn off: the pipe's way, fan and floor, the months; small and true to the findings."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from page_cases import taken_apart
from test_suction_told import FAR_LEG

from underpour.answer import answer
from underpour.brief import reads
from underpour.checks.soil_gas import of_floor
from underpour.checks.soil_gas.drawn_off import DrawnOff, Fact
from underpour.checks.soil_gas.layer import field_of, layer_of
from underpour.checks.soil_gas.over_the_flow import drawn_off
from underpour.cli import main
from underpour.drawings.draught_strip import draught_strip, months_in_words
from underpour.drawings.fan_curves import fan_curves, fan_in_words
from underpour.drawings.pipe_route import pipe_route, route_facts, route_in_words
from underpour.handouts.pictures import gas, page
from underpour.papers.content import content
from underpour.papers.pictures import Pictures
from underpour.resolve import resolve

ALONE = FAR_LEG.split("[[alternative]]")[0]
OPEN = ALONE.replace(', permeability = "4e-8 m²"', "").replace('permeability = "1e-11 m²"\n', "")
PASSIVE = re.sub(r"\[soil-gas\.fan\].*", "", ALONE, flags=re.S).replace('"fan"', '"passive"')
HOT = (
    PASSIVE.replace('house-vacuum = "4 Pa"', 'house-vacuum = "1 Pa"')
    .replace('"Dublin, IE"', '"Phoenix, AZ"')
    .replace('inside   = "20 C"', 'inside   = { winter = "20 C", summer = "24 C" }')
)
MOST = 40_000  # bytes of one picture


@cache
def found(text: str) -> DrawnOff:
    of = drawn_off(resolve(reads(text).brief))
    assert of is not None
    return of


@cache
def said(text: str):
    return {finding.id: finding for finding in of_floor(resolve(reads(text).brief))}


def drawn(text: str, system: str) -> dict[str, str]:
    of = found(text)
    made = {"way": pipe_route(of.way, system, width=170.0)}
    made |= {"fan": fan_curves(of.fan_and_floor, system, width=170.0)} if of.fan_and_floor else {}
    return made | ({"months": draught_strip(of.by_itself, system, width=170.0)} if of.by_itself else {})


def plain(words: str) -> str:
    """With spaces of one kind."""
    return re.sub("[\u2009\u202f\u00a0]", " ", words)


def texts(svg: str) -> list[str]:
    return [part.text or "" for part in ET.fromstring(svg).iter() if part.tag.endswith("}text")]


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("text", [ALONE, OPEN, PASSIVE, HOT], ids=["fan", "open", "passive", "hot"])
def test_each_picture_is_small_sound_and_the_same_twice_and_no_letter_leaves_the_sheet(text, system):
    again = drawn(text, system)
    for name, svg in drawn(text, system).items():
        assert svg == again[name] and len(svg.encode()) < MOST and "nan" not in svg.lower(), name
        root = ET.fromstring(svg)
        high = float(root.attrib["height"].removesuffix("mm"))
        for part in root.iter("{http://www.w3.org/2000/svg}text"):
            x, long = float(part.attrib["x"]), float(part.attrib["textLength"])
            left = {"start": x, "middle": x - long / 2.0, "end": x - long}[part.attrib.get("text-anchor", "start")]
            assert left >= -0.5 and left + long <= 170.5, part.text
            assert 0.0 < float(part.attrib["y"]) < high, part.text


def test_the_working_point_is_the_flow_of_the_finding_and_lies_on_the_fan_s_curve():
    of = found(ALONE).fan_and_floor
    flow, pull = of.needed[0].working
    assert flow == pytest.approx(said(ALONE)["soilgas.flow"].value, rel=1e-9)
    assert pull == pytest.approx(np.interp(flow, *np.array(of.fan).T), abs=1.0)
    assert pull == pytest.approx(np.interp(flow, *np.array(of.needed[0].curve).T), abs=1.0)
    assert of.typed == ((0.0, 250.0), (0.025, 170.0), (0.06, 0.0)) and len(of.needed) == 1


def test_what_floor_and_pipe_take_rises_with_the_flow_and_the_pipe_takes_its_part_of_it():
    of = found(ALONE).fan_and_floor
    flows, taken = np.array(of.needed[0].curve).T
    assert (np.diff(taken) > 0.0).all()
    assert (taken > np.interp(flows, *np.array(of.pipe).T)).all()
    assert fan_in_words(of, "SI").startswith("The fan and the floor meet at 21.9")


def test_stone_and_ground_that_nobody_measured_make_a_band_round_the_usual_curve():
    of = found(OPEN).fan_and_floor
    flows = {each.of: each.working[0] for each in of.needed}
    assert flows["least"] < flows["usual"] < flows["most"]
    resolved = resolve(reads(OPEN).brief)
    ends = layer_of(resolved, resolved.soil_gas)
    for stone in (ends.worst, ends.best):
        for ground in (ends.worst.ground, ends.best.ground):
            flow = field_of(resolved, resolved.soil_gas, replace(stone, ground=ground)).flow
            assert flows["least"] * (1.0 - 1e-9) <= flow <= flows["most"] * (1.0 + 1e-9)
    assert of.open_keys == ("soil-gas.stone.permeability", "soil-gas.permeability")
    assert "With tight stone and tight ground it is" in fan_in_words(of, "SI")
    assert {"tight stone and tight ground", "open stone and open ground"} <= set(
        texts(fan_curves(of, "SI", width=170.0))
    )


def test_a_fan_that_nobody_typed_is_called_usual_and_assumed():
    of = found(re.sub(r"curve = \[\{ flow.*", "", ALONE)).fan_and_floor
    assert of.typed == ()
    assert "a usual fan, assumed" in texts(fan_curves(of, "SI", width=170.0))


def test_the_months_of_a_pipe_without_a_fan_are_those_of_the_finding():
    of, finding = found(PASSIVE).by_itself, said(PASSIVE)["soilgas.weakest-corner"]
    assert of.weakest == finding.months and len(of.draught) == len(of.flow) == 12
    assert max(range(12), key=lambda n: of.draught[n]) in (0, 1)
    assert found(PASSIVE).fan_and_floor is None


def test_in_a_hot_place_the_pipe_blows_down_in_summer_and_those_bars_are_open():
    of = found(HOT).by_itself
    assert of.draught[0] > 0.0 > of.draught[6] and of.flow[6] < 0.0
    assert all(flow < 0.0 for flow, pull in zip(of.flow, of.draught, strict=True) if pull < 0.0)
    back = sum(flow < 0.0 for flow in of.flow)
    svg = draught_strip(of, "SI", width=170.0)
    assert svg.count('stroke-dasharray="0.8 0.8"') == back > 0
    assert "July" in months_in_words(of, "SI").split("blows down")[1]


def test_what_is_assumed_of_the_way_and_what_nobody_says_stand_apart_from_what_is_typed():
    way = found(ALONE.replace("bends   = 4\n", "")).way
    by_words = {plain(each.words): each.origin for each in route_facts(way, "SI")}
    assert by_words["4 bends"] == "assumed" and by_words["by 1.5 %"] == "typed"
    assert by_words["level stretches: not told"] == by_words["distance to openings: not told"] == "open"
    assert "4 bends, assumed" in plain(route_in_words(way, "SI"))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"falls": Fact(None, "open")}, "which way they fall: not told"),
        ({"above_roof": Fact(0.3, "typed")}, "its outlet is 300 mm (11.8 in) above the roof"),
        ({"above_openings": Fact(1.0, "typed")}, "1.00 m (3.28 ft) above the nearest opening"),
        ({"labelled": Fact(False, "typed")}, "no label on each storey"),
        ({"through": Fact("outdoors", "typed"), "fan_at": Fact("outdoors", "typed")}, "the fan stands outdoors"),
        ({"system": "rough-in"}, "a pipe of 100 mm (3.94 in), capped for later"),
    ],
)
def test_each_thing_of_the_way_is_written_beside_it(changes, words):
    way = replace(found(ALONE).way, **changes)
    assert words in [plain(each.words) for each in route_facts(way, "SI")]
    assert words.split(" (")[0] in plain(" ".join(texts(pipe_route(way, "SI", width=170.0))))


def test_a_floor_without_a_pipe_has_no_picture_of_one():
    assert drawn_off(resolve(reads(ALONE.replace('"fan"', '"none"').split("[soil-gas.fan]")[0]).brief)) is None
    assert drawn_off(resolve(reads(ALONE.split("[soil-gas]")[0]).brief)) is None


def test_the_submittal_and_the_page_show_the_pipe_beside_its_cautions(tmp_path, capsys):
    file = tmp_path / "brief.toml"
    file.write_text(FAR_LEG, "utf-8")
    made = answer(reads(FAR_LEG))
    pictures = gas(made)
    assert [each.name for each in pictures] == ["The pipe's way", "Fan, pipe and floor"]
    assert all(each.alt and each.headed for each in pictures)
    assert len(content(made, Pictures(gas=pictures), "28 November 2026")["pipe"]) == 2
    shown = taken_apart(page(made, "A")).one("div", class_="damp gas")
    assert "As briefed: a pit, 600 mm" in plain(shown.words) and "A pipe that draws by itself: 2 pits" in shown.words
    assert "lung cancer" in shown.words
    out = tmp_path / "gas.svg"
    assert main(["compare", str(file), "-o", str(out), "--gas"]) == 1
    assert "The picture of the soil-gas pipe is in" in capsys.readouterr().out
    assert {"As briefed", "A pipe that draws by itself"} <= set(texts(out.read_text("utf-8")))
