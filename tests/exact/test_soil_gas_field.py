"""Suction under a slab against closed forms, a 1D boundary-value solution, symmetry and finer cells."""

from functools import cache

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.integrate import solve_bvp

from underpour.physics.domain import OutOfDomain
from underpour.physics.soil_gas.cells import Pit
from underpour.physics.soil_gas.closed import leaky_flow, leaky_suction, radial_fall, reach
from underpour.physics.soil_gas.fan import fan_curve, of_flow
from underpour.physics.soil_gas.field import Drawn, Leakage, suction_field
from underpour.physics.soil_gas.hydraulics import Hydraulics, ergun, inertia_of, layer
from underpour.physics.soil_gas.pipe import Pipe, loss_curve
from underpour.physics.soil_gas.plan import Part, Plan, footing, sleeve
from underpour.physics.soil_gas.soil import inflow

PIT, RIM = 0.15, 8.0
ROUND = [(RIM * np.cos(t), RIM * np.sin(t)) for t in np.linspace(0.0, 2.0 * np.pi, 193)[:-1]]
AWAY = np.array([0.45, 0.6, 1.0, 3.0, 6.0, 7.9])  # m from the pit, from three radii on
OPEN_STONE = layer(*ergun(0.019, 0.4), 0.1)
ELL = [(0.0, 0.0), (18.0, 0.0), (18.0, 8.0), (8.0, 8.0), (8.0, 15.0), (0.0, 15.0)]  # 200 m²


def held_at(suction):
    return lambda flow: (suction, 0.0)


def both_ways(field):
    """Suction along a line of the cells and askew to them."""
    return field.at(AWAY, 0.0 * AWAY), field.at(AWAY * np.cos(0.7), AWAY * np.sin(0.7))


@pytest.mark.parametrize("leakage", [2e-7, 2e-6, 2e-5])
def test_slow_flow_in_a_leaky_round_layer_is_that_of_bessel_s_functions(leakage):
    stone = layer(2e-8, 0.0, 0.1)
    field = suction_field(Plan(ROUND, stone), [Drawn((Pit(0.0, 0.0, PIT),), held_at(250.0))], Leakage(leakage))
    for found in both_ways(field):
        assert_allclose(found, leaky_suction(AWAY, 250.0, PIT, reach(stone, leakage), RIM), rtol=0.01)
    assert field.flow == pytest.approx(leaky_flow(250.0, PIT, stone, leakage, RIM), rel=0.02)
    assert field.pit_suction[0] == pytest.approx(250.0, rel=1e-9)


@pytest.mark.parametrize("flow", [0.003, 0.02359737, 0.1])
def test_fast_flow_to_a_pit_without_leaks_is_the_closed_form(flow):
    """Only the ground beyond 6 m leaks, so all of the flow passes every ring within."""
    far = Leakage(ground=lambda x, y: np.where(np.hypot(x, y) > 6.0, 1e-5, 0.0))
    field = suction_field(Plan(ROUND, OPEN_STONE), [Drawn((Pit(0.0, 0.0, PIT),), of_flow(flow))], far)
    away = np.array([0.45, 0.6, 1.0, 2.0, 3.0])
    at_five = field.at(5.0, 0.0)
    for turn in (0.0, 0.7):
        found = field.at(away * np.cos(turn), away * np.sin(turn)) - at_five
        assert_allclose(found, radial_fall(flow, OPEN_STONE, away, 5.0), rtol=0.01)
    assert field.pit_suction[0] - at_five == pytest.approx(radial_fall(flow, OPEN_STONE, PIT, 5.0), rel=0.01)
    assert field.ground_flow == pytest.approx(flow, rel=1e-8)


