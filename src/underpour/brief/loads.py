"""Loads on the slab: that each says what it is, how hard it presses, on what, and where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .. import catalogue
from ..catalogue.records import NamedLoad
from ..measure import Measure
from ..mistakes import Mistake, nearest
from ..outlines.floor import Floor
from ..outlines.side import Point
from .corners import read_corner
from .edges import slab_thickness
from .parts import Parts
from .paths import edge_index
from .plans import readable_floor
from .tables.floor import FloorTable
from .tables.load import Load

ROLLS = ("wheel", "axle", "vehicle")
WITH_AXLES = ("axle", "vehicle", "before-pour")
EVEN = ("uniform", "tank", "heater", "animals", "before-pour")  # may be told as a pressure
PADDED = ("rack-post", "post", "lift", "heater", "tank")
ANCHORED = ("rack-post", "post", "lift")
ANYWHERE = "anywhere"
PLACES = ("middle", "edge", "corner", ANYWHERE)
MOVES = (*ROLLS, "rack-post", "post", "lift", "animals")
HEAVIEST_WHEEL = 45e3  # N, 10,000 lb; a heavier one is usually an axle's number (common practice, no source)
STRONGEST_EN = 50e6  # Pa: up to C50/60 the formulas of EN 1992-1-1 Table 3.1 hold that are used here
SAME = 1e-3  # m: a line that ends so near to the edge of the floor ends at it
THINNEST = 0.075  # m, 3 in: no slab that carries anything is poured thinner (common practice, no source)

# Keys that only some kinds have; any of the others may stand in every load that stands on the slab.
_ONLY = {
    "pressure": EVEN,
    "everywhere": EVEN,
    "tyre": (*ROLLS, "before-pour"),
    "wheels": ("wheel", *WITH_AXLES),
    "track": WITH_AXLES,
    "heavier_axle": ("vehicle",),
    "from_": ("line",),
    "to": ("line",),
    "count": ("rack-post", "post", "lift", "line", "tank"),
    "spacing": ("rack-post", "post", "lift", "line", "tank"),
    "anchor_depth": ANCHORED,
    "pad": PADDED,
    "pad_thickness": PADDED,
}
_FORCE = {"line": "400 lb/ft", "axle": "10000 lb", "wheel": "5000 lb", "vehicle": "16000 lb"}


def kind_of(load: Load) -> str | None:
    """What a load is, by its own word or by the usual load that it is like; None where neither says."""
    if load.kind is not None:
        return load.kind
    like = like_of(load)
    return like.kind if like is not None else None


def like_of(load: Load) -> NamedLoad | None:
    """The usual load that stands for what is not typed; None where none is named, or none is called that."""
    try:
        return catalogue.named_load(load.like) if load.like is not None else None
    except Mistake:
        return None


def place_of(load: Load, unit: str) -> Point | None:
    """Its middle on the plan, m; None where its place is a word, or cannot be read."""
    try:
        return read_corner(load.at, unit) if load.at is not None else None
    except Mistake:
        return None


def ends_of(load: Load, unit: str) -> tuple[Point, Point] | None:
    """Where a line of load begins and ends, m; None where it does not say both."""
    if load.from_ is None or load.to is None:
        return None
    return read_corner(load.from_, unit), read_corner(load.to, unit)


def on_the_slab(loads: Sequence[Load | None]) -> Iterator[tuple[int, Load, str]]:
    """Every load but those of walls on footings: its number from 1, the load and its kind."""
    for number, load in enumerate(loads, start=1):
        kind = kind_of(load) if load is not None else None
        if load is not None and kind is not None and kind != "wall":
            yield number, load, kind


def unclear_slab_loads(parts: Parts, names: Sequence[str | None]) -> Iterator[Mistake]:
    """What is wrong with the loads that stand on the slab, and with a slab that shall carry them."""
    for number, load in enumerate(parts.loads, start=1):
        if load is not None:
            yield from _named(load, f"load.{number}")
    floor = readable_floor(parts.plan) if parts.plan is not None else None
    unit = parts.plan.unit if parts.plan is not None else "m"
    for number, load, kind in on_the_slab(parts.loads):
        at = f"load.{number}"
        yield from _keys(load, kind, at)
        yield from _presses(load, kind, at)
        yield from _wheels(load, kind, at)
        yield from _row(load, at)
        yield from _factored(load, at, parts)
        yield from _pad(load, at, parts)
        yield from _placed(load, kind, at, floor, unit, names)
    if any(True for _ in on_the_slab(parts.loads)):
        yield from _too_thin(parts)
    if parts.floor is not None:
        yield from _two_methods(parts.floor)


def _named(load: Load, at: str) -> Iterator[Mistake]:
    """A load that is nothing, or that is called what no load is."""
    if load.like is None:
        if load.kind is None:
            wrong = "A load needs kind: what it is; `like` says it too."
            yield Mistake(f"{at}.kind", "", wrong, 'Write kind = "wall".')
        return
    try:
        like = catalogue.named_load(load.like)
    except Mistake as mistake:
        near = nearest(load.like, [each.key for each in catalogue.named_loads()])
        hint = f"The nearest is {near[0]}. " if near else ""
        wrong = f"No usual load is called {load.like}."
        yield Mistake(f"{at}.like", mistake.typed, wrong, f"{hint}All of them: underpour catalogue list loads")
        return
    if load.kind is not None and load.kind != like.kind:
        wrong = f"{like.key} is {_one(like.kind)}, and kind says {_one(load.kind)}."
        yield Mistake(f"{at}.kind", "", wrong, "Take kind out, or take like out and write the numbers.")


def _one(kind: str) -> str:
    """
    >>> _one("axle"), _one("rack-post"), _one("animals")
    ('an axle', 'a rack post', 'animals')
    """
    said = kind.replace("-", " ")
    if kind in ("animals", "before-pour"):
        return "animals" if kind == "animals" else "there before the pour"
    return f"{'an' if said[0] in 'aeiou' else 'a'} {said}"


def _keys(load: Load, kind: str, at: str) -> Iterator[Mistake]:
    """Keys that this kind of load has no use for, and two that say the same."""
    for name, kinds in _ONLY.items():
        if getattr(load, name) is not None and kind not in kinds:
            key = name.rstrip("_").replace("_", "-")
            others = ", ".join(each for each in kinds if each != "before-pour")
            yield Mistake(
                f"{at}.{key}", "", f"{_one(kind).capitalize()} has no {key}.", f"Take it out; it is for: {others}."
            )
    if load.plate is not None and load.tyre is not None:
        wrong = "plate and tyre both say how large the contact is."
        yield Mistake(f"{at}.tyre", "", wrong, "Keep one: the plate where its sides are known, else the tyre.")
    if load.everywhere is False:
        yield Mistake(f"{at}.everywhere", "", "A load is everywhere, or it says where.", "Take everywhere out.")
    if load.everywhere and (load.plate is not None or load.at is not None):
        other = "plate" if load.plate is not None else "at"
        wrong = f"everywhere says that it lies all over the floor, and {other} that it does not."
        yield Mistake(f"{at}.{other}", "", wrong, "Keep one of the two.")
    if load.force is not None and load.everywhere:
        yield Mistake(f"{at}.force", "", "All over the floor a force is no load.", 'Write pressure = "125 psf".')


def _presses(load: Load, kind: str, at: str) -> Iterator[Mistake]:
    """A load that does not say how hard it presses, or says it twice and differently."""
    like = like_of(load)
    usual = like is not None and (like.force or like.pressure or like.line_force) is not None
    if load.force is None and load.pressure is None and not usual:
        if kind in ("uniform", "tank", "animals"):
            wrong, instead = "A load needs pressure: what it presses on each area.", 'Write pressure = "125 psf".'
            yield Mistake(f"{at}.pressure", "", wrong, instead)
        else:
            example = _FORCE.get(kind, "6500 lb")
            wrong = "A load needs force: what it presses with, unfactored."
            yield Mistake(f"{at}.force", "", wrong, f'Write force = "{example}".')
    if load.force is not None and load.pressure is not None and load.plate is not None:
        area = _area(load.plate.sizes)
        told = load.force.si / area
        if abs(told - load.pressure.si) > 0.05 * told:
            wrong = f"{load.force.typed} on {load.plate.typed} is not {load.pressure.typed}."
            yield Mistake(f"{at}.pressure", f'"{load.pressure.typed}"', wrong, "Keep force or pressure.")


def _area(sizes: Sequence[Measure]) -> float:
    """Of a plate by its sides, or of a round one by its diameter. [m²]"""
    return sizes[0].si * sizes[1].si if len(sizes) == 2 else 0.785398163 * sizes[0].si ** 2


def _wheels(load: Load, kind: str, at: str) -> Iterator[Mistake]:
    """A wheel with an axle's force; an axle with one wheel or an odd number of them."""
    if kind == "wheel" and load.force is not None and load.force.si > HEAVIEST_WHEEL and load.wheels is None:
        wrong = f"{load.force.typed} on one wheel? That is what a loaded axle brings."
        instead = 'Write kind = "axle" if it is the axle; wheels = 1 says that one wheel carries it.'
        yield Mistake(f"{at}.force", f'"{load.force.typed}"', wrong, instead)
    if kind == "wheel" and load.wheels not in (None, 1):
        yield Mistake(f"{at}.wheels", "", f"A wheel is one, not {load.wheels}.", 'Write kind = "axle".')
    barrow = kind == "before-pour" and load.wheels == 1
    if kind in WITH_AXLES and load.wheels is not None and (load.wheels % 2 or load.wheels > 8) and not barrow:
        wrong = f"An axle does not have {load.wheels} wheels."
        yield Mistake(f"{at}.wheels", "", wrong, "Write 2, or 4 where they stand in pairs; up to 8.")


