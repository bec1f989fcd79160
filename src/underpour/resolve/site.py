"""One brief resolved: place, room, ground, floor and edges, with every mistake that the catalogue reveals."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import nan

from .. import catalogue
from ..brief.bearing import loads_at_edges
from ..brief.model import Brief
from ..brief.paths import letter
from ..brief.rooms import nobody_heats
from ..brief.tables.floor import Seasons
from ..brief.tables.layer import Layer
from ..catalogue import year
from ..catalogue.records import Use
from ..findings import Assumed
from ..measure import Measure, System, say
from ..mistakes import Mistake, Mistakes
from .air import Air, air
from .air_spaces import with_lying_air
from .around import around
from .assumptions import Assumptions
from .bays import ResolvedBay, bay_notes, resolved_bays
from .beside import air_beside, beside_notes
from .covered import with_its_limit, without_covering
from .damp import damp
from .drawing import drawing_notes
from .edges import ON_FOOTING, resolve_edge
from .foams import Foams, for_good, unclear
from .frost import Frost, frost, narrow_wings
from .grounds import Grounds, known_grounds, stratum_words
from .held import held, zone_credits
from .joints import slab_joints
from .key_plan import area_words, key_plan, plan_notes
from .laid_so import laid_so
from .layers import layer_slice
from .loads import ResolvedLoad, slab_loads
from .money import money
from .resolved import Beside, GroundSurface, Resolved, ResolvedEdge, Room, Slice, WallLoad, stratum_at
from .ribs import resolved_ribs, rib_notes
from .soil_gas import soil_gas
from .support import Support, support
from .surface import ground_surface, surface_notes
from .unheated import unheated_room
from .warm import heated_floor
from .water import drowned, ground_water, water_notes
from .zone import site_zone

FROZEN = (
    "The mean of the year lies below freezing here: the ground may be frozen all year, and settles where a warm floor "
    "thaws it. Where the brief asks about frost (site.freezing-index), thaw below a heated floor is worked out. Ask a "
    "geotechnical engineer before building."
)

OLD_WALLS = (
    "The walls are taken to stand where they stood, level with the top of the old slab. Where concrete stands up "
    'beside the new floor, its edge is far colder: look on site, and draw such an edge (kind = "drawn").'
)

OLD_FOAM = (
    "Foam inside a frost wall, on a footing or below it lies under the old slab: it is counted as if it lay there "
    "already, since nobody can lay it now without breaking the old slab out."
)

FREEZER = (
    "A room kept below freezing freezes the ground under it, which lifts the floor unless the ground is kept warm or "
    "aired. That is not worked out here; a designer of cold stores must."
)


UNDER_THE_SKY = (
    "The slab is taken to follow shaded air through a year of mean weather. Sun, rain, snow lying on it and the heat "
    "of freezing are not counted in its temperatures; what is said of frost counts freezing, and a design winter where "
    "one is typed. A slab swept clear of snow freezes deeper than the lawn beside it."
)


def resolve(
    brief: Brief, tried: Mapping[str, float] | None = None, products: catalogue.Products | None = None
) -> Resolved:
    """Brief and catalogue to numbers.

    Parameters
    ----------
    brief : Brief
        As read, with whatever it leaves open.
    tried : mapping of str to float, optional
        By path, SI values to put in the place of what is assumed or missing; what the brief types stays.
    products : Products, optional
        What can be named; the line that comes with the tool unless it is given.

    Raises
    ------
    Mistakes
        All that can only be seen with the catalogue at hand: unknown boards, thicknesses that are not made, places that
        are unknown or ambiguous. They know their path; the reading gives them file and line.
    """
    assumed = Assumptions(tried)
    products = products or catalogue.shipped_products()
    found: list[Mistake] = []
    use = catalogue.use(brief.project.use)
    outdoors = _outdoors(brief, found)
    system = outdoors.system if outdoors is not None else brief.project.units or "SI"
    zone = site_zone(brief.site, outdoors, system, found) if outdoors is not None else None
    ground = known_grounds(brief.site, system, assumed, found)
    found += unclear(brief.foam, products, system)
    foams = Foams(products, brief.foam, assumed)
    floor = []
    for n, layer in enumerate(brief.floor.build_up, 1):
        try:
            made = layer_slice(layer, f"floor.build-up.{n}", system, foams)
        except Mistake as mistake:
            found.append(mistake)
            continue
        if layer.kind == "old-slab" and layer.conductivity is None:
            made = replace(made, conductivity=assumed.take(_old_concrete(f"floor.build-up.{n}")))
        floor.append(made)
    found += without_covering(floor, brief.floor)
    floor = with_its_limit(floor, brief.floor, assumed)
    letters = [edge.name or letter(n) for n, edge in enumerate(brief.edge)]
    plan = key_plan(brief, letters)
    edges = [
        resolve_edge(edge, named, on_plan.length, system, assumed, found, foams, outdoors=use.room is None)
        for edge, named, on_plan in zip(brief.edge, letters, plan.edges, strict=True)
        if edge.beside != "heated"
    ]
    loads = _wall_loads(brief, letters, system)
    standing_on = slab_loads(brief, letters, plan.floor, system, assumed, found)
    plan = replace(plan, loads=standing_on)
    carries = _support(brief, floor, edges, ground, system, assumed, found) if standing_on else None
    joints = slab_joints(brief, plan.floor, assumed) if standing_on else ()
    bays = _bays(brief, carries, edges, ground, system, foams, assumed, found) if carries is not None else ()
    ribs = resolved_ribs(brief, carries, system) if carries is not None else ()
    found += _touching(brief)
    found += _furnishing(brief)
    if not edges and not found:
        found.append(
            Mistake(
                "edge",
                "",
                "Every side lies beside a heated room: this floor has no edge to answer for.",
                'Set beside = "outdoors" for the sides that face outdoors.',
            )
        )
    found += narrow_wings(edges, system)
    how = laid_so(brief, plan.floor, [layer for layer in floor if layer.kind == "board"], products, found)
    prices = money(brief.money, products, assumed, found)
    gas = None
    if ground is not None and zone is not None and use.room is not None:
        of_ground = (ground.strata[0].slice.key, ground.strata[0].grain)
        gas = soil_gas(brief, floor, of_ground, plan.floor.area, zone.country, system, assumed, found)
    found += drowned(brief.site, [edge for edge in edges if edge is not None], floor, system)
    holds = held(brief, use, outdoors, assumed, found)
    if found or outdoors is None or zone is None or ground is None:
        raise Mistakes(found)
    outdoor_mean, outdoor_swing = year.harmonic(outdoors.months)
    room = _over_the_floor(brief, use, outdoor_mean, outdoor_swing, outdoors.path, assumed)
    heated = None
    if brief.tube is not None and nobody_heats(brief.floor, use):
        wrong = "A floor with tubes in it is heated, and the room over it is typed as unheated."
        instead = 'Take [tube] out, or write how warm the room is kept: inside = "50 F".'
        raise Mistakes([Mistake("tube", "", wrong, instead)])
    if brief.tube is not None and use.room is not None:
        coldest = min(outdoors.months)
        heated = heated_floor(brief.tube, floor, room, coldest, products, system, assumed, found)
        if found:
            raise Mistakes(found)
    moist = damp(brief, outdoors, room, assumed) if use.room is not None else None
    surface = ground_surface(brief.site, outdoor_mean, outdoor_swing, ground.strata[0].slice, assumed)
    winter = _frost(brief, use, outdoors, outdoor_mean, outdoor_swing, ground, surface, system, assumed)
    typed_beside = {f"edge.{named}": edge.beside for named, edge in zip(letters, brief.edge, strict=True)}
    standing = tuple(
        replace(
            edge,
            load=loads.get(edge.letter),
            gap=_gap(edge, standing_on, assumed),
            beside=air_beside(typed_beside[edge.path], edge.path, room, outdoor_mean, outdoor_swing, assumed),
        )
        for edge in edges
        if edge is not None
    )
    return Resolved(
        title=brief.project.title or use.label,
        use=use,
        system=system,
        place=outdoors.words,
        credits=(*outdoors.credits, *zone_credits(zone, holds)),
        notes=(
            *drawing_notes(brief, plan, system),
            *products.notes(),
            *outdoors.notes,
            *filter(None, (zone.noted().words,)),
            *ground.notes,
            *_notes(use, outdoor_mean, room),
            *_old_slab_notes(brief),
            *beside_notes(standing, room),
            *plan_notes(plan),
            *bay_notes(bays),
            *rib_notes(ribs),
            *surface_notes(brief.site, surface, outdoor_mean, outdoor_swing, system),
            *water_notes(brief.site, standing, floor, system, outdoors=use.room is None),
            *holds.notes,
        ),
        outdoor_mean=outdoor_mean,
        outdoor_swing=outdoor_swing,
        outdoor_hours=outdoors.hours,
        climate_path=outdoors.path,
        zone=zone,
        room=room,
        strata=ground.strata,
        floor=with_lying_air(floor, room.mean < outdoor_mean),
        area=plan.floor.area,
        perimeter=sum(edge.length for edge in standing),
        plan=plan,
        available_depth=_available_depth(brief, assumed),
        edges=standing,
        assumed=assumed.taken,
        comfort=use.floor_at_least,
        touched_by=brief.floor.touched_by,
        products=products,
        for_good=for_good(brief.foam, system),
        loads=standing_on,
        damp=moist,
        concrete_strength=_strength(brief, assumed),
        furnished=tuple(catalogue.furnishing(key) for key in brief.floor.furnishing or ()),
        covered_after=brief.floor.covered_after.si if brief.floor.covered_after else None,
        support=carries,
        bays=bays,
        ribs=ribs,
        joints=joints,
        soil_gas=gas,
        around=around(brief.site, zone),
        heated=heated,
        finish=brief.floor.finish or "",
        laying=how,
        money=prices,
        water=ground_water(brief.site, brief.floor),
        surface=surface,
        held=holds,
        frost=winter,
    )


def _frost(
    brief: Brief,
    use: Use,
    outdoors: Air,
    mean: float,
    swing: complex,
    ground: Grounds,
    surface: GroundSurface | None,
    system: System,
    assumed: Assumptions,
) -> Frost | None:
    """What the brief says of frost. Raises Mistakes where it cannot be so."""
    try:
        return frost(brief, use, outdoors, mean, swing, ground.strata, surface, system, assumed)
    except Mistake as mistake:
        raise Mistakes([mistake]) from None


def _strength(brief: Brief, assumed: Assumptions) -> float | None:
    """Of the slab's concrete, as typed or tried; None where nobody tells. [Pa]"""
    typed, tried = brief.floor.concrete_class, assumed.missing("floor.concrete-class")
    return typed.si if typed is not None else tried * 1e3 if tried is not None else None


