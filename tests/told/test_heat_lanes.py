"""Heat lanes as they are asked for, drawn and told."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import drawing_cases as cases
import numpy as np
import pytest

from underpour.cli import compare
from underpour.drawings import comparison, comparison_with_lanes, month_middle
from underpour.drawings.lanes import DOTS, Lanes, Ways, lanes_for, ways_of
from underpour.mistakes import Mistake

SVG = "{http://www.w3.org/2000/svg}"
EXAMPLES = Path(__file__).parents[2] / "examples"


def words(svg: str) -> str:
    found = (node.text or "" for node in ElementTree.fromstring(svg).iter(f"{SVG}text"))
    return " ".join(found).replace("\u00a0", " ")


def ways(floor: float, wall: float | None = None, stands: str = "wall") -> Ways:
    ends = [-(wall or 0.0), floor]
    return Ways(np.array([0.0, 1.0]), np.array([0.0]), np.array([ends]), floor, wall, stands, True)


def test_lanes_are_drawn_only_where_they_are_asked_for():
    assert DOTS not in comparison(cases.dossier(), "A", year_fraction=month_middle(2))
    assert comparison_with_lanes(cases.dossier(), "A").count(DOTS) == 3


def test_the_picture_says_what_a_lane_carries_and_of_which_moment_it_is():
    for system, each in (("SI", r"Each lane carries [125]0? W for each metre of edge\."),
                         ("US", r"Each lane carries [125]0? Btu/h for each foot of edge\.")):  # fmt: skip
        svg = comparison_with_lanes(cases.dossier(system), "A")
        said = words(svg)
        assert re.search(each, said)
        assert "mean of the year" in said
        assert "February" not in said
        assert "The floor goes on beyond the drawing, with more lanes." in said
        described = (ElementTree.fromstring(svg).findtext(f"{SVG}desc") or "").replace("\u00a0", " ")
        assert re.search(each, described)


def test_every_alternative_says_how_many_lanes_leave_by_its_floor_and_wall():
    assert len(re.findall(r"lanes? leaves? by the floor", words(comparison_with_lanes(cases.dossier(), "A")))) == 3


@pytest.mark.parametrize(
    ("floor", "wall", "said"),
    [
        (6.0, 8.0, "3 lanes leave by the floor, 4 by the wall"),
        (2.0, 8.0, "1 lane leaves by the floor, 4 leave by the wall"),
        (2.0, 2.0, "1 lane leaves by the floor, 1 by the wall"),
        (0.0, 8.0, "No lanes leave by the floor, 4 by the wall"),
        (-4.0, 6.0, "2 lanes enter by the floor, 3 leave by the wall"),
        (12.0, None, "6 lanes leave by the floor"),
    ],
)
def test_lanes_are_counted_in_words(floor, wall, said):
    assert Lanes("SI", 2.0).told(ways(floor, wall)) == said


def test_below_a_door_lanes_leave_by_the_door():
    assert Lanes("SI", 2.0).told(ways(6.0, 8.0, "door")) == "3 lanes leave by the floor, 4 by the door"
    cut = cases.section("under")
    assert ways_of(cut, cases.field(cut)).stands == "wall"
    assert ways_of(replace(cut, kind="threshold"), cases.field(cut)).stands == "door"


def test_where_hardly_any_heat_flows_no_lane_is_made_up():
    lanes = lanes_for([ways(1e-9)], "SI")
    assert lanes.flow == pytest.approx(0.1)
    assert lanes.told(ways(1e-9)) == "No lanes leave by the floor"
    assert lanes.levels(ways(1e-9)) == []


def test_lanes_need_a_picture_to_be_drawn_into(tmp_path):
    brief = str(EXAMPLES / "daylight-basement" / "brief.toml")
    for asked in ([], ["-o", str(tmp_path / "lesson.html")]):
        with pytest.raises(Mistake) as told:
            compare.told([brief, *asked, "--lanes"])
        assert told.value.at == "--lanes"
        assert told.value.instead == "Add -o lanes.svg."


def test_a_slab_outdoors_has_none_and_is_told_so(tmp_path):
    with pytest.raises(Mistake) as told:
        compare.told([str(EXAMPLES / "walk-or-drive" / "brief.toml"), "-o", str(tmp_path / "drive.svg"), "--lanes"])
    assert "no heat flows in the mean of the year" in told.value.wrong
    assert not (tmp_path / "drive.svg").exists()


def test_lanes_leave_room_for_the_values_of_the_isotherms():
    dossier = cases.dossier()
    one = replace(dossier, alternatives=dossier.alternatives[:1])
    root = ElementTree.fromstring(comparison_with_lanes(one, "A"))
    lanes = next(node for node in root.iter(f"{SVG}path") if node.get("stroke-dasharray") == ".01 1.1")
    points = []
    for run in re.findall(r"M[^M]+", lanes.get("d") or ""):
        steps = np.array([[float(v) for v in pair.split()] for pair in re.findall(r"[Ml]([^Ml]+)", run)])
        points.append(np.cumsum(steps, axis=0))
    on = np.vstack(points)
    values = [node for node in root.iter(f"{SVG}text") if re.fullmatch(r"\d\d", node.text or "")]
    inside = [
        node for node in values if node.get("text-anchor") == "middle" and float(node.get("y", 0)) < on[:, 1].max()
    ]
    assert inside
    for node in inside:
        x, y = float(node.get("x", 0)), float(node.get("y", 0)) - 1.2
        assert np.min(np.hypot(on[:, 0] - x, on[:, 1] - y)) > 0.9
