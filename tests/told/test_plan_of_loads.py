"""What is told of loads that stand on the plan together: joints, bays, thickened edges, and what each is held to."""

from __future__ import annotations

import pytest

from underpour.brief import reads
from underpour.checks import bearing
from underpour.findings import Finding
from underpour.physics.plates import joints
from underpour.resolve import resolve

BRIEF = """\
[project]
use = "warehouse"
units = "SI"

[site]
place = "Duluth, MN"
ground = "sand-or-gravel"
subgrade-modulus = "40 MN/m³"
soil-bearing = "150 kPa"
base = "compacted"

[plan]
outline = ["0 0", "12 0", "12 8", "0 8"]
unit = "m"

[floor]
inside = "12 C"
humidity = "40 %"
concrete-class = "C25/30"
build-up = [{ concrete = "150 mm" }, { board = "plain-40", thickness = "2 in" }, { gravel = "150 mm" }]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "1.5 m"
ground = "-150 mm"
gap = "12 mm"

[[load]]
kind = "post"
force = "20 kN"
plate = "200 mm"
at = "4.8 4"
how-long = "standing"

[[load]]
kind = "wheel"
force = "15 kN"
tyre = "600 kPa"
at = "5.7 4.4"
how-long = "passing"
"""
CUT = '\n[[joint]]\nfrom = "6 0"\nto = "6 8"\ntransfer = "{}"\n'
SOFT = '\n[[floor.bay]]\noutline = ["3.5 2", "6 2", "6 6", "3.5 6"]\n{}\n'


def findings(text: str) -> list[Finding]:
    return list(bearing.of_loads(resolve(reads(text).brief)))


def together(text: str, id: str, **at: str) -> Finding:
    (found,) = (
        each for each in findings(text) if each.id == id and "load" not in each.at and at.items() <= each.at.items()
    )
    return found


def value(text: str, id: str, **at: str) -> float:
    found = together(text, id, **at).value
    assert found is not None
    return found


def test_which_loads_act_together_is_said_and_what_each_case_is_held_to() -> None:
    stands = together(BRIEF, "bearing.foam-long", loads="standing")
    rolls = together(BRIEF, "bearing.foam-short", loads="passing")
    assert stands.words.startswith("Load 1 stands there: ")
    assert rolls.words.startswith("Load 2")
    assert stands.limit is not None and rolls.limit is not None and stands.limit != rolls.limit
    bent = together(BRIEF, "bearing.bending")
    assert bent.at["loads"] in ("all", "standing", "passing")
    assert "Of what each may bear is used" in bent.words


def test_each_load_by_itself_stays_beside_it_as_a_check_and_is_held_to_no_limit() -> None:
    alone = [each for each in findings(BRIEF) if each.at.get("method") == "endless"]
    assert {each.at["load"] for each in alone} == {"1", "2"}
    assert all(each.verdict == "stated" and "Held to no limit here" in each.words for each in alone)
    one_place = BRIEF.partition('\n[[load]]\nkind = "wheel"')[0]
    told = findings(one_place)
    assert not any("loads" in each.at for each in told)
    assert any(each.at.get("method") == "plate" and each.limit is not None for each in told)


def test_a_joint_without_transfer_presses_and_steps_more_than_one_with_dowels() -> None:
    bare, dowelled = BRIEF + CUT.format("none"), BRIEF + CUT.format("dowels")
    whole = value(BRIEF, "bearing.foam-short", loads="passing")
    assert (
        whole
        < value(dowelled, "bearing.foam-short", loads="passing")
        < value(bare, "bearing.foam-short", loads="passing")
    )
    assert value(dowelled, "bearing.step", joint="1") < 0.2 * value(bare, "bearing.step", joint="1")
    words = together(dowelled, "bearing.step", joint="1").words
    assert "dowels, 85 %" in words and "0.020 in" in words


def test_what_nobody_says_of_a_joint_or_an_edge_is_assumed_with_its_range() -> None:
    silent = BRIEF.replace('gap = "12 mm"\n', "") + CUT.replace('transfer = "{}"\n', "")
    taken = {each.path: each for each in resolve(reads(silent).brief).assumed}
    assert taken["joint.1.transfer"].value == "none"
    gap = taken["edge.A.gap"]
    assert isinstance(gap.low, float) and isinstance(gap.high, float) and gap.low < gap.high
    dowels = {each.path: each for each in resolve(reads(BRIEF + CUT.format("dowels")).brief).assumed}
    assert (dowels["joint.1.share"].low, dowels["joint.1.share"].high) == (70.0, 95.0)


