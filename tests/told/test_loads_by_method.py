"""How concrete is held to loads: by the one method that the brief names; foam and ground stay as they are."""

from __future__ import annotations

import pytest
from test_loads_answered import BRIEF, PLATE, findings, one, resolved, value, with_load

from underpour import catalogue
from underpour.checks.bearing.resistance import resistance

PSI = 6.894757  # kPa
METHODS = ("allowable-stress", "lrfd", "en-1990")


def by(method: str, text: str = BRIEF, more: str = "") -> str:
    return text.replace("[floor]\n", f'[floor]\nconcrete-method = "{method}"\nconcrete-class = "4000 psi"\n{more}')


def test_by_allowable_stress_the_load_is_as_it_is_and_the_factor_lies_on_the_strength() -> None:
    found = one(by("allowable-stress"), "bearing.bending")
    assert found.limit == pytest.approx(474.34 / 1.7 * PSI, rel=1e-4)
    assert "(allowable stress, factor 1.7)" in found.words
    typed = one(by("allowable-stress", more="safety-factor = 2.0\n"), "bearing.bending")
    assert typed.limit == pytest.approx(474.34 / 2.0 * PSI, rel=1e-4) and typed.value == found.value
    assert "floor.safety-factor" in typed.rests_on


def test_by_aci_318_the_load_has_its_factor_and_the_strength_is_plain_concrete_s() -> None:
    """A rack post is stored goods, 1.6; 0.6 times 5 √4000 psi is 189.7 psi."""
    found, plain = one(by("lrfd"), "bearing.bending"), value(by("allowable-stress"), "bearing.bending")
    assert found.value == pytest.approx(1.6 * plain, rel=1e-9)
    assert found.limit == pytest.approx(189.74 * PSI, rel=1e-4)
    assert "1.6 × the load as stored" in found.words and "With its factor the load brings" in found.words


def test_by_en_1990_the_load_has_its_factor_and_the_strength_that_of_en_1992() -> None:
    """fck 27.58 MPa: fctm 2.738, (1.6 − 0.127) × 0.7 × 0.8 / 1.5 times it is 1.506 MPa."""
    found, plain = one(by("en-1990"), "bearing.bending"), value(by("allowable-stress"), "bearing.bending")
    assert found.value == pytest.approx(1.5 * plain, rel=1e-9)
    assert found.limit == pytest.approx(1506.0, abs=1.0)


def test_foam_and_ground_feel_the_load_as_it_is_whatever_the_method() -> None:
    told = {
        (each.id, each.value, each.limit)
        for method in METHODS
        for each in findings(by(method))
        if each.id in ("bearing.foam-long", "bearing.soil", "bearing.settlement")
    }
    assert len(told) == 5  # the plate and the spread on foam, the ground, two settlements: the same by each method


@pytest.mark.parametrize(
    ("kind", "factors"),
    [
        ('kind = "line"\nforce = "400 lb/ft"', (1.4, 1.35)),
        ('like = "heavy-storage"', (1.6, 1.5)),
        ('like = "forklift-2"', (1.6, 1.5)),
        ('like = "lift-two-post"', (1.92, 1.8)),
    ],
)
def test_what_stands_is_stored_rolls_or_moves_has_a_factor_of_its_own(kind: str, factors: tuple[float, float]) -> None:
    for method, factor in zip(("lrfd", "en-1990"), factors, strict=True):
        given = resolved(by(method, with_load(kind)))
        assert given.support is not None
        assert resistance(given.support, given.loads[0]).on_load == factor


def test_each_kind_of_load_on_a_slab_has_one_class() -> None:
    for named in catalogue.named_loads():
        if named.kind != "before-pour":
            assert catalogue.class_of_load(named.kind) in ("permanent", "stored", "wheels", "dynamic")


def test_a_factor_that_a_typed_load_has_in_it_is_taken_out_for_foam_and_ground_and_stays_for_concrete() -> None:
    """10400 lb with a factor of 1.6 is 6500 lb."""
    given = by("lrfd").replace('force = "6500 lb"', 'force = "10400 lb"\nfactored = 1.6')
    for id in ("bearing.foam-long", "bearing.bending", "bearing.punching"):
        method = "aci-318" if id == "bearing.punching" else "plate"
        assert one(given, id, method).value == pytest.approx(one(by("lrfd"), id, method).value, rel=1e-9)
    other = by("lrfd").replace('force = "6500 lb"', 'force = "9100 lb"\nfactored = 1.4')
    assert one(other, "bearing.bending").value == pytest.approx(1.4 / 1.6 * value(by("lrfd"), "bearing.bending"))
    assert "10400 lb (46\u2009262\u2009N) with factor 1.6" in one(given, "bearing.foam-long").words


