"""Vapour through layers and concrete that dries, each held to a second way.

The pressures are what a steady balance by relaxation of small cells gives, with water wherever saturation is reached;
drying with a diffusivity that stays as it is has Fourier's series (Crank, The Mathematics of Diffusion, 4.3).
"""

import numpy as np
import pytest
from scipy.optimize import lsq_linear

from underpour.physics.domain import OutOfDomain
from underpour.physics.ground.warm_spell import warm_spell
from underpour.physics.moisture.drying import diffusivity, drying_time, share_left
from underpour.physics.moisture.vapour import DAYS, PERMEABILITY_OF_AIR, WetYear, flow, wet_year


def by_energy(air, saturated, room, beyond):
    """Pressures with the least energy of flow below saturation: bounded least squares of a general library."""
    weights = np.sqrt(PERMEABILITY_OF_AIR / np.diff(air))
    steps = weights[:, None] * (np.eye(len(air))[1:] - np.eye(len(air))[:-1])
    known = steps[:, 0] * room + steps[:, -1] * beyond
    inner = lsq_linear(steps[:, 1:-1], -known, (-np.inf, saturated[1:-1]), tol=1e-15).x
    return np.concatenate([[room], inner, [beyond]])


@pytest.mark.parametrize("seed", range(1, 31))
def test_pressures_are_those_of_the_least_energy_below_saturation(seed):
    random = np.random.default_rng(seed)
    air = np.concatenate([[0.0], np.cumsum(random.uniform(0.1, 5.0, 6))])
    saturated = random.uniform(600.0, 2500.0, 7)
    room, beyond = min(1500.0, saturated[0]), min(900.0, saturated[-1])
    found = flow(air, saturated, room, beyond)
    assert found.pressures == pytest.approx(by_energy(air, saturated, room, beyond), rel=1e-6)
    rates = PERMEABILITY_OF_AIR * -np.diff(found.pressures) / np.diff(air)
    assert found.gained[1:-1] == pytest.approx(rates[:-1] - rates[1:], abs=1e-16)
    assert found.into == pytest.approx(rates[0])


def yearly(cold=-3.0):
    """Warm and moist inside all year; beyond a plane that is cold in winter."""
    months = np.arange(12)
    swing = np.cos(2.0 * np.pi * (months - 0.5) / 12.0)
    plane = 1100.0 + cold * 60.0 * swing
    return np.stack([np.full(12, 2300.0), plane, plane * 1.02], axis=1), [1200.0] * 12, list(700.0 - 250.0 * swing)


def test_what_a_year_gains_and_loses_is_what_flows_in_and_out():
    saturated, room, beyond = yearly()
    year = wet_year((0.0, 2.0, 6.0), saturated, room, beyond)
    assert year.each_year == 0.0
    assert year.most > 0.02
    assert year.gained.sum() == pytest.approx(0.0, abs=1e-8)
    assert year.water[(year.first - 1) % 12] == pytest.approx(0.0, abs=1e-9)
    assert (year.water >= 0.0).all()


def test_an_hourly_march_finds_the_same_water():
    saturated, room, beyond = yearly()
    year = wet_year((0.0, 2.0, 6.0), saturated, room, beyond)
    water, ends = 0.0, np.zeros(12)
    for m in [(year.first + n) % 12 for n in range(12)]:
        for _ in range(DAYS[m] * 24):
            plane = saturated[m, 1]
            gained = PERMEABILITY_OF_AIR * ((room[m] - plane) / 2.0 - (plane - beyond[m]) / 4.0)
            water = max(0.0, water + gained * 3600.0)
        ends[m] = water
    assert year.water[:, 1] == pytest.approx(ends, abs=2e-3 * ends.max())


def test_water_between_two_tight_layers_stays():
    saturated, room, beyond = yearly()
    year = wet_year((0.0, 2.0, 600.0), np.minimum(saturated, 1190.0), room, beyond)
    assert isinstance(year, WetYear)
    assert year.each_year > 0.1


