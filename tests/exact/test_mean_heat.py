"""The mean heat alone, by upright strips: beside closed forms and the grid's own way, and what its estimate is."""

import numpy as np
import pytest

from bodies import PRESCRIBED, body, box, of_space, space
from sections_at_random import CLIMATES, FILMS, drawn_at_random
from underpour.physics.conduction import mean_heat as by_strips
from underpour.physics.conduction.assemble import SIDE, UP
from underpour.physics.conduction.blocks import blocks
from underpour.physics.conduction.mean_heat import mean_heat
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, Gap, Overlap, solve
from underpour.physics.conduction.strips import couplings

ROOM = of_space(0)
MEANS = {where: Climate(air.mean) for where, air in CLIMATES.items()}
SMALL = (2, 11, 20, 27)  # a footing's wall, two free edges, and ground and footing that touch between two boards
EVERY = [*SMALL, *(pytest.param(n, marks=pytest.mark.proof) for n in [*range(1, 31), *range(101, 131)])]
TENFOLD = Films(0.1, 0.1, 0.1)
INDOORS = {"room": TENFOLD, "outdoors": TENFOLD}
AIRS = {"room": Climate(20.0), "outdoors": Climate(0.0)}


def by_grid(seed, tolerance):
    made = drawn_at_random(seed)
    return solve(made.parts, made.airs, FILMS, MEANS, tolerance=tolerance, most_unknowns=150_000)


def heats(seed, tolerance=1e-3):
    made = drawn_at_random(seed)
    return mean_heat(made.parts, made.airs, FILMS, MEANS, tolerance=tolerance)


def drawn(seed, fineness):
    """Strips of a section, their degrees, and its films."""
    made = drawn_at_random(seed)
    laid, _ = blocks(made.parts, made.airs)
    films = np.array([[FILMS[air.where].of(way) for way in ("up", "side", "down")] for air in made.airs])
    return (*by_strips._laid(laid, by_strips._rows_asked(laid, films.min(1)), fineness), 1.0 / films)


def finest(seed):
    """What the last fineness gives, whatever it tells."""
    made, last = drawn_at_random(seed), by_strips.FINENESS[-1]
    strips, degrees, conductance = drawn(seed, last)
    means = np.array([[MEANS[air.where].mean] * 3 for air in made.airs])
    return by_strips._heats(couplings(strips, degrees, conductance), means, last.times)


def test_two_layers_and_two_films_stand_one_behind_another():
    """20 K over 0.1 + 0.2/2 + 0.05/0.04 + 0.1 m²·K/W, on 3 m. Derived."""
    layers = [body(box(0.0, 3.0, 0.0, 0.2), 2.0), body(box(0.0, 3.0, 0.2, 0.25), 0.04)]
    airs = [space("room", box(0.0, 3.0, 0.25, 1.0)), space("outdoors", box(0.0, 3.0, -1.0, 0.0))]
    found = mean_heat(layers, airs, INDOORS, AIRS)
    assert found.spaces[0].mean == pytest.approx(3.0 * 20.0 / (0.1 + 0.1 + 1.25 + 0.1), rel=1e-9)
    assert found.spaces[1].mean == pytest.approx(-found.spaces[0].mean, rel=1e-9)
    assert found.spaces[0].within < 1e-6 * found.spaces[0].mean


def test_layers_upright_give_what_layers_level_give():
    """The same wall stood up: strips are exact across it, faces look aside. Derived."""
    layers = [body(box(0.0, 0.2, 0.0, 3.0), 2.0), body(box(0.2, 0.25, 0.0, 3.0), 0.04)]
    airs = [space("room", box(0.25, 1.0, 0.0, 3.0)), space("outdoors", box(-1.0, 0.0, 0.0, 3.0))]
    found = mean_heat(layers, airs, INDOORS, AIRS)
    assert found.spaces[0].mean == pytest.approx(3.0 * 20.0 / (0.1 + 0.1 + 1.25 + 0.1), rel=1e-9)
    assert found.faces[0][SIDE].mean == pytest.approx(found.spaces[0].mean)
    assert found.faces[0][UP].mean == 0.0


