"""The year: its one harmonic, six harmonics, and every hour of weather, beside hours stepped one after another."""

from __future__ import annotations

from functools import partial
from itertools import product

import numpy as np
from numpy.typing import NDArray

from underpour.physics.conduction.condensed import Factors, condensed, factorised
from underpour.physics.conduction.response import flow_watched, followed, responding
from underpour.physics.conduction.solve import Solution
from underpour.physics.year import YEAR

from . import posed
from .peers import steps, triangles
from .race import Race, Way, cheapest

Array = NDArray[np.float64]
THEME = "year"
TINY = "demo"
ALLOWED = 2e-3  # of the harmonic, as a share of it: two years from a settled start are not nearer than that
OF_HOURS = 5e-3  # of the hour that is furthest off, as a share of the year's amplitude
RULES = (("backward Euler", 1.0), ("Crank-Nicolson", 0.5))
GRADED = tuple(product((0.2, 0.1, 0.05, 0.02), (0.7, 0.5, 0.35)))
WAVES = (1, 2, 3, 5, 8, 13, 21, 34, 52, 73, 110, 180, 250, 365, 366, 500, 730, 1095, 2190)  # a year
SEED = 20261127


def races(tiny: bool = False) -> list[Race]:
    found = []
    for name, case in posed.CASES.items():
        found += [] if tiny and name != TINY else of_one(name, case(), tiny)
    return found


class Swinging:
    """One grid's equations at any frequency, as the tool solves them: the order of elimination is kept."""

    def __init__(self, solution: Solution):
        self.solution = solution
        eq = solution.equations
        outdoors = (eq.faces.space > 0).astype(float)
        self.load = eq.load(solution.resistance, outdoors)
        self.room = eq.load(solution.resistance, 1.0 - outdoors)
        self.unknowns = eq.unknowns

    def heat(self, cycles: float) -> complex:
        """What the room gives off for one kelvin outdoors that swings so often a year. [W/(m·K)]"""
        return complex(-(self.room @ self._factors(2j * np.pi * cycles / YEAR).solve(self.load)))

    def steady(self) -> Array:
        """The same equations for what stands still."""
        return np.asarray(self._factors(0.0).solve(self.load))

    def _factors(self, pace: complex) -> Factors:
        return factorised(condensed(self.solution.equations, pace), self.solution.resistance)


def weather(case: posed.Case, waves: Array, count: int) -> Array:
    """So many steps of a year outdoors, made of waves. [degC]"""
    hour = np.arange(count) / count
    angles = 2.0 * np.pi * hour[:, None] * np.array(WAVES[: len(waves)])
    return case.climates["outdoors"].mean + (np.exp(1j * angles) @ waves).real


def waves(case: posed.Case, count: int) -> NDArray[np.complex128]:
    """The year's own swing, 5 K once a day and half of it twice, and weather that is less the faster it changes."""
    chance = np.random.default_rng(SEED)
    told = [n for n in WAVES if 2 * n < count]  # what changes faster is not seen in so many steps
    size = np.array([1.0 if n in (365,) else 0.5 if n == 730 else 0.6 / np.sqrt(n / 10 + 1.0) for n in told]) * 5.0
    found = size * np.exp(2j * np.pi * chance.random(len(told)))
    found[0] = case.climates["outdoors"].swing
    return found


def harmonic(hours: Array) -> complex:
    """The wave of once a year in a year of hours."""
    return complex(2.0 * np.mean(hours * np.exp(-2j * np.pi * np.arange(len(hours)) / len(hours))))


def of_one(name: str, case: posed.Case, tiny: bool) -> list[Race]:
    swing = case.climates["outdoors"].swing
    fine = Swinging(case.solved(1e-3 if tiny else 5e-5).fine)
    wanted = fine.heat(1) * swing

    def off(found: complex) -> float:
        return abs(found / wanted - 1.0)

    sketched, solved = case.sketched(), case.solved(ALLOWED)
    tried = [
        each for each in (sketched.coarse, solved.coarse, solved.fine) if off(Swinging(each).heat(1) * swing) <= ALLOWED
    ]
    grid = (tried or [solved.fine])[0]
    ours = Swinging(grid)
    system = peers_grid(case, wanted, tiny)
    count = 730 if tiny else steps.HOURS
    rules = [(words, steps.stepping(system, theta, count)) for words, theta in RULES]
    wave = waves(case, count)
    one, many = weather(case, wave[:1], count), weather(case, wave, count)
    return [
        one_harmonic(name, case, ours, system, rules, one, off),
        whole(name, case, rules, one, off),
        six(name, case, ours),
        *hourly(name, case, grid, fine, rules, wave, many),
    ]


def peers_grid(case: posed.Case, wanted: complex, tiny: bool) -> triangles.System:
    """The grid of fewest unknowns on which the peer's own harmonic is within what is allowed."""

    def tried():  # type: ignore[no-untyped-def]
        for how in GRADED[4:5] if tiny else GRADED:
            system = triangles.system(case, triangles.graded_grid(case, *how), stores=True)
            matrix = (system.conduction + 2j * np.pi / YEAR * system.storage).tocsc()
            swing = triangles.factored(matrix)(system.outdoors * case.climates["outdoors"].swing)
            yield system, system.basis.N, abs(system.heat(swing, 0.0) / wanted - 1.0)

    return cheapest(tried(), ALLOWED)


