"""Plans as typed: areas, sides that keep their numbers, and that every point of the outline has exactly one edge."""

from __future__ import annotations

import re
from itertools import pairwise
from math import pi
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.outlines_at_random import TypedPlan, plan

from underpour.brief import reads
from underpour.brief.model import Brief
from underpour.brief.plans import floor_of
from underpour.brief.sides import stretches_of_edges
from underpour.mistakes import Mistakes
from underpour.outlines.floor import Floor, Stretch

SEEDS = [*range(1, 31), *range(101, 131)]
REST = """
[project]
use = "workshop"
[site]
place = "Duluth, MN"
[floor]
build-up = [{ concrete = "4 in" }]
"""


def brief_of(plan: str, *sides: str) -> Brief:
    edges = "".join(f'[[edge]]\nsides = {each}\nkind = "raft"\n' for each in sides or ('"all"',))
    return reads(f"{REST}\n{plan}\n{edges}").brief


def floor(plan: str) -> Floor:
    return floor_of(brief_of(plan).plan)


def outline(*corners: str, unit: str = "m") -> str:
    return f'[plan]\nunit = "{unit}"\noutline = [{", ".join(map(repr, corners))}]\n'


@pytest.mark.parametrize("seed", SEEDS)
def test_a_typed_plan_has_the_sides_that_it_was_typed_from(seed: int) -> None:
    """Whichever way round it was typed, and whichever way its arcs were told."""
    made = plan(seed)
    read = floor(made.text)
    assert len(read.rings) == len(made.rings)
    for ring, wanted in zip(read.rings, made.rings, strict=True):
        for side, want in zip(ring.sides, wanted.sides, strict=True):
            assert (*side.start, *side.end) == pytest.approx((*want.start, *want.end), abs=1e-12)
            assert side.bulge == pytest.approx(want.bulge, rel=1e-7, abs=1e-12)
    assert read.area == pytest.approx(made.rings[0].area - sum(ring.area for ring in made.rings[1:]), rel=1e-9)


@pytest.mark.parametrize("told", ["rise 3", "Rise 3", "radius 3", "through 3 -3", "bulge 1"])
def test_a_half_circle_can_be_told_in_four_ways(told: str) -> None:
    """Out of a rectangle of 6 by 4: 24 + 9π/2 square metres, and 14 + 3π round."""
    made = floor(outline(f"0 0 {told}", "6 0", "6 4", "0 4"))
    assert made.area == pytest.approx(24.0 + 4.5 * pi, rel=1e-12)
    assert made.length == pytest.approx(14.0 + 3.0 * pi, rel=1e-12)


def test_an_arc_bows_out_above_nought_and_in_below_whichever_way_the_corners_run() -> None:
    out, in_ = 24.0 + 4.5 * pi, 24.0 - 4.5 * pi
    for sign, area in (("", out), ("-", in_)):
        for word in ("rise", "radius"):
            assert floor(outline(f"0 0 {word} {sign}3", "6 0", "6 4", "0 4")).area == pytest.approx(area, rel=1e-12)
            assert floor(outline("0 0", "0 4", "6 4", f"6 0 {word} {sign}3")).area == pytest.approx(area, rel=1e-12)
    assert floor(outline("0 0", "0 4", "6 4", "6 0 bulge -1")).area == pytest.approx(out, rel=1e-12)


def test_a_round_floor_is_two_corners_with_an_arc_each() -> None:
    for corners in (("0 0 rise 5", "10 0 rise 5"), ("0 0 through 5 5", "10 0 through 5 -5")):
        made = floor(outline(*corners))
        assert made.area == pytest.approx(25.0 * pi, rel=1e-12)
        assert made.length == pytest.approx(10.0 * pi, rel=1e-12)


def test_more_than_a_half_circle_can_be_told_by_its_rise() -> None:
    """A tower of r = 5 on a chord of 8, middle 3 off the chord: rise 8, the circle less the slice of rise 2."""
    made = floor(outline("0 0 rise 8", "8 0", "8 6", "0 6"))
    bay = floor(outline("0 0 rise 2", "8 0", "8 6", "0 6")).area - 48.0
    assert made.area == pytest.approx(48.0 + 25.0 * pi - bay, rel=1e-12)


