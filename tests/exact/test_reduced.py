"""A family of sections reduced: its bound holds, its temperatures and slopes are those of the whole solve."""

from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest
import skfem
from skfem.helpers import dot, grad
from tests.families import FILMS, NINE, PACE, SEVEN, SIX, body, box, sized, stem_wall

from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, solve
from underpour.physics.reduced.family import Conducting, Filmed, Parameter, Varied, posed
from underpour.physics.reduced.reduced import cases_at_random, reduced
from underpour.physics.year import YEAR

SHOWN = range(101, 131)  # seeds that were not worked on
CORNER = {"corner": (0.0, 0.0)}


@pytest.fixture(scope="module")
def six():
    return reduced(stem_wall, SIX, FILMS, watched=CORNER, narrowed=1.0)


def shown(parameters, each):
    return np.concatenate([cases_at_random(parameters, each, seed) for seed in SHOWN])


def whole(family, case):
    return family.couplings(case, family.fields(case))


def test_the_bound_is_under_a_hundredth_of_the_heat_on_thirty_thousand_cases(six):
    told = six.told(shown(SIX.parameters, 1000))
    bound = told.bound[:, 0, 0]
    assert (bound / (told.couplings[:, 0, 0] - bound)).max() < 0.01


def test_the_error_stays_below_the_bound_which_is_at_most_twenty_times_it(six):
    cases = shown(SIX.parameters, 17)[:500]
    told = six.told(cases)
    errors = np.array([told.couplings[n, 0, 0] - whole(six.family, case)[0, 0] for n, case in enumerate(cases)])
    assert errors.min() > -1e-12, "the least energy in a span is never below the least of all"
    share = told.bound[:, 0, 0] / errors
    assert share.min() >= 1.0 and share.max() <= 20.0, (share.min(), np.median(share), share.max())


def test_a_case_solved_as_an_answer_is_lies_within_both_bounds(six):
    for case in cases_at_random(SIX.parameters, 3, 131):
        bodies, spaces, films = sized(case, SIX)
        anew = solve(bodies, spaces, films, {"room": Climate(1.0), "outdoors": Climate(0.0)})
        heat = anew.flow(lambda faces: faces.space == 0)
        told = six.told(case[None])
        assert abs(told.couplings[0, 0, 0] - heat.mean) <= six.within(told)[0, 0, 0] + heat.within


def test_a_layered_wall_is_told_as_its_resistances_add_up():
    def wall(t):
        layers = [body(box(0.0, t[0], 0.0, 1.0), 1.0, 2e6, 1), body(box(t[0], t[0] + t[1], 0.0, 1.0), 0.04, 3e4, 1)]
        return layers, [
            SimpleNamespace(where="room", outline=box(t[0] + t[1], t[0] + t[1] + 1.0, 0.0, 1.0)),
            SimpleNamespace(where="outdoors", outline=box(-1.0, 0.0, 0.0, 1.0)),
        ]

    varied = Varied(
        (Parameter("stone", 0.1, 0.5), Parameter("foam", 0.02, 0.2)),
        (Conducting(Parameter("k of stone", 0.8, 3.0), (0,)), Conducting(Parameter("k of foam", 0.02, 0.06), (1,))),
        (Filmed(Parameter("film", 4.0, 12.0), 0),),
    )
    made = reduced(wall, varied, [Films(0.1, 0.1, 0.1), Films(0.04, 0.04, 0.04)], wanted=1e-6)
    cases = shown(varied.parameters, 20)
    told = made.told(cases)
    stone, foam, of_stone, of_foam, film = cases.T
    exact = 1.0 / (stone / of_stone + foam / of_foam + 1.0 / film + 0.04)
    assert np.abs(told.couplings[:, 0, 0] / exact - 1.0).max() < 1e-6
    assert (np.abs(told.couplings[:, 0, 0] - exact) <= made.within(told)[:, 0, 0] + 1e-10).all()