Rules = list[tuple[str, steps.Stepping]]


def words(rule: str, by: steps.Stepping, hours: int) -> str:
    return f"{rule}, {hours} hours, ElementTriP2 with {by.posed.basis.N} unknowns, SuperLU symmetric once"


def one_harmonic(name, case, ours, system, rules: Rules, air: Array, off) -> Race:  # type: ignore[no-untyped-def]
    swing = case.climates["outdoors"].swing

    def by_steps(by: steps.Stepping) -> complex:
        return harmonic(steps.last_year(case, steps.stepping(by.posed, by.theta, len(air)), air))

    return Race(
        THEME,
        f"harmonic-{name}",
        f"The year's harmonic, {case.name}, 0.2 %, equations at hand",
        Way("here", f"one complex factorisation, {ours.unknowns} unknowns", lambda: ours.heat(1) * swing, off),
        tuple(
            Way(f"scipy, {rule}", words(rule, by, 2 * len(air)), partial(by_steps, by), off, goal=500.0)
            for rule, by in rules
        ),
        ALLOWED,
        turns=3,
    )


def whole(name, case, rules: Rules, air: Array, off) -> Race:  # type: ignore[no-untyped-def]
    """The harmonic as an answer has it, with the mean, from outlines and with an estimate."""

    def ours() -> complex:
        return case.solved(ALLOWED).flow(posed.of_the_room).swing

    def by_steps(by: steps.Stepping) -> complex:
        return harmonic(steps.last_year(case, steps.stepping(by.posed, by.theta, len(air)), air))

    rule, by = rules[1]
    return Race(
        THEME,
        f"year-{name}",
        f"Mean and harmonic, {case.name}, 0.2 %, from outlines",
        Way("here", "whole solve, its estimate below what is allowed", ours, off),
        (Way(f"scipy, {rule}", f"{words(rule, by, 2 * len(air))}; its grid is given", partial(by_steps, by), off),),
        ALLOWED,
        turns=3,
    )


def six(name, case, ours) -> Race:  # type: ignore[no-untyped-def]
    return Race(
        THEME,
        f"six-{name}",
        f"Six harmonics, {case.name}, equations at hand",
        Way("here", "one after another, order of elimination kept", lambda: [ours.heat(n) for n in range(1, 7)]),
        (Way("one mean on the same grid", "the same way", ours.steady, goal=0.2),),
    )


def hourly(name, case, grid: Solution, fine: Swinging, rules: Rules, wave, air: Array) -> list[Race]:  # type: ignore[no-untyped-def]
    """Weather made of waves, so that the right hours are known: each wave by itself on a much finer grid."""
    exact = np.array([fine.heat(n) for n in WAVES[: len(wave)]]) * wave
    angles = 2j * np.pi * np.arange(len(air))[:, None] / len(air) * np.array(WAVES[: len(wave)])
    swings, size = (np.exp(angles) @ exact).real, abs(exact[0])
    felt = grid.equations.faces.space
    spaces = len(case.airs)
    airs = np.array([np.full(len(air), case.climates["room"].mean)] + [air] * (spaces - 1))
    floor = flow_watched(grid, felt, posed.of_the_room)

    def off(hours: Array) -> float:
        return float(np.abs(hours - hours.mean() - (swings - swings.mean())).max() / size)

    def set_up():  # type: ignore[no-untyped-def]
        return responding(grid, felt, [floor])

    ready = set_up()

    def with_set_up() -> Array:
        return np.asarray(followed(set_up(), airs).watched[0])

    def after() -> Array:
        return np.asarray(followed(ready, airs).watched[0])

    def two_years(by: steps.Stepping) -> Array:
        return steps.last_year(case, steps.stepping(by.posed, by.theta, len(air)), air)

    def one_year(by: steps.Stepping) -> Array:
        return steps.hours(case, by, air, len(air))

    modes = f"{len(ready.delays)} modes"
    return [
        Race(
            THEME,
            f"hours-{name}",
            f"A year by the hour, {case.name}, after set-up",
            Way("here", f"{modes}, through the year's spectrum", after, off),
            tuple(
                Way(
                    f"scipy, {rule}",
                    f"{words(rule, by, len(air))}, not yet settled",
                    partial(one_year, by),
                    goal=300.0,
                )
                for rule, by in rules[1:]
            ),
            OF_HOURS,
            turns=3,
        ),
        Race(
            THEME,
            f"hours-all-{name}",
            f"A year by the hour, {case.name}, set-up counted",
            Way("here", f"frequencies solved, {modes} found, then the hours", with_set_up, off),
            tuple(
                Way(f"scipy, {rule}", words(rule, by, 2 * len(air)), partial(two_years, by), off)
                for rule, by in rules[1:]
            ),
            OF_HOURS,
            turns=3,
        ),
    ]