def _row(load: Load, at: str) -> Iterator[Mistake]:
    like = like_of(load)
    usual = like is not None and like.spacing is not None
    if load.spacing is not None and load.count is None:
        wrong = "spacing is told, and not how many stand in the row."
        yield Mistake(f"{at}.spacing", "", wrong, "Write count = 3, or take spacing out.")
    if load.count is not None and load.count > 1 and load.spacing is None and not usual:
        wrong = f"{load.count} are told, and not how far they stand apart."
        yield Mistake(f"{at}.count", "", wrong, 'Write spacing = "8 ft", or take count out.')


def _placed(
    load: Load, kind: str, at: str, floor: Floor | None, unit: str, names: Sequence[str | None]
) -> Iterator[Mistake]:
    """A place that is none, and one that does not lie on the floor."""
    if (load.from_ is None) != (load.to is None):
        one, other = ("from", "to") if load.from_ is not None else ("to", "from")
        yield Mistake(f"{at}.{one}", "", f"The line says {one} and not {other}.", f'Write {other} = "20 2" as well.')
    if load.from_ is not None and load.at is not None:
        yield Mistake(f"{at}.at", "", "from and to say where the line lies.", "Take at out.")
    if load.at == ANYWHERE and kind not in MOVES:
        instead = "Write where it stands; what may come anywhere: " + ", ".join(MOVES) + "."
        yield Mistake(f"{at}.at", f'"{ANYWHERE}"', f"{_one(kind).capitalize()} stays where it is.", instead)
    if load.at == ANYWHERE and load.pad is not None:
        wrong = "A pad lies at one place, and at says that this load may come anywhere."
        yield Mistake(f"{at}.pad", "", wrong, "Take the pad out, or write where the load stands.")
    if load.from_ is not None and load.from_ == load.to:
        yield Mistake(f"{at}.to", f'"{load.to}"', "The line ends where it begins.", "Write where it ends.")
    for key, typed in (("from", load.from_), ("to", load.to), ("at", load.at)):
        if typed is None or (key == "at" and (typed in PLACES or edge_called(typed, names) is not None)):
            continue
        try:
            point = read_corner(typed, unit)
        except Mistake as mistake:
            yield _no_place(f"{at}.{key}", typed, key, names, mistake)
            continue
        if floor is not None and not floor.holds(point) and (key == "at" or _off(floor, point) > SAME):
            wrong = f"{typed} does not lie on the floor."
            instead = "Write its middle on the plan, x and y as in the outline."
            yield Mistake(f"{at}.{key}", f'"{typed}"', wrong, instead)