def test_lengths_of_an_arc_may_have_units_of_their_own() -> None:
    feet = floor(outline("0 0 rise 3", "6 0", "6 4", "0 4", unit="ft"))
    assert feet.area == pytest.approx((24.0 + 4.5 * pi) * 0.3048**2, rel=1e-12)
    assert floor(outline("0 0 rise 36 in", "6 0", "6 4", "0 4", unit="ft")).area == pytest.approx(feet.area, rel=1e-12)
    through = floor(outline("0 0 through 3 ft, -36 in", "6 0", "6 4", "0 4", unit="ft"))
    assert through.area == pytest.approx(feet.area, rel=1e-12)


SIZES = st.floats(-0.45, 0.45).filter(lambda rise: abs(rise) > 0.01)


@given(st.lists(SIZES, min_size=4, max_size=4), st.floats(0.5, 20.0), st.floats(-40, 40), st.integers(1, 3))
def test_where_how_large_and_which_way_round_change_no_side(
    rises: list[float], scale: float, moved: float, first: int
) -> None:
    """Mirrored, moved, scaled, begun at another corner and run the other way: lengths and area as theory says."""
    corners = [(0.0, 0.0), (6.0, 0.0), (7.0, 5.0), (-1.0, 4.0)]

    def typed(order: list[int], k: float = 1.0, shift: float = 0.0, flip: float = 1.0) -> Floor:
        back = (order[1] - order[0]) % 4 == 3  # each side then begins at the corner where it ended
        side = [(n - 1) % 4 if back else n for n in order]
        words = (
            f"{flip * k * corners[n][0] + shift:.12f} {k * corners[n][1] + shift:.12f} rise {k * rises[of]:.12f}"
            for n, of in zip(order, side, strict=True)
        )
        return floor(outline(*words))

    plain = typed([0, 1, 2, 3])
    turned = [(first + n) % 4 for n in range(4)]
    for other in (typed(turned), typed([3, 2, 1, 0]), typed([0, 1, 2, 3], shift=moved), typed([0, 1, 2, 3], flip=-1.0)):
        assert other.area == pytest.approx(plain.area, rel=1e-9)
        assert sorted(other.outline.lengths) == pytest.approx(sorted(plain.outline.lengths), rel=1e-9)
        assert sorted(c.angle for c in other.corners) == pytest.approx(sorted(c.angle for c in plain.corners), abs=1e-6)
    larger = typed([0, 1, 2, 3], k=scale)
    assert larger.area == pytest.approx(scale**2 * plain.area, rel=1e-9)
    assert larger.length == pytest.approx(scale * plain.length, rel=1e-9)


def shared_out(made: TypedPlan, seed: int) -> tuple[list[str], dict[tuple[int, int], list[tuple[float, float, int]]]]:
    """Edges that take the plan's sides among them, as typed, and which takes what: (ring, side) to (from, to, edge)."""
    random = Random(1000 + seed)
    typed: list[list[str]] = [[], [], []]
    wanted: dict[tuple[int, int], list[tuple[float, float, int]]] = {}
    for ring, around in enumerate(made.rings):
        whole = random.randrange(4)
        for number, side in enumerate(around.sides, start=1):
            name = f'"hole.{ring}.side.{number}"' if ring else str(number)
            if ring and whole < 3:
                wanted[ring, number] = [(0.0, side.length, whole)]
                continue
            inner = sorted(round(random.uniform(0.05, 0.95) * side.length, 3) for _ in range(random.randrange(3)))
            ends = [0.0, *dict.fromkeys(inner), side.length]
            wanted[ring, number] = []
            for start, end in pairwise(ends):
                edge = random.randrange(3)
                wanted[ring, number].append((start, end, edge))
                from_ = f', from = "{start!r} m"' if start else ""
                to = f', to = "{end!r} m"' if end < side.length else ""
                typed[edge].append(f"{{ side = {name}{from_}{to} }}" if from_ or to else name)
        if ring and whole < 3:
            typed[whole].append(f'"hole.{ring}"')
    return [f"[{', '.join(each)}]" for each in typed], wanted


