"""The fewest panels proved by an integer programme, by every start tried, and never above a plan that was laid."""

from dataclasses import replace
from itertools import pairwise, product
from random import Random

import pytest
from plans_of_floors import FOOT, PANELS
from test_panel_plans import SMALL, apart, cut_from, long_enough

from underpour.outlines.floor import Floor
from underpour.outlines.outline import straight
from underpour.panels.assemble import Rows, near_joints, packed
from underpour.panels.fewest import fewest_of, settled
from underpour.panels.ground_plan import ground_plan
from underpour.panels.panel import Rules
from underpour.panels.proof import faults
from underpour.panels.rows import rows as strips_of
from underpour.panels.search import fewest_panels


def floor_of(length, depth):
    return Floor(straight([(0, 0), (length, 0), (length, depth), (0, depth)]))


def rows_of(length, depth, rules):
    plan = ground_plan(floor_of(length, depth), 0.0)
    return Rows(strips_of(plan, rules.width, 0.0, rules.length / 2), rules)


@pytest.mark.parametrize(("length", "depth"), SMALL)
def test_programme_and_every_start_tried_prove_the_same_on_eight_small_plans(length, depth):
    """Starts by 25 mm, cut pieces counted by hand; the programme's bound holds for any start; both meet the plan."""
    rules = PANELS["interlocking 2x4"]
    count = round(depth / rules.width)
    tried = [k * 0.025 for k in range(8, 49)] + [rules.length, length % rules.length]
    starts = [start for start in tried if long_enough(start, length, rules)]
    least = min(
        cut_from(each, length, rules)
        for each in product(starts, repeat=count)
        if all(apart(a, b, length, rules) for a, b in pairwise(each))
    )
    found = fewest_panels(floor_of(length, depth), rules, angles=[0.0])
    told = fewest_of(rows_of(length, depth, rules))
    assert told.least == least == found.panels


@pytest.mark.parametrize("rules", PANELS.values(), ids=PANELS)
@pytest.mark.parametrize(("length", "depth"), [(7.3, 3.6576), (9.05, 2.4384), (11.8, 4.5)])
def test_no_starts_by_chance_take_fewer_than_is_proved(rules, length, depth):
    rows = rows_of(length, depth, rules)
    told = fewest_of(rows)
    chance, kept = Random(7), 0
    for _ in range(3000):
        starts = [chance.uniform(rules.least, min(rules.length, length)) for _ in rows.strips]
        if not rows.short(starts) and not near_joints(rows, starts):
            kept += 1
            assert packed(rows, starts)[0].opened >= told.least
    assert kept > 5


def test_rows_that_are_cut_above_each_other_are_left_out():
    """Two strips of 500 mm come from one sheet 4 ft wide, so lengths alone do not tell; nor do stepped floors."""
    sheet = PANELS["plain 4x8"]
    assert fewest_of(rows_of(8.0, 1.2192 + 0.5, sheet)) is None
    stepped = Floor(straight([(0, 0), (8, 0), (8, 2), (4, 2), (4, 3), (0, 3)]))
    plan = ground_plan(stepped, 0.0)
    assert fewest_of(Rows(strips_of(plan, sheet.width, 0.0, sheet.length / 2), sheet)) is None
    assert fewest_of(rows_of(8.0, 60 * 1.2192, sheet)) is None  # too many


def test_a_parity_of_lengths_is_seen():
    """Rows of 50 in under panels of 96 in without stagger: each takes a panel, though 150 in go into two."""
    inch = FOOT / 12
    rules = Rules(96 * inch, 48 * inch, stagger=0.0, least=50 * inch, kerf=0.0)
    told = fewest_of(rows_of(50 * inch, 3 * 48 * inch, rules))
    assert told.least == 3


def test_a_plan_that_meets_its_bound_is_not_looked_at_again():
    found = fewest_panels(floor_of(12.192, 7.3152), Rules(8 * FOOT, 4 * FOOT, kerf=0.0))
    assert settled(found, 30) == (found, 0)


def test_a_worse_start_is_mended_by_the_programme():
    """A plan laid badly on purpose comes back with the fewest, and still holds."""
    rules = PANELS["interlocking 2x4"]
    floor = floor_of(9.3, 1.8288)
    best = fewest_panels(floor, rules, angles=[0.0])
    rows = rows_of(9.3, 1.8288, rules)

    def taken(starts):
        return packed(rows, starts)[0].opened

    tried = product([k * 0.1 for k in range(2, 13)], repeat=3)
    bad = max((each for each in tried if not rows.short(each) and not near_joints(rows, each)), key=taken)
    assert taken(bad) > best.panels
    mended, proved = settled(replace(best, rows=rows, starts=bad, panels=taken(bad)), 1)
    assert proved == best.panels == mended.panels
    assert faults(floor, mended.layout()) == []
