"""What moves a number, by the adjoint, against differences of two whole solves on the same grid: the second way."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.sparse.linalg import spsolve

from sections_at_random import CLIMATES, FILMS, drawn_at_random
from underpour.checks.solved import floor_faces, wall_faces
from underpour.physics.conduction import adjoint
from underpour.physics.conduction.adjoint import bent, by_fraction, coldest, flow, place, slopes
from underpour.physics.conduction.assemble import FACINGS, equations
from underpour.physics.conduction.grid import fill
from underpour.physics.conduction.solve import Climate, sketch_each, solve
from underpour.physics.year import YEAR

SEEDS = [1, 2, 3, *(pytest.param(seed, marks=pytest.mark.proof) for seed in range(4, 41))]
STEP = 1e-3  # of the value, to both sides: the difference of the two is off by a millionth or so


def sketched(made, climates=CLIMATES):
    return sketch_each(made.parts, made.airs, [FILMS], climates)[0].coarse


def lines_of(like):
    eq = like.equations
    return eq.x[:: eq.degree], eq.y[:: eq.degree]


class Anew:
    """The section solved once more on the lines of a solution, with other values: no factor, no adjoint."""

    def __init__(self, made, like, parts=None, conductance=None):
        parts = parts or made.parts
        grid, _ = fill(*lines_of(like), parts, made.airs)
        self.eq = equations(grid, parts, like.equations.degree)
        faces = self.eq.faces
        films = [FILMS[air.where] for air in made.airs]
        usual = 1.0 / np.array([[film.of(facing) for facing in FACINGS] for film in films])
        table = usual if conductance is None else conductance(usual)
        self.resistance = 1.0 / table[faces.space, faces.facing]
        air = np.array([CLIMATES[each.where].mean for each in made.airs])[faces.space]
        swing = np.array([CLIMATES[each.where].swing for each in made.airs])[faces.space]
        matrix = self.eq.conduction + self.eq.films(self.resistance)
        self.mean = spsolve(matrix, self.eq.load(self.resistance, air))
        periodic = (matrix + 2j * np.pi / YEAR * self.eq.storage).tocsc()
        self.swing = spsolve(periodic, self.eq.load(self.resistance, swing))
        self.flow_mean = self.eq.flows(self.resistance, air, self.mean)
        self.flow_swing = self.eq.flows(self.resistance, swing, self.swing)


def level(like):
    """Unknowns of the floor's surface, and the length that each stands for."""
    eq = like.equations
    row = eq.number[:, np.argmin(np.abs(eq.y))]
    on = (eq.x >= 0.0) & (row >= 0)
    return row[on], np.gradient(eq.x[on])


def softly(values, lengths, smoothed=0.05):
    least = values.min()
    return least - smoothed * np.log((lengths * np.exp(-(values - least) / smoothed)).sum() / lengths.sum())


