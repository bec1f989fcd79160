"""Money and carbon as told: each sum opened, each missing key asked for and answered, and nothing without [money]."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from pytest import approx
from test_money_typed import BRIEF, ELECTRIC, GAS, typed

from underpour.answer import answer, solved_brief
from underpour.ask import asked
from underpour.brief import read, reads
from underpour.brief.alternatives import AS_BRIEFED
from underpour.cli import hear
from underpour.costing import costed, on_floor
from underpour.costing.first import kind_of
from underpour.costing.season import counted, season
from underpour.costing.versions import main_board, thicknesses, with_thickness
from underpour.cut import edges_for_heat
from underpour.papers.priced import priced as on_paper
from underpour.resolve import resolve
from underpour.takeoff import taken_off

ROOT = Path(__file__).parents[2]
PRICED = ROOT / "examples" / "priced-workshop" / "brief.toml"
IDS = {"money.first", "money.life", "money.payback", "carbon.embodied", "carbon.payback"}


def told(text):
    """Findings of money and carbon by id and which of its kind."""
    found = answer(reads(text)).as_briefed.findings
    return {(f.id, f.at.get("of", "")): f for f in found if f.id in IDS}


@pytest.fixture(scope="module")
def priced():
    reading = read(PRICED)
    resolved, edges = solved_brief(reading, AS_BRIEFED, reading.brief)
    return resolved, costed(resolved, edges)


def test_a_brief_without_money_is_told_nothing_of_it():
    assert told(BRIEF.replace("[money]\n", "")) == {}


def test_what_takes_off_and_prices_is_not_loaded_where_nothing_is_priced():
    ask = "import sys, underpour.answer; print(*[m for m in sys.modules if m.startswith('underpour.')])"
    loaded = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True).stdout.split()
    assert "underpour.answer" in loaded
    assert not {"underpour.takeoff", "underpour.costing", "underpour.panels"} & set(loaded)


def test_with_money_each_kind_is_told_once():
    assert set(told(typed())) == {
        ("money.first", ""),
        ("money.life", ""),
        ("money.payback", "foam"),
        ("money.payback", "last step"),
        ("carbon.embodied", "foam"),
        ("carbon.embodied", "all"),
        ("carbon.payback", ""),
    }


def test_the_steps_of_the_first_cost_add_up_to_it():
    first = told(typed())["money.first", ""]
    parts = [float(step.result.split(" USD")[0].replace("\N{THIN SPACE}", "")) for step in first.steps]
    assert sum(parts[:-1]) == approx(parts[-1], abs=2.0)
    assert first.value == approx(parts[-1], abs=0.5)
    assert first.caution.startswith("Prices move")


MISSING = [
    ({"labour": None}, "money.first", "", "money.labour", {"labour": '"55 USD/h"'}),
    ({"fuel": None, "efficiency": None}, "money.life", "", "money.fuel", {"fuel": '"natural-gas"'}),
    ({"fuel-price": None}, "money.life", "", "money.fuel-price", {"fuel-price": '"1.40 USD/therm"'}),
    ({"fuel-price": None}, "money.payback", "foam", "money.fuel-price", {"fuel-price": '"1.40 USD/therm"'}),
    ({"labour": None}, "money.payback", "foam", "money.labour", {"labour": '"0 USD/h"'}),
    ({"fuel": None}, "carbon.payback", "", "money.fuel", {"fuel": '"natural-gas"'}),
]


@pytest.mark.parametrize(("without", "id", "of", "key", "then"), MISSING)
def test_what_is_missing_is_one_key_and_typing_it_gives_another_verdict(without, id, of, key, then):
    before = told(typed({**GAS, **without}))[id, of]
    assert (before.verdict, before.missing, before.value) == ("cannot tell", key, None)
    assert before.words
    after = told(typed({**GAS, **without, **then}))[id, of]
    assert after.verdict == "stated" and after.missing == ""


def test_a_grid_stays_open_until_its_figure_and_its_year_are_typed():
    assert told(typed(ELECTRIC))["carbon.payback", ""].missing == "money.fuel-carbon"
    figures = {"fuel-carbon": '"0.4 kg/kWh"', "fuel-carbon-from": '"state grid, 2024"'}
    now = told(typed({**ELECTRIC, **figures}))["carbon.payback", ""]
    assert now.verdict == "stated" and any(each.source == "state grid, 2024" for each in now.basis)


def test_a_class_has_no_price_and_extruded_foam_no_gas_that_is_taken_unasked():
    text = typed().replace('"plain-15"', '"c578-iv"')
    found = told(text)
    assert found["money.first", ""].missing == "money.price.c578-iv"
    assert found["carbon.embodied", "foam"].missing == found["carbon.payback", ""].missing == "money.embodied.c578-iv"
    quoted = {"price": '{ c578-iv = "300 USD/m³" }', "embodied": '{ c578-iv = "4.6 kg/kg" }'}
    now = told(typed({**GAS, **quoted}).replace('"plain-15"', '"c578-iv"'))
    assert {f.verdict for f in now.values()} == {"stated"}


def test_a_price_of_another_currency_is_not_counted_and_is_asked_for():
    euro = {**GAS, "currency": '"EUR"', "fuel-price": '"0.12 EUR/kWh"', "labour": '"60 EUR/h"'}
    assert told(typed(euro))["money.first", ""].missing == "money.price.plain-15"  # its record's price is in USD
    assert told(typed({**euro, "price": '{ plain-15 = "8 EUR/m²" }'}))["money.first", ""].verdict == "stated"


def test_the_question_about_a_price_is_in_the_currency_of_the_brief_and_keeps_what_is_quoted():
    euro = {"currency": '"EUR"', "date": '"2026-11-01"', "price": '{ gravel = "40 EUR/m³" }'}
    lines = [each.line for each in asked(reads(typed(euro))).questions]
    assert 'price = { gravel = "40 EUR/m³", plain-15 = "10 EUR/m²" }' in lines


def test_a_quotation_goes_before_the_record_and_says_nothing_of_another_thickness():
    by_record, quoted = told(typed()), told(typed({**GAS, "price": '{ plain-15 = "0.37 USD/ft²" }'}))
    goods = [each for each in by_record["money.first", ""].steps if "at 0.74 USD/ft²" in each.numbers]
    assert goods and any("at 0.37 USD/ft² (2026-11-01)" in each.numbers for each in quoted["money.first", ""].steps)
    assert quoted["money.payback", "last step"].verdict == "does not apply"
    by_volume = told(typed({**GAS, "price": '{ plain-15 = "150 USD/m³" }'}))
    assert by_volume["money.payback", "last step"].verdict == "stated"


def test_over_the_budget_falls_short_and_on_it_meets():
    value = told(typed())["money.first", ""].value
    assert told(typed({**GAS, "budget": f'"{value - 1:.2f} USD"'}))["money.first", ""].verdict == "falls short"
    assert told(typed({**GAS, "budget": f'"{value + 1:.2f} USD"'}))["money.first", ""].verdict == "meets"


def test_cheaper_heat_is_won_back_later_and_dearer_heat_sooner():
    years = [
        told(typed({**GAS, "fuel-price": f'"{price} USD/therm"'}))["money.payback", "foam"].value
        for price in ("2.80", "1.40", "0.90")
    ]
    assert years == sorted(years)
    assert told(typed({**GAS, "fuel-price": '"0.01 USD/therm"'}))["money.payback", "foam"].verdict == "does not apply"


def test_what_is_bought_again_and_what_is_left_change_the_life_cycle_by_their_worth():
    set_so = {**GAS, "discount": '"3 %"', "growth": '"0 %"', "years": "30"}
    plain = told(typed(set_so))["money.life", ""].value
    again = told(typed({**set_so, "replacement": '[{ what = "covering", cost = "1000 USD", after = "15 years" }]'}))
    assert again["money.life", ""].value - plain == approx(1000.0 / 1.03**15)
    left = told(typed({**set_so, "residual": '"1000 USD"'}))
    assert plain - left["money.life", ""].value == approx(1000.0 / 1.03**30)


def test_a_season_that_is_typed_counts_its_months_and_no_others():
    whole = told(typed({**GAS, "season": '"January to December"'}))["money.life", ""]
    part = told(typed({**GAS, "season": '"November to February"'}))["money.life", ""]
    assert "12 months" in " ".join(step.numbers for step in whole.steps)
    assert "4 months" in " ".join(step.numbers for step in part.steps)
    assert part.value < whole.value


def test_a_room_that_is_said_to_be_cooled_is_heated_in_winter_and_pays_for_it():
    """Austin, cooled in summer: seven months want heat, whatever the others want."""
    reading = read(ROOT / "examples" / "house-in-the-heat" / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    assert (resolved.room.cooled, resolved.room.cooled_told, resolved.room.follows) == (True, True, 0.0)
    assert counted(resolved) == (1, 2, 3, 4, 10, 11, 12)


def test_a_slab_under_the_sky_saves_nothing_and_has_its_first_cost():
    text = typed().replace('"dwelling"', '"walk"').replace('kind = "frost-wall"\ndepth = "60 in"', 'kind = "free-edge"')
    found = told(text.replace('inside = "20 C"\n', ""))
    assert found["money.first", ""].verdict == "stated"
    assert {found[at].verdict for at in found if at[0] in ("money.life", "money.payback", "carbon.payback")} == {
        "does not apply"
    }


def test_a_room_that_nobody_heats_saves_nothing_either():
    found = told(typed().replace('inside = "20 C"', 'inside = "unheated"').replace('"dwelling"', '"barn"'))
    assert found["money.life", ""].verdict == found["money.payback", "foam"].verdict == "does not apply"
    assert "Nothing is heated" in found["money.life", ""].words


def test_a_floor_kept_frozen_pays_all_year_for_the_heat_that_comes_in():
    cold = typed(ELECTRIC).replace('"dwelling"', '"cold-store"').replace('"20 C"', '"-20 C"')
    life = told(cold)["money.life", ""]
    assert "is taken out again" in life.words and life.value > 0.0
    assert "12 months" in " ".join(step.numbers for step in life.steps)
    assert told(cold)["money.payback", "foam"].value > 0.0


def test_the_ladder_tells_what_each_thickness_would_be_told_itself(priced):
    """Heat between the ends goes by a second way's mean of the year: within 0.3 % of each solved by itself."""
    resolved, of = priced
    board = main_board(resolved)
    ladder = dict(of.ladder)
    assert set(ladder) == {0.0, *thicknesses(board)}
    price = resolved.money.heat_price * 22.4575567
    for thickness in thicknesses(board):
        there = with_thickness(resolved, board, thickness)
        solved = season(there, edges_for_heat(there)).energy
        first = of.first.total + 960.0 * 0.37 * (thickness - board.thickness) / 0.0254
        first += resolved.area * (thickness - board.thickness) * 45.0
        assert ladder[thickness] == approx(first + solved * price, rel=3e-3)
    assert of.flat.low <= of.flat.at <= of.flat.high