def test_a_soft_spot_lets_the_floor_down_and_a_thicker_bay_holds_it() -> None:
    soft = BRIEF + SOFT.format('subgrade-modulus = "8 MN/m³"')
    down = value(soft, "bearing.settlement", loads="standing", after="now")
    plain = value(BRIEF, "bearing.settlement", loads="standing", after="now")
    assert down > 1.5 * plain
    layers = '{ concrete = "250 mm" }, { board = "plain-40", thickness = "2 in" }, { gravel = "150 mm" }'
    thick = BRIEF + SOFT.format(f"build-up = [{layers}]")
    assert value(thick, "bearing.bending") < 0.8 * value(BRIEF, "bearing.bending")
    assert value(thick, "bearing.settlement", loads="standing", after="now") < plain
    notes = " ".join(resolve(reads(soft).brief).notes)
    assert "A part of the floor with a build-up or ground of its own" in notes


def test_other_foam_in_a_bay_is_held_to_what_it_bears_itself() -> None:
    layers = '{ concrete = "150 mm" }, { board = "plain-15", thickness = "2 in" }, { gravel = "150 mm" }'
    found = together(BRIEF + SOFT.format(f"build-up = [{layers}]"), "bearing.foam-long", loads="standing")
    plain = together(BRIEF, "bearing.foam-long", loads="standing")
    assert found.limit is not None and plain.limit is not None and found.limit < 0.6 * plain.limit
    assert "in bay 1" in found.words


RIB = '\n[[floor.rib]]\nfrom = "0 4"\nto = "12 4"\nwidth = "500 mm"\nthickness = "300 mm"\n{}\n'


def test_a_rib_below_a_post_takes_tension_off_the_slab_and_is_named() -> None:
    ribbed = BRIEF + RIB.format('lies-on = "foam"')
    assert value(ribbed, "bearing.bending") < 0.8 * value(BRIEF, "bearing.bending")
    assert value(ribbed, "bearing.settlement", after="now") < value(BRIEF, "bearing.settlement", after="now")
    assert "in rib 1" in together(ribbed, "bearing.foam-long", loads="standing").words
    assert "floor.rib.1" in together(ribbed, "bearing.bending").rests_on
    assert "A rib in the slab" in " ".join(resolve(reads(ribbed).brief).notes)


def test_a_rib_on_bare_ground_takes_the_load_off_the_foam_beside_it() -> None:
    foam, bare = (BRIEF + RIB.format(f'lies-on = "{on}"') for on in ("foam", "ground"))
    assert value(bare, "bearing.foam-long", loads="standing") < value(foam, "bearing.foam-long", loads="standing")


def test_the_slab_s_edge_steps_beside_a_wall_and_the_sealant_s_class_says_how_far() -> None:
    near = BRIEF.replace('at = "4.8 4"', 'at = "0.3 4"')
    step = together(near, "bearing.step", edge="A")
    assert step.value is not None and step.value > 3.0 * value(BRIEF, "bearing.step", edge="A")
    assert step.limit == pytest.approx(1000.0 * float(joints.step_borne(0.012, 0.25)), rel=1e-9) == pytest.approx(9.0)


def test_a_brittle_finish_and_a_wall_on_the_floor_bear_less_tilt() -> None:
    bare, tile = BRIEF, BRIEF.replace("[floor]\n", '[floor]\nfinish = "tile"\n')
    wall = BRIEF + '\n[[load]]\nkind = "line"\nforce = "5 kN/m"\nfrom = "2 1"\nto = "2 7"\nhow-long = "standing"\n'
    limits = [together(each, "bearing.tilt", loads="standing").limit for each in (bare, tile, wall)]
    assert limits == [pytest.approx(100.0 / 300.0, rel=1e-3), pytest.approx(0.2), pytest.approx(0.2)]


