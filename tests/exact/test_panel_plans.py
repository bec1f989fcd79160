"""Plans of panels: proved from outside, beside bounds, beside a crew's half bond, and beside every start tried."""

from dataclasses import replace
from itertools import pairwise, product
from math import ceil

import pytest
from plans_of_floors import FOOT, PANELS, floor_of

from underpour.outlines.floor import Floor, Obstacle
from underpour.outlines.outline import straight
from underpour.panels.assemble import Rows, near_joints
from underpour.panels.bond import half_bond
from underpour.panels.ground_plan import ground_plan
from underpour.panels.layout import laid
from underpour.panels.panel import Rules
from underpour.panels.proof import faults
from underpour.panels.rows import rows
from underpour.panels.search import directions, fewest_panels, improving

FEW_CUTS = 3000  # a plain test looks less far than a user's plan
GOALS = {"plain 4x8": 0.02, "interlocking 2x4": 0.025, "interlocking 4x4": 0.04}


def bound_of(found, rules):
    return found.bounds.by_strips if rules.interlock else found.bounds.by_rows


def at_most(kind, rules, bound):
    """Two panels or a tenth over the bound; a round floor in rows four feet wide may take 13 %."""
    share = 0.13 if kind == "round" and rules.width > 1.0 else 0.10
    return bound + max(2.0, share * bound)


@pytest.mark.parametrize("name", PANELS)
@pytest.mark.parametrize("seed", range(1, 7))
def test_a_plan_holds_when_it_is_looked_at_from_outside(name, seed):
    kind, floor = floor_of(seed)
    rules = PANELS[name]
    found = fewest_panels(floor, rules, cuts=FEW_CUTS)
    layout = found.layout()
    assert faults(floor, layout) == []
    assert (found.broken, layout.panels) == (0, found.panels)
    assert found.bounds.by_area <= found.panels <= at_most(kind, rules, bound_of(found, rules))


@pytest.mark.proof
@pytest.mark.parametrize("first", [1, 101])
@pytest.mark.parametrize("name", PANELS)
def test_thirty_floors_together_are_near_the_bound(name, first):
    rules, panels, bound = PANELS[name], 0, 0
    for seed in range(first, first + 30):
        kind, floor = floor_of(seed)
        found = fewest_panels(floor, rules)
        assert faults(floor, found.layout()) == []
        assert found.broken == 0
        assert found.panels <= at_most(kind, rules, bound_of(found, rules)), (seed, kind)
        panels, bound = panels + found.panels, bound + bound_of(found, rules)
    assert panels / bound - 1.0 <= GOALS[name]


@pytest.mark.parametrize("name", PANELS)
@pytest.mark.parametrize("seed", range(1, 7))
def test_no_half_bond_of_any_direction_and_corner_that_keeps_the_rules_takes_fewer(name, seed):
    """One that leaves pieces too short, or joints too near where a hole parts a row, is no plan that a crew may lay."""
    _, floor = floor_of(seed)
    rules = PANELS[name]
    found = fewest_panels(floor, rules, cuts=FEW_CUTS)
    for angle in directions(floor):
        plan = ground_plan(floor, angle)
        for level, from_right in product((plan.bottom, plan.top), (False, True)):
            own = Rows(rows(plan, rules.width, level % rules.width, rules.length / 2), rules)
            starts = half_bond(own, from_right)
            if near_joints(own, starts) + own.short(starts) == 0:
                assert found.panels <= laid(own, starts, angle, level % rules.width).panels


SMALL = [
    (3.1, 1.2192),
    (4.0, 1.8288),
    (5.3, 1.8288),
    (2.9, 1.8288),
    (3.7, 1.2192),
    (6.05, 1.2192),
    (7.4, 1.2192),
    (4.4, 1.8288),
]


@pytest.mark.parametrize(("length", "depth"), SMALL)
def test_no_start_on_a_fine_grid_takes_fewer_panels_on_a_small_floor(length, depth):
    """Every start of every row by 25 mm, with what is short, too near or too few counted by hand."""
    rules = PANELS["interlocking 2x4"]
    floor = Floor(straight([(0, 0), (length, 0), (length, depth), (0, depth)]))
    count = round(depth / rules.width)
    starts = [k * 0.025 for k in range(1, 49) if 0.2 <= k * 0.025 <= rules.length] + [
        rules.length,
        length % rules.length,
    ]
    least = min(
        cut_from(rows_starts, length, rules)
        for rows_starts in product([s for s in starts if long_enough(s, length, rules)], repeat=count)
        if all(apart(a, b, length, rules) for a, b in pairwise(rows_starts))
    )
    assert fewest_panels(floor, rules, angles=[0.0]).panels <= least


def long_enough(start, length, rules):
    end = (length - start) % rules.length
    return start >= rules.least and (end < 1e-9 or end >= rules.least)


def joints(start, length, rules):
    return [start + k * rules.length for k in range(ceil((length - start - 1e-9) / rules.length))]


def apart(one, other, length, rules):
    pairs = product(joints(one, length, rules), joints(other, length, rules))
    return all(abs(a - b) >= rules.stagger - 1e-9 for a, b in pairs)