def test_a_film_on_a_part_of_a_slab_by_a_series():
    """A slab 1 m wide and 0.4 m thick, its underside held, a film of 0.1 m²·K/W on 0.35 m of its top and none beyond.

    Heat through the top is taken even in each of 400 slices; a cosine of k/m that enters at the top warms it by
    tanh(k 0.4) / k. Each slice loses through its film what enters it: 400 equations. Derived.
    """
    wide, high, part, film = 1.0, 0.4, 0.35, 10.0
    slices, cosines = 400, 4000
    edges = np.linspace(0.0, part, slices + 1)
    k = np.arange(1, cosines + 1) * np.pi / wide
    waves = (np.sin(np.outer(edges[1:], k)) - np.sin(np.outer(edges[:-1], k))) / (k * np.diff(edges)[:, None])
    width = part / slices
    rise = high * width / wide + (waves * (2.0 * width / wide * np.tanh(k * high) / k)) @ waves.T
    flux = np.linalg.solve(rise + np.eye(slices) / film, np.full(slices, 1.0))
    expected = float(flux.sum() * width)  # W/m for 1 K, conductivity 1, underside held at nought

    bodies = [body(box(0.0, wide, 0.0, high), 1.0)]
    airs = [space("room", box(0.0, part, high, 1.0)), space("none", box(part, wide, high, 1.0))]
    airs.append(space("outdoors", box(0.0, wide, -1.0, 0.0)))
    films = {"room": TENFOLD, "none": Films(1e12, 1e12, 1e12), "outdoors": PRESCRIBED}
    climates = {"room": Climate(1.0), "none": Climate(0.5), "outdoors": Climate(0.0)}
    found = mean_heat(bodies, airs, films, climates, tolerance=1e-5).spaces[0]
    assert abs(found.mean - expected) < 1e-4 * expected
    assert found.within < 1e-5 * expected


@pytest.mark.parametrize("seed", EVERY)
def test_the_grid_and_the_strips_agree_to_within_what_both_tell(seed):
    """Two ways that share no equation: a room's heat, its floor's and its walls'. Derived."""
    solved, found = by_grid(seed, 3e-4), heats(seed)
    for ours, faces in (
        (found.spaces[0], ROOM),
        (found.faces[0][UP], lambda each: ROOM(each) & (each.facing == UP)),
        (found.faces[0][SIDE], lambda each: ROOM(each) & (each.facing == SIDE)),
        (found.spaces[1], of_space(1)),
    ):
        theirs = solved.flow(faces)
        assert abs(ours.mean - theirs.mean) <= ours.within + theirs.within + 1e-9


@pytest.mark.parametrize("seed", EVERY)
def test_the_estimate_is_not_below_the_true_error_nor_far_above(seed):
    """At 0.1 %, beside the finest: 1 to 20 times what is off, and not below it were the finest as far off as it tells.

    Derived.
    """
    found, true = heats(seed).spaces[0], finest(seed).spaces[0]
    assert found.within <= 1e-3 * abs(found.mean)
    off = abs(found.mean - true.mean)
    print(f"seed {seed}: estimated {found.within:.5f} W/m, true {off:.5f} W/m")
    assert off + true.within <= found.within <= 20.0 * off


@pytest.mark.parametrize("seed", SMALL)
def test_one_degree_more_never_couples_less_well(seed):
    """What two degrees differ by has no negative number in it, whatever surfaces are summed. Derived."""
    strips, degrees, conductance = drawn(seed, by_strips.FINENESS[1])
    found = couplings(strips, degrees, conductance)
    gained = found.lower - found.higher
    assert np.linalg.eigvalsh(gained).min() > -1e-6 * np.abs(gained).max()
    assert np.trace(gained) > 0.0


@pytest.mark.parametrize("seed", SMALL)
def test_airs_that_are_alike_exchange_nothing(seed):
    """And what one surface gives to another that one gives back. Derived."""
    strips, degrees, conductance = drawn(seed, by_strips.FINENESS[2])
    found = couplings(strips, degrees, conductance).higher
    assert np.abs(found.sum(1)).max() < 1e-6 * np.abs(found).max()
    assert np.abs(found - found.T).max() < 1e-9 * np.abs(found).max()


def test_a_named_tolerance_is_met_and_costs_more_the_smaller_it_is():
    told = [heats(27, tolerance).spaces[0] for tolerance in (1e-2, 1e-3, 1e-4, 1e-5)]
    for tolerance, each in zip((1e-2, 1e-3, 1e-4, 1e-5), told, strict=True):
        assert each.within <= tolerance * abs(each.mean)
    assert told[0].within > told[2].within > told[3].within


