"""A second layer across the first: joints that lie over each other, measured from outside."""

import pytest
from plans_of_floors import FOOT, PANELS, floor_of

from underpour.outlines.floor import Floor
from underpour.outlines.outline import straight
from underpour.panels.assemble import Rows
from underpour.panels.ground_plan import ground_plan
from underpour.panels.layout import laid
from underpour.panels.over import below, over, over_each_other
from underpour.panels.panel import Rules
from underpour.panels.proof import faults
from underpour.panels.rows import rows as strips_of
from underpour.panels.search import Wanted, fewest_panels, improving

NEAR = 0.1
FEW_CUTS = 1500


def grid(angle):
    """24 by 16 ft of 4 by 8 ft sheets, every joint in line."""
    floor = Floor(straight([(0, 0), (24 * FOOT, 0), (24 * FOOT, 16 * FOOT), (0, 16 * FOOT)]))
    rules = Rules(8 * FOOT, 4 * FOOT, kerf=0.0)
    plan = ground_plan(floor, angle)
    own = Rows(strips_of(plan, rules.width, plan.bottom % rules.width, rules.length / 2), rules)
    starts = [rules.length] * len(own.strips)
    return own, starts, laid(own, starts, angle, plan.bottom % rules.width)


def test_joints_of_two_grids_over_each_other_counted_by_hand():
    """Along x each second line of the lower rows lies under butts of the upper (8 ft of 4): 24 ft. Along y butts at 8
    and 16 ft lie under each second line of the upper rows: twice 16 ft."""
    _, _, lower = grid(0.0)
    rows, starts, upper = grid(90.0)
    assert over_each_other(lower, upper, NEAR) / FOOT == pytest.approx(24 + 32)
    assert over(rows, starts, below(lower, 90.0, NEAR)) / FOOT == pytest.approx(24 + 32)
    assert over_each_other(upper, lower, NEAR) / FOOT == pytest.approx(24 + 32)


@pytest.mark.parametrize("seed", [1, 2, 5, 6])
@pytest.mark.parametrize("name", PANELS)
def test_a_second_layer_keeps_its_butts_off_the_lines_below(seed, name):
    """Proved from the pieces of both: what is left over each other are lines of rows over single butts, in metres."""
    _, floor = floor_of(seed)
    rules = PANELS[name]
    lower = fewest_panels(floor, rules, cuts=FEW_CUTS).layout()
    angle = (lower.angle + 90.0) % 180.0
    *_, free = improving(floor, rules, Wanted((angle,)), FEW_CUTS)
    *_, found = improving(floor, rules, Wanted((angle,), below=below(lower, angle, NEAR)), FEW_CUTS)
    upper = found.layout()
    assert faults(floor, upper) == []
    assert found.broken == 0
    told = over_each_other(lower, upper, NEAR)
    assert told == pytest.approx(found.over, abs=0.15 * rules.width * len(upper.pieces) ** 0.5)
    assert told <= over_each_other(lower, free.layout(), NEAR) + 1e-6
    assert found.panels <= free.panels + max(2, 0.02 * free.panels)