def _support(
    brief: Brief,
    floor: list[Slice],
    edges: Sequence[ResolvedEdge | None],
    ground: Grounds | None,
    system: System,
    assumed: Assumptions,
    found: list[Mistake],
) -> Support | None:
    """What carries the loads; None where something of it could not be read."""
    known = [edge for edge in edges if edge is not None]
    if ground is None or not known or len(floor) < len(brief.floor.build_up):
        return None
    depth = max(known, key=lambda edge: edge.length).ground + sum(layer.thickness for layer in floor)
    under = stratum_at(ground.strata, depth)
    return support(brief.site, brief.floor, brief.foam, brief.tube, floor, under, system, assumed, found)


def _gap(edge: ResolvedEdge, loads: Sequence[ResolvedLoad], assumed: Assumptions) -> float | None:
    """Width of the sealed joint beside a wall on its own footing; None where nothing asks for it."""
    beside = edge.kind in ON_FOOTING and any(load.place == "plan" for load in loads)
    if edge.gap is not None or not beside:
        return edge.gap
    usual = catalogue.of_slabs("joint-gap")
    why = f"{usual.where} (common practice, no source)"
    return assumed.take(Assumed(f"{edge.path}.gap", usual.value, usual.low, usual.high, "m", why))


def _bays(
    brief: Brief,
    own: Support,
    edges: Sequence[ResolvedEdge | None],
    ground: Grounds | None,
    system: System,
    foams: Foams,
    assumed: Assumptions,
    found: list[Mistake],
) -> tuple[ResolvedBay, ...]:
    """Parts of the floor that lie on something else."""

    def layered(layers: Sequence[Layer], path: str) -> list[Slice] | None:
        made, before = [], len(found)
        for n, layer in enumerate(layers, 1):
            try:
                made.append(layer_slice(layer, f"{path}.{n}", system, foams))
            except Mistake as mistake:
                found.append(mistake)
        return made if len(found) == before else None

    def carried(floor: Sequence[Slice]) -> Support | None:
        as_built = brief.model_copy(update={"floor": brief.floor.model_copy(update={"build_up": ()})})
        return _support(as_built, [*floor], edges, ground, system, assumed, found)

    return resolved_bays(brief, own, system, layered, carried)


