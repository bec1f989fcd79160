"""ISO 13370's swing of the year and its edge foam, from memory, against our own sections solved with their swing.

Two drawings. As the standard draws it: the wall has no width, its thickness lies as ground under all of the floor,
and outdoors holds the surface up to the floor's edge. As built: a wall 0.3 m wide between room and outdoors, which
passes no heat above the ground; films 0.17 and 0.04 m²·K/W. Ground reaches 20 m and more beyond the building. Asked:
phases within a month, coefficients within a tenth. Found, as what the formula lies above ours:

- Slab as drawn: outdoor part -4 to +1 %, its lag to 0.15 month; so 0.37 and 1.5 - 0.42 ln are well remembered. The
  room's part is exact for an endless floor and leaves out what goes around the edge: -13 to 0 %, most on bare rock.
- Slab as built: outdoor part 14 to 29 % high. From outdoors heat takes an arc, longer than the wall is thick.
- Edge foam as drawn: outdoor part 7 to 62 % high; upright foam delays the swing by up to 1.2 month more than the
  rounded lag. Steady, as built: level strips save 15 to 31 % more than told, upright foam 17 % less to 3 % more.
- Heated basement as built: outdoor part -13 to +12 %; the room's part -13 to -38 %, left out as at the slab.
- Unheated basement as built: outdoor part -27 to +37 %, the room's part -17 to +25 %.
- Rounded phases (lead 0, lag 1 month) hold to a month but for upright edge foam.

Where a tenth or a month is not met the difference is held as found, to a hundredth; no tolerance is widened for it.
"""

import cmath
from functools import cache
from math import pi

import pytest
from pytest import approx

from bodies import body, box, of_space, space
from underpour.physics import ground
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, solve

CLAY, SAND, ROCK = (1.5, 3.0e6), (2.0, 2.0e6), (3.5, 2.0e6)
WALL, FLOOR_FILM, OUTER_FILM, NO_HEAT = 0.3, 0.17, 0.04, 1e6
HALF = 4.0  # m, half of the floor's width
DRAWN_HALF = 6.0


def answers(bodies, spaces, films, steady=False):
    """Flow out of the room for one kelvin: of the room's swing and of outdoors', or all year. [W/(m·K)]"""

    def flow(room, outdoors, of):
        climates = {"room": Climate(*room), "outdoors": Climate(*outdoors)}
        return getattr(solve(bodies, spaces, films, climates, tolerance=0.003).flow(of_space(0)), of)

    if steady:
        return flow((1.0,), (0.0,), "mean")
    still = (0.0, 0.0)
    return flow((0.0, 1.0), still, "swing"), -flow(still, (0.0, 1.0), "swing")


def months(flow):
    """How long before its cause a flow is greatest. [month]"""
    return cmath.phase(flow) * 12.0 / (2.0 * pi)


def slab_films(floor, outer):
    return {"room": Films(floor, NO_HEAT, NO_HEAT), "outdoors": Films(outer, NO_HEAT, NO_HEAT)}


@cache
def drawn(soil, resistance, foam=None):
    """A slab as the standard draws it; foam: level or upright, its width or depth, its resistance."""
    thin, far, sheet = 0.0005, 25.0, 0.01
    bodies = [
        body(box(-far, DRAWN_HALF, -far, 0.0), soil[0], 2, soil[1]),
        body(box(-thin, 0.0, 0.0, 0.3), 1e-7, 1, 1e3),
    ]
    if foam:
        place = box(0.0, foam[1], -sheet, 0.0) if foam[0] == "level" else box(-sheet, 0.0, -foam[1], 0.0)
        bodies.append(body(place, sheet / foam[2], 1, 1e3))
    spaces = [space("room", box(0.0, DRAWN_HALF, 0.0, 0.3)), space("outdoors", box(-far, -thin, 0.0, 0.3))]
    return answers(bodies, spaces, slab_films(thickness(soil, resistance) / soil[0], 1e-6))


