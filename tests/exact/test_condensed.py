"""Cells without their insides, two degrees on one grid, and how fast both come nearer."""

from itertools import pairwise

import numpy as np
import pytest
from scipy.sparse.linalg import spsolve

from bodies import body, box, of_space, space
from sections_at_random import CLIMATES, FILMS, drawn_at_random
from underpour.physics.conduction.assemble import equations
from underpour.physics.conduction.condensed import condensed, dissected, factorised
from underpour.physics.conduction.grid import fill
from underpour.physics.conduction.lines import closer, features, shares
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, sketch_each, solve
from underpour.physics.year import YEAR

SLOPED = ("thickened-edge",)
ROOM = of_space(0)


def on_its_grid(seed, degree, kinds):
    made = drawn_at_random(seed, kinds)
    first = sketch_each(made.parts, made.airs, [FILMS], CLIMATES)[0].coarse
    eq = first.equations
    grid, _ = fill(eq.x[:: eq.degree], eq.y[:: eq.degree], made.parts, made.airs)
    return equations(grid, made.parts, degree)


@pytest.mark.parametrize("kinds", [("raft",), SLOPED])
@pytest.mark.parametrize("degree", [2, 3])
@pytest.mark.parametrize("pace", [0.0, 2j * np.pi * 400 / YEAR])
def test_temperatures_are_those_of_the_whole_equations(degree, kinds, pace):
    """Loads on faces and inside cells, one and three at a time; scipy's own way through all unknowns. Derived."""
    eq = on_its_grid(2, degree, kinds)
    resistance = np.linspace(0.05, 0.3, len(eq.faces.length))
    whole = (eq.conduction + eq.films(resistance) + pace * eq.storage).tocsc()
    loads = np.random.default_rng(1).normal(size=(eq.unknowns, 3))
    factors = factorised(condensed(eq, pace), resistance)
    expected = np.stack([spsolve(whole, load.astype(whole.dtype)) for load in loads.T], 1)
    scale = np.abs(expected).max()
    assert np.abs(factors.solve(loads) - expected).max() < 1e-8 * scale
    assert np.abs(factors.solve(loads[:, 0]) - expected[:, 0]).max() < 1e-8 * scale
    faced = eq.load(resistance, np.ones(len(resistance)))
    assert np.abs(factors.solve(faced) - spsolve(whole, faced.astype(whole.dtype))).max() < 1e-8


def test_fewer_unknowns_are_factorised():
    eq = on_its_grid(2, 4, ("raft",))
    assert len(eq.condensing.kept) < 0.5 * eq.unknowns
    assert sorted([*eq.condensing.kept, *eq.condensing.inner.ravel()]) == list(range(eq.unknowns))


@pytest.mark.parametrize("cells", [(1, 1), (4, 1), (5, 8), (13, 3)])
def test_what_lies_on_two_hands_of_a_line_never_shares_a_place_in_the_order(cells):
    """Whatever has the same number lies side by side: no two halves are mixed. Derived."""
    order = dissected(cells)
    for number in np.unique(order):
        across, up = np.nonzero(order == number)
        assert min(np.ptp(across), np.ptp(up)) <= 2


def test_the_first_grid_and_the_next_hold_the_same_corners_and_part_what_differs():
    made = drawn_at_random(3)
    solved = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=1.0)
    eq = solved.fine.equations
    lines = eq.x[:: eq.degree], eq.y[:: eq.degree]
    grid, _ = fill(*lines, made.parts, made.airs)
    across, up = shares(grid, solved.coarse, solved.fine)
    asked = features(made.parts, made.airs, [FILMS[air.where] for air in made.airs])
    nearer = closer(lines, (across, up), (list(asked[0]), list(asked[1])))
    for old, new in zip(lines, nearer, strict=True):
        assert set(old) <= set(new)
    assert len(nearer[0]) + len(nearer[1]) > len(lines[0]) + len(lines[1])
    axis = int(up.max() > across.max())
    worst = int((across, up)[axis].argmax())
    start, end = lines[axis][worst : worst + 2]
    assert ((nearer[axis] > start) & (nearer[axis] < end)).sum() == 1