def test_a_peer_that_is_no_code_of_ours_finds_the_same_heat(six):
    """scikit-fem, quadratic elements on a grid of its own through all corners."""
    case = np.array([0.06, 0.03, 1.2, 2.0, 7.0, 20.0])
    thick, foam, soil, concrete, inside, outside = case
    x, y = _through(-20.0, -0.25, -0.2, 0.0, 4.0), _through(-20.0, -0.8, -0.1 - thick, -0.1, -0.05, 0.0, 0.3)
    mesh = skfem.MeshQuad.init_tensor(x, y)
    cx, cy = mesh.p[:, mesh.t].mean(1)
    k = np.full(cx.shape, soil)
    k[(cx > 0.0) & (cy > -0.1)] = concrete
    k[(cx > 0.0) & (cy < -0.1) & (cy > -0.1 - thick)] = foam
    k[(cx > -0.25) & (cx < -0.2) & (cy > -0.8)] = 0.036
    k[(cx > -0.2) & (cx < 0.0) & (cy > -0.8)] = concrete
    air = ((cx > 0.0) & (cy > 0.0)) | ((cx < -0.25) & (cy > -0.05))
    kept = np.flatnonzero(~air)
    mesh = mesh.restrict(kept)
    basis = skfem.Basis(mesh, skfem.ElementQuad2())
    stiff = skfem.asm(
        skfem.BilinearForm(lambda u, v, w: w.k * dot(grad(u), grad(v))),
        basis,
        k=basis.with_element(skfem.ElementQuad0()).interpolate(k[kept]),
    )
    room = _facets(mesh, lambda x, y: ((abs(y) < 1e-9) & (x > 0.0)) | ((abs(x) < 1e-9) & (y > 0.0)))
    out = _facets(mesh, lambda x, y: ((abs(y + 0.05) < 1e-9) & (x < -0.25)) | ((abs(x + 0.25) < 1e-9) & (y > -0.05)))
    load = np.zeros(basis.N)
    for facets, film in ((room, inside), (out, outside)):
        side = skfem.FacetBasis(mesh, skfem.ElementQuad2(), facets=facets)
        stiff = stiff + film * skfem.asm(skfem.BilinearForm(lambda u, v, w: u * v), side)
        if facets is room:
            load = film * skfem.asm(skfem.LinearForm(lambda v, w: 1.0 * v), side)
    heat = load.sum() - load @ skfem.solve(stiff.tocsc(), load)
    told = six.told(case[None])
    assert abs(told.couplings[0, 0, 0] - heat) < six.within(told)[0, 0, 0] + 5e-4 * heat


def _through(*places):
    """Lines through all places, close to each."""
    way = (1.0 - np.cos(np.linspace(0.0, np.pi, 17))) / 2.0
    way = way**1.5 / (way**1.5 + (1.0 - way) ** 1.5)
    return np.unique(np.concatenate([start + (end - start) * way for start, end in pairwise(places)]).round(12))


def _facets(mesh, where):
    middle = mesh.p[:, mesh.facets].mean(1)
    return np.intersect1d(np.flatnonzero(where(*middle)), mesh.boundary_facets())


def test_a_psi_is_told_within_two_thousandths():
    """The bound of a heat by itself is that of a psi, heat less U times width; the grid's own error is in it."""
    tight = reduced(stem_wall, SIX, FILMS, narrowed=0.1, absolute=4e-4, trained=400, looked_at=2000, on_finer=3)
    told = tight.told(shown(SIX.parameters, 300))
    assert tight.within(told)[:, 0, 0].max() < 0.002


def test_the_corner_is_as_warm_as_the_whole_solve_says(six):
    cases = shown(SIX.parameters, 2)
    told = six.told(cases)
    warm, within = six.temperatures("corner", cases, told)
    unknown = six.family.watched["corner"]
    exact = np.array([six.family.fields(case)[unknown, 0] for case in cases])
    assert (np.abs(warm[:, 0] - exact) <= within[:, 0] - six.watched["corner"].grid).all()
    assert within.max() < 0.012, "0.25 K of 20"


def test_the_field_is_near_the_whole_solve_in_its_energy(six):
    case = cases_at_random(SIX.parameters, 1, 140)
    told = six.told(case)
    away = six.field(told, 0) - six.family.fields(case[0])
    energy = (away.T @ (six.family.matrix(case[0]) @ away)).item()
    assert 0.0 < energy <= told.bound[0, 0, 0]


def test_equations_moved_to_a_case_are_the_sums_of_the_family():
    """Each cell and face where it lies in that case, put together anew, beside matrices times their factors."""
    family, _ = posed(stem_wall, NINE, FILMS)
    case = cases_at_random(NINE.parameters, 1, 145)[0]
    moved, films = family.moved(case), 1.0 / np.array(case[-2:])
    resistance = films[moved.faces.space]
    apart = moved.conduction + moved.films(resistance) - family.matrix(case)
    assert abs(apart).max() < 1e-12 * abs(family.matrix(case)).max()
    assert moved.load(resistance, (moved.faces.space == 0).astype(float)) == pytest.approx(family.loads(case)[:, 0])
    assert np.isclose(moved.y, -0.1 - case[0]).any() and np.isclose(moved.x.max(), case[1])
    assert np.isclose(moved.faces.x[moved.faces.space == 1].max(), -0.2 - case[3])


