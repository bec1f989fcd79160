"""How long new concrete dries before its covering may be laid."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from .. import catalogue
from ..catalogue.records import Quantity
from ..findings import Basis, Finding, Step
from ..measure.digits import fixed
from ..physics.moisture.drying import DEPTH, diffusivity, drying_time
from ..resolve import Resolved, Slice

ID, TITLE = "moisture.drying", "Time until the slab is dry enough for its covering"
A_DAY = 86400.0  # s
KILO = 1e3
INCH = 0.0254  # m
OPEN_BELOW = ("gravel", "sand")
AIR = (0.40, 0.50, 0.60)  # humidity of the room's air while it dries: dry, usual, damp (common practice, no source)
MODEL = Basis("CEB-FIP Model Code 1990", "2.1.8.3, humidity that spreads in concrete", "memory")


def concrete(resolved: Resolved) -> Iterator[Finding]:
    """How long the newest concrete below the covering dries until the covering bears it.

    Asks
        When may the floor covering be laid?
    Why
        Fresh concrete is the wettest thing in the house for two years. A slab on a film or on foam dries to one side
        only, and a covering that is laid too soon lifts, stains or rots.
    Worked out
        Humidity spreads in concrete the slower the drier it gets; saturated at first, sealed below by film or foam,
        the room's air above. Time until the air in the pores at four tenths of the thickness has come down to what the
        covering bears: with the strength's diffusivity, in dry, usual and damp air.
    Holds for
        A closed and heated room in which nothing wets the slab again; drying begins when the roof is on. What cement
        binds is left out. A measurement decides, never a calendar.
    Source
        CEB-FIP Model Code 1990, 2.1.8.3 (from memory); ASTM F2170 for depth and test, ASTM F1869 for the other.
    """
    covering = resolved.floor[0].covering
    wet = next((n for n, layer in enumerate(resolved.floor) if layer.kind in ("concrete", "screed")), None)
    if covering is None or wet is None:
        return
    layer = resolved.floor[wet]
    both = wet + 1 < len(resolved.floor) and resolved.floor[wet + 1].kind in OPEN_BELOW
    limit = covering.slab_humidity
    strengths, told_by = _strengths(resolved)
    days = [_days(layer, of, room, limit.value, both) for of, room in zip(strengths, AIR, strict=True)]
    usual = days[1]
    after = resolved.covered_after / A_DAY if resolved.covered_after is not None else None
    yield Finding(
        ID,
        TITLE,
        usual if isfinite(usual) else 3650.0,
        "d",
        at={"layer": layer.label, "method": "humidity"},
        limit=after,
        sense="at most" if after is not None else None,
        basis=(MODEL, Basis("ASTM F2170", "probe at 40 % of a slab that dries to one side", "memory"), limit.basis()),
        rests_on=(layer.path, limit.path, told_by, *(("floor.covered-after",) if after is not None else ())),
        steps=tuple(_steps(layer, strengths[1], limit, days, both)),
        words=_words(layer, covering.label, limit, days, after, both),
    )
    yield _by_emission(layer)


def _strengths(resolved: Resolved) -> tuple[tuple[float, float, float], str]:
    """Lowest, usual and highest strength, and what tells it; weak concrete dries soonest. [Pa]"""
    typed, usual = resolved.concrete_strength, catalogue.of_slabs("untested-strength")
    if typed is not None:
        return (typed, typed, typed), "floor.concrete-class"
    return (usual.low * KILO, usual.value * KILO, usual.high * KILO), usual.path


def _days(layer: Slice, strength: float, room: float, limit: float, both: bool) -> float:
    thickness = layer.thickness / 2.0 if both else layer.thickness
    return drying_time(thickness, diffusivity(strength), room, limit / 100.0) / A_DAY


def _steps(layer: Slice, strength: float, limit: Quantity, days: list[float], both: bool) -> Iterator[Step]:
    sides = "both sides" if both else "one side, since what lies below lets no vapour through"
    yield Step("L", f"thickness that dries, to {sides}", "", f"{fixed(layer.thickness / (2.0 if both else 1.0), 3)} m")
    found = diffusivity(strength)
    yield Step("D", "1e-9 m²/s over the strength in units of 10 MPa", "", f"{found * 1e10:.1f} × 10⁻¹⁰ m²/s")
    yield Step(
        "t",
        f"until the pores at {DEPTH:.1f} L are at {limit.value:.0f} %, room at 40, 50 and 60 %",
        "",
        ", ".join(_said(each) for each in days),
    )


def _said(days: float) -> str:
    return f"{days:.0f} d" if isfinite(days) else "not in ten years"


def _words(layer: Slice, covering: str, limit: Quantity, days: list[float], after: float | None, both: bool) -> str:
    quick, usual, slow = (f"{each:.0f}" if isfinite(each) else "over 3650" for each in days)
    sides = "to both sides" if both else "to one side"
    words = (
        f"{layer.words} dries {sides} for {quick} to {slow} days, usually {usual}, until it is at "
        f"{limit.value:.0f} %, which {covering} bears. Count from the day the roof is on and the room is heated. "
        "Measure before anything is laid."
    )
    if after is not None and days[1] > after:
        words += (
            f" The covering is to be laid after {after:.0f} days: dry the room's air, take a mix with less water, "
            "or a covering or a primer that bears more."
        )
    return words


def _by_emission(layer: Slice) -> Finding:
    """What tests of slabs took to the other test's limit, by thickness; for comparison."""
    tested = catalogue.of_drying("tested-thickness")
    rows = [catalogue.of_drying(key) for key in ("rich", "usual", "lean")]
    share = layer.thickness / tested.value
    low, value, high = (row.value * share for row in rows)
    rule = catalogue.of_drying("by-rule")
    by_rule = rule.value * layer.thickness / INCH
    return Finding(
        ID,
        f"{TITLE}, by tests of slabs",
        value,
        "d",
        at={"layer": layer.label, "method": "emission"},
        basis=(*(row.basis() for row in rows), Basis("ASTM F1869", "3 lb/(1000 ft² · 24 h)", "memory"), rule.basis()),
        rests_on=(layer.path, *(row.path for row in rows), rule.path),
        steps=(
            Step(
                "t", "days of a slab of 4 in × thickness / 4 in", f"{rows[1].value:.0f} × {share:.2f}", f"{value:.0f} d"
            ),
            Step("t_rule", "a month for each inch", "", f"{by_rule:.0f} d"),
        ),
        words=f"By the test under a dome, slabs sealed below took {low:.0f} to {high:.0f} days by how much water was "
        f"in the mix; the trade reckons a month for each inch, {by_rule:.0f} days.",
    )
