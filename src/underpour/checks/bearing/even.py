"""Tension of a slab on which loads lie in areas with aisles between."""

from __future__ import annotations

from ...findings import Basis, Finding, Step
from ...measure.digits import fixed
from ...physics.plates import beams
from ...resolve import Resolved
from .bending import ID, MEGA, TITLE, _held
from .carried import Carried
from .plates import modulus

AISLE = Basis("UFC 3-320-06A (TM 5-809-12)", "stationary live loads: 257.876 s √(k h / E)", "memory")


def aisle(resolved: Resolved, of: Carried) -> Finding:
    """Tension at the top of the slab beside an unloaded aisle, which is as wide as is worst.

    Asks
        Does the slab crack between two areas that are loaded?
    Why
        Where all of the floor is loaded alike nothing bends; where an aisle stays empty it is pressed up.
    Worked out
        Hetenyi's strip between two areas of load, for the aisle that is worst; what the concrete bears as for
        any other load.
    Holds for
        Plain concrete, aisles of any width, joints far off.
    Source
        UFC 3-320-06A, stationary live loads (from memory).
    """
    h, k, e = of.support.concrete.thickness, of.bed.soft, modulus(of.support)
    by_one = _load_by_tension(of)
    value = beside_aisle(of)
    step = Step(
        "σ",
        "q / (1.791 √(k h / E))",
        f"q {fixed(of.pressure / 1e3, 2)} kPa, k {fixed(k / MEGA, 1)} MN/m³, h {fixed(h, 3)} m, "
        f"E {fixed(e / 1e9, 1)} GPa",
        f"{fixed(value / MEGA, 2)} MPa",
    )
    bears = by_one * of.for_concrete
    words = (
        f"{of.load.words}: beside an empty aisle of the worst width the concrete feels {of.said(value)} at its top. "
        f"Up to {of.said(bears)} may lie on areas of this floor with aisles between ({of.holds.said}); "
        "softer foam lets less lie there."
    )
    return _held(of, "aisle", value, 0.0, words, (*of.bed.steps, step), AISLE)


def beside_aisle(of: Carried) -> float:
    """Tension at the top of the slab beside an empty aisle of the worst width. [Pa]"""
    return of.pressure / _load_by_tension(of)


def _load_by_tension(of: Carried) -> float:
    """Pressure on the loaded areas for each Pa of tension. [1]"""
    return float(beams.stationary(1.0, of.bed.soft, of.support.concrete.thickness, modulus(of.support)))


__all__ = ["ID", "TITLE", "aisle", "beside_aisle"]