def cut_from(starts, length, rules):
    """Whole panels, and for the rest as many pairs of a start and an end as fit in one."""
    whole = sum(int((length - s + 1e-9) // rules.length) + (s > rules.length - 1e-9) for s in starts)
    first = sorted(s for s in starts if s < rules.length - 1e-9)
    last = sorted(
        (e for s in starts if (e := (length - s) % rules.length) > 1e-9 and rules.length - e > 1e-9), reverse=True
    )
    pairs = 0
    for start in first:
        fitting = next((e for e in last if start + e + rules.kerf <= rules.length + 1e-9), None)
        if fitting is not None:
            last.remove(fitting)
            pairs += 1
    return whole + len(first) + len(last)


def test_the_same_floor_gives_the_same_plan_and_each_next_one_is_better():
    _, floor = floor_of(8)
    rules = PANELS["interlocking 4x4"]
    every = list(improving(floor, rules, cuts=FEW_CUTS))
    scores = [(found.broken, found.panels) for found in every]
    assert scores == sorted(set(scores), reverse=True)
    assert fewest_panels(floor, rules, cuts=FEW_CUTS).layout() == every[-1].layout()


def test_columns_and_pipes_are_cut_out_and_the_areas_add_up():
    stands = tuple(Obstacle("column", (2.0 + 3.0 * k, 3.0), (0.4, 0.4), k % 2 == 0) for k in range(4))
    floor = Floor(straight([(0, 0), (14, 0), (14, 9), (0, 9)]), (), stands)
    layout = fewest_panels(floor, PANELS["interlocking 4x4"], cuts=FEW_CUTS).layout()
    assert faults(floor, layout) == []
    assert layout.area == pytest.approx(14 * 9 - sum(each.area for each in stands), rel=1e-9)


@pytest.mark.parametrize("seed", range(1, 7))
def test_seams_are_half_of_what_the_pieces_have_round_them_beyond_the_edge(seed):
    """Each seam is shared by two pieces (derived): along rows by the outline's crossings, across by each joint."""
    _, floor = floor_of(seed)
    rules = PANELS["plain 4x8"]
    layout = fewest_panels(floor, rules, cuts=500).layout()
    plan = ground_plan(floor, layout.angle)
    step = 1e-3
    total = 0.0
    for row in range(-200, 200):  # the same length again by crossings with lines a millimetre apart in x
        y = layout.offset + row * rules.width
        if plan.bottom + 1e-6 < y < plan.top - 1e-6:
            total += sum(
                column.x1 - column.x0
                if all(low.at(x) < y < high.at(x) for x in (column.x0, column.x1))
                else sum(
                    step
                    for k in range(int((column.x1 - column.x0) / step))
                    if low.at(column.x0 + k * step) < y < high.at(column.x0 + k * step)
                )
                for column in plan.columns
                for low, high in column.spans
            )
    butts = 0.0
    for one in layout.pieces:
        for other in layout.pieces:
            if one.row == other.row and abs(one.x1 - other.x0) < 1e-9:
                butts += across(plan, one.x1, layout.offset, rules.width, one)
    assert layout.seams == pytest.approx(total + butts, abs=0.02 * len(plan.columns))


def across(plan, x, offset, width, piece):
    line = offset + width * (((piece.y0 + piece.y1) / 2 - offset) // width)
    column = next(each for each in plan.columns if each.x0 - 1e-9 <= x <= each.x1 + 1e-9)
    return sum(max(min(high.at(x), line + width) - max(low.at(x), line), 0.0) for low, high in column.spans)


def test_a_plan_that_does_not_hold_is_told():
    _, floor = floor_of(2)
    layout = fewest_panels(floor, PANELS["interlocking 2x4"], cuts=500).layout()
    first, *others = layout.pieces
    part = next(piece for piece in layout.pieces if piece.length < layout.rules.length - 0.01)
    whole = next(piece for piece in layout.pieces if piece.length * piece.height > layout.rules.area - 1e-6)
    rest = tuple(piece for piece in layout.pieces if piece is not part)
    wrong = {
        "are covered": replace(layout, pieces=tuple(others)),
        "lie on each other": replace(layout, pieces=(replace(first, x1=first.x1 + 0.1), *others)),
        "reaches out of it": replace(layout, pieces=(*rest, replace(part, u=layout.rules.length))),
        "no saw gets between": replace(layout, pieces=(*rest, replace(part, panel=whole.panel))),
        "are counted": replace(layout, panels=layout.panels + 1),
        "a sawn side meets": replace(
            layout, pieces=(*rest, replace(part, u=layout.rules.length - part.length - part.u))
        ),
        "from one of the next row": replace(layout, rules=replace(layout.rules, stagger=1.0)),
    }
    for words, plan in wrong.items():
        assert any(words in fault for fault in faults(floor, plan)), words


def test_a_wider_saw_never_takes_fewer_panels_of_a_full_bond():
    floor = Floor(straight([(0, 0), (40 * FOOT, 0), (40 * FOOT, 24 * FOOT), (0, 24 * FOOT)]))
    counts = [
        fewest_panels(floor, Rules(8 * FOOT, 4 * FOOT, kerf=kerf), cuts=FEW_CUTS).panels for kerf in (0.0, 0.003, 0.01)
    ]
    assert counts == sorted(counts)


@pytest.mark.proof
@pytest.mark.parametrize("name", PANELS)
@pytest.mark.parametrize("seed", range(7, 31))
def test_no_half_bond_takes_fewer_on_the_rest_of_thirty_floors(name, seed):
    test_no_half_bond_of_any_direction_and_corner_that_keeps_the_rules_takes_fewer(name, seed)