def _touching(brief: Brief) -> Iterator[Mistake]:
    """What is said to touch the foam and is not known, or is said twice."""
    typed = brief.floor.touched_by or ()
    for number, key in enumerate(typed, start=1):
        try:
            catalogue.agent(key)
        except Mistake as mistake:
            wrong, nothing = f"Nothing that touches foam is called {key}.", "touched-by = [] says that nothing does."
            yield Mistake(f"floor.touched-by.{number}", f'"{key}"', wrong, f"{mistake.instead}; {nothing}")
        if key in typed[: number - 1]:
            yield Mistake(f"floor.touched-by.{number}", f'"{key}"', f"{key} is said already.", "Say it once.")


def _furnishing(brief: Brief) -> Iterator[Mistake]:
    """What is said to lie or stand on the floor and is not known, or is said twice."""
    typed = brief.floor.furnishing or ()
    for number, key in enumerate(typed, start=1):
        try:
            catalogue.furnishing(key)
        except Mistake as mistake:
            yield mistake.placed(at=f"floor.furnishing.{number}")
        if key in typed[: number - 1]:
            yield Mistake(f"floor.furnishing.{number}", f'"{key}"', f"{key} is said already.", "Say it once.")


def _wall_loads(brief: Brief, letters: list[str], system: System) -> dict[str, WallLoad]:
    """The load of the wall at each edge that has one, by the edge's letter or name."""
    return {
        letters[index]: WallLoad(force.si, say.typed(force, "kN/m", system), f"load.{number}.force")
        for index, (number, force) in loads_at_edges(brief).items()
    }