def test_the_method_nobody_names_is_listed() -> None:
    taken = {each.path: each.value for each in resolved(BRIEF).assumed}
    assert taken["floor.concrete-method"] == "allowable-stress"
    assert "floor.concrete-method" not in {each.path for each in resolved(by("lrfd")).assumed}


def test_punching_is_force_over_perimeter_and_depth() -> None:
    """6500 lb on 6 in by 6 in and 5 in of concrete: a perimeter of 44 in, 11 in square; 8/3 √4000 / 1.7 is 99.2 psi."""
    found = one(by("allowable-stress"), "bearing.punching", "aci-318")
    assert found.limit == pytest.approx(99.21 * PSI, rel=1e-3)
    whole = 6500.0 / (44.0 * 5.0) * PSI
    foam = value(BRIEF, "bearing.foam-long")
    assert (
        found.value is not None and whole - foam * 121.0 / 220.0 < found.value < whole
    )  # less than foam feels at most


def test_only_what_is_sure_from_below_is_taken_off() -> None:
    at_edge = one(
        by("lrfd", with_load(f'kind = "post"\nforce = "6500 lb"\n{PLATE}\nat = "edge"')), "bearing.punching", "aci-318"
    )
    assert at_edge.value == pytest.approx(1.6 * 6500.0 / ((11.0 + 2.0 * 8.5) * 5.0) * PSI, rel=1e-4)  # nothing
    assert "its ends at the edge" in at_edge.words
    corner = with_load(f'kind = "post"\nforce = "6500 lb"\n{PLATE}\nat = "corner"')
    assert value(by("lrfd", corner), "bearing.punching", "aci-318") == pytest.approx(
        1.6 * 6500.0 / (2.0 * 8.5 * 5.0) * PSI, rel=1e-4
    )
    near = with_load(f'kind = "post"\nforce = "6500 lb"\n{PLATE}\nat = "12 0.25"')  # touches the edge on the plan
    assert value(by("lrfd", near), "bearing.punching", "aci-318") == pytest.approx(at_edge.value, rel=1e-3)
    tub = with_load('like = "hot-tub"\nplate = "7 ft x 7 ft"\nat = "12 18"')  # most of it goes straight through
    load = resolved(by("lrfd", tub)).loads[0]
    assert load.force > 0.0
    alone = 1.6 * load.force / (4.0 * (84.0 + 5.0) * 5.0 * 0.0254**2) / 1000.0
    assert value(by("lrfd", tub), "bearing.punching", "aci-318") < 0.75 * alone


def test_by_en_1992_the_face_the_edge_and_twice_the_depth_are_looked_at() -> None:
    """d is three quarters of 127 mm; at an edge the force counts 1.4 times."""
    found = one(by("en-1990"), "bearing.punching", "en-1992")
    d = 0.75 * 0.127
    assert found.limit == pytest.approx(0.035 * 2.0**1.5 * 27.579**0.5 * 1000.0, rel=1e-3)
    u = 4.0 * 0.1524 + 4.0 * 3.141592654 * d
    assert found.value is not None and found.value < 1.5 * 28.9134 / (u * d) < 1.1 * found.value
    edge = one(
        by("en-1990", with_load(f'kind = "post"\nforce = "6500 lb"\n{PLATE}\nat = "edge"')),
        "bearing.punching",
        "en-1992",
    )
    u = 3.0 * 0.1524 + 2.0 * 3.141592654 * d
    assert edge.value == pytest.approx(1.4 * 1.5 * 28.9134 / (u * d), rel=1e-3)
    pin = one(by("en-1990", BRIEF.replace(PLATE, 'plate = "1 in x 1 in"')), "bearing.punching", "en-1992")
    assert "at its very face" in pin.words and pin.limit == pytest.approx(
        0.4 * 0.6 * (1.0 - 27.579 / 250.0) * 27579.0 / 1.5, rel=1e-3
    )


def test_wheels_so_near_that_one_perimeter_goes_round_them_are_punched_out_together() -> None:
    pair = f'kind = "rack-post"\nforce = "6500 lb"\n{PLATE}\ncount = 2\nspacing = "8 in"\nat = "12 18"'
    near = one(by("lrfd", with_load(pair)), "bearing.punching", "aci-318")
    assert "2 of them together" in near.words
    far = one(by("lrfd", with_load(pair.replace("8 in", "4 ft"))), "bearing.punching", "aci-318")
    assert "together" not in far.words and far.value is not None and near.value is not None and near.value > far.value


def test_a_line_of_load_punches_nothing_out() -> None:
    found = one(with_load('kind = "line"\nforce = "400 lb/ft"'), "bearing.punching", "aci-318")
    assert found.verdict == "does not apply" and "punches nothing out" in found.words
