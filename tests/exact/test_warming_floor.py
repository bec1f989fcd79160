"""A floor that warms: held to balances, to its own rest, and to another library's elements stepped otherwise."""

import numpy as np
import pytest
import skfem
from scipy.sparse.linalg import splu
from skfem.helpers import dot, grad

from underpour.physics.domain import OutOfDomain
from underpour.physics.warm_floor.cell import Layer, Tube, cell
from underpour.physics.warm_floor.warming import after_rest, warm_up, without_losses

SLAB = (Layer(0.15, 2.0, 2.2e6), Layer(0.05, 0.035, 4e4), Layer(1.0, 1.5, 2.0e6))
TUBE = Tube(0.016, 0.075, 0.2, 0.1)


def test_a_slab_that_loses_nothing_warms_as_its_heat_says():
    """150 mm of 2.2 MJ/(m³·K) by 30 °F is 5.5 MJ/m², 22 h at 70 W/m²."""
    assert pytest.approx(5.5e6) == 0.150 * 2.2e6 * 30.0 / 1.8
    by_hand = without_losses(0.150, 2.2e6, 30.0 / 1.8, 70.0)
    assert by_hand == pytest.approx(22.0, abs=0.25)
    shut = warm_up(
        (Layer(0.15, 2.0, 2.2e6),),
        TUBE,
        1e6,
        1e6,
        start=0.0,
        room=0.0,
        ground=0.0,
        power=70.0,
        warmest=200.0,
        hours=24.0,
    )
    # the middle of the slab runs ahead of its surface by what the tube's hole does not store and heat takes to get up
    assert shut.reached(30.0 / 1.8) == pytest.approx(by_hand, rel=0.03)


def test_in_the_end_the_floor_stands_as_the_steady_cell_says():
    films = 0.1, 0.5
    made = warm_up(SLAB[:2], TUBE, *films, start=5.0, room=20.0, ground=8.0, power=300.0, warmest=38.0, hours=240.0)
    still = cell(SLAB[:2], TUBE, *films)
    assert made.water[-1] == 38.0
    assert made.up[-1] == pytest.approx(still.up(38.0, 20.0, 8.0), rel=1e-3)
    assert made.down[-1] == pytest.approx(still.down(38.0, 20.0, 8.0), rel=3e-3)
    assert made.floor[-1] == pytest.approx(still.floor(38.0, 20.0, 8.0)[0], abs=0.02)


def test_heat_is_held_first_and_the_water_s_warmth_then():
    made = warm_up(SLAB, TUBE, 0.1, 0.5, start=5.0, room=20.0, ground=8.0, power=120.0, warmest=36.0, hours=72.0)
    capped = made.water == 36.0
    assert capped.any() and not capped[0]
    assert made.given[~capped] == pytest.approx(120.0, rel=1e-9)
    assert (made.given[capped] < 120.0 + 1e-6).all()
    assert (np.diff(made.floor[1:]) > 0.0).all()


def test_half_the_step_changes_nothing_that_is_told():
    asked = {"start": 10.0, "room": 20.0, "ground": 10.0, "power": 80.0, "warmest": 45.0, "hours": 48.0}
    coarse, fine = (warm_up(SLAB, TUBE, 0.1, 0.5, **asked, step=step).reached(23.0) for step in (900.0, 450.0))
    assert coarse == pytest.approx(fine, rel=1e-3)
    assert warm_up(SLAB, TUBE, 0.1, 0.5, **asked).reached(90.0) is None


