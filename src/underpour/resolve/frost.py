"""What a brief says of frost: its winter, its stages, and how the ground freezes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .. import catalogue
from ..brief.model import Brief
from ..brief.rooms import nobody_heats
from ..brief.tables.ground import Ground, Soil, TypedGround
from ..brief.tables.stage import What
from ..catalogue.freezing import FreezingGround, freezing_ground
from ..catalogue.records import Quantity, Use
from ..findings import Assumed
from ..measure import System, say
from ..mistakes import Mistake
from .air import Air
from .assumptions import Assumptions
from .resolved import GroundSurface, ResolvedEdge, Stratum

INDEX, FINES, DRAINED, WATER = "site.freezing-index", "site.fines", "site.drained-layer", "site.water-table"
DAY = 86400.0  # s
WATER_HEAT, ICE_HEAT = 4180.0, 2100.0  # J/(kg·K), as ``physics.soil`` has them
MOST_WATER = 0.75  # of the ground's heat capacity that its water can have


@dataclass(frozen=True, slots=True)
class Icy:
    """How one stratum freezes."""

    water: float  # kg/m³
    frozen_conductivity: float  # W/(m·K)
    frozen_heat_capacity: float  # J/(m³·K)
    range: float  # K
    unfrozen: float  # 1
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ResolvedStage:
    """A stage with its day, as part of the year that has gone by."""

    what: What
    start: float
    words: str  # "15 October"
    path: str  # "stage.1"


@dataclass(frozen=True, slots=True)
class Frost:
    """The winter that a floor is held to, and what it meets."""

    index: float | None  # of the design winter's air, K·s; None where nobody tells
    index_words: str
    mean_index: float  # of a year of mean weather, K·s
    stages: tuple[ResolvedStage, ...]
    fines: float | None  # share of the ground's grains, 1
    drained: float | None  # thickness of drained stone below build-up and footing, m
    icy: tuple[Icy, ...]  # one for each stratum
    freezing: float  # index of the ground's surface over that of the air
    thawing: float

    @property
    def of_the_winter(self) -> float:
        """The index that is reckoned with: the design winter's, or the mean year's in its place. [K·s]"""
        return self.mean_index if self.index is None else self.index


def frost(
    brief: Brief,
    use: Use,
    air: Air,
    mean: float,
    swing: complex,
    strata: Sequence[Stratum],
    surface: GroundSurface | None,
    system: System,
    assumed: Assumptions,
) -> Frost | None:
    """What the brief says of frost; None where it does not ask about it, and the room over it is heated.

    Raises Mistake where the index does not fit the place, or the water does not fit the ground.
    """
    from ..physics.frost.winter import mean_winter

    site = brief.site
    typed = (site.freezing_index, site.fines, site.drained_layer, *brief.stage)
    open_to_frost = use.room is None or nobody_heats(brief.floor, use)
    if all(each is None for each in typed) and not open_to_frost:
        return None
    if use.cold_floor:
        return None  # its frost comes from above, and stays
    days = site.freezing_index.si if site.freezing_index is not None else assumed.missing(INDEX)
    index = days * DAY if days is not None else None
    least = max(-mean, 0.0) * 365.2425 * DAY
    if index is not None and index < least:
        told = say.both(least / DAY, "degC·d", system)
        wrong = f"A year whose mean is {say.both(mean, 'degC', system)} has an index of {told} or more."
        typed_words = f'"{site.freezing_index.typed}"' if site.freezing_index is not None else ""
        raise Mistake(INDEX, typed_words, wrong, "Type the index of the same place as the temperatures.")
    known = mean_winter(air.months)
    factors = _factors(mean, swing, surface)
    return Frost(
        index=index,
        index_words=site.freezing_index.typed if site.freezing_index is not None else "",
        mean_index=max(known, least * 1.001),
        stages=tuple(
            ResolvedStage(stage.what, stage.from_.fraction, stage.from_.typed, f"stage.{n}")
            for n, stage in enumerate(brief.stage, start=1)
        ),
        fines=site.fines.si if site.fines is not None else _percent(assumed.missing(FINES)),
        drained=site.drained_layer.si if site.drained_layer is not None else None,
        icy=tuple(_icy(brief, strata, assumed)),
        freezing=factors[0],
        thawing=factors[1],
    )


def _percent(tried: float | None) -> float | None:
    return tried / 100.0 if tried is not None else None


def _factors(mean: float, swing: complex, surface: GroundSurface | None) -> tuple[float, float]:
    """Freezing and thawing index of the ground's surface over those of the air."""
    from ..physics.ground_surface import seasons

    if surface is None:
        return 1.0, 1.0
    air, ground = seasons(mean, abs(swing)), seasons(surface.mean, abs(surface.swing))
    freezing, thawing = (g / a if a > 0.0 else 1.0 for a, g in zip(air, ground, strict=True))
    return freezing, thawing


