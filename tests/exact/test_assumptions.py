"""A value tried in the place of an assumed one gives the same numbers as the same value typed in the brief."""

from __future__ import annotations

import pytest

from underpour.brief import reads
from underpour.resolve import Resolved, resolve

SITE = '[site]\nplace = "Duluth, MN"\n'
FLOOR = '[floor]\nbuild-up = [{ concrete = "100 mm" }, { gravel = "100 mm" }]\n'
EDGE = '[[edge]]\nsides = "all"\nkind = "frost-wall"\ndepth = "1.2 m"\n'
BRIEF = f"""\
[project]
use = "workshop"
[plan]
unit = "m"
outline = ["0 0", "12 0", "12 8", "0 8"]
{SITE}{FLOOR}{EDGE}"""

ROWS = [
    ({"floor.humidity": 60.0}, FLOOR, 'humidity = "60 %"'),
    ({"floor.inside": 12.0}, FLOOR, 'inside = "12 C"'),
    ({"floor.available-depth": 0.25}, FLOOR, 'available-depth = "250 mm"'),
    (
        {"site.ground.conductivity": 3.5, "site.ground.heat-capacity": 3.0e6},
        SITE,
        'ground = { conductivity = "3.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" }',
    ),
    ({"site.surface.freezing": 0.5, "site.surface.thawing": 1.3}, SITE, "surface = { freezing = 0.5, thawing = 1.3 }"),
    ({"edge.A.ground": -0.3}, EDGE, 'ground = "-300 mm"'),
    ({"edge.A.wall": 0.15}, EDGE, 'wall = [{ concrete = "150 mm" }]'),
    ({"edge.A.above": 0.15}, EDGE, 'above = [{ timber-frame = "150 mm" }]'),
    (
        {"edge.A.footing.width": 0.75, "edge.A.footing.height": 0.2},
        EDGE,
        'footing = { width = "750 mm", height = "200 mm" }',
    ),
]


def numbers(resolved: Resolved) -> dict[str, object]:
    """What the physics is given, without the words for it."""

    def slices(layers):
        return [(s.kind, s.thickness, s.conductivity, s.heat_capacity) for s in layers]

    room = resolved.room
    return {
        "room": (room.mean, room.swing, room.humidity),
        "ground": (resolved.ground.conductivity, resolved.ground.heat_capacity),
        "surface": resolved.surface,
        "depth": resolved.available_depth,
        "edges": [(e.ground, e.footing, slices(e.wall), slices(e.above)) for e in resolved.edges],
    }


@pytest.mark.parametrize(("tried", "table", "line"), ROWS, ids=lambda row: " ".join(row) if type(row) is dict else "")
def test_a_value_that_is_tried_counts_as_if_it_were_typed(tried, table, line):
    brief = reads(BRIEF).brief
    typed = resolve(reads(BRIEF.replace(table, f"{table}{line}\n")).brief)
    assert numbers(resolve(brief, tried)) == numbers(typed) != numbers(resolve(brief))
    assert {each.path for each in typed.assumed} == {each.path for each in resolve(brief).assumed} - set(tried)


def test_what_is_tried_is_what_is_listed_and_the_rest_is_listed_as_before():
    brief = reads(BRIEF).brief
    before = {each.path: each for each in resolve(brief).assumed}
    after = {each.path: each for each in resolve(brief, {"edge.A.wall": 0.15}).assumed}
    assert after["edge.A.wall"].value == 0.15
    assert {path for path in before if before[path] != after[path]} == {"edge.A.wall"}


def test_a_typed_value_is_never_replaced():
    brief = reads(BRIEF.replace(FLOOR, f'{FLOOR}humidity = "40 %"\n')).brief
    assert resolve(brief, {"floor.humidity": 90.0}).room.humidity == 0.4