def test_a_family_handed_on_tells_the_same_without_its_matrices(six):
    case = cases_at_random(SIX.parameters, 3, 146)
    on = six.handed_on()
    assert on.family.conduct.values.size == 0
    told, alike = six.told(case), on.told(case)
    assert np.array_equal(six.within(told), on.within(alike))
    assert np.array_equal(six.slopes(case, told), on.slopes(case, alike))
    assert np.array_equal(six.temperatures("corner", case, told)[0], on.temperatures("corner", case, alike)[0])
    assert np.array_equal(six.field(told, 1), on.field(alike, 1))


def test_slopes_are_those_of_differences_of_whole_solves(six):
    case = cases_at_random(SIX.parameters, 1, 150)
    slopes = six.slopes(case, six.told(case))[0, 0, 0]
    for n in range(len(SIX.parameters)):
        step = np.where(np.arange(6) == n, 1e-4 * case[0], 0.0)
        up, down = (whole(six.family, case[0] + sign * step)[0, 0] for sign in (1, -1))
        # The heat errs by the square of the field's error, its slope by the field's error at worst.
        assert abs(slopes[n] * step[n] * 2 - (up - down)) < 0.02 * abs(up - down)


def test_slopes_of_many_cases_are_the_slopes_of_the_told_heat(six):
    cases = shown(SIX.parameters, 1)
    slopes = six.slopes(cases, six.told(cases))[:, 0, 0]
    for n in range(6):
        step = 1e-5 * cases[:, n]
        shift = np.where(np.arange(6) == n, step[:, None], 0.0)
        up, down = (six.told(cases + sign * shift).couplings[:, 0, 0] for sign in (1, -1))
        assert np.abs(slopes[:, n] - (up - down) / (2 * step)).max() < 1e-5 * np.abs(slopes[:, n]).max()


@pytest.fixture(scope="module")
def seven():
    return reduced(stem_wall, SEVEN, FILMS, narrowed=1.0, trained=500, looked_at=3000, on_finer=3)


def test_swings_of_any_pace_between_the_ends_are_within_the_bound(seven):
    cases = shown(SEVEN.parameters, 1)
    told = seven.told(cases)
    assert (told.bound[:, 0, 0] / np.abs(told.couplings[:, 0, 0])).max() < 0.01
    for n, case in enumerate(cases):
        assert abs(told.couplings[n, 0, 0] - whole(seven.family, case)[0, 0]) <= told.bound[n, 0, 0]


def test_the_swing_of_a_year_is_that_of_the_whole_solve(seven):
    case = np.append(cases_at_random(SIX.parameters, 1, 160)[0], PACE.low)
    bodies, spaces, films = sized(case, SEVEN)
    anew = solve(bodies, spaces, films, {"room": Climate(0.0, 1.0 + 0j), "outdoors": Climate(0.0)})
    heat = anew.flow(lambda faces: faces.space == 0)
    told = seven.told(case[None])
    assert abs(told.couplings[0, 0, 0] - heat.swing) <= seven.within(told)[0, 0, 0] + heat.within
    assert pytest.approx(2 * np.pi / YEAR) == PACE.low


def test_nine_parameters_with_lengths_are_bounded_too():
    nine = reduced(stem_wall, NINE, FILMS, narrowed=1.0, trained=300, looked_at=1000, on_finer=0)
    cases = shown(NINE.parameters, 70)
    told = nine.told(cases)
    bound = told.bound[:, 0, 0]
    assert (bound / (told.couplings[:, 0, 0] - bound)).max() < 0.012
    for case, given in zip(cases[::200], told.couplings[::200, 0, 0], strict=True):
        assert 0.0 <= given - whole(nine.family, case)[0, 0] <= bound.max()


def test_a_bound_below_rounding_ends_in_what_was_reached():
    few = Varied((), SIX.conductivities[:1])
    made = reduced(stem_wall, few, FILMS, narrowed=1.0, wanted=1e-18, trained=50, looked_at=50, on_finer=0)
    assert 0.0 < made.grown.worst < 1e-9 and made.grown.fields < 20
