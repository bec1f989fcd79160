"""Pictures of loads: what they show, what they say to someone who does not see them, and that they stay small."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

from underpour.brief import reads
from underpour.checks.bearing import Borne, WholeFloor, of_loads, pictured, pictured_together
from underpour.cli import main
from underpour.drawings import carried_floor, carried_plan, carried_section, carried_shares, carried_shares_compared
from underpour.drawings.carried_words import floor_in_words, plan_in_words, section_in_words, shares_in_words
from underpour.measure.table import System
from underpour.resolve import resolve

from .test_loads_answered import BRIEF, one, with_load
from .test_plan_of_loads import BRIEF as PLAN
from .test_plan_of_loads import CUT, together

CORNER = with_load('kind = "wheel"\nforce = "5000 lb"\ntyre = "100 psi"\nat = "corner"')
EVEN = '\n[[load]]\nkind = "uniform"\npressure = "125 psf"\neverywhere = true\n'
MOST = 70_000  # bytes of one picture


@cache
def loads(text: str) -> tuple[Borne, ...]:
    return tuple(pictured(resolve(reads(text).brief)))


def drawn(text: str, system: System = "US") -> dict[str, str]:
    (load, *_) = loads(text)
    return {
        "plan": carried_plan(load, system, width=170.0),
        "section": carried_section(load, system, width=170.0),
        "shares": carried_shares(loads(text), system, width=170.0),
    }


def texts(svg: str) -> str:
    return " ".join(part.text or "" for part in ElementTree.fromstring(svg).iter() if part.tag.endswith("text"))


def dots(svg: str) -> int:
    return len(re.findall(r"M[\d.]+ [\d.]+h0", svg))


@pytest.mark.parametrize("text", [BRIEF, CORNER, BRIEF + EVEN])
@pytest.mark.parametrize("system", ["US", "SI"])
def test_each_picture_is_small_sound_and_the_same_twice(text: str, system: System) -> None:
    again = drawn(text, system)
    for name, svg in drawn(text, system).items():
        assert svg == again[name]
        assert len(svg.encode()) < MOST, name
        root = ElementTree.fromstring(svg)
        assert [child.tag.rpartition("}")[2] for child in root][:2] == ["title", "desc"]
        assert "nan" not in svg.lower().replace("finance", "")


@pytest.mark.parametrize("text", [BRIEF, CORNER, BRIEF + EVEN])
def test_no_words_run_off_the_sheet(text: str) -> None:
    for name, svg in drawn(text).items():
        root = ElementTree.fromstring(svg)
        high = float(root.get("viewBox", "").split()[3])
        for node in (each for each in root.iter() if each.tag.endswith("}text")):
            wide, x = float(node.get("textLength", "0")), float(node.get("x", "0"))
            left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[node.get("text-anchor", "start")]
            assert left >= -0.1 and left + wide <= 170.1, (name, node.text)
            assert 2.0 < float(node.get("y", "0")) < high, (name, node.text)


def test_the_numbers_on_them_are_those_of_the_findings() -> None:
    foam, bent = one(BRIEF, "bearing.foam-long"), one(BRIEF, "bearing.bending")
    assert foam.value is not None and bent.value is not None and foam.limit is not None
    said = f"{foam.value / 6.894757:.3g}\u00a0psi"
    pictures = {name: texts(svg) for name, svg in drawn(BRIEF).items()}
    assert f"What the foam below feels: up to {said}" in pictures["plan"]
    assert f"Pressure on foam and ground, up to {said}" in pictures["section"]
    assert f"the foam bears {foam.limit / 6.894757:.3g}\u00a0psi" in pictures["section"]
    share = 100.0 * foam.value / foam.limit
    assert f"{share:.0f}\u00a0%" in pictures["shares"].replace(" %", "\u00a0%")


def test_where_the_foam_bears_less_than_it_feels_a_line_says_from_where_on() -> None:
    assert "bears" not in texts(carried_plan(loads(BRIEF)[0], "US", width=170.0))
    over = texts(carried_plan(loads(CORNER)[0], "US", width=170.0))
    assert re.search(r"what the foam bears: \d[\d.]* psi, exceeded here", over)


def test_the_slab_s_free_edge_is_named_only_where_there_is_one() -> None:
    assert "free edge" not in texts(carried_plan(loads(BRIEF)[0], "US", width=170.0))
    assert "free edge" in texts(carried_plan(loads(CORNER)[0], "US", width=170.0))


def test_denser_dots_press_harder() -> None:
    """The same load on a slab half as thick: a smaller patch of floor feels as much, so there are fewer dots."""
    key = 3  # samples
    assert dots(drawn(BRIEF)["plan"]) > 100 * key
    (load,) = loads(BRIEF)
    around = load.around
    assert around is not None
    even = replace(around.stiff, pressure=around.stiff.pressure * 0.0 + around.pressure)
    full = carried_plan(replace(load, around=replace(around, stiff=even)), "US", width=170.0)
    assert dots(full) > 2 * dots(drawn(BRIEF)["plan"])


def test_what_is_used_up_is_told_in_words_and_by_a_dotted_end_not_by_colour_alone() -> None:
    svg = carried_shares(loads(CORNER), "US", width=170.0)
    assert 'stroke-dasharray="0.4 1.1"' in svg and "all of it" in texts(svg)
    assert 'stroke-dasharray="0.4 1.1"' not in carried_shares(loads(with_load('like = "car"')), "US", width=170.0)


def test_someone_who_does_not_see_them_is_told_the_same() -> None:
    (load,) = loads(CORNER)
    assert "at the edge of the slab" in plan_in_words(load, "US")
    assert "below the load" in plan_in_words(loads(BRIEF)[0], "US")
    words = section_in_words(load, "SI")
    assert "Concrete, 5 in" in words and "foam " in words and " kPa" in words.replace("\u2009", " ")
    assert re.search(r"foam \d+ %", shares_in_words(loads(CORNER)).replace("\u00a0", " "))


def test_what_cannot_be_told_is_not_drawn() -> None:
    (load,) = loads(BRIEF.replace('plate = "6 in x 6 in"', ""))
    assert load.around is None and load.shares == () and load.used == 0.0
    assert loads(with_load('like = "barrow"')) == ()
    (even,) = loads(with_load('kind = "uniform"\npressure = "125 psf"\neverywhere = true'))
    assert even.around is None and {share.part for share in even.shares} == {
        "foam",
        "ground",
        "concrete",
        "settlement",
    }


def test_alternatives_stand_below_one_another_on_one_scale() -> None:
    named = {"as briefed": loads(BRIEF), "in a corner": loads(CORNER)}
    svg = carried_shares_compared(named, "US", width=170.0)
    said = texts(svg)
    assert said.index("As briefed") < said.index("In a corner")
    notches = re.findall(r'd="M([\d.]+) [\d.]+L\1 [\d.]+" fill="none" stroke="#182A2E" stroke-width="0.5"', svg)
    assert len(notches) == 2 and len(set(notches)) == 1


def test_compare_draws_them_and_refuses_a_slab_without_loads(tmp_path: Path, capsys: pytest.CaptureFixture) -> None:
    thicker = '\n[[alternative]]\nname = "6 in"\nset = { "floor.build-up.1.concrete" = "6 in" }\n'
    (tmp_path / "brief.toml").write_text(BRIEF + thicker, "utf-8")
    main(["compare", str(tmp_path / "brief.toml"), "-o", str(tmp_path / "loads.svg"), "--loads"])
    assert "The picture of the loads is in" in capsys.readouterr().out
    assert "6 in" in texts((tmp_path / "loads.svg").read_text("utf-8"))
    (tmp_path / "brief.toml").write_text(BRIEF.split("[[load]]", maxsplit=1)[0] + thicker, "utf-8")
    assert main(["compare", str(tmp_path / "brief.toml"), "-o", str(tmp_path / "none.svg"), "--loads"]) == 2
    assert "Nothing stands on this slab" in capsys.readouterr().err
    assert not (tmp_path / "none.svg").exists()


ALL = PLAN + CUT.format("none") + EVEN


@cache
def floor(text: str) -> WholeFloor:
    found = pictured_together(resolve(reads(text).brief))
    assert found is not None
    return found


def floor_drawn(text: str = ALL, system: System = "SI") -> str:
    return carried_floor(floor(text), loads(text), system, width=170.0)


@pytest.mark.parametrize("system", ["US", "SI"])
def test_all_loads_from_above_are_one_small_sound_picture_the_same_twice(system: System) -> None:
    svg = floor_drawn(system=system)
    assert svg == floor_drawn(system=system) and len(svg.encode()) < 110_000 and "nan" not in svg.lower()
    root = ElementTree.fromstring(svg)
    high = float(root.get("viewBox", "").split()[3])
    for node in (each for each in root.iter() if each.tag.endswith("}text")):
        wide, x = float(node.get("textLength", "0")), float(node.get("x", "0"))
        left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[node.get("text-anchor", "start")]
        assert left >= -0.1 and left + wide <= 170.1 and 2.0 < float(node.get("y", "0")) < high, node.text


def test_each_load_stands_at_its_place_with_the_share_of_what_governs_it() -> None:
    said = texts(floor_drawn())
    shares = {each.number: max(s.used for s in each.shares) for each in floor(ALL).placed}
    assert set(shares) == {"1", "2"}
    for number, used in shares.items():
        assert f"{number}: {100.0 * used:.0f}\u00a0%" in said.replace(" %", "\u00a0%")
    bent = together(ALL, "bearing.bending")
    assert bent.value is not None and bent.limit is not None
    concrete = [s.used for each in floor(ALL).placed for s in each.shares if s.part == "concrete"]
    assert max(concrete) == pytest.approx(bent.value / bent.limit, rel=1e-9)
    foam = together(ALL, "bearing.foam-short", loads="passing")
    assert foam.value is not None and foam.limit is not None
    (rolls,) = (s.used for s in floor(ALL).placed[1].shares if s.part == "foam")
    assert rolls == pytest.approx(foam.value / foam.limit, rel=1e-9)
    assert "Dashed: joints." in said and "all of it" in said


def test_what_has_no_place_on_the_plan_still_has_its_bar() -> None:
    assert "Load 3: concrete" in texts(floor_drawn())
    words = floor_in_words(floor(ALL), loads(ALL), "SI")
    assert words.startswith("Load 1, load 2 and load 3 are there together.") and "load 3: concrete" in words


def test_the_foam_under_the_whole_floor_carries_all_that_lies_on_it() -> None:
    """Equilibrium: pressure summed over the picture's lines is slab, even load and both forces, to 2 %."""
    seen = floor(ALL).stiff
    x, y, p = seen.x.astype(float), seen.y.astype(float), seen.pressure.astype(float)
    cells = (p[:-1, :-1] + p[1:, :-1] + p[:-1, 1:] + p[1:, 1:]) / 4.0
    summed = float((cells * np.diff(y)[:, None] * np.diff(x)[None, :]).sum())
    slab = 12.0 * 8.0 * 0.15 * 2403.0 * 9.80665
    even = 12.0 * 8.0 * 125.0 * 47.880259
    assert summed == pytest.approx(slab + even + 20e3 + 15e3, rel=0.02)