@cache
def built(soil, resistance, foam=None, steady=False):
    """A slab with a wall 0.3 m wide; foam of 0.035 W/(m·K) below the edge, or upright on the wall's outer face."""
    far = 100.0 if steady else 20.0
    bodies = [body(box(-far, HALF, -far, 0.0), soil[0], 2, soil[1]), body(box(-WALL, 0.0, 0.0, 0.3), 1e-5, 1, 1e3)]
    if foam:
        where, reach, thick = foam
        place = box(0.0, reach, -thick, 0.0) if where == "level" else box(-WALL, thick - WALL, -reach, 0.0)
        bodies.append(body(place, 0.035, 1, 1e4))
    spaces = [space("room", box(0.0, HALF, 0.0, 0.3)), space("outdoors", box(-far, -WALL, 0.0, 0.3))]
    return answers(bodies, spaces, slab_films(FLOOR_FILM + resistance, OUTER_FILM), steady)


@cache
def basement(soil, depth, floor, wall):
    """A basement 4.4 m wide; the wall's layers fill its 0.3 m, and above the ground it passes no heat."""
    half, far = 2.2, 20.0
    earth = ((-far, 0.0), (-WALL, 0.0), (-WALL, -depth), (half, -depth), (half, -far), (-far, -far))
    bodies = [
        body(earth, soil[0], 3, soil[1]),
        body(box(-WALL, 0.0, -depth, 0.0), WALL / wall, 1, 2e3),
        body(box(-WALL, 0.0, 0.0, 0.3), 1e-5, 1, 1e3),
    ]
    spaces = [space("room", box(0.0, half, -depth, 0.3)), space("outdoors", box(-far, -WALL, 0.0, 0.3))]
    films = {
        "room": Films(FLOOR_FILM + floor, 0.13, NO_HEAT),
        "outdoors": Films(OUTER_FILM, NO_HEAT, NO_HEAT),
    }
    return answers(bodies, spaces, films)


def thickness(soil, resistance):
    return ground.equivalent_thickness(WALL, soil[0], FLOOR_FILM + OUTER_FILM + resistance)


def told(soil, resistance, half):
    """Coefficients by metre of edge, lead and lag, by the standard's formulas."""
    thick, reach = thickness(soil, resistance), ground.penetration_depth(*soil)
    return (
        ground.floor_internal(half, thick, reach, soil[0]),
        ground.floor_external(1.0, thick, reach, soil[0]),
        ground.lead_before_room(thick, reach),
        ground.lag_behind_outdoors(thick, reach),
    )


def over(told, ours):
    """What the formula lies above ours, as a share of ours."""
    return told / abs(ours) - 1.0


SLABS = [(soil, r) for soil in (CLAY, SAND, ROCK) for r in (0.0, 1.0, 2.5)]


@pytest.mark.parametrize(("soil", "resistance"), SLABS)
def test_outdoors_swings_through_a_slab_as_the_standard_says_if_drawn_as_it_draws(soil, resistance):
    """Asked: a tenth and a month. Met to 5 % and 0.15 month."""
    _, external, _, lag = told(soil, resistance, DRAWN_HALF)
    ours = drawn(soil, resistance)[1]
    print(f"H_pe {over(external, ours):+.1%}, lag ours {-months(ours):.2f}, told {lag:.2f}")
    assert over(external, ours) == approx(0.0, abs=0.05)
    assert -months(ours) == approx(lag, abs=0.15)
    assert -months(ours) == approx(1.0, abs=1.0)


@pytest.mark.parametrize(
    ("soil", "resistance", "found"),
    [
        (CLAY, 0.0, -0.064),
        (CLAY, 2.5, -0.006),
        (SAND, 0.0, -0.105),
        (SAND, 2.5, -0.010),
        (ROCK, 0.0, -0.134),
        (ROCK, 1.0, -0.031),
    ],
)
def test_the_rooms_swing_through_a_slab_misses_what_goes_around_the_edge(soil, resistance, found):
    """Asked: a tenth and a month. A tenth is missed on bare sand and rock; the month is met."""
    internal, _, lead, _ = told(soil, resistance, DRAWN_HALF)
    ours = drawn(soil, resistance)[0]
    assert over(internal, ours) == approx(found, abs=0.01)
    assert months(ours) == approx(lead, abs=0.5)
    assert 0.0 < months(ours) < 1.0  # the rounded lead is 0


