"""Thicknesses for R-10 against common practice, no source: what the trade says of moulded boards and of tube panels.

EPS boards of 15 to 25 psi give about R-4 to R-4.4 an inch, and R-10 takes about 2 to 2-1/2 in of them; boards below
slabs are usually of 20 to 30 psi; an R-10 tube panel stands about 3-3/4 in high, and each half inch more brings R-2.
"""

from itertools import pairwise

import pytest

from ledger import between, held, told
from underpour.catalogue import shipped_products
from underpour.catalogue.choices import choices
from underpour.catalogue.records import Board
from underpour.measure import pressure
from underpour.measure import resistance as typed
from underpour.measure import resistance_per_length as an_inch

TRADE = "Common practice, no source: what the trade says of moulded boards and tube panels"
R10 = typed("R10").si
PSI = pressure("1 psi").si / 1000.0  # kPa


def moulded(low: float, high: float) -> list[Board]:
    boards = shipped_products().boards()
    return [each for each in boards if each.material == "EPS" and low <= each.strength.value / PSI <= high + 1.5]


@pytest.mark.parametrize("board", moulded(15.0, 25.0), ids=lambda board: board.key)
def test_moulded_boards_of_15_to_25_psi_give_r_4_to_r_4_4_an_inch(board):
    """Seen: practice. "About" allows R-0.05 on either side; CAN/ULC type 2 is tabled in metric and lies at R-4.03."""
    inch = board.r_label_per_metre.value / an_inch("R-1/in").si
    between(inch, 4.0, 4.4, 0.05, "h·ft²·°F/(Btu·in)", TRADE, "practice")


@pytest.mark.parametrize("board", moulded(15.0, 25.0), ids=lambda board: board.key)
def test_r_10_takes_two_to_two_and_a_half_inches_of_them(board):
    """Seen: practice. In steps of a quarter or half inch."""
    (choice,) = choices(shipped_products(), [board.key], R10, "US")
    assert choice.one is not None
    between(choice.one.thickness / 0.0254, 2.0, 2.5, 1e-7, "in", TRADE, "practice")


def test_a_board_of_20_to_30_psi_for_below_slabs_is_made_for_r_10():
    """Seen: practice."""
    usual = [board for board in moulded(20.0, 30.0) if board.made]
    assert usual
    assert all(choice.one for choice in choices(shipped_products(), [board.key for board in usual], R10, "US"))


def test_an_r_10_tube_panel_stands_three_and_three_quarter_inches_high():
    """Seen: practice. The solid part counts; the knobs stand 1-1/4 in over it and bring no R."""
    (choice,) = choices(shipped_products(), ["knob-15"], R10, "US")
    assert choice.shaped
    told(choice.height, "3-3/4 in", TRADE, "practice")
    assert choice.one is not None
    held(choice.one.thickness / 0.0254, 2.5, 1e-6, "in", TRADE, "practice", "solid part")
    assert choice.layers is None


def test_each_half_inch_more_of_it_brings_r_2():
    """Seen: practice."""
    made = shipped_products().product("knob-15").made
    labels = [each.r_label.si / typed("R1").si for each in made if each.r_label is not None]
    heights = [each.height.si for each in made if each.height is not None]
    for (low, high), (less, more) in zip(pairwise(heights), pairwise(labels), strict=True):
        step = (high - low) / 0.0254
        held(step, 0.5, 5e-7, "in", TRADE, "practice", f"height, from {low / 0.0254:g} in")
        held(more - less, 2.0, 0.05, "h·ft²·°F/Btu", TRADE, "practice", f"R, from {low / 0.0254:g} in")