def _off(floor: Floor, point: Point) -> float:
    """How far a place lies from the nearest side of the floor. [m]"""
    return min(side.distance(point) for ring in floor.rings for side in ring.sides)


def edge_called(typed: str, names: Sequence[str | None]) -> int | None:
    """Which edge a place names, by its letter or its name; None where it names none."""
    found = edge_index(typed, names)
    return found if found is not None else edge_index(typed.removeprefix("edge ").strip(), names)


def _no_place(at: str, typed: str, key: str, names: Sequence[str | None], unread: Mistake) -> Mistake:
    if key != "at" or typed[:1].isdecimal():
        return Mistake(at, f'"{typed}"', unread.wrong, unread.instead)
    known = [*PLACES, *(f"edge {name}" for name in names if name)]
    near = nearest(typed, known)
    hint = f"The nearest is {near[0]}. " if near else ""
    instead = (
        f'{hint}Write middle, edge, corner, anywhere, an edge ("edge A"), or its middle on the plan: at = "12 14".'
    )
    return Mistake(at, f'"{typed}"', f"No place on the floor is called {typed}.", instead)


def _factored(load: Load, at: str, parts: Parts) -> Iterator[Mistake]:
    """A factor on a load beside a factor on the strength, or on a load that nobody typed."""
    if load.factored is None:
        return
    typed = f"{load.factored:g}"
    if load.force is None and load.pressure is None:
        wrong = "factored tells what a typed force was multiplied by, and no force is typed."
        yield Mistake(f"{at}.factored", typed, wrong, "Take it out: usual loads are unfactored.")
    elif parts.floor is not None and parts.floor.concrete_method in (None, "allowable-stress"):
        wrong = f"This load has a factor of {typed} in it; by allowable stress the strength has another: two methods."
        instead = 'Write the load without its factor, or the method it comes from: concrete-method = "lrfd" in [floor].'
        yield Mistake(f"{at}.factored", typed, wrong, instead)