@pytest.mark.parametrize("resistance", [0.0, 0.5, 2.5, 10.0])
@pytest.mark.parametrize("soil", [CLAY, SAND, ROCK])
def test_the_rooms_swing_is_exact_for_an_endless_floor(soil, resistance):
    """Two ways: the standard's coefficient and lead, and a film on a half-space."""
    internal, _, lead, _ = told(soil, resistance, 1.0)
    year = pi * soil[1] * ground.penetration_depth(*soil) ** 2 / soil[0]
    exact = ground.admittance([], *soil, thickness(soil, resistance) / soil[0], year)
    assert abs(exact) == approx(internal, rel=1e-12)
    assert months(exact) == approx(lead, abs=1e-12)


@pytest.mark.parametrize(
    ("soil", "resistance", "found"),
    [(CLAY, 0.0, 0.194), (CLAY, 2.5, 0.283), (SAND, 0.0, 0.170), (SAND, 1.0, 0.164), (ROCK, 0.5, 0.145)],
)
def test_a_wall_as_built_keeps_more_of_outdoors_away_than_told(soil, resistance, found):
    """Asked: a tenth and a month. The tenth is missed, on the safe side; the month is met."""
    _, external, _, lag = told(soil, resistance, HALF)
    ours = built(soil, resistance)[1]
    assert over(external, ours) == approx(found, abs=0.01)
    assert -months(ours) == approx(lag, abs=0.5)
    assert -months(ours) == approx(1.0, abs=1.0)


EDGES = [  # foam: where, width or depth, resistance; what the coefficient lies above ours; lag of ours
    (CLAY, 0.0, ("level", 0.5, 1.4), 0.259, 1.08),
    (CLAY, 0.5, ("level", 1.5, 2.8), 0.319, 1.62),
    (SAND, 1.0, ("level", 0.5, 1.5), 0.074, 1.25),
    (CLAY, 0.0, ("upright", 0.5, 1.4), 0.414, 1.32),
    (CLAY, 0.5, ("upright", 1.5, 2.8), 0.622, 2.18),
    (SAND, 1.0, ("upright", 0.5, 1.5), 0.236, 1.52),
]


@pytest.mark.parametrize(("soil", "resistance", "foam", "found", "lag"), EDGES)
def test_edge_foam_keeps_more_of_outdoors_away_than_told_and_delays_it(soil, resistance, foam, found, lag):
    """Asked: a tenth and a month. Both are missed for upright foam, on the safe side; as the standard draws it."""
    where, reach, foam_resistance = foam
    external = {"level": ground.horizontal_edge_external, "upright": ground.vertical_edge_external}[where](
        1.0, thickness(soil, resistance), foam_resistance * soil[0], reach, ground.penetration_depth(*soil), soil[0]
    )
    ours = drawn(soil, resistance, foam)[1]
    assert over(external, ours) == approx(found, abs=0.01)
    assert -months(ours) == approx(lag, abs=0.02)


@pytest.mark.parametrize(
    ("resistance", "foam", "found"),
    [
        (0.0, ("level", 0.5, 0.06), -0.17),
        (0.0, ("level", 1.5, 0.06), -0.15),
        (0.5, ("level", 1.0, 0.06), -0.29),
        (0.0, ("upright", 0.5, 0.06), 0.17),
        (0.0, ("upright", 1.5, 0.06), 0.06),
        (0.5, ("upright", 1.0, 0.06), -0.03),
    ],
)
def test_edge_foam_as_built_saves_another_share_than_told(resistance, foam, found):
    """Steady, on clay. The formula gives the cells of the printed table C2, so it is remembered as it is."""
    where, reach, thick = foam
    told = {"level": ground.horizontal_edge_transmittance, "upright": ground.vertical_edge_transmittance}[where](
        reach, thickness(CLAY, resistance), ground.added_thickness(thick / 0.035, thick, CLAY[0]), CLAY[0]
    )
    ours = built(CLAY, resistance, foam, steady=True) - built(CLAY, resistance, steady=True)
    assert told / ours - 1.0 == approx(found, abs=0.01)