def test_where_strips_do_not_reach_the_tolerance_the_grid_answers(monkeypatch):
    """Also what is asked of it: the same numbers, space by space and face by face."""
    monkeypatch.setattr(by_strips, "FINENESS", by_strips.FINENESS[:1])
    found, solved = heats(11, 1e-5), by_grid(11, 1e-5)
    assert found.spaces[0] == solved.flow(ROOM)
    assert found.faces[0][UP] == solved.flow(lambda faces: ROOM(faces) & (faces.facing == UP))


def test_where_sides_slope_the_grid_answers():
    made = drawn_at_random(2, ("thickened-edge",))
    assert blocks(made.parts, made.airs)[0] is None
    solved = solve(made.parts, made.airs, FILMS, MEANS)
    assert mean_heat(made.parts, made.airs, FILMS, MEANS).spaces[0] == solved.flow(ROOM)


def test_ground_under_snow_is_felt_by_faces_that_look_up_alone():
    made = drawn_at_random(2)
    covered = MEANS | {"outdoors": Climate(MEANS["outdoors"].mean, level=Climate(3.0))}
    solved = solve(made.parts, made.airs, FILMS, covered, tolerance=3e-4).flow(ROOM)
    found = mean_heat(made.parts, made.airs, FILMS, covered).spaces[0]
    assert abs(found.mean - solved.mean) <= found.within + solved.within
    assert abs(found.mean - heats(2).spaces[0].mean) > 0.01 * found.mean


def test_air_under_a_body_that_juts_out_parts_its_strip_in_two():
    """A shelf over air over ground: the strip holds two bodies that meet in no place. Derived, by the grid."""
    bodies = [
        body(box(-3.0, 2.0, -2.0, 0.0), 1.5),
        body(box(-0.2, 0.0, 0.0, 1.0), 0.8),
        body(box(0.0, 0.6, 0.5, 0.6), 0.8),
    ]
    airs = [
        space("room", ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0))),
        space("outdoors", box(-3.0, -0.2, 0.0, 1.0)),
    ]
    solved = solve(bodies, airs, INDOORS, AIRS, tolerance=1e-4).flow(ROOM)
    found = mean_heat(bodies, airs, INDOORS, AIRS).spaces[0]
    assert abs(found.mean - solved.mean) <= found.within + solved.within
    assert found.within < 1e-3 * found.mean


def test_a_gap_is_told_with_its_place():
    one = body(box(0.0, 1.0, 0.0, 1.0), 1.0)
    with pytest.raises(Gap) as told:
        mean_heat([one], [space("room", box(0.0, 1.0, 1.5, 2.0))], {"room": TENFOLD}, {"room": Climate(20.0)})
    assert (told.value.x, told.value.y) == (0.5, 1.25)


def test_bodies_that_both_claim_a_place_are_told_and_alike_ones_may():
    one, two = body(box(0.0, 1.0, 0.0, 1.0), 1.0), body(box(0.5, 1.5, 0.0, 1.0), 2.0)
    airs = [space("room", box(0.0, 1.5, 1.0, 2.0)), space("outdoors", box(0.0, 1.5, -1.0, 0.0))]
    with pytest.raises(Overlap) as told:
        mean_heat([one, two], airs, INDOORS, AIRS)
    assert told.value.pairs == ((0, 1),)
    alike = mean_heat([one, body(box(0.5, 1.5, 0.0, 1.0), 1.0)], airs, INDOORS, AIRS).spaces[0]
    assert alike.mean == pytest.approx(1.5 * 20.0 / 1.2, rel=1e-9)


def test_a_body_of_lower_priority_number_lies_over_the_others():
    under, over = body(box(0.0, 1.0, 0.0, 1.0), 5.0, priority=2), body(box(0.0, 1.0, 0.5, 1.0), 0.5, priority=1)
    airs = [space("room", box(0.0, 1.0, 1.0, 2.0)), space("outdoors", box(0.0, 1.0, -1.0, 0.0))]
    found = mean_heat([under, over], airs, INDOORS, AIRS).spaces[0]
    assert found.mean == pytest.approx(20.0 / (0.2 + 0.5 / 5.0 + 0.5 / 0.5), rel=1e-9)