@pytest.mark.parametrize("seed", SEEDS)
def test_every_point_of_the_outline_has_exactly_one_edge(seed: int) -> None:
    """Points spread over all sides: each lies in one stretch of one edge, the one that was typed for it."""
    made = plan(seed)
    sides, wanted = shared_out(made, seed)
    taking = [edge for edge, each in enumerate(sides) if each != "[]"]
    briefed = brief_of(made.text, *(sides[edge] for edge in taking))
    stretches = dict(zip(taking, stretches_of_edges(briefed), strict=True))
    read = floor_of(briefed.plan)
    assert sum(s.length for taken in stretches.values() for s in taken) == pytest.approx(read.length, rel=1e-12)
    random = Random(seed)
    for (ring, number), shares in wanted.items():
        for _ in range(20):
            at = random.uniform(0.0, read.side(ring, number).length)
            owners = [edge for edge, taken in stretches.items() if any(_covers(s, ring, number, at) for s in taken)]
            assert owners == [edge for start, end, edge in shares if start < at < end]


def _covers(stretch: Stretch, ring: int, side: int, at: float) -> bool:
    return (stretch.ring, stretch.side) == (ring, side) and stretch.start < at < stretch.end


@pytest.mark.parametrize("seed", SEEDS)
def test_a_stretch_left_out_or_claimed_twice_is_told(seed: int) -> None:
    made = plan(seed)
    sides, _ = shared_out(made, seed)
    random = Random(2000 + seed)
    edge = random.choice([n for n, each in enumerate(sides) if each != "[]"])
    dropped = random.choice(re.findall(r'\{[^}]*\}|"[^"]*"|\d+', sides[edge]))
    kept = [each for n, each in enumerate(sides) if n != edge]
    for words, typed in (("belong", [*sides, f"[{dropped}]"]), ("No edge takes", kept)):
        with pytest.raises(Mistakes) as told:
            brief_of(made.text, *(each for each in typed if each != "[]"))
        assert any(words in mistake.wrong for mistake in told.value), str(told.value)


@pytest.mark.parametrize("ends", [("100 in", "2.54 m"), ("100 in", "2540.4 mm"), ("2540.4 mm", "100 in")])
def test_stretches_that_meet_in_other_units_leave_no_gap_between_them(ends: tuple[str, str]) -> None:
    """Half a millimetre is no edge of its own, and no stretch is claimed twice for it."""
    first, second = (
        f'[{{ side = 1, {key} = "{end}" }}, {n}]'
        for n, (key, end) in enumerate(zip(("to", "from"), ends, strict=True), 2)
    )
    made = brief_of(outline("0 0", "6 0", "6 4"), first, second)
    a, b = stretches_of_edges(made)
    assert a[0].end == b[0].start == pytest.approx(2.54, abs=5e-4)
    assert sum(stretch.length for stretch in (*a, *b)) == pytest.approx(floor_of(made.plan).length, rel=1e-14)


def test_a_gap_of_a_millimetre_is_told() -> None:
    with pytest.raises(Mistakes) as told:
        brief_of(
            outline("0 0", "6 0", "6 4"), '[{ side = 1, to = "2.540 m" }, 2]', '[{ side = 1, from = "2.541 m" }, 3]'
        )
    (mistake,) = told.value
    assert mistake.wrong == "No edge takes side 1 from 2.54 m to 2.541 m."


def test_a_hole_may_have_a_unit_of_its_own() -> None:
    made = floor(
        outline("0 0", "40 0", "40 30", unit="ft") + '[[plan.hole]]\nunit = "m"\noutline = ["9 1", "10 1", "10 2"]\n'
    )
    assert made.holes[0].area == pytest.approx(0.5)
    assert made.area == pytest.approx(600.0 * 0.3048**2 - 0.5)