def test_a_bare_slab_as_built_loses_what_the_standard_says():
    """Steady, 8 m wide, clay: U by the formula lies 3 % below ours."""
    told = ground.floor_transmittance(2.0 * HALF, thickness(CLAY, 0.0), CLAY[0])
    assert over(told, built(CLAY, 0.0, steady=True) / HALF) == approx(-0.033, abs=0.005)


BASEMENTS = [  # soil, depth, resistance of floor and wall; what the room's and the outdoor part lie above ours
    (CLAY, 0.6, 1.0, 2.0, -0.196, 0.121),
    (CLAY, 2.4, 0.0, 0.3, -0.268, -0.132),
    (CLAY, 2.4, 2.5, 3.5, -0.133, -0.028),
    (SAND, 0.6, 0.0, 0.3, -0.374, -0.014),
    (SAND, 1.5, 1.0, 2.0, -0.189, 0.060),
]


@pytest.mark.parametrize(("soil", "depth", "floor", "wall", "internal", "external"), BASEMENTS)
def test_a_heated_basement_swings_with_outdoors_nearly_as_told(soil, depth, floor, wall, internal, external):
    """Asked: a tenth and a month. The outdoor part misses the tenth a little, the room's by far; the month is met."""
    room, outdoors = basement(soil, depth, floor, wall)
    thick, reach = thickness(soil, floor), ground.penetration_depth(*soil)
    wall_thick = ground.equivalent_thickness(0.0, soil[0], 0.13 + OUTER_FILM + wall)
    by_room = ground.heated_basement_internal(2.2, depth, 1.0, thick, wall_thick, reach, soil[0])
    by_outdoors = ground.heated_basement_external(1.0, depth, thick, wall_thick, reach, soil[0])
    assert over(by_room, room) == approx(internal, abs=0.01)
    assert over(by_outdoors, outdoors) == approx(external, abs=0.01)
    assert months(room) == approx(0.0, abs=1.0)
    assert -months(outdoors) == approx(1.0, abs=1.0)
    assert -months(outdoors) == approx(ground.lag_behind_outdoors(thick, reach), abs=0.35)


UNHEATED = [  # as above
    (CLAY, 0.6, 1.0, 2.0, 0.093, 0.034),
    (CLAY, 2.4, 0.0, 0.3, -0.085, 0.178),
    (CLAY, 2.4, 2.5, 3.5, 0.251, -0.266),
    (SAND, 0.6, 0.0, 0.3, -0.170, 0.370),
]


@pytest.mark.parametrize(("soil", "depth", "floor", "wall", "internal", "external"), UNHEATED)
def test_an_unheated_basement_swings_roughly_as_told(soil, depth, floor, wall, internal, external):
    """Its air balances heat: from the rooms (0.8 W/(m²·K)), through 0.3 W/(m·K) of wall, by air (0.3 changes an hour).

    Asked: a tenth and a month. The tenth is missed, the month is met. The formula takes conductivity over penetration
    for the ground's storage, with no foam and no phase.
    """
    through_room, through_outdoors = basement(soil, depth, floor, wall)
    air, walls = 0.3 / 3600.0 * 2.2 * (depth + 0.3), 0.3
    above, out = 2.2 * 0.8, walls + 0.33 * 3600.0 * air
    all_ways = above + through_room + out
    room, outdoors = above * (1.0 - above / all_ways), above * (through_outdoors + out) / all_ways
    reach = ground.penetration_depth(*soil)
    by_room = ground.unheated_basement_internal(2.2, 0.8, depth, 1.0, walls, air, reach, soil[0])
    by_outdoors = ground.unheated_basement_external(
        2.2, 0.8, depth, 1.0, thickness(soil, floor), walls, air, reach, soil[0]
    )
    assert over(by_room, room) == approx(internal, abs=0.01)
    assert over(by_outdoors, outdoors) == approx(external, abs=0.01)
    assert months(room) == approx(0.0, abs=1.0)
    assert -months(outdoors) == approx(1.0, abs=1.0)
