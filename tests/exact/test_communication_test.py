"""Stone and leaks are given back from readings that were made with them, and from such readings with noise."""

from functools import cache

import numpy as np
import pytest

from underpour.physics.domain import OutOfDomain
from underpour.physics.soil_gas.cells import Pit
from underpour.physics.soil_gas.communication import Reading, told
from underpour.physics.soil_gas.fan import of_flow
from underpour.physics.soil_gas.field import Drawn, Leakage, suction_field
from underpour.physics.soil_gas.hydraulics import inertia_of, layer
from underpour.physics.soil_gas.plan import Plan

FLOOR = [(0.0, 0.0), (12.0, 0.0), (12.0, 8.0), (0.0, 8.0)]
DRAWN, FLOW = Pit(3.0, 3.0, 0.05), 0.02
HOLES = [(3.3, 3.0), (4.0, 3.0), (5.0, 4.0), (8.0, 3.0), (11.5, 7.5), (11.5, 0.5), (0.5, 7.5)]
NOISE, WITHIN = 0.1, 1.5


def plan(hydraulics):
    return Plan(FLOOR, hydraulics)


@cache
def made(permeability, leakage):
    """Suction in the holes and in the one that air is drawn from. [Pa]"""
    stone = layer(permeability, inertia_of(permeability, 0.4), 0.1)
    field = suction_field(plan(stone), [Drawn((DRAWN,), of_flow(FLOW))], Leakage(leakage), 0.5)
    return tuple(field.at(*np.array(HOLES).T).tolist()), field.pit_suction[0]


@pytest.mark.parametrize(("permeability", "leakage"), [(1e-8, 2e-6), (5e-8, 1e-5)])
def test_readings_without_noise_give_stone_and_leaks_back(permeability, leakage):
    holes, mouth = made(permeability, leakage)
    read = [Reading(x, y, suction) for (x, y), suction in zip(HOLES, holes, strict=True)]
    found = told(plan, DRAWN, FLOW, read, 0.1, 0.4, mouth)
    assert found.permeability == pytest.approx(permeability, rel=0.03)
    assert found.leakage == pytest.approx(leakage, rel=0.01)
    assert found.residual < 0.01


@pytest.mark.parametrize(
    "seed", [1, 2, 3, *(pytest.param(n, marks=pytest.mark.proof) for n in (*range(4, 31), *range(101, 131)))]
)
def test_readings_with_a_tenth_of_noise_give_them_back_within_a_factor_of_one_and_a_half(seed):
    holes, mouth = made(1e-8, 2e-6)
    noise = 1.0 + NOISE * np.random.default_rng(seed).standard_normal(len(HOLES) + 1)
    read = [Reading(x, y, suction * by) for (x, y), suction, by in zip(HOLES, holes, noise, strict=False)]
    found = told(plan, DRAWN, FLOW, read, 0.1, 0.4, mouth * noise[-1])
    assert 1.0 / WITHIN < found.permeability / 1e-8 < WITHIN
    assert 1.0 / WITHIN < found.leakage / 2e-6 < WITHIN
    assert 0.005 < found.residual < 0.25


@pytest.mark.parametrize(
    ("readings", "mouth", "words"),
    [
        ([Reading(5.0, 4.0, 20.0)], None, "two readings"),
        ([Reading(5.0, 4.0, 20.0), Reading(8.0, 3.0, -1.0)], None, "below nought"),
        ([Reading(3.3, 3.0, 5.0), Reading(11.5, 7.5, 5e5)], None, "no stone and no leak"),
    ],
)
def test_readings_that_tell_nothing_are_refused(readings, mouth, words):
    with pytest.raises(OutOfDomain, match=words):
        told(plan, DRAWN, FLOW, readings, 0.1, 0.4, mouth)