def test_a_dry_year_tells_what_passes_through():
    year = wet_year((0.0, 10.0), np.full((12, 2), 5000.0), [1000.0] * 12, [500.0] * 12)
    assert year.most == 0.0
    assert year.into.sum() == pytest.approx(PERMEABILITY_OF_AIR * 50.0 * 365 * 86400)


def crank(at, tau, room):
    n = np.arange(60)
    odd = 2 * n + 1
    each = 4.0 / (np.pi * odd) * np.sin(odd * np.pi * at / 2.0) * np.exp(-((odd * np.pi / 2.0) ** 2) * tau)
    return room + (1.0 - room) * each.sum()


@pytest.mark.parametrize("limit", [0.7, 0.8, 0.9])
def test_a_diffusivity_that_stays_has_fourier_s_series(limit):
    tau = drying_time(1.0, 1.0, 0.5, limit, dry_share=1.0)
    assert crank(0.4, tau, 0.5) == pytest.approx(limit, abs=2e-4)


def test_pores_that_close_as_they_dry_take_longer():
    assert drying_time(0.1, 4e-10, 0.5, 0.75) > 2.0 * drying_time(0.1, 4e-10, 0.5, 0.75, dry_share=1.0)


def test_what_cannot_be_meant_is_refused():
    for wrong in [(0.1, 4e-10, 0.8, 0.8), (0.0, 4e-10, 0.5, 0.8), (0.1, 4e-10, 0.5, 1.0)]:
        with pytest.raises(OutOfDomain):
            drying_time(*wrong)
    with pytest.raises(OutOfDomain):
        drying_time(0.1, 4e-10, 0.5, 0.8, depth=0.0)
    with pytest.raises(OutOfDomain):
        share_left(1.2)
    with pytest.raises(OutOfDomain):
        diffusivity(0.0)
    with pytest.raises(OutOfDomain):
        flow((0.0, 0.0), (1.0, 1.0), 1.0, 1.0)
    with pytest.raises(OutOfDomain):
        wet_year((0.0, 1.0), np.ones((11, 2)), [1.0] * 12, [1.0] * 12)


def test_a_warm_summer_reaches_down_as_a_march_through_endless_ground_finds():
    """Explicit march on 200 equal cells of 0.1 m below a resistance, two settled years of a wave over the floor."""
    months = (np.arange(12) + 0.5) / 12.0
    wave = np.cos(2.0 * np.pi * (months - 0.55))
    found = warm_spell(tuple(wave), 0.2, (0.0, 1.5), 2.0, 2.0e6)[:, 1]
    year, cells, wide = 365.2425 * 86400.0, 200, 0.1
    steps = 20_000
    span, ground, surface = year / steps, np.zeros(cells), np.zeros(steps)
    for n in range(3 * steps):
        air = np.cos(2.0 * np.pi * (n % steps / steps - 0.55))
        into = (air - ground[0]) / (0.2 + 1.5 + wide / 4.0)
        flows = np.concatenate([[into], 2.0 * -np.diff(ground) / wide, [0.0]])
        surface[n % steps] = air - into * 1.7
        ground = ground + span / (2.0e6 * wide) * -np.diff(flows)
    assert found == pytest.approx([surface[int(each * steps)] for each in months], abs=0.02)


def test_laps_without_tape_let_through_what_their_row_says():
    """A millimetre of air along 150 mm of lap, 0.35 m of seam: the catalogue's row is this, to its two digits."""
    from underpour import catalogue
    from underpour.physics.moisture.vapour import permeance_of_laps

    row = catalogue.seams()["lapped"].permeance
    assert row.value == pytest.approx(1e12 * permeance_of_laps(0.001, 0.15, 0.35), abs=0.005)
    for gap, end in ((0.0002, row.low), (0.003, row.high)):
        assert end == pytest.approx(1e12 * permeance_of_laps(gap, 0.15, 0.35), abs=0.01)