def numbers(like):
    """Name, what the adjoint is given, and the same number read off any solution."""
    eq = like.equations
    chosen = {"floor": floor_faces(eq.faces)}
    if wall_faces(eq.faces).any():
        chosen["wall"] = wall_faces(eq.faces)
    for name, mask in chosen.items():
        whole = like.flow_swing[mask].sum()
        yield f"{name}, mean", flow(like, mask, 1.0, 0.0), lambda s, m=mask: s.flow_mean[m].sum()
        unit = np.conj(whole) / abs(whole)
        yield f"{name}, amplitude", flow(like, mask, 0.0, unit), lambda s, m=mask: abs(s.flow_swing[m].sum())
    at, lengths = level(like)
    one = at[len(at) // 3]
    yield "place, mean", place(like, np.array([one]), np.ones(1), 0.0), lambda s: s.mean[one]
    coolest = place(like, np.array([one]), np.ones(1), -1.0)
    yield "place, coldest month", coolest, lambda s: s.mean[one] - abs(s.swing[one])
    shares = coldest(like.mean[at] - np.abs(like.swing[at]), lengths)
    yield "coldest place", place(like, at, shares, -1.0), lambda s: softly(s.mean[at] - np.abs(s.swing[at]), lengths)


def held(made, like, change, slope_of, size):
    """Each number's slope against the difference of two solves, as a share of the number's largest slope."""
    named = list(numbers(like))
    told = slopes(like, [number for _, number, _ in named], len(made.parts), len(made.airs))
    up, down = Anew(made, like, **change(1.0)), Anew(made, like, **change(-1.0))
    off = {}
    for (name, _, read), each in zip(named, told, strict=True):
        difference = (read(up) - read(down)) / (2 * size)
        off[name] = (slope_of(each), difference)
    return off


@pytest.mark.parametrize("seed", SEEDS)
def test_slopes_in_every_conductivity_are_those_of_two_solves(seed):
    """Mean and amplitude of the flows, a place and the coldest place, one body after another. Derived."""
    made = drawn_at_random(seed)
    like = sketched(made)
    for n, part in enumerate(made.parts):
        size = STEP * part.conductivity

        def change(sign, n=n, part=part, size=size):
            other = replace(part, conductivity=part.conductivity + sign * size)
            return {"parts": [*made.parts[:n], other, *made.parts[n + 1 :]]}

        for name, (ours, theirs) in held(made, like, change, lambda s, n=n: s.conductivity[n], size).items():
            assert ours == pytest.approx(theirs, rel=1e-4, abs=1e-6 / part.conductivity), (seed, name, part.label)


@pytest.mark.parametrize("seed", SEEDS)
def test_slopes_in_every_heat_capacity_are_those_of_two_solves(seed):
    """The mean of the year does not know what is stored. Derived."""
    made = drawn_at_random(seed)
    like = sketched(made)
    for n, part in enumerate(made.parts):
        size = 1e-2 * part.heat_capacity

        def change(sign, n=n, part=part, size=size):
            other = replace(part, heat_capacity=part.heat_capacity + sign * size)
            return {"parts": [*made.parts[:n], other, *made.parts[n + 1 :]]}

        for name, (ours, theirs) in held(made, like, change, lambda s, n=n: s.capacity[n], size).items():
            assert ours == pytest.approx(theirs, rel=1e-3, abs=1e-5 / part.heat_capacity), (seed, name, part.label)
            if name.endswith("mean"):
                assert ours == 0.0


@pytest.mark.parametrize("seed", SEEDS)
def test_slopes_in_every_film_are_those_of_two_solves(seed):
    """A flow changes with the film that it passes, and with those that it does not. Derived."""
    made = drawn_at_random(seed)
    like = sketched(made)
    for space, air in enumerate(made.airs):
        for way, facing in enumerate(FACINGS):
            size = STEP / FILMS[air.where].of(facing)

            def change(sign, at=(space, way), size=size):
                def other(usual):
                    usual[at] += sign * size
                    return usual

                return {"conductance": other}

            for name, (ours, theirs) in held(made, like, change, lambda s, at=(space, way): s.film[at], size).items():
                assert ours == pytest.approx(theirs, rel=1e-4, abs=1e-7), (seed, name, air.where, facing)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_adjoint_of_the_whole_room_is_the_field_itself(seed):
    """Between two airs the slope of the flow is the integral of grad T · grad u, u = (T - T_out) / (T_room - T_out).

    Symmetric equations need no load of their own for it. Derived.
    """
    made = drawn_at_random(seed)
    like = sketched(made)
    room = like.equations.faces.space == 0
    (told,) = slopes(like, [flow(like, room, 1.0, 0.0)], len(made.parts), len(made.airs))
    out, within = CLIMATES["outdoors"].mean, CLIMATES["room"].mean
    unit = (like.mean - out) / (within - out)
    for n in range(len(made.parts)):
        alone = [replace(part, conductivity=float(m == n)) for m, part in enumerate(made.parts)]
        grid, _ = fill(*lines_of(like), alone, made.airs)
        energy = unit @ (equations(grid, alone, like.equations.degree).conduction @ like.mean)
        assert told.conductivity[n] == pytest.approx(energy, rel=1e-8, abs=1e-10)


@pytest.mark.parametrize("seed", SEEDS[:3])
def test_a_heat_between_two_airs_asks_for_no_second_field(seed, monkeypatch):
    """With factors thrown away: the slopes of the room's and of outdoors' heat as a load of their own gives them."""
    made = drawn_at_random(seed)
    like = sketched(made)
    faces = like.equations.faces
    numbers = [flow(like, faces.space == space, 2.5, 0.0) for space in (0, 1)]
    without = slopes(replace(like, factors=None), numbers, len(made.parts), len(made.airs))
    monkeypatch.setattr(adjoint, "_by_the_field", lambda solution, number: None)
    for ours, theirs in zip(without, slopes(like, numbers, len(made.parts), len(made.airs)), strict=True):
        assert ours.conductivity == pytest.approx(theirs.conductivity, rel=1e-7, abs=1e-9)
        assert ours.film == pytest.approx(theirs.film, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("asked", ["a part of the room", "three airs", "heat and a place"])
def test_what_the_field_does_not_tell_is_solved_for(asked):
    made = drawn_at_random(2)
    snow = CLIMATES | {"outdoors": replace(CLIMATES["outdoors"], level=Climate(3.0))}
    like = sketch_each(made.parts, made.airs, [FILMS], snow if asked == "three airs" else CLIMATES)[0].coarse
    faces = like.equations.faces
    counted = faces.space == 0
    number = flow(like, counted & (faces.facing == 0) if asked == "a part of the room" else counted, 1.0, 0.0)
    if asked == "heat and a place":
        number = replace(number, mean=number.mean + place(like, np.array([5]), np.ones(1), 0.0).mean)
    with pytest.raises(ValueError, match="were not kept"):
        slopes(replace(like, factors=None), [number], len(made.parts), len(made.airs))


@pytest.mark.parametrize("seeds", [range(1, 5), pytest.param(range(5, 41), marks=pytest.mark.proof)])
def test_half_as_much_foam_again_is_told_to_three_in_a_hundred_by_slope_and_curvature(seeds):
    """Each foam resists by half as much again, where it lies: mean flow and swing against a whole solve. Derived."""
    foams = 0
    for seed in seeds:
        made = drawn_at_random(seed)
        like = sketched(made)
        floor = floor_faces(like.equations.faces)
        unit = flow(like, floor, 1.0, 1.0)
        for n, part in enumerate(made.parts):
            if not part.label.startswith("board"):
                continue
            foams += 1
            change = np.zeros(len(made.parts))
            change[n] = part.conductivity / 1.5 - part.conductivity
            other = [*made.parts[:n], replace(part, conductivity=part.conductivity / 1.5), *made.parts[n + 1 :]]
            anew = Anew(made, like, parts=other)
            mean, swing = bent(like, change)
            told = by_fraction(np.array(unit.mean @ mean.first), np.array(unit.mean @ mean.second))
            true = anew.flow_mean[floor].sum() - like.flow_mean[floor].sum()
            assert told == pytest.approx(true, rel=0.03, abs=2e-3), (seed, part.label)
            told = by_fraction(np.array(unit.swing @ swing.first), np.array(unit.swing @ swing.second))
            true = anew.flow_swing[floor].sum() - like.flow_swing[floor].sum()
            assert abs(told - true) <= 0.03 * abs(true) + 2e-3, (seed, part.label)
    assert foams >= len(seeds)


@pytest.mark.parametrize("seed", [2, *(pytest.param(seed, marks=pytest.mark.proof) for seed in range(3, 23))])
def test_ground_that_changes_below_a_line_of_the_grid_is_told_to_three_in_a_hundred(seed):
    """Conductivity and heat capacity at once, below a line: mean flow and swing against a whole solve. Derived."""
    made = drawn_at_random(seed)
    like = sketched(made)
    floor = floor_faces(like.equations.faces)
    unit = flow(like, floor, 1.0, 1.0)
    ground = 0  # the ground comes first
    of = made.parts[ground]
    assert "ground" in of.path
    x0, x1, y0, _ = made.extent
    lines = like.equations.y[::2]
    level = lines[np.argmin(np.abs(lines - (made.underside - 1.0)))]
    box = ((x0, y0), (x1, y0), (x1, level), (x0, level))
    wet = replace(of, outline=box, conductivity=1.3 * of.conductivity, heat_capacity=1.4 * of.heat_capacity)
    wet = replace(wet, priority=of.priority - 1)
    anew = Anew(made, like, parts=[*made.parts, wet])
    change, stored = np.zeros(len(made.parts)), np.zeros(len(made.parts))
    change[ground], stored[ground] = 0.3 * of.conductivity, 0.4 * of.heat_capacity
    mean, swing = bent(like, change, stored, (-np.inf, level))
    told = by_fraction(np.array(unit.mean @ mean.first), np.array(unit.mean @ mean.second))
    true = anew.flow_mean[floor].sum() - like.flow_mean[floor].sum()
    assert true != 0.0 and told == pytest.approx(true, rel=0.03)
    told = by_fraction(np.array(unit.swing @ swing.first), np.array(unit.swing @ swing.second))
    true = anew.flow_swing[floor].sum() - like.flow_swing[floor].sum()
    assert abs(told - true) <= 0.03 * abs(true) + 2e-3


def test_between_two_levels_parts_of_a_change_add_up_to_the_whole():
    """To first order, cut anywhere, off the lines of the grid too."""
    made = drawn_at_random(1)
    like = sketched(made)
    change, stored = np.full(len(made.parts), 0.1), np.full(len(made.parts), 1e5)
    whole = bent(like, change, stored)
    cuts = [-np.inf, made.underside - 1.2345, made.underside - 0.0123, np.inf]
    parts = [bent(like, change, stored, (low, high)) for low, high in pairwise(cuts)]
    for n in (0, 1):
        assert np.allclose(sum(part[n].first for part in parts), whole[n].first, atol=1e-9)


def test_where_nothing_swings_only_the_mean_is_moved():
    made = drawn_at_random(1)
    still = {where: replace(climate, swing=0j) for where, climate in CLIMATES.items()}
    like = sketched(made, still)
    floor = floor_faces(like.equations.faces)
    told = slopes(like, [flow(like, floor, 1.0, 0.0), flow(like, floor, 0.0, 1.0)], len(made.parts), len(made.airs))
    assert abs(told[0].conductivity).max() > 0.0
    assert not told[1].conductivity.any()
    assert not told[1].film.any()
    assert not bent(like, np.ones(len(made.parts)))[1].first.any()


def test_the_finer_grid_keeps_no_factors_and_says_so():
    """Its fill is ten times that of the coarser one: kept for each edge and alternative it would fill memories."""
    made = drawn_at_random(1)
    solved = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.01)
    with pytest.raises(ValueError, match="not kept"):
        slopes(solved.fine, [place(solved.fine, np.array([0]), np.ones(1), 0.0)], len(made.parts), len(made.airs))
    with pytest.raises(ValueError, match="not kept"):
        bent(solved.fine, np.ones(len(made.parts)))
