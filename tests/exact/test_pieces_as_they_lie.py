"""Pieces of a plan by their outlines, and what is left of the panels that they are cut from."""

from collections import defaultdict
from itertools import combinations
from math import hypot

import pytest
from plans_of_floors import PANELS, floor_of

from underpour.outlines.floor import Floor, Obstacle
from underpour.outlines.outline import straight
from underpour.panels.outlined import outlined
from underpour.panels.search import fewest_panels
from underpour.takeoff.cutting import kept, sawn_panels, too_small

FEW_CUTS = 1500
STANDS = tuple(Obstacle("column", (2.0 + 3.0 * k, 3.0), (0.4, 0.4), k % 2 == 0) for k in range(4))
WITH_COLUMNS = Floor(straight([(0, 0), (14, 0), (14, 9), (0, 9)]), (), STANDS)


def floors():
    return [*(floor_of(seed)[1] for seed in range(1, 7)), WITH_COLUMNS]


@pytest.mark.parametrize("name", PANELS)
@pytest.mark.parametrize("floor", floors())
def test_each_piece_s_outline_has_its_area_and_closes(floor, name):
    layout = fewest_panels(floor, PANELS[name], cuts=FEW_CUTS).layout()
    for piece, rings in outlined(floor, layout):
        assert sum(ring.turned_area for ring in rings) == pytest.approx(piece.area, abs=1e-8)
        for ring in rings:
            ends = zip(ring.sides, (*ring.sides[1:], ring.sides[0]), strict=True)
            assert all(hypot(a.end[0] - b.start[0], a.end[1] - b.start[1]) < 1e-9 for a, b in ends)


def test_a_round_column_is_cut_out_by_arcs_of_its_own_radius():
    layout = fewest_panels(WITH_COLUMNS, PANELS["plain 4x8"], cuts=FEW_CUTS).layout()
    arcs = [side for _, rings in outlined(WITH_COLUMNS, layout) for ring in rings for side in ring.sides if side.bulge]
    assert arcs
    assert all(side.radius == pytest.approx(0.2) and side.bulge < 0.0 for side in arcs)
    assert sum(side.length for side in arcs) == pytest.approx(2 * 3.141592653589793 * 0.4)


@pytest.mark.parametrize("name", PANELS)
@pytest.mark.parametrize("floor", floors())
def test_pieces_and_offcuts_of_a_panel_lie_apart_and_leave_no_more_than_its_kerfs(floor, name):
    """Each cut takes at most its kerf over the panel's length, and there are no more cuts than rectangles."""
    layout = fewest_panels(floor, PANELS[name], cuts=FEW_CUTS).layout()
    rules = layout.rules
    parts = defaultdict(list)
    for each in (*layout.pieces, *layout.offcuts):
        parts[each.panel].append((each.u, each.v, each.length, each.height))
    for panel in sawn_panels(layout):
        gone = rules.area - sum(long * high for _, _, long, high in parts[panel])
        assert -1e-6 <= gone <= rules.kerf * rules.length * len(parts[panel]) + 1e-6
        for (u, v, long, high), (x, y, wide, tall) in combinations(parts[panel], 2):
            assert u + long <= x + 1e-7 or x + wide <= u + 1e-7 or v + high <= y + 1e-7 or y + tall <= v + 1e-7


def test_an_offcut_is_kept_from_the_least_piece_on():
    layout = fewest_panels(floor_of(2)[1], PANELS["plain 4x8"], cuts=FEW_CUTS).layout()
    found = list(kept(layout))
    assert found
    assert all(min(each.length, each.height) >= layout.rules.least for each in found)
    left = sum(each.length * each.height for each in layout.offcuts)
    assert sum(each.length * each.height for each in found) + too_small(layout) == pytest.approx(left)
