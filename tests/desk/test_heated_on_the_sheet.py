"""A heated floor on the desk: its findings, its pictures beside them, its water in the strip of alternatives."""

from xml.etree import ElementTree

from test_loads_on_the_sheet import BRIEF, by_key, told

FLOOR = BRIEF.partition("[[load]]")[0]
TUBE = '[tube]\nsize = "1/2 in"\nspacing = "9 in"\nload = "12 Btu/h·ft²"\n'
CABLE = '[tube]\nheat = "electric"\nspacing = "6 in"\nload = "12 Btu/h·ft²"\n'
BARE = '[[alternative]]\nname = "bare slab"\nremove = ["board"]\n'
SHOWN = ("warm.surface", "warm.pressure", "warm.warm-up", "warm.downward|of=total")


def test_each_answer_of_a_heated_floor_that_is_drawn_has_its_picture(desk):
    sheet = told(desk, FLOOR + TUBE)
    lines = by_key(sheet)
    assert set(sheet["beside"]) == set(SHOWN) <= set(lines)
    assert "scalds" in lines["warm.supply"]["caution"]
    for svg in sheet["beside"].values():
        root = ElementTree.fromstring(svg)
        assert len(root.get("aria-label", "")) > 60
        groups = [each for each in root if each.get("class") == "outside"]
        assert len(groups) == 1 and groups[0][0].tag == "rect"  # the theme's ground below it


def test_cables_have_no_pump_and_a_floor_without_heat_no_picture(desk):
    assert set(told(desk, FLOOR + CABLE)["beside"]) == set(SHOWN) - {"warm.pressure"}
    assert told(desk, FLOOR)["beside"] == {}


def test_the_strip_says_of_each_version_how_warm_its_water_is_and_what_goes_down(desk):
    sheet = told(desk, FLOOR + TUBE + BARE)
    lines = by_key(sheet)
    first, second = (each["warms"] for each in sheet["strip"])
    assert lines["warm.supply"]["value"].split(" (")[0] in first
    assert lines["warm.downward|of=total"]["value"] in first
    assert first != second and second
    assert [each["warms"] for each in told(desk, FLOOR + BARE)["strip"]] == ["", ""]
    assert "water" not in told(desk, FLOOR + CABLE)["strip"][0]["warms"]
