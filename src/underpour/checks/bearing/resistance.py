"""What the slab's concrete may feel of a load, by the one method that the brief names."""

from __future__ import annotations

from dataclasses import dataclass

from ... import catalogue
from ...findings import Basis, Step
from ...measure.digits import fixed
from ...physics.plates import concrete, plain
from ...resolve import ResolvedLoad, Support

MEGA = 1e6
RUPTURE = Basis("ACI 318-19", "19.2.3.1: 7.5 √f'c in psi", "quoted")
PLAIN_ACI = Basis("ACI 318-19", "14.5.2.1: 5 √f'c in psi; slabs on the ground stand outside of it (1.4.8)", "memory")
PUNCHED_ACI = Basis("ACI 318-19", "Table 14.5.5.1: plain concrete, two-way", "memory")
BENDING_EN = Basis("EN 1992-1-1", "3.1.8 and 12.3.1: 0.7 (1.6 − h) fctm", "memory")
PUNCHED_EN = Basis("EN 1992-1-1", "6.2.2 (6.3N), 6.4.4, 6.4.5", "memory")


@dataclass(frozen=True, slots=True)
class Resistance:
    """How the concrete is held to one load. [Pa]"""

    method: str  # "allowable-stress"
    on_load: float  # what the load is multiplied by; 1 where it counts as it is
    rupture: float  # tension at which it cracks
    bending: float  # tension that the multiplied load may bring
    said: str  # "allowable stress, factor 1.7"
    steps: tuple[Step, ...]
    basis: tuple[Basis, ...]
    rests_on: tuple[str, ...]


def resistance(support: Support, load: ResolvedLoad) -> Resistance:
    """By allowable stress unless the brief says otherwise."""
    method = support.concrete.method
    if method == catalogue.ALLOWABLE_STRESS:
        return _allowable(support)
    factor = catalogue.on_load(method, load.kind)
    assert factor is not None  # both other methods have factors on loads
    times = load.factored or factor.value
    which = "as the brief types it" if load.factored else factor.where
    step = Step("γ", f"factor on the load: {which}", "", fixed(times, 2))
    made = _lrfd(support) if method == catalogue.LRFD else _en(support, load)
    whole = f"{times:g} × the load as {catalogue.class_of_load(load.kind)}"
    typed = (f"{load.path}.factored",) if load.factored else (factor.path,)
    basis = (*made.basis, *(() if load.factored else (factor.basis(),)))
    return Resistance(
        method,
        times,
        made.rupture,
        made.bending,
        f"{made.said}, {whole}",
        (step, *made.steps),
        basis,
        (*typed, *made.rests_on),
    )


def _allowable(support: Support) -> Resistance:
    strength, typed = support.concrete.strength, support.concrete.safety
    factor = catalogue.of_slabs("factor")
    by = typed or factor.value
    rupture = float(concrete.rupture_aci(strength))
    return Resistance(
        catalogue.ALLOWABLE_STRESS,
        1.0,
        rupture,
        rupture / by,
        f"allowable stress, factor {by:g}",
        (
            Step("f_r", "7.5 √f'c in psi", f"f'c {fixed(strength / MEGA, 1)} MPa", f"{fixed(rupture / MEGA, 2)} MPa"),
            Step(
                "σ_0",
                "rupture / factor: allowable stress, no factors on the load",
                f"{fixed(rupture / MEGA, 2)} / {by:g}",
                f"{fixed(rupture / by / MEGA, 2)} MPa",
            ),
        ),
        (RUPTURE, Basis("the brief", "floor.safety-factor", "document") if typed else factor.basis()),
        ("floor.safety-factor" if typed else factor.path,),
    )


def _lrfd(support: Support) -> Resistance:
    strength, phi = support.concrete.strength, catalogue.of_concrete(catalogue.LRFD, "on-strength")
    nominal = float(plain.bending_aci(strength))
    step = Step(
        "φ f",
        "φ 5 √f'c in psi, plain concrete",
        f"{phi.value:g} × {fixed(nominal / MEGA, 2)} MPa",
        f"{fixed(phi.value * nominal / MEGA, 2)} MPa",
    )
    return Resistance(
        catalogue.LRFD,
        1.0,
        float(concrete.rupture_aci(strength)),
        phi.value * nominal,
        f"{catalogue.concrete_method(catalogue.LRFD)}, φ {phi.value:g}",
        (step,),
        (PLAIN_ACI, phi.basis()),
        (phi.path, "floor.concrete-method"),
    )


def _en(support: Support, load: ResolvedLoad) -> Resistance:
    strength, thickness = support.concrete.strength, support.concrete.thickness
    if load.pad is not None:
        thickness = max(load.pad.thickness, thickness)  # thicker concrete bears less tension
    gamma = catalogue.of_concrete(catalogue.EN_1990, "on-strength")
    alpha = catalogue.of_concrete(catalogue.EN_1990, "plain")
    mean = float(plain.tension_en(strength))
    rupture = float(plain.in_bending_en(mean, thickness))
    design = alpha.value * 0.7 * rupture / gamma.value
    step = Step(
        "fctd,fl",
        "α 0.7 (1.6 − h) fctm / γC, plain concrete",
        f"{alpha.value:g} × 0.7 × {fixed(max(1.6 - thickness, 1.0), 3)} × {fixed(mean / MEGA, 2)} / {gamma.value:g}",
        f"{fixed(design / MEGA, 2)} MPa",
    )
    return Resistance(
        catalogue.EN_1990,
        1.0,
        rupture,
        design,
        f"{catalogue.concrete_method(catalogue.EN_1990)}, γC {gamma.value:g}",
        (step,),
        (BENDING_EN, alpha.basis(), gamma.basis()),
        (gamma.path, alpha.path, "floor.concrete-method"),
    )
