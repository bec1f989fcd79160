"""Thickness both ways: what is found reaches what is wanted, and the next thinner does not."""

from __future__ import annotations

from itertools import combinations_with_replacement
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from underpour.answer import answer
from underpour.brief import read, reads
from underpour.catalogue import shipped_products
from underpour.catalogue.choices import all_keys, brought, choices, foam_of
from underpour.catalogue.thickness import Laid, made_in, one_layer, stack, thinner, thinnest
from underpour.checks.solved import floor_faces, summed
from underpour.cut import edges_for_heat, floor_heat_alone, solved_edges
from underpour.measure import Measure, transmittance
from underpour.mistakes import Mistake
from underpour.resolve import resolve
from underpour.sizing import _Floor, thickness_for_u, u_of

LINE = shipped_products()
EXAMPLES = Path(__file__).parents[2] / "examples"
BRIEF = """\
[project]
use = "workshop"
units = "US"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"
[floor]
inside = "64 F"
build-up = [{ concrete = "4 in" }, BOARD, { gravel = "4 in" }]
[[edge]]
sides = "all"
kind = "raft"
above = [{ timber-frame = "5.5 in" }]
"""


WALK = """\
[project]
use = "walk"
units = "US"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
[plan]
outline = ["0 0", "40 0", "40 6", "0 6"]
unit = "ft"
[floor]
build-up = [{ concrete = "4 in" }, { board = "plain-15", thickness = "2 in" }, { gravel = "4 in" }]
[[edge]]
sides = "all"
kind = "free-edge"
"""


def brief(board: str = '{ board = "plain-15", thickness = "2 in" }') -> str:
    return BRIEF.replace("BOARD", board)


@given(st.floats(0.05, 14.0), st.sampled_from([key for key in all_keys(LINE) if foam_of(LINE, key)[0].made]))
def test_the_thinnest_reaches_a_wanted_r_and_the_next_thinner_does_not(wanted, key):
    board, _ = foam_of(LINE, key)
    made = made_in(board, "US")
    found = thinnest(made, wanted, 3)
    if found is None:
        assert all(Laid(each).r_label < wanted for n in (1, 2, 3) for each in combinations_with_replacement(made, n))
        return
    assert found.reaches(wanted)
    less = thinner(made, found)
    assert less is None or less.thickness < found.thickness
    singles = [each for each in made if each.thickness < found.thickness and len(found.layers) == 1]
    assert all(each.r_label.value < wanted for each in singles)


@given(st.floats(0.05, 14.0))
def test_a_stack_is_the_thinnest_of_all_that_can_be_laid(wanted):
    made = LINE.board("plain-15").made
    found = stack(made, wanted, 3)
    every = [Laid(each) for n in (2, 3) for each in combinations_with_replacement(made, n)]
    reaching = [each.thickness for each in every if each.r_label >= wanted]
    assert (found is None) == (not reaching)
    if found is not None:
        assert found.thickness == approx(min(reaching))


@pytest.mark.parametrize("key", all_keys(LINE))
def test_a_thickness_brings_the_r_that_it_is_found_for(key):
    """R of a thickness, then the thickness for that R, is the same thickness."""
    for made in made_in(foam_of(LINE, key)[0], "US")[:8]:
        one = brought(LINE, key, Measure(made.thickness, made.typed), "US").one
        assert one is not None
        (choice,) = choices(LINE, [key], one.r_label, "US")
        assert choice.one is not None
        assert choice.one.thickness == approx(made.thickness)


def test_one_layer_goes_before_a_thinner_stack():
    """6 in alone for R-18, though 4 in and 1/2 in more would do: fewer joints, less work."""
    made = LINE.board("plain-15").made
    wanted = 18.0 * 0.17611
    single, several = one_layer(made, wanted), stack(made, wanted, 3)
    assert single is not None
    assert several is not None
    assert several.thickness < single.thickness
    assert thinnest(made, wanted, 3) == single