def _old_concrete(path: str) -> Assumed:
    """What is taken for the concrete of an old slab, which nobody knows."""
    known = catalogue.material("old-slab").conductivity
    why = "taken as plain concrete: the mix of an old slab is not known"
    return Assumed(f"{path}.conductivity", known.value, known.low, known.high, known.unit, why)


def _notes(use: Use, outdoor_mean: float, room: Room) -> tuple[str, ...]:
    """What to know of ice in the ground, which no finding tells yet, and of what a slab outdoors meets."""
    if use.room is None:
        return (*((FROZEN,) if outdoor_mean < 0.0 else ()), UNDER_THE_SKY)
    return (*((FROZEN,) if outdoor_mean < 0.0 else ()), *((FREEZER,) if room.mean - abs(room.swing) < 0.0 else ()))


def _old_slab_notes(brief: Brief) -> tuple[str, ...]:
    """What is taken for granted about an old floor, which nobody typed."""
    if not any(layer.kind == "old-slab" for layer in brief.floor.build_up):
        return ()
    stands = any(edge.kind in ("frost-wall", "raft") for edge in brief.edge)
    under = any(_under_the_slab(piece.face, edge.kind) for edge in brief.edge for piece in edge.insulation)
    return (*((OLD_WALLS,) if stands else ()), *((OLD_FOAM,) if under else ()))


def _under_the_slab(face: str, kind: str) -> bool:
    return face in ("footing-top", "below-footing") or (face == "inside" and kind == "frost-wall")


def _outdoors(brief: Brief, found: list[Mistake]) -> Air | None:
    try:
        return air(brief.site, brief.project.units)
    except Mistake as mistake:
        found.append(mistake)
        return None


def _available_depth(brief: Brief, assumed: Assumptions) -> float | None:
    typed = brief.floor.available_depth
    return typed.si if typed is not None else assumed.missing("floor.available-depth")


def _over_the_floor(
    brief: Brief, use: Use, outdoor_mean: float, outdoor_swing: complex, path: str, assumed: Assumptions
) -> Room:
    if use.room is None or use.humidity is None:
        return Room(outdoor_mean, outdoor_swing, nan, (path,), path)
    inside = brief.floor.inside
    if inside == "unheated" or nobody_heats(brief.floor, use):
        return unheated_room(brief, outdoor_mean, outdoor_swing, path, assumed)
    return _room(brief, use, inside, outdoor_swing, assumed)


