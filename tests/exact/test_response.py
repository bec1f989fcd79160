"""Sections under air that changes at any pace: against closed forms, against steps in time, against other grids."""

from functools import cache
from itertools import pairwise
from math import pi

import numpy as np
import pytest
import scipy.sparse as sp
from pytest import approx
from scipy.sparse.linalg import splu

from bodies import PRESCRIBED, body, box, of_space, space
from sections_at_random import CLIMATES, FILMS, drawn_at_random
from underpour.physics.conduction import response as subject
from underpour.physics.conduction.response import (
    first_years,
    flow_watched,
    followed,
    responding,
    temperature_watched,
)
from underpour.physics.conduction.sample import at_places
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, solve
from underpour.physics.domain import OutOfDomain
from underpour.physics.year import YEAR

CAPACITY, CONDUCTIVITY = 3.0e6, 1.5
FILM = 0.04
DAY = 24
LAYERS = ((0.15, 1.7, 2.0e6), (0.05, 0.035, 4.0e4), (3.0, CONDUCTIVITY, CAPACITY))  # m, W/(m·K), J/(m³·K)


def felt(solution):
    """Each face feels the air of its own space."""
    return solution.equations.faces.space


def column(levels, films=FILM):
    """Ground one metre wide under air, cut at the levels so that its grid is narrow there."""
    bodies = [body(box(0.0, 1.0, a, b), CONDUCTIVITY, heat_capacity=CAPACITY) for a, b in pairwise(sorted(levels))]
    outdoors = {"outdoors": Films(films, films, films)}
    return solve(
        bodies, [space("outdoors", box(0.0, 1.0, 0.0, 1.0))], outdoors, {"outdoors": Climate(8.0, -12.0 + 5.0j)}
    )


@pytest.mark.parametrize("films", [PRESCRIBED.up, FILM])
def test_thick_ground_follows_any_frequency_as_a_half_space(films):
    """Flow = k g / (1 + R k g), temperature = exp(-g z) / (1 + R k g), g = sqrt(i w rho c / k), for one kelvin of air.

    Carslaw and Jaeger, half-space, from memory. From once a year to twice a day, at frequencies that were not solved.
    """
    solved = column([-60.0, -3.0, -1.0, -0.3, -0.1, -0.03, 0.0], films).fine
    watched = [flow_watched(solved, felt(solved), of_space(0)), temperature_watched(solved, felt(solved), 0.0, -1.0)]
    fitted = responding(solved, felt(solved), watched)
    for cycles in np.geomspace(1.3, 730.0, 9):
        g = np.sqrt(2j * pi * cycles / YEAR * CAPACITY / CONDUCTIVITY)
        surface = 1.0 / (1.0 + films * CONDUCTIVITY * g)
        flow, deep = fitted.at(2.0 * pi * cycles / YEAR)[:, 0]
        assert abs(flow / (CONDUCTIVITY * g * surface) - 1.0) < 0.005, cycles
        assert abs(deep - surface * np.exp(-g)) < 0.002, cycles


def layered():
    """Concrete on foam on shallow ground, under air outdoors alone, cut so that its grid is narrow near the top."""
    tops = np.cumsum([0.0, *(thickness for thickness, *_ in LAYERS)])
    bodies = []
    for (_, k, c), top, bottom in zip(LAYERS, tops, tops[1:], strict=False):
        for a, b in pairwise(np.linspace(-bottom, -top, 4)):
            bodies.append(body(box(0.0, 1.0, a, b), k, heat_capacity=c))
    return solve(
        bodies,
        [space("outdoors", box(0.0, 1.0, 0.0, 1.0))],
        {"outdoors": Films(FILM, FILM, FILM)},
        {"outdoors": Climate(8.0)},
    )


def stepped(air, start, seconds):
    """Flow into the top, temperature under the foam, all cells at the end: thin cells, Crank and Nicolson's steps."""
    widths, k, c = [], [], []
    for thickness, conductivity, capacity in LAYERS:
        cells = 60
        widths += [thickness / cells] * cells
        k += [conductivity] * cells
        c += [capacity] * cells
    widths, k, c = map(np.array, (widths, k, c))
    half = widths / 2.0 / k
    between = 1.0 / (half[1:] + half[:-1])
    top = 1.0 / (FILM + half[0])
    n = len(widths)
    diagonal = np.zeros(n)
    diagonal[:-1] += between
    diagonal[1:] += between
    diagonal[0] += top
    conducts = sp.diags_array([-between, diagonal, -between], offsets=[-1, 0, 1]).tocsc()
    stores = sp.diags_array([widths * c / seconds], offsets=[0]).tocsc()
    temperature = np.full(n, start)
    flows, foam = [], []
    before = air[-1]
    for implicit, part in ((1.0, air[:DAY]), (0.5, air[DAY:])):  # the jump at the start would ring
        factors = splu((stores + implicit * conducts).tocsc())
        onward = (stores - (1.0 - implicit) * conducts).tocsr()
        for now in part:
            load = onward @ temperature
            load[0] += top * (implicit * now + (1.0 - implicit) * before)
            temperature, before = factors.solve(load), now
            flows.append(top * (now - temperature[0]))
            at = 2 * 60
            above, below = 1.0 / half[at - 1], 1.0 / half[at]
            foam.append((temperature[at - 1] * above + temperature[at] * below) / (above + below))
    return np.array(flows), np.array(foam), (-(np.cumsum(widths) - widths / 2.0), temperature)