@pytest.mark.parametrize("wanted", ["U0.05", "U0.046", "USI 0.32"])
def test_the_found_thickness_meets_a_wanted_u_and_the_next_thinner_falls_short(wanted):
    """Both ways: what is found is typed into the brief, and the answer is asked."""
    sized = thickness_for_u(reads(brief()), wanted)
    limit = transmittance(wanted, "US").si
    assert sized.chosen is not None
    assert sized.thinner is not None
    for tried, meets in ((sized.chosen, True), (sized.thinner, False)):
        layers = ", ".join(f'{{ board = "plain-15", thickness = "{each.typed}" }}' for each in tried.laid.layers)
        answered = answer(reads(brief(layers))).as_briefed.find("heat.u-floor")
        assert answered.value == approx(tried.u, rel=1e-12)
        assert (answered.value <= limit) == meets


@pytest.mark.parametrize("wrong_by", [0.0, 0.7, 1.02, 1.6, float("nan")])
def test_what_leads_to_a_thickness_may_be_wrong_and_the_thickness_is_not(monkeypatch, wrong_by):
    """U by heat alone, made wrong by a factor: what is found is what whole solves alone find."""
    reading = reads(brief())
    every = [u_of(reading, Measure(each.thickness, each.typed))[0] for each in LINE.board("plain-15").made]
    wanted = round((every[3].u + every[4].u) / 2.0, 3)
    quickly = _Floor.u_by_strips
    monkeypatch.setattr(_Floor, "u_by_strips", lambda floor, laid: wrong_by * quickly(floor, laid))
    sized = thickness_for_u(reading, f"USI {wanted}")
    assert (sized.chosen, sized.thinner) == (every[4], every[3])
    if wrong_by == 1.02:
        assert len(sized.tried) == 2, "a hundredth or two off leads to the same pair"


EDGES = (
    "frost-wall-workshop",
    "daylight-basement",
    "thickened-edge-house",
    "court-and-bay-house",
    "retrofit-over-old-slab",
)


@pytest.mark.parametrize("name", EDGES)
def test_heat_of_a_floor_by_strips_is_that_by_the_grid(name):
    """The two ways of one section, summed over a floor; the grid's without the films behind furniture as with them."""
    reading = read(EXAMPLES / name / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    by_grid, by_strips = summed(edges_for_heat(resolved), floor_faces), floor_heat_alone(resolved)
    assert abs(by_grid.mean - by_strips.mean) <= by_grid.within + by_strips.within
    assert by_strips.within < 0.005 * abs(by_strips.mean)
    whole = summed(solved_edges(resolved), floor_faces)
    assert (by_grid.mean, by_grid.swing, by_grid.within) == approx((whole.mean, whole.swing, whole.within), rel=1e-12)


def test_a_u_falls_with_every_thickness():
    reading = reads(brief())
    made = LINE.board("plain-15").made
    us = [u_of(reading, Measure(each.thickness, each.typed))[0].u for each in made[:4]]
    assert us == sorted(us, reverse=True)


def test_the_u_of_a_thickness_finds_that_thickness():
    reading = reads(brief())
    tried, _, _ = u_of(reading, Measure(0.0762, "3 in"))
    sized = thickness_for_u(reading, f"USI {tried.u:.9f}5")
    assert sized.chosen is not None
    assert sized.chosen.laid.thickness == approx(0.0762)


def test_a_wanted_u_beyond_any_foam_is_told_with_the_least_there_is():
    sized = thickness_for_u(reads(brief()), "USI 0.01")
    assert sized.chosen is None
    assert sized.thinner is not None
    assert sized.thinner.u > 0.01


def test_another_board_can_be_put_in_its_place():
    sized = thickness_for_u(reads(brief()), "U0.05", "xps-25")
    assert sized.board.key == "xps-25"
    assert sized.chosen is not None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (brief('{ sand = "1 in" }'), "There is no board in this floor"),
        (brief('{ board = "plain-15", thickness = "2 in" }, { board = "plain-15", thickness = "1 in" }'), "2 layers"),
        (
            WALK,
            "No room lies over",
        ),
    ],
)
def test_a_floor_that_cannot_be_sized_says_why(text, said):
    with pytest.raises(Mistake) as caught:
        thickness_for_u(reads(text), "U0.05")
    assert said in caught.value.wrong


def test_what_is_no_u_is_told():
    with pytest.raises(Mistake):
        thickness_for_u(reads(brief()), "U-0.05 in")