def _room(
    brief: Brief, use: Use, inside: Measure | Seasons | None, outdoor_swing: complex, assumed: Assumptions
) -> Room:
    humidity = brief.floor.humidity
    rests_on: tuple[str, ...] = ("floor.inside",)
    told = brief.floor.cooled is not None or use.cold_floor  # a floor kept frozen is no assumption
    cooled = bool(brief.floor.cooled) or use.cold_floor if told else assumed.take_word(_cooled(use)) == "yes"
    assert use.room is not None and use.humidity is not None
    if inside is None:
        room, why = use.room, f"usual for {use.label.lower()}"
        mean = assumed.take(Assumed("floor.inside", room.value, room.low, room.high, "degC", why))
        swing, rests_on = 0j, (room.path,)
    elif isinstance(inside, Seasons):
        mean = (inside.winter.si + inside.summer.si) / 2
        turn = outdoor_swing / abs(outdoor_swing) if outdoor_swing else 1.0
        swing = (inside.summer.si - inside.winter.si) / 2 * turn
    else:
        mean, swing = inside.si, 0j
    if humidity is None:
        low, value, high = (
            100 * q if use.humidity.unit == "1" else q
            for q in (use.humidity.low, use.humidity.value, use.humidity.high)
        )
        value = assumed.take(Assumed("floor.humidity", value, low, high, "%", f"usual for {use.label.lower()}"))
        return Room(mean, swing, value / 100.0, rests_on, use.humidity.path, cooled, told)
    return Room(mean, swing, humidity.si, rests_on, "floor.humidity", cooled, told)


def _cooled(use: Use) -> Assumed:
    """Whether a room of this use is kept cool in summer, which nobody typed."""
    kept = "such rooms are kept cool in summer" if use.cooled else "let go in summer unless it is said to be cooled"
    why = f"{kept} (common practice, no source)"
    return Assumed("floor.cooled", "yes" if use.cooled else "no", None, None, "1", why)


def size(resolved: Resolved) -> str:
    """How large the floor is and how much of its edge faces outdoors."""
    other = sum(edge.length for edge in resolved.edges if edge.beside is not None)
    edge, beside = (say.both(length, "m", resolved.system) for length in (resolved.perimeter - other, other))
    outdoors = f"{area_words(resolved.plan, resolved.system)}, with {edge} of edge that faces outdoors"
    return f"{outdoors} and {beside} beside other air" if other else outdoors


def summary(resolved: Resolved) -> tuple[str, ...]:
    """What is proposed, one line a layer and a line for each edge."""
    lines = [layer.words for layer in resolved.floor]
    if len(resolved.strata) > 1:
        lines.append(f"Ground, from the finished ground down: {'; '.join(stratum_words(resolved))}")
    for edge in resolved.edges:
        pieces = [f"{piece.board.words} ({piece.face.replace('-', ' ')})" for piece in edge.pieces]
        pieces += [f"{body.slice.words} (drawn)" for body in edge.drawn if body.slice.kind == "board"]
        foam = "; ".join(pieces)
        height = say.both(abs(edge.ground), "m", resolved.system)
        where = f"{height} {'above' if edge.ground > 0.0 else 'below'}" if edge.ground else "level with"
        next_to = f"{_next_to(edge.beside, resolved.system)}, " if edge.beside is not None else ""
        lines.append(
            f"Edge {edge.letter}, {edge.kind.replace('-', ' ')}, {say.both(edge.length, 'm', resolved.system)} long, "
            f"{next_to}"
            f"ground {where} the {'slab' if resolved.outdoors else 'floor'}: {foam or 'no foam at the edge'}"
        )
    return tuple(lines)


def _next_to(air: Beside, system: System) -> str:
    """What lies beside an edge, with its temperature by season where that swings."""
    coldest, warmest = (say.both(air.mean + end * abs(air.swing), "degC", system) for end in (-1, 1))
    if air.name == "unheated space":
        return "beside an unheated space"
    return f"beside air of {coldest} in winter and {warmest} in summer" if air.swing else f"beside air of {coldest}"