def test_the_columns_say_of_a_square_metre_what_the_takeoff_says_of_the_floor(priced):
    resolved, of = priced
    board = main_board(resolved)
    found = on_floor(resolved, board.record, board.thickness)
    laid = next(each for each in of.first.outlays if each.where == board.path)
    assert found.price * resolved.area == approx(laid.goods, rel=0.04)  # a shorter look for a plan of panels
    assert found.hours * resolved.area == approx(laid.hours)
    made = next(each.made for each in of.embodied.layers if each.where == board.path)
    assert found.carbon / found.bought * laid.amount == approx(made.value)


@pytest.mark.parametrize(
    "name", ["daylight-basement", "court-and-bay-house", "thickened-edge-house", "raft-with-channels"]
)
def test_each_board_of_a_takeoff_is_known_as_foam_with_its_hours(name):
    reading = read(ROOT / "examples" / name / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    boards = {board.key for board in resolved.boards} | {p.board.key for e in resolved.edges for p in e.pieces}
    items = [item for item in taken_off(resolved).items if item.key in boards and item.unit == "m²"]
    assert items and all(kind_of(item, resolved) for item in items)


def test_the_submittal_has_a_sheet_of_it_with_every_alternative_and_the_same_numbers():
    dossier = answer(read(PRICED))
    sheet = on_paper(dossier, "US")
    assert [row[0] for row in sheet["versions"]] == [each.name for each in dossier.alternatives]
    life = [each.find("money.life").value for each in dossier.alternatives]
    assert [float(row[4].replace("\N{THIN SPACE}", "")) for row in sheet["versions"]] == approx(life, abs=0.51)
    assert sum(float(row[5]) for row in sheet["outlays"]) == approx(dossier.as_briefed.find("money.first").value, abs=3)
    assert [row[2] for row in sheet["ladder"]].count("least") == 1
    assert "a quotation decides" in sheet["caution"]


def test_a_submittal_without_prices_has_no_such_sheet():
    assert on_paper(answer(reads(BRIEF.replace("[money]\n", ""))), "US") is None


def test_the_findings_keep_to_the_schema_as_data():
    schema = json.loads((ROOT / "schema" / "findings.schema.json").read_text("utf-8"))
    made = json.loads(hear(["answer", str(PRICED), "--json"]).text)
    Draft202012Validator(schema).validate(made)
    of = [f for a in made["alternatives"] for f in a["findings"] if f["id"] == "money.first"]
    assert [f["verdict"] for f in of] == ["meets", "falls short", "meets"]
    assert {f["at"]["currency"] for f in of} == {"USD"}
