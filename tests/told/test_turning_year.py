"""The year as a picture that turns by itself."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import drawing_cases as cases
import pytest

from underpour.cli import compare
from underpour.drawings import turning_year
from underpour.drawings.through_the_year import through_the_year, year_scale
from underpour.drawings.when import MONTHS
from underpour.mistakes import Mistake

SVG = "{http://www.w3.org/2000/svg}"
BRIEF = str(Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml")


@pytest.fixture(scope="module")
def root():
    return ElementTree.fromstring(turning_year(cases.dossier("US"), "A", first=2))


def groups(root, month: int):
    return [node for node in root.iter(f"{SVG}g") if f"m{month}" in (node.get("class") or "").split()]


def words(node) -> str:
    return " ".join(text.text or "" for text in node.iter(f"{SVG}text")).replace("\u00a0", " ")


def test_still_it_shows_the_first_month_and_no_other(root):
    for month in range(1, 13):
        hidden = {node.get("visibility") for node in groups(root, month)}
        assert hidden == ({None} if month == 2 else {"hidden"})


def test_every_month_names_itself_and_its_temperatures(root):
    dossier = cases.dossier("US")
    shown = through_the_year(dossier, "A", year_scale(dossier))
    for month in range(1, 13):
        said = " ".join(words(node) for node in groups(root, month))
        assert MONTHS[month - 1] in said
        assert [name for name in MONTHS if re.search(rf"\b{name}\b", said)] == [MONTHS[month - 1]]
        coldest = shown.lessons[month - 1].rsplit(" ", 1)[0].replace("\u2009", " ")
        assert coldest.split(":")[0] in said


def test_months_follow_each_other_from_the_first_on_and_each_stays_as_long(root):
    style = root.find(f".//{SVG}style").text
    delays = {int(month): float(delay) for month, delay in re.findall(r"\.m(\d+)\{animation-delay:([\d.]+)s\}", style)}
    whole = float(re.search(r"animation:month ([\d.]+)s step-end infinite", style).group(1))
    assert [delays[(1 + k) % 12 + 1] for k in range(12)] == pytest.approx([k * whole / 12 for k in range(12)])
    gone = float(re.search(r"visible\}([\d.]+)%", style).group(1))
    assert gone == pytest.approx(100.0 / 12, abs=1e-3)


def test_nothing_moves_on_paper_or_for_readers_who_asked_for_less_motion(root):
    style = root.find(f".//{SVG}style").text
    moving, outside = re.search(r"@media ([^{]+)\{(.*)\}$", style).groups()
    assert moving == "screen and (prefers-reduced-motion:no-preference)"
    assert "animation:" in outside
    assert "animation" not in style[: style.index("@media")]


def test_pointing_at_it_holds_the_month(root):
    assert "svg:hover .m{animation-play-state:paused}" in root.find(f".//{SVG}style").text
    assert "Point at the picture to hold a month." in words(root)


def test_it_holds_no_script_and_asks_for_nothing_from_elsewhere(root):
    assert not {node.tag for node in root.iter()} & {f"{SVG}script", f"{SVG}foreignObject", f"{SVG}image", f"{SVG}use"}
    svg = ElementTree.tostring(root, encoding="unicode").replace("http://www.w3.org/2000/svg", "")
    assert "http" not in svg and not re.search(r"\bon[a-z]+=", svg)


def test_all_months_have_one_scale_and_what_lasts_is_drawn_once(root):
    svg = ElementTree.tostring(root, encoding="unicode")
    ids = re.findall(r'id="([^"]+)"', svg)
    assert len(ids) == len(set(ids))
    assert svg.count("frost line, ticks on the frozen side") == 1


def test_a_second_edge_that_no_alternative_has_is_refused():
    with pytest.raises(KeyError):
        turning_year(cases.dossier(), "Z", first=2)


def test_the_year_needs_a_picture_and_has_no_lanes(tmp_path):
    with pytest.raises(Mistake) as told:
        compare.told([BRIEF, "-o", str(tmp_path / "lesson.html"), "--year"])
    assert (told.value.at, told.value.instead) == ("--year", "Add -o year.svg.")
    with pytest.raises(Mistake) as told:
        compare.told([BRIEF, "-o", str(tmp_path / "both.svg"), "--year", "--lanes"])
    assert told.value.wrong == "Each of these is a picture of its own, and there is one file."


def test_the_command_draws_a_real_floor_small_enough_to_send(tmp_path):
    target = tmp_path / "year.svg"
    told = compare.told([BRIEF, "-o", str(target), "--year"])
    assert "The picture of edge A is in" in told.text
    assert 50_000 < target.stat().st_size < 700_000
    assert "February" in words(groups(ElementTree.parse(target).getroot(), 2)[0])
