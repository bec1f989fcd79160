"""A door at a frost wall: the slab runs out below its leaf. Against the frost wall, and against itself changed."""

import pytest
from pytest import approx

from bodies import of_space
from sections_at_random import CLIMATES, FILMS, drawn_at_random, edge_of, floor_of, foam, piece, slice_of
from underpour.mistakes import Mistake
from underpour.physics.conduction.solve import solve
from underpour.resolve.resolved import Piece
from underpour.sections.build import section

ROOM = of_space(0)
CONCRETE = slice_of("concrete", 0.1, 1.7)
FLOOR = floor_of(CONCRETE, foam(0.05), slice_of("gravel", 0.1, 2.0), half_width=2.0)


def threshold(*faces, **given):
    return section(FLOOR, edge_of("threshold", tuple(piece(face) for face in faces), **given))


def solved(made):
    return solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.01)


def coldest(made):
    """Where floor and wall or leaf meet, at its coldest. [degC]"""
    corner = solved(made).temperature(*made.corner)
    return corner.mean - abs(corner.swing)


def test_without_a_break_the_door_is_far_colder_than_the_wall_beside_it_and_a_break_mends_it():
    """Practice: the slab that runs out below a door carries the cold in; foam below the leaf stops it."""
    wall, door, broken = (
        coldest(section(FLOOR, edge_of("frost-wall", (Piece(foam(0.05), "outside", 0.3, None, None, None),)))),
        coldest(threshold("outside")),
        coldest(threshold("outside", "slab-edge")),
    )
    assert door < wall - 4.0
    assert broken > door + 4.0


def test_a_leaf_as_thick_as_the_wall_makes_it_a_frost_wall_whose_slab_is_part_of_it():
    """Limit: the leaf is the frost wall's own wall, and the foundation wall is of the slab's concrete. Derived."""
    above = (slice_of("timber-frame", 0.2, 0.06, 1.0e5),)
    wall = (slice_of("concrete", 0.2, 1.7),)
    one = solved(threshold(above=above, wall=wall, set_back=0.0, ground=-0.2)).flow(ROOM)
    other = solved(section(FLOOR, edge_of("frost-wall", above=above, wall=wall))).flow(ROOM)
    assert (one.mean, one.swing) == (approx(other.mean, rel=3e-4), approx(other.swing, rel=3e-4))


def test_each_body_stands_where_it_should():
    """Wall 0.2 m, leaf 0.04 m set back by 0.1 m, break 0.05 m, its outer side in line with the leaf's. Derived."""
    made = threshold("slab-edge", set_back=0.1, above=(slice_of("softwood", 0.04, 0.13, 8e5),))
    corners = {
        part.label.split(",")[0]: part.outline for part in made.parts if part.label.startswith(("soft", "board"))
    }
    boards = [part.outline for part in made.parts if part.path == "board" and part.priority < 100]
    assert corners["softwood"] == ((approx(-0.1), 0.0), (approx(-0.06), 0.0), (approx(-0.06), 1.0), (approx(-0.1), 1.0))
    assert boards == [((approx(-0.1), -0.1), (approx(-0.05), -0.1), (approx(-0.05), 0.0), (approx(-0.1), 0.0))]
    assert made.corner == (approx(-0.06), 0.0)
    slab = next(part.outline for part in made.parts if part.priority == 200)
    assert min(x for x, _ in slab) == approx(-0.2)


def test_a_thicker_leaf_loses_less():
    """Derived: whatever conducts less lets less through (Rayleigh)."""
    leaves = [
        solved(threshold(above=(slice_of("softwood", 0.044, k, 8e5),))).flow(ROOM).mean for k in (0.13, 0.06, 0.03)
    ]
    assert leaves == sorted(leaves, reverse=True)
    assert leaves[0] > leaves[-1] + 1.0


@pytest.mark.parametrize("seed", [1, 2])
def test_heat_that_leaves_the_room_arrives_outdoors(seed):
    made = drawn_at_random(seed, ("threshold",))
    assert solved(made).imbalance < 1e-8


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"set_back": 0.3}, "stands in the room"),
        ({"pieces": (piece("slab-edge", 0.1),), "set_back": 0.0}, "leaves no sill"),
        ({"pieces": (Piece(foam(0.05), "slab-edge", None, -0.4, None, None),)}, "reaches into the foundation wall"),
    ],
)
def test_a_threshold_that_cannot_be_built_is_told(given, words):
    with pytest.raises(Mistake) as refused:
        section(FLOOR, edge_of("threshold", **given))
    assert words in refused.value.wrong
