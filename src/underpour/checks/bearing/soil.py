"""Pressure on the ground below a loaded slab."""

from __future__ import annotations

from ...findings import Basis, Finding, Step
from ...measure.digits import fixed
from ...resolve import Resolved
from .carried import Carried
from .foam import PLATE, UNFACTORED
from .limits import KILO

ID, TITLE = "bearing.soil", "Pressure on the ground below the slab"
EQUILIBRIUM = Basis("load over area", "equilibrium of forces", "derived")


def by_plate(resolved: Resolved, of: Carried) -> Finding:
    """Pressure of one load on the ground against what may press on it.

    Asks
        Does the ground give way below this load?
    Why
        Soft ground is the real limit more often than foam is.
    Worked out
        Springs one below another feel the same pressure: what the foam feels, the ground feels. What the whole floor
        weighs, and what stands all over it, is taken off what the ground bears.
    Holds for
        Compacted ground that is not frozen, below a slab that has not cracked; unfactored loads. The gravel spreads
        the pressure further, which is not counted. Deep soft layers settle by other rules.
    Source
        Westergaard 1926, Wyman 1950; the soils report, or the presumptive table of IRC R401.4.1.
    """
    assert of.plates is not None
    return _held(of, "plate", PLATE, of.plates[0].felt.within)


def straight_through(resolved: Resolved, of: Carried) -> Finding:
    """Pressure of a load all over the floor on the ground against what may press on it.

    Asks
        Does the ground give way below what is stored on the floor?
    Why
        A wide even load goes straight through slab and foam.
    Worked out
        Load on each area; what the whole floor weighs is taken off what the ground bears.
    Holds for
        Compacted ground that is not frozen; unfactored loads. How far wide loads let deep soft layers settle in
        years is not worked out.
    Source
        Equilibrium; the soils report, or the presumptive table of IRC R401.4.1.
    """
    return _held(of, "straight-through", EQUILIBRIUM, 0.0)


def _held(of: Carried, method: str, basis: Basis, within: float) -> Finding:
    ground = of.support.ground
    even = f" − {fixed(of.even / KILO, 2)}" if of.even else ""
    even += f" − {fixed(of.pad_weight / KILO, 2)}" if of.load.pad else ""
    share = of.pressure / of.for_ground if of.for_ground else 9.99
    tested = ground.bearing_basis[0].source == "the brief"
    who = "" if tested else " Nobody tested it: the presumptive table of the code is taken."
    return Finding(
        ID,
        TITLE,
        of.pressure / KILO,
        "kPa",
        at={"load": of.load.number, "method": method},
        within=within * of.pressure / KILO,
        limit=of.for_ground / KILO,
        sense="at most",
        basis=(basis, *ground.bearing_basis, *of.bed.basis),
        rests_on=(of.load.path, ground.bearing_path, *of.support.concrete.paths, *of.bed.rests_on),
        steps=(
            *of.bed.steps,
            Step("p", "as on the foam: springs one below another", "", f"{fixed(of.pressure / KILO, 2)} kPa"),
            Step(
                "p_left",
                f"what the ground bears − what the whole floor weighs. {UNFACTORED}",
                f"{fixed(ground.bearing / KILO, 1)} − {fixed(of.support.whole_weight / KILO, 2)}{even}",
                f"{fixed(of.for_ground / KILO, 1)} kPa",
            ),
        ),
        words=f"{of.load.words}: the ground feels {of.said(of.pressure)} of it, {100.0 * share:.0f} % of what it bears "
        f"besides the floor.{who}",
    )