def _pad(load: Load, at: str, parts: Parts) -> Iterator[Mistake]:
    """A pad of which a size is missing, that is no thicker than the slab or smaller than what stands on it."""
    if load.pad is None and load.pad_thickness is None:
        return
    if load.pad is None or load.pad_thickness is None:
        one, other, example = ("pad", "pad-thickness", "10 in") if load.pad else ("pad-thickness", "pad", "4 ft x 4 ft")
        yield Mistake(f"{at}.{one}", "", f"{one} is told, and {other} is not.", f'Write {other} = "{example}" as well.')
        return
    slab = slab_thickness(parts.layers)
    if slab is not None and load.pad_thickness.si <= slab.si:
        wrong = f"{load.pad_thickness.typed} is no thicker than the slab of {slab.typed}."
        instead = "Write how thick the concrete is there in all, or take the pad out."
        yield Mistake(f"{at}.pad-thickness", f'"{load.pad_thickness.typed}"', wrong, instead)
    if load.plate is not None and min(_sides(load.pad.sizes)) < min(_sides(load.plate.sizes)):
        wrong = f"A pad of {load.pad.typed} is smaller than what stands on it, {load.plate.typed}."
        yield Mistake(f"{at}.pad", f'"{load.pad.typed}"', wrong, "Write both sides of the pad.")
    if load.count is not None and load.count > 1:
        wrong = "A pad is below one load, and this is a row of them."
        yield Mistake(f"{at}.pad", "", wrong, "Write each of them as a [[load]] of its own, with its pad.")
    if load.at is not None and load.at in ("edge", "corner"):
        wrong = f"How far this pad reaches from the {load.at} is not told."
        yield Mistake(f"{at}.at", f'"{load.at}"', wrong, 'Write its middle on the plan: at = "12 14".')


def _sides(sizes: Sequence[Measure]) -> tuple[float, float]:
    """Both sides, of something round its diameter twice. [m]"""
    return sizes[0].si, sizes[-1].si


def _two_methods(floor: FloorTable) -> Iterator[Mistake]:
    """A factor on the strength beside a method that has its own, and a strength that its formulas do not know."""
    method = floor.concrete_method
    if method in (None, "allowable-stress"):
        return
    if floor.safety_factor is not None:
        wrong = f"{method} has factors on loads and strength already; safety-factor is another method."
        yield Mistake("floor.safety-factor", f"{floor.safety_factor:g}", wrong, "Take it out, or take out the method.")
    if method == "en-1990" and floor.concrete_class is not None and floor.concrete_class.si > STRONGEST_EN:
        wrong = f"{floor.concrete_class.typed} is stronger than C50/60; other formulas of EN 1992-1-1 hold for it."
        instead = "Write a class up to C50/60, which floors have."
        yield Mistake("floor.concrete-class", f'"{floor.concrete_class.typed}"', wrong, instead)


def _too_thin(parts: Parts) -> Iterator[Mistake]:
    """A floor without a slab, or with one that is too thin to carry anything."""
    if parts.typed_layers is None or any(layer is None for layer in parts.layers):
        return
    slab = slab_thickness(parts.layers)
    if slab is None:
        wrong = "Loads stand on this floor, and its build-up has no concrete to carry them."
        yield Mistake("floor.build-up", "", wrong, 'Write the slab as its first layer: { concrete = "5 in" }.')
    elif slab.si < THINNEST:
        n = next(n for n, layer in enumerate(parts.layers, start=1) if layer is not None and layer.concrete is not None)
        wrong = f"{slab.typed} of concrete is thinner than any slab that carries something is poured."
        instead = "Write 3 in (75 mm) or more; 4 in is usual below people and cars."
        yield Mistake(f"floor.build-up.{n}.concrete", f'"{slab.typed}"', wrong, instead)