def test_the_difference_of_two_degrees_is_the_heat_that_they_differ_by():
    """One air at 1, the other at 0: heat is energy, so the lower degree has too much by the energy of the rest.

    Films take their part of that energy, so the cells hold less than the whole of it. Derived.
    """
    made = drawn_at_random(5)
    airs = {"room": Climate(1.0), "outdoors": Climate(0.0)}
    solved = solve(made.parts, made.airs, FILMS, airs, tolerance=1.0)
    eq = solved.fine.equations
    grid, _ = fill(eq.x[:: eq.degree], eq.y[:: eq.degree], made.parts, made.airs)
    energy = sum(each.sum() for each in shares(grid, solved.coarse, solved.fine))
    excess = solved.coarse.flow_mean[ROOM(solved.faces)].sum() - solved.fine.flow_mean[ROOM(solved.faces)].sum()
    assert 0.5 * excess < energy < 1.0001 * excess


def case_2():
    """EN ISO 10211:2007, case 2 (from memory): a wall's foot with foam and an aluminium sheet."""
    sizes = [
        (box(0.0, 0.5, 0.0415, 0.0475), 1.15),
        (box(0.0, 0.015, 0.0015, 0.0415), 0.12),
        (box(0.015, 0.5, 0.0015, 0.0415), 0.029),
        (box(0.0, 0.5, 0.0, 0.0015), 230.0),
    ]
    airs = [space("room", box(0.0, 0.5, -0.1, 0.0)), space("outdoors", box(0.0, 0.5, 0.0475, 0.1))]
    return (
        [body(outline, k) for outline, k in sizes],
        airs,
        {
            "room": Films(0.11, 0.11, 0.11),
            "outdoors": Films(0.06, 0.06, 0.06),
        },
    )


def slanted():
    """A wedge of foam in a block of concrete between two airs: one side that runs along neither axis."""
    parts = [
        body(((0.0, 0.0), (1.0, 0.0), (1.0, 0.3), (0.0, 0.1)), 1.7),
        body(((0.0, 0.1), (1.0, 0.3), (1.0, 0.5), (0.0, 0.5)), 0.035),
    ]
    airs = [space("room", box(0.0, 1.0, -0.2, 0.0)), space("outdoors", box(0.0, 1.0, 0.5, 0.7))]
    return parts, airs, {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}


@pytest.mark.parametrize("made", [case_2, slanted])
def test_every_degree_more_comes_nearer_by_the_same_share_straight_or_slanted(made):
    """On one grid the heat's error falls at least two and a half times from each degree to the next. Derived."""
    parts, airs, films = made()
    climates = {"room": Climate(20.0), "outdoors": Climate(0.0)}
    solved = solve(parts, airs, films, climates, tolerance=1.0)
    eq = solved.fine.equations
    grid, _ = fill(eq.x[:: eq.degree], eq.y[:: eq.degree], parts, airs)
    flows = []
    for degree in (2, 3, 4, 8):
        at = equations(grid, parts, degree)
        table = np.array([[films[air.where].up, films[air.where].side, films[air.where].down] for air in airs])
        resistance = table[at.faces.space, at.faces.facing]
        air = np.array([20.0, 0.0])[at.faces.space]
        warm = factorised(condensed(at), resistance).solve(at.load(resistance, air))
        flows.append(at.flows(resistance, air, warm)[ROOM(at.faces)].sum())
    errors = np.abs(np.array(flows[:3]) / flows[3] - 1.0)
    assert errors[0] < 0.02
    for coarse, near in pairwise(errors):
        assert near < coarse / 2.5 or near < 1e-9


@pytest.mark.parametrize("seed", [2])
def test_the_estimate_holds_where_faces_slope(seed):
    made = drawn_at_random(seed, SLOPED)
    first = solve(made.parts, made.airs, FILMS, CLIMATES)
    sure = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=3e-5, most_unknowns=200_000)
    ours, true = first.flow(ROOM), sure.flow(ROOM)
    off = abs(ours.mean - true.mean) + abs(ours.swing - true.swing)
    assert off <= ours.within + true.within
    assert true.within < ours.within
