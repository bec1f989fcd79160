"""Sheets, seams and areas of simple floors that can be counted by hand."""

from math import ceil

import pytest

from underpour.outlines.floor import Floor
from underpour.outlines.outline import straight
from underpour.panels.assemble import Rows
from underpour.panels.bond import half_bond
from underpour.panels.fewest import fewest_cut
from underpour.panels.ground_plan import ground_plan
from underpour.panels.layout import laid
from underpour.panels.panel import Rules
from underpour.panels.rows import rows
from underpour.panels.search import fewest_panels
from underpour.panels.stock import Stock

FOOT = 0.3048
SHEET = Rules(8 * FOOT, 4 * FOOT, kerf=0.0)


def floor(corners, unit):
    return Floor(straight([(x * unit, y * unit) for x, y in corners]))


FORTY = floor([(0, 0), (40, 0), (40, 24), (0, 24)], FOOT)


def rows_of(given, angle=0.0, rules=SHEET):
    plan = ground_plan(given, angle)
    return Rows(rows(plan, rules.width, plan.bottom % rules.width, rules.length / 2), rules)


def test_geometry_a_grid_of_sheets_on_40_by_24_ft():
    """Derived: 30 whole sheets, seams 4·24 + 5·40 = 296 ft, and (30·24 - 128)/2 the same."""
    layout = laid(rows_of(FORTY), [8 * FOOT] * 6, 0.0, 0.0)
    assert layout.panels == 30
    assert all(piece.length == pytest.approx(8 * FOOT) for piece in layout.pieces)
    assert layout.seams / FOOT == pytest.approx(296.0, abs=0.01)
    round_them = sum(2 * (piece.length + piece.height) for piece in layout.pieces)
    assert layout.seams == pytest.approx((round_them - FORTY.length) / 2, rel=1e-9)


def test_geometry_half_bond_on_40_by_24_ft():
    """Derived: 30 sheets with six half ones, seams 5·40 + 3·16 + 3·20 = 308 ft."""
    own = rows_of(FORTY)
    layout = laid(own, half_bond(own, from_right=False), 0.0, 0.0)
    assert layout.panels == 30
    assert sum(piece.length < 5 * FOOT for piece in layout.pieces) == 6
    assert layout.seams / FOOT == pytest.approx(308.0, abs=0.01)


@pytest.mark.parametrize(
    ("corners", "unit", "area"),
    [
        ([(0, 0), (40, 0), (40, 20), (24, 20), (24, 36), (0, 36)], FOOT, 1184.0),
        ([(0.0, 0.0), (12.0, 1.0), (14.0, 8.0), (6.0, 11.0), (-1.0, 6.0)], 1.0, 117.5),
    ],
)
def test_shoelace_areas_are_what_the_pieces_cover(corners, unit, area):
    """Derived: an L-shaped floor of 1184 ft² and a skewed one of 117.5 m², either way round."""
    length = {1184.0: 152.0, 117.5: 42.550796}[area]
    for given in (corners, corners[::-1]):
        assert floor(given, unit).length / unit == pytest.approx(length, rel=1e-7)
        layout = fewest_panels(floor(given, unit), SHEET, cuts=200).layout()
        assert layout.area / unit**2 == pytest.approx(area, rel=1e-9)


def test_practice_waste_of_a_plan_lies_under_the_usual_allowance():
    """Estimating guides, common practice: 5 % on a simple rectangle, 15 % with many corners."""
    many = floor([(0, 0), (40, 0), (40, 20), (24, 20), (24, 36), (0, 36)], FOOT)
    for given, allowed in ((floor([(0, 0), (37, 0), (37, 23), (0, 23)], FOOT), 0.05), (many, 0.15)):
        assert fewest_panels(given, Rules(8 * FOOT, 4 * FOOT)).layout().waste < allowed


def test_cutting_stock_of_thirteen_widths_from_rolls_of_5600_mm():
    """Quoted: encyclopedia article "Cutting stock problem": 407,160 mm come from 73 rolls, 0.401 % waste."""
    widths = [1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200]
    demand = [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20]
    total = sum(width * count for width, count in zip(widths, demand, strict=True))
    assert total == 407_160
    assert ceil(total / 5600) == 73
    in_tens = {width // 10: count for width, count in zip(widths, demand, strict=True)}
    rolls = fewest_cut(in_tens, 560)
    assert rolls == 73
    assert 100 * (1 - total / (5600 * rolls)) == pytest.approx(0.401, abs=0.001)


def test_boards_of_96_in_give_one_piece_of_50_in_each():
    """Derived: three pieces, two boards by length, three by parity; by the programme, by offcuts and by a plan."""
    assert fewest_cut({50: 3}, 96) == 3
    inch = FOOT / 12
    stock = Stock(Rules(96 * inch, 48 * inch, kerf=0.0))
    for _ in range(3):
        stock.take(50 * inch, 48 * inch, 0)
    assert stock.opened == 3
    column = floor([(0, 0), (50, 0), (50, 144), (0, 144)], inch)
    assert fewest_panels(column, Rules(96 * inch, 48 * inch, kerf=0.0, stagger=0.0), [0.0]).panels == 3


def test_two_layers_of_sheets_take_fewer_than_an_allowance_of_five_percent():
    """Derived: 1184 ft² twice and 5 % are ceil(2368 · 1.05 / 32) = 78 sheets, 4736 board feet; 74 without the 5 %."""
    assert ceil(1184 * 2 * 1.05 / 32) == 78
    assert 1184 * 2 * 2 == 4736
    many = floor([(0, 0), (40, 0), (40, 20), (24, 20), (24, 36), (0, 36)], FOOT)
    sheets = sum(fewest_panels(many, Rules(8 * FOOT, 4 * FOOT), [angle]).panels for angle in (0.0, 90.0))
    assert 74 <= sheets <= 78