def _icy(brief: Brief, strata: Sequence[Stratum], assumed: Assumptions) -> Iterator[Icy]:
    """How each stratum freezes: as a soils report has it, as it is typed, or by its grain."""
    typed: dict[str, Ground | None] = {"site.ground": brief.site.ground}
    for n, layer in enumerate(brief.site.layers or (), start=1):
        typed[f"site.layers.{n}.ground"] = layer.ground
    for stratum in strata:
        yield _of_stratum(stratum, typed.get(stratum.slice.path), assumed)


def _of_stratum(stratum: Stratum, typed: Ground | None, assumed: Assumptions) -> Icy:
    known, made, path = freezing_ground(stratum.grain), stratum.slice, stratum.slice.path
    rests = [known.range.path, known.unfrozen.path]
    if isinstance(typed, Soil):
        water, frozen = _of_soil(typed, made.label.endswith("below water"))
        return _put(water, max(frozen, made.conductivity), made.heat_capacity, known, (f"{path}.moisture", *rests))
    water_path, frozen_path = f"{path}.water", f"{path}.frozen-conductivity"
    if isinstance(typed, TypedGround) and typed.water is not None:
        water = typed.water.si
        if water * WATER_HEAT > made.heat_capacity:
            wrong = f"Water of {typed.water.typed} alone stores more heat than this ground is said to."
            raise Mistake(water_path, f'"{typed.water.typed}"', wrong, "Look at heat-capacity, or at the water.")
    else:
        most = MOST_WATER * made.heat_capacity / WATER_HEAT
        value, low, high = (min(each, most) for each in (known.water.value, known.water.low, known.water.high))
        why = f"water in such ground: {_seen(known.water)}"
        water = assumed.take(Assumed(water_path, value, low, high, "kg/m³", why))
    if isinstance(typed, TypedGround) and typed.frozen_conductivity is not None:
        frozen = typed.frozen_conductivity.si
    else:
        more = known.frozen_over_unfrozen
        value, low, high = (made.conductivity * each for each in (more.value, more.low, more.high))
        why = f"more than unfrozen by {more.value:g} times: {_seen(more)}"
        frozen = assumed.take(Assumed(frozen_path, value, low, high, "W/(m·K)", why))
    return _put(water, frozen, made.heat_capacity, known, (water_path, frozen_path, *rests))


def _seen(known: Quantity) -> str:
    source = f"{known.source.title.partition(',')[0]} ({known.seen})" if known.seen != "practice" else ""
    return f"{known.where} ({source or 'common practice, no source'})"


def _of_soil(typed: Soil, saturated: bool) -> tuple[float, float]:
    """Water and frozen conductivity of a soils report's ground. [kg/m³, W/(m·K)]"""
    from ..physics import soil

    dense, fine = typed.dry_density.si, typed.kind == "fine"
    full = soil.saturation_moisture(dense)
    moisture = full if saturated else min(typed.moisture.si, full)
    quartz = typed.quartz.si if typed.quartz is not None else 0.5
    return dense * moisture, soil.johansen_conductivity(dense, moisture / full, quartz, fine=fine, frozen=True)


def _put(water: float, frozen: float, capacity: float, known: FreezingGround, rests_on: Sequence[str]) -> Icy:
    turned = water * (1.0 - known.unfrozen.value)
    return Icy(
        water,
        frozen,
        capacity - turned * (WATER_HEAT - ICE_HEAT),
        known.range.value,
        known.unfrozen.value,
        tuple(rests_on),
    )


def narrow_wings(edges: Sequence[ResolvedEdge | None], system: System) -> Iterator[Mistake]:
    """Wings of foam that do not reach past the footing below them: frost comes in round their end."""
    for edge in edges:
        if edge is None or not any(edge.footing):
            continue
        past = (edge.footing[0] - sum(leaf.thickness for leaf in edge.wall)) / 2.0
        for n, piece in enumerate(edge.pieces, start=1):
            if piece.face == "wing" and piece.out is not None and piece.out < past - 1e-6:
                wide, foot = (say.both(x, "m", system) for x in (piece.out, past))
                wrong = f"This wing, {wide} wide, ends above the footing, which stands out {foot} from the wall."
                instead = "Write out larger than that: a wing keeps frost from the ground beyond the footing."
                yield Mistake(f"{edge.path}.insulation.{n}.out", "", wrong, instead)


def hard_winter_words(mean_index: float, system: System) -> str:
    """How cold hard winters may be, from that of the mean year: no more than two places' ratios are known."""
    ratio = catalogue.hard_winters()
    low, high = (say.value(mean_index / DAY * times, "degC·d", system) for times in (ratio.low, ratio.high))
    return (
        f"The three coldest winters of thirty had {ratio.low:g} times the mean year's index in Nebraska and "
        f"{ratio.high:g} times in Brussels: here that would be {low} to {high}."
    )