def test_another_library_s_elements_stepped_by_the_minute_warm_as_fast():
    """scikit-fem, quadratic elements, a square hole of the same capacity, implicit Euler."""
    films, power, hours = (0.1, 0.5), 80.0, 24.0
    half, reach = TUBE.spacing / 2.0, 0.008 / 1.18034
    x = np.unique(np.r_[np.linspace(0, reach, 5), np.geomspace(reach, half, 14)])
    deep = sum(layer.thickness for layer in SLAB)
    rise = np.geomspace(reach, 0.075, 14)
    y = np.unique(
        np.r_[
            np.linspace(-reach, reach, 9),
            rise,
            -rise,
            np.linspace(0.075, 0.125, 9),
            np.geomspace(0.125, deep - 0.075, 16),
        ]
    )
    y = -(y + 0.075)[::-1]
    mesh = skfem.MeshQuad.init_tensor(x, y)
    middle = mesh.p[:, mesh.t].mean(1)
    hole = (middle[0] < reach) & (abs(middle[1] + 0.075) < reach)
    mesh = mesh.remove_elements(np.nonzero(hole)[0])
    depth = -mesh.p[1, mesh.t].mean(0)
    layer = np.searchsorted(np.cumsum([each.thickness for each in SLAB]), depth)
    k, c = np.array([each.conductivity for each in SLAB])[layer], np.array([each.heat_capacity for each in SLAB])[layer]
    basis = skfem.Basis(mesh, skfem.ElementQuad2())
    spread = basis.with_element(skfem.ElementQuad0())
    stiff = skfem.asm(skfem.BilinearForm(lambda u, v, w: w.k * dot(grad(u), grad(v))), basis, k=spread.interpolate(k))
    store = skfem.asm(skfem.BilinearForm(lambda u, v, w: w.c * u * v), basis, c=spread.interpolate(c))
    load = np.zeros(basis.N)
    unit = skfem.LinearForm(lambda v, w: v)
    surfaces = {}
    for at, film, air in ((0.0, films[0], 20.0), (-deep, films[1], 10.0)):
        facets = mesh.facets_satisfying(lambda p, at=at: np.isclose(p[1], at))
        side = surfaces[at] = skfem.FacetBasis(mesh, skfem.ElementQuad2(), facets=facets)
        stiff = stiff + skfem.asm(skfem.BilinearForm(lambda u, v, w: u * v), side) / film
        load += skfem.asm(unit, side) * air / film
    around = mesh.facets_satisfying(lambda p: (abs(p[1] + 0.075) < reach * 1.01) & (p[0] < reach * 1.01) & (p[0] > 0.0))
    ring = skfem.FacetBasis(mesh, skfem.ElementQuad2(), facets=around)
    load += skfem.asm(unit, ring) * power * half / (4.0 * reach)
    step = 120.0
    factors, now = splu((store / step + stiff).tocsc()), np.full(basis.N, 10.0)
    mean = skfem.asm(unit, surfaces[0.0]) / half
    theirs = []
    for _ in range(int(hours * 3600 / step)):
        now = factors.solve(load + store @ now / step)
        theirs.append(float(mean @ now))
    ours = warm_up(SLAB, TUBE, *films, start=10.0, room=20.0, ground=10.0, power=power, warmest=90.0, hours=hours)
    for wanted in (18.0, 21.0, 24.0):
        crossed = np.interp(wanted, theirs, (np.arange(len(theirs)) + 1) * step / 3600.0)
        assert ours.reached(wanted) == pytest.approx(crossed, rel=0.01)


def test_a_layer_that_stores_nothing_is_refused():
    with pytest.raises(OutOfDomain):
        warm_up(
            (Layer(0.15, 2.0),), TUBE, 0.1, 0.5, start=0.0, room=0.0, ground=0.0, power=70.0, warmest=60.0, hours=1.0
        )


