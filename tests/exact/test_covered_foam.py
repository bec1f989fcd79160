"""Foam between slab and frost wall whose upper end the wall above covers, against the same foam left bare."""

import pytest
from pytest import approx

from bodies import of_space
from sections_at_random import CLIMATES, FILMS, edge_of, floor_of, foam, slice_of
from underpour.physics.conduction.solve import solve
from underpour.resolve.resolved import Piece
from underpour.sections.build import section

FLOOR = floor_of(slice_of("concrete", 0.1, 1.7), foam(0.05), slice_of("gravel", 0.1, 2.0), half_width=2.0)


def edged(*, covered):
    made = section(FLOOR, edge_of("frost-wall", (Piece(foam(0.05), "slab-edge", None, None, None, None, covered),)))
    return made, solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.01)


def test_covered_foam_leaves_the_floor_warmer_where_it_meets_the_wall():
    """Practice: a strip of foam open to the room beside a cold wall is colder than slab or frame."""
    (bare, found), (covered, better) = edged(covered=False), edged(covered=True)
    cold, warm = found.temperature(*bare.corner), better.temperature(*covered.corner)
    assert warm.mean - abs(warm.swing) > cold.mean - abs(cold.swing) + 3.0
    assert better.flow(of_space(0)).mean < found.flow(of_space(0)).mean


def test_the_wall_above_stands_in_by_the_foam():
    made, _ = edged(covered=True)
    frame = next(part.outline for part in made.parts if part.path == "timber-frame")
    assert (min(x for x, _ in frame), max(x for x, _ in frame)) == (approx(-0.15), approx(0.05))
    assert made.corner == (approx(0.05), 0.0) and made.floor[0] == approx(0.05)


@pytest.mark.parametrize("covered", [False, True])
def test_heat_that_leaves_the_room_arrives_outdoors(covered):
    assert edged(covered=covered)[1].imbalance < 1e-8