def test_a_joint_that_hands_nothing_on_steps_the_picture_too() -> None:
    seen = floor(ALL).soft
    row = int(np.argmin(np.abs(seen.y - 4.4)))
    left, right = (seen.settlement[row, int(np.argmin(np.abs(seen.x - x)))] for x in (5.9999, 6.0001))
    assert left > 2.0 * right


def test_where_the_plan_says_no_more_than_each_load_there_is_no_such_picture() -> None:
    assert pictured_together(resolve(reads(BRIEF).brief)) is None


def test_shear_and_settlement_have_bars_of_their_own_with_the_numbers_of_their_findings() -> None:
    (load,) = loads(BRIEF)
    shares = {each.part: each for each in load.shares}
    found = list(of_loads(resolve(reads(BRIEF).brief)))
    (shear,) = (each for each in found if each.id == "bearing.punching")
    (down,) = (each for each in found if each.id == "bearing.settlement" and each.at["after"] == "50 years")
    assert shares["shear"].told == pytest.approx((shear.value, shear.limit), rel=1e-9)
    assert shares["settlement"].told == pytest.approx((down.value, down.limit), rel=1e-9)
    assert shares["settlement"].bears == pytest.approx(0.0254)
    said = texts(carried_shares(loads(BRIEF), "US", width=170.0))
    assert "shear" in said and "settlement" in said and "of 1.00" in said
    words = next(each.words for each in found if each.id == "bearing.bending")
    assert "the concrete's shear" in words and "the settlement" in words


def test_compare_draws_the_whole_floor_and_refuses_one_without_places(
    tmp_path: Path, capsys: pytest.CaptureFixture
) -> None:
    thicker = '\n[[alternative]]\nname = "200 mm"\nset = { "floor.build-up.1.concrete" = "200 mm" }\n'
    (tmp_path / "brief.toml").write_text(ALL + thicker, "utf-8")
    main(["compare", str(tmp_path / "brief.toml"), "-o", str(tmp_path / "floor.svg"), "--floor"])
    assert "The picture of the loads on the floor is in" in capsys.readouterr().out
    assert (tmp_path / "floor.svg").read_text("utf-8") == floor_drawn()
    (tmp_path / "brief.toml").write_text(BRIEF + thicker, "utf-8")
    assert main(["compare", str(tmp_path / "brief.toml"), "-o", str(tmp_path / "none.svg"), "--floor"]) == 2
    assert "No two loads stand at places of the plan" in capsys.readouterr().err
    assert not (tmp_path / "none.svg").exists()
