"""Sheets, seams and areas of simple floors that can be counted by hand."""

import pytest

from underpour.outlines.floor import Floor
from underpour.outlines.outline import straight
from underpour.panels.assemble import Rows
from underpour.panels.bond import half_bond
from underpour.panels.ground_plan import ground_plan
from underpour.panels.layout import laid
from underpour.panels.panel import Rules
from underpour.panels.rows import rows
from underpour.panels.search import fewest_panels

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
    for given in (corners, corners[::-1]):
        layout = fewest_panels(floor(given, unit), SHEET, cuts=200).layout()
        assert layout.area / unit**2 == pytest.approx(area, rel=1e-9)


def test_practice_waste_of_a_plan_lies_under_the_usual_allowance():
    """Estimating guides, common practice: 5 % on a simple rectangle, 15 % with many corners."""
    many = floor([(0, 0), (40, 0), (40, 20), (24, 20), (24, 36), (0, 36)], FOOT)
    for given, allowed in ((floor([(0, 0), (37, 0), (37, 23), (0, 23)], FOOT), 0.05), (many, 0.15)):
        assert fewest_panels(given, Rules(8 * FOOT, 4 * FOOT)).layout().waste < allowed