@pytest.mark.parametrize("law", [Hydraulics(1000.0, 0.0), Hydraulics(100.0, 1e5)], ids=["slow", "fast"])
def test_a_square_of_cells_and_the_last_stretch_make_the_round_pit(law):
    """Wide cells of half a metre; the closed form from the pit to a ring three radii off."""
    far = Leakage(ground=lambda x, y: np.where(np.hypot(x, y) > 6.0, 1e-5, 0.0))
    field = suction_field(Plan(ROUND, law), [Drawn((Pit(0.0, 0.0, 0.3),), of_flow(0.02))], far)
    rings = [field.at(0.9 * np.cos(turn), 0.9 * np.sin(turn))[0] for turn in np.linspace(0.0, 2.0 * np.pi, 24)]
    fall = radial_fall(0.02, law, 0.3, 0.9)
    assert field.pit_suction[0] - np.mean(rings) == pytest.approx(fall, rel=0.005)


def test_a_pipe_through_a_footing_lets_through_what_poiseuille_says_and_its_ends_take_heads_of_speed():
    bore, long, fall = 0.1, 0.5, 2.0
    slow = sleeve(bore, long, friction=0.0, entry=0.0, density=1.2, viscosity=1.8e-5)
    assert slow.flow(fall / long) * bore == pytest.approx(np.pi * bore**4 * fall / (128.0 * 1.8e-5 * long), rel=1e-9)
    fast = sleeve(bore, long, friction=0.02, entry=1.5, density=1.2, viscosity=1e-12)
    speed = np.sqrt(2.0 * fall / 1.2 / (1.5 + 0.02 * long / bore))
    assert fast.flow(fall / long) * bore == pytest.approx(speed * np.pi * bore**2 / 4.0, rel=1e-4)


def one_dimensional(stone, leakage, flow):
    """Suction over the logarithm of the distance, and what flows by each ring over 2π, by scipy's collocation."""

    def slopes(log, state):
        away = np.exp(log)
        width = state[1] / away
        fall = stone.viscous * width + stone.inertial * width * np.abs(width)
        return np.vstack([-away * fall, -leakage * state[0] * away**2])

    def ends(pit, rim):
        return np.array([pit[1] + leakage * pit[0] * PIT**2 / 2.0 - flow / (2.0 * np.pi), rim[1]])

    log = np.linspace(np.log(PIT), np.log(RIM), 200)
    even = flow / (leakage * np.pi * RIM**2)
    guess = np.vstack([even + 0.0 * log, flow / (2.0 * np.pi) * (1.0 - np.exp(2.0 * log) / RIM**2)])
    return solve_bvp(slopes, ends, log, guess, tol=1e-8, max_nodes=20000).sol


@pytest.mark.parametrize(
    ("permeability", "leakage", "flow"),
    [(4.28e-7, 2e-6, 0.03), (4.28e-7, 1e-5, 0.06), (1e-7, 2e-6, 0.03), (2e-8, 1e-6, 0.02)],
)
def test_fast_flow_with_leaks_is_that_of_a_boundary_value_solution(permeability, leakage, flow):
    stone = layer(permeability, inertia_of(permeability, 0.4), 0.1)
    known = one_dimensional(stone, leakage, flow)
    field = suction_field(Plan(ROUND, stone), [Drawn((Pit(0.0, 0.0, PIT),), of_flow(flow))], Leakage(leakage))
    for found in both_ways(field):
        assert_allclose(found, known(np.log(AWAY))[0], rtol=0.01)
    assert field.pit_suction[0] == pytest.approx(known(np.log(PIT))[0], rel=0.01)
    assert field.flow == pytest.approx(flow, rel=1e-8)


@cache
def ell(widest, opening=0.3, pits=((4.0, 10.0), (6.0, 4.0))):
    """200 m² with a footing across the foot of one leg, two fans, a room 3 Pa below outdoors."""
    stone = layer(4e-8, inertia_of(4e-8, 0.4), 0.1)
    strip = footing([(8.0, 0.0), (8.0, 8.0)], 0.4, [(2.0, opening), (6.0, opening)] if opening else [])
    plan = Plan(ELL, stone, footings=strip.solid, parts=tuple(Part(each, stone) for each in strip.openings))
    fan = fan_curve([0.0, 0.03, 0.06], [250.0, 150.0, 0.0])
    drawn = [Drawn((Pit(x, y, PIT),), fan) for x, y in pits]
    return suction_field(plan, drawn, Leakage(2e-6, slab=2e-6, edge=2e-5, room=3.0), widest)