def test_a_thin_floor_that_rests_cools_as_a_warm_body_in_cool_air_does():
    """A slab that conducts well, nothing below it: exp(-t / τ), τ its heat over what film and tube let go."""
    slab = (Layer(0.04, 50.0, 2.0e6),)
    cooled, back = after_rest(
        slab,
        Tube(0.010, 0.02, 0.1, 0.1),
        0.1,
        1e6,
        water=30.0,
        room=20.0,
        resting=16.0,
        ground=16.0,
        rest=4.0,
        power=60.0,
        warmest=60.0,
        hours=6.0,
    )
    # the hole stores nothing; the surface stands below the slab's mean by what the slab itself resists, which is little
    stored = (0.04 * 0.1 - np.pi * 0.005**2) / 0.1 * 2.0e6
    begins = cooled.floor[0]
    for hour in (1.0, 2.0, 4.0):
        n = int(np.nonzero(np.isclose(cooled.hours, hour))[0][0])
        wanted = 16.0 + (begins - 16.0) * np.exp(-(hour - cooled.hours[0]) * 3600.0 / (0.1 * stored))
        assert cooled.floor[n] == pytest.approx(wanted, abs=0.02)
    assert (cooled.given == pytest.approx(0.0)) and (np.diff(cooled.floor) < 0.0).all()
    assert (np.diff(back.floor) > 0.0).all() and back.floor[0] < begins
    assert back.given == pytest.approx(60.0, rel=1e-9)


def test_a_rest_begins_from_the_steady_cell_and_loses_what_it_stored():
    films, asked = (0.1, 0.5), {"water": 38.0, "room": 20.0, "resting": 17.0, "ground": 8.0}
    cooled, back = after_rest(SLAB, TUBE, *films, **asked, rest=8.0, power=120.0, warmest=45.0, hours=48.0, step=60.0)
    still = cell(SLAB, TUBE, *films)
    assert cooled.floor[0] == pytest.approx(still.floor(38.0, 20.0, 8.0)[0], abs=0.15)
    coarse, again = after_rest(SLAB, TUBE, *films, **asked, rest=8.0, power=120.0, warmest=45.0, hours=48.0)
    assert coarse.floor[-1] == pytest.approx(cooled.floor[-1], abs=0.02)
    wanted = 20.0 + 0.9 * 0.1 * still.up(38.0, 20.0, 8.0)
    assert again.reached(wanted) == pytest.approx(back.reached(wanted), rel=0.005)


def test_the_longer_it_rests_the_longer_it_takes():
    asked = {
        "water": 38.0,
        "room": 20.0,
        "resting": 17.0,
        "ground": 8.0,
        "power": 120.0,
        "warmest": 45.0,
        "hours": 48.0,
    }
    night, week_end = (after_rest(SLAB, TUBE, 0.1, 0.5, **asked, rest=rest)[1] for rest in (8.0, 60.0))
    assert night.reached(23.0) < week_end.reached(23.0)


@pytest.mark.parametrize("rest", [0.0, float("nan")])
def test_a_rest_of_no_length_is_refused(rest):
    with pytest.raises(OutOfDomain):
        after_rest(
            SLAB,
            TUBE,
            0.1,
            0.5,
            water=38.0,
            room=20.0,
            resting=17.0,
            ground=8.0,
            rest=rest,
            power=80.0,
            warmest=45.0,
            hours=1.0,
        )


@pytest.mark.parametrize("foam", [SLAB[1:2], ()], ids=["on foam", "on the ground"])
def test_a_metre_of_ground_is_enough_and_an_hour_s_step_is_short_enough(foam):
    """Against the whole depth that the year reaches, eight metres of ground, within 2 %."""
    asked = {"start": 10.0, "room": 20.0, "ground": 10.0, "power": 90.0, "warmest": 45.0, "hours": 96.0}

    def takes(deep: float, step: float) -> float:
        layers = (SLAB[0], *foam, Layer(deep, 1.5, 2.0e6))
        return warm_up(layers, TUBE, 0.1, (9.0 - deep) / 1.5, **asked, step=step).reached(22.5)

    whole = takes(8.0, 900.0)
    assert takes(1.0, 900.0) == pytest.approx(whole, rel=0.02)
    assert takes(8.0, 3600.0) == pytest.approx(whole, rel=0.02)
