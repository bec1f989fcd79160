"""Start corner and offset rule: what is asked of a plan is looked at in its joints, and one bond is laid by hand."""

from itertools import pairwise
from math import cos, radians, sin

import pytest
from plans_of_floors import FOOT, PANELS, floor_of

from underpour.outlines.floor import Floor
from underpour.outlines.outline import straight
from underpour.panels.panel import Rules
from underpour.panels.proof import faults
from underpour.panels.search import Wanted, improving
from underpour.takeoff.cutting import numbered

FEW_CUTS = 500


def plan(floor, rules, corner=None, bond="", angles=()):
    *_, found = improving(floor, rules, Wanted(angles, corner, bond), FEW_CUTS)
    return found.layout()


def along(point, angle):
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] * c + point[1] * s, point[1] * c - point[0] * s


def joints(layout):
    """Of each row where two of its pieces meet."""
    found = {}
    for one, other in pairwise(sorted(layout.pieces, key=lambda each: (each.row, each.x0))):
        if one.row == other.row and abs(one.x1 - other.x0) < 1e-7:
            found.setdefault(one.row, []).append(one.x1)
    return found


@pytest.mark.parametrize("bond", ["", "chain"])
@pytest.mark.parametrize("name", PANELS)
@pytest.mark.parametrize("seed", [1, 2, 6])
def test_piece_1_1_is_a_whole_panel_in_the_corner_that_is_asked(seed, name, bond):
    _, floor = floor_of(seed)
    rules = PANELS[name]
    corner = floor.outline.corners[1 if seed % 2 else 0]  # at the lower right, and at the lower left
    layout = plan(floor, rules, corner, bond)
    assert faults(floor, layout) == []
    x, y = along(corner, layout.angle)
    number, first = numbered(layout)[0]
    assert number == "1.1"
    assert abs((y - layout.offset + rules.width / 2) % rules.width - rules.width / 2) < 1e-7
    assert x == pytest.approx(first.x1 if layout.from_right else first.x0, abs=1e-7)
    assert y == pytest.approx(first.y1 if layout.from_top else first.y0, abs=1e-7)
    row = [piece for piece in layout.pieces if piece.row == first.row]
    rest = (max(piece.x1 for piece in row) - min(piece.x0 for piece in row)) % rules.length
    if not 1e-6 < rest < rules.least:
        assert first.length == pytest.approx(rules.length, abs=1e-7)


@pytest.mark.parametrize(("bond", "parts"), [("half", 2), ("third", 3)])
@pytest.mark.parametrize("name", PANELS)
@pytest.mark.parametrize("seed", [2, 5])
def test_joints_of_a_running_bond_lie_part_of_a_panel_from_row_to_row(seed, name, bond, parts):
    _, floor = floor_of(seed)
    layout = plan(floor, PANELS[name], bond=bond)
    assert not [fault for fault in faults(floor, layout) if "next row" not in fault or parts == 2]
    length = layout.rules.length
    every = joints(layout)
    row, (first, *_) = next(iter(every.items()))
    for other, places in every.items():
        for x in places:
            off = (x - first - (other - row) % parts * length / parts) % length
            wrapped = (x - first - ((other % parts) - (row % parts)) * length / parts) % length
            assert min(wrapped, length - wrapped) < 1e-6, (off, other)


def test_a_chain_laid_by_hand():
    """37 by 12 ft of 4 by 8 ft sheets cut with a knife: 5 ft at the end leave 3 that begin the next row, 2 leave 6."""
    floor = Floor(straight([(0, 0), (37 * FOOT, 0), (37 * FOOT, 12 * FOOT), (0, 12 * FOOT)]))
    layout = plan(floor, Rules(8 * FOOT, 4 * FOOT, kerf=0.0), (0, 0), "chain", (0.0,))
    rows = [[round(p.length / FOOT, 6) for p in layout.pieces if p.row == row] for row in range(3)]
    assert rows == [[8, 8, 8, 8, 5], [3, 8, 8, 8, 8, 2], [6, 8, 8, 8, 7]]
    assert layout.panels == 14  # area over 32 ft² is 13.9
    ends = {(p.row, round(p.x0 / FOOT)): p.panel for p in layout.pieces}
    assert ends[0, 32] == ends[1, 0]
    assert ends[1, 35] == ends[2, 0]


@pytest.mark.parametrize("right", [False, True])
def test_half_a_bond_laid_by_hand_from_either_corner(right):
    """The same sheets: rows in turn with a whole one and with half of one in the corner; 37 - 4 - 32 leaves 1 ft."""
    floor = Floor(straight([(0, 0), (37 * FOOT, 0), (37 * FOOT, 12 * FOOT), (0, 12 * FOOT)]))
    layout = plan(floor, Rules(8 * FOOT, 4 * FOOT, kerf=0.0), (37 * FOOT if right else 0, 0), "half", (0.0,))
    rows = [[round(p.length / FOOT, 6) for p in layout.pieces if p.row == row] for row in range(3)]
    whole, half = [8, 8, 8, 8, 5], [4, 8, 8, 8, 8, 1]
    assert rows == [each[::-1] if right else each for each in (whole, half, whole)]


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_chain_begins_rows_with_what_the_row_before_left(seed):
    """With the whole panel of the corner row and each next first piece no longer than the offcut at hand."""
    _, floor = floor_of(seed)
    rules = PANELS["plain 4x8"]
    layout = plan(floor, rules, floor.outline.corners[0], "chain", (0.0,))
    assert (layout.from_top, layout.from_right) == (False, False)
    ends = {}
    for piece in layout.pieces:
        ends.setdefault(piece.row, []).append(piece)
    reused, could = 0, 0
    for row in range(1, max(ends)):
        left = rules.length - ends[row - 1][-1].length - rules.kerf
        could += left >= rules.least
        reused += left >= rules.least and ends[row][0].length <= left + 1e-6
    assert 0.5 * could <= reused > 0


def test_a_plan_asked_to_stop_is_the_best_until_then():
    _, floor = floor_of(8)
    rules = PANELS["interlocking 4x4"]
    whole = list(improving(floor, rules, cuts=3000))
    asked = []

    def enough(done):
        asked.append(done)
        return len(asked) == 3

    part = list(improving(floor, rules, cuts=3000, enough=enough))
    assert len(asked) == 3
    assert [each.panels for each in part] == [each.panels for each in whole[: len(part)]]
    assert faults(floor, part[-1].layout()) == []
    assert asked == sorted(asked)
    assert asked[-1] < 1.0