def test_a_film_or_foam_below_the_slab_makes_it_curl_more() -> None:
    loose = BRIEF.replace('{ board = "plain-40", thickness = "2 in" }, ', "")
    assert value(BRIEF, "bearing.curling") > 1.3 * value(loose, "bearing.curling")
    assert "dries from its top alone" in together(BRIEF, "bearing.curling").words


def test_bays_longer_than_thirty_six_thicknesses_fall_short() -> None:
    short = BRIEF + '\n[[joint]]\nspacing = "4.1 m"\ntransfer = "dowels"\n'
    met = together(short, "bearing.joint-spacing")
    assert met.verdict == "meets" and met.value == pytest.approx(4.0)
    long = together(BRIEF + CUT.format("dowels"), "bearing.joint-spacing")
    assert long.verdict == "falls short" and long.limit == pytest.approx(36 * 0.15)


def test_a_wall_stands_on_a_thickened_edge_and_its_foam_feels_it() -> None:
    edge = 'kind = "thickened-edge"\ndepth = "400 mm"\nground = "-150 mm"\nthickening = { width = "400 mm" }\n'
    below = 'insulation = [{ board = "plain-40", thickness = "2 in", face = "below-footing" }]\n'
    wall = '\n[[load]]\nkind = "wall"\nat = "edge A"\nforce = "15 kN/m"\n'
    old = 'kind = "frost-wall"\ndepth = "1.5 m"\nground = "-150 mm"\ngap = "12 mm"\n'
    text = BRIEF.replace(old, edge + below) + wall
    found = together(text, "bearing.foam-long", loads="standing")
    assert "the wall at edge A" in found.words
    assert found.value is not None and found.value > value(BRIEF, "bearing.foam-long", loads="standing")
    assert not any(each.id == "bearing.step" and "edge" in each.at for each in findings(text))


def test_a_load_in_the_hole_of_a_column_cannot_be_told_until_it_stands_elsewhere() -> None:
    column = BRIEF.replace(
        "[floor]\n", '[[plan.obstacle]]\nkind = "column"\nat = "4.8 4"\nsize = "500 mm x 500 mm"\n\n[floor]\n'
    )
    missing = {each.missing for each in findings(column) if "loads" in each.at}
    assert missing == {"load.1.at"}
    moved = column.replace('at = "4.8 4"\nhow-long', 'at = "3.6 4"\nhow-long')
    assert together(moved, "bearing.bending").value is not None


def test_what_a_joint_hands_on_turns_a_verdict() -> None:
    """A wheel beside a joint: with dowels the concrete carries it, without them it does not."""
    heavy = BRIEF.replace('force = "15 kN"', 'force = "22.5 kN"')
    by = {each: together(heavy + CUT.format(each), "bearing.bending") for each in ("dowels", "none")}
    assert by["dowels"].limit == by["none"].limit
    assert {each: found.verdict for each, found in by.items()} == {"dowels": "meets", "none": "falls short"}
    assert "joint.1" in by["none"].rests_on


@pytest.mark.parametrize(
    ("method", "on_load", "bears"),
    [
        ("lrfd", 1.6, 0.6 * 5.0 * (25e6 / 6894.757) ** 0.5 * 6.894757),
        ("en-1990", 1.5, 0.8 * 0.7 * (1.6 - 0.15) * 0.3 * 25.0 ** (2.0 / 3.0) / 1.5 * 1000.0),
    ],
)
def test_all_on_the_plan_is_held_by_the_method_of_the_brief(method: str, on_load: float, bears: float) -> None:
    """The plate feels the loads as they are; the largest factor of any of them lies on its tension, once."""
    plain = together(BRIEF, "bearing.bending")
    found = together(BRIEF.replace("[floor]\n", f'[floor]\nconcrete-method = "{method}"\n'), "bearing.bending")
    assert plain.value is not None and found.value == pytest.approx(on_load * plain.value, rel=1e-9)
    assert found.limit == pytest.approx(bears, rel=2e-3)
    assert "With the largest factor of its loads" in found.words
    foam = ("bearing.foam-long", {"loads": "standing"})
    assert value(BRIEF, foam[0], **foam[1]) == value(
        BRIEF.replace("[floor]\n", f'[floor]\nconcrete-method = "{method}"\n'), foam[0], **foam[1]
    )
