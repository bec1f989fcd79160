"""Water below and beside the floor: what breaks its rise, where it drains to, how near it is, wet foam, sulphate."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from .. import catalogue
from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..resolve import Resolved, Slice
from ..resolve.resolved import stratum_at

BREAK, DRAIN, TABLE, WET, SULPHATE = (
    *("water.capillary-break", "water.drain", "water.table"),
    *("water.wet-foam", "water.sulphate"),
)
NEAR = 1e-4  # m: what a tape cannot tell
KILO = 1e3
POURED = ("concrete", "screed", "old-slab")
LOOSE_GROUND = ("coarse", "rock")  # ground in which water rises little
RETAINING = Basis("International Residential Code", "R405.1, drains beside foundations that retain earth", "memory")
OUTLETS = {
    "daylight": "Its end stays open, below the ground's frost and above the flood, behind a grate against animals.",
    "sump": "A pump stands still when the power is off: give it a second one or a battery, and look each spring.",
    "storm-sewer": "A sewer that backs up brings its water along: put a valve before it, and ask whose sewer it is.",
}


def about(resolved: Resolved) -> Iterator[Finding]:
    """Every finding about water of a floor with a room over it."""
    yield _capillary_break(resolved)
    if any(edge.ground > 0.0 for edge in resolved.edges):
        yield _drain(resolved)
    if resolved.water is not None:
        yield _table(resolved)
    yield from _wet_foam(resolved)
    if resolved.around.sulphate:
        yield _sulphate(resolved)


def _capillary_break(resolved: Resolved) -> Finding:
    """What lies below the slab that water does not climb.

    Asks
        Does anything below this slab keep ground water from being drawn up into it?
    Why
        Concrete and fine ground draw water up by metres; coarse stone, foam and film do not.
    Worked out
        Layers below the slab that break the rise: a film or sheet, foam, an air space, stone of four inches or more;
        sand is none. Coarse ground and rock are one.
    Holds for
        The middle of the floor. Walls and footings draw water up by another way.
    Source
        Common practice, no source; what a code asks of stone is another finding.
    """
    stone = catalogue.of_water("stone")
    top = next((n for n, layer in enumerate(resolved.floor) if layer.kind in POURED), 0)
    found = [layer for layer in resolved.floor[top + 1 :] if _breaks(layer, stone.value)]
    depth = max(resolved.edges, key=lambda each: each.length).ground + resolved.total
    grain = stratum_at(resolved.strata, depth).grain
    steps = [Step("breaks", layer.words, "", "one") for layer in found]
    steps += [Step("ground", resolved.ground_below.label, grain, "one")] if grain in LOOSE_GROUND else []
    made = Finding(
        BREAK,
        "Layers below the slab that keep ground water from rising into it",
        float(len(steps)),
        "count",
        limit=1.0,
        sense="at least",
        basis=(stone.basis(), Basis("common practice, no source", "capillary break", "practice")),
        rests_on=(*dict.fromkeys(layer.path for layer in resolved.floor), stone.path, "site.ground"),
        steps=tuple(steps) or (Step("n", "film, sheet, foam, air or four inches of stone below the slab", "", "none"),),
    )
    if steps:
        names = "; ".join(step.formula for step in steps)
        return replace(made, words=f"Water does not rise past what lies below the slab: {names}.")
    if not grain:
        words = "Nothing below the slab breaks the rise of water, and whether the ground is coarse is not said."
        unsure = replace(made, value=None, limit=None, sense=None, missing="site.ground")
        return replace(unsure, words=f"{words} Name it, or give its kind: fine or coarse.")
    return replace(
        made,
        words="The slab draws water out of the ground like a wick. Lay "
        f"{say.both(stone.value, 'm', resolved.system)} of washed stone below it, with a film on the stone.",
    )


def _breaks(layer: Slice, stone: float) -> bool:
    if layer.kind == "gravel":
        return layer.thickness >= stone - 2e-3  # 100 mm are 4 in
    return layer.kind in ("vapour-retarder", "sheet", "board", "air-space")


def _drain(resolved: Resolved) -> Finding:
    """Whether water beside the walls of a floor below the ground has a way out.

    Asks
        Where does the water go that comes down beside the foundation?
    Why
        A dug hole filled again holds water like a tub; it stands against wall and floor until it finds a way in.
    Worked out
        One where the brief names where the drain round the footings lets its water out, none where there is no drain.
    Holds for
        Floors below the ground outside. Whether the drain lies deep enough and stays open is seen on site.
    Source
        International Residential Code, R405.1 (from memory); coarse ground drains by itself, as that clause has it.
    """
    outlet = resolved.around.drain_outlet
    made = Finding(
        DRAIN,
        "Ways out for water beside the footings",
        None,
        "count",
        basis=(RETAINING,),
        rests_on=("site.drain-outlet", "site.ground"),
    )
    coarse = all(stratum.grain == "coarse" for stratum in resolved.strata)
    if not outlet and coarse:
        words = (
            "This ground drains by itself as long as no water stands in it; a drain beside the footings is cheap now."
        )
        return replace(made, no_limit="not required, advised", words=words)
    if not outlet:
        words = (
            "The floor lies below the ground, and nothing says where the drain beside its footings lets its water out."
        )
        return replace(made, missing="site.drain-outlet", words=words)
    held = replace(
        made,
        value=0.0 if outlet == "none" else 1.0,
        limit=None if coarse else 1.0,
        sense=None if coarse else "at least",
        no_limit="not required, advised",
        steps=(Step("outlet", "where the drain lets its water out", "", outlet.replace("-", " ")),),
    )
    if outlet == "none":
        mend = "Lay one in washed stone and fabric, its bottom below the floor's lowest layer, with an outlet"
        return replace(held, words=f"Without a drain water stands against wall and floor. {mend}.")
    return replace(held, words=OUTLETS[outlet])


def _table(resolved: Resolved) -> Finding:
    """How far the ground water stays below the floor.

    Asks
        How far below the build-up does the ground water stand?
    Why
        Foam that stands in water takes it up, and the floor is lifted (bearing.uplift).
    Worked out
        Underside of the build-up less the level of the water, at the edge where it stands highest.
    Holds for
        The level that the brief gives, of the wettest season that lasts. Drains and seals are believed.
    Source
        Common practice, no source.
    """
    assert resolved.water is not None
    clear = catalogue.of_water("below")
    edge = max(resolved.edges, key=lambda each: each.ground)
    level = edge.ground - resolved.water.depth
    value = round(-resolved.total - level, 4)
    made = Finding(
        TABLE,
        "Ground water below the underside of the build-up",
        value,
        "m",
        basis=(clear.basis(),),
        rests_on=("site.water-table", "site.drained", "site.waterproofed", f"{edge.path}.ground", clear.path),
        steps=(
            Step(
                "clear",
                "underside of the build-up less the water, levels above the floor's top",
                f"{fixed(-resolved.total, 3)} − ({fixed(level, 3)})",
                say.both(value, "m", resolved.system),
            ),
        ),
    )
    above = say.both(-value, "m", resolved.system)
    if value >= 0.0:
        held = replace(made, limit=clear.value, sense="at least")
        if value >= clear.value - NEAR:
            return replace(held, words="The water stays clear of the floor in the season that the brief gives.")
        return replace(
            held, words="In a wetter year the water reaches the floor. Drain the ground, or raise the floor."
        )
    if resolved.water.drained:
        return replace(
            made, words=f"Drains keep the water off; where they stop, it stands {above} above the underside."
        )
    if resolved.around.sealed:
        words = f"Water stands {above} above the underside, outside the seal. What lies outside it is wet for good"
        return replace(made, words=f"{words}; the seal does not hold the floor down, and an engineer says what does.")
    unsure = replace(made, value=None, missing="site.drained")
    return replace(unsure, words=f"Water stands {above} above the underside. Say whether drains keep it off.")


def _wet_foam(resolved: Resolved) -> Iterator[Finding]:
    """What years in wet ground take off the foam's resistance, by the publication that takes most.

    Asks
        How much worse does this foam insulate once it is wet?
    Why
        Foam takes up water over years, moulded and extruded boards not alike, and publications disagree.
    Worked out
        Conductivity in place over that with the most water that a publication found, by the board's own coefficient.
    Holds for
        Boards without a film between them and wet ground; of the floor's boards the one that loses most.
    Source
        ISO 10456:2007, clause 7 (from memory); the publications stand with the board's water (foam.water).
    """
    worst: tuple[float, Slice, int] | None = None
    for layer in resolved.floor:
        if layer.record is None or layer.record.wetting is None:
            continue
        wetting = layer.record.wetting
        n = max(range(len(wetting.schools)), key=lambda each: wetting.schools[each].water.value)
        share = max(wetting.schools[n].water.value, wetting.water.value)
        lost = 100.0 * (1.0 - layer.conductivity / max(wetting.conductivity(share), layer.conductivity))
        if worst is None or lost > worst[0]:
            worst = lost, layer, n
    if worst is None:
        return
    lost, layer, n = worst
    assert layer.record is not None and layer.record.wetting is not None
    wetting = layer.record.wetting
    school = wetting.schools[n]
    yield Finding(
        WET,
        f"Resistance that {layer.label} loses in years of wet ground, at most",
        lost,
        "%",
        at={"board": layer.key},
        basis=(school.water.basis(), wetting.per_water.basis()),
        rests_on=(layer.path, school.water.path, f"foam.water.{layer.key}"),
        steps=(
            Step(
                "λ_wet",
                "λ_dry exp(f ψ)",
                f"{fixed(wetting.dry, 4)} × exp({wetting.per_water.value:g} × {fixed(school.water.value, 3)})",
                f"{fixed(wetting.conductivity(school.water.value), 4)} W/(m·K)",
            ),
            Step("λ", "as it is taken here", "", f"{fixed(layer.conductivity, 4)} W/(m·K)"),
        ),
        words=f"That is if it takes up what {school.says} held, {fixed(100.0 * school.water.value, 1)} % by volume. "
        "Stone below it that drains, and a film between it and wet ground, keep it drier.",
    )


def _sulphate(resolved: Resolved) -> Finding:
    """Strength of the concrete against what sulphate in the ground asks.

    Asks
        Is the slab's concrete strong enough, and so dense enough, for the sulphate in this ground?
    Why
        Sulphate turns cement to mush from below, the faster the more water goes through the concrete.
    Worked out
        The class of concrete as typed against the least strength for that exposure.
    Holds for
        Plain and reinforced slabs. The kind of cement and the water in the mix are asked as well, by an engineer.
    Source
        ACI 318-19, Table 19.3.2.1 (from memory).
    """
    key = resolved.around.sulphate
    allowed = catalogue.of_water(key)
    made = Finding(
        SULPHATE,
        "Strength of the concrete in ground with sulphate",
        None,
        "kPa",
        at={"class": key},
        basis=(allowed.basis(),),
        rests_on=("site.sulphate", "floor.concrete-class", allowed.path),
    )
    mix = f"It asks for {allowed.where.partition(': ')[2]}. The engineer writes the mix into the order."
    strength = resolved.concrete_strength
    if strength is None:
        return replace(made, missing="floor.concrete-class", words=f"Nobody says what concrete it is. {mix}")
    return replace(
        made,
        value=strength / KILO,
        limit=allowed.value,
        sense="at least",
        steps=(
            Step("f_c", "as typed", "", say.both(strength / KILO, "kPa", resolved.system)),
            Step("least", f"class {key}", "", say.both(allowed.value, "kPa", resolved.system)),
        ),
        words=mix,
    )