def weather(hours=8760, seed=3):
    """A year of invented hours: a slow wave, days that swing, spells that last, all of them the same next year."""
    at = (np.arange(hours) + 0.5) / hours
    noise = np.fft.rfft(np.random.default_rng(seed).normal(size=hours))
    noise[hours // 8 :] = 0.0  # nothing that a straight line from hour to hour could not follow
    spells = np.fft.irfft(noise / (1.0 + 1j * np.arange(len(noise)) / 60.0), hours)
    days = 5.0 * np.cos(2 * pi * 365 * at) * (1.0 - 0.5 * np.cos(2 * pi * at))
    return 8.0 - 13.0 * np.cos(2 * pi * (at - 0.05)) + 4.0 * spells / spells.std() + days


def test_a_slab_on_ground_follows_a_year_of_hours_as_steps_in_time_do():
    """Finite cells and implicit steps, the year gone through four times; 1 % of what each number swings by."""
    solved = layered().fine
    watched = [flow_watched(solved, felt(solved), of_space(0)), temperature_watched(solved, felt(solved), 0.0, -0.2)]
    air = weather()
    ours = followed(responding(solved, felt(solved), watched), air[None]).watched
    flows, foam, _ = stepped(np.tile(air, 4), 8.0, YEAR / 8760)
    for mine, theirs in ((ours[0], flows[-8760:]), (ours[1], foam[-8760:])):
        swing = np.ptp(theirs) / 2.0
        assert np.abs(mine - theirs).max() < 0.01 * swing
        assert np.sqrt(np.mean((mine - theirs) ** 2)) < 0.004 * swing


def test_the_field_of_any_hour_is_that_of_steps_in_time():
    """All depths of the column at three hours of the fourth year; 1 % of what its surface swings by over the year."""
    solved = layered().fine
    eq = solved.equations
    watched = [flow_watched(solved, felt(solved), of_space(0))]
    air = weather()
    fitted = responding(solved, felt(solved), watched)
    modes = followed(fitted, air[None]).modes
    for hour in (700, 4321, 8759):
        _, _, (depths, theirs) = stepped(np.concatenate([np.tile(air, 3), air[: hour + 1]]), 8.0, YEAR / 8760)
        ours = at_places(eq, fitted.shapes @ modes[:, hour], np.array([0.5]), depths[::-1])[::-1, 0]
        assert np.ptp(theirs) > 5.0
        assert np.abs(ours - theirs).max() < 0.01 * np.ptp(air) / 2.0, hour


def test_the_first_years_are_those_of_steps_in_time():
    """The same column, its air changed at once from 8 degC to a wave about 15 degC; 1 % of the swing."""
    solved = layered().fine
    watched = [flow_watched(solved, felt(solved), of_space(0)), temperature_watched(solved, felt(solved), 0.0, -0.2)]
    begins, swing = 0.8, np.array([6.0 - 4.0j])
    years = np.arange(1, 2 * 8760 + 1) / 8760
    turn = np.exp(2j * pi * (begins + years))
    air = 15.0 + (swing[0] * turn).real
    ours = first_years(responding(solved, felt(solved), watched), 8.0, np.array([15.0]), swing, begins, years)
    flows, foam, _ = stepped(air, 8.0, YEAR / 8760)
    later = slice(7 * DAY, None)  # the jump itself, smeared by the first steps there, has gone by
    assert np.abs(ours[0] - flows)[later].max() < 0.01 * np.ptp(flows[later]) / 2.0
    assert np.abs(ours[1] - foam)[later].max() < 0.01 * np.ptp(foam) / 2.0
    assert ours[1, 0] == approx(8.0, abs=0.01)


@cache
def at_random(seed):
    made = drawn_at_random(seed)
    solved = solve(made.parts, made.airs, FILMS, CLIMATES)  # as fine as an answer is
    return made, solved


def watched_of(solved, corner):
    spaces = len(solved.climates)
    every = [flow_watched(solved.coarse, felt(solved.coarse), of_space(n)) for n in range(spaces)]
    return [*every, temperature_watched(solved.coarse, felt(solved.coarse), *corner)]


@pytest.mark.parametrize("seed", range(1, 9))
def test_a_wave_of_a_year_gives_what_the_harmonic_gives(seed):
    """Two ways through the same section: one complex solve, and hours through the fit."""
    made, solved = at_random(seed)
    fitted = responding(solved.coarse, felt(solved.coarse), watched_of(solved, made.corner))
    at = np.exp(2j * pi * (np.arange(8760) + 0.5) / 8760)
    air = np.array([c.mean + (c.swing * at).real for c in solved.climates])
    ours = followed(fitted, air).watched
    for n in range(len(made.airs)):
        mask = solved.coarse.equations.faces.space == n
        flow = solved.coarse.flow_mean[mask].sum() + (solved.coarse.flow_swing[mask].sum() * at).real
        assert ours[n] == approx(flow, abs=1e-5 * np.abs(flow).max())
    assert fitted.unseen.max() < 0.003


@pytest.mark.parametrize("seed", range(1, 9))
def test_heat_that_goes_in_over_a_settled_year_comes_out_again(seed):
    made, solved = at_random(seed)
    outdoors = np.array([[space.where == "outdoors"] for space in made.airs])
    air = np.where(outdoors, weather(), 20.0)
    ours = followed(responding(solved.coarse, felt(solved.coarse), watched_of(solved, made.corner)), air).watched
    flows = ours[: len(made.airs)].mean(axis=1)
    assert abs(flows.sum()) < 1e-6 * np.abs(flows).max()
    assert np.abs(ours[: len(made.airs)].sum(axis=0)).max() > 0.1 * np.abs(flows).max()  # but not hour by hour


@pytest.mark.parametrize("seed", [1, 4, 7])
def test_the_finer_grid_moves_the_hours_by_less_than_a_hundredth(seed):
    """The harmonic of the finer grid with what else there is from the coarser, against all of it from the finer."""
    made, solved = at_random(seed)
    outdoors = np.array([[space.where == "outdoors"] for space in made.airs])
    at = np.exp(2j * pi * (np.arange(8760) + 0.5) / 8760)
    harmonic = np.array([c.mean + (c.swing * at).real for c in solved.climates])
    air = np.where(outdoors, weather(), harmonic)
    corner = solved.temperature(*made.corner)
    watched = watched_of(solved, made.corner)
    further = followed(responding(solved.coarse, felt(solved.coarse), watched), air - harmonic).watched
    ours = corner.mean + (corner.swing * at).real + further[-1]
    fine = [temperature_watched(solved.fine, felt(solved.fine), *made.corner)]
    theirs = followed(responding(solved.fine, felt(solved.fine), fine), air).watched[0]
    assert np.abs(further[-1]).max() > 0.03 * np.ptp(theirs)
    assert np.abs(ours - theirs).max() < 0.01 * np.ptp(theirs) / 2.0


def test_what_the_fit_was_not_held_to_is_refused(monkeypatch):
    solved = column([-20.0, -1.0, 0.0]).coarse
    watched = [flow_watched(solved, felt(solved), of_space(0))]
    fitted = responding(solved, felt(solved), watched, fastest=12.0)
    with pytest.raises(OutOfDomain, match="outside"):
        fitted.at(2.0 * pi * 13.0 / YEAR)
    with pytest.raises(OutOfDomain, match="finer"):
        followed(fitted, np.zeros((1, 8760)))
    with pytest.raises(OutOfDomain, match="nothing is watched"):
        responding(solved, felt(solved), [])
    monkeypatch.setattr(subject, "STEP", 5000.0)
    monkeypatch.setattr(subject, "SLOWER", 0)
    monkeypatch.setattr(subject, "ROUNDS", 1)
    with pytest.raises(OutOfDomain, match="missed by"):
        responding(solved, felt(solved), watched)


def test_few_frequencies_are_told_to_be_off_and_more_are_solved(monkeypatch):
    solved = column([-60.0, -3.0, -1.0, -0.3, -0.1, 0.0]).coarse
    watched = [flow_watched(solved, felt(solved), of_space(0))]
    monkeypatch.setattr(subject, "STEP", 70.0)
    monkeypatch.setattr(subject, "SLOWER", 0)
    fitted = responding(solved, felt(solved), watched)
    assert fitted.unseen.max() <= subject.AIMED
    monkeypatch.setattr(subject, "ROUNDS", 1)
    monkeypatch.setattr(subject, "MOST", 1.0)
    assert responding(solved, felt(solved), watched).unseen.max() > subject.AIMED
