"""What gets to the foam: fuel, solvent, hot bitumen, soft vinyl, sun, heat. What is told, asked and refused of it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from refused import Bad, held_to

from underpour import catalogue
from underpour.ask import asked
from underpour.brief import reads
from underpour.catalogue.compatibility import Agent
from underpour.checks import compatibility
from underpour.cli import main
from underpour.findings import Finding
from underpour.resolve import Resolved, resolve

GOOD = """\
[project]
use = "garage"

[site]
place = "Madison, WI"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "24 0", "24 24", "0 24"]
unit = "ft"

[floor]
inside = "55 F"
humidity = "40 %"
available-depth = "12 in"
touched-by = ["fuel"]
build-up = [
  { concrete = "4 in" },
  { board = "c578-ix", thickness = "2 in" },
  { gravel = "4 in" },
]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "48 in"
ground = "-8 in"
wall = [{ concrete = "8 in" }]
footing = { width = "16 in", height = "8 in" }
above = [{ timber-frame = "5.5 in" }]
"""
TYPED = 'touched-by = ["fuel"]'
BOARD = '  { board = "c578-ix", thickness = "2 in" },\n'
EPS, XPS, GLASS = "c578-ix", "c578-iv", "cellglass-85"

BAD = [
    Bad("a word that is nearly one", TYPED, 'touched-by = ["feul"]',
        ("brief.toml:16  floor.touched-by.1", "Nothing that touches foam is called feul.", "The nearest is fuel.")),
    Bad("a word nobody knows", TYPED, 'touched-by = ["moonlight"]',
        ("floor.touched-by.1", "called moonlight", "catalogue list agents", "touched-by = [] says that nothing does.")),
    Bad("a word twice", TYPED, 'touched-by = ["fuel", "salt", "fuel"]',
        ("touched-by.3", "fuel is said already.", "Say it once.")),
    Bad("a word without its list", TYPED, 'touched-by = "fuel"',
        ("floor.touched-by", "is a list", 'Write touched-by = ["fuel"')),
    Bad("a number", TYPED, "touched-by = [3]", ("floor.touched-by.1", "a word in quotes")),
    Bad("a table", TYPED, "touched-by = { fuel = true }", ("floor.touched-by", "is a list")),
    Bad("the key misspelt", TYPED, 'touch-by = ["fuel"]', ("floor.touch-by", "touched-by")),
    Bad("a sheet misspelt", BOARD, '  { vapour-retarder = "bitumen-sheet-hott" },\n',
        ("floor.build-up.2.vapour-retarder", "The nearest is bitumen-sheet-hot")),
    Bad("a board as a sheet", BOARD, '  { vapour-retarder = "plain-15" },\n', ("plain-15", "no film")),
    Bad("a tape as a sheet", BOARD, '  { vapour-retarder = "tape-butyl" },\n', ("no film", "catalogue list retarders")),
    Bad("a thickness beside a sheet", BOARD, '  { vapour-retarder = "sheet-10", thickness = "10 mil" },\n',
        ("A vapour retarder's thickness is the catalogue's.",)),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_what_cannot_be_read_is_told(bad, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    held_to(GOOD, bad, tmp_path, capsys)


def resolved(text: str) -> Resolved:
    return resolve(reads(text).brief)


def told(text: str) -> dict[tuple[str, str], Finding]:
    found = compatibility.foams(resolved(text))
    return {(str(each.at.get("product", "")), str(each.at["against"])): each for each in found}


@pytest.mark.parametrize("agent", catalogue.agents(), ids=lambda agent: agent.key)
@pytest.mark.parametrize("board", [EPS, "graphite-15", XPS, GLASS])
def test_each_agent_is_answered_for_each_foam(agent: Agent, board: str):
    text = GOOD.replace(TYPED, f'touched-by = ["{agent.key}"]').replace(EPS, board)
    found = told(text)[board, agent.key]
    material = catalogue.shipped_products().board(board).material
    attacked = material in agent.attacks
    assert attacked != (material in agent.spares), "each foam stands in one of the two"
    assert found.verdict == ("falls short" if attacked else "meets")
    assert (agent.happens in found.words) == attacked
    assert (agent.do in found.words) == attacked


@pytest.mark.parametrize("agent", ["fuel", "solvent", "hot-bitumen", "soft-vinyl", "sun", "cold-bitumen", "fat"])
def test_cellular_glass_stands_what_dissolves_polystyrene(agent):
    assert catalogue.agent(agent).spares == ("cellular glass",)


def test_a_product_says_what_its_record_names():
    words = told(GOOD.replace(EPS, "plain-25"))["plain-25", "fuel"].words
    assert "The record of Marlpit Plain 25 (invented) names petrol and diesel." in words


def test_a_record_goes_before_the_list_of_its_foam():
    """A maker who says that salt attacks his board is believed."""
    taken = resolved(GOOD.replace(TYPED, 'touched-by = ["salt"]').replace(EPS, "plain-25"))
    product = taken.products.product("plain-25").model_copy(update={"attacked_by": ("salt spray",)})
    lines = [replace(of, line=of.line.model_copy(update={"product": (product,)})) for of in taken.products.lines]
    own = catalogue.Products(tuple(lines), taken.products.day)
    (found, *_) = compatibility.foams(replace(taken, products=own))
    assert found.verdict == "falls short"
    assert "names salt spray" in found.words


def test_a_garage_that_does_not_say_is_asked():
    text = GOOD.replace(f"{TYPED}\n", "")
    found = told(text)[EPS, "fuel"]
    assert (found.verdict, found.missing) == ("cannot tell", "floor.touched-by")
    assert any(question.about.path == "floor.touched-by" for question in asked(reads(text)).questions)


def test_foam_at_a_wall_is_not_asked_about_fuel_on_the_floor():
    piece = 'insulation = [{ board = "c578-iv", thickness = "2 in", face = "outside" }]\n'
    found = told(GOOD.replace(f"{TYPED}\n", "") + piece)
    assert (EPS, "fuel") in found and (XPS, "fuel") not in found
    assert told(GOOD + piece)[XPS, "fuel"].verdict == "falls short"


def test_what_is_typed_there_turns_the_verdict():
    bare = GOOD.replace(f"{TYPED}\n", "")
    assert told(bare)[EPS, "fuel"].verdict == "cannot tell"
    assert told(GOOD)[EPS, "fuel"].verdict == "falls short"
    assert told(GOOD.replace(TYPED, "touched-by = []"))[EPS, "touch"].verdict == "meets"


def test_a_floor_that_nothing_threatens_says_so_once():
    found = told(GOOD.replace(f"{TYPED}\n", "").replace('"garage"', '"dwelling"'))
    assert found["", "touch"].verdict == "does not apply"
    assert "write floor.touched-by" in found["", "touch"].words


@pytest.mark.parametrize(
    ("layers", "against", "verdict"),
    [
        (["bitumen-sheet-hot", "BOARD"], "hot-bitumen", "falls short"),
        (["BOARD", "bitumen-sheet-hot"], "hot-bitumen", "falls short"),
        (["bitumen-sheet-hot", "film-10-mil", "BOARD"], "hot-bitumen", "falls short"),
        (["soft-vinyl-sheet", "BOARD"], "soft-vinyl", "falls short"),
        (["soft-vinyl-sheet", "film-10-mil", "BOARD"], "soft-vinyl", "meets"),
        (["BOARD", "sheet-15", "soft-vinyl-sheet"], "soft-vinyl", "meets"),
    ],
)
def test_a_sheet_beside_the_foam_brings_what_attacks_it(layers, against, verdict):
    board = BOARD.strip().rstrip(",")
    lines = [board if each == "BOARD" else f'{{ vapour-retarder = "{each}" }}' for each in layers]
    found = told(GOOD.replace(TYPED, "touched-by = []").replace(BOARD, ",\n".join(lines) + ",\n"))
    assert found[EPS, against].verdict == verdict
    if verdict == "meets":
        assert found[EPS, against].words.endswith("parts them.")


@pytest.mark.parametrize("sheet", ["bitumen-sheet-cold", "film-15-mil", "sheet-10"])
def test_other_sheets_bring_nothing(sheet):
    layers = f'  {{ vapour-retarder = "{sheet}" }},\n{BOARD}'
    assert set(told(GOOD.replace(TYPED, "touched-by = []").replace(BOARD, layers))) == {
        (EPS, "touch"),
        (EPS, "steady-heat"),
    }


def test_concrete_between_parts_a_torched_sheet_from_the_foam():
    layers = f'  {{ vapour-retarder = "bitumen-sheet-hot" }},\n  {{ concrete = "2 in" }},\n{BOARD}'
    assert (EPS, "hot-bitumen") not in told(GOOD.replace(BOARD, layers))


def test_heat_is_held_to_the_makers_word_and_else_to_what_is_usual():
    assert told(GOOD)[EPS, "steady-heat"].limit == 70.0
    assert told(GOOD.replace(EPS, "plain-25"))["plain-25", "steady-heat"].limit == pytest.approx(60.0)  # 140 °F loaded
    warm = replace(resolved(GOOD), outdoor_mean=75.0)
    (heat,) = [each for each in compatibility.foams(warm) if each.at["against"] == "steady-heat"]
    assert heat.verdict == "falls short"


def test_a_board_that_does_not_belong_is_not_asked_what_attacks_it():
    assert set(told(GOOD.replace(EPS, "polyiso"))) == {("", "touch")}


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("fuel", "Fuel that gets below a slab burns"),
        ("solvent", "Solvents burn, and their vapour is harmful."),
        ("hot-bitumen", "Hot bitumen and torches burn people"),
    ],
)
def test_what_may_hurt_someone_has_its_caution_beside_it_and_on_every_paper(typed, words, tmp_path, capsys):
    (tmp_path / "brief.toml").write_text(GOOD.replace('"fuel"', f'"{typed}"'), "utf-8")
    assert main(["answer", str(tmp_path / "brief.toml")]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert said.count(words) == 2


def test_salt_needs_no_caution(tmp_path, capsys):
    (tmp_path / "brief.toml").write_text(GOOD.replace('"fuel"', '"salt"'), "utf-8")
    assert main(["answer", str(tmp_path / "brief.toml")]) == 0
    assert "Fuel that gets" not in capsys.readouterr().out
