"""The ground in numbers: by name, by its properties, or worked out from a soils report."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, inf

from .. import catalogue
from ..brief.tables.ground import Ground, Soil, TypedGround
from ..brief.tables.site import Site
from ..findings import Assumed
from ..measure import System, say
from ..mistakes import Mistake
from .assumptions import Assumptions
from .resolved import Resolved, Slice, Stratum
from .usual import usual

BELOW_WATER = "below water"
TYPED_FOR_ALL = (
    "{path}: {told} is taken below the water table too. Soaked ground conducts more than moist ground: where it was "
    "measured above the water, write saturated-conductivity beside it."
)
LIGHTEST = 800.0  # kg/m³, dry: below it is peat, or fill with much of it (common practice, no source)


@dataclass(frozen=True, slots=True)
class KnownGround:
    """One ground, with what to know of how its numbers were found."""

    slice: Slice
    grain: str = ""  # fine, coarse, rock, peat; "" where it is not known
    notes: tuple[str, ...] = ()
    soaked: Slice | None = None  # the same below the water table, of ground that is above it


@dataclass(frozen=True, slots=True)
class Grounds:
    """All of the ground, from its surface down."""

    strata: tuple[Stratum, ...]
    notes: tuple[str, ...]


def known_grounds(site: Site, system: System, assumed: Assumptions, found: list[Mistake]) -> Grounds | None:
    """The ground of a site in its layers, saturated below the water table; None where one is told in ``found``."""
    layers = [("site.ground", site.ground, 0.0)]
    if site.layers is not None:
        layers, depth = [], 0.0
        for number, layer in enumerate(site.layers, start=1):
            layers.append((f"site.layers.{number}.ground", layer.ground, depth))
            depth += layer.thickness.si if layer.thickness else 0.0
    water = site.water_table.si if site.water_table else inf
    strata: list[tuple[KnownGround, float]] = []
    ends = [*(top for _, _, top in layers[1:]), inf]
    for (path, typed, top), end in zip(layers, ends, strict=True):
        try:
            if top < water:
                soaked = saturated_ground(typed, path, system, Assumptions()).slice  # listed only where there is water
                strata.append((replace(known_ground(typed, path, system, assumed), soaked=soaked), top))
            if water < end:
                strata.append((saturated_ground(typed, path, system, assumed), max(top, water)))
        except Mistake as mistake:
            found.append(mistake)
    if found:
        return None
    kept = [strata[0]] + [lower for upper, lower in pairwise(strata) if not _alike(upper[0].slice, lower[0].slice)]
    notes = tuple(dict.fromkeys(note for known, _ in strata for note in known.notes))
    return Grounds(
        tuple(Stratum(_hatched(known, len(kept) > 1), top, known.soaked, known.grain) for known, top in kept), notes
    )


def _alike(one: Slice, other: Slice) -> bool:
    """Whether two grounds are the same to heat."""
    return (one.conductivity, one.heat_capacity) == (other.conductivity, other.heat_capacity)


def _hatched(known: KnownGround, several: bool) -> Slice:
    """Layers are told apart by their hatch; one ground has none but the strokes at its surface."""
    hatch = f"ground-{known.grain}" if several and known.grain else known.slice.hatch
    return replace(known.slice, hatch=hatch, heaves=catalogue.may_heave(known.grain))


def stratum_words(resolved: Resolved) -> Iterator[str]:
    """Each stratum with how thick it is."""
    for upper, lower in pairwise(resolved.strata):
        yield f"{upper.slice.words}, {say.both(lower.top - upper.top, 'm', resolved.system)}"
    yield f"then {resolved.strata[-1].slice.words}"


def known_ground(typed: Ground | None, path: str, system: System, assumed: Assumptions) -> KnownGround:
    """The ground that is typed at a path, or the one that is assumed where none is. Raises Mistake."""
    if isinstance(typed, Soil):
        return _soil(typed, path, system, assumed)
    if isinstance(typed, TypedGround):
        return KnownGround(_typed(typed, path))
    try:
        ground = catalogue.ground(typed) if typed else catalogue.default_ground()
    except Mistake as mistake:
        raise mistake.placed(at=path) from None
    why = f"taken from the name {typed}" if typed else "nothing said of the ground; what ISO 13370 takes then"
    conductivity, heat_capacity = (
        assumed.take(Assumed(f"{path}.{key}", quantity.value, quantity.low, quantity.high, quantity.unit, why))
        for key, quantity in (("conductivity", ground.conductivity), ("heat-capacity", ground.heat_capacity))
    )
    rests_on = (ground.conductivity.path, ground.heat_capacity.path)
    return KnownGround(_slice(ground.label, ground.label, conductivity, heat_capacity, path, rests_on), ground.grain)


def saturated_ground(typed: Ground | None, path: str, system: System, assumed: Assumptions) -> KnownGround:
    """The same ground below the water table, every pore full. Raises Mistake."""
    if isinstance(typed, Soil):
        return _soil(typed, path, system, assumed, saturated=True)
    if isinstance(typed, TypedGround):
        return _typed_below_water(typed, path)
    try:
        ground = catalogue.ground(typed) if typed else catalogue.default_ground()
    except Mistake as mistake:
        raise mistake.placed(at=path) from None
    if ground.saturated is None:
        return known_ground(typed, path, system, assumed)
    why = f"{f'taken from the name {typed}' if typed else 'nothing said of the ground'}; every pore full of water"
    conductivity, heat_capacity = (
        assumed.take(
            Assumed(f"{path}.saturated-{key}", quantity.value, quantity.low, quantity.high, quantity.unit, why)
        )
        for key, quantity in zip(("conductivity", "heat-capacity"), ground.saturated, strict=True)
    )
    label = f"{ground.label}, {BELOW_WATER}"
    rests_on = (*(quantity.path for quantity in ground.saturated), "site.water-table")
    return KnownGround(_slice(label, label, conductivity, heat_capacity, path, rests_on), ground.grain)


def _typed_below_water(typed: TypedGround, path: str) -> KnownGround:
    """Ground of typed properties: what is not typed for below the water is as above it, and that is said."""
    above = _typed(typed, path)
    conductivity = typed.saturated_conductivity.si if typed.saturated_conductivity else above.conductivity
    capacity = typed.saturated_heat_capacity.si if typed.saturated_heat_capacity else above.heat_capacity
    told = (typed.saturated_conductivity or typed.conductivity).typed
    words = f"Ground, {told}, {BELOW_WATER}"
    rests_on = (f"{path}.saturated-conductivity", f"{path}.saturated-heat-capacity", "site.water-table")
    notes = () if typed.saturated_conductivity else (TYPED_FOR_ALL.format(path=path, told=told),)
    return KnownGround(_slice(f"Ground, {BELOW_WATER}", words, conductivity, capacity, path, rests_on), notes=notes)


def _slice(
    label: str, words: str, conductivity: float, heat_capacity: float, path: str, rests_on: tuple[str, ...]
) -> Slice:
    return Slice("ground", label, words, 1.0, conductivity, heat_capacity, "ground", path, rests_on)


def _typed(typed: TypedGround, path: str) -> Slice:
    capacity = typed.heat_capacity.si * (typed.density.si if typed.density else 1.0)
    words = f"Ground, {typed.conductivity.typed}"
    rests_on = (f"{path}.conductivity", f"{path}.heat-capacity")
    return _slice("Ground", words, typed.conductivity.si, capacity, path, rests_on)


def _soil(typed: Soil, path: str, system: System, assumed: Assumptions, *, saturated: bool = False) -> KnownGround:
    from ..physics import soil

    fine, dense, water = typed.kind == "fine", typed.dry_density.si, typed.moisture.si
    found = next(_unlikely(typed, path), None)
    if found is not None:
        raise found
    if typed.quartz is None:
        quartz = assumed.take(usual(f"quartz-{typed.kind}").assumed(f"{path}.quartz")) / 100.0
    else:
        quartz = typed.quartz.si
    full = soil.saturation_moisture(dense)
    filled = 1.0 if saturated else min(water / full, 1.0)
    conductivity = soil.johansen_conductivity(dense, filled, quartz, fine=fine, frozen=typed.frozen)
    capacity = soil.soil_heat_capacity(dense, full if saturated else water, frozen=typed.frozen)
    told = say.both(conductivity, "W/(m·K)", system)
    label = f"{typed.kind.capitalize()} soil{', frozen' if typed.frozen else ''}"
    label, wet = (f"{label}, {BELOW_WATER}", "") if saturated else (label, f", {typed.moisture.typed} water")
    words = f"{label}, {typed.dry_density.typed} dry{wet}"
    note = (
        f"{label}: {told} is worked out from dry density, moisture and quartz by Johansen's formula of 1975; "
        f"{100.0 * filled:.0f} % of its pores are full.{'' if saturated else _second_opinion(typed, system)}"
    )
    rests_on = tuple(f"{path}.{key}" for key in ("dry-density", "moisture", "kind", "quartz"))
    rests_on = (*rests_on, "site.water-table") if saturated else rests_on
    return KnownGround(_slice(label, words, conductivity, capacity, path, rests_on), typed.kind, (note,))


def _second_opinion(typed: Soil, system: System) -> str:
    """What the other formula says; nothing where the soil is drier than what was measured for it."""
    from ..physics import soil
    from ..physics.domain import OutOfDomain

    try:
        other = soil.kersten_conductivity(
            typed.dry_density.si, typed.moisture.si, fine=typed.kind == "fine", frozen=typed.frozen
        )
    except OutOfDomain:
        return ""
    return f" Kersten's of 1949, which does not ask for quartz, gives {say.both(other, 'W/(m·K)', system)}."


def _unlikely(typed: Soil, path: str) -> Iterator[Mistake]:
    """Soil that cannot be, or of which the formula says nothing."""
    from ..physics import soil

    dense, water = typed.dry_density, typed.moisture
    usually = "A soils report has between 1200 and 2200 kg/m³ (75 and 137 pcf)"
    if dense.si >= soil.SOLIDS:
        wrong = f"{dense.typed} is as dense as stone without a pore."
        yield Mistake(f"{path}.dry-density", f'"{dense.typed}"', wrong, f'{usually}; rock is ground = "rock".')
        return
    if dense.si < LIGHTEST:
        wrong = f"{dense.typed} is too light for mineral soil."
        yield Mistake(f"{path}.dry-density", f'"{dense.typed}"', wrong, f'{usually}; peat is ground = "peat".')
        return
    full = soil.saturation_moisture(dense.si)
    filled = soil.saturation(dense.si, water.si)
    least = 0.0 if typed.frozen else soil.LEAST_FINE if typed.kind == "fine" else soil.LEAST_COARSE
    if filled > 1.005:
        wrong = f"{water.typed} of water does not fit: the pores of soil so dense hold {100.0 * full:.1f} %."
        instead = "Look whether that density is of the moist soil; the dry one is wanted, and moisture by mass."
        yield Mistake(f"{path}.moisture", f'"{water.typed}"', wrong, instead)
    elif filled < least:
        wrong = f"Of soil with {water.typed} of water Johansen's formula says nothing: it is too dry."
        instead = f'Write moisture = "{ceil(1000.0 * full * least) / 10.0:.1f} %" or more, or type its conductivity.'
        yield Mistake(f"{path}.moisture", f'"{water.typed}"', wrong, instead)
