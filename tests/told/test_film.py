"""What the film of a floor is: a product with its tests, a kind of film, a facing with evidence or without, nothing."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from refused import Bad, held_to

from underpour import catalogue
from underpour.ask import asked
from underpour.brief import reads
from underpour.catalogue.line import Evidence, Product
from underpour.catalogue.products import Products
from underpour.checks import film
from underpour.findings import Finding
from underpour.resolve import resolve

GOOD = """\
[project]
use = "dwelling"

[site]
place = "Madison, WI"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "24 0", "24 24", "0 24"]
unit = "ft"

[floor]
inside = "68 F"
humidity = "40 %"
available-depth = "12 in"
build-up = [
  { concrete = "4 in" },
  { board = "plain-15", thickness = "2 in" },
  { vapour-retarder = "sheet-10" },
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
FILM = '  { vapour-retarder = "sheet-10" },\n'
BOARD = '  { board = "plain-15", thickness = "2 in" },\n'
FACED = '  { board = "film-15", thickness = "2 in" },\n'

BAD = [
    Bad("a film that is nearly one", FILM, '  { vapour-retarder = "sheet-11" },\n',
        ("brief.toml:19  floor.build-up.3.vapour-retarder", "The nearest is sheet-1")),
    Bad("a film nobody knows", FILM, '  { vapour-retarder = "tarpaulin" },\n',
        ("called tarpaulin", "catalogue list retarders")),
    Bad("a faced board as a film", FILM, '  { vapour-retarder = "film-15" },\n',
        ("floor.build-up.3.vapour-retarder", "no film")),
    Bad("a number", FILM, "  { vapour-retarder = 10 },\n", ("floor.build-up.3.vapour-retarder", "a word in quotes")),
    Bad("a film with its own permeance", FILM, '  { vapour-retarder = "sheet-10", permeance = "0.1 perm" },\n',
        ("permeance",)),
    Bad("a film as a board", BOARD, '  { board = "sheet-10", thickness = "2 in" },\n',
        ("floor.build-up.2.board", "no flat board")),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_a_film_that_cannot_be_read_is_told(bad, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    held_to(GOOD, bad, tmp_path, capsys)


def plain(words: str) -> str:
    """Words with every kind of space as one."""
    return " ".join(words.split())


def told(text: str, products: Products | None = None) -> dict[str, Finding]:
    found = film.of_floor(resolve(reads(text).brief, products=products))
    return {" ".join(str(word) for word in each.at.values()): each for each in found}


def with_product(product: Product) -> Products:
    """The line that comes with the tool, one product in the place of its namesake."""
    shipped = catalogue.shipped_products()
    of = shipped.lines[0]
    others = tuple(each for each in of.line.product if each.key != product.key)
    own = replace(of, line=of.line.model_copy(update={"product": (product, *others)}))
    return Products((own,), date(2026, 11, 27))


def without(key: str, *tests: str) -> Products:
    product = catalogue.shipped_products().product(key)
    left = tuple(each for each in product.evidence if each.property not in tests)
    return with_product(product.model_copy(update={"evidence": left}))


def test_a_film_whose_records_carry_a_class_counts_and_names_class_place_and_tape():
    found = told(GOOD)["membrane"]
    assert (found.verdict, found.value, found.limit) == ("meets", 1.0, 1.0)
    assert (
        "lies below the foam, and its records carry ASTM E1745 class B. Marlpit Seam 2-3/8 A is tested to it."
        in found.words
    )


def test_permeance_is_the_worst_record_in_both_systems_beside_the_limit_of_the_class():
    found = told(GOOD)["permeance sheet-10"]
    assert found.value == pytest.approx(0.041 * 57.2135, rel=1e-4)  # after conditioning; new it is 0.028
    assert found.limit == pytest.approx(0.1 * 57.2135, rel=1e-4)
    assert "Every class of ASTM E1745 asks for 0.10 perm (5.7 ng/(Pa·s·m²)) at most." in plain(found.words)


@pytest.mark.parametrize(
    ("test", "words"),
    [
        ("permeance-film-conditioned", "after conditioning (no record)"),
        ("film-tensile", "tensile strength of the film (no record)"),
        ("film-puncture", "puncture of the film, falling dart (no record)"),
        ("permeance-film", "permeance of the film, new (no record)"),
    ],
)
def test_a_film_that_lacks_one_of_the_four_tests_does_not_count(test, words):
    found = told(GOOD, without("sheet-10", test))["membrane"]
    assert (found.verdict, found.value) == ("falls short", 0.0)
    assert words in found.words
    assert "Take a film whose tests show it." in found.words


def test_a_film_whose_certificate_expired_does_not_count():
    late = Products(day=date(2031, 1, 1))
    assert told(GOOD)["membrane"].verdict == "meets"
    assert told(GOOD, late)["membrane"].verdict == "falls short"


def test_a_kind_of_film_cannot_be_told_and_its_product_is_asked_for():
    text = GOOD.replace("sheet-10", "film-15-mil")
    found = told(text)["membrane"]
    assert (found.verdict, found.missing) == ("cannot tell", "floor.build-up.3.vapour-retarder")
    assert told(GOOD)["membrane"].verdict == "meets"
    assert found.missing in asked(reads(text)).further


def test_a_facing_without_evidence_slows_vapour_and_is_not_the_membrane():
    found = told(GOOD.replace(FILM, "").replace(BOARD, FACED))
    assert found["membrane"].verdict == "not required, advised"
    assert "slows vapour (0.55 perm (31 ng/(Pa·s·m²))) and is not the code's membrane" in plain(found["membrane"].words)
    assert found["permeance film-15"].verdict == "stated"


def test_a_film_beside_a_facing_is_what_counts():
    found = told(GOOD.replace(BOARD, FACED))
    assert (found["membrane"].verdict, found["membrane"].value) == ("meets", 1.0)
    assert found["permeance film-15"].verdict == "stated"


def faced(below_slab: str, tested: bool = True) -> Products:
    """A faced board whose facing has the film's own tests."""
    shipped = catalogue.shipped_products()
    board, sheet = shipped.product("film-15"), shipped.product("sheet-10")
    tests: tuple[Evidence, ...] = sheet.evidence if tested else ()
    facing = board.facing.model_copy(update={"below_slab_film": below_slab})
    return with_product(board.model_copy(update={"facing": facing, "evidence": (*board.evidence, *tests)}))


@pytest.mark.parametrize(
    ("below_slab", "tested", "verdict"),
    [
        ("tested", True, "meets"),
        ("tested in part", True, "not required, advised"),
        ("not tested", True, "not required, advised"),
        ("tested", False, "not required, advised"),
    ],
)
def test_a_facing_counts_only_with_all_that_the_standard_asks(below_slab, tested, verdict):
    found = told(GOOD.replace(FILM, "").replace(BOARD, FACED), faced(below_slab, tested))["membrane"]
    assert found.verdict == verdict
    if verdict == "meets":
        assert "The polyethylene facing of Marlpit Filmed 15 (invented) lies on the foam" in found.words


def test_a_facing_without_a_tape_that_was_tested_to_it_does_not_count():
    products = faced("tested")
    of = products.own[0]
    lines = tuple(each for each in of.line.product if each.key != "tape-acrylic")
    bare = Products(
        (replace(of, line=of.line.model_copy(update={"product": lines, "stands_alone": True})),), products.day
    )
    found = told(GOOD.replace(FILM, "").replace(BOARD, FACED), bare)["membrane"]
    assert found.verdict == "not required, advised"
    assert "a tape that was tested to it" in found.words


def test_no_film_is_said_and_advised():
    found = told(GOOD.replace(FILM, ""))
    assert set(found) == {"membrane"}
    assert found["membrane"].verdict == "not required, advised"
    assert "No film lies in this floor" in found["membrane"].words


@pytest.mark.parametrize(
    ("layers", "where"),
    [((FILM, BOARD), "above the foam"), ((BOARD, FILM), "below the foam"), ((FILM,), "without foam")],
)
def test_it_says_where_the_film_lies(layers, where):
    assert where in told(GOOD.replace(BOARD + FILM, "".join(layers)))["membrane"].words


def test_a_bitumen_sheet_is_not_held_to_the_standard_of_plastic_films():
    found = told(GOOD.replace("sheet-10", "bitumen-sheet-cold"))
    assert found["permeance bitumen-sheet-cold"].verdict == "stated"
    assert "ASTM E1993" in found["permeance bitumen-sheet-cold"].words
    assert found["membrane"].verdict == "cannot tell"


def test_a_slab_outdoors_is_not_asked_for_a_film():
    text = GOOD.replace('"dwelling"', '"walk"').replace('inside = "68 F"\nhumidity = "40 %"\n', "")
    text = text[: text.index("[[edge]]")] + '[[edge]]\nsides = "all"\nkind = "free-edge"\n'
    assert told(text)["membrane"].verdict == "does not apply"


def test_a_leaky_film_falls_short_by_its_permeance():
    sheet = catalogue.shipped_products().product("sheet-10")
    leaky = tuple(
        each.model_copy(update={"value": 0.2}) if "permeance" in each.property else each for each in sheet.evidence
    )
    found = told(GOOD, with_product(sheet.model_copy(update={"evidence": leaky})))
    assert found["permeance sheet-10"].verdict == "falls short"
    assert "(too much)" in found["membrane"].words


def test_a_film_without_any_permeance_cannot_be_named():
    products = without("sheet-10", "permeance-film", "permeance-film-conditioned")
    with pytest.raises(Exception, match="lacks a permeance with its unit"):
        told(GOOD, products)
