"""A frost wall with a ledge for brick, against the frost wall without one, and against itself changed."""

import pytest
from pytest import approx

from bodies import of_space
from sections_at_random import CLIMATES, FILMS, drawn_at_random, edge_of, floor_of, foam, ledge, piece, slice_of
from underpour import catalogue
from underpour.mistakes import Mistake
from underpour.physics.conduction.solve import solve
from underpour.sections.build import section

ROOM = of_space(0)
FLOOR = floor_of(slice_of("concrete", 0.1, 1.7), foam(0.05), slice_of("gravel", 0.1, 2.0), half_width=2.0)


def ledged(*faces, **given):
    return section(FLOOR, edge_of("ledge", tuple(piece(face) for face in faces), **given))


def flow(made):
    return solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.01).flow(ROOM)


def test_brick_and_air_that_conduct_as_the_wall_make_it_a_frost_wall_clad_on_the_outside():
    """Limit: step and leaf of the wall's own concrete below the floor, the frame's own stuff above it. Derived."""
    whole = ledged(ledge=ledge(brick=0.04, air=0.07, below=1e-4, conductivities=(0.06, 0.06), capacity=1.0e5))
    plain = section(FLOOR, edge_of("frost-wall", wall=edge_of("ledge").wall, above=(_frame(0.25),)))
    one, other = flow(whole), flow(plain)
    assert (one.mean, one.swing) == (approx(other.mean, rel=3e-3), approx(other.swing, rel=3e-3))


def _frame(thickness):
    return slice_of("timber-frame", thickness, 0.06, 1.0e5)


def test_a_deeper_ledge_of_brick_that_conducts_less_than_the_wall_loses_less():
    """Derived: whatever conducts less in any place lets less through (Rayleigh)."""
    losses = [flow(ledged(ledge=ledge(below=below))).mean for below in (0.1, 0.2, 0.4)]
    assert losses == sorted(losses, reverse=True)
    assert losses[0] > losses[-1] + 0.05


def test_foam_between_slab_and_wall_breaks_the_bridge():
    """Practice, and derived as above."""
    assert flow(ledged("slab-edge")).mean < flow(ledged()).mean - 1.0


def test_each_body_stands_where_it_should():
    """Wall 0.25 m, ledge 0.125 m at -0.2 m, brick 0.09 m, frame 0.14 m. Derived."""
    made = {part.label.split(",")[0]: part.outline for part in ledged().parts}
    assert [approx(corner) for corner in made["brick"]] == [(-0.25, -0.2), (-0.16, -0.2), (-0.16, 1.0), (-0.25, 1.0)]
    assert [approx(corner) for corner in made["air"]] == [(-0.16, 0.0), (-0.14, 0.0), (-0.14, 1.0), (-0.16, 1.0)]


def test_foam_outside_begins_below_the_brick():
    outside = [part.outline for part in ledged("outside").parts if part.path == "board" and part.priority < 90]
    assert max(y for _, y in outside[0]) == approx(-0.2)


@pytest.mark.parametrize("seed", [1, 2])
def test_heat_that_leaves_the_room_arrives_outdoors(seed):
    made = drawn_at_random(seed, ("ledge",))
    assert solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.1).imbalance < 1e-8


def test_a_ledge_below_the_top_of_the_footing_is_told():
    with pytest.raises(Mistake) as refused:
        ledged(ledge=ledge(below=0.8))
    assert "lies below the top of the footing" in refused.value.wrong


@pytest.mark.parametrize(
    ("thickness", "resistance"),
    [(0.005, 0.11), (0.010, 0.15), (0.025, 0.18), (0.1, 0.18), (0.020, 0.175), (0.0025, 0.055)],
)
def test_an_air_layer_resists_as_printed(thickness, resistance):
    """ISO 6946:2017, Table 8, heat flowing sideways, not ventilated (from memory); between rows by a straight line."""
    assert catalogue.air_layer(thickness)[0] == approx(resistance)