def test_an_l_shaped_plan_is_found_in_eight_turns_and_loses_no_air():
    field = ell(0.5)
    assert field.turns <= 8
    assert abs(field.unbalanced) <= 1e-8 * field.flow
    assert field.ground_flow > 0.0 and field.room_flow > 0.0


def test_halving_the_cells_moves_the_weakest_corner_by_less_than_two_per_cent():
    coarse, fine, finer = (ell(widest) for widest in (0.5, 0.25, 0.125))
    assert coarse.weakest[2] == pytest.approx(fine.weakest[2], rel=0.02)
    assert fine.weakest[2] == pytest.approx(finer.weakest[2], rel=0.02)
    for field in (coarse, fine, finer):  # the far end of the leg behind the footing
        assert field.weakest[0] == pytest.approx(18.0, abs=0.6)


def test_a_footing_without_crossings_shuts_the_far_leg_off_and_a_pit_there_mends_it():
    shut, open_again, mended = ell(0.5, opening=0.0), ell(0.5), ell(0.5, opening=0.0, pits=((4.0, 10.0), (13.0, 4.0)))
    assert shut.weakest[0] > 8.1 and shut.weakest[2] < 0.0 < open_again.weakest[2] < mended.weakest[2]
    beyond = np.array([[10.0, 1.0], [17.0, 7.0]])  # behind the footing only ground and room are felt
    assert (shut.at(*beyond.T) < 3.0).all()


def test_a_plan_turned_by_thirty_degrees_has_the_same_suction():
    """Sides and footing then run askew through the cells."""
    stone = layer(4e-8, inertia_of(4e-8, 0.4), 0.1)
    turn = np.array([[np.cos(np.pi / 6), -np.sin(np.pi / 6)], [np.sin(np.pi / 6), np.cos(np.pi / 6)]])

    def field(by):
        at = lambda places: [tuple(by @ np.array(place)) for place in places]  # noqa: E731
        strip = footing(at([(5.0, 0.0), (5.0, 4.0)]), 0.4, [])
        plan = Plan(at([(0, 0), (10, 0), (10, 6), (0, 6)]), stone, footings=strip.solid)
        pit = at([(2.5, 2.5)])[0]
        return suction_field(plan, [Drawn((Pit(*pit, PIT),), of_flow(0.02))], Leakage(2e-6), 0.25)

    straight, turned = field(np.eye(2)), field(turn)
    places = np.array([[0.1, 0.1], [4.0, 5.0], [6.0, 1.0], [9.8, 0.3], [9.9, 5.9]])
    assert_allclose(turned.at(*(turn @ places.T)), straight.at(*places.T), rtol=0.01)
    assert turned.pit_suction[0] == pytest.approx(straight.pit_suction[0], rel=0.01)


def test_two_pits_on_one_pipe_share_it_and_the_longer_branch_draws_less():
    plan = Plan([(0, 0), (12, 0), (12, 6), (0, 6)], OPEN_STONE)
    pits = (Pit(3.0, 3.0, PIT), Pit(9.0, 3.0, PIT))
    fan = fan_curve([0.0, 0.05, 0.1], [300.0, 200.0, 0.0])
    alike, uneven = (
        (loss_curve(Pipe(0.1, 6.0)), loss_curve(Pipe(0.1, 6.0))),
        (
            loss_curve(Pipe(0.1, 2.0)),
            loss_curve(Pipe(0.1, 30.0)),
        ),
    )
    even = suction_field(plan, [Drawn(pits, fan, alike)], Leakage(5e-6))
    odd = suction_field(plan, [Drawn(pits, fan, uneven)], Leakage(5e-6))
    assert even.pit_flow[0] == pytest.approx(even.pit_flow[1], rel=1e-6)
    assert odd.pit_flow[0] > 1.05 * odd.pit_flow[1]
    for field, branches in ((even, alike), (odd, uneven)):
        for suction, flow, branch in zip(field.pit_suction, field.pit_flow, branches, strict=True):
            assert suction + branch(flow)[0] == pytest.approx(fan(field.flow)[0], rel=1e-7)


