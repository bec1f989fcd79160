"""Ten uses, and what an experienced adviser would say to each: studies/2026-11-28-what-it-recommends.md judges them.

All ten in ``python3 dev.py proof``; CI takes those of a few seconds.
"""

from pathlib import Path

import pytest

from underpour.brief import read
from underpour.choosing import Choice, choose

ROOT = Path(__file__).parents[2]
GAS = """[money]
currency = "USD"
date = "2026-11-01"
fuel = "natural-gas"
fuel-price = "1.20 USD/therm"
efficiency = "85 %"
discount = "3 %"
growth = "1 %"
years = 30
labour = "60 USD/h"
price = { excavation = "25 USD/m³" }

[[edge]]"""
HEAT_PUMP = GAS.replace("natural-gas", "electricity").replace("1.20 USD/therm", "0.13 USD/kWh").replace('"85 %"', "3.0")
CODE = 'use   = "dwelling"\ncode  = "good-practice"'


def chosen(example: str, folder: Path, old: str = "", new: str = "") -> Choice:
    text = (ROOT / "examples" / example / "brief.toml").read_text("utf-8")
    assert old in text
    path = folder / "brief.toml"
    path.write_text(text.replace(old, new, 1) if old else text, "utf-8")
    return choose(read(path))


def test_a_house_on_a_raft_takes_just_what_good_practice_asks(tmp_path: Path) -> None:
    """R5 under the floor and at its edge: the thinnest made that reach it, of the cheapest board that may lie there."""
    choice = chosen("raft-house", tmp_path, 'use   = "dwelling"', CODE)
    best = choice.recommended
    assert best is not None and best.edge.startswith("1-1/2 in")
    assert best.floor.startswith("1-1/2 in") and "Plain 15" in best.floor
    assert "cheapest that meets code" in best.roles
    lean = choice.with_role("least height")
    assert lean is not None and lean.thickness < best.thickness and "Extruded" in lean.floor
    assert [each.id for each in choice.beyond] == ["code.base-course"]  # 100 mm of gravel where 4 in is asked
    assert any("Whichever is taken" in words and "Stone below the slab" in words for words in choice.says)


def test_a_house_in_the_heat_takes_none(tmp_path: Path) -> None:
    choice = chosen("house-in-the-heat", tmp_path, "[[edge]]", HEAT_PUMP)
    assert choice.word == "no foam" and choice.serves and choice.says[0] == "Take no foam."
    assert any(each.id == "termites.ways" for row in choice.refused for each in row.refusals)
    second = choice.runner_up  # the one board that termites leave alone
    assert second is not None and "Mineral" in second.floor and second.life is not None
    assert choice.recommended is not None and choice.recommended.life is not None
    assert second.life.amount > 5.0 * choice.recommended.life.amount


@pytest.mark.proof
def test_a_large_warehouse_takes_foam_at_its_edge_and_none_under_the_middle(tmp_path: Path) -> None:
    choice = chosen("warehouse-edge-only", tmp_path, "[[edge]]", GAS)
    best = choice.recommended
    assert choice.word == "no foam under the middle" and choice.serves and best is not None
    assert best.thickness == 0.0 and "outside the wall" in best.edge and best.life is not None
    bare = choice.with_role("no foam")
    assert bare is not None and bare.life is not None and best.life.amount < bare.life.amount
    assert any("The best with foam there" in words and "more over the years" in words for words in choice.says)


@pytest.mark.proof
def test_a_house_on_frozen_ground_is_no_question_for_it(tmp_path: Path) -> None:
    choice = chosen("house-on-frozen-ground", tmp_path)
    assert choice.word == "not this tool" and not choice.serves
    assert "geotechnical engineer" in choice.says[0]


@pytest.mark.proof
def test_a_rink_is_left_to_who_designs_cold_floors(tmp_path: Path) -> None:
    choice = chosen("rink-hall", tmp_path)
    assert choice.word == "not this tool" and "designer of cold floors" in choice.says[0]


@pytest.mark.proof
def test_a_workshop_is_warmed_at_its_wall_first(tmp_path: Path) -> None:
    """As briefed the foam lies under the floor alone, and the wall's foot is cold: an inch outside mends it."""
    choice = chosen("frost-wall-workshop", tmp_path)
    best, briefed = choice.recommended, choice.with_role("as briefed")
    assert choice.word == "no foam under the middle" and best is not None and "outside the wall" in best.edge
    assert briefed is not None and {each.id for each in briefed.refusals} >= {"moisture.surface-factor"}


@pytest.mark.proof
def test_a_basement_is_warmed_outside_its_wall(tmp_path: Path) -> None:
    choice = chosen("daylight-basement", tmp_path)
    assert choice.serves and choice.recommended is not None and "outside the wall" in choice.recommended.edge
    assert any("held to no code" in words for words in choice.says)


@pytest.mark.proof
def test_a_floor_over_an_old_slab_gets_what_keeps_its_middle_warm_within_its_height(tmp_path: Path) -> None:
    choice = chosen("retrofit-over-old-slab", tmp_path)
    best = choice.recommended
    assert best is not None and best.thickness > 0.0 and best.serves
    assert "outside" not in best.edge and "inside" not in best.edge  # nobody digs up a house for an inch of foam
    assert any(each.id == "height.depth" for each in choice.bounds)


@pytest.mark.proof
def test_racks_and_forklifts_on_a_thin_slab_ask_for_concrete_and_not_for_foam(tmp_path: Path) -> None:
    choice = chosen("warehouse-with-racks", tmp_path)
    assert choice.word == "no product can serve" and not choice.serves
    assert any(each.id == "bearing.foam-short" and each.count > 1000 for each in choice.bounds)
    assert choice.says[1].startswith("The nearest is")


@pytest.mark.proof
def test_diesel_on_a_fire_stations_floor_leaves_one_board_whose_records_say_too_little(tmp_path: Path) -> None:
    choice = chosen("fire-station", tmp_path)
    assert choice.word == "no product can serve"
    assert any(each.id == "product.compatible" and each.count > 3000 for each in choice.bounds)
    assert any("cannot be told" in words for words in choice.says)
