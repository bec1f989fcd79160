"""A thickened edge against a raft, against the same bodies drawn by hand, and against itself changed."""

import pytest
from pytest import approx

from bodies import of_space
from sections_at_random import CLIMATES, FILMS, drawn_at_random, edge_of, floor_of, foam, piece, slice_of, thickening
from underpour.mistakes import Mistake
from underpour.physics.conduction.grid import crossed
from underpour.physics.conduction.solve import solve
from underpour.resolve.resolved import Drawn
from underpour.sections.build import section

ROOM = of_space(0)
CONCRETE = slice_of("concrete", 0.1, 1.7)
FLOOR = floor_of(CONCRETE, foam(0.05), slice_of("gravel", 0.1, 2.0), half_width=2.0)
FACES = ("slab-edge", "below-slope", "below-footing")


def thickened(*faces, **given):
    return section(FLOOR, edge_of("thickened-edge", tuple(piece(face) for face in faces), **given))


def heat(*faces, **given):
    """Mean and swing of what the room gives off. [W/m]"""
    return flow(thickened(*faces, **given))


def flow(made):
    return solve(made.parts, made.airs, FILMS, CLIMATES).flow(ROOM)


def test_without_depth_and_width_it_is_a_raft():
    """Limit: an upright side, a tenth of a millimetre wide, down to the underside of the foam. Derived."""
    raft = flow(section(FLOOR, edge_of("raft", (piece("slab-edge"),))))
    thin = heat("slab-edge", depth=0.15, thickening=thickening(0.0001, 90.0))
    assert (thin.mean, thin.swing) == (approx(raft.mean, rel=2e-3), approx(raft.swing, rel=2e-3))


def test_the_same_bodies_drawn_by_hand_lose_the_same():
    """Wall and thickening as polygons of a drawn edge, on a floor that lies from the thickening on. Derived."""
    shapes = (
        ((-0.2, -0.5), (0.1, -0.5), (0.45, -0.15), (0.45, 0.0), (-0.2, 0.0)),
        ((-0.2, 0.0), (0.0, 0.0), (0.0, 1.0), (-0.2, 1.0)),
    )
    made_of = (CONCRETE, slice_of("timber-frame", 0.2, 0.06, 1.0e5))
    drawn = tuple(Drawn(body, outline, 1) for body, outline in zip(made_of, shapes, strict=True))
    by_hand, ours = flow(section(FLOOR, edge_of("drawn", ground=-0.2, drawn=drawn))), heat()
    assert (ours.mean, ours.swing) == (approx(by_hand.mean, rel=1e-3), approx(by_hand.swing, rel=1e-3))


def test_each_body_ends_where_it_should():
    """Bottom 0.3 m wide from the outer face at -0.2, then 0.35 m up to the foam's underside at 45 degrees. Derived."""
    parts = {part.path: part for part in thickened(*FACES).parts}
    slab = [part for part in thickened(*FACES).parts if part.thickening]
    assert [approx(corner) for corner in slab[0].thickening] == [(-0.2, -0.5), (0.1, -0.5), (0.45, -0.15)]
    corners = parts["board"].outline  # the last board of the list: below the flat bottom, lapping both ways
    reach = 0.05 * 2**0.5
    assert [approx(corner) for corner in corners] == [
        (-0.25, -0.55),
        (0.1 + reach, -0.55),
        (0.1 + reach, -0.5),
        (-0.25, -0.5),
    ]


def test_a_steeper_slope_loses_less():
    """The floor's foam reaches further out. Derived: whatever conducts less lets less through (Rayleigh)."""
    losses = [heat(thickening=thickening(0.3, slope)).mean for slope in (35.0, 45.0, 60.0, 90.0)]
    assert losses == sorted(losses, reverse=True)
    assert losses[0] > losses[-1] + 0.1


def test_heat_that_leaves_the_room_arrives_outdoors():
    for seed in (1, 2, 4):
        made = drawn_at_random(seed, ("thickened-edge",))
        assert solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.1).imbalance < 1e-7, seed


@pytest.mark.parametrize("seed", [2, 3])
def test_the_estimate_holds_where_slanted_sides_share_the_grid(seed):
    """As in test_error_estimate, with foam under a slope: the estimate is not below the true error. Derived."""
    made = drawn_at_random(seed, ("thickened-edge",))
    solved = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.02)
    unknowns = solved.fine.equations.unknowns
    finest = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.0, most_unknowns=16 * unknowns)
    assert finest.fine.equations.unknowns > 4 * unknowns
    ours, true = solved.flow(ROOM), finest.flow(ROOM)
    assert abs(ours.mean - true.mean) + abs(ours.swing - true.swing) <= ours.within


def test_slanted_sides_that_hand_lines_to_one_another_stay_affordable():
    """Foam under a 45 degree slope: each line comes back five times, and the whole stays within the usual grid."""
    made = thickened(*FACES)
    assert crossed(made.parts, made.airs)[0]
    solved = solve(made.parts, made.airs, FILMS, CLIMATES)
    assert solved.fine.equations.unknowns < 80_000
    assert solved.flow(ROOM).within < 0.005 * solved.flow(ROOM).mean


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"depth": 0.12}, "ends above the underside of the floor's foam"),
        ({"thickening": thickening(1.8)}, "the middle of the floor is at"),
        ({"depth": 2.0}, "the middle of the floor is at"),
        ({"depth": 0.15, "pieces": (piece("below-slope"),)}, "so there is no slope"),
    ],
)
def test_a_thickening_that_cannot_be_built_is_told(given, words):
    with pytest.raises(Mistake) as refused:
        section(FLOOR, edge_of("thickened-edge", **given))
    assert words in refused.value.wrong
