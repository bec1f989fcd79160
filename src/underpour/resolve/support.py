"""What a loaded slab lies on, as springs: foam by foam, gravel, ground; and the concrete that lies on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .. import catalogue
from ..brief.tables.floor import FloorTable
from ..brief.tables.foam import FoamTable
from ..brief.tables.site import Site
from ..brief.tables.tube import Tube
from ..catalogue.records import Quantity
from ..findings import Assumed, Basis
from ..measure import System, say
from ..mistakes import Mistake
from .assumptions import Assumptions
from .resolved import Slice, Stratum

KILO, MEGA = 1e3, 1e6
GRAVITY = 9.80665
LOOSE = ("gravel", "sand")
FLOORS = "floors on the ground are mostly held so; the engineer names the method of the job"
POURED = ("concrete", "screed", "old-slab")


@dataclass(frozen=True, slots=True)
class Bedded:
    """One board below the slab, as a spring: from the softest to the stiffest that it may be."""

    slice: Slice
    passing: tuple[float, float] | None  # Pa, Young's modulus; None where nothing is known
    standing: tuple[float, float] | None  # Pa, after decades; None where no creep is known
    basis: tuple[Basis, ...]
    rests_on: tuple[str, ...]
    typed: bool  # whether the brief says how stiff it is


@dataclass(frozen=True, slots=True)
class Ground:
    """How stiff the ground is below the floor, and what may press on it."""

    modulus: float  # N/m³
    low: float  # N/m³
    high: float  # N/m³
    modulus_path: str
    words: str  # "27 MN/m³ (98 lb/in³), as the brief types it"
    basis: tuple[Basis, ...]
    bearing: float  # Pa
    bearing_path: str
    bearing_basis: tuple[Basis, ...]


@dataclass(frozen=True, slots=True)
class Concrete:
    """The slab that carries."""

    thickness: float  # m
    strength: float  # Pa, of a cylinder
    words: str
    paths: tuple[str, ...]
    thickness_path: str
    method: str  # how it is held to its loads: "allowable-stress", "lrfd", "en-1990"
    safety: float | None  # factor on its strength, where the brief types it


@dataclass(frozen=True, slots=True)
class Support:
    """Slab, foam, bed and ground of a floor on which something stands."""

    concrete: Concrete
    boards: tuple[Bedded, ...]
    loose: float  # m of gravel and sand between foam and ground
    ground: Ground
    own_weight: float  # Pa, of what lies above the foam
    whole_weight: float  # Pa, on the ground
    on_old_slab: bool
    heated: bool  # whether tubes lie in the slab
    friction: float | None  # below the slab, as tested; None where it is not told
    tube_depth: float | None  # m, from the top of the slab to their tops; None where it is not told


def support(
    site: Site,
    typed_floor: FloorTable,
    typed_foam: FoamTable,
    tube: Tube | None,
    floor: Sequence[Slice],
    under: Stratum,
    system: System,
    assumed: Assumptions,
    found: list[Mistake],
) -> Support:
    """All that carries the loads, what nobody typed listed as assumed; ground that bears too little in ``found``."""
    own, whole = _weights(floor)
    ground = _ground(site, under, system, assumed)
    if site.soil_bearing is not None and site.soil_bearing.si < whole:
        wrong = f"The floor alone weighs {say.both(whole / KILO, 'kPa', system)}, more than this ground bears."
        instead = "Look at the unit: soils reports say lb/ft² (psf) or kPa. Ground so soft asks for an engineer."
        found.append(Mistake("site.soil-bearing", f'"{site.soil_bearing.typed}"', wrong, instead))
    if site.base is None:
        why = "nothing said of what it is laid on; loads are answered on a base that is compacted and not frozen"
        assumed.take_word(Assumed("site.base", "compacted", None, None, "1", why))
    boards = tuple(_bedded(layer, typed_foam) for layer in floor if layer.kind == "board")
    loose = sum(layer.thickness for layer in floor if layer.kind in LOOSE)
    return Support(
        _concrete(typed_floor, floor, system, assumed),
        boards,
        loose,
        ground,
        own,
        whole,
        any(layer.kind == "old-slab" for layer in floor),
        tube is not None,
        typed_floor.friction if typed_floor.friction is not None else assumed.missing("floor.friction"),
        _tube_depth(tube, assumed),
    )


def _tube_depth(tube: Tube | None, assumed: Assumptions) -> float | None:
    if tube is None:
        return None
    return tube.depth_from_top.si if tube.depth_from_top is not None else assumed.missing("tube.depth-from-top")


def _weights(floor: Sequence[Slice]) -> tuple[float, float]:
    """Of what lies above the lowest foam, and of the whole build-up; all that is mineral as heavy as concrete. [Pa]"""
    density = catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    last = max((n for n, layer in enumerate(floor) if layer.kind == "board"), default=len(floor))
    heavy = [layer.thickness if layer.kind in (*POURED, *LOOSE) else 0.0 for layer in floor]
    return tuple(sum(part) * density.value * GRAVITY for part in (heavy[:last], heavy))  # type: ignore[return-value]


def _concrete(typed: FloorTable, floor: Sequence[Slice], system: System, assumed: Assumptions) -> Concrete:
    slab = next(layer for layer in floor if layer.kind == "concrete")
    if typed.concrete_class is not None:
        strength, words = typed.concrete_class.si, say.typed(typed.concrete_class, "kPa", system)
    else:
        usual = catalogue.of_slabs("untested-strength")
        why = f"{usual.where} (common practice, no source)"
        taken = Assumed("floor.concrete-class", usual.value, usual.low, usual.high, usual.unit, why)
        strength = assumed.take(taken) * KILO
        words = f"{say.both(strength / KILO, 'kPa', system)}, assumed"
    method = typed.concrete_method or assumed.take_word(
        Assumed("floor.concrete-method", "allowable-stress", None, None, "1", f"{FLOORS} (common practice, no source)")
    )
    paths = ("floor.concrete-class", slab.path)
    return Concrete(slab.thickness, strength, words, paths, slab.path, method, typed.safety_factor)


def _bedded(layer: Slice, typed: FoamTable) -> Bedded:
    board = layer.record
    assert board is not None  # foam is always of a board
    from ..design import stiffness

    known = stiffness(board)
    passing, standing = known.passing, known.standing
    told = (*known.short, *known.long)
    basis = tuple(dict.fromkeys(each for modulus in told for each in modulus.basis))
    rests_on = tuple(dict.fromkeys(path for modulus in told for path in modulus.rests_on))
    short, long = typed.modulus.get(board.key), typed.modulus_for_good.get(board.key)
    if short is not None:
        passing = (short.si, short.si)
        standing = None if standing is None else (min(standing[0], short.si), short.si)
    if long is not None:
        standing = (long.si, max(long.si, passing[1] if passing else long.si))
    for key, measure in (("modulus", short), ("modulus-for-good", long)):
        if measure is not None:
            basis = (*basis, Basis("the brief", f"foam.{key}.{board.key}", "document"))
            rests_on = (*rests_on, f"foam.{key}.{board.key}")
    return Bedded(layer, passing, standing, basis, rests_on, short is not None)


def _ground(site: Site, under: Stratum, system: System, assumed: Assumptions) -> Ground:
    value, low, high, path, words, basis = _modulus(site, under, system, assumed)
    presumed = catalogue.presumed_bearing(under.grain)
    if site.soil_bearing is not None:
        bearing, at = site.soil_bearing.si, "site.soil-bearing"
        basis_of_bearing = (Basis("the brief", at, "document"),)
    else:
        why = f"nobody tested the ground: {presumed.where}"
        taken = Assumed("site.soil-bearing", presumed.value, presumed.low, presumed.high, presumed.unit, why)
        bearing, at, basis_of_bearing = assumed.take(taken) * KILO, "site.soil-bearing", (presumed.basis(),)
    return Ground(value, low, high, path, words, basis, bearing, at, basis_of_bearing)


def _modulus(
    site: Site, under: Stratum, system: System, assumed: Assumptions
) -> tuple[float, float, float, str, str, tuple[Basis, ...]]:
    """k of the ground with its range: a plate test, a tested CBR, or the ground's kind."""
    if site.subgrade_modulus is not None:
        si, path = site.subgrade_modulus.si, "site.subgrade-modulus"
        said = say.typed(site.subgrade_modulus, "MN/m³", system)
        return si, si, si, path, f"{said}, as the brief types it", (Basis("the brief", path, "document"),)
    if site.cbr is not None:
        found = catalogue.modulus_by_cbr(100.0 * site.cbr.si)
        return *_mega(found), "site.cbr", f"{_said(found.value, system)}, by CBR {site.cbr.typed}", (found.basis(),)
    found = catalogue.subgrade_modulus(under.grain)
    why = f"by the ground's kind, nobody tested it: {found.where}"
    value = assumed.take(Assumed("site.subgrade-modulus", found.value, found.low, found.high, found.unit, why))
    _, low, high = _mega(found)
    words = f"{_said(value, system)}, by the ground's kind"
    return (
        value * MEGA,
        min(low, value * MEGA),
        max(high, value * MEGA),
        "site.subgrade-modulus",
        words,
        (found.basis(),),
    )


def _mega(found: Quantity) -> tuple[float, float, float]:
    return found.value * MEGA, found.low * MEGA, found.high * MEGA


def _said(meganewtons: float, system: System) -> str:
    return say.both(meganewtons, "MN/m³", system)