def test_a_room_that_is_below_outdoors_takes_its_share_off_the_net_suction():
    plan, pit = Plan([(0, 0), (6, 0), (6, 6), (0, 6)], OPEN_STONE), Pit(3.0, 3.0, PIT)
    still, drawn = (
        suction_field(plan, [Drawn((pit,), held_at(20.0))], Leakage(2e-6, slab=1e-6, room=room)) for room in (0.0, 8.0)
    )
    assert drawn.weakest[2] == pytest.approx(still.weakest[2] - 8.0, abs=0.2)
    assert drawn.room_flow == pytest.approx(1e-6 * 36.0 * 12.0, rel=0.05)


def test_ground_lets_in_what_the_half_space_outside_a_plan_of_one_suction_gives():
    """Rays from places of an L-shaped plan, summed where they are outside it: 1/(2π) of the integral of 1/r³."""
    ring = [(0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 5.0), (0.0, 5.0)]
    sides = list(zip(np.array(ring), np.roll(ring, -1, axis=0), strict=True))
    for place in ((1.0, 1.0), (5.0, 1.0), (1.0, 4.0), (0.3, 0.2)):
        angles = (np.arange(20000) + 0.5) * 2.0 * np.pi / 20000
        ux, uy = np.cos(angles), np.sin(angles)
        summed = np.zeros_like(angles)
        for a, b in sides:  # each way out counts 1/R, each way in again takes 1/R off
            (ex, ey), (dx, dy) = b - a, a - np.array(place)
            cross = ux * ey - uy * ex
            with np.errstate(divide="ignore"):
                along, share = (dx * ey - dy * ex) / cross, (dx * uy - dy * ux) / cross
            hit = (along > 0.0) & (share >= 0.0) & (share < 1.0)
            summed[hit] += np.sign(cross[hit]) / along[hit]
        known = summed.mean()
        found = inflow(np.array([place[0]]), np.array([place[1]]), [ring], 1.0, 0.0, viscosity=1.0)
        assert found[0] == pytest.approx(known, rel=1e-3)


def test_a_footing_s_depth_holds_air_off_the_edge_and_hardly_off_the_middle():
    ring = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    x, y = np.array([0.05, 5.0]), np.array([5.0, 5.0])
    shallow, deep = (inflow(x, y, [ring], 1e-11, depth) for depth in (0.1, 1.0))
    assert deep[0] < 0.3 * shallow[0] and deep[1] > 0.95 * shallow[1]


@pytest.mark.parametrize(
    ("pits", "leakage", "told"),
    [
        ([], 1e-6, "no pit"),
        ([(-1.0, 1.0)], 1e-6, "inside the plan"),
        ([(2.9, 1.0)], 1e-6, "footing"),
        ([(1.0, 1.0), (1.2, 1.0)], 1e-6, "too close"),
        ([(1.0, 1.0)], 0.0, "sealed"),
        ([(1.0, 1.0)], -1e-6, "below zero"),
    ],
)
def test_what_cannot_be_drawn_from_is_refused(pits, leakage, told):
    strip = footing([(3.0, 0.0), (3.0, 4.0)], 0.4)
    plan = Plan([(0, 0), (6, 0), (6, 4), (0, 4)], Hydraulics(1000.0, 0.0), footings=strip.solid)
    drawn = [Drawn((Pit(*at, PIT),), held_at(50.0)) for at in pits]
    with pytest.raises(OutOfDomain, match=told):
        suction_field(plan, drawn, Leakage(leakage))


def test_a_fan_curve_that_rises_is_refused():
    with pytest.raises(OutOfDomain, match="must not rise"):
        fan_curve([0.0, 0.02, 0.04], [200.0, 240.0, 50.0])
